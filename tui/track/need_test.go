package track_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/track"
)

// garterEnds is 121 rows of a garter frame: 8 rows at the bottom, 9 at the top, four
// border pegs at the sides.
func garterEnds(t testing.TB) pattern.Order {
	plan := patterntest.Frame(40, 4, 4, 104)
	plan.Zones[2].Rows = 9
	plan.Zones = plan.Zones[:3]
	p := patterntest.Build(t, plan)
	require.Equal(t, 121, p.Grid.Rows())
	return pattern.Order{Pattern: p, Way: p.Way}
}

// The top border's first row is a knit row like any other of the field; the first that
// differs is the purl row above it. Common practice, no source.
func TestATopBorderIsToldAheadAtItsFirstRowAndWhereItShows(t *testing.T) {
	o := garterEnds(t)
	for row, want := range map[int]string{
		112: "after this row: top border, 9 rows, as the bottom border",
		113: "from here: top border, 9 rows, as the bottom border; it shows from row 114",
		114: "top border: this is the first row unlike the field",
		115: "",
	} {
		w, ok := track.New(o, at(row, 20), track.DefaultLead).ZoneWarning()
		assert.Equal(t, want != "", ok, "row %d", row)
		assert.Equal(t, want, track.New(o, at(row, 20), track.DefaultLead).SayWarning(w), "row %d", row)
	}
	// On even rows the side border comes first at pegs 40 to 37, and again at 4 to 1.
	for done, want := range map[int]string{
		0: "border: purl 4, then the field", 4: "", 33: "", 34: "border in 2 pegs: purl 4", 36: "border: purl 4, then turn",
	} {
		tr := track.New(o, at(50, done), track.DefaultLead)
		w, ok := tr.BorderWarning()
		assert.Equal(t, want != "", ok, "%d done", done)
		assert.Equal(t, want, tr.SayWarning(w), "%d done", done)
	}
}

// Markers every ten pegs make a long cast-on countable: 88 pegs are 8 markers and 8 pegs.
// Arithmetic.
func TestALongCastOnIsCountedByItsMarkers(t *testing.T) {
	plan := patterntest.Drawn(strings.Repeat("|", 88))
	plan.MarkEvery = 10
	plan.Way = pattern.Way{Peg1: pattern.Left, Row1: pattern.ToLeft} // the cast-on begins at peg 1
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	tr := track.New(o, pattern.Place{Phase: pattern.CastingOn, Done: 76}, track.DefaultLead)
	assert.Equal(t, track.Told{What: "cast on 4", Pegs: "pegs 77 to 80", Remark: "76 of 88 loops"}, tr.SayNow(track.Aloud()))
	done := track.New(o, at(1, 0), track.DefaultLead)
	c, ok := done.Check()
	require.True(t, ok)
	assert.Equal(t, "count 88 loops: 8 markers, and 8 after the last", done.SayCheck(c))
}

// Two garter rows are one ridge. Common practice, no source.
func TestEveryTenthRowIsCountedByTouch(t *testing.T) {
	o := garterEnds(t)
	for row, want := range map[int]string{10: "", 11: "to feel at the edge: 5 ridges", 12: "", 101: "to feel at the edge: 50 ridges"} {
		tr := track.New(o, at(row, 0), track.DefaultLead)
		c, ok := tr.Check()
		assert.Equal(t, want != "", ok, "row %d", row)
		if ok {
			assert.Equal(t, want, tr.SayCheck(c))
		}
	}
}

func TestANoteComesWithItsRowAndWithItsRepeat(t *testing.T) {
	plan := patterntest.Frame(12, 2, 2, 18)
	lines := make([]pattern.Line, 6)
	for i := range lines {
		lines[i] = pattern.Line{Cells: patterntest.Rows("||||||||")[0]}
	}
	lines[3] = pattern.Line{Cells: patterntest.Rows("|--||--|")[0]}
	plan.Zones[1].Strips[0].Lines = lines // a repeat of six beside sides of two
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	notes := []track.Note{{Row: 0, Text: "on the green loom"}, {Row: 2, Text: "tight"}, {Row: 8, Text: "slack here"}, {Row: 14, Text: "blue"}}
	for row, want := range map[int]string{
		0: "note: on the green loom", 1: "", 2: "note: tight", 4: "", // of garter every row would be alike
		8: "note: slack here", 9: "", 14: "note: blue", 20: "note from row 14: blue", 22: "", 26: "",
	} {
		place := at(row, 0)
		if row == 0 {
			place = pattern.Start()
		}
		n, ok := track.NoteAt(p, notes, row)
		assert.Equal(t, want != "", ok, "row %d", row)
		if ok {
			assert.Equal(t, want, track.New(o, place, track.DefaultLead).SayNote(n), "row %d", row)
		}
	}
	again := track.Annotate(notes, track.Note{Row: 14, Text: " red "})
	n, _ := track.NoteAt(p, again, 20)
	assert.Equal(t, track.Note{Row: 14, Text: "red"}, n, "the last word counts")
	none := track.Annotate(again, track.Note{Row: 14})
	n, _ = track.NoteAt(p, none, 20)
	assert.Equal(t, 8, n.Row, "without it the one before counts, which is of the same repeat")
}

func TestThePaceIsTheMedianOfTheLastSteps(t *testing.T) {
	var p track.Pace
	_, ok := p.Left(100)
	assert.False(t, ok, "nothing is known yet")
	now, done := 1000.0, 0
	step := func(seconds float64, stitches int) {
		now, done = now+seconds, done+stitches
		p = p.Mark(track.Moment{Seconds: now, Done: done})
	}
	step(0, 0)
	for range 4 {
		step(3, 1)
	}
	_, ok = p.Left(100)
	assert.False(t, ok, "four steps are no pace")
	step(3, 1)
	left := func() float64 {
		s, ok := p.Left(100)
		require.True(t, ok)
		return s
	}
	assert.InDelta(t, 300, left(), 1e-9)
	step(3600, 1)
	assert.InDelta(t, 300, left(), 1e-9, "a pause is no work")
	step(120, 1)
	step(0.2, 1)
	assert.InDelta(t, 300, left(), 1e-9, "nor do a dropped loop and a burst of keys count for much")
	p = p.Mark(track.Moment{Seconds: now + 1, Done: done + 500, Rest: true})
	now, done = now+1, done+500
	assert.InDelta(t, 300, left(), 1e-9, "a jump is no work")
	for range 20 {
		step(60, 30)
	}
	assert.InDelta(t, 200, left(), 1e-9, "whole rows count by their stitches, and the last ones count")
}

func TestPausesAreNoPaceAndOldStepsAreForgotten(t *testing.T) {
	var p track.Pace
	now, done := 0.0, 0
	step := func(seconds float64) {
		now, done = now+seconds, done+1
		p = p.Mark(track.Moment{Seconds: now, Done: done})
	}
	for range 20 {
		step(6 * 60)
	}
	_, ok := p.Left(1)
	assert.False(t, ok, "nobody works a peg for six minutes")
	for range 1000 {
		step(10)
	}
	for range 399 {
		step(2)
	}
	left, ok := p.Left(1)
	require.True(t, ok)
	assert.InDelta(t, 2, left, 1e-9, "somebody has become quicker: the last 400 stitches count")
}

func TestABorderThatShowsFromItsFirstRowSaysNoMore(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(40, 4, 4, 103)) // the field would have had a purled side here
	tr := track.New(pattern.Order{Pattern: p, Way: p.Way}, at(112, 5), track.DefaultLead)
	w, ok := tr.ZoneWarning()
	require.True(t, ok)
	assert.Equal(t, "from here: top border, 4 ridges, as the bottom border", tr.SayWarning(w))
}

func TestThePaceFollowsTheClockOnly(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var p track.Pace
		now, done, each := 0.0, 0, rapid.Float64Range(0.5, 20).Draw(rt, "seconds a stitch")
		p = p.Mark(track.Moment{})
		for i := range rapid.IntRange(5, 40).Draw(rt, "steps") {
			n := rapid.IntRange(1, 14).Draw(rt, fmt.Sprint("stitches ", i))
			now, done = now+each*float64(n), done+n
			p = p.Mark(track.Moment{Seconds: now, Done: done})
		}
		left, ok := p.Left(50)
		require.True(rt, ok)
		require.InEpsilon(rt, 50*each, left, 1e-6)
	})
}

// A cross of six pegs on row 26: it is told on row 25 that this one is worked loosely. A cross
// of two reaches anyway (common practice, no source).
func TestTheRowBeforeAWideCrossIsWorkedLoosely(t *testing.T) {
	order := func(front, back int) pattern.Order {
		plan := patterntest.Frame(12, 2, 2, 36)
		lines := make([]pattern.Line, 36)
		for i := range lines {
			lines[i] = pattern.Line{Cells: patterntest.Rows("||||||||")[0]}
		}
		crossed := patterntest.Rows("||||||||")[0]
		for i, s := range (pattern.Cross{Front: front, Back: back, Lean: pattern.Right}).Parts() {
			crossed[i].Stitch = s
		}
		lines[26-4-1] = pattern.Line{Cells: crossed}
		plan.Zones[1].Strips[0].Lines = lines
		p := patterntest.Build(t, plan)
		return pattern.Order{Pattern: p, Way: p.Way}
	}
	for row, says := range map[int]string{24: "", 25: "row 26 crosses 6 pegs: work this one loosely, peg by peg", 26: ""} {
		assert.Equal(t, says, track.New(order(3, 3), at(row, 0), 2).SayLoosely(), "row %d", row)
		assert.Empty(t, track.New(order(1, 1), at(row, 0), 2).SayLoosely())
	}
}

// Near the end of a row of 40 pegs two pegs are left where three purls are due: the purls
// belong on pegs 1 to 3, 8 and 9, 14 and 15, 20 and 21, 26 and 27, 32 and 33, 38 to 40.
func TestWhichPegsOfARowArePurled(t *testing.T) {
	ribbed := strings.Repeat("-", 3) + strings.Repeat("||||--", 5) + "||||" + strings.Repeat("-", 3)
	plan := patterntest.Drawn(ribbed, strings.Repeat("|", 40))
	p := patterntest.Build(t, plan)
	for _, hand := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
		o := pattern.Order{Pattern: p, Way: p.WayFor(hand)}
		row := 2
		if p.Grid.Row(2).Cells()[0].Stitch != pattern.Purl {
			row = 1
		}
		assert.Equal(t, []string{"purl on pegs 1 to 3, 8 and 9, 14 and 15, 20 and 21, 26 and 27, 32 and 33, 38 to 40", "knit on all other pegs"}, track.SayPegs(o, row))
		assert.Equal(t, []string{"knit on all pegs"}, track.SayPegs(o, 3-row))
	}
}

// A tube never turns: after 17 of 36 pegs the next is 18, the way all rounds run; after 36 it
// is peg 1 again.
func TestATubeNeverTurns(t *testing.T) {
	plan := patterntest.Drawn(strings.Repeat("|", 36), strings.Repeat("|", 36), strings.Repeat("|", 36))
	plan.Form = pattern.Tube
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	way := track.New(o, at(1, 0), 2).Direction()
	for row := 1; row <= 3; row++ {
		tr := track.New(o, at(row, 17), 2)
		assert.Equal(t, way, tr.Direction(), "round %d", row)
		now, ok := tr.Now()
		require.True(t, ok)
		assert.Equal(t, 18, now.First)
	}
	tr := track.New(o, at(1, 35), 2)
	tr.Do(track.OnePeg)
	assert.Equal(t, at(2, 0), tr.Place())
	now, _ := tr.Now()
	assert.Equal(t, 1, now.First)
	turn, ok := tr.Turn()
	require.True(t, ok)
	assert.Equal(t, "round 1 done: go straight on", tr.SayTurn(turn))
}
