package track_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/track"
)

func TestHowAPlaceFoundDiffersFromTheOneCounted(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(12, 2, 2, 4))
	o := pattern.Order{Pattern: p, Way: p.Way}
	row := func(row, done int) pattern.Place {
		return pattern.Place{Phase: pattern.Working, Row: row, Done: done}
	}
	for _, c := range []struct {
		at, counted pattern.Place
		want        string
	}{
		{row(3, 0), pattern.Start(), ""},
		{row(3, 2), row(3, 2), "that is where you left off"},
		{row(3, 0), row(3, 2), "what was counted after that, up to row 3 peg 3, is not in the fabric"},
		{row(6, 0), row(3, 2), "you are further than the program thought: 3 rows more"},
		{row(4, 5), row(3, 0), "you are further than the program thought: 1 row more"},
		{row(3, 6), row(3, 2), "you are further than the program thought: 4 pegs more"},
		{row(1, 0), pattern.Place{Done: 3}, "you are further than the program thought"},
	} {
		assert.Equal(t, c.want, track.SayBeside(o, c.at, c.counted))
	}
}
