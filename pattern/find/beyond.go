package find

import (
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// Beyond says of each clue that the piece shows nowhere, whatever else is said, what it has at
// the most and what to look at again: "the piece has 14 ridges at most: count them again, the
// cast-on edge is not one".
func Beyond(o pattern.Order, e Evidence) []string {
	r := newReader(o, e.Heights)
	var says []string
	for i := range e.Clues {
		if len(r.search(e.Clues[i:i+1], nil, likelihood{})) == 0 {
			says = append(says, r.atMost(&e.Clues[i]))
		}
	}
	return says
}

// atMost is what the piece has of a clue that it shows nowhere.
func (r *reader) atMost(c *Clue) string {
	p, word := r.o.Pattern, r.o.Pattern.Form.RowWord()
	switch c.Kind {
	case Ridges:
		return fmt.Sprintf("the piece has %s at most: count them again, the cast-on edge is not one", counted(p.Ridges(p.Grid.Rows()), "ridge"))
	case Length:
		high := measure.Length(r.heights[len(r.heights)-1].High) * measure.Millimetre
		return fmt.Sprintf("the piece may measure %s at most: measure it again, laid flat and not stretched", high.Rough())
	case LastRow:
		return fmt.Sprintf("no %s of the piece is worked so: look again; from behind it is a purl that shows a V", word)
	case FromPeg:
		return fmt.Sprintf("the yarn never comes from peg %d: look again, and count the pegs from the %s", c.Peg, r.o.Way.Peg1)
	case Colour:
		return fmt.Sprintf("no %s of the piece leaves loops of that yarn: look again", word)
	}
	if c.Kind.OfPeg() {
		return r.mostOfPeg(c)
	}
	return "the yarn never hangs so in this piece: look again"
}

// mostOfPeg is what the column of a clue's peg shows at the most.
func (r *reader) mostOfPeg(c *Clue) string {
	read := r.column(r.o.ColumnOfPeg(c.Peg))
	most := 0
	for done := range r.grid.Rows() + 1 {
		n := 0
		switch c.Kind {
		case Bumps:
			_, n = read.bumps(done)
		case Alike:
			n = read.alike(done, c.Seen[0])
		case Crossed:
			n = read.crossed(done)
		}
		most = max(most, n)
	}
	again := fmt.Sprintf("count again, and count the pegs from the %s", r.o.Way.Peg1)
	switch {
	case c.Kind == Bumps:
		return fmt.Sprintf("in the column of peg %d there are never more than %s: %s", c.Peg, counted(most, "bump"), again)
	case c.Kind == Alike && most > 0:
		return fmt.Sprintf("below peg %d the count is %d at most: %s", c.Peg, most, again)
	case c.Kind == Crossed && most > 0:
		return fmt.Sprintf("below peg %d the crossing %s is number %d from the top at most: %s", c.Peg, r.o.Pattern.Form.RowWord(), most, again)
	case c.Kind == Crossed:
		return fmt.Sprintf("the loop of peg %d never crosses: %s", c.Peg, again)
	}
	return fmt.Sprintf("peg %d never shows %s: look again, and count the pegs from the %s", c.Peg, Letters(c.Seen), r.o.Way.Peg1)
}
