package mend

import (
	"errors"
	"fmt"
	"slices"

	"bypeg/pattern"
)

// Back is work that is taken back, from one place to an earlier one.
type Back struct {
	From, To pattern.Place
	Undo     []Undone // newest first
	Loops    []Loop   // what is on the pegs then, in order from the end where the yarn comes out
	Stitches int      // how many are undone
	RowsLeft int
	Ridges   int // that are left; see HasRidges
	// HasRidges tells whether the zone of the newest row left counts ridges.
	HasRidges bool
	// OffTheLoom tells that whole rows go: the loops of the newest row left are held by a
	// line, and all come off the pegs. Else the stitches are undone peg by peg.
	OffTheLoom bool
	// Held tells that a lifeline lies in the loops of the newest row left; see HeldBy.
	Held bool
	// Line is the row below which a line is threaded easily: the newest one left, or where its
	// stitches cross or move, the next one below. 0 is the cast-on.
	Line  int
	order pattern.Order
	lined []int // rows that go, in whose loops a lifeline lies
}

// Undone are stitches of one row, or of the bind-off, that are taken back together: From up
// to but not including To, counted as they were worked. The last goes first.
type Undone struct {
	Phase    pattern.Phase
	Row      int
	From, To int
}

// Len is how many there are.
func (u Undone) Len() int { return u.To - u.From }

// Loop is a loop that is on a peg, and the row that it was made in; 0 is the cast-on.
type Loop struct{ Col, Row int }

// Why work can't be taken back.
var (
	ErrNotBack = errors.New("that place does not come before the one where the work stands")
	ErrOffLoom = errors.New("the piece is off the loom: there is nothing to put loops back on")
	ErrNoPlace = errors.New("the pattern has no such place among its rows")
)

// mostPegwise is how many stitches at most are taken back peg by peg although a row ends
// among them. Our own choice: it is one row of a small loom.
const mostPegwise = 24

// BackTo takes work back to an earlier place among the rows. An error is one of those above,
// or says which row can't be halved.
func BackTo(o pattern.Order, from, to pattern.Place) (*Back, error) {
	p := o.Pattern
	switch {
	case from.Phase == pattern.Finishing:
		return nil, ErrOffLoom
	case to.Phase != pattern.Working || !p.Holds(to) || !p.Holds(from):
		return nil, ErrNoPlace
	case !to.Before(from):
		return nil, ErrNotBack
	case to.Done > 0 && len(p.Moves(to.Row)) > 0:
		return nil, fmt.Errorf("%s %d moves loops from peg to peg: take it back whole, to its start", p.Form.RowWord(), to.Row)
	}
	b := &Back{From: from, To: to, RowsLeft: to.Row - 1, order: o, Line: easyLine(p, to.Row-1)}
	for at := from; to.Before(at); {
		u := undoOf(o, at, to)
		b.Undo = append(b.Undo, u)
		b.Stitches += u.Len()
		at = pattern.Place{Phase: pattern.Working, Row: max(u.Row, 1), Done: u.From}
		if u.Phase == pattern.BindingOff {
			at = pattern.Place{Phase: pattern.BindingOff}
		}
	}
	b.OffTheLoom = to.Done == 0 && len(b.Undo) > 1 && b.Stitches > mostPegwise
	b.Ridges = p.Ridges(b.RowsLeft)
	b.HasRidges = p.RidgeColumn() >= 0 && p.HasRidges(p.ZoneIndex(max(1, b.RowsLeft)))
	b.Loops = loopsAt(o, to)
	return b, nil
}

// HeldBy tells where lifelines lie: one in the newest row left need not be threaded anew.
func (b *Back) HeldBy(safe []Safe) *Back {
	b.Held = b.OffTheLoom && slices.Contains(safe, Safe{Row: b.RowsLeft, Kind: Lifeline})
	for _, s := range safe {
		if s.Kind == Lifeline && s.Row > b.RowsLeft {
			b.lined = append(b.lined, s.Row)
		}
	}
	return b
}

// undoOf is what is undone of the row, or the bind-off, that was worked last.
func undoOf(o pattern.Order, at, to pattern.Place) Undone {
	last := o.Back(at)
	u := Undone{Phase: last.Phase, Row: last.Row, To: last.Done + 1}
	if last.Phase == to.Phase && last.Row == to.Row {
		u.From = to.Done
	}
	return u
}

// easyLine is the newest row, up to the given one, whose stitches stay on their pegs: a line
// is threaded through its loops easily.
func easyLine(p *pattern.Pattern, row int) int {
	for row > 0 && len(p.Moves(row)) > 0 {
		row--
	}
	return row
}

// loopsAt are the loops on the pegs at a place among the rows, from the end where the yarn
// comes out: in the middle of a row from the peg worked last back to where the row began,
// then on to its other end; between rows as the next row meets them.
func loopsAt(o pattern.Order, at pattern.Place) []Loop {
	p := o.Pattern
	row := p.Grid.Row(at.Row).Cells()
	below := p.Grid.Row(max(1, at.Row-1)).Cells()
	var worked, waiting []Loop
	for i := range p.Pegs {
		col := i
		if o.Direction(at.Row) == pattern.ToLeft {
			col = p.Pegs - 1 - i
		}
		switch {
		case row[col].Stitch != pattern.NoStitch && o.DoneAt(at.Row, col) < at.Done:
			worked = append([]Loop{{col, LoopRow(p, at.Row, col)}}, worked...)
		case below[col].Stitch != pattern.NoStitch:
			waiting = append(waiting, Loop{col, LoopRow(p, at.Row-1, col)})
		}
	}
	return append(worked, waiting...)
}

// Pegs are the pegs whose stitches are undone, in order, first to last.
func (b *Back) Pegs(u Undone) (first, last int) {
	peg := func(done int) int {
		return b.order.Peg(b.order.ColumnAt(pattern.Place{Phase: u.Phase, Row: u.Row, Done: done}))
	}
	return peg(u.To - 1), peg(u.From)
}
