package fitted_test

import (
	"fmt"
	"io"
	"slices"
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
	"bypeg/tui/fitted"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
	"bypeg/tui/report"
)

// matText is a mat whose plain field rolls at all edges but the lower one.
const matText = `pattern = 1
title = "Test Weir Mat"
use = "mat"
pegs = 26
[gauge]
stitches = 11
rows = 15
over = "10 cm"
[loom]
pegs = 40
spacing = "1/2 in"
[yarn]
weight = 5
fibre = "cotton"
metres = 55
grams = 50
[[zone]]
name = "bottom border"
border = true
rows = ["k", "p"]
times = 3
[[zone]]
name = "field"
rows = ["k"]
times = 30
`

func reportOf(t testing.TB, text string) *report.Report {
	p, found := file.Load("f", []byte(text))
	require.NoError(t, found.Err())
	return report.Of(pattern.Order{Pattern: p, Way: p.Way}, []byte(text))
}

var begins = look.BeginPattern{Example: "weir-mat"}

func open(t testing.TB, ascii bool, profile termenv.Profile, w, h int) fitted.Model {
	t.Helper()
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(profile)
	style := look.NewStyle(r, look.Dark, chart.Bars, ascii)
	return fitted.New(reportOf(t, matText), nil, "begin", begins, style, look.NewShelfKeys().Over()).SetSize(w, h)
}

func press(m fitted.Model, msgs ...tea.Msg) (fitted.Model, look.Wish) {
	var wish look.Wish
	for _, msg := range msgs {
		m, wish = m.Update(msg)
	}
	return m, wish
}

func key(t tea.KeyType) tea.KeyMsg { return tea.KeyMsg{Type: t} }

func TestTheReportAsItWasLookedAt(t *testing.T) {
	for name, l := range map[string]struct {
		profile termenv.Profile
		ascii   bool
	}{"dark": {termenv.TrueColor, false}, "plain": {termenv.Ascii, false}, "ascii": {termenv.Ascii, true}} {
		for _, size := range [][2]int{{80, 24}, {40, 12}} {
			golden.Check(t, fmt.Sprintf("report-%dx%d-%s", size[0], size[1], name), open(t, l.ascii, l.profile, size[0], size[1]).View())
		}
	}
}

// shownLines are the lines of the report on a screen that it fills: those between the blank
// below the title and the keys.
func shownLines(m fitted.Model) []string {
	lines := strings.Split(m.View(), "\n")
	return lines[slices.Index(lines, "")+1 : len(lines)-1]
}

func lastShown(m fitted.Model) string {
	lines := shownLines(m)
	return lines[len(lines)-1]
}

// laid is the report of the mat in lines of a width, as bypeg fit prints it.
func laid(t testing.TB, width int) []string {
	var lines []string
	for _, l := range report.Lay(reportOf(t, matText).Parts(), width) {
		lines = append(lines, l.Label+l.Text)
	}
	return lines
}

func TestTheScreenSaysTheVeryLinesOfTheReport(t *testing.T) {
	for _, width := range []int{24, 40, 49, 50, 80, 120} {
		want := laid(t, width)
		title := len(look.Wrap(width, reportOf(t, matText).Title()))
		m := open(t, false, termenv.Ascii, width, title+1+len(want)+1)
		assert.Equal(t, want, shownLines(m), "all of it at once, %d wide", width)
		assert.NotContains(t, m.View(), " of "+fmt.Sprint(len(want)), "nothing to scroll")

		m = m.SetSize(width, 12)
		seen := slices.Clone(shownLines(m))
		for len(seen) < len(want) {
			m, _ = press(m, key(tea.KeyDown))
			seen = append(seen, lastShown(m))
		}
		assert.Equal(t, want, seen, "line by line, %d wide", width)
		end := m.View()
		m, _ = press(m, key(tea.KeyDown))
		assert.Equal(t, end, m.View(), "no further than the last line")
	}
}

func TestTheReportIsScrolled(t *testing.T) {
	begin := open(t, false, termenv.Ascii, 40, 12)
	n := len(laid(t, 40))
	assert.Contains(t, begin.View(), fmt.Sprintf("↓ 1-9 of %d", n))
	end, _ := press(begin, key(tea.KeyEnd))
	assert.Contains(t, end.View(), fmt.Sprintf("↓ %d-%d of %d", n-8, n, n))
	back, _ := press(end, key(tea.KeyHome))
	assert.Equal(t, begin.View(), back.View())
	page, _ := press(begin, key(tea.KeyPgDown))
	assert.Equal(t, lastShown(begin), shownLines(page)[0], "a line stays, to read on from")
	page, _ = press(page, key(tea.KeyPgUp))
	assert.Equal(t, begin.View(), page.View())
	rolled, _ := press(begin, tea.MouseMsg{Button: tea.MouseButtonWheelDown})
	assert.Equal(t, shownLines(begin)[3], shownLines(rolled)[0])
	rolled, _ = press(rolled, tea.MouseMsg{Button: tea.MouseButtonWheelUp})
	assert.Equal(t, begin.View(), rolled.View())
	grown := end.SetSize(80, 40)
	assert.Equal(t, laid(t, 80)[0], shownLines(grown)[0], "a larger screen shows its beginning again")
}

func TestALongTitleIsWrittenOnTwoLines(t *testing.T) {
	text := strings.Replace(matText, "Test Weir Mat", "Test Weir Mat "+strings.TrimSpace(strings.Repeat("of the long quay ", 3)), 1)
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.Ascii)
	m := fitted.New(reportOf(t, text), nil, "begin", begins, look.NewStyle(r, look.Dark, chart.Bars, false), look.NewShelfKeys().Over()).SetSize(60, 12)
	lines := strings.Split(m.View(), "\n")
	assert.Equal(t, "Test Weir Mat of the long quay of the long quay of the long", lines[0])
	assert.Equal(t, "quay: panel, 26 pegs, 36 rows", lines[1])
	assert.Len(t, lines, 12)
}

func TestFromItThePieceIsBegun(t *testing.T) {
	m := open(t, false, termenv.Ascii, 80, 24)
	_, wish := press(m, key(tea.KeyEnter))
	assert.Equal(t, begins, wish)
	for _, k := range []tea.KeyMsg{key(tea.KeyEsc), key(tea.KeyCtrlC), {Type: tea.KeyRunes, Runes: []rune("q")}, {Type: tea.KeyRunes, Runes: []rune("f")}} {
		_, wish := press(m, k)
		assert.Equal(t, look.Leave{}, wish, k.String())
	}
	_, wish = press(m, key(tea.KeyCtrlZ))
	assert.Equal(t, look.Sleep{}, wish)

	m = m.SetSize(20, 24)
	assert.Equal(t, "needs 24 x 6", m.View())
	_, wish = press(m, key(tea.KeyEnter))
	assert.Nil(t, wish, "nobody begins what is not seen")
	_, wish = press(m, key(tea.KeyEsc))
	assert.Equal(t, look.Leave{}, wish)
}

func TestItFitsTheScreen(t *testing.T) {
	m := open(t, false, termenv.Ascii, 80, 24)
	golden.Fits(t, func(w, h int) string { return m.SetSize(w, h).View() })
}
