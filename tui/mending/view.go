package mending

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// # The lines of the screen
//
// A title, what was asked or the steps around the one in hand, and the keys. Of the steps
// those done are faint above, the one in hand stands out, those that come are faint below.

// The smallest screen that there is a repair on.
const (
	MinWidth  = 32
	MinHeight = 8
)

func (m Model) tooSmall() bool { return m.width < MinWidth || m.height < MinHeight }

const prompt = "> "

// View draws the screen in at most its height of lines, none wider than its width.
func (m Model) View() string {
	if m.tooSmall() {
		return look.TooSmall(MinWidth, MinHeight, m.width)
	}
	told := look.Wrap(m.width, m.told)
	room := m.room() - len(told)
	var lines []string
	switch m.stage {
	case menu:
		lines = m.menuLines(room)
	case telling:
		lines = m.findingLines()
		lines = lines[min(m.first, max(0, len(lines)-room)):]
	case chooseWay:
		lines = m.wayLines(room)
	case stepping:
		lines = m.stepLines(room)
	default:
		lines = m.question()
		lines = lines[max(0, len(lines)-room):] // what is typed is seen
	}
	if room >= len(lines)+1 {
		lines = append([]string{""}, lines...)
	}
	lines = lines[:min(len(lines), room)]
	for _, line := range told {
		lines = append(lines, m.style.Strong(line))
	}
	for len(lines) < m.room() {
		lines = append(lines, "")
	}
	most, always := m.hints()
	lines = append([]string{m.head()}, lines...)
	return strings.Join(append(lines, m.style.Faint(m.style.HintLine(most, always, m.width))), "\n")
}

// room is how many lines there are between the head and the keys.
func (m Model) room() int { return m.height - 2 }

// findingLines are all lines of what is told.
func (m Model) findingLines() []string {
	var lines []string
	for _, says := range m.findings {
		lines = append(lines, look.Wrap(m.width, says)...)
	}
	return lines
}

func (m Model) head() string {
	seen := ""
	if m.stage == stepping {
		seen = fmt.Sprintf("step %d of %d", m.mending.Step+1, m.steps.Len())
	}
	what := map[track.Repair]string{track.Finish: "finish", track.CastOn: "cast on", track.BindOff: "bind off", track.Gather: "bind off"}[m.mending.What]
	if what == "" {
		what = "mend"
	}
	left, right := look.Apart(m.title+" "+m.style.Dot+" "+what, seen, m.width)
	return m.style.Strong(left) + m.style.Faint(right)
}

func (m Model) hints() (most, always []look.Hint) {
	k := m.keys
	leave := look.Hint{Key: k.Leave, Word: "to the work"}
	switch m.stage {
	case menu:
		return []look.Hint{{Key: k.Up}, {Key: k.Down, Word: "choose"}}, []look.Hint{{Key: k.Answer, Word: "begin"}, leave}
	case telling:
		most = []look.Hint{{Key: k.Back, Word: "back"}}
		if len(m.findingLines()) > m.room() {
			most = append([]look.Hint{{Key: k.Up}, {Key: k.Down, Word: "more"}}, most...)
		}
		return most, append(m.next(), leave)
	case chooseWay:
		return []look.Hint{{Key: k.Up}, {Key: k.Down, Word: "ways"}}, []look.Hint{{Key: k.Answer, Word: "begin"}, leave}
	case stepping:
		next := "next"
		if m.mending.Step == m.steps.Len()-1 {
			next = "done"
		}
		return []look.Hint{{Key: k.Back, Word: "step back"}}, []look.Hint{{Key: k.Answer, Word: next}, leave}
	}
	return nil, []look.Hint{{Key: k.Answer, Word: "answer"}, leave}
}

// question is what is asked.
func (m Model) question() []string {
	o, word := m.order, m.order.Pattern.Form.RowWord()
	says, hint := "Which peg went wrong?", fmt.Sprintf("1 to %d", o.Pattern.Pegs)
	if m.stage == askPeg && m.task == compare {
		says = "Which peg's column do you count?"
	} else if m.stage == askColumn {
		says, hint = m.columnQuestion()
	} else if m.stage == askRow && len(m.fault.Cols) > 0 {
		says = fmt.Sprintf("From which %s on is it wrong on peg %d? The newest one there is %d.", word, o.Peg(m.fault.Cols[0]), m.newest())
		hint = fmt.Sprintf("1 to %d", m.newest())
	} else if m.stage == askRow {
		says = fmt.Sprintf("Back to the start of which %s? The newest one is %d.", word, m.newest())
		for _, s := range m.safe {
			if s.Row < m.newest() {
				says += fmt.Sprintf(" %d goes back to %s of %s %d.", s.Row+1, s.Kind, word, s.Row)
			}
		}
		hint = fmt.Sprintf("1 to %d", m.newest())
	}
	var lines []string
	for _, line := range look.Wrap(m.width, says) {
		lines = append(lines, m.style.Strong(line))
	}
	if m.input.Value() == "" {
		return append(lines, prompt+m.input.Cursor.View()+" "+m.style.Faint(safetext.Cut(hint, max(0, m.width-len(prompt)-2))))
	}
	return append(lines, prompt+m.input.View())
}

// menuLines are the tasks, the one under the hand among them.
func (m Model) menuLines(room int) []string {
	said := make([]string, len(m.tasks))
	for i, t := range m.tasks {
		said[i] = t.words(m.order)
	}
	head := "What is to be done?"
	switch {
	case len(said) == 0:
		head = "Nothing is worked yet that could be mended."
	case slices.Contains(m.tasks, mendColumn):
		head += " A number is a peg that went wrong."
	}
	return m.chosenOf(look.Wrap(m.width, head), said, m.picked, nil, room)
}

// wayLines are the ways with their cost, the one under the hand among them.
func (m Model) wayLines(room int) []string {
	said := make([]string, len(m.ways))
	for i, way := range m.ways {
		said[i] = way.Words(m.order.Pattern)
	}
	head := look.Wrap(m.width, fmt.Sprintf("Ways to put peg %d right from %s %d on:",
		m.order.Peg(m.fault.Cols[0]), m.order.Pattern.Form.RowWord(), m.fault.Row))
	return m.chosenOf(head, said, m.chosen, func(i int) bool { return m.ways[i].Refused != "" }, room)
}

// chosenOf is a list with the hand at one of its lines below a head.
func (m Model) chosenOf(head, said []string, chosen int, faint func(int) bool, room int) []string {
	lines, from, to := m.style.Choices(m.width, said, chosen, faint)
	return look.Around(append(head, lines...), len(head)+from, len(head)+to, room)
}

// stepLines are the steps around the one in hand.
func (m Model) stepLines(room int) []string {
	var lines []string
	from, to := 0, 0
	first, last := max(0, m.mending.Step-room), min(m.steps.Len(), m.mending.Step+room+1)
	for i := first; i < last; i++ {
		label := safetext.Pad(fmt.Sprintf("%d", i+1), 5)
		if i == m.mending.Step {
			label = safetext.Pad(m.style.Here+" "+fmt.Sprintf("%d", i+1), 5)
			from = len(lines)
		}
		for n, line := range look.Wrap(m.width-5, safetext.Clean(m.steps.Words(i))) {
			if n > 0 {
				label = strings.Repeat(" ", 5)
			}
			if i == m.mending.Step {
				line = m.style.Strong(label + line)
			} else {
				line = m.style.Faint(label + line)
			}
			lines = append(lines, line)
		}
		if i == m.mending.Step {
			to = len(lines)
		}
	}
	return look.Around(lines, from, to, room)
}
