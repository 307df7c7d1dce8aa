package tui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// lockEvery is how often a piece that is open elsewhere is looked after.
const lockEvery = 500 * time.Millisecond

// lockMsg brings a piece that is open elsewhere as it is now.
type lockMsg struct {
	watch  int // the watch that says so: only the one of the piece in hand counts
	opened *Opened
	mine   bool // it can be worked from now on
	err    error
}

// watchLock looks again, after a while, at a piece that is open in another terminal:
// it may have become free, and its place moves. It runs for no other piece.
func (m Model) watchLock() tea.Cmd {
	o, watch := m.opened, m.watch
	if o == nil || !o.Opening.Held {
		return nil
	}
	return tea.Tick(lockEvery, func(time.Time) tea.Msg {
		now, mine, err := m.desk.TakeOver(o)
		return lockMsg{watch, now, mine, err}
	})
}

func (m Model) lookedAgain(msg lockMsg) (Model, tea.Cmd) {
	switch {
	case msg.watch != m.watch:
		return m, nil // that piece is not in hand any more
	case msg.err != nil:
		return m.fail(msg.err)
	case msg.opened == nil:
		return m, nil // it was laid away meanwhile
	case msg.mine:
		covered := m.screen != onWork || m.work.Covered()
		m, took := m.take(msg.opened)
		if !covered {
			return m, took
		}
		m, calm := m.calm() // keys on their way were for what covered the loom
		return m, tea.Batch(took, calm)
	case m.screen == onWork && !m.work.Covered() && msg.opened.Opening.Place != m.opened.Opening.Place:
		return m.take(msg.opened)
	}
	return m, m.watchLock()
}
