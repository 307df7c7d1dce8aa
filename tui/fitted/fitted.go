// Package fitted is the screen of what a pattern comes to before it is cast on: size, yarn,
// loom, edges, markers and time, as the report tells them. From it the piece is begun, or
// gone on with.
package fitted

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/report"
)

// Model is the screen.
type Model struct {
	title         string
	parts         []report.Part
	does          string    // what choosing does: "begin", "go on"
	chosen        look.Wish // what it wishes
	style         *look.Style
	keys          look.ShelfKeys
	first         int // the first line of the report that is shown
	width, height int
}

// New is the screen of a report. Choosing wishes what is chosen, and does that in a word.
func New(r *report.Report, does string, chosen look.Wish, style *look.Style, keys look.ShelfKeys) Model {
	return Model{title: r.Title(), parts: r.Parts(), does: does, chosen: chosen, style: style, keys: keys}
}

// SetSize gives the screen its size.
func (m Model) SetSize(width, height int) Model {
	m.width, m.height = width, height
	return m.scrolled(0)
}

// Keys are the keys that mean something here.
func (m Model) Keys() []key.Binding { return append(m.keys.ListKeys.All(), m.keys.Fit) }

// wheelLines is how many lines a notch of the wheel scrolls.
const wheelLines = 3

// Update takes one message, and tells the router what is wished.
func (m Model) Update(msg tea.Msg) (Model, look.Wish) {
	switch msg := msg.(type) {
	case tea.MouseMsg:
		switch msg.Button {
		case tea.MouseButtonWheelUp:
			return m.scrolled(-wheelLines), nil
		case tea.MouseButtonWheelDown:
			return m.scrolled(wheelLines), nil
		}
	case tea.KeyMsg:
		return m.press(msg)
	}
	return m, nil
}

func (m Model) press(k tea.KeyMsg) (Model, look.Wish) {
	switch {
	case k.Type == tea.KeyEsc, key.Matches(k, m.keys.Leave, m.keys.Fit):
		return m, look.Leave{}
	case key.Matches(k, m.keys.Freeze):
		return m, look.Sleep{}
	case key.Matches(k, m.keys.Choose):
		return m, m.chosen
	case key.Matches(k, m.keys.Up):
		return m.scrolled(-1), nil
	case key.Matches(k, m.keys.Down):
		return m.scrolled(1), nil
	case key.Matches(k, m.keys.PageUp):
		return m.scrolled(-m.room()), nil
	case key.Matches(k, m.keys.PageDown):
		return m.scrolled(m.room()), nil
	case key.Matches(k, m.keys.First):
		return m.scrolled(-len(m.lines())), nil
	case key.Matches(k, m.keys.Last):
		return m.scrolled(len(m.lines())), nil
	}
	return m, nil
}

// scrolled shows so many lines further on, or back.
func (m Model) scrolled(by int) Model {
	m.first = max(0, min(m.first+by, len(m.lines())-m.room()))
	return m
}

// # The lines of the screen
//
// The pattern's title, the report, and the keys. The labels stand in a column of their own,
// and above the words where the screen is narrow.

// The smallest screen that there is a report on.
const (
	MinWidth  = 24
	MinHeight = 6
)

const (
	labels     = 10
	narrow     = 50 // below it labels have lines of their own
	readable   = 92 // words are not spread wider
	aroundRoom = 3  // title, blank, keys
)

// room is how many lines of the report are shown at once.
func (m Model) room() int { return max(1, m.height-aroundRoom) }

// lines are all lines of the report.
func (m Model) lines() []string {
	var lines []string
	indent := labels
	if m.width < narrow {
		indent = 2
	}
	for _, part := range m.parts {
		for n, text := range part.Lines {
			label := ""
			if n == 0 {
				label = part.Label
			}
			if n == 0 && indent < labels {
				lines = append(lines, m.style.Faint(safetext.Cut(label, m.width)))
				label = ""
			}
			for i, line := range look.Wrap(min(m.width, readable)-indent-2, safetext.Clean(text)) {
				if i > 0 {
					label, line = "", "  "+line
				}
				lines = append(lines, m.style.Faint(safetext.Pad(label, indent))+line)
			}
		}
	}
	return lines
}

// View draws the screen in at most its height of lines, none wider than its width.
func (m Model) View() string {
	if m.width < MinWidth || m.height < MinHeight {
		return look.TooSmall(MinWidth, MinHeight, m.width)
	}
	all := m.lines()
	shown := all[m.first:min(len(all), m.first+m.room())]
	lines := []string{m.style.Strong(safetext.Cut(m.title, m.width)), ""}
	lines = append(lines, shown...)
	for len(lines) < m.height-1 {
		lines = append(lines, "")
	}
	k := m.keys
	most := []look.Hint{{Key: k.Choose, Word: m.does}}
	if len(all) > m.room() {
		most = append(most, look.Hint{Key: k.Up}, look.Hint{Key: k.Down, Word: "more"})
	}
	keys := m.style.Faint(m.style.HintLine(most, []look.Hint{{Key: k.Leave, Word: "back"}}, m.width))
	return strings.Join(append(lines, keys), "\n")
}
