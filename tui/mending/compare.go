package mending

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern/mend"
	"bypeg/tui/look"
)

// upWord stands before a column that was counted from the cast-on up.
const upWord = "up"

// column takes what a column shows, and lays it beside the pattern with those before it.
func (m Model) column(text string) Model {
	rest, up := strings.CutPrefix(text, upWord)
	looks, err := mend.ParseLooks(fmt.Sprintf("%d=%s", m.order.Peg(m.fault.Cols[0]), rest), !up)
	if err != nil {
		m.told = "write v for a V, b for a bump, ? where you can't tell: vvbv; .. behind it where you stopped counting"
		return m
	}
	all := append(m.looks[:len(m.looks):len(m.looks)], looks)
	found, err := mend.Compare(m.order, m.at, all)
	if err != nil {
		m.told = err.Error()
		return m
	}
	m.looks, m.findings, m.stage = all, found.Lines(m.order), telling
	m.fault = mend.Fault{}
	if len(found.Fits) == 1 && found.Fits[0].Slip == mend.WrongStitch {
		m.fault = mend.Fault{Cols: found.Fits[0].Cols, Row: found.Fits[0].Row}
	}
	m.input.Reset()
	return m
}

// hear takes a key while something is told. What was found wrong in one stitch can be mended
// at once; else the next column is counted.
func (m Model) hear(k tea.KeyMsg) Model {
	switch {
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
		return []look.Hint{{Key: m.keys.Answer, Word: "mend it"}}
	case m.task == compare:
		return []look.Hint{{Key: m.keys.Answer, Word: "another peg"}}
	}
	return nil
}
