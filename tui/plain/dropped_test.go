package plain_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/tui/track"
)

func TestWorkingOnBesideARepairIsAskedAboutOnce(t *testing.T) {
	p, d := piece(t, at(8, 0))
	p.Tracker.Mend(&track.Mending{Col: 6, Row: 6, Step: 1})
	const under = "a repair is under way: mend goes on with it; "
	lines := answers(t, p, "peg", " PEG ", "peg", "mend")
	assert.Equal(t, []string{under + "the same once more works on without it", "saved: row 8, purl 1, peg 12"}, lines[:2])
	assert.Contains(t, lines, "the repair of peg 6 is dropped: undo brings it back")
	assert.Contains(t, lines, "mend 6 from 31: the ways to put peg 6 right from row 31 on", "there is none any more")
	assert.Len(t, d.events, 2)

	p, d = piece(t, at(8, 0))
	p.Tracker.Mend(&track.Mending{Col: 6, Row: 6, Step: 1})
	lines = answers(t, p, "mend back to 7", "mend back to 7")
	assert.Equal(t, under+"the same once more begins this one instead", lines[0])
	assert.Equal(t, []string{"step 1 of 13"}, stepsSaid(lines))
	assert.Contains(t, lines, "the repair of peg 6 is dropped")
	assert.Equal(t, []string{"mend: back to row 7, step 0"}, d.words)
}

func TestARepairThatWentOnIsAskedAboutAgain(t *testing.T) {
	const asked = "a repair is under way: mend goes on with it; the same once more works on without it"
	for _, between := range [][]string{{"mend", "", "stop"}, {"peg", "undo"}} { // a step further, or brought back
		p, _ := piece(t, at(8, 0))
		p.Tracker.Mend(&track.Mending{Col: 6, Row: 6})
		lines := answers(t, p, slices.Concat([]string{"peg"}, between, []string{"peg"})...)
		assert.Equal(t, asked, lines[0])
		assert.Equal(t, asked, lines[len(lines)-1])
	}
}

// Only the very line that was warned of, and straight after the warning, drops a repair.
func TestNoOtherLineDropsARepair(t *testing.T) {
	const asked = "a repair is under way: mend goes on with it; the same once more works on without it"
	for _, typed := range [][]string{
		{"row", "peg"}, {"row", "chart", "row"}, {"peg", "peg 2"}, {"peg", ""}, {"", "p", ""}, {"go 3", "go 4"},
		{"row", "mend 2 from 5", "row"}, {"row", strings.Repeat("x", 20_000), "row"}, {"back", "left", "back"},
	} {
		p, d := piece(t, at(8, 1))
		p.Tracker.Mend(&track.Mending{Col: 6, Row: 6, Step: 1})
		lines := answers(t, p, typed...)
		assert.Equal(t, asked, lines[0], typed)
		assert.Equal(t, asked, lines[len(lines)-1], typed)
		assert.Empty(t, d.events, typed)
		assert.NotNil(t, p.Tracker.Mending(), typed)
	}
	p, _ := piece(t, at(8, 0))
	lines := answers(t, p, "mend 6 from 3", "mend 2", "", "", "stop", "row", "undo", "peg")
	assert.Equal(t, []string{asked, "nothing to undo", asked}, lines[len(lines)-3:], "what leads nowhere is no second time")
}

func TestADroppedRepairIsNamedWithWhatBringsItBack(t *testing.T) {
	for _, c := range []struct {
		at    pattern.Place
		of    track.Mending
		typed []string
		says  string
	}{
		{at(8, 0), track.Mending{Col: 6, Row: 6}, []string{"peg", "peg"}, "the repair of peg 6 is dropped: undo brings it back"},
		{at(8, 0), track.Mending{What: track.TakeBack, Row: 5, Step: 1}, []string{"go 3", "go 3"}, "the way back to row 5 is dropped: undo brings it back"},
		{pattern.Place{Phase: pattern.CastingOn, Done: 3}, track.Mending{What: track.CastOn}, []string{"peg", "peg"}, "the cast-on step by step is dropped: undo brings it back"},
		{pattern.Place{Phase: pattern.BindingOff, Done: 3}, track.Mending{What: track.BindOff}, []string{"", ""}, "the bind-off step by step is dropped: undo brings it back"},
	} {
		p, _ := piece(t, c.at)
		p.Tracker.Mend(&c.of)
		lines := answers(t, p, c.typed...)
		assert.Equal(t, c.says, lines[len(lines)-1])
		assert.Nil(t, p.Tracker.Mending())
		p.Tracker.Do(track.Undo)
		assert.Equal(t, &c.of, p.Tracker.Mending())
	}
	p, _ := piece(t, at(6, 4))
	p.Tracker.Mend(&track.Mending{Col: 6, Row: 5})
	lines := answers(t, p, "where", "ask", "left", "2", "1")
	assert.Contains(t, lines, "a repair is under way: mend goes on with it", "where tells it")
	assert.NotEqual(t, at(6, 4), p.Tracker.Place())
	assert.Equal(t, "the repair of peg 6 is dropped: undo brings it back", lines[len(lines)-1], "a place found in the fabric is another one")

	p, _ = piece(t, at(6, 0))
	p.Tracker.Mend(&track.Mending{Col: 6, Row: 5})
	lines = answers(t, p, "ask", "left", "2", "1")
	assert.NotContains(t, strings.Join(lines, "\n"), "is dropped", "where the work stood already")
	assert.NotNil(t, p.Tracker.Mending())

	p, _ = piece(t, at(8, 0))
	p.Tracker.Do(track.OnePeg)
	p.Tracker.Mend(&track.Mending{Col: 6, Row: 6})
	lines = answers(t, p, "undo", "undo")
	assert.Equal(t, "the repair of peg 6 is dropped: redo brings it back", lines[len(lines)-1])
	p.Tracker.Do(track.Redo)
	assert.Equal(t, &track.Mending{Col: 6, Row: 6}, p.Tracker.Mending())
}
