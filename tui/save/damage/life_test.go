package damage_test

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/tui/internal/disk"
	"bypeg/tui/save"
)

const (
	id       = "k7q2"
	journal  = "journal-0001.txt"
	copyName = "place.toml"

	records  = 40
	widened  = 20 // the record of the change of the pattern
	narrower = "pattern = 1\npegs = 26\n"
	wider    = "pattern = 1\npegs = 30\n"
)

var (
	root  = string(filepath.Separator) + "pieces"
	begin = time.Date(2026, 1, 2, 19, 0, 0, 0, time.FixedZone("", 3600))
)

func inPiece(name string) string { return filepath.Join(root, id, name) }

// envOn is the world of the store on a disk: each look at the clock is a minute later.
func envOn(d *disk.Disk, id string) save.Env {
	now := begin
	return save.Env{
		FS:     d,
		Now:    func() time.Time { now = now.Add(time.Minute); return now },
		NewID:  func() string { return id },
		Holder: "pid 4711",
	}
}

// life is a piece that is sound: all that is true of it.
type life struct {
	disk    *disk.Disk
	records []save.Record // of its journal, oldest first
	journal []byte
	copy    []byte // place.toml, up to date
	behind  []byte // place.toml as it was at the change of the pattern
	foreign []byte // the journal of another piece, worked alike
}

func newLife(t testing.TB) *life {
	t.Helper()
	l := &life{}
	l.disk, l.behind = worked(t, id, 0)
	l.journal, l.copy = read(t, l.disk, inPiece(journal)), read(t, l.disk, inPiece(copyName))
	const another = "m3w8"
	other, _ := worked(t, another, 3)
	l.foreign = read(t, other, filepath.Join(root, another, journal))

	p, o, err := save.Open(envOn(l.disk, id), root, id)
	require.NoError(t, err)
	require.NoError(t, p.Close())
	require.Equal(t, records, o.History.Len())
	require.Nil(t, o.Question)
	require.Empty(t, o.Notices)
	l.records = slices.Collect(o.History.All())
	return l
}

// worked is a disk with a piece of forty records, of all kinds that need no question,
// and its place.toml at the change of the pattern. Pieces with another shift were at other
// places, or one and the same at another time.
func worked(t testing.TB, id string, shift int) (d *disk.Disk, behind []byte) {
	t.Helper()
	d = disk.New()
	env := envOn(d, id)
	now := env.Now
	env.Now = func() time.Time { return now().AddDate(0, 0, shift) }
	p, err := save.Begin(env, root, save.New{
		Title: `Sluice "Mat"`, Source: "mats/sluice.toml", PatternText: []byte(narrower),
		Hand: pattern.LeftHand, Way: pattern.DefaultWay(pattern.LeftHand), Of: 26,
	})
	require.NoError(t, err)
	for n := 2; n <= records; n++ {
		if n != widened {
			require.NoError(t, p.Append([]save.Step{stepOf(n, shift)}))
			continue
		}
		require.NoError(t, p.ChangePattern([]byte(wider), placeOf(n, shift), 30, ""))
		behind = read(t, d, filepath.Join(root, id, copyName))
	}
	require.NoError(t, p.Close())
	return d, behind
}

// stepOf is the step of the n-th record.
func stepOf(n, shift int) save.Step {
	s := save.Step{Kind: save.Forward, Place: placeOf(n, shift), Of: 26}
	switch n % 10 {
	case 3:
		s.Kind = save.Back
	case 4:
		s.Kind, s.Text = save.Noted, fmt.Sprintf("blue \"B\" sum=%08x, żółta", n)
	case 5:
		s.Kind = save.Jump
	case 6:
		s.Kind = save.Undo
	case 7:
		s.Kind = save.Redo
	}
	return s
}

// placeOf is the place of the n-th record. No two have the same.
func placeOf(n, shift int) pattern.Place {
	return pattern.Place{Phase: pattern.Working, Row: 3 + n/4, Done: (n*7 + shift) % 26}
}

func read(t testing.TB, d *disk.Disk, path string) []byte {
	t.Helper()
	data, err := d.ReadFile(path)
	require.NoError(t, err)
	return data
}

// last is the record with the place.
func (l *life) last() save.Record { return l.records[records-1] }

// lines are the lines of the journal with their newlines. The first is the header, so
// that the n-th is that of record n.
func (l *life) lines() [][]byte {
	lines := bytes.SplitAfter(l.journal, []byte("\n"))
	return lines[:len(lines)-1] // behind the last newline there is nothing
}
