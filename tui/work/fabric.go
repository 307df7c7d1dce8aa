package work

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// fabric is the loom: coming rows, the row being worked between its markers, and the
// fabric hanging below. The row being worked is always on the same line.
func (m Model) fabric(l layout) []string {
	t := m.piece.Tracker
	g := m.gutter()
	w := m.window()
	at := chart.At{Active: true, Row: t.RowInHand(), Done: t.Place().Done, Unsaved: m.saving.pending()}
	over, under := m.chart.Markers(w, t.Order().ColumnAt(t.Place()), at.Unsaved)
	if t.Place().Phase == pattern.Finishing {
		over, under = "", ""
	}
	indent := strings.Repeat(" ", g.width())
	var lines []string
	for row := at.Row + l.coming; row > at.Row; row-- {
		lines = append(lines, m.row(g, w, row, at))
	}
	lines = append(lines, indent+over, m.inHand(g, w, at))
	if l.underRow > 0 && len(t.Order().Pattern.Markers) == 0 {
		l.underRow = 0
		l.done++
	}
	if l.underRow > 0 {
		lines = append(lines, indent+m.beyond(w, under))
	}
	for row := at.Row - 1; row >= at.Row-l.done; row-- {
		lines = append(lines, m.row(g, w, row, at))
	}
	if l.ruler > 0 {
		lines = append(lines, indent+m.chart.Ruler(w))
	}
	return lines
}

// row is one row of the fabric; the cast-on edge lies under row 1, and nothing else
// outside the piece.
func (m Model) row(g gutter, w chart.Window, row int, at chart.At) string {
	switch p := m.piece.Tracker.Order().Pattern; {
	case row == 0:
		return g.label("", "") + m.style.Faint(strings.Repeat(m.style.Edge, w.Width()))
	case row < 0 || row > p.Grid.Rows():
		return ""
	}
	return m.numbered(g, m.safeSign(row), row) + m.chart.Row(row, w, at)
}

// safeSign tells before its number that work can be taken back to a row.
func (m Model) safeSign(row int) string {
	sign := ""
	for _, s := range m.piece.Tracker.SafeBelow() {
		switch {
		case s.Row != row:
		case s.Kind == mend.Lifeline:
			return m.style.Line
		default:
			sign = m.style.Ball
		}
	}
	return sign
}

// inHand is the line of the row being worked, or of the loops that are cast on or
// bound off.
func (m Model) inHand(g gutter, w chart.Window, at chart.At) string {
	t := m.piece.Tracker
	if t.Place().Phase == pattern.Working {
		return m.numbered(g, m.style.Here, at.Row) + m.chart.Row(at.Row, w, at)
	}
	if t.Place().Phase == pattern.Finishing {
		return ""
	}
	return g.label(m.style.Here, m.style.Arrow(t.Direction())) + m.loops(w, at.Unsaved)
}

// loops are the pegs while loops are put on or taken off: a ring for a peg with a
// loop, a dot for a bare one.
func (m Model) loops(w chart.Window, unsaved bool) string {
	t := m.piece.Tracker
	hand := t.Order().ColumnAt(t.Place())
	castingOn := t.Place().Phase == pattern.CastingOn
	open, closed := "[", "]"
	if unsaved {
		open, closed = "(", ")"
	}
	var b strings.Builder
	gap := func(col int) {
		switch {
		case w.Pitch != 2:
		case col == hand:
			b.WriteString(m.style.Paint(chart.InHand, open))
		case col == hand+1:
			b.WriteString(m.style.Paint(chart.InHand, closed))
		default:
			b.WriteByte(' ')
		}
	}
	for col := w.From; col < w.To; col++ {
		gap(col)
		passed := col != hand && (col < hand) == (t.Direction() == pattern.ToRight)
		sign, tone := m.style.Bare, chart.Faint
		if passed == castingOn {
			sign, tone = m.style.Loop, chart.Field
		}
		if col == hand {
			tone = chart.InHand
		}
		b.WriteString(m.style.Paint(tone, sign))
	}
	gap(w.To)
	return b.String()
}

// beyond is the line of the markers under the row, and at the edges of a window how far
// it is to the next one that the window does not hold, where there is room to say so.
func (m Model) beyond(w chart.Window, under string) string {
	p := m.piece.Tracker.Order().Pattern
	if w.From == 0 && w.To == p.Pegs {
		return under
	}
	left, right := -1, -1
	first, last := w.To, w.From-1 // of the markers that it holds
	for _, col := range p.Markers {
		switch {
		case col < w.From:
			left = w.From - col
		case col >= w.To && right < 0:
			right = col - w.To + 1
		case col < w.To:
			first, last = min(first, col), col
		}
	}
	before, after := "", ""
	if left > 0 {
		before = fmt.Sprintf("%s marker in %s", m.style.Left, track.Plural(left, "peg"))
	}
	if right > 0 {
		after = fmt.Sprintf("marker in %s %s", track.Plural(right, "peg"), m.style.Right)
	}
	wide := w.Width()
	if len(before) > 0 && safetext.Width(before)+1 < first-w.From {
		under = m.style.Faint(before) + ansi.TruncateLeft(under, safetext.Width(before), "")
	}
	if len(after) > 0 && wide-safetext.Width(after)-1 > last-w.From+1 {
		under = ansi.Truncate(under, wide-safetext.Width(after), "") + m.style.Faint(after)
	}
	return under
}

// window is the part of a wide piece that holds the peg in hand.
func (m Model) window() chart.Window {
	t := m.piece.Tracker
	hand := t.Order().ColumnAt(t.Place())
	for _, w := range m.parts {
		if hand < w.To {
			return w
		}
	}
	return chart.Window{}
}

// gutter is the column of numbers left of the fabric.
type gutter struct {
	here, row, arrow, ridge int // widths of its parts; no ridges where they are not counted
}

func (m Model) gutter() gutter {
	p := m.piece.Tracker.Order().Pattern
	g := gutter{here: safetext.Width(m.style.Here), row: digits(p.Grid.Rows()), arrow: safetext.Width(m.style.Left)}
	if ridges := p.Ridges(p.Grid.Rows()); ridges > 0 && m.width >= wideHeader {
		g.ridge = digits(ridges)
	}
	wide := chart.Window{To: p.Pegs, Pitch: 2}.Width()
	if room := m.width - wide; room < g.width() && room >= g.width()-g.ridge-1 {
		g.ridge = 0 // brackets around the peg in hand are worth more
	}
	return g
}

func digits(n int) int { return len(strconv.Itoa(n)) }

func (g gutter) width() int {
	w := g.here + 1 + g.row + 1 + g.arrow + 1
	if g.ridge > 0 {
		w += g.ridge + 1
	}
	return w
}

// label is the gutter of a line that is no row.
func (g gutter) label(here, arrow string) string {
	text := safetext.Pad(here, g.here+1) + strings.Repeat(" ", g.row+1) + arrow
	return safetext.Pad(text, g.width())
}

// numbered is the gutter of a row: its number, the way it runs, and the ridge it
// completes.
func (m Model) numbered(g gutter, here string, row int) string {
	o := m.piece.Tracker.Order()
	text := fmt.Sprintf("%*d %s ", g.row, row, m.style.Arrow(o.Direction(row)))
	if g.ridge > 0 {
		ridge := ""
		if n := o.Pattern.Ridges(row); n > o.Pattern.Ridges(row-1) {
			ridge = strconv.Itoa(n)
		}
		text += safetext.Pad(ridge, g.ridge) + " "
	}
	if here == m.style.Here {
		return m.style.Paint(chart.InHand, here) + " " + m.style.Strong(text)
	}
	return safetext.Pad(here, g.here) + " " + m.style.Paint(chart.Number, text)
}
