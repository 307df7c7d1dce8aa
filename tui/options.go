package tui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"bypeg/tui/look"
	"bypeg/tui/work"
)

// Options are what a maker has chosen.
type Options struct {
	Keys        look.WorkKeys
	Lists       look.ListKeys
	Shelf       look.ShelfKeys
	Chart       look.ChartKeys
	Ways        look.WayKeys
	Talk        look.TalkKeys
	Bell        func()        // rings; nil is silent
	WrapAhead   bool          // tells which pegs may be wrapped ahead
	DoublePress time.Duration // within which a second whole row asks first; 0 never asks
	Pause       time.Duration // of work, after which a rest is suggested; 0 never
	Notice      string        // told on the first screen; mostly ""
}

// forWork are the options of the work screen. Large print stays as it was chosen.
func (m Model) forWork() work.Options {
	o := m.options
	return work.Options{Now: m.now, Bell: o.Bell, DoublePress: o.DoublePress, Pause: o.Pause, Large: m.work.Large(), WrapAhead: o.WrapAhead}
}

// roll gives the mouse's wheel to the screen in hand. Nothing else the mouse does goes any
// further, and the work screen has no use for the wheel: it never moves the place.
func (m Model) roll(msg tea.MouseMsg) (tea.Model, tea.Cmd) {
	if m.busy || m.deaf || m.waits != nil || m.screen == onWork || !tea.MouseEvent(msg).IsWheel() {
		return m, nil
	}
	return m.pass(msg)
}
