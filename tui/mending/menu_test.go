package mending_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/pattern/patterntest"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
	"bypeg/tui/mending"
	"bypeg/tui/track"
)

// pieceAt is the mat, or a tube of twelve pegs, at a place.
func pieceAt(t testing.TB, form pattern.Form, place pattern.Place) track.Piece {
	p := mat(t)
	o := p.Tracker.Order()
	copied := *o.Pattern
	copied.Form = form
	o.Pattern = &copied
	p.Tracker = track.New(o, place, 2)
	return p
}

const (
	aColumn   = "a stitch is wrong: mend its column"
	rowsBack  = "take rows back"
	roundBack = "take rounds back"
	aCompare  = "look for a mistake"
	aRow      = "which pegs of this"
	aBorder   = "are bottom and top alike?"
	aCastOn   = "cast on, step by step"
	aBindOff  = "bind off, step by step"
	aGather   = "draw the tube shut, step by step"
)

func TestTheMenuNamesWhatMeansSomethingWhereTheWorkStands(t *testing.T) {
	everything := []string{aColumn, rowsBack, roundBack, aCompare, aRow, aBorder, aCastOn, aBindOff, aGather}
	binding := func(done int) pattern.Place { return pattern.Place{Phase: pattern.BindingOff, Done: done} }
	for _, c := range []struct {
		name  string
		form  pattern.Form
		at    pattern.Place
		names []string
	}{
		{"the cast-on", pattern.Panel, pattern.Place{Phase: pattern.CastingOn, Done: 3}, []string{aCastOn}},
		{"before the first row", pattern.Panel, at(1, 0), []string{aRow, aBorder}},
		{"within the first row", pattern.Panel, at(1, 2), []string{aColumn, rowsBack, aCompare, aRow, aBorder}},
		{"within the work", pattern.Tube, at(12, 0), []string{aColumn, roundBack, aCompare, aRow, aBorder}},
		{"all rows of a panel done", pattern.Panel, binding(0), []string{aColumn, rowsBack, aCompare, aBorder, aBindOff}},
		{"all rounds of a tube done", pattern.Tube, binding(0), []string{aColumn, roundBack, aCompare, aBorder, aBindOff, aGather}},
		{"a tube being bound off", pattern.Tube, binding(2), []string{aColumn, roundBack, aCompare, aBorder, aBindOff}},
	} {
		view := open(pieceAt(t, c.form, c.at), false, termenv.Ascii, 80, 24).View()
		for _, words := range everything {
			if assert.Equal(t, contains(c.names, words), strings.Contains(view, words), "%s: %s", c.name, words); t.Failed() {
				t.Log(view)
			}
		}
	}
}

func contains(all []string, one string) bool {
	for _, s := range all {
		if s == one {
			return true
		}
	}
	return false
}

// through presses enter until the work is over, and returns how often.
func through(t *testing.T, m mending.Model) (n int, done look.Mended) {
	t.Helper()
	for n = 1; n < 200; n++ {
		var wish look.Wish
		if m, wish = press(m, "enter"); wish.(look.Mended).Done {
			return n, wish.(look.Mended)
		}
	}
	require.Fail(t, "it never ends")
	return 0, look.Mended{}
}

// Twelve loops are put on in twelve steps behind the fastening one; loops that are on already
// are not told again. Row 1 comes next.
func TestTheCastOnIsLedThrough(t *testing.T) {
	for on, steps := range map[int]int{0: 13, 5: 7} {
		m, wish := press(open(pieceAt(t, pattern.Panel, pattern.Place{Phase: pattern.CastingOn, Done: on}), false, termenv.Ascii, 80, 24), "enter")
		require.Equal(t, track.CastOn, wish.(look.Mended).Now.What)
		assert.Contains(t, m.View(), "Test Weir Mat · cast on")
		n, done := through(t, m)
		assert.Equal(t, steps, n)
		first := at(1, 0)
		assert.Equal(t, look.Mended{Done: true, To: &first}, done)
	}
}

// Of n loops one is lifted over the next n - 1 times (common practice, no source); each time
// is four moves, with one before them and four at the end.
func TestABindOffIsLedThroughFromWhereThePegsAre(t *testing.T) {
	for bound, steps := range map[int]int{0: 1 + 11*4 + 4, 1: 11*4 + 4, 12 - 1: 4 + 4} {
		p := pieceAt(t, pattern.Panel, pattern.Place{Phase: pattern.BindingOff, Done: bound})
		m := open(p, false, termenv.Ascii, 80, 24)
		m, wish := press(m, "enter")
		require.Equal(t, track.BindOff, wish.(look.Mended).Now.What)
		if bound > 0 {
			peg := p.Tracker.Order().Peg(p.Tracker.Order().ColumnAt(p.Tracker.Place()))
			assert.Contains(t, m.View(), fmt.Sprintf("knit peg %d", peg), "the peg in hand comes next")
		}
		n, done := through(t, m)
		assert.Equal(t, steps, n, bound)
		off := pattern.Place{Phase: pattern.Finishing}
		assert.Equal(t, look.Mended{Done: true, To: &off}, done)
	}
}

func TestATubeIsDrawnShutStepByStep(t *testing.T) {
	m := open(pieceAt(t, pattern.Tube, pattern.Place{Phase: pattern.BindingOff}), false, termenv.Ascii, 80, 24)
	m, wish := press(m, "down", "enter")
	require.Equal(t, &track.Mending{What: track.Gather}, wish.(look.Mended).Now)
	assert.Contains(t, m.View(), "wind the yarn twice round the loom")
	n, done := through(t, m)
	assert.Equal(t, 1+12+12+1, n, "cut, through each loop, off each peg, pulled tight")
	assert.True(t, done.Done)
}

// In the garter sides of the mat even rows are purled; peg 2 shows a V in row 34 instead. From
// the peg down rows 36 to 31 are b v v v b v then.
func TestAColumnThatWasCountedIsComparedAndMended(t *testing.T) {
	m, _ := press(opened(t), "down", "down", "enter", "2", "enter")
	assert.Contains(t, m.View(), "What does the column of peg 2 show")
	m, wish := press(m, "bvvvbv..", "enter")
	assert.Nil(t, wish)
	view := m.View()
	golden.Check(t, "compared-80x24", view)
	assert.Contains(t, view, "a wrong stitch in row 34")
	m, _ = press(m, "enter")
	assert.Contains(t, m.View(), "Ways to put peg 2 right from row 34 on")

	m, _ = press(opened(t), "down", "down", "enter", "6", "enter", "vvvvvvvv..", "enter")
	assert.Contains(t, m.View(), "nothing is wrong")
	m, _ = press(m, "enter")
	assert.Contains(t, m.View(), "Which peg's column do you count?")
	m, _ = press(m, "5", "enter", "xyz", "enter")
	assert.Contains(t, m.View(), "write v for a V")
	m, _ = press(opened(t), "down", "down", "enter", "6", "enter", "upvbvbv..", "enter")
	assert.Contains(t, m.View(), "nothing is wrong", "counted from the cast-on up")
}

func TestTheBordersAreLaidSideBySide(t *testing.T) {
	m, _ := press(opened(t), "down", "down", "down", "down", "enter")
	assert.Contains(t, m.View(), "the bottom border has 3 ridges")
	m, _ = press(m, "enter")
	assert.Contains(t, m.View(), "What is to be done?")
}

func TestTheRowInHandIsReadByItsPegs(t *testing.T) {
	p := mat(t)
	p.Tracker = track.New(p.Tracker.Order(), at(8, 4), 2)
	m, _ := press(open(p, false, termenv.Ascii, 80, 24), "down", "down", "down", "enter")
	assert.Contains(t, m.View(), "purl on pegs 1 to 3, 10 to 12\nknit on all other pegs")
}

func TestEveryTaskFitsTheScreen(t *testing.T) {
	for _, keys := range [][]string{{"down", "down", "enter", "6", "enter"}, {"down", "down", "enter", "2", "enter", "bvvvbv..", "enter"}, {"down", "down", "down", "enter"}} {
		m, _ := press(opened(t), keys...)
		golden.Fits(t, func(w, h int) string { return m.SetSize(w, h).View() })
	}
}

// The way back to a lifeline takes rows back to above it, and sees that the line holds.
func TestTheWayBackToALifelineIsTaken(t *testing.T) {
	p := mat(t)
	p.Tracker.Secure(track.Safe{Safe: mend.Safe{Row: 20}})
	m, _ := press(open(p, false, termenv.Ascii, 80, 24), "6", "enter", "25", "enter")
	for range 10 { // further than there are ways
		if strings.Contains(m.View(), "▸ take rows back to row 20, the lifeline") {
			break
		}
		m, _ = press(m, "down")
	}
	m, wish := press(m, "enter")
	assert.Equal(t, look.Mended{Now: &track.Mending{What: track.TakeBack, Row: 21}}, wish)
	assert.Contains(t, m.View(), "the lifeline lies in row 20")
	m, _ = press(open(p, false, termenv.Ascii, 80, 24), "down", "enter")
	assert.Contains(t, strings.Join(strings.Fields(m.View()), " "), "21 goes back to the lifeline of row 20.")
}

func TestTheHandStaysOnTheWays(t *testing.T) {
	m, _ := press(opened(t), "6", "enter", "31", "enter")
	top := m.View()
	m, _ = press(m, "up")
	assert.Equal(t, top, m.View())
	for range 10 {
		m, _ = press(m, "down")
	}
	last := m.View()
	assert.Contains(t, last, "▸ leave it")
	m, _ = press(m, "down")
	assert.Equal(t, last, m.View())
}

// A way that can't be is named with its reason, and does not begin: peg 2 of three rests in
// row 2.
func TestARefusedWaySaysWhy(t *testing.T) {
	p := patterntest.Build(t, patterntest.Drawn("|||", "|o|", `\.|`, "|||"))
	piece := track.Piece{Title: "T", Tracker: track.New(pattern.Order{Pattern: p, Way: p.Way}, at(4, 3), 2), Saver: noSaver{}}
	m, _ := press(open(piece, false, termenv.Ascii, 80, 24), "2", "enter", "1", "enter")
	for range 10 {
		m, _ = press(m, "down")
	}
	require.Contains(t, m.View(), "▸ let the column down and form it again: not here: ")
	m, wish := press(m, "enter")
	assert.Nil(t, wish)
	assert.NotContains(t, m.View(), "step 1 of")
}

// Answers are taken back to the menu from whole rows too, and a number is no peg where no column
// hangs.
func TestBackToTheMenu(t *testing.T) {
	m, _ := press(opened(t), "down", "enter", "backspace")
	assert.Contains(t, m.View(), "What is to be done?")
	m, _ = press(open(pieceAt(t, pattern.Panel, pattern.Place{Phase: pattern.CastingOn}), false, termenv.Ascii, 80, 24), "4")
	assert.Contains(t, m.View(), "What is to be done?")
	m, _ = press(opened(t), "a")
	assert.Contains(t, m.View(), "What is to be done?")
}

// A repair that was kept with more steps than there are goes on at its last one.
func TestARepairBeyondItsEndGoesOnAtItsLastStep(t *testing.T) {
	p := mat(t)
	p.Tracker.Mend(&track.Mending{Col: 6, Row: 31, Step: 99})
	assert.Contains(t, open(p, false, termenv.Ascii, 80, 24).View(), "step 8 of 8")
}

// A second column that was counted stands beside the first.
func TestColumnsAreLaidSideBySide(t *testing.T) {
	m, _ := press(opened(t), "down", "down", "enter", "2", "enter", "bvvbvb..", "enter")
	require.Contains(t, m.View(), "count the next peg too")
	m, _ = press(m, "enter", "1", "enter", "bvbvbvb..", "enter")
	assert.Contains(t, m.View(), "peg 2 was not worked in")
	assert.NotContains(t, m.View(), "was skipped")
	m, _ = press(m, "enter")
	assert.Contains(t, m.View(), "Ways to put peg 2 right")
}
