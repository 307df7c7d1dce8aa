package main

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/tui"
	"bypeg/tui/config"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// The hours are reckoned by the maker's own pace where the piece worked last tells one.
func TestFitGoesByThePaceOfThePieceWorkedLast(t *testing.T) {
	data := t.TempDir()
	p := &program{getenv: func(string) string { return "" }}
	p.flags.data = data
	p.chosen.settings = config.Default()
	assert.Zero(t, p.desk().Pace(), "nobody has worked yet")

	now := time.Date(2026, 3, 1, 19, 0, 0, 0, time.UTC)
	d := p.desk()
	d.Env.Now = func() time.Time { return now }
	text, _ := exampleNamed("quay-mat")
	o, err := d.Work(tui.Source{Name: "quay-mat", Shown: "quay-mat", Text: text})
	require.NoError(t, err)
	piece := d.Start(o)
	// Twelve stitches a row, and a row a minute.
	for row := 1; row <= 8; row++ {
		now = now.Add(time.Minute)
		piece.Saver.Put(track.Event{Act: track.Stepped, Place: pattern.Place{Phase: pattern.Working, Row: row}})
		saved, ok := piece.Saver.Next()
		require.True(t, ok)
		require.NoError(t, saved.Err)
	}
	_, ok := d.Close()
	require.True(t, ok)

	before, err := save.List(save.System(""), filepath.Join(data, "pieces"))
	require.NoError(t, err)
	assert.InDelta(t, 12, p.desk().Pace(), 1e-9)
	after, err := save.List(save.System(""), filepath.Join(data, "pieces"))
	require.NoError(t, err)
	assert.Equal(t, before, after, "it only looked")
	assert.Contains(t, output(t, "fit", "quay-mat", "--data", data), "at your own pace, 12 a minute")
	assert.Contains(t, output(t, "fit", "quay-mat", "--data", data, "--pace", "25"), "at 25 a minute")
}
