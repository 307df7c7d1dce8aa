// Package where is the talk about the place: one question at a time, and what is known by
// now, until the fabric has told which row is next. It moves nothing: whoever finds the
// place says whether to go there, and the router does it.
package where

import (
	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/tui/look"
)

// Model is the screen.
type Model struct {
	title         string
	noted         pattern.Place
	looking       bool // the piece can't be worked
	style         *look.Style
	keys          look.TalkKeys
	talk          find.Talk
	input         textinput.Model
	told          string // why what was typed is no answer; until the next key
	chosen        int    // of the places found
	width, height int
}

// New begins the talk about a piece that was left at a place.
func New(title string, o pattern.Order, noted pattern.Place, looking bool, style *look.Style, keys look.TalkKeys) Model {
	m := Model{title: title, noted: noted, looking: looking, style: style, keys: keys, input: look.NewField()}
	m.input.CharLimit = 40
	m.input.Focus()
	return m.with(find.Begin(o, noted))
}

// with is the screen as the talk goes on.
func (m Model) with(talk find.Talk) Model {
	m.talk, m.chosen = talk, 0
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
func (m Model) Typing() bool { return m.talk.Answer.Asks }

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
	case key.Matches(k, m.keys.Back) && (m.input.Value() == "" || !m.Typing()):
		return m.with(m.talk.Back()), nil
	case m.Typing():
		return m.typeInto(k), nil
	case key.Matches(k, m.keys.Up):
		m.chosen = max(0, m.chosen-1)
	case key.Matches(k, m.keys.Down):
		m.chosen = min(max(0, len(m.guesses())-1), m.chosen+1)
	case key.Matches(k, m.keys.Answer):
		return m.goThere()
	}
	return m, nil
}

// typeInto takes a key of an answer. An empty one passes the question over.
func (m Model) typeInto(k tea.KeyMsg) Model {
	var became look.Typed
	if m.input, became = look.TypeInto(m.input, k, false); became != look.Kept {
		return m
	}
	next, err := m.talk.Reply(m.input.Value())
	if err != nil {
		m.told = err.Error()
		m.input.Reset() // the next answer is not typed behind it
		return m
	}
	return m.with(next)
}

// goThere goes to the place under the hand.
func (m Model) goThere() (Model, look.Wish) {
	guesses := m.guesses()
	switch {
	case len(guesses) == 0:
		return m, nil
	case m.looking:
		m.told = "this piece is open to look only: its place stays"
		return m, nil
	}
	return m, look.GoTo{Place: guesses[m.chosen].Place}
}

func (m Model) guesses() []find.Guess {
	all, _ := m.talk.Guesses()
	return all
}
