// Package ask is the screen of one question with a few answers. It decides nothing:
// whoever asked gets the number of the answer.
package ask

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern/safetext"
	"bypeg/tui/look"
)

// Question is what is asked. Its text is plain and clean.
type Question struct {
	Title   string
	Lines   []string // what happened, a remark each
	Answers []string
}

// Model is the screen.
type Model struct {
	question      Question
	style         *look.Style
	keys          look.ListKeys
	chosen        int
	told          string // what became of the last answer, or empty
	width, height int
}

// New asks a question. The first answer is the one under the hand.
func New(q Question, style *look.Style, keys look.ListKeys) Model {
	return Model{question: q, style: style, keys: keys}
}

// SetSize gives the screen its size.
func (m Model) SetSize(width, height int) Model {
	m.width, m.height = width, height
	return m
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
	case key.Matches(k, m.keys.Leave):
		return m, look.Leave{}
	case key.Matches(k, m.keys.Freeze):
		return m, look.Sleep{}
	case key.Matches(k, m.keys.Up):
		m.chosen = max(0, m.chosen-1)
	case key.Matches(k, m.keys.Down):
		m.chosen = min(len(m.question.Answers)-1, m.chosen+1)
	case key.Matches(k, m.keys.Choose):
		return m, look.Answer{N: m.chosen}
	}
	return m, nil
}

// Tell says what became of the last answer, above the other remarks. The answer under
// the hand stays.
func (m Model) Tell(remark string) Model {
	m.told = remark
	return m
}

// View draws the question. On a small screen first the blank lines give way, then the
// last remarks; of more answers than the screen has lines, those around the hand are
// seen.
func (m Model) View() string {
	if m.width < 1 || m.height < 1 {
		return ""
	}
	title := m.painted(look.Wrap(m.width, m.question.Title))
	remarks := look.Wrap(m.width, m.told)
	for _, says := range m.question.Lines {
		remarks = append(remarks, look.Wrap(m.width, says)...)
	}
	answers, from, to := m.answers()
	foot := m.foot()
	room := m.height - len(title) - len(answers) - len(foot)
	switch {
	case room < 0:
		title, remarks = nil, nil
		answers = around(answers, from, to, max(1, m.height-len(foot)))
	case room < len(remarks):
		remarks = m.shortened(remarks, room)
	}
	blanks := max(0, room-len(remarks))
	var lines []string
	for i, part := range [][]string{title, remarks, answers, foot} {
		if i > 0 && blanks >= i && len(part) > 0 && len(lines) > 0 {
			lines = append(lines, "")
		}
		lines = append(lines, part...)
	}
	return strings.Join(lines[:min(len(lines), m.height)], "\n")
}

// shortened is as many of the remarks as there is room for, with a sign that there are
// more.
func (m Model) shortened(remarks []string, room int) []string {
	if room == 0 {
		return nil
	}
	more := "…"
	if m.style.ASCII {
		more = "..."
	}
	last := safetext.Cut(remarks[room-1], m.width-safetext.Width(more)-1)
	return append(remarks[:room-1:room-1], safetext.Cut(strings.TrimRight(last, " .")+" "+more, m.width))
}

// answers are the lines of the answers, those of the one under the hand being from
// from to to.
func (m Model) answers() (lines []string, from, to int) {
	hand := m.style.Here + " "
	indent := strings.Repeat(" ", safetext.Width(hand))
	for i, a := range m.question.Answers {
		wrapped := look.Wrap(max(1, m.width-len(indent)), strings.SplitAfter(a, ", ")...) // best after a comma
		for n, line := range wrapped {
			if i == m.chosen && n == 0 {
				from = len(lines)
				wrapped[n] = safetext.Cut(hand+line, m.width)
				continue
			}
			wrapped[n] = safetext.Cut(indent+line, m.width)
		}
		if i == m.chosen {
			to = len(lines) + len(wrapped)
			wrapped = m.painted(wrapped)
		}
		lines = append(lines, wrapped...)
	}
	return lines, from, to
}

// around is so many of the lines that those from from to to are among them.
func around(lines []string, from, to, room int) []string {
	first := max(0, min(from, to-room))
	return lines[first:min(len(lines), first+room)]
}

func (m Model) painted(lines []string) []string {
	for i, line := range lines {
		lines[i] = m.style.Strong(line)
	}
	return lines
}

// foot names the keys, where there is a line to spare for them.
func (m Model) foot() []string {
	if m.height < 2 {
		return nil
	}
	k := m.keys
	keys := m.style.KeyName(k.Up) + " " + m.style.KeyName(k.Down) + "  " + m.style.KeyName(k.Choose) + " choose  " + m.style.KeyName(k.Leave) + " leave"
	return []string{m.style.Faint(safetext.Cut(keys, m.width))}
}
