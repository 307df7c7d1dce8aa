package pattern

import "iter"

// The order of work. A panel's rows run back and forth, a tube's rounds always the
// same way; the way row 1 runs and the side of peg 1 fix the rest. Stitches of a row
// are counted from 0 in the order in which they are worked, pegs not in use left
// out. An Order turns such a count into a column of the fabric or a peg of the loom,
// and back: the fabric itself never turns round.

// Order is a pattern as one maker works it.
type Order struct {
	Pattern *Pattern
	Way     Way
}

// Run is consecutive pegs, in order of work, that take the same stitch: what a
// person does without looking. It covers stitches From up to but not including To
// of its row. A cross is one run, named by its first part.
type Run struct {
	Stitch   Stitch
	Yarn     Yarn
	From, To int
}

// Len is how many pegs the run takes.
func (r Run) Len() int { return r.To - r.From }

// Direction is the way a row runs.
func (o Order) Direction(row int) Direction { return o.Pattern.Form.Direction(o.Way, row) }

// Peg is the number of a column's peg.
func (o Order) Peg(col int) int {
	if o.Way.Peg1 == Right {
		return o.Pattern.Pegs - col
	}
	return col + 1
}

// ColumnOfPeg is the column of a peg's number.
func (o Order) ColumnOfPeg(peg int) int { return columnOfPeg(o.Way, o.Pattern.Pegs, peg) }

// Column is the column of a row's stitch number done, counted in order of work.
func (o Order) Column(row, done int) int {
	r := o.Pattern.Grid.Row(row)
	return r.column(fromLeft(r, o.Direction(row), done))
}

// ColumnAt is the column of the peg in hand at a place: the one to be worked, cast on
// or bound off next. A finished piece has none: the leftmost is named.
func (o Order) ColumnAt(p Place) int {
	grid := o.Pattern.Grid
	row, d := grid.Row(1), o.CastOnDirection()
	switch p.Phase {
	case Working:
		return o.Column(p.Row, p.Done)
	case BindingOff:
		row, d = grid.Row(grid.Rows()), o.Direction(grid.Rows()+1)
	case Finishing:
		return 0
	}
	return row.column(fromLeft(row, d, p.Done))
}

// DoneAt is how many stitches of a row come before the given column in order of
// work. The column's own peg may be out of use.
func (o Order) DoneAt(row, col int) int {
	r := o.Pattern.Grid.Row(row)
	left := r.leftOf(col)
	if o.Direction(row) == ToRight {
		return left
	}
	if r.cells[col].Stitch != NoStitch {
		left++
	}
	return r.stitches - left
}

// RunAt is the run of a row that holds stitch number done. done is at least 0 and
// less than the row's stitches.
func (o Order) RunAt(row, done int) Run {
	r := o.Pattern.Grid.Row(row)
	d := o.Direction(row)
	return r.run(r.spanOf(fromLeft(r, d, done)), d)
}

// Runs are the runs of a row in order of work.
func (o Order) Runs(row int) iter.Seq[Run] {
	return func(yield func(Run) bool) {
		stitches := o.Pattern.Grid.Row(row).Stitches()
		for done := 0; done < stitches; {
			run := o.RunAt(row, done)
			if !yield(run) {
				return
			}
			done = run.To
		}
	}
}

func (r *Row) run(k int, d Direction) Run {
	from, to := r.bounds(k)
	c := r.cells[r.spans[k].col]
	run := Run{Stitch: c.Stitch, Yarn: c.Yarn, From: from, To: to}
	if d == ToLeft {
		run.From, run.To = r.stitches-to, r.stitches-from
	}
	return run
}

// fromLeft turns a count in order of work into one from the left, and back.
func fromLeft(r *Row, d Direction, done int) int {
	if d == ToLeft {
		return r.stitches - 1 - done
	}
	return done
}

// YarnSide is the side of a panel where the working yarn hangs when so many rows are
// done, 0 being the finished cast-on. It has no meaning in a tube.
func (o Order) YarnSide(rowsDone int) Side { return o.Direction(rowsDone + 1).From() }

// TailSide is the side of a panel where the cast-on's tail hangs: a cast-on that
// runs across once begins where row 1 ends, one that goes there and back where row 1
// starts.
func (o Order) TailSide() Side {
	if o.Pattern.CastOn.Passes == 2 {
		return o.Direction(1).From()
	}
	return o.Direction(1).To()
}

// CastOnDirection is the way the cast-on runs first, so that row 1 can be worked on
// from its end: one that runs across once ends where row 1 starts; one that goes there
// and back starts there. In a tube it is the way of the rounds.
func (o Order) CastOnDirection() Direction {
	if o.Pattern.Form == Tube || o.Pattern.CastOn.Passes == 2 {
		return o.Way.Row1
	}
	return o.Way.Row1.Opposite()
}

// Next is the place one stitch or loop further on. It is p itself at the very end.
func (o Order) Next(p Place) Place { return o.Ahead(p, 1) }

// Ahead is the place n stitches or loops further on within the row or the phase,
// and no further than its end: the start of the next row or phase.
func (o Order) Ahead(p Place, n int) Place {
	if p.Phase == Finishing {
		return p
	}
	p.Done += n
	if p.Done < o.Pattern.Of(p) {
		return p
	}
	switch {
	case p.Phase == CastingOn:
		return Place{Phase: Working, Row: 1}
	case p.Phase == Working && p.Row < o.Pattern.Grid.Rows():
		return Place{Phase: Working, Row: p.Row + 1}
	case p.Phase == Working:
		return Place{Phase: BindingOff}
	}
	return Place{Phase: Finishing}
}

// Back is the place one stitch or loop before. It is p itself at the very start.
func (o Order) Back(p Place) Place {
	if p.Done > 0 {
		p.Done--
		return p
	}
	switch {
	case p.Phase == CastingOn:
		return p
	case p.Phase == Working && p.Row > 1:
		p.Row--
	case p.Phase == Working:
		p = Place{Phase: CastingOn}
	case p.Phase == BindingOff:
		p = Place{Phase: Working, Row: o.Pattern.Grid.Rows()}
	default:
		p = Place{Phase: BindingOff}
	}
	p.Done = o.Pattern.Of(p) - 1
	return p
}

// RowsDone is how many rows are complete at a place.
func (o Order) RowsDone(p Place) int {
	switch p.Phase {
	case CastingOn:
		return 0
	case Working:
		return p.Row - 1
	}
	return o.Pattern.Grid.Rows()
}
