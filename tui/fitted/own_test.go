package fitted_test

import (
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
	"bypeg/pattern/fit"
	"bypeg/tui/fitted"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
	"bypeg/tui/report"
)

// withOwn is the screen of the mat, and of the mat by the figures of a finished one.
func withOwn(t testing.TB, w, h int) fitted.Model {
	t.Helper()
	p, _ := file.Load("f", []byte(matText))
	figures, err := fit.OwnOf(p, fit.Finished{Width: 250, Height: 240, Grams: 48})
	require.NoError(t, err)
	owns := []report.Own{{Title: "Test Weir Mat", Day: "24 Nov", Date: "2026-11-24", Figures: figures}}
	text, carried, err := figures.In([]byte(matText))
	require.NoError(t, err)
	require.Empty(t, carried)
	by, _ := file.Load("f", text)
	own := report.Of(pattern.Order{Pattern: by, Way: by.Way}, text)
	own.By = &owns[0]
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.Ascii)
	style := look.NewStyle(r, look.Dark, chart.Bars, false)
	return fitted.New(reportOf(t, matText).WithOwns(owns), own, "begin", begins, style, look.NewShelfKeys().Over()).SetSize(w, h)
}

func TestTheReportIsTurnedOverToTheMakersOwnFigures(t *testing.T) {
	for _, size := range []struct {
		w, h int
		name string
	}{{80, 24, "80x24"}, {40, 12, "40x12"}} {
		m := withOwn(t, size.w, size.h)
		golden.Check(t, "offered-"+size.name, m.View())
		m, _ = press(m, key(tea.KeyDown), key(tea.KeyDown))
		turned, wish := press(m, key(tea.KeyRight))
		assert.Nil(t, wish)
		golden.Check(t, "own-"+size.name, turned.View())
		back, _ := press(turned, key(tea.KeyLeft))
		assert.Equal(t, withOwn(t, size.w, size.h).View(), back.View(), "from its first line")
	}
	_, wish := press(withOwn(t, 80, 24), key(tea.KeyRight), key(tea.KeyEnter))
	assert.Equal(t, begins, wish, "its figures are for reading: what is begun is the pattern as it stands")

	alone := open(t, false, termenv.Ascii, 80, 24)
	turned, _ := press(alone, key(tea.KeyRight))
	assert.Equal(t, alone.View(), turned.View())
	assert.NotContains(t, strings.Join(laid(t, 80), "\n"), "your own")
}
