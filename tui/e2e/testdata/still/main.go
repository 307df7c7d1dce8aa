// Command still is the least that a program on this terminal can be: it shows a line,
// counts keys, and does nothing else. Others are timed against it.
package main

import (
	"fmt"
	"os"

	tea "github.com/charmbracelet/bubbletea"

	_ "bypeg/tui/darkbg" // asks the terminal nothing, as the one that is timed
)

type still int

func (s still) Init() tea.Cmd { return nil }

func (s still) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if k, ok := msg.(tea.KeyMsg); ok {
		if k.String() == "q" {
			return s, tea.Quit
		}
		s++
	}
	return s, nil
}

func (s still) View() string { return fmt.Sprintf("still %d", s) }

func main() {
	if _, err := tea.NewProgram(still(0), tea.WithAltScreen()).Run(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
