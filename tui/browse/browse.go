// Package browse is the screen of the chart: the fabric with its rulers, row by row from
// the bottom, or the whole cloth seen from afar, read at leisure. It moves nothing in the
// work.
package browse

import (
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// Model is the screen.
type Model struct {
	order         pattern.Order
	at            chart.At
	style         *look.Style
	set           chart.Set
	keys          look.ChartKeys
	chart         *chart.Chart
	sheet         *chart.Sheet
	roomy         bool            // there is room for a peg
	cloth         *chart.Overview // the whole cloth, while it is looked at
	first         int             // the lowest row shown
	part          int             // which of the parts of a wide chart is shown
	help          bool
	page          int // of the help
	width, height int
}

// New is the chart of a pattern, opened with the row in hand in the middle.
func New(o pattern.Order, place pattern.Place, style *look.Style, keys look.ChartKeys) Model {
	m := Model{
		order: o, style: style, set: style.Set, keys: keys,
		at: chart.At{Active: true, Row: track.RowOf(o.Pattern, place), Done: place.Done},
	}
	return m.drawn()
}

// drawn makes the chart anew, with the symbols chosen.
func (m Model) drawn() Model {
	s := m.style.Chart()
	s.Set = m.set
	m.chart = chart.New(m.order, s)
	return m.laidOut()
}

// laidOut fits the chart into the screen.
func (m Model) laidOut() Model {
	m.sheet, m.roomy = m.chart.Sheet(max(0, m.width), m.at)
	if m.cloth != nil {
		m.cloth = m.overview()
	}
	return m.clamped()
}

// SetSize gives the screen its size. The first time it goes to the row in hand; later the
// middle of what was seen stays, or the peg in hand if that was seen.
func (m Model) SetSize(width, height int) Model {
	first, middle, col := m.width == 0, m.first+m.rows()/2, m.middle()
	m.width, m.height = width, height
	m = m.laidOut()
	if first {
		return m.here()
	}
	m.first, m.part = middle-m.rows()/2, m.partOf(col)
	return m.clamped()
}

// middle is the column in hand, if it is seen, or else the one in the middle.
func (m Model) middle() int {
	if !m.roomy {
		return 0
	}
	w, hand := m.sheet.Parts()[m.part], m.chart.Hand(m.at)
	if hand >= w.From && hand < w.To {
		return hand
	}
	return (w.From + w.To) / 2
}

// partOf is the part with a column.
func (m Model) partOf(col int) int {
	return max(0, slices.IndexFunc(m.sheet.Parts(), func(w chart.Window) bool { return col < w.To }))
}

// Keys are the keys that mean something here.
func (m Model) Keys() []key.Binding { return m.keys.All() }

// wheelRows is how many rows a notch of the wheel scrolls.
const wheelRows = 3

// Update takes one message, and tells the router what is wished.
func (m Model) Update(msg tea.Msg) (Model, look.Wish) {
	switch msg := msg.(type) {
	case tea.MouseMsg:
		return m.rolled(msg.Button).clamped(), nil
	case tea.KeyMsg:
		return m.pressed(msg)
	}
	return m, nil
}

func (m Model) rolled(b tea.MouseButton) Model {
	switch b {
	case tea.MouseButtonWheelUp:
		m.first += max(wheelRows, m.step())
	case tea.MouseButtonWheelDown:
		m.first -= max(wheelRows, m.step())
	case tea.MouseButtonWheelLeft:
		m.part--
	case tea.MouseButtonWheelRight:
		m.part++
	}
	return m
}

func (m Model) pressed(k tea.KeyMsg) (Model, look.Wish) {
	switch {
	case key.Matches(k, m.keys.Freeze):
		return m, look.Sleep{}
	case m.help:
		return m.turned(), nil
	case key.Matches(k, m.keys.Leave):
		return m, look.Leave{}
	case key.Matches(k, m.keys.Help):
		m.help, m.page = true, 0
	case key.Matches(k, m.keys.Overview):
		return m.zoomed(), nil
	case key.Matches(k, m.keys.Symbols):
		m.set = chart.Set((int(m.set) + 1) % len(chart.SetNames()))
		return m.drawn(), nil
	case key.Matches(k, m.keys.Here):
		return m.here(), nil
	}
	return m.moved(k).clamped(), nil
}

// turned is the next page of the help, or the chart again.
func (m Model) turned() Model {
	_, more := m.helpView()
	m.help, m.page = more, m.page+1
	return m
}

// zoomed changes between the chart and the whole cloth. The place in the chart stays.
func (m Model) zoomed() Model {
	if m.cloth != nil {
		m.cloth = nil
		return m
	}
	m.cloth = m.overview()
	return m
}

// moved goes where a key leads.
func (m Model) moved(k tea.KeyMsg) Model {
	switch {
	case key.Matches(k, m.keys.Up):
		m.first += m.step()
	case key.Matches(k, m.keys.Down):
		m.first -= m.step()
	case key.Matches(k, m.keys.PageUp):
		m.first += m.rows()
	case key.Matches(k, m.keys.PageDown):
		m.first -= m.rows()
	case key.Matches(k, m.keys.Last):
		m.first = m.order.Pattern.Grid.Rows()
	case key.Matches(k, m.keys.First):
		m.first = 1
	case key.Matches(k, m.keys.NextZone):
		m.first = m.nextZone()
	case key.Matches(k, m.keys.PrevZone):
		m.first = m.zoneBefore()
	case key.Matches(k, m.keys.Left):
		m.part--
	case key.Matches(k, m.keys.Right):
		m.part++
	}
	return m
}

// step is how many rows a key goes: in the whole cloth, those of a line.
func (m Model) step() int {
	if m.cloth != nil {
		return m.cloth.RowsPerLine()
	}
	return 1
}

// nextZone is the first row of the zone above the lowest row shown.
func (m Model) nextZone() int {
	p := m.order.Pattern
	if i := p.ZoneIndex(m.first) + 1; i < len(p.Zones) {
		return p.Zones[i].First
	}
	return m.first
}

// zoneBefore is the first row of the zone of the lowest row shown, or of the one before
// where that is the lowest row itself.
func (m Model) zoneBefore() int {
	return m.order.Pattern.ZoneAt(max(1, m.first-1)).First
}

// here goes to the row in hand, and to the part with the peg in hand.
func (m Model) here() Model {
	m.first = m.at.Row - m.rows()/2
	if hand := m.chart.Hand(m.at); hand >= 0 {
		m.part = m.partOf(hand)
	}
	return m.clamped()
}

func (m Model) clamped() Model {
	m.first = max(1, min(m.first, m.order.Pattern.Grid.Rows()-m.rows()+1))
	m.part = max(0, min(m.part, len(m.sheet.Parts())-1))
	return m
}

// last is the uppermost row shown.
func (m Model) last() int { return min(m.first+m.rows()-1, m.order.Pattern.Grid.Rows()) }
