package tui

import (
	"fmt"
	"runtime/debug"

	tea "github.com/charmbracelet/bubbletea"
)

// Crash is a bug caught while the program ran.
type Crash struct {
	Reason string
	Stack  []byte
}

// Guard is a model that catches a panic of the model within: the program ends in good
// order, so that the terminal comes back and what waits for the disk is saved.
type Guard struct {
	Model tea.Model
	Crash *Crash // nil while all is well
}

// Init begins the model within.
func (g Guard) Init() tea.Cmd { return g.Model.Init() }

// Update passes a message on.
func (g Guard) Update(msg tea.Msg) (next tea.Model, cmd tea.Cmd) {
	defer func() {
		if r := recover(); r != nil {
			g.Crash = &Crash{fmt.Sprint(r), debug.Stack()}
			next, cmd = g, tea.Quit
		}
	}()
	g.Model, cmd = g.Model.Update(msg)
	return g, cmd
}

// View draws the model within, and nothing once it has crashed.
func (g Guard) View() string {
	if g.Crash != nil {
		return ""
	}
	return g.Model.View()
}

// safely turns a panic in a command into a message: commands run outside the guard.
func safely(cmd tea.Cmd) tea.Cmd {
	return func() (msg tea.Msg) {
		defer func() {
			if r := recover(); r != nil {
				msg = failedMsg{fmt.Errorf("a bug in this program: %v", r)}
			}
		}()
		return cmd()
	}
}
