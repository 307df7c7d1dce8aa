package find

import (
	"slices"

	"bypeg/pattern"
)

// Rows that are equal are kept once in the grid. What can be said of a row alone is found once
// for each of those, and the search is left with a few numbers a row.

// ends are the outermost columns of a row that are of some kind; left is -1 where none is.
type ends struct{ left, right int32 }

// kept is what is known of a kept row.
type kept struct {
	stitches int32 // pegs in use; 0 as long as nothing is known
	worked   ends  // where the yarn is worked
}

// shown is what a kept row shows. A row that is plain hides all that is below it: every peg is
// in use, and none is slipped.
type shown struct {
	known, plain bool
	seen         ends // where a plain row shows what is looked for
}

// kept is what is known of a row.
func (r *reader) kept(row int) *kept {
	k := &r.rows[r.grid.KeptAs(row)]
	if k.stitches == 0 {
		of := r.grid.Row(row)
		*k = kept{int32(of.Stitches()), endsOf(of, func(c pattern.Cell) bool { return !makesNone(c.Stitch) })}
	}
	return k
}

// shown is what a row shows.
func (n *newest) shownBy(g *pattern.Grid, row int) *shown {
	s := &n.rows[g.KeptAs(row)]
	if !s.known {
		of := g.Row(row)
		s.known = true
		s.plain = !slices.ContainsFunc(of.Cells(), func(c pattern.Cell) bool { return makesNone(c.Stitch) })
		s.seen = endsOf(of, func(c pattern.Cell) bool { return n.after(Edge, c) == n.look })
	}
	return s
}

func endsOf(row *pattern.Row, is func(pattern.Cell) bool) ends {
	cells := row.Cells()
	left := slices.IndexFunc(cells, is)
	if left < 0 {
		return ends{-1, -1}
	}
	right := len(cells) - 1
	for !is(cells[right]) {
		right--
	}
	return ends{int32(left), int32(right)}
}
