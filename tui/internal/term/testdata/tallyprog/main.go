// Tallyprog runs the tally on the terminal's alternate screen.
package main

import (
	"fmt"
	"os"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"

	"bypeg/tui/internal/term/testdata/tally"
)

func main() {
	model := tally.Model{Renderer: lipgloss.DefaultRenderer()}
	if _, err := tea.NewProgram(model, tea.WithAltScreen()).Run(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(70)
	}
}
