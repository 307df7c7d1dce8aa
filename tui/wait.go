package tui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"bypeg/tui/look"
)

// What is on its way to the disk is waited for before the piece is left for another, and
// before the program sleeps, which saves nothing then. Keys are passed over meanwhile: they
// are meant for what comes.

// waitFor is how long the disk is waited for. Then the piece stays in hand.
const waitFor = 3 * time.Second

// waitedMsg comes after that while; it carries how often had been waited when it was sent.
type waitedMsg int

// onceSaved does a wish once nothing is on its way to the disk.
func (m Model) onceSaved(wish look.Wish) (Model, tea.Cmd) {
	m.waits = wish
	m.waited++
	if m, done := m.doWaiting(); m.waits == nil {
		return m, done
	}
	n := m.waited
	return m, tea.Tick(waitFor, func(time.Time) tea.Msg { return waitedMsg(n) })
}

// doWaiting does what waits, if it need not wait any more. What can't be saved keeps the
// piece in hand, and its screen says so; sleep loses nothing, so it comes all the same.
func (m Model) doWaiting() (Model, tea.Cmd) {
	if m.waits == nil || m.working && m.work.Saving() {
		return m, nil
	}
	wish := m.waits
	m.waits = nil
	switch wish := wish.(type) {
	case look.Sleep:
		return m, tea.Suspend
	case look.GoOn:
		if m.working && !m.work.Unsaved() {
			return m.open(func() (*Opened, error) { return m.desk.GoOn(wish.Text, wish.Words) })
		}
		m.work = m.work.Say("the plan stays as it was: not all is saved")
	case look.Swap:
		if !m.working || !m.work.Unsaved() {
			return m.open(m.desk.Swap)
		}
	}
	return m, nil
}

// waitedLong gives up what waits.
func (m Model) waitedLong(n int) Model {
	if m.waits == nil || n != m.waited {
		return m
	}
	m.waits = nil
	m.work = m.work.Say("not all is saved yet: press that again when it is")
	return m
}

// opening goes on with a piece that was taken to the desk. One that was being worked comes
// back unasked, since its file was changed: a field of text that is open stays, or else
// keys on their way are passed over.
func (m Model) opening(msg openedMsg) (Model, tea.Cmd) {
	m.busy = false
	was, again := m.work, m.working && msg.unasked
	m, took := m.take(msg.opened)
	if !again || m.screen != onWork {
		m.held = nil
		return m, took
	}
	m.work = m.work.TypeOn(was)
	if m.work.Typing() {
		m, typed := m.sized().typeHeld()
		return m, tea.Batch(took, typed)
	}
	m.held = nil // they were for a screen that is gone
	m, calm := m.calm()
	return m, tea.Batch(took, calm)
}

// typeHeld types what was typed while the piece was read anew, where the field is there
// still.
func (m Model) typeHeld() (Model, tea.Cmd) {
	held := m.held
	m.held = nil
	var cmds []tea.Cmd
	for _, k := range held {
		if m.busy || m.screen != onWork || !m.work.Typing() {
			break // there is no such field any more
		}
		var cmd tea.Cmd
		m, cmd = m.passToWork(k)
		cmds = append(cmds, cmd)
	}
	return m, tea.Batch(cmds...)
}
