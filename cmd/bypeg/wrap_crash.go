//go:build crashtest

package main

import tea "github.com/charmbracelet/bubbletea"

// wrap makes the program crash on a key, for the test that the terminal comes back.
func wrap(m tea.Model) tea.Model { return crashing{m} }

type crashing struct{ tea.Model }

func (c crashing) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if k, ok := msg.(tea.KeyMsg); ok && k.String() == "!" {
		panic("crashed on purpose")
	}
	next, cmd := c.Model.Update(msg)
	return crashing{next}, cmd
}
