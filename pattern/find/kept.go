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
	v, bump      ends // where a plain row shows a V, and where a bump
}

// kept is what is known of a row.
func (r *reader) kept(row int) *kept {
	k := &r.rows[r.grid.KeptAs(row)]
	if k.stitches == 0 {
		of := r.grid.Row(row)
		*k = kept{int32(of.Stitches()), endsOf(of, func(s pattern.Stitch) bool { return !makesNone(s) })}
	}
	return k
}

// shown is what a row shows.
func (r *reader) shown(row int) *shown {
	if r.shows == nil {
		r.shows = make([]shown, r.grid.Kept())
	}
	s := &r.shows[r.grid.KeptAs(row)]
	if !s.known {
		of := r.grid.Row(row)
		s.known = true
		s.plain = !slices.ContainsFunc(of.Cells(), func(c pattern.Cell) bool { return makesNone(c.Stitch) })
		s.v = endsOf(of, func(s pattern.Stitch) bool { return after(Edge, s) == V })
		s.bump = endsOf(of, func(s pattern.Stitch) bool { return after(Edge, s) == Bump })
	}
	return s
}

// of are the outermost columns that show a look.
func (s *shown) of(look Seen) ends {
	if look == V {
		return s.v
	}
	return s.bump
}

func endsOf(row *pattern.Row, is func(pattern.Stitch) bool) ends {
	cells := row.Cells()
	left := slices.IndexFunc(cells, func(c pattern.Cell) bool { return is(c.Stitch) })
	if left < 0 {
		return ends{-1, -1}
	}
	right := len(cells) - 1
	for !is(cells[right].Stitch) {
		right--
	}
	return ends{int32(left), int32(right)}
}
