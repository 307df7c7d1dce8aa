package track

import (
	"fmt"
	"strings"

	"bypeg/pattern"
)

// Voice is how the two lines that speak are put.
type Voice struct {
	Brief bool                           // where there is little room
	Width int                            // cells that THEN may have; 0 is any number
	Way   func(pattern.Direction) string // the way a row runs, behind its number
}

// Aloud is the voice of printed lines and of screen readers.
func Aloud() Voice {
	return Voice{Way: func(d pattern.Direction) string { return ", " + d.String() + ":" }}
}

// Told is one of the two lines: what to do, on which pegs, and a remark.
type Told struct{ What, Pegs, Remark string }

// SayNow says what the hands do.
func (t *Tracker) SayNow(v Voice) Told {
	if turn, ok := t.Turn(); ok {
		if v.Brief {
			return Told{What: t.SayTurnShort(turn)}
		}
		return Told{What: t.SayTurn(turn)}
	}
	c := t.InRow()
	if loops, ok := t.Loops(); ok {
		does := "cast on"
		if t.at.Phase == pattern.BindingOff {
			does = "bind off"
		}
		return Told{fmt.Sprintf("%s %d", does, loops.Count), loops.Pegs(), fmt.Sprintf("%d of %d loops", c.Done, c.Of)}
	}
	now, ok := t.Now()
	if !ok {
		return Told{What: "weave in the tails"}
	}
	return Told{t.Say(now), now.Pegs(), fmt.Sprintf("%d of %d worked", c.Done, c.Of)}
}

// SayThen says what comes after it.
func (t *Tracker) SayThen(v Voice) Told {
	switch t.at.Phase {
	case pattern.CastingOn:
		return Told{What: t.thenCastOn(v)}
	case pattern.BindingOff:
		return Told{What: t.thenBindOff(v)}
	case pattern.Finishing:
		return Told{What: "rest it flat before you measure it"}
	}
	if _, ok := t.Turn(); ok {
		first, _ := t.Now()
		return Told{What: fmt.Sprintf("%s %d%s %s", t.rowWord(), t.at.Row, v.Way(t.Direction()), t.Say(first)), Pegs: first.Pegs()}
	}
	if then, ok := t.Then(); ok {
		return Told{What: t.Say(then), Pegs: then.Pegs()}
	}
	return Told{What: t.thenRowEnds()}
}

// InRow is how much of the row in hand, or of the cast-on or the bind-off, is done.
func (t *Tracker) InRow() Count { return Count{t.at.Done, t.order.Pattern.Of(t.at)} }

func (t *Tracker) rowWord() string { return t.order.Pattern.Form.RowWord() }

// thenRowEnds says what follows the last run of a row.
func (t *Tracker) thenRowEnds() string {
	p := t.order.Pattern
	says := "turn"
	if p.Form == pattern.Tube {
		says = "the round closes"
	}
	if t.at.Row == p.Grid.Rows() {
		says += ", then bind off"
	}
	return says
}

// thenCastOn says how the loops are put on, and which pegs to mark.
func (t *Tracker) thenCastOn(v Voice) string {
	castOn := t.order.Pattern.CastOn
	says := strings.TrimSpace(castOn.Name+" cast-on") + ", " + t.Direction().String()
	if castOn.Passes == 2 && t.order.Pattern.Form == pattern.Panel {
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
	if v.Brief {
		says = strings.Replace(says, " cast-on", "", 1)
	}
	whole := says + "; " + t.SayMarks()
	if v.Brief {
		whole = says + "; mark " + strings.Join(numbers, ", ")
	}
	if v.Width > 0 && len(whole) > v.Width {
		return fmt.Sprintf("%s; mark %s", says, Plural(len(marked), "peg"))
	}
	return whole
}

// SayMarks says which pegs to mark: "mark pegs 3, 24"; "" where none are.
func (t *Tracker) SayMarks() string {
	marked := t.MarkedPegs()
	if len(marked) == 0 {
		return ""
	}
	numbers := make([]string, len(marked))
	for i, peg := range marked {
		numbers[i] = fmt.Sprint(peg)
	}
	word := "pegs"
	if len(marked) == 1 {
		word = "peg"
	}
	return fmt.Sprintf("mark %s %s", word, strings.Join(numbers, ", "))
}

// thenBindOff tells the basic bind-off, with the pegs in hand: of n loops one is lifted over
// the next n - 1 times.
func (t *Tracker) thenBindOff(v Voice) string {
	c := t.InRow()
	peg := func(done int) int {
		return t.order.Peg(t.order.ColumnAt(pattern.Place{Phase: pattern.BindingOff, Done: done}))
	}
	if c.Done == 0 {
		says := fmt.Sprintf("bind off %d, %s", c.Of, t.Direction())
		if c.Of > 1 && !v.Brief {
			says += fmt.Sprintf(": work peg %d, then peg %d", peg(0), peg(1))
		}
		return says
	}
	const last = "work it once more, cut, draw it through"
	says := fmt.Sprintf("work peg %d, its loop onto peg %d, lower over upper, back to peg %d", peg(c.Done), peg(c.Done-1), peg(c.Done))
	switch {
	case c.Done == c.Of-1 && v.Width == 0:
		return says + "; " + last
	case c.Done == c.Of-1:
		return last
	case v.Brief:
		return fmt.Sprintf("loop onto peg %d, lower over upper", peg(c.Done-1))
	}
	return says
}
