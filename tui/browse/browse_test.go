package browse_test

import (
	"io"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/browse"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
)

func newChart(t testing.TB, pegs, row, w, h int) browse.Model {
	p := patterntest.Build(t, patterntest.Frame(pegs, 3, 3, 20))
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.Ascii)
	o := pattern.Order{Pattern: p, Way: p.Way}
	return browse.New(o, row, look.NewStyle(r, look.Dark, chart.Bars, false), look.NewListKeys()).SetSize(w, h)
}

func press(m browse.Model, keys ...tea.KeyType) browse.Model {
	for _, k := range keys {
		m, _ = m.Update(tea.KeyMsg{Type: k})
	}
	return m
}

func TestTheChartAsItWasLookedAt(t *testing.T) {
	golden.Check(t, "80x24", newChart(t, 20, 12, 80, 24).View())
	golden.Check(t, "40x12", newChart(t, 20, 12, 40, 12).View())
}

func TestKeysScrollTheChart(t *testing.T) {
	m := newChart(t, 20, 12, 80, 25) // 13 rows are shown, from row 10
	assert.Contains(t, m.View(), "rows 10 to 22 from")
	assert.Contains(t, press(m, tea.KeyUp).View(), "rows 11 to 23 from")
	assert.Contains(t, press(m, tea.KeyDown).View(), "rows 9 to 21 from")
	assert.Contains(t, press(m, tea.KeyPgUp).View(), "rows 21 to 33 from")
	assert.Contains(t, press(m, tea.KeyPgDown, tea.KeyPgDown).View(), "rows 1 to 13 from")
	assert.Contains(t, press(m, tea.KeyEnd).View(), "rows 1 to 13 from")
	assert.Contains(t, press(m, tea.KeyHome).View(), "rows 21 to 33 from")
	for _, k := range []tea.KeyMsg{{Type: tea.KeyEsc}, {Type: tea.KeyRunes, Runes: []rune("q")}, {Type: tea.KeyRunes, Runes: []rune("c")}} {
		_, wish := m.Update(k)
		assert.Equal(t, look.Leave{}, wish)
	}
}

func TestAWideChartIsSeenPartByPart(t *testing.T) {
	m := newChart(t, 150, 1, 80, 24)
	first := m.View()
	assert.NotEqual(t, first, press(m, tea.KeyRight).View())
	assert.Equal(t, first, press(m, tea.KeyRight, tea.KeyLeft, tea.KeyLeft).View())
}

func TestTheChartFitsEverySize(t *testing.T) {
	for _, w := range []int{0, 1, 2, 7, 20, 39, 40, 80, 200} {
		for h := range 61 {
			m := newChart(t, 150, 12, w, h)
			lines := strings.Split(m.View(), "\n")
			assert.LessOrEqual(t, len(lines), max(1, h))
			for _, line := range lines {
				assert.LessOrEqual(t, ansi.StringWidth(line), w, "%d x %d", w, h)
			}
		}
	}
}
