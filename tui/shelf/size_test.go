package shelf_test

import (
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/patterntest"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
	"bypeg/tui/shelf"
)

// offLoom is a shelf with a finished piece of 12 pegs and 15 rows under the hand.
func offLoom(t testing.TB, form pattern.Form, made fit.Finished) shelf.Stock {
	plan := patterntest.Frame(12, 2, 2, 6)
	p := patterntest.Build(t, plan)
	p.Form = form
	return shelf.Stock{Pieces: []shelf.Piece{{
		ID: "c", Title: "Weir Collar", Lies: shelf.OffLoom, Where: "finished, 15 rows", Worked: now.AddDate(0, 0, -22),
		Order: pattern.Order{Pattern: p, Way: p.Way}, At: pattern.Place{Phase: pattern.Finishing}, Finished: made,
	}}, Examples: stock().Examples}
}

// Pieces of one pattern that were finished on one day are told apart by the clock, however
// small the screen.
func TestPiecesOfOneNameAreToldApart(t *testing.T) {
	s := offLoom(t, pattern.Panel, fit.Finished{})
	one := s.Pieces[0]
	s.Pieces = nil
	add := func(id string, lies shelf.Lies, worked time.Time) {
		p := one
		p.ID, p.Lies, p.Worked = id, lies, worked
		s.Pieces = append(s.Pieces, p)
	}
	add("a", shelf.OffLoom, now.Add(-time.Minute))
	add("b", shelf.OffLoom, now.Add(-2*time.Hour))
	add("c", shelf.OffLoom, now.Add(-2*time.Hour+5*time.Second))
	add("d", shelf.OffLoom, now.AddDate(0, 0, -22))
	add("e", shelf.OffLoom, now.AddDate(0, 0, -23))
	add("f", shelf.OffLoom, now.AddDate(-2, 0, 0))
	add("g", shelf.OnLoom, now.Add(-time.Minute))
	for _, size := range [][2]int{{80, 24}, {40, 24}} {
		view := newShelf(s, size[0], size[1]).View()
		for _, says := range []string{
			"today " + now.Add(-time.Minute).Format("15:04") + "\n", "today " + now.Add(-2*time.Hour).Format("15:04:05"), "today " + now.Add(-2*time.Hour+5*time.Second).Format("15:04:05"),
			now.AddDate(0, 0, -22).Format("2 Jan 15:04"), now.AddDate(0, 0, -23).Format("2 Jan 15:04"), "2 years ago",
		} {
			assert.Equal(t, 1, strings.Count(view, says), "%s\n%s", says, view)
		}
		assert.Equal(t, 1, strings.Count(view, "today\n"), "the one on the loom is alone: %s", view)
	}
}

func typed(text string) []tea.KeyMsg {
	var keys []tea.KeyMsg
	for _, r := range text {
		keys = append(keys, rune_(r))
	}
	return append(keys, enter)
}

func TestWhatAFinishedPieceMeasuresIsPutDown(t *testing.T) {
	wiped := []tea.KeyMsg{rune_('i'), {Type: tea.KeyCtrlU}}
	made := fit.Finished{Width: 210, Height: 300, Grams: 60}
	for _, c := range []struct {
		name string
		made fit.Finished
		keys []tea.KeyMsg
		want look.Wish
		says string
	}{
		{"all of it", fit.Finished{}, append(wiped, typed("21.5 x 30 cm, 62 g")...), look.PutDown{ID: "c", Finished: fit.Finished{Width: 215, Height: 300, Grams: 62}}, ""},
		{"some of it", fit.Finished{}, append(wiped, typed("62g")...), look.PutDown{ID: "c", Finished: fit.Finished{Grams: 62}}, ""},
		{"in place of what was", made, append(wiped, typed("22 x 30")...), look.PutDown{ID: "c", Finished: fit.Finished{Width: 220, Height: 300}}, ""},
		{"nothing takes it away", made, append(wiped, enter), look.PutDown{ID: "c"}, ""},
		{"the same is nothing new", made, []tea.KeyMsg{rune_('i'), enter}, nil, "Off the loom"},
		{"after all not", made, []tea.KeyMsg{rune_('i'), rune_('9'), {Type: tea.KeyEsc}}, nil, "Off the loom"},
		{"no size", fit.Finished{}, append(wiped, typed("twelve")...), nil, `"twelve" does not say of what: write it like 21.5 x 30 cm, 62 g`},
		{"what is refused stays in the field", made, append([]tea.KeyMsg{rune_('i')}, typed(", 5 g")...), nil, "the weight is told twice: write one of them"},
		{"no fabric is so narrow", fit.Finished{}, append(wiped, typed("1 mm wide")...), nil, "1200 stitches in 10 cm, and no knitted fabric has that:"},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, wish := pressed(newShelf(offLoom(t, pattern.Panel, c.made), 80, 24), c.keys...)
			assert.Equal(t, c.want, wish)
			assert.Contains(t, m.View(), c.says)
			assert.Equal(t, c.want == nil && c.says != "Off the loom", m.Typing(), "what can't be is put right in the field")
		})
	}
}

// Of a tube the width is that of the tube laid flat: half of the way round.
func TestATubeIsPutDownAsItLies(t *testing.T) {
	wiped := []tea.KeyMsg{rune_('i'), {Type: tea.KeyCtrlU}}
	for text, want := range map[string]fit.Finished{
		"22.5 x 30 cm":    {Width: 450, Height: 300},
		"45 x 30 round":   {Width: 450, Height: 300},
		"22.5 cm flat":    {Width: 450},
		"22.5 x 30, 70 g": {Width: 450, Height: 300, Grams: 70},
	} {
		_, wish := pressed(newShelf(offLoom(t, pattern.Tube, fit.Finished{}), 80, 24), append(wiped, typed(text)...)...)
		assert.Equal(t, look.PutDown{ID: "c", Finished: want}, wish, text)
	}
	_, wish := pressed(newShelf(offLoom(t, pattern.Tube, fit.Finished{Width: 450, Height: 300}), 80, 24), rune_('i'), enter)
	assert.Nil(t, wish, "what the field shows is what is kept")
}

func TestTheFieldOfTheSizeAsItWasLookedAt(t *testing.T) {
	made := fit.Finished{Width: 215, Height: 300, Grams: 62}
	for _, size := range [][2]int{{80, 24}, {40, 12}} {
		m := newShelf(offLoom(t, pattern.Panel, made), size[0], size[1])
		name := map[int]string{80: "80x24", 40: "40x12"}[size[0]]
		golden.Check(t, name+" off the loom", m.View())
		m, _ = m.Update(rune_('i'))
		golden.Check(t, name+" size", m.View())
	}
	tube, _ := newShelf(offLoom(t, pattern.Tube, fit.Finished{Width: 440}), 80, 24).Update(rune_('i'))
	assert.Contains(t, tube.View(), "size and weight: 44 cm round")
	assert.Contains(t, tube.View(), "like 22.5 cm flat, 30 cm high, 62 g")
}
