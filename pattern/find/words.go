package find

import (
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// Words for questions and places, in plain ASCII, so that a screen, a printed line and a
// screen reader say the same. A question always says which side to look from.

// Words are the question as it is asked of a person at the loom.
func (q Question) Words(o pattern.Order) string {
	word := o.Pattern.Form.RowWord()
	switch q.Kind {
	case Yarn:
		if o.Pattern.Form == pattern.Tube {
			return "where does the working yarn hang: at the end of the round, above the cast-on's tail, or between two pegs further on?"
		}
		if q.Ended {
			return "at which end does the working yarn hang, as you look at the loom: left or right?"
		}
		return "where does the working yarn hang, as you look at the loom: at the left end, at the right end, or between two pegs?"
	case FromPeg:
		return fmt.Sprintf("which peg does the working yarn come from? Pegs are counted from the %s.", o.Way.Peg1)
	case LastRow:
		return fmt.Sprintf("how was the last %s worked? From the front, just under the pegs, a V is a knit and a bump a purl; "+
			"from behind, pulled back, it is the other way round: a V is a purl.", word)
	case Ridges:
		return fmt.Sprintf("how many ridges are there below peg %d, seen from the front? The cast-on edge is not one.", o.Peg(o.Pattern.RidgeColumn()))
	case Colour:
		return fmt.Sprintf("which yarn are the loops on the pegs of: %s?", colours(o.Pattern))
	case Bound:
		return fmt.Sprintf("how many pegs are empty by now, counted from peg %d, where the bind-off began? The one that holds the last loop is not empty.", o.Peg(o.ColumnAt(pattern.Place{Phase: pattern.BindingOff})))
	case Loops:
		return fmt.Sprintf("how many loops are on the pegs by now, counted from peg %d, where the cast-on began? With all of them there are %d.", o.Peg(o.ColumnAt(pattern.Start())), o.Pattern.CastOnLoops())
	case Look:
		if q.Deep == 1 {
			return fmt.Sprintf("what does peg %d show just under it, seen from the front: a V or a bump?", q.Peg)
		}
		return fmt.Sprintf("what do the newest %d stitches below peg %d show, seen from the front, the newest first: V or bump?", q.Deep, q.Peg)
	case Bumps:
		return fmt.Sprintf("how many bumps are there in the column of peg %d, from the cast-on up to the peg, seen from the front? The cast-on edge is not one.", q.Peg)
	case Alike:
		return fmt.Sprintf("below peg %d, seen from the front, how many stitches come alike, counted down from the peg: so many V's, or so many bumps?", q.Peg)
	case Crossed:
		return fmt.Sprintf("how many %ss are there below peg %d since its loop last crossed, seen from the front, the crossing %s the first?", word, q.Peg, word)
	}
	return ""
}

// Words say where the work stands at the places of a fit: "16 rows are done: next is row 17,
// right to left", "row 17, right to left, is under way: 4 to 12 of 30 pegs worked".
func (f Fit) Words(o pattern.Order) string {
	p := o.Pattern
	word := p.Form.RowWord()
	if f.Row == 0 {
		return castOnWords(o, f)
	}
	if f.From > 0 && f.Row > p.Grid.Rows() {
		return fmt.Sprintf("all %d %ss are done; bound off by now: %d of %d pegs; next is peg %d", p.Grid.Rows(), word, f.From, p.BindOffLoops(), o.Peg(o.ColumnAt(f.Place(p))))
	}
	if f.From > 0 {
		worked := fmt.Sprint(f.From)
		if f.To > f.From {
			worked += fmt.Sprintf(" to %d", f.To)
		}
		return fmt.Sprintf("%s %d, %s, is under way: %s of %d pegs worked", word, f.Row, o.Direction(f.Row), worked, p.Grid.Row(f.Row).Stitches())
	}
	next := "the bind-off, from peg "
	if f.Row <= p.Grid.Rows() {
		next = fmt.Sprintf("%s %d, %s", word, f.Row, o.Direction(f.Row))
	} else {
		next += fmt.Sprint(o.Peg(o.ColumnAt(f.Place(p))))
	}
	return doneWords(p, f.Row-1) + ": next is " + next
}

func castOnWords(o pattern.Order, f Fit) string {
	on := fmt.Sprint(f.From)
	if f.To > f.From {
		return fmt.Sprintf("it is being cast on: %s to %d of %d loops are on", on, f.To, o.Pattern.CastOnLoops())
	}
	return fmt.Sprintf("it is being cast on: %s of %d loops are on; next is peg %d", on, o.Pattern.CastOnLoops(), o.Peg(o.ColumnAt(f.Place(o.Pattern))))
}

func doneWords(p *pattern.Pattern, rows int) string {
	word := p.Form.RowWord()
	switch rows {
	case 0:
		return "the cast-on is done"
	case 1:
		return "1 " + word + " is done"
	case p.Grid.Rows():
		return fmt.Sprintf("all %d %ss are done", rows, word)
	}
	return fmt.Sprintf("%d %ss are done", rows, word)
}

// Where says where the work stands at the first place of a fit, what comes and where the yarn
// is: "16 rows are done: next is row 17, right to left: knit; the yarn hangs at the right, away
// from the tail".
func (f Fit) Where(o pattern.Order) string {
	f.To = f.From
	says := f.Words(o)
	switch {
	case f.Row == 0, f.From > 0 && f.Row > o.Pattern.Grid.Rows():
		return says
	case f.From > 0:
		last := f
		last.From--
		return fmt.Sprintf("%s, the last of them peg %d; next is peg %d", says, o.Peg(o.ColumnAt(last.Place(o.Pattern))), o.Peg(o.ColumnAt(f.Place(o.Pattern))))
	}
	if f.Row <= o.Pattern.Grid.Rows() {
		says += ": " + rowWords(o, f.Row)
	}
	return says + "; " + yarnWords(o, f.Row-1)
}

// longRow is how many letters of a row are told.
const longRow = 48

func rowWords(o pattern.Order, row int) string {
	text := rowtext.Wording{Words: rowtext.Full, Noun: rowtext.NounPegs}.Row(rowtext.LineOf(o, row))
	if len(text) > longRow {
		return text[:strings.LastIndex(text[:longRow], ",")+1] + " ..."
	}
	return text
}

func yarnWords(o pattern.Order, rows int) string {
	if o.Pattern.Form == pattern.Tube {
		return "the yarn hangs at the end of the round, above the tail"
	}
	side := o.YarnSide(rows)
	if side == o.TailSide() {
		return fmt.Sprintf("the yarn hangs at the %s, where the tail is", side)
	}
	return fmt.Sprintf("the yarn hangs at the %s, away from the tail", side)
}

// Doubt says what a place disagrees with and what may be behind it: "the yarn's side: check
// the cast-on kind, or a row was skipped".
func (b But) Doubt(o pattern.Order, e Evidence) string {
	c := e.Clues[b.Clue]
	word := o.Pattern.Form.RowWord()
	switch c.Kind {
	case Ridges:
		p := o.Pattern
		is := p.Ridges(newReader(o, nil).doneIn(p.RidgeColumn(), b.Fit))
		return fmt.Sprintf("the ridges: there would be %d; count them again, the cast-on edge is not one", is)
	case LastRow:
		return fmt.Sprintf("the last %s: look again; from behind it is a purl that shows a V", word)
	case Yarn:
		if o.Pattern.Form == pattern.Tube || c.Hangs == Between || b.From > 0 {
			return fmt.Sprintf("where the yarn hangs: see whether a %s is under way", word)
		}
		return "the yarn's side: check the cast-on kind, or a row was skipped"
	case FromPeg:
		col, _ := newReader(o, nil).yarnAt(b.Fit)
		return fmt.Sprintf("the peg that the yarn comes from: it would be peg %d, counted from the %s", o.Peg(col), o.Way.Peg1)
	case Length:
		return "the length: measure it again, laid flat and not stretched"
	case Zone:
		return "the zone"
	case Colour:
		return loopsWords(o, b.Fit)
	}
	return fmt.Sprintf("peg %d: count the pegs from the %s, and look at its column again", c.Peg, o.Way.Peg1)
}
