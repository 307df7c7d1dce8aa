// Package where is the talk about the place: one question at a time, and what is known by
// now, until the fabric has told which row is next. It moves nothing: whoever finds the
// place says whether to go there, and the router does it.
package where

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/tui/look"
)

// said is a question that was answered.
type said struct {
	question find.Question
	answer   string
	before   find.Evidence // what was known when it was asked
}

// Model is the screen.
type Model struct {
	title         string
	order         pattern.Order
	noted         pattern.Place
	looking       bool // the piece can't be worked
	style         *look.Style
	keys          look.WhereKeys
	evidence      find.Evidence
	answer        find.Answer
	talk          []said
	input         textinput.Model
	told          string // why what was typed is no answer; until the next key
	chosen        int    // of the places found
	width, height int
}

// New begins the talk about a piece that was left at a place.
func New(title string, o pattern.Order, noted pattern.Place, looking bool, style *look.Style, keys look.WhereKeys) Model {
	m := Model{title: title, order: o, noted: noted, looking: looking, style: style, keys: keys, input: look.NewField()}
	m.input.CharLimit = 40
	m.input.Focus()
	return m.knowing(find.Evidence{Noted: noted})
}

// knowing is the talk with so much known.
func (m Model) knowing(e find.Evidence) Model {
	m.evidence, m.answer, m.chosen = e, find.Search(m.order, e), 0
	m.input.Reset()
	return m
}

// SetSize gives the screen its size.
func (m Model) SetSize(width, height int) Model {
	m.width, m.height = width, height
	m.input.Width = max(1, width-len(prompt)-1)
	return m
}

// Keys are the keys that mean something here.
func (m Model) Keys() []key.Binding { return m.keys.All() }

// Typing tells whether keys go into a field of text.
func (m Model) Typing() bool { return m.answer.Asks }

// Update takes one message, and tells the router what is wished.
func (m Model) Update(msg tea.Msg) (Model, look.Wish) {
	k, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		return m, nil
	case key.Matches(k, m.keys.Leave):
		return m, look.Leave{}
	case key.Matches(k, m.keys.Freeze):
		return m, look.Sleep{}
	case m.tooSmall():
		return m, nil // nobody answers what is not seen
	}
	m.told = ""
	switch {
	case key.Matches(k, m.keys.Back) && (m.input.Value() == "" || !m.answer.Asks):
		return m.back(), nil
	case m.answer.Asks:
		return m.typeInto(k), nil
	case key.Matches(k, m.keys.Up):
		m.chosen = max(0, m.chosen-1)
	case key.Matches(k, m.keys.Down):
		m.chosen = min(max(0, len(m.places())-1), m.chosen+1)
	case key.Matches(k, m.keys.Answer):
		return m.goThere()
	}
	return m, nil
}

// back takes the last answer back.
func (m Model) back() Model {
	n := len(m.talk)
	if n == 0 {
		return m
	}
	last := m.talk[n-1]
	m.talk = m.talk[: n-1 : n-1]
	m = m.knowing(last.before)
	return m
}

// typeInto takes a key of an answer. An empty one passes the question over.
func (m Model) typeInto(k tea.KeyMsg) Model {
	var became look.Typed
	if m.input, became = look.TypeInto(m.input, k, false); became != look.Kept {
		return m
	}
	text, q, was := strings.TrimSpace(m.input.Value()), m.answer.Ask, m.evidence
	next := was.Skip(q)
	if text != "" {
		c, err := q.Read(m.order, text)
		if err != nil {
			m.told = err.Error()
			return m
		}
		next = was.With(c)
	}
	m.talk = append(m.talk[:len(m.talk):len(m.talk)], said{q, text, was})
	return m.knowing(next)
}

// goThere goes to the place under the hand.
func (m Model) goThere() (Model, look.Wish) {
	places := m.places()
	switch {
	case len(places) == 0:
		return m, look.Leave{}
	case m.looking:
		m.told = "this piece is open to look only: its place stays"
		return m, nil
	}
	return m, look.GoTo{Place: places[m.chosen].at}
}

// How many places are named where nothing more can tell them apart, and where none agrees.
const (
	mostPlaces = 6
	mostBut    = 3
)

// place is a place that may be the one.
type place struct {
	at   pattern.Place
	says string
}

// places are those that agree with all that was said, or else with all but one thing.
func (m Model) places() []place {
	var all []place
	for _, f := range m.answer.Fits {
		if len(all) == mostPlaces {
			return all
		}
		all = append(all, place{f.Place(m.order.Pattern), f.Where(m.order)})
	}
	if len(all) > 0 {
		return all
	}
	for _, b := range m.answer.But {
		if len(all) == mostBut {
			break
		}
		all = append(all, place{b.Place(m.order.Pattern), b.Where(m.order) + "; it agrees but for " + b.Doubt(m.order, m.evidence)})
	}
	return all
}
