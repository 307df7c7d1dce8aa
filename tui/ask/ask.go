// Package ask is the screen of one question with a few answers. It decides nothing:
// whoever asked gets the number of the answer.
package ask

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

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

// View draws the question. On a small screen the answers stay and the remarks give
// way.
func (m Model) View() string {
	lines := []string{m.style.Strong(safetext.Cut(m.question.Title, m.width)), ""}
	for _, says := range m.question.Lines {
		lines = append(lines, strings.Split(ansi.Wordwrap(says, max(1, m.width), ""), "\n")...)
	}
	var answers []string
	for i, a := range m.question.Answers {
		line := safetext.Cut("  "+a, m.width)
		if i == m.chosen {
			line = m.style.Strong(safetext.Cut(m.style.Here+" "+a, m.width))
		}
		answers = append(answers, line)
	}
	k := m.keys
	foot := m.style.Faint(safetext.Cut(m.style.KeyName(k.Up)+" "+m.style.KeyName(k.Down)+"  enter choose  q leave", m.width))
	answers = append(answers, "", foot)
	keep := max(0, m.height-len(answers)-1)
	lines = append(lines[:min(len(lines), keep)], "")
	lines = append(lines, answers...)
	for i, line := range lines {
		lines[i] = ansi.Truncate(line, m.width, "")
	}
	return strings.Join(lines[:min(len(lines), max(1, m.height))], "\n")
}
