package work

import (
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// now says what the hands do.
func (m Model) now() string {
	t := m.piece.Tracker
	if turn, ok := t.Turn(); ok {
		says := t.SayTurn(turn)
		if safetext.Width(says) > m.words()-6 { // the label's column
			says = t.SayTurnShort(turn)
		}
		return m.word("NOW", says, "", "")
	}
	c := m.count()
	if loops, ok := t.Loops(); ok {
		return m.word("NOW", m.loopsDo(loops), loops.Pegs(), fmt.Sprintf("%d of %d loops", c.Done, c.Of))
	}
	now, ok := t.Now()
	if !ok {
		return m.word("NOW", "weave in the tails", "", "")
	}
	return m.word("NOW", t.Say(now), now.Pegs(), fmt.Sprintf("%d of %d worked", c.Done, c.Of))
}

// loopsDo is "cast on 3" or "bind off 3".
func (m Model) loopsDo(loops track.Part) string {
	if m.piece.Tracker.Place().Phase == pattern.CastingOn {
		return fmt.Sprintf("cast on %d", loops.Count)
	}
	return fmt.Sprintf("bind off %d", loops.Count)
}

// then says what comes after it.
func (m Model) then() string {
	t := m.piece.Tracker
	switch t.Place().Phase {
	case pattern.CastingOn:
		return m.word("THEN", m.thenCastOn(), "", "")
	case pattern.BindingOff:
		return m.word("THEN", m.thenBindOff(), "", "")
	case pattern.Finishing:
		return m.word("THEN", "rest it flat before you measure it", "", "")
	}
	if _, ok := t.Turn(); ok {
		first, _ := t.Now()
		return m.word("THEN", fmt.Sprintf("%s %d %s %s", m.rowWord(), t.Place().Row, m.style.Arrow(t.Direction()), t.Say(first)), first.Pegs(), "")
	}
	if then, ok := t.Then(); ok {
		return m.word("THEN", t.Say(then), then.Pegs(), "")
	}
	return m.word("THEN", m.thenRowEnds(), "", "")
}

// thenRowEnds says what follows the last run of a row.
func (m Model) thenRowEnds() string {
	p := m.piece.Tracker.Order().Pattern
	says := "turn"
	if p.Form == pattern.Tube {
		says = "the round closes"
	}
	if m.piece.Tracker.Place().Row == p.Grid.Rows() {
		says += ", then bind off"
	}
	return says
}

// thenCastOn says how the loops are put on, and which pegs to mark.
func (m Model) thenCastOn() string {
	t := m.piece.Tracker
	castOn := t.Order().Pattern.CastOn
	says := strings.TrimSpace(castOn.Name+" cast-on") + ", " + t.Direction().String()
	if castOn.Passes == 2 && t.Order().Pattern.Form == pattern.Panel {
		says += " and back"
	}
	marked := t.MarkedPegs()
	if len(marked) == 0 {
		return says
	}
	numbers := make([]string, len(marked))
	for i, peg := range marked {
		numbers[i] = fmt.Sprint(peg)
	}
	if m.width < wideHeader {
		return strings.Replace(says, " cast-on", "", 1) + "; mark " + strings.Join(numbers, ", ")
	}
	return fmt.Sprintf("%s; mark %s %s", says, plural(len(marked), "peg"), strings.Join(numbers, ", "))
}

// thenBindOff tells the basic bind-off, in full where there is room.
func (m Model) thenBindOff() string {
	_, turned := m.piece.Tracker.Turn()
	c := m.count()
	switch {
	case turned:
		return fmt.Sprintf("bind off %d, %s", c.Of, m.piece.Tracker.Direction())
	case c.Done == c.Of-1:
		return "work it once more, cut, draw it through"
	case m.width < wideHeader:
		return "loop back a peg, lower over upper"
	}
	return "work a peg, its loop back to the peg before, lower over upper"
}

func plural(n int, what string) string {
	if n == 1 {
		return what
	}
	return what + "s"
}

func (m Model) count() track.Count {
	t := m.piece.Tracker
	return track.Count{Done: t.Place().Done, Of: t.Order().Pattern.Of(t.Place())}
}

// word is one of the two lines that speak: a label, what to do, on which pegs, and a
// remark at the right where there is room for it.
func (m Model) word(label, what, pegs, remark string) string {
	left := safetext.Pad(label, 6)
	room := m.words() - len(left)
	says := what
	if pegs != "" {
		for _, column := range []int{room / 4, 0} {
			if w := max(safetext.Width(what), column) + 2; w+safetext.Width(pegs) <= room {
				says = safetext.Pad(what, w) + pegs
				break
			}
		}
	}
	says, remark = look.Apart(says, remark, room)
	return m.style.Faint(left) + m.style.Strong(says) + m.style.Faint(remark)
}
