// Package browse is the screen of the chart: the whole fabric with its rulers, row by
// row from the bottom, read at leisure. It moves nothing in the work.
package browse

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
)

// Model is the screen.
type Model struct {
	order         pattern.Order
	chart         *chart.Chart
	style         *look.Style
	keys          look.ListKeys
	first         int // the lowest row shown
	part          int // which of the parts of a wide chart is shown
	width, height int
}

// New is the chart of a pattern, opened so that the given row is seen.
func New(o pattern.Order, row int, style *look.Style, keys look.ListKeys) Model {
	return Model{order: o, chart: chart.New(o, style.Chart()), style: style, keys: keys, first: max(1, row-2)}
}

// SetSize gives the screen its size.
func (m Model) SetSize(width, height int) Model {
	m.width, m.height = width, height
	return m.clamped()
}

// Keys are the keys that mean something here.
func (m Model) Keys() []key.Binding { return m.keys.All() }

// Update takes one message, and tells the router what is wished.
func (m Model) Update(msg tea.Msg) (Model, look.Wish) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return m, nil
	}
	switch {
	case key.Matches(k, m.keys.Leave), k.Type == tea.KeyEsc, k.String() == "c":
		return m, look.Leave{}
	case key.Matches(k, m.keys.Freeze):
		return m, look.Sleep{}
	case key.Matches(k, m.keys.Up):
		m.first++
	case key.Matches(k, m.keys.Down):
		m.first--
	case key.Matches(k, m.keys.PageUp):
		m.first += m.rows()
	case key.Matches(k, m.keys.PageDown):
		m.first -= m.rows()
	case key.Matches(k, m.keys.First):
		m.first = m.order.Pattern.Grid.Rows()
	case key.Matches(k, m.keys.Last):
		m.first = 1
	case key.Matches(k, m.keys.Left):
		m.part--
	case key.Matches(k, m.keys.Right):
		m.part++
	}
	return m.clamped(), nil
}

// around is how many lines stand around the rows: title, caption, rulers, markers,
// key and keys. On a low screen only the title, a ruler with markers, and the keys do.
const (
	around      = 12
	aroundBrief = 4
	lowScreen   = 20
)

func (m Model) brief() bool { return m.height < lowScreen }

// rows is how many rows of the chart are shown at once.
func (m Model) rows() int {
	if m.brief() {
		return max(1, m.height-aroundBrief)
	}
	return m.height - around
}

func (m Model) clamped() Model {
	m.first = max(1, min(m.first, m.order.Pattern.Grid.Rows()-m.rows()+1))
	m.part = max(0, min(m.part, len(m.parts())-1))
	return m
}

// parts are the windows of a chart too wide for the screen.
func (m Model) parts() []chart.Window { return m.chart.PageParts(m.rowsInView()) }

// rowsInView are the rows that are shown, over all pegs.
func (m Model) rowsInView() chart.View {
	last := min(m.first+m.rows()-1, m.order.Pattern.Grid.Rows())
	return chart.View{First: m.first, Last: last, Width: max(1, m.width), Brief: m.brief()}
}

// View draws the chart.
func (m Model) View() string {
	if m.width < 1 || m.height < 1 {
		return ""
	}
	p := m.order.Pattern
	v := m.rowsInView()
	if parts := m.parts(); len(parts) > 1 {
		v.From, v.To = parts[m.part].From, parts[m.part].To
	}
	lines := []string{m.style.Strong(safetext.Cut(p.Title, m.width))}
	lines = append(lines, m.chart.Lines(v)...)
	for len(lines) < m.height-1 {
		lines = append(lines, "")
	}
	lines = lines[:max(0, min(len(lines), m.height-1))]
	k := m.keys
	foot := m.style.KeyName(k.Up) + " " + m.style.KeyName(k.Down) + " rows"
	if len(m.parts()) > 1 {
		foot += "  " + m.style.KeyName(k.Left) + " " + m.style.KeyName(k.Right) + " pegs"
	}
	lines = append(lines, m.style.Faint(safetext.Cut(foot+"  "+k.Leave.Help().Key+" back to the work", m.width)))
	return strings.Join(lines, "\n")
}
