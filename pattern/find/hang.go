package find

import "bypeg/pattern"

// outer are the first and the last column that a row works the yarn in, in order of work.
func (r *reader) outer(row int) (first, last int, any bool) {
	e := r.kept(row).worked
	if r.o.Direction(row) == pattern.ToLeft {
		return int(e.right), int(e.left), e.left >= 0
	}
	return int(e.left), int(e.right), e.left >= 0
}

// brought is the column that the yarn comes from when a row begins, the last one worked of
// the rows below or the last loop that was cast on, and the side where it hangs then.
func (r *reader) brought(row int) (col int, side pattern.Side) {
	for row--; row > 0; row-- {
		if _, last, any := r.outer(row); any {
			return last, r.o.Direction(row).To()
		}
	}
	if r.o.Pattern.Form == pattern.Tube {
		return r.o.Column(1, r.grid.Row(1).Stitches()-1), r.o.Direction(1).To()
	}
	return r.o.Column(1, 0), r.o.Direction(1).From()
}

// carried is how many stitches of a row may be done while the yarn is where the row below left
// it, and from which count on it hangs at the end that the row runs to.
func (r *reader) carried(row int, of span) (begin, end int) {
	if row > r.grid.Rows() {
		return of.to, of.to
	}
	first, last, any := r.outer(row)
	if !any {
		return of.to, of.to
	}
	return min(r.passedAt(row, first)+1, of.to), min(r.passedAt(row, last)+1, of.to)
}

// hanging lets places through at which the yarn hangs so.
func (r *reader) hanging(h Hangs, row int, of span) [2]span {
	begin, end := r.carried(row, of)
	if h == Between {
		return [2]span{{begin, end}}
	}
	var s [2]span
	if _, side := r.brought(row); h == AtEnd || hangsAt(side) == h {
		s[0] = span{0, begin}
	}
	if h == AtEnd || hangsAt(r.o.Direction(row).To()) == h {
		s[1] = span{end, of.to}
	}
	return s
}

// hangsAt is where the yarn hangs at a side of a panel.
func hangsAt(s pattern.Side) Hangs {
	if s == pattern.Left {
		return AtLeft
	}
	return AtRight
}

// leaving lets places through at which the yarn comes from a column's peg.
func (r *reader) leaving(col, row int, of span) [2]span {
	var s [2]span
	begin, _ := r.carried(row, of)
	if from, _ := r.brought(row); from == col {
		s[0] = span{0, begin}
	}
	if row > r.grid.Rows() || makesNone(r.grid.Row(row).Cells()[col].Stitch) {
		return s
	}
	from := r.passedAt(row, col) + 1
	to := from
	for to < of.to && makesNone(r.grid.Row(row).Cells()[r.o.Column(row, to)].Stitch) {
		to++
	}
	s[1] = span{min(from, of.to), min(to+1, of.to)}
	return s
}
