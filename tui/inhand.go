package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/tui/ask"
	"bypeg/tui/browse"
	"bypeg/tui/fitted"
	"bypeg/tui/look"
	"bypeg/tui/mending"
	"bypeg/tui/shelf"
	"bypeg/tui/ways"
	"bypeg/tui/where"
	"bypeg/tui/work"
)

// inHand is a screen as the router deals with all of them. What it changes it changes in the
// router.
type inHand interface {
	setSize(width, height int)
	keys() []key.Binding
	view() string
	typing() bool
	askBurst(k tea.KeyMsg) (ask, text tea.KeyMsg, ok bool)
	// update is false for a screen that takes messages in a way of its own.
	update(msg tea.Msg) (wish look.Wish, ok bool)
}

// model is what every screen is; some can do more, which held looks for.
type model[M any] interface {
	SetSize(width, height int) M
	Keys() []key.Binding
	View() string
}

// held is a screen where the router has it.
type held[M model[M]] struct{ at *M }

func (h held[M]) setSize(width, height int) { *h.at = (*h.at).SetSize(width, height) }

func (h held[M]) keys() []key.Binding { return (*h.at).Keys() }

func (h held[M]) view() string { return (*h.at).View() }

func (h held[M]) typing() bool {
	typist, ok := any(*h.at).(interface{ Typing() bool })
	return ok && typist.Typing()
}

func (h held[M]) askBurst(k tea.KeyMsg) (ask, text tea.KeyMsg, ok bool) {
	asks, ok := any(*h.at).(interface {
		AskBurst(tea.KeyMsg) (ask, text tea.KeyMsg, ok bool)
	})
	if !ok {
		return k, k, false
	}
	return asks.AskBurst(k)
}

func (h held[M]) update(msg tea.Msg) (wish look.Wish, ok bool) {
	takes, ok := any(*h.at).(interface {
		Update(tea.Msg) (M, look.Wish)
	})
	if ok {
		*h.at, wish = takes.Update(msg)
	}
	return wish, ok
}

// hand is the screen in hand; nil until there is something to show.
func (m *Model) hand() inHand {
	switch m.screen {
	case onShelf:
		return held[shelf.Model]{&m.shelf}
	case onWork:
		return held[work.Model]{&m.work}
	case onChart:
		return held[browse.Model]{&m.browse}
	case onAsk:
		return held[ask.Model]{&m.ask}
	case onWays:
		return held[ways.Model]{&m.ways}
	case onWhere:
		return held[where.Model]{&m.where}
	case onMend:
		return held[mending.Model]{&m.mend}
	case onFitted:
		return held[fitted.Model]{&m.fitted}
	}
	return nil
}
