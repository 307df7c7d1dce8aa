package mending

import (
	"fmt"
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern/mend"
	"bypeg/tui/look"
)

// column takes what a column shows, and lays it beside the pattern with those before it.
func (m Model) column(text string) Model {
	looks, err := mend.ParseColumn(m.order.Peg(m.fault.Cols[0]), text)
	if err != nil {
		m.told = "write v for a V, b for a bump, ? where you can't tell: vvbv; .. behind it where you stopped counting"
		return m
	}
	all := slices.DeleteFunc(slices.Clone(m.looks), func(l mend.Looks) bool { return l.Peg == looks.Peg }) // counted again
	all = append(all, looks)
	found, err := mend.Compare(m.order, m.at, all)
	if err != nil {
		m.told = err.Error()
		return m
	}
	m = m.tell(found.Lines(m.order))
	m.looks = all
	m.fault = mend.Fault{}
	if f, ok := found.Mendable(); ok {
		m.fault = mend.Fault{Cols: f.Cols[:1], Row: f.Row}
	}
	m.input.Reset()
	return m
}

// tell shows what was found, from its first line on.
func (m Model) tell(findings []string) Model {
	m.findings, m.first, m.stage = findings, 0, telling
	return m
}

// hear takes a key while something is told. What was found wrong in one stitch can be mended
// at once; else the next column is counted.
func (m Model) hear(k tea.KeyMsg) Model {
	switch {
	case key.Matches(k, m.keys.Up):
		m.first = max(0, m.first-1)
		return m
	case key.Matches(k, m.keys.Down):
		m.first = min(m.first+1, max(0, len(m.findingLines())-m.room()))
		return m
	case key.Matches(k, m.keys.Back):
		return m.toMenu()
	case !key.Matches(k, m.keys.Answer):
		return m
	case len(m.fault.Cols) > 0:
		m.task = mendColumn
		return m.nameWays()
	case m.task == compare:
		m.stage = askPeg
		return m
	}
	return m.toMenu()
}

// columnQuestion asks what a column shows.
func (m Model) columnQuestion() (says, hint string) {
	peg := m.order.Peg(m.fault.Cols[0])
	return fmt.Sprintf("What does the column of peg %d show from the front, from the peg down? v for a V, b for a bump, ? where you can't tell, .. where you stopped.", peg),
		"vvbv..   up vbv.. counts from the cast-on"
}

// next is what enter does while something is told.
func (m Model) next() []look.Hint {
	switch {
	case len(m.fault.Cols) > 0:
		return []look.Hint{{Key: m.keys.Answer, Word: fmt.Sprintf("mend peg %d", m.order.Peg(m.fault.Cols[0]))}}
	case m.task == compare:
		return []look.Hint{{Key: m.keys.Answer, Word: "another peg"}}
	}
	return nil
}
