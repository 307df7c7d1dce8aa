package adopt

import (
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// Where rows take off or add stitches, the work lies on neighbouring pegs all the same: a
// gap would leave a ladder. Of the places it can lie on, the one is taken where the fewest
// loops move and the most stay on their pegs. Pegs beside it are not in use.

// maxMove is how many pegs a loop can be moved by hand: as far as in the widest cross.
const maxMove = 4

// shape gives every row the full width, with pegs out of use beside the work.
func (s *sheet) shape() error {
	if !slices.ContainsFunc(s.lines, func(runs []rowtext.Run) bool { return covers(runs) != s.pegs }) {
		return nil
	}
	lefts := make([]int, len(s.rows)) // the leftmost column in use on each row
	left, right := 0, 0
	known := map[[2]int][2]int{} // how far lines shift, and how far their farthest loop moves
	for i, id := range s.rows {
		runs, at := s.lines[id], s.from[i]
		in, out := rowtext.In(runs), rowtext.Out(runs)
		switch {
		case covers(runs) != out:
			return refusal(at.start, at.end, "name the pegs not in use on every row that has them, or on none",
				"row %d names pegs that are not in use, and covers %d pegs with them, not %d", i+1, covers(runs), s.pegs)
		case in == 0 || out == 0:
			return refusal(at.start, at.end, "", "row %d leaves nothing on the pegs", i+1)
		case s.form == pattern.Tube && in != out:
			return refusal(at.start, at.end, "adopt the rounds up to here", "round %d leaves %d loops of %d: a tube has no pegs to spare, an empty one would gape", i+1, out, in)
		case i == 0 && in != out:
			return refusal(at.start, at.end, "put a plain row before it", "row 1 takes %d loops and leaves %d: shaping begins in row 2", in, out)
		case i > 0:
			key := [2]int{id, int(s.direction(i))}
			moved, ok := known[key]
			if !ok {
				moved = settle(runs, s.direction(i))
				known[key] = moved
			}
			lefts[i] = lefts[i-1] + moved[0]
			if move := moved[1]; move > maxMove {
				return refusal(at.start, at.end, "spread the shaping over several rows, or write none for the pegs that are left empty",
					"row %d changes its count in so many places that a loop would move over %d pegs", i+1, move)
			}
		}
		left, right = min(left, lefts[i]), max(right, lefts[i]+out)
	}
	wide := &sheet{form: s.form, row1: s.row1, from: s.from, pegs: right - left}
	for i, id := range s.rows {
		runs := s.lines[id]
		before := lefts[i] - left
		after := wide.pegs - before - rowtext.Out(runs)
		if s.direction(i) == pattern.ToLeft {
			before, after = after, before
		}
		wide.rows = append(wide.rows, wide.keep(beside(before, runs, after)))
	}
	if wide.pegs > pattern.MaxPegs || wide.pegs*len(wide.rows) > pattern.MaxCells {
		return refusal(0, s.from[len(s.from)-1].end, "", "the rows drift over %d pegs", wide.pegs)
	}
	*s = *wide
	return nil
}

// covers is how many pegs a line speaks of, those not in use among them.
func covers(runs []rowtext.Run) int {
	n := rowtext.Out(runs)
	for _, r := range runs {
		if r.Stitch == rowtext.NoStitch {
			n += r.Count
		}
	}
	return n
}

// settle is how far to the right of the row below a row comes to lie, and how far its
// farthest loop moves.
func settle(runs []rowtext.Run, d pattern.Direction) [2]int {
	type source struct{ from, to int } // the columns of its loops
	var of []source
	var shifts []int
	col, left, move := 0, 0, 0
	cells := lay(runs, d)
	for i, c := range cells {
		n := c.LoopsIn()
		of = append(of, source{col, col + n - 1})
		if n > 0 { // a stitch of several loops stays where any of them is
			shifts = append(shifts, col-i, col+n-1-i)
		}
		col += n
	}
	if len(shifts) > 0 { // the middle one moves least
		slices.Sort(shifts)
		left = shifts[(len(shifts)-1)/2]
	}
	for i, s := range of {
		if s.to >= s.from {
			move = max(move, s.from-(left+i), left+i-s.to)
		}
	}
	return [2]int{left, move}
}

// beside is a line with pegs not in use before and after it.
func beside(before int, runs []rowtext.Run, after int) []rowtext.Run {
	if before == 0 && after == 0 {
		return runs
	}
	var all []rowtext.Run
	if before > 0 {
		all = append(all, rowtext.Run{Stitch: rowtext.NoStitch, Count: before})
	}
	all = append(all, runs...)
	if after > 0 {
		all = append(all, rowtext.Run{Stitch: rowtext.NoStitch, Count: after})
	}
	return all
}
