package fitted_test

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
	"bypeg/pattern/safetext"
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
	return fitted.New(reportOf(t, matText), "begin", begins, style, look.NewShelfKeys()).SetSize(w, h)
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

// Scrolled from its first line to its last, a small screen says all that the report does.
func TestASmallScreenSaysAllOfIt(t *testing.T) {
	m := open(t, false, termenv.Ascii, 40, 12)
	said := strings.Join(strings.Fields(m.View()), " ")
	for range 60 {
		m, _ = press(m, key(tea.KeyDown))
		said += " " + strings.Join(strings.Fields(m.View()), " ")
	}
	for _, part := range reportOf(t, matText).Parts() {
		for _, line := range part.Lines {
			for _, word := range strings.Fields(line) {
				assert.Contains(t, said, word)
			}
		}
	}
	last := m.View()
	m, _ = press(m, key(tea.KeyDown), key(tea.KeyEnd))
	assert.Equal(t, last, m.View(), "no further than the last line")
	m, _ = press(m, key(tea.KeyHome))
	assert.Equal(t, open(t, false, termenv.Ascii, 40, 12).View(), m.View())
	page, _ := press(m, key(tea.KeyPgDown), key(tea.KeyPgUp))
	assert.Equal(t, m.View(), page.View())
	rolled, _ := press(m, tea.MouseMsg{Button: tea.MouseButtonWheelDown}, tea.MouseMsg{Button: tea.MouseButtonWheelUp})
	assert.Equal(t, m.View(), rolled.View())
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
}

func TestItFitsTheScreen(t *testing.T) {
	m := open(t, false, termenv.Ascii, 80, 24)
	for w := 1; w <= 120; w++ {
		for h := 1; h <= 40; h++ {
			lines := strings.Split(m.SetSize(w, h).View(), "\n")
			require.LessOrEqual(t, len(lines), h, "%d x %d", w, h)
			for _, line := range lines {
				require.LessOrEqual(t, safetext.Width(line), w, "%d x %d: %s", w, h, line)
			}
		}
	}
}
