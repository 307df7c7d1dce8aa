package where_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
	"bypeg/tui/where"
)

// matOrder is a mat of 12 pegs: three ridges, a field of twenty plain rows beside garter
// sides of three pegs, three ridges, and a knit row.
func matOrder(t testing.TB, form pattern.Form) pattern.Order {
	plan := patterntest.Frame(12, 3, 3, 20)
	if form == pattern.Tube {
		plan = patterntest.Drawn(strings.Fields(strings.Repeat("------ |||||| ", 8))...)
	}
	plan.Form = form
	p := patterntest.Build(t, plan)
	return pattern.Order{Pattern: p, Way: p.Way}
}

func open(t testing.TB, noted pattern.Place, looking, ascii bool, profile termenv.Profile, w, h int) where.Model {
	t.Helper()
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(profile)
	o := matOrder(t, pattern.Panel)
	return where.New("Test Weir Mat", o, noted, looking, look.NewStyle(r, look.Dark, chart.Bars, ascii), look.NewTalkKeys()).SetSize(w, h)
}

var noted = pattern.Place{Phase: pattern.Working, Row: 18, Done: 9}

func opened(t testing.TB) where.Model { return open(t, noted, false, false, termenv.Ascii, 80, 24) }

var named = map[string]tea.KeyType{
	"up": tea.KeyUp, "down": tea.KeyDown, "enter": tea.KeyEnter, "esc": tea.KeyEsc, "ctrl+z": tea.KeyCtrlZ, "ctrl+c": tea.KeyCtrlC, "backspace": tea.KeyBackspace,
}

// press gives keys, and texts as they are typed, to the screen; the wish is that of the last.
func press(m where.Model, keys ...string) (where.Model, look.Wish) {
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

func at(row int) pattern.Place { return pattern.Place{Phase: pattern.Working, Row: row} }

func TestTheTalkAsItWasLookedAt(t *testing.T) {
	for name, l := range map[string]struct {
		profile termenv.Profile
		ascii   bool
	}{"dark": {termenv.TrueColor, false}, "plain": {termenv.Ascii, false}, "ascii": {termenv.Ascii, true}} {
		for _, size := range [][2]int{{80, 24}, {40, 12}} {
			m := open(t, noted, false, l.ascii, l.profile, size[0], size[1])
			m, _ = press(m, "right", "enter")
			golden.Check(t, fmt.Sprintf("asked-%dx%d-%s", size[0], size[1], name), m.View())
			m, _ = press(m, "8", "enter")
			golden.Check(t, fmt.Sprintf("found-%dx%d-%s", size[0], size[1], name), m.View())
		}
	}
	m, _ := press(opened(t), "right", "enter", "eight", "enter")
	golden.Check(t, "refused-80x24", m.View())
	m, _ = press(opened(t), "right", "enter", "40", "enter")
	golden.Check(t, "but-80x24", m.View())
}

// Two answers find the row: a ridge is two rows, so eight ridges are 16 or 17 rows, and the
// yarn's side tells which, for it changes with every row (common practice, no source).
func TestTheYarnAndTheRidgesFindTheRow(t *testing.T) {
	for side, row := range map[string]int{"right": 17, "left": 18} {
		m, _ := press(opened(t), side, "enter", "8", "enter")
		assert.False(t, m.Typing(), "nothing is left to ask")
		_, wish := press(m, "enter")
		assert.Equal(t, look.GoTo{Place: at(row)}, wish, side)
	}
}

func TestAnAnswerIsTakenBack(t *testing.T) {
	m, _ := press(opened(t), "right", "enter", "40", "enter")
	assert.Contains(t, m.View(), "agree but for one thing")
	m, _ = press(m, "backspace")
	assert.Contains(t, m.View(), "How many ridges")
	m, _ = press(m, "8", "backspace", "8", "enter")
	_, wish := press(m, "enter")
	assert.Equal(t, look.GoTo{Place: at(17)}, wish, "backspace in an answer takes a letter back")
	m, _ = press(opened(t), "backspace")
	assert.Equal(t, opened(t).View(), m.View(), "there is no answer to take back")
}

func TestAQuestionCanBePassed(t *testing.T) {
	m, _ := press(opened(t), "enter")
	assert.Contains(t, m.View(), "\nPassed: where does the working yarn hang, ")
	assert.Equal(t, 1, strings.Count(m.View(), "working yarn"), "neither it nor the peg that the yarn comes from is asked at once")
	m, _ = press(m, "8", "enter", "enter", "enter")
	assert.Contains(t, m.View(), "\nPassed: 3 questions\n", "whatever is passed takes one line")
	assert.NotContains(t, m.View(), "agree with that", "nothing was said")
	assert.Contains(t, m.View(), "You left off at", "so that the beginning is seen")
}

func TestAWrongAnswerDoesNotStay(t *testing.T) {
	m, _ := press(opened(t), "right", "enter", "eight", "enter")
	assert.Contains(t, m.View(), `"eight" is no answer to that: write a number`)
	m, _ = press(m, "8")
	assert.Contains(t, m.View(), "> 8 ")
	m, _ = press(m, "enter")
	assert.Contains(t, m.View(), "16 rows are done")
}

// A wrong count may have led to one place: the near one is a line below it.
func TestTheNearPlaceCanBeGoneTo(t *testing.T) {
	m, _ := press(opened(t), "right", "enter", "8", "enter")
	assert.Contains(t, m.View(), "\n  Or row 19, if there is one ridge more.\n")
	_, wish := press(m, "down", "enter")
	assert.Equal(t, look.GoTo{Place: at(19)}, wish)
	m, _ = press(open(t, at(17), false, false, termenv.Ascii, 80, 24), "right", "enter", "8", "enter")
	assert.NotContains(t, m.View(), "Or row", "notes and fabric agree")
}

func TestHowManyRowsMoreAgreeIsSaid(t *testing.T) {
	m, _ := press(opened(t), "right", "enter", "40", "enter")
	assert.Contains(t, m.View(), "\nAnd 14 rows more.\n")
	m, _ = press(opened(t), "end", "enter", "enter", "enter", "enter", "enter", "enter", "enter", "enter", "enter", "enter", "enter", "enter")
	assert.Contains(t, m.View(), "\nAnd 28 rows more.\n")
}

func TestWhereNothingAgreesTheNearestIsSaid(t *testing.T) {
	m, _ := press(opened(t), "right", "enter", "40", "enter")
	assert.Contains(t, m.View(), "it agrees but for the ridges")
	_, wish := press(m, "down", "enter")
	assert.IsType(t, look.GoTo{}, wish, "they can be gone to all the same")
}

// On a small screen the place under the hand is seen, however long the list is.
func TestTheHandIsSeen(t *testing.T) {
	m, _ := press(open(t, noted, false, false, termenv.Ascii, 40, 12), "right", "enter", "40", "enter")
	for _, keys := range [][]string{nil, {"down"}, {"down", "down"}, {"down", "up"}} {
		moved, _ := press(m, keys...)
		assert.Contains(t, moved.View(), "▸ ", "%v", keys)
	}
}

func TestThePlaceStaysUnlessItIsWished(t *testing.T) {
	for _, k := range []string{"esc", "ctrl+c"} {
		_, wish := press(opened(t), k)
		assert.Equal(t, look.Leave{}, wish, k)
	}
	m, wish := press(open(t, noted, true, false, termenv.Ascii, 80, 24), "right", "enter", "8", "enter", "enter")
	assert.Nil(t, wish)
	assert.Contains(t, m.View(), "open to look only")
}

func TestWhereTheWorkWasLeftOffIsCompared(t *testing.T) {
	m, _ := press(opened(t), "right", "enter", "8", "enter")
	assert.Contains(t, m.View(), "What was counted after that, up to row 18 peg 3, is not in the fabric.")
	m, _ = press(open(t, at(17), false, false, termenv.Ascii, 80, 24), "right", "enter", "8", "enter")
	assert.Contains(t, m.View(), "That is where you left off.")
	m, _ = press(open(t, at(9), false, false, termenv.Ascii, 80, 24), "right", "enter", "8", "enter")
	assert.Contains(t, m.View(), "You are further than the program thought: 8 rows more.")
}

// A piece that is off the loom has nothing to be asked, and nowhere to go; one that is being
// bound off is asked how far that has come.
func TestAPieceThatIsDone(t *testing.T) {
	m := open(t, pattern.Place{Phase: pattern.Finishing}, false, false, termenv.Ascii, 80, 24)
	assert.False(t, m.Typing())
	assert.Contains(t, m.View(), "This piece is off the loom: there is no place on it to look for.")
	assert.NotContains(t, m.View(), "agrees")
	assert.NotContains(t, m.View(), "take back")
	_, wish := press(m, "backspace", "enter")
	assert.Nil(t, wish)
	_, wish = press(m, "esc")
	assert.Equal(t, look.Leave{}, wish)

	m, _ = press(open(t, pattern.Place{Phase: pattern.BindingOff, Done: 4}, false, false, termenv.Ascii, 80, 24), "5", "enter")
	assert.Contains(t, m.View(), "bound off by now: 6 of 12 pegs; next is peg ")
	assert.NotContains(t, m.View(), "working yarn")
	_, wish = press(m, "enter")
	assert.Equal(t, look.GoTo{Place: pattern.Place{Phase: pattern.BindingOff, Done: 6}}, wish)
}

// A tube is never asked for left or right.
func TestATubeHasNoSides(t *testing.T) {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.Ascii)
	m := where.New("Test Collar", matOrder(t, pattern.Tube), pattern.Start(), false, look.NewStyle(r, look.Dark, chart.Bars, false), look.NewTalkKeys()).SetSize(80, 24)
	for range 6 {
		assert.NotContains(t, m.View(), "left end")
		assert.NotContains(t, m.View(), "right end")
		m, _ = press(m, "enter")
	}
}

func TestItFitsTheScreen(t *testing.T) {
	for _, keys := range [][]string{nil, {"right", "enter"}, {"right", "enter", "8", "enter"}, {"right", "enter", "40", "enter", "down"}, {"what", "enter"}} {
		m, _ := press(opened(t), keys...)
		golden.Fits(t, func(w, h int) string { return m.SetSize(w, h).View() })
	}
}

func TestACastOnIsAskedForItsLoops(t *testing.T) {
	m, _ := press(open(t, pattern.Place{Phase: pattern.CastingOn, Done: 4}, false, false, termenv.Ascii, 80, 24), "6", "enter")
	assert.Contains(t, m.View(), "It is being cast on: 6 of 12 loops are on; next is peg ")
	assert.Contains(t, m.View(), "You are further than the program thought: 2 pegs more.")
	assert.NotContains(t, m.View(), "working yarn")
	_, wish := press(m, "enter")
	assert.Equal(t, look.GoTo{Place: pattern.Place{Phase: pattern.CastingOn, Done: 6}}, wish)
}
