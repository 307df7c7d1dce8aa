// Package fitted is the screen of what a pattern comes to before it is cast on: size, yarn,
// loom, edges, markers and time, as the report tells them. From it the piece is begun, or
// gone on with.
package fitted

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/tui/look"
	"bypeg/tui/report"
)

// Model is the screen.
type Model struct {
	title         string
	sheets        [][]report.Part // by the pattern's figures, and by the maker's own where there are any
	turned        int             // the one that is shown
	lines         []report.Line   // of its parts, at this width
	does          string          // what choosing does: "begin", "go on"
	chosen        look.Wish       // what it wishes
	style         *look.Style
	keys          look.ListKeys
	first         int // the first line of the report that is shown
	width, height int
}

// New is the screen of a report, and of the one by the maker's own figures, which may be nil.
// Choosing wishes what is chosen, and does that in a word.
func New(r, own *report.Report, does string, chosen look.Wish, style *look.Style, keys look.ListKeys) Model {
	m := Model{title: r.Title(), sheets: [][]report.Part{r.Parts()}, does: does, chosen: chosen, style: style, keys: keys}
	if own != nil {
		m.sheets = append(m.sheets, own.Parts())
	}
	return m
}

// SetSize gives the screen its size.
func (m Model) SetSize(width, height int) Model {
	m.width, m.height = width, height
	m.lines = report.Lay(m.sheets[m.turned], width)
	return m.scrolled(0)
}

// Keys are the keys that mean something here.
func (m Model) Keys() []key.Binding { return m.keys.All() }

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
	case key.Matches(k, m.keys.Leave):
		return m, look.Leave{}
	case key.Matches(k, m.keys.Freeze):
		return m, look.Sleep{}
	case m.tooSmall():
		return m, nil // nobody begins what is not seen
	case key.Matches(k, m.keys.Choose):
		return m, m.chosen
	case key.Matches(k, m.keys.Up):
		return m.scrolled(-1), nil
	case key.Matches(k, m.keys.Down):
		return m.scrolled(1), nil
	case key.Matches(k, m.keys.PageUp):
		return m.scrolled(1 - m.room()), nil // a line stays, to read on from
	case key.Matches(k, m.keys.PageDown):
		return m.scrolled(m.room() - 1), nil
	case key.Matches(k, m.keys.First):
		return m.scrolled(-len(m.lines)), nil
	case key.Matches(k, m.keys.Last):
		return m.scrolled(len(m.lines)), nil
	case key.Matches(k, m.keys.Left, m.keys.Right) && len(m.sheets) > 1:
		m.turned, m.first = 1-m.turned, 0
		return m.SetSize(m.width, m.height), nil
	}
	return m, nil
}

// scrolled shows so many lines further on, or back.
func (m Model) scrolled(by int) Model {
	m.first = max(0, min(m.first+by, len(m.lines)-m.room()))
	return m
}

// # The lines of the screen
//
// The pattern's title, the report, and the keys. Where the report is longer than the screen
// the keys tell which of its lines are seen.

// The smallest screen that there is a report on.
const (
	MinWidth  = 24
	MinHeight = 6
)

func (m Model) tooSmall() bool { return m.width < MinWidth || m.height < MinHeight }

// mostTitle is how many lines the title has at most, whatever a pattern is called.
const mostTitle = 2

// head is the title, and a blank below it.
func (m Model) head() []string {
	title := look.Wrap(m.width, m.title)
	var lines []string
	for _, line := range title[:min(len(title), mostTitle)] {
		lines = append(lines, m.style.Strong(line))
	}
	return append(lines, "")
}

// room is how many lines of the report are shown at once.
func (m Model) room() int { return max(2, m.height-len(m.head())-1) }

// View draws the screen in at most its height of lines, none wider than its width.
func (m Model) View() string {
	if m.tooSmall() {
		return look.TooSmall(MinWidth, MinHeight, m.width)
	}
	lines := m.head()
	for _, line := range m.lines[m.first:min(len(m.lines), m.first+m.room())] {
		lines = append(lines, m.style.Faint(line.Label)+line.Text)
	}
	for len(lines) < m.height-1 {
		lines = append(lines, "")
	}
	return strings.Join(append(lines, m.style.Faint(m.keysLine())), "\n")
}

// keysLine names the keys, as many as fit.
func (m Model) keysLine() string {
	k := m.keys
	most := []look.Hint{{Key: k.Choose, Word: m.does}}
	if seen := m.first + m.room(); m.room() < len(m.lines) {
		words := fmt.Sprintf("lines %d to %d of %d", m.first+1, seen, len(m.lines))
		if m.width < 60 {
			words = fmt.Sprintf("%d-%d of %d", m.first+1, seen, len(m.lines))
		}
		most = append(most, look.Hint{Key: k.Up}, look.Hint{Key: k.Down, Word: words})
	}
	if len(m.sheets) > 1 {
		most = slices.Insert(most, 1, m.turn())
		if m.width < 60 { // to begin is the one that anybody guesses
			most = append(most[1:], most[0])
		}
	}
	return m.style.HintLine(most, []look.Hint{{Key: k.Leave, Word: "back"}}, m.width)
}

// turn names the key that turns to the other figures.
func (m Model) turn() look.Hint {
	turn := look.Hint{Key: m.keys.Right, Word: "by your own figures"}
	if m.turned > 0 {
		turn = look.Hint{Key: m.keys.Left, Word: "by the pattern's figures"}
	}
	if m.width < 60 {
		turn.Word = strings.TrimSuffix(strings.TrimPrefix(turn.Word, "by "), " figures")
	}
	return turn
}
