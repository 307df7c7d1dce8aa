package ways_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
	"bypeg/tui/plan"
	"bypeg/tui/ways"
)

// matText is a mat of 26 pegs and 49 rows, 24 cm wide by its gauge.
const matText = `pattern = 1
title = "Test Weir Mat"
pegs = 26
[gauge]
stitches = 10.8333
rows = 15
over = "10 cm"
[yarn]
metres = 60
grams = 50
[[zone]]
name = "bottom border"
border = true
rows = ["k", "p"]
times = 3
[[zone]]
name = "field"
sides = 3
rows = ["k", "p2, k to end", "k", "k"]
times = 9
[[zone]]
name = "top border"
like = "bottom border"
[[zone]]
name = "set-up"
border = true
rows = ["k"]
`

func open(t testing.TB, text string, looking, ascii bool, profile termenv.Profile, w, h int) ways.Model {
	t.Helper()
	p, found := file.Load("f", []byte(text))
	require.NoError(t, found.Err())
	made, err := plan.New([]byte(text), pattern.Order{Pattern: p, Way: p.Way}, pattern.Place{Phase: pattern.Working, Row: 21, Done: 4})
	require.NoError(t, err)
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(profile)
	return ways.New(p.Title, made, looking, look.NewStyle(r, look.Dark, chart.Bars, ascii), look.NewWayKeys()).SetSize(w, h)
}

func opened(t testing.TB) ways.Model { return open(t, matText, false, false, termenv.Ascii, 80, 24) }

var named = map[string]tea.KeyType{"up": tea.KeyUp, "down": tea.KeyDown, "enter": tea.KeyEnter, "esc": tea.KeyEsc, "ctrl+z": tea.KeyCtrlZ, "ctrl+u": tea.KeyCtrlU}

// press gives keys, and texts as they are typed, to the screen; the wish is that of the last.
func press(m ways.Model, keys ...string) (ways.Model, look.Wish) {
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

func TestTheWaysAsTheyWereLookedAt(t *testing.T) {
	for name, l := range map[string]struct {
		profile termenv.Profile
		ascii   bool
	}{"dark": {termenv.TrueColor, false}, "plain": {termenv.Ascii, false}, "ascii": {termenv.Ascii, true}} {
		for _, size := range [][2]int{{80, 24}, {40, 12}} {
			m := open(t, matText, false, l.ascii, l.profile, size[0], size[1])
			golden.Check(t, fmt.Sprintf("opened-%dx%d-%s", size[0], size[1], name), m.View())
			m, _ = press(m, "w", "22 cm", "enter", "y", "14 g", "enter")
			golden.Check(t, fmt.Sprintf("told-%dx%d-%s", size[0], size[1], name), m.View())
		}
	}
	m, _ := press(opened(t), "w", "ten", "enter")
	golden.Check(t, "refused-80x24", m.View())
	m, _ = press(opened(t), "down", "enter")
	golden.Check(t, "sure-80x24", m.View())
}

func TestAWayIsKeptOnceItWasChosenTwice(t *testing.T) {
	m, wish := press(opened(t), "down", "enter")
	assert.Nil(t, wish, "it is asked once more")
	assert.Contains(t, m.View(), "enter again keeps this plan")
	kept, wish := press(m, "enter")
	on, ok := wish.(look.GoOn)
	require.True(t, ok)
	assert.Equal(t, "planned anew: 53 rows, the top border from row 47", on.Words)
	made, found := file.Load("f", on.Text)
	require.NoError(t, found.Err())
	assert.Equal(t, 53, made.Grid.Rows())
	assert.NotContains(t, kept.View(), "again keeps")

	for _, k := range []string{"down", "q", "w", "esc"} {
		back, wish := press(m, k)
		assert.Nil(t, wish, "%s takes the choice back, and no more", k)
		assert.NotContains(t, back.View(), "again keeps", k)
		assert.False(t, back.Typing(), k)
	}
}

func TestAsPlannedChangesNothing(t *testing.T) {
	m, wish := press(opened(t), "enter", "enter")
	assert.Nil(t, wish, "a second enter must not work a run")
	assert.Contains(t, m.View(), "the piece goes on as planned: q goes back")
	m, wish = press(opened(t), "w", "22 cm", "enter", "enter")
	assert.Nil(t, wish, "with a measure it is a change")
	_, wish = press(m, "enter")
	assert.Equal(t, "planned anew: measured 22 cm wide", wish.(look.GoOn).Words)
}

func TestTheYarnPutsTheHandOnItsWay(t *testing.T) {
	m, _ := press(opened(t), "y", "14 g", "enter")
	assert.Contains(t, m.View(), "▸ as far as the yarn reaches")
	m, _ = press(m, "up", "y", "ctrl+u", "enter")
	assert.NotContains(t, m.View(), "as far as", "what was told can be taken back")
	m, _ = press(opened(t), "y", "14 g", "enter", "y")
	assert.Contains(t, m.View(), "how much yarn is left (18 g, 30 m)? 14 g", "it can be mended")
}

// After every answer the hand lies on what the yarn covers, and a way that it may not reach
// for is said to be one before it is kept.
func TestAWayThatTheYarnDoesNotReachForIsSaid(t *testing.T) {
	m, _ := press(opened(t), "y", "14 g", "enter", "w", "25 cm", "enter")
	assert.Contains(t, m.View(), "▸ as far as the yarn reaches")
	m, wish := press(m, "up", "up", "enter")
	assert.Nil(t, wish)
	assert.Contains(t, m.View(), "the yarn that is left may not reach for that.")
	m, _ = press(opened(t), "y", "14 g", "enter", "enter")
	assert.NotContains(t, m.View(), "may not reach")
}

func TestAMeasureIsToldAnew(t *testing.T) {
	m, _ := press(opened(t), "w", "22", "enter")
	assert.Contains(t, m.View(), "22 cm wide", "centimetres where no unit is said")
	m, _ = press(m, "w", "23 cm", "enter")
	assert.Contains(t, m.View(), "23 cm wide", "what is typed goes in the place of what was told")
	m, _ = press(m, "w", "enter")
	assert.Contains(t, m.View(), "23 cm wide", "and stays where nothing is")
	assert.Contains(t, opened(t).Recall(m).View(), "23 cm wide", "it is known when the screen is opened again")
	m, _ = press(m, "w")
	assert.Contains(t, m.View(), "enter keeps it  esc leaves it")
}

func TestWhatCannotBeTakenIsSaid(t *testing.T) {
	m, _ := press(opened(t), "h", "3 m", "enter")
	assert.True(t, m.Typing())
	assert.Contains(t, m.View(), "measure again")
	m, _ = press(m, "esc")
	assert.False(t, m.Typing())
	assert.NotContains(t, m.View(), "measure again")
}

func TestAPieceToLookAtKeepsItsPlan(t *testing.T) {
	m, wish := press(open(t, matText, true, false, termenv.Ascii, 80, 24), "down", "enter", "enter", "enter")
	assert.Nil(t, wish)
	assert.Contains(t, m.View(), "open to look only")
}

func TestAFileThatCannotBeChangedSaysSo(t *testing.T) {
	text := "pattern = 1\npegs = 26\nzone = [{name = 'a', border = true, rows = ['k', 'p']}, {name = 'field', rows = ['k', 'k'], times = 20}, " +
		"{name = 'sky', rows = ['k'], times = 4}, {name = 'top', like = 'a'}]\n"
	m, wish := press(open(t, text, false, false, termenv.Ascii, 80, 24), "down", "down", "down", "enter")
	assert.Nil(t, wish)
	assert.Contains(t, m.View(), "▸ the top border now")
	assert.Contains(t, m.View(), "can't be changed from here")
}

// No line is ever wider than the screen, and there are never more of them.
func TestItFitsTheScreen(t *testing.T) {
	for _, keys := range [][]string{nil, {"y", "14 g", "enter", "down", "enter"}, {"w", strings.Repeat("long ", 10), "enter"}} {
		m, _ := press(opened(t), keys...)
		golden.Fits(t, func(w, h int) string { return m.SetSize(w, h).View() })
	}
}

func TestTextBehindAKeyIsTyped(t *testing.T) {
	ask, text, ok := opened(t).AskBurst(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("w22 cm")})
	require.True(t, ok)
	assert.Equal(t, "w", string(ask.Runes))
	assert.Equal(t, "22 cm", string(text.Runes))
	_, _, ok = opened(t).AskBurst(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("kk")})
	assert.False(t, ok)
}
