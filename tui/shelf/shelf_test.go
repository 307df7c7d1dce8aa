package shelf_test

import (
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"

	"bypeg/chart"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
	"bypeg/tui/shelf"
	"bypeg/tui/track"
)

var now = time.Date(2026, 2, 3, 21, 0, 0, 0, time.UTC) // a Tuesday

func stock() shelf.Stock {
	return shelf.Stock{
		Pieces: []shelf.Piece{
			{ID: "a", Title: "Towpath Cloth", Where: "field, row 18 of 49", Progress: track.Count{Done: 35, Of: 100}, Worked: now.Add(-time.Hour)},
			{ID: "b", Title: "Gauge-Board Cloth with a very long name", Where: "top border, row 71 of 77", Progress: track.Count{Done: 92, Of: 100}, Worked: now.AddDate(0, 0, -2)},
			{ID: "c", Title: "Weir Collar", Where: "finished", Progress: track.Count{Done: 1, Of: 1}, Worked: now.AddDate(0, 0, -22)},
			{ID: "d", Title: "qh2k7", Trouble: "no place can be read from the piece: the bytes are kept as they are, and the work is not taken to be at row 1"},
		},
		Examples: []shelf.Example{
			{Name: "quay-mat", Title: "Quay Mat", Size: "12 pegs, 15 rows"},
			{Name: "two-bank-scarf", Title: "Two-Bank Scarf", Size: "30 pegs, 253 rows"},
		},
	}
}

func newShelf(s shelf.Stock, w, h int) shelf.Model {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.Ascii)
	return shelf.New(s, look.NewStyle(r, look.Dark, chart.Bars, false), look.NewListKeys(), now).SetSize(w, h)
}

func TestTheShelfAsItWasLookedAt(t *testing.T) {
	golden.Check(t, "80x24", newShelf(stock(), 80, 24).View())
	golden.Check(t, "40x12", newShelf(stock(), 40, 12).View())
	read := newShelf(stock(), 40, 12)
	for range 3 {
		read, _ = read.Update(tea.KeyMsg{Type: tea.KeyDown})
	}
	golden.Check(t, "40x12 why", read.View())
	told := stock()
	told.Notice = "Towpath Cloth, 3 steps lost: NOT SAVED: disk full. Saved: row 18, 9 of 26 worked"
	golden.Check(t, "40x12 told", newShelf(told, 40, 12).View())
	golden.Check(t, "empty", newShelf(shelf.Stock{Examples: stock().Examples}, 80, 24).View())
}

func TestWhatIsChosenIsAlwaysSeenAndAskedFor(t *testing.T) {
	for _, height := range []int{3, 5, 12, 24} {
		m := newShelf(stock(), 80, height)
		var asked []string
		for range 8 {
			assert.Contains(t, m.View(), "▸", "height %d", height)
			_, wish := m.Update(tea.KeyMsg{Type: tea.KeyEnter})
			asked = append(asked, fmt.Sprint(wish))
			m, _ = m.Update(tea.KeyMsg{Type: tea.KeyDown})
		}
		assert.Equal(t, "{a} {b} {c} {d} {quay-mat} {two-bank-scarf} {two-bank-scarf} {two-bank-scarf}", strings.Join(asked, " "))
	}
}

func TestTheShelfFitsEverySize(t *testing.T) {
	for w := range 100 {
		for h := range 30 {
			m := newShelf(stock(), w, h)
			lines := strings.Split(m.View(), "\n")
			assert.LessOrEqual(t, len(lines), max(1, h))
			for _, line := range lines {
				assert.LessOrEqual(t, ansi.StringWidth(line), w, "%d x %d", w, h)
			}
		}
	}
}

func TestAgoIsSaidAsPeopleDo(t *testing.T) {
	cases := map[string]time.Time{
		"today":        now.Add(-20 * time.Hour),
		"yesterday":    now.Add(-22 * time.Hour),
		"Sunday":       now.AddDate(0, 0, -2),
		"1 week ago":   now.AddDate(0, 0, -7),
		"3 weeks ago":  now.AddDate(0, 0, -22),
		"4 months ago": now.AddDate(0, -4, 0),
		"":             {},
	}
	for want, when := range cases {
		assert.Equal(t, want, shelf.Ago(when, now))
	}
	assert.Equal(t, "today", shelf.Ago(now.Add(time.Hour), now), "a clock that was set back")
}
