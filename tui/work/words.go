package work

import (
	"fmt"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// labels is how wide the column of the labels is.
const labels = 6

// voice is how NOW and THEN are put on this screen.
func (m Model) voice() track.Voice {
	return track.Voice{
		Brief: m.width < wideHeader, Width: m.words() - labels,
		Way: func(d pattern.Direction) string { return " " + m.style.Arrow(d) },
	}
}

// now says what the hands do.
func (m Model) now() string {
	v := m.voice()
	says := m.piece.Tracker.SayNow(v)
	if safetext.Width(says.What) > m.words()-labels {
		v.Brief = true
		says = m.piece.Tracker.SayNow(v)
	}
	return m.word("NOW", says)
}

// then says what comes after it: before a border, and at it, that it is the border. This
// line has a shape of its own there.
func (m Model) then() string {
	t := m.piece.Tracker
	w, ok := t.BorderWarning()
	if !ok {
		return m.word("THEN", t.SayThen(m.voice()))
	}
	says := t.SayWarning(w)
	if _, ok := t.Turn(); ok {
		says = fmt.Sprintf("%s %d %s ", m.rowWord(), t.Place().Row, m.style.Arrow(t.Direction())) + says
	}
	if field, ok := t.Field(); ok {
		if more := says + ": " + t.Say(field); safetext.Width(more) <= m.words()-labels {
			says = more
		}
	}
	sign := safetext.Pad(m.style.Alert, labels)
	return m.style.Paint(chart.InHand, sign) + m.style.Strong(safetext.Cut(says, m.words()-labels))
}

// word is one of the two lines that speak: a label, what to do, on which pegs, and a
// remark at the right where there is room for it.
func (m Model) word(label string, t track.Told) string {
	left := safetext.Pad(label, labels)
	room := m.words() - len(left)
	says := t.What
	if t.Pegs != "" {
		for _, column := range []int{room / 4, 0} {
			if w := max(safetext.Width(t.What), column) + 2; w+safetext.Width(t.Pegs) <= room {
				says = safetext.Pad(t.What, w) + t.Pegs
				break
			}
		}
	}
	says, remark := look.Apart(says, t.Remark, room)
	return m.style.Faint(left) + m.style.Strong(says) + m.style.Faint(remark)
}
