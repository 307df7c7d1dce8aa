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
		if m.width < wideHeader {
			return m.word("NOW", t.SayTurnShort(turn), "", "")
		}
		return m.word("NOW", t.SayTurn(turn), "", "")
	}
	switch t.Place().Phase {
	case pattern.CastingOn:
		c := m.count()
		left := c.Of - c.Done
		return m.word("NOW", fmt.Sprintf("cast on %d, %s", left, t.Direction()), "", fmt.Sprintf("%d of %d loops", c.Done, c.Of))
	case pattern.BindingOff:
		c := m.count()
		return m.word("NOW", fmt.Sprintf("bind off %d, %s", c.Of-c.Done, t.Direction()), "", fmt.Sprintf("%d of %d loops", c.Done, c.Of))
	case pattern.Finishing:
		return m.word("NOW", "weave in the tails", "", "")
	}
	now, _ := t.Now()
	c := m.count()
	return m.word("NOW", t.Say(now), now.Pegs(), fmt.Sprintf("%d of %d worked", c.Done, c.Of))
}

// then says what comes after it.
func (m Model) then() string {
	t := m.piece.Tracker
	switch t.Place().Phase {
	case pattern.CastingOn:
		return m.word("THEN", m.thenCastOn(), "", "")
	case pattern.BindingOff:
		if _, ok := t.Turn(); ok {
			return m.word("THEN", fmt.Sprintf("bind off %d, %s", m.count().Of, t.Direction()), "", "")
		}
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
	if t.Order().Pattern.Form == pattern.Tube {
		return m.word("THEN", "the round closes", "", "")
	}
	return m.word("THEN", "turn", "", "")
}

func (m Model) thenCastOn() string {
	t := m.piece.Tracker
	kind := strings.TrimSpace(t.Order().Pattern.CastOn.Name + " cast-on")
	marked := t.MarkedPegs()
	if len(marked) == 0 {
		return kind
	}
	numbers := make([]string, len(marked))
	for i, peg := range marked {
		numbers[i] = fmt.Sprint(peg)
	}
	return fmt.Sprintf("%s; mark %s %s", kind, plural(len(marked), "peg"), strings.Join(numbers, ", "))
}

// thenBindOff tells the basic bind-off, in full where there is room.
func (m Model) thenBindOff() string {
	if m.width < wideHeader {
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
