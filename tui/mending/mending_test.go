package mending_test

import (
	"fmt"
	"io"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
	"bypeg/tui/mending"
	"bypeg/tui/track"
)

// noSaver is a disk that nothing is put on: the screen wishes, and saves nothing itself.
type noSaver struct{ track.Saver }

func at(row, done int) pattern.Place {
	return pattern.Place{Phase: pattern.Working, Row: row, Done: done}
}

// mat is a mat of 12 pegs at row 37: three ridges, a field of thirty rows beside garter
// sides of three pegs, three ridges, and a knit row.
func mat(t testing.TB) track.Piece {
	p := patterntest.Build(t, patterntest.Frame(12, 3, 3, 30))
	o := pattern.Order{Pattern: p, Way: p.Way}
	return track.Piece{Title: "Test Weir Mat", Tracker: track.New(o, at(37, 0), 2), Saver: noSaver{}}
}

func open(p track.Piece, ascii bool, profile termenv.Profile, w, h int) mending.Model {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(profile)
	return mending.New(p, look.NewStyle(r, look.Dark, chart.Bars, ascii), look.NewTalkKeys()).SetSize(w, h)
}

func opened(t testing.TB) mending.Model { return open(mat(t), false, termenv.Ascii, 80, 24) }

var named = map[string]tea.KeyType{
	"up": tea.KeyUp, "down": tea.KeyDown, "enter": tea.KeyEnter, "esc": tea.KeyEsc, "backspace": tea.KeyBackspace, "space": tea.KeySpace, "ctrl+z": tea.KeyCtrlZ,
}

func press(m mending.Model, keys ...string) (mending.Model, look.Wish) {
	var wish look.Wish
	for _, k := range keys {
		msg := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)}
		if known, ok := named[k]; ok {
			msg = tea.KeyMsg{Type: known}
		}
		m, wish = m.Update(msg)
	}
	return m, wish
}

// column asks for peg 6 from row 31, and goes to the way that lets the column down.
var column = []string{"6", "enter", "31", "enter", "down", "enter"}

func TestTheRepairAsItWasLookedAt(t *testing.T) {
	for name, l := range map[string]struct {
		profile termenv.Profile
		ascii   bool
	}{"dark": {termenv.TrueColor, false}, "plain": {termenv.Ascii, false}, "ascii": {termenv.Ascii, true}} {
		for _, size := range [][2]int{{80, 24}, {40, 12}} {
			m, _ := press(open(mat(t), l.ascii, l.profile, size[0], size[1]), "6", "enter", "31", "enter")
			golden.Check(t, fmt.Sprintf("ways-%dx%d-%s", size[0], size[1], name), m.View())
			m, _ = press(m, "down", "enter", "enter", "enter")
			golden.Check(t, fmt.Sprintf("steps-%dx%d-%s", size[0], size[1], name), m.View())
		}
	}
	golden.Check(t, "asked-80x24", opened(t).View())
}

// Row 36 is the newest on the peg, so six rungs are formed again, as the fabric looks from
// the front; before them the loop is let down, after them it goes back: eight steps.
func TestAColumnIsFormedAgainStepByStep(t *testing.T) {
	m, wish := press(opened(t), column...)
	col := 12 - 6
	assert.Equal(t, look.Mended{Now: &track.Mending{Col: col, Row: 31}}, wish)
	assert.Contains(t, m.View(), "step 1 of 8")
	m, wish = press(m, "enter", "space", "enter")
	assert.Equal(t, look.Mended{Now: &track.Mending{Col: col, Row: 31, Step: 3}}, wish)
	m, wish = press(m, "down", "up", "up")
	assert.Nil(t, wish, "the arrows do no step")
	m, wish = press(m, "backspace")
	assert.Equal(t, look.Mended{Now: &track.Mending{Col: col, Row: 31, Step: 2}}, wish)
	m, wish = press(m, "enter", "enter", "enter", "enter", "enter")
	assert.Contains(t, m.View(), "step 8 of 8")
	assert.IsType(t, look.Mended{}, wish)
	_, wish = press(m, "enter")
	assert.Equal(t, look.Mended{Done: true}, wish, "the work stands where it stood")
}

func TestRowsAreTakenBackAndTheTrackerFollows(t *testing.T) {
	m, wish := press(opened(t), "down", "enter", "35", "enter")
	require.Equal(t, look.Mended{Now: &track.Mending{What: track.TakeBack, Row: 35}}, wish, "it is kept from its first step on")
	assert.Contains(t, m.View(), "peg")
	n := 0
	for ; n < 100; n++ {
		if m, wish = press(m, "enter"); wish.(look.Mended).Done {
			break
		}
	}
	to := at(35, 0)
	assert.Equal(t, look.Mended{Done: true, To: &to}, wish)
	assert.Equal(t, 24, n, "two rows of twelve stitches, peg by peg, and what is to be seen then")
}

func TestARepairThatWasLeftOffGoesOn(t *testing.T) {
	p := mat(t)
	p.Tracker.Mend(&track.Mending{Col: 6, Row: 31, Step: 3})
	m := open(p, false, termenv.Ascii, 80, 24)
	assert.Contains(t, m.View(), "step 4 of 8")
	m, wish := press(m, "backspace", "backspace", "backspace", "backspace")
	assert.Equal(t, look.Mended{}, wish, "before its first step there is none any more")
	assert.Contains(t, m.View(), "What is to be done?")
	p.Tracker.Mend(&track.Mending{Col: 6, Row: 40}) // which is not worked
	assert.Contains(t, open(p, false, termenv.Ascii, 80, 24).View(), "What is to be done?")
}

// A piece off the loom is finished by a list that fits it, and where that was left off is
// kept.
func TestAPieceOffTheLoomIsFinished(t *testing.T) {
	p := mat(t)
	p.Tracker = track.New(p.Tracker.Order(), pattern.Place{Phase: pattern.Finishing}, 2)
	m := open(p, false, termenv.Ascii, 80, 24)
	assert.Contains(t, m.View(), "Test Weir Mat · finish")
	assert.Contains(t, m.View(), "pull it gently")
	golden.Check(t, "finish-80x24", m.View())
	m, wish := press(m, "backspace", "enter")
	assert.Equal(t, look.Mended{Now: &track.Mending{What: track.Finish, Step: 1}}, wish)
	p.Tracker.Mend(&track.Mending{What: track.Finish, Step: 3})
	assert.Contains(t, open(p, false, termenv.Ascii, 80, 24).View(), "step 4 of ")
	for range 30 {
		if m, wish = press(m, "enter"); wish.(look.Mended).Done {
			return
		}
	}
	t.Error("it never ends")
}

// Back from the ways of a column to whole rows and to the question again: nothing of the
// column is left over.
func TestAnswersAreTakenBackAllTheWay(t *testing.T) {
	m, _ := press(opened(t), "4", "enter", "3", "enter", "backspace", "backspace", "backspace", "down", "enter", "3", "enter", "backspace")
	assert.Contains(t, m.View(), "What is to be done?")
	m, _ = press(m, "4", "enter", "3", "enter")
	assert.Contains(t, m.View(), "Ways to put peg 4 right")
}

func TestNotesTellSafeRows(t *testing.T) {
	p := mat(t)
	p.Notes = []track.Note{{Row: 21, Text: "lifeline here"}, {Row: 30, Text: "blue"}, {Row: 2, Text: "new ball at row 12"}}
	m, _ := press(open(p, false, termenv.Ascii, 80, 24), "6", "enter", "25", "enter")
	assert.Contains(t, m.View(), "row 20, the lifeline")
	m, _ = press(open(p, false, termenv.Ascii, 80, 24), "6", "enter", "15", "enter")
	assert.Contains(t, m.View(), "row 12, the new ball")
}

func TestWhatCannotBeAnswered(t *testing.T) {
	for _, c := range []struct {
		name string
		keys []string
		says string
	}{
		{"no such peg", []string{"13", "enter"}, "a peg is a number from 1 to 12"},
		{"no number", []string{"enter", "left", "enter"}, "a peg is a number from 1 to 12"},
		{"a row that is not worked", []string{"6", "enter", "37", "enter"}, "rows 1 to 36 are worked"},
		{"no row", []string{"down", "enter", "enter"}, "rows 1 to 36 are worked"},
	} {
		m, wish := press(opened(t), c.keys...)
		assert.Nil(t, wish, c.name)
		assert.Contains(t, m.View(), c.says, c.name)
	}
	m, _ := press(opened(t), "6", "enter", "backspace")
	assert.Contains(t, m.View(), "Which peg went wrong?", "an answer is taken back")
	m, wish := press(opened(t), "6", "enter", "31", "enter", "enter")
	assert.Nil(t, wish)
	assert.Contains(t, m.View(), "nothing on the loom changes", "what is sewn later is not a repair of the loom")
}

func TestAPieceToLookAtKeepsItsPlace(t *testing.T) {
	p := mat(t)
	p.Saver = nil
	m, _ := press(open(p, false, termenv.Ascii, 80, 24), "down", "enter", "36", "enter")
	for range 30 {
		m, _ = press(m, "enter")
	}
	assert.Contains(t, m.View(), "open to look only")
	_, wish := press(m, "esc")
	assert.Equal(t, look.Leave{}, wish)
}

func TestItFitsTheScreen(t *testing.T) {
	for _, keys := range [][]string{nil, {"99", "enter"}, {"6", "enter", "31", "enter"}, append(column, "enter", "enter")} {
		m, _ := press(opened(t), keys...)
		golden.Fits(t, func(w, h int) string { return m.SetSize(w, h).View() })
	}
}
