package ways

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bypeg/chart"
	"github.com/charmbracelet/bubbles/key"

	"bypeg/pattern/fit"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/plan"
	"bypeg/tui/track"
)

// # The lines of the screen
//
// What is known of the piece at the top, a line each; below it the ways, of which one is
// under the hand, and what becomes of the piece in that one. The last line names the keys;
// what is asked, or can't be, stands above it. On a low screen the blank lines give way,
// then the ways that are furthest from the hand.

// The smallest screen that there is a plan for.
const (
	MinWidth  = 32
	MinHeight = 10
)

func (m Model) tooSmall() bool { return m.width < MinWidth || m.height < MinHeight }

// labels is the column of labels.
const labels = 11

// View draws the screen in at most its height of lines, none wider than its width.
func (m Model) View() string {
	if m.tooSmall() {
		return look.TooSmall(MinWidth, MinHeight, m.width)
	}
	most, always := m.hints()
	foot := append(m.says(), m.style.Faint(m.style.HintLine(most, always, m.width)))
	known, ways := m.known(), m.ways()
	about := look.Wrap(m.width, m.plan.SayWay(m.chosen))
	room := m.height - 1 - len(known) - len(foot)
	if len(ways)+len(about) > room {
		about = look.Wrap(m.width, m.plan.SayBriefly(m.chosen))
	}
	about = about[:max(0, min(len(about), room-fewestWays))]
	room -= len(about)
	blanks := 0
	if room >= len(ways)+3 {
		blanks = 1
	}
	lines := append([]string{m.head()}, spaced(blanks)...)
	lines = append(append(lines, known...), spaced(blanks)...)
	lines = append(lines, look.Around(ways, m.chosen+1, m.chosen+2, max(1, room))...)
	lines = append(append(lines, spaced(blanks)...), about...)
	for len(lines)+len(foot) < m.height {
		lines = append(lines, "")
	}
	lines = lines[:m.height-min(m.height, len(foot))]
	return strings.Join(append(lines, foot...), "\n")
}

// fewestWays is how many lines of the ways are kept before what is said of one of them.
const fewestWays = 3

// fieldRoom is the least that a field beside its question has; else it stands below.
const fieldRoom = 12

func spaced(n int) []string { return make([]string, n) }

// hints are the keys that mean something now.
func (m Model) hints() (most, always []look.Hint) {
	if m.Typing() {
		esc := key.NewBinding(key.WithHelp("esc", ""))
		return nil, []look.Hint{{Key: m.keys.Choose, Word: "keeps it"}, {Key: esc, Word: "leaves it"}}
	}
	return m.keys.Line()
}

func (m Model) head() string {
	o := m.plan.Order
	word := o.Pattern.Form.RowWord()
	done := fmt.Sprintf("%d of %s done", m.plan.RowsDone, track.Plural(o.Pattern.Grid.Rows(), word))
	left, right := look.Apart(m.title+" "+m.style.Dot+" how to go on", done, m.width)
	return m.style.Strong(left) + m.style.Faint(right)
}

// known is what is planned and what was told.
func (m Model) known() []string {
	p := m.plan
	planned := cmp.Or(p.SayPlanned(), "no gauge: the size is not known")
	left := p.SayYarn()
	if left != "" {
		left = m.typed[forYarn] + ": " + left
	}
	lines := m.labelled("planned", planned)
	lines = append(lines, m.labelled("measured", p.SayMeasured())...)
	return append(lines, m.labelled("yarn left", left)...)
}

// labelled is a remark behind its label; what was not told is a dash.
func (m Model) labelled(label, text string) []string {
	if text == "" {
		return []string{m.style.Faint(safetext.Pad(label, labels) + m.style.Dash)}
	}
	var lines []string
	for i, line := range look.Wrap(m.width-labels, text) {
		if i > 0 {
			label = ""
		}
		lines = append(lines, m.style.Faint(safetext.Pad(label, labels))+line)
	}
	return lines
}

// column is a column of the ways, the most important first.
type column struct {
	name string
	of   func(fit.Ending) string
}

func (m Model) columns() []column {
	p := m.plan
	return []column{
		{p.Order.Pattern.Form.RowWord() + "s", func(e fit.Ending) string { return fmt.Sprint(e.Rows) }},
		{"size", func(e fit.Ending) string { return sizeOf(p, e) }},
		{"border at", func(e fit.Ending) string { return orDash(e.Border > 0, fmt.Sprint(e.Border), m.style) }},
		{"still to work", func(e fit.Ending) string {
			return orDash(e.Left > 0, p.SayLeft(slices.IndexFunc(p.Ways, func(o fit.Ending) bool { return o.Way == e.Way })), m.style)
		}},
	}
}

func orDash(known bool, text string, s *look.Style) string {
	if !known {
		return s.Dash
	}
	return text
}

func sizeOf(p plan.Plan, e fit.Ending) string {
	if e.Width <= 0 || e.Height <= 0 {
		return "?"
	}
	return p.SayBoth(e.Width, e.Height)
}

// ways are the heads of the columns, and a line for each way. Columns that have no room are
// left out, the last first.
func (m Model) ways() []string {
	names := 0
	for _, e := range m.plan.Ways {
		names = max(names, safetext.Width(e.Way.String()))
	}
	hand := m.style.Here + " "
	indent := strings.Repeat(" ", safetext.Width(hand))
	lines := make([]string, 1+len(m.plan.Ways))
	lines[0] = indent + safetext.Pad("ways", names)
	for i, e := range m.plan.Ways {
		lines[i+1] = indent + safetext.Pad(e.Way.String(), names)
		if i == m.chosen {
			lines[i+1] = hand + safetext.Pad(e.Way.String(), names)
		}
	}
	for _, c := range m.columns() {
		wide := safetext.Width(c.name)
		for _, e := range m.plan.Ways {
			wide = max(wide, safetext.Width(c.of(e)))
		}
		if safetext.Width(lines[0])+2+wide > m.width {
			break
		}
		lines[0] += "  " + padLeft(c.name, wide)
		for i, e := range m.plan.Ways {
			lines[i+1] += "  " + padLeft(c.of(e), wide)
		}
	}
	for i, line := range lines {
		line = safetext.Cut(line, m.width)
		switch {
		case i == 0:
			line = m.style.Paint(chart.Zone, line)
		case i == m.chosen+1:
			line = m.style.Strong(line)
		}
		lines[i] = line
	}
	return lines
}

func padLeft(text string, width int) string {
	return strings.Repeat(" ", max(0, width-safetext.Width(text))) + text
}

// says is what is asked, or can't be, above the keys.
func (m Model) says() []string {
	var lines []string
	switch {
	case m.Typing():
		lines = []string{m.question() + m.input.View()}
		if safetext.Width(m.question())+1+fieldRoom > m.width {
			lines = append(look.Wrap(m.width, m.question()), m.input.View())
		}
		for _, line := range look.Wrap(m.width, m.told) {
			lines = append(lines, m.style.Faint(line))
		}
	case m.sure:
		short := ""
		if m.plan.Short(m.chosen) {
			short = plan.NotReached + " for that. "
		}
		says := short + fmt.Sprintf("%s again keeps this plan for the piece, as a change made on purpose; any other key does not", m.style.KeyName(m.keys.Choose))
		for _, line := range look.Wrap(m.width, says) {
			lines = append(lines, m.style.Strong(line))
		}
	default:
		lines = look.Wrap(m.width, m.told)
	}
	return append(lines, "")[:max(1, len(lines))]
}
