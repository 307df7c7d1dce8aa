package browse

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"bypeg/chart"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
)

// # The lines of the screen
//
// A title that says which rows are seen; the ruler; the rows; the ruler again; the key of
// what is seen; the keys. On a low screen the second ruler and the key give way: help has
// the key too. How many lines each takes depends on the size of the screen alone, so that
// nothing jumps while the fabric is scrolled.

// The smallest screen that there is a chart for.
const (
	MinWidth  = 20
	MinHeight = 6
)

// lowScreen is the height from which there is room for the lower ruler and the key.
const lowScreen = 20

// keyLines is how many lines of a high screen the key of the stitches has.
const keyLines = 2

// rows is how many rows of the chart are shown at once.
func (m Model) rows() int {
	if !m.roomy {
		return 1
	}
	around := 2 + m.sheet.Rulers() // title and keys
	if m.height >= lowScreen {
		around += m.sheet.Rulers() + 1 + keyLines
	}
	return max(1, m.height-around)
}

// View draws the screen in at most its height of lines, none wider than its width.
func (m Model) View() string {
	switch {
	case m.width < MinWidth || m.height < MinHeight:
		return look.TooSmall(MinWidth, MinHeight, m.width)
	case m.help:
		view, _ := m.helpView()
		return view
	}
	var lines []string
	switch {
	case !m.roomy:
		lines = look.Wrap(m.width, "too narrow for a chart")
	case m.cloth != nil:
		lines = append([]string{m.title(m.clothSays())}, m.cloth.Lines(chart.View{First: m.first, Last: m.last()})...)
	default:
		lines = append([]string{m.title(m.rowsSay())}, m.fabric()...)
	}
	for len(lines) < m.height-1 {
		lines = append(lines, "")
	}
	lines = lines[:m.height-1]
	most, always := m.keys.Line(m.cloth != nil, len(m.sheet.Parts()) > 1)
	return strings.Join(append(lines, m.style.Faint(m.style.HintLine(most, always, m.width))), "\n")
}

// fabric is the rulers, the rows and the key.
func (m Model) fabric() []string {
	leaf := m.leaf()
	lines := append(leaf.Head, leaf.Rows...)
	if m.height < lowScreen {
		return lines
	}
	lines = append(lines, leaf.Foot...)
	missing := m.rows() - len(leaf.Rows)
	lines = append(lines, make([]string, missing+1)...)
	return append(lines, leaf.Key[:min(len(leaf.Key), keyLines)]...)
}

func (m Model) leaf() chart.Leaf { return m.sheet.Leaf(m.sheet.Parts()[m.part], m.first, m.last()) }

// overview is the whole cloth as large as the screen allows.
func (m Model) overview() *chart.Overview {
	return m.chart.Overview(chart.View{Width: m.width, At: m.at, Brief: m.height < lowScreen}, m.height-2)
}

// title puts the piece's name at the left and what is seen at the right: as much of what
// is told as there is room for, and the name where there is room for that too.
func (m Model) title(says []string) string {
	name := m.order.Pattern.Title
	for n := len(says); n > 0; n-- {
		seen := strings.Join(says[:n], " "+m.style.Dot+" ")
		if left, right := look.Apart(name, seen, m.width); right != "" {
			return m.style.Strong(left) + m.style.Faint(right)
		}
	}
	return m.style.Strong(safetext.Cut(says[0], m.width))
}

// rowsSay are the rows seen, the pegs where they are not all, and the zones.
func (m Model) rowsSay() []string {
	p := m.order.Pattern
	word, rows := p.Form.RowWord(), p.Grid.Rows()
	says := []string{fmt.Sprintf("%ss %d to %d of %d", word, m.first, m.last(), rows)}
	if m.first == m.last() {
		says[0] = fmt.Sprintf("%s %d of %d", word, m.first, rows)
	}
	if parts := m.sheet.Parts(); len(parts) > 1 {
		w := parts[m.part]
		says = append(says, fmt.Sprintf("pegs %d to %d", m.order.Peg(w.From), m.order.Peg(w.To-1)))
	}
	from, to := p.ZoneIndex(m.first), p.ZoneIndex(m.last())
	zones := safetext.Clean(p.Zones[from].Name)
	if to > from {
		zones += " to " + safetext.Clean(p.Zones[to].Name)
	}
	return append(says, zones)
}

// clothSays is where the work stands in the whole.
func (m Model) clothSays() []string {
	p := m.order.Pattern
	word, rows := p.Form.RowWord(), p.Grid.Rows()
	if m.at.Row < 1 || m.at.Row > rows {
		return []string{fmt.Sprintf("%d %ss", rows, word)}
	}
	return []string{fmt.Sprintf("%s %d of %d", word, m.at.Row, rows)}
}

// helpView lists the keys, and the whole key of what is seen.
func (m Model) helpView() (view string, more bool) {
	var legend []string
	if m.roomy && m.cloth == nil {
		legend = m.leaf().Key
	}
	return look.KeysView(m.style, "The chart", look.Reasons(m.keys.All(), m.why), legend, m.page, m.width, m.height)
}

// why is the reason why a key does nothing now, or "".
func (m Model) why(k key.Binding) string {
	is := func(others ...key.Binding) bool {
		return slices.ContainsFunc(others, func(o key.Binding) bool { return slices.Equal(o.Keys(), k.Keys()) })
	}
	switch {
	case is(m.keys.Left, m.keys.Right) && len(m.sheet.Parts()) < 2:
		return "all pegs are in view"
	case is(m.keys.Left, m.keys.Right, m.keys.Symbols) && m.cloth != nil:
		return "for the chart"
	case is(m.keys.Up, m.keys.PageUp, m.keys.Last) && m.last() == m.order.Pattern.Grid.Rows():
		return "the last row is in view"
	case is(m.keys.Down, m.keys.PageDown, m.keys.First) && m.first == 1:
		return "the first row is in view"
	}
	return ""
}
