package find

import (
	"fmt"

	"bypeg/pattern"
)

// One answer that is wrong can lead to a single place as surely as right ones do. So the
// likeliest place that one other answer would have led to is named beside it.

// Near is the place beside the only one that agrees, where it takes no more than one slip of
// the eye more to have come to the one rather than the other; ok is false where none is so
// likely.
func (a *Answer) Near(o pattern.Order, e Evidence) (b But, ok bool) {
	if len(a.Fits) != 1 || len(a.But) == 0 {
		return b, false
	}
	r, l := newReader(o, e.Heights), likelihoodOf(o, e.Noted)
	b = a.But[0]
	return b, offByOne*b.Off+l.unlikely(r, b.Fit) <= offByOne+l.unlikely(r, a.Fits[0])
}

// Instead says the place and what would have been seen there: "or row 9, if there is one ridge
// fewer".
func (b But) Instead(o pattern.Order, e Evidence) string {
	return "or " + b.short(o.Pattern) + ", if " + b.seenThere(o, e.Clues[b.Clue])
}

// short is the place in few words: "row 9", "row 9 with 4 pegs worked".
func (b But) short(p *pattern.Pattern) string {
	switch {
	case b.Row > p.Grid.Rows():
		return "the bind-off"
	case b.From > 0:
		return fmt.Sprintf("%s %d with %s worked", p.Form.RowWord(), b.Row, counted(b.From, "peg"))
	}
	return fmt.Sprintf("%s %d", p.Form.RowWord(), b.Row)
}

// seenThere is what the clue would be at the place.
func (b But) seenThere(o pattern.Order, c Clue) string {
	r, word := newReader(o, nil), o.Pattern.Form.RowWord()
	switch c.Kind {
	case Ridges:
		p := o.Pattern
		return "there " + differs(p.Ridges(r.doneIn(p.RidgeColumn(), b.Fit))-c.Count, "ridge")
	case LastRow:
		return fmt.Sprintf("the last %s was worked otherwise", word)
	case Yarn:
		_, hangs := r.yarnAt(b.Fit)
		return "the yarn hangs " + [...]string{AtLeft: "at the left", AtRight: "at the right", AtEnd: "at the end of the " + word, Between: "between two pegs"}[hangs]
	case FromPeg:
		col, _ := r.yarnAt(b.Fit)
		return fmt.Sprintf("the yarn comes from peg %d", o.Peg(col))
	case Colour:
		if y, sure := r.loopsOf(b.Fit); sure && int(y) < len(o.Pattern.Yarns) {
			return "the loops are of " + yarnNames(o.Pattern)[y]
		}
		return "the loops are of another yarn"
	case Length:
		return "it was measured wrongly"
	case Zone:
		return "it is another zone"
	}
	return b.columnThere(r, c)
}

// columnThere is what the column of a clue's peg would show at the place.
func (b But) columnThere(r *reader, c Clue) string {
	col := r.o.ColumnOfPeg(c.Peg)
	read, done := r.column(col), r.doneIn(col, b.Fit)
	switch c.Kind {
	case Bumps:
		least, most := read.bumps(done)
		if more := least - c.Count; more > 0 {
			return fmt.Sprintf("in the column of peg %d there %s", c.Peg, differs(more, "bump"))
		}
		return fmt.Sprintf("in the column of peg %d there %s", c.Peg, differs(most-c.Count, "bump"))
	case Crossed:
		if n := read.crossed(done); n > 0 {
			return fmt.Sprintf("below peg %d the crossing %s is number %d from the top", c.Peg, r.o.Pattern.Form.RowWord(), n)
		}
		return fmt.Sprintf("below peg %d nothing crosses yet", c.Peg)
	case Alike:
		if n := read.alike(done, c.Seen[0]); n > 0 {
			return fmt.Sprintf("the count below peg %d is %d", c.Peg, n)
		}
	}
	seen := make([]Seen, len(c.Seen))
	for i := range seen {
		seen[i] = read.from(done, i)
	}
	return fmt.Sprintf("peg %d shows %s", c.Peg, Letters(seen))
}

// differs is by how many things more or fewer, other than 0, there are: "is one ridge fewer".
func differs(more int, thing string) string {
	n, verb, than := more, "are", "more"
	if more < 0 {
		n, than = -more, "fewer"
	}
	if n == 1 {
		verb = "is"
	}
	return fmt.Sprintf("%s %s %s", verb, counted(n, thing), than)
}

// counted is so many things: "one ridge", "2 ridges".
func counted(n int, thing string) string {
	if n == 1 {
		return "one " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
