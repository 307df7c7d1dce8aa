package shelf

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/tui/look"
)

// # What is typed on the shelf
//
// A name, the rows that are on the loom already, or what a finished piece measures.

// nameLimit is how many letters a name may have.
const nameLimit = 200

// ask lays a field of text over the foot.
func (m Model) ask(what overlay, value string) Model {
	m.overlay = what
	m.input.Reset()
	m.input.CharLimit = nameLimit
	if what == middleOverlay {
		m.input.CharLimit = len(strconv.Itoa(pattern.MaxRows))
	}
	m.input.SetValue(value)
	m.input.CursorEnd()
	m.input.Focus()
	return m
}

// AskBurst splits a key that asks for text from the text typed right behind it in one go.
func (m Model) AskBurst(k tea.KeyMsg) (ask, text tea.KeyMsg, ok bool) {
	ask, text, ok = look.FirstRune(k)
	return ask, text, ok && m.overlay == noOverlay && key.Matches(ask, m.keys.Rename, m.keys.Middle, m.keys.Size)
}

// question is what the field asks for.
func (m Model) question() string {
	switch m.overlay {
	case nameOverlay:
		return "another name: "
	case sizeOverlay:
		return "size and weight: "
	}
	e := m.hand().example
	return fmt.Sprintf("%ss on the loom already, of %d: ", e.Order.Pattern.Form.RowWord(), e.Order.Pattern.Grid.Rows())
}

// typeInto takes a key while the field is there.
func (m Model) typeInto(k tea.KeyMsg) (Model, look.Wish) {
	var became look.Typed
	m.input, became = look.TypeInto(m.input, k, m.overlay == middleOverlay)
	switch became {
	case look.Dropped:
		m.overlay = noOverlay
	case look.Kept:
		return m.typed(strings.TrimSpace(m.input.Value()))
	}
	return m, nil
}

// typed takes what was typed.
func (m Model) typed(text string) (Model, look.Wish) {
	switch m.overlay {
	case sizeOverlay:
		return m.sizeTyped(text)
	case nameOverlay:
		m.overlay = noOverlay
		p := m.hand().piece
		if text == "" || text == p.Title {
			return m, nil
		}
		return m, look.Rename{ID: p.ID, Title: text}
	}
	e := m.hand().example
	rows, err := strconv.Atoi(text)
	if most := e.Order.Pattern.Grid.Rows(); err != nil || rows < 1 || rows > most {
		m.input.Reset()
		m.stock.Notice = fmt.Sprintf("write how many: 1 to %d", most)
		return m, nil
	}
	m.overlay = noOverlay
	return m, look.BeginPattern{Example: e.Name, OnLoom: rows}
}

// sizeTyped takes what a finished piece measures and weighs; nothing takes that away. What
// can't be is left in the field, to be put right.
func (m Model) sizeTyped(text string) (Model, look.Wish) {
	p := m.hand().piece
	var f fit.Finished
	var err error
	if text != "" {
		if f, err = fit.ParseFinished(text, p.Order.Pattern.Form); err == nil {
			_, err = fit.OwnOf(p.Order.Pattern, f)
		}
	}
	if err != nil {
		m.stock.Notice = fit.Advice(err)
		return m, nil
	}
	m.overlay = noOverlay
	if f == p.Finished {
		return m, nil
	}
	return m, look.PutDown{ID: p.ID, Finished: f}
}
