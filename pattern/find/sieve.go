package find

import (
	"slices"

	"bypeg/pattern"
)

// span is counts of stitches done in a row: from, up to but not including to.
type span struct{ from, to int }

// whole is every count a row can have: from none done to all but one, since a row whose last
// stitch is worked is told as the next with none done. Above the last row there is one
// place: all is done.
func (r *reader) whole(row int) span {
	if row > r.grid.Rows() {
		return span{0, 1}
	}
	return span{0, int(r.kept(row).stitches)}
}

// sieve lets those places of a row through that agree with a clue, and no others than the row
// has. Rows are asked for in
// ascending order, none twice, from 1 to the one above the last row.
type sieve func(row int, of span) [2]span

// reader reads a piece as its maker sees it.
type reader struct {
	o       pattern.Order
	grid    *pattern.Grid
	columns map[int]*column
	rows    []kept // of the grid's kept rows
	heights []Reach
}

func newReader(o pattern.Order, heights []Reach) *reader {
	if len(heights) <= o.Pattern.Grid.Rows() {
		heights = nil
	}
	return &reader{o: o, grid: o.Pattern.Grid, columns: map[int]*column{}, rows: make([]kept, o.Pattern.Grid.Kept()), heights: heights}
}

func (r *reader) column(col int) *column {
	if r.columns[col] == nil {
		r.read([]int{col})
	}
	return r.columns[col]
}

// read reads columns that will be needed.
func (r *reader) read(cols []int) {
	cols = slices.DeleteFunc(slices.Clone(cols), func(col int) bool { return r.columns[col] != nil })
	if len(cols) == 0 {
		return
	}
	for i, c := range newColumns(r.grid, cols) {
		r.columns[cols[i]] = c
	}
}

// passedAt is how many stitches of a row come before a column; it is passed when more are
// done.
func (r *reader) passedAt(row, col int) int {
	if row > r.grid.Rows() {
		return 0
	}
	if int(r.kept(row).stitches) < r.grid.Pegs() {
		return r.o.DoneAt(row, col)
	}
	if r.o.Direction(row) == pattern.ToLeft { // most rows take all pegs
		return r.grid.Pegs() - 1 - col
	}
	return col
}

// doneIn is how many rows are done in a column at a place.
func (r *reader) doneIn(col int, at Fit) int {
	if at.Row == 0 {
		return 0
	}
	if at.Row <= r.grid.Rows() && at.From > r.passedAt(at.Row, col) {
		return at.Row
	}
	return at.Row - 1
}

// sieveOf is the sieve of a clue.
func (r *reader) sieveOf(c *Clue) []sieve {
	switch c.Kind {
	case Ridges:
		return []sieve{r.byColumn(r.o.Pattern.RidgeColumn(), func(done int) bool { return r.o.Pattern.Ridges(done) == c.Count })}
	case Look, Bumps, Alike, Crossed:
		col := r.o.ColumnOfPeg(c.Peg)
		read := r.column(col)
		return []sieve{r.byColumn(col, func(done int) bool { return read.agrees(c, done) })}
	case LastRow:
		return r.byLastRow(c.Row)
	case Yarn:
		return []sieve{func(row int, of span) [2]span { return r.hanging(c.Hangs, row, of) }}
	case FromPeg:
		col := r.o.ColumnOfPeg(c.Peg)
		return []sieve{func(row int, of span) [2]span { return r.leaving(col, row, of) }}
	case Colour:
		return []sieve{r.byNewest(ofYarn(pattern.Yarn(c.Count)))}
	case Bound, Loops:
		return nil
	case Length:
		if r.heights == nil {
			return nil
		}
		return []sieve{func(row int, of span) [2]span { return r.asHigh(c.Length, row, of) }}
	}
	return []sieve{func(row int, of span) [2]span { return r.inZone(c.Count, row, of) }}
}

// byColumn is the sieve of what one column shows.
func (r *reader) byColumn(col int, agrees func(rowsDone int) bool) sieve {
	return func(row int, of span) [2]span {
		var s [2]span
		passed := of.to
		if row <= r.grid.Rows() {
			passed = min(r.passedAt(row, col)+1, of.to)
		}
		if agrees(row - 1) {
			s[0] = span{0, passed}
		}
		if passed < of.to && agrees(row) {
			s[1] = span{passed, of.to}
		}
		return s
	}
}

// asHigh lets places through at which the fabric may be so high. A row under way is as high
// as the row below, or as itself.
func (r *reader) asHigh(mm float64, row int, of span) [2]span {
	var s [2]span
	below := r.heights[row-1]
	if below.Low <= mm && mm <= below.High {
		s[0] = span{0, 1}
	}
	if of.to > 1 && below.Low <= mm && mm <= r.heights[row].High {
		s[1] = span{1, of.to}
	}
	return s
}

// inZone lets places of a zone through, and the one where the zone below it is just done.
func (r *reader) inZone(zone, row int, of span) [2]span {
	p := r.o.Pattern
	here := row <= r.grid.Rows() && p.ZoneIndex(row) == zone
	switch {
	case here:
		return [2]span{of}
	case row > 1 && p.ZoneIndex(row-1) == zone:
		return [2]span{{0, 1}}
	}
	return [2]span{}
}
