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
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
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
			{ID: "c", Title: "Weir Collar", Lies: shelf.OffLoom, Where: "finished", Progress: track.Count{Done: 1, Of: 1}, Worked: now.AddDate(0, 0, -22)},
			{ID: "d", Title: "qh2k7", Lies: shelf.Unopened, Trouble: "no place can be read from the piece: the bytes are kept as they are, and the work is not taken to be at row 1"},
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
	return shelf.New(s, look.NewStyle(r, look.Dark, chart.Bars, false), look.NewShelfKeys(), now).SetSize(w, h)
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
		assert.Equal(t, "{a} {b} {c} {d} {quay-mat 0} {two-bank-scarf 0} {two-bank-scarf 0} {two-bank-scarf 0}", strings.Join(asked, " "))
	}
}

func TestTheShelfFitsEverySize(t *testing.T) {
	for w := range 201 {
		for h := range 61 {
			m := newShelf(stock(), w, h)
			switch h % 4 {
			case 1:
				m, _ = m.Update(rune_('r'))
			case 2:
				m, _ = m.Update(rune_('?'))
			case 3:
				m, _ = m.Update(tea.KeyMsg{Type: tea.KeyEnd})
				m, _ = m.Update(rune_('m'))
			}
			lines := strings.Split(m.View(), "\n")
			assert.LessOrEqual(t, len(lines), max(1, h))
			assert.False(t, h > 1 && strings.HasSuffix(m.View(), "\n") && len(lines) == h+1)
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

func rune_(r rune) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}} }

// pressed is what the last of some keys wishes, and the shelf then.
func pressed(m shelf.Model, keys ...tea.KeyMsg) (shelf.Model, look.Wish) {
	var wish look.Wish
	for _, k := range keys {
		m, wish = m.Update(k)
	}
	return m, wish
}

var (
	enter = tea.KeyMsg{Type: tea.KeyEnter}
	down  = tea.KeyMsg{Type: tea.KeyDown}
	end   = tea.KeyMsg{Type: tea.KeyEnd}
)

// mat is an example whose pattern can be asked about.
func mat(t testing.TB) shelf.Example {
	p := patterntest.Build(t, patterntest.Frame(12, 2, 2, 6))
	return shelf.Example{Name: "quay-mat", Title: "Quay Mat", Size: "12 pegs, 15 rows", Order: pattern.Order{Pattern: p, Way: p.Way}}
}

func TestWhatCanBeDoneWithWhatLiesOnTheShelf(t *testing.T) {
	s := stock()
	s.Examples = []shelf.Example{mat(t)}
	s.Pieces = append(s.Pieces, shelf.Piece{ID: "e", Title: "Old Scarf", Lies: shelf.Away})
	cases := []struct {
		name string
		keys []tea.KeyMsg
		want look.Wish
		says string
	}{
		{"put away", []tea.KeyMsg{rune_('a')}, look.PutAway{ID: "a"}, ""},
		{"delete", []tea.KeyMsg{down, rune_('d')}, look.Delete{ID: "b"}, ""},
		{"undo", []tea.KeyMsg{rune_('u')}, look.TakeBack{}, ""},
		{"the other piece", []tea.KeyMsg{{Type: tea.KeyTab}}, look.Swap{}, ""},
		{"another name", []tea.KeyMsg{rune_('r'), rune_('!'), enter}, look.Rename{ID: "a", Title: "Towpath Cloth!"}, ""},
		{"a pasted name is cleaned", []tea.KeyMsg{rune_('r'), {Type: tea.KeyRunes, Runes: []rune("\x1b[31m x\u202e"), Paste: true}, enter}, look.Rename{ID: "a", Title: "Towpath Cloth[31m x"}, ""},
		{"no other name after all", []tea.KeyMsg{rune_('r'), rune_('!'), {Type: tea.KeyEsc}}, nil, ""},
		{"the same name is none", []tea.KeyMsg{rune_('r'), enter}, nil, ""},
		{"begin in the middle", []tea.KeyMsg{end, rune_('m'), rune_('9'), enter}, look.BeginPattern{Example: "quay-mat", OnLoom: 9}, ""},
		{"with more rows than there are", []tea.KeyMsg{end, rune_('m'), rune_('9'), rune_('9'), enter}, nil, "write how many: 1 to 15"},
		{"an example has no name to change", []tea.KeyMsg{end, rune_('r')}, nil, "rename: an example"},
		{"a piece is not begun", []tea.KeyMsg{rune_('m')}, nil, "begin mid-way: for examples"},
		{"what can't be read stays", []tea.KeyMsg{down, down, down, rune_('d')}, nil, "delete: it can't be read"},
		{"what is put away comes back", []tea.KeyMsg{rune_('v'), down, down, down, down, rune_('a')}, look.PutAway{ID: "e", Back: true}, ""},
		{"the wheel moves the hand and opens nothing", []tea.KeyMsg{}, nil, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			m, wish := pressed(newShelf(s, 80, 24), c.keys...)
			assert.Equal(t, c.want, wish)
			if c.says != "" {
				assert.Contains(t, m.View(), c.says)
			}
		})
	}
	m := newShelf(s, 80, 24)
	m, wish := m.Update(tea.MouseMsg{Button: tea.MouseButtonWheelDown, Action: tea.MouseActionPress})
	assert.Nil(t, wish)
	_, wish = m.Update(enter)
	assert.Equal(t, look.OpenPiece{ID: "b"}, wish)
}

func TestTheHelpOfTheShelfSaysWhyAKeyDoesNothing(t *testing.T) {
	m, _ := pressed(newShelf(stock(), 80, 24), end, rune_('?'))
	assert.Contains(t, m.View(), "rename: an example")
	assert.Contains(t, m.View(), "what is put away: nothing")
	m, _ = pressed(m, rune_('x'))
	assert.Contains(t, m.View(), "Begin something new")
}

func TestTheHandStaysWhereItWas(t *testing.T) {
	m, _ := pressed(newShelf(stock(), 80, 24), down, down)
	s := stock()
	s.Pieces = s.Pieces[:2]
	m = m.Restock(s)
	assert.Contains(t, m.View(), "▸ Gauge-Board", "not on an example, which enter would begin")
}
