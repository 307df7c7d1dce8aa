// Package tally is the smallest model worth a terminal: it counts bursts of keys.
// The harness's own tests run it in-process and, through tallyprog, on a pty.
package tally

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
)

// Model counts key messages. Its colours come from the renderer it is given.
type Model struct {
	Renderer *lipgloss.Renderer
	Count    int
	// Release lets a model that is stuck go on.
	Release chan struct{}

	last string
	w, h int
}

// Init starts nothing.
func (m Model) Init() tea.Cmd { return nil }

// Update counts; "q" quits, "!" panics and "#" is stuck until
// released.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.w, m.h = msg.Width, msg.Height
	case tea.KeyMsg:
		switch msg.String() {
		case "q":
			return m, tea.Quit
		case "!":
			panic("asked to")
		case "#":
			<-m.Release
		}
		m.Count++
		m.last = msg.String()
	}
	return m, nil
}

// View shows the count reversed, the last key and the size.
func (m Model) View() string {
	count := m.Renderer.NewStyle().Reverse(true).Render(fmt.Sprintf("<%d>", m.Count))
	return fmt.Sprintf("count %s\nlast %q\nsize %dx%d", count, m.last, m.w, m.h)
}
