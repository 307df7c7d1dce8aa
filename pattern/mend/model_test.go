package mend_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
)

// A model of the fabric for tests: pegs with columns of stitches that hang from them. It
// knows how a stitch is made and undone, and nothing of how the room reckons.

// knot is one stitch that hangs in a column: what the front shows, and the row whose yarn it
// is made of.
type knot struct {
	row     int
	bump    bool
	twisted bool
}

// fabric is columns of knots, the oldest first, and what was worked, oldest first.
type fabric struct {
	o       pattern.Order
	columns [][]knot
	worked  []stitch
}

// stitch is one that was worked: its row and column, and whether it made a knot.
type stitch struct {
	row, col int
	made     bool
}

func newFabric(o pattern.Order) *fabric {
	f := &fabric{o: o, columns: make([][]knot, o.Pattern.Pegs), worked: []stitch{}}
	for col := range f.columns {
		f.columns[col] = []knot{}
	}
	return f
}

// order is the columns of a row in the order of work, reckoned from the way alone.
func (f *fabric) order(row int) []int {
	cols := make([]int, f.o.Pattern.Pegs)
	for i := range cols {
		cols[i] = i
	}
	left := f.o.Way.Row1 == pattern.ToLeft
	if f.o.Pattern.Form == pattern.Panel && row%2 == 0 {
		left = !left
	}
	if left {
		slices.Reverse(cols)
	}
	return cols
}

// peg is a column's peg by counting from peg 1.
func (f *fabric) peg(col int) int {
	if f.o.Way.Peg1 == pattern.Left {
		return 1 + col
	}
	return f.o.Pattern.Pegs - col
}

// knit makes a stitch on a peg; a slip makes none.
func (f *fabric) knit(row, col int) {
	s := f.o.Pattern.Grid.Row(row).Cells()[col].Stitch
	made := s != pattern.Slip && s != pattern.SlipFront
	if made {
		f.columns[col] = append(f.columns[col], knot{row, s == pattern.Purl, s == pattern.Knit && f.o.Pattern.ZoneAt(row).KnitAs == pattern.WrapE})
	}
	f.worked = append(f.worked, stitch{row, col, made})
}

// unknit undoes the newest stitch of all.
func (f *fabric) unknit() stitch {
	last := f.worked[len(f.worked)-1]
	f.worked = f.worked[:len(f.worked)-1]
	if last.made {
		f.columns[last.col] = f.columns[last.col][:len(f.columns[last.col])-1]
	}
	return last
}

// workTo works on until so many rows and so many stitches of the next are done.
func (f *fabric) workTo(rows, more int) {
	row, done := 1, len(f.worked)
	for ; done >= f.o.Pattern.Pegs; row++ {
		done -= f.o.Pattern.Pegs
	}
	for ; row <= rows || row == rows+1 && done < more; done++ {
		f.knit(row, f.order(row)[done])
		if done+1 == f.o.Pattern.Pegs {
			row, done = row+1, -1
		}
	}
}

// drop lets a column down until the given row's loop is let go, and returns the rows of the
// strands that are left, lowest first.
func (f *fabric) drop(col, row int) []int {
	var strands []int
	c := f.columns[col]
	for len(c) > 0 && c[len(c)-1].row >= row {
		strands = append([]int{c[len(c)-1].row}, strands...)
		c = c[:len(c)-1]
	}
	f.columns[col] = c
	return strands
}

func (f *fabric) copy() *fabric {
	g := &fabric{o: f.o, worked: slices.Clone(f.worked)}
	for _, c := range f.columns {
		g.columns = append(g.columns, slices.Clone(c))
	}
	return g
}

// top is the row of the loop on a peg; 0 is the cast-on.
func (f *fabric) top(col int) int {
	if c := f.columns[col]; len(c) > 0 {
		return c[len(c)-1].row
	}
	return 0
}

// drawn is a random pattern of knits, purls and slips as one maker works it; half of the
// makers wrap their knits all round the peg.
func drawn(t *rapid.T, tb testing.TB) pattern.Order {
	plan := patterntest.Plans().Draw(t, "plan")
	for i := range plan.Zones {
		if rapid.Bool().Draw(t, "e-wrap") {
			plan.Zones[i].KnitAs = pattern.WrapE
		}
	}
	return pattern.Order{Pattern: patterntest.Build(tb, plan), Way: patterntest.Ways().Draw(t, "as worked")}
}

// drawnPlace is a place among the rows with at least one stitch done, and the rows and
// stitches done there.
func drawnPlace(t *rapid.T, p *pattern.Pattern, label string) (at pattern.Place, rows, more int) {
	n := rapid.IntRange(1, p.Grid.Rows()*p.Pegs).Draw(t, label)
	return placeAfter(p, n), n / p.Pegs, n % p.Pegs
}

// placeAfter is the place when so many stitches are done.
func placeAfter(p *pattern.Pattern, n int) pattern.Place {
	if n == p.Grid.Rows()*p.Pegs {
		return pattern.Place{Phase: pattern.BindingOff}
	}
	return pattern.Place{Phase: pattern.Working, Row: n/p.Pegs + 1, Done: n % p.Pegs}
}

// garter is a panel of knit and purl rows in turn, the first one knit.
func garter(tb testing.TB, pegs, rows int) pattern.Order {
	tb.Helper()
	plan := patterntest.Frame(pegs, 1, rows/2, 1)
	plan.Zones = plan.Zones[:1]
	plan.Zones[0].Rows = rows
	p := patterntest.Build(tb, plan)
	return pattern.Order{Pattern: p, Way: p.Way}
}

// enough holds that every case was met; the few tries of a short run may miss one.
func enough(t *testing.T, cases ...int) {
	t.Helper()
	for i, n := range cases {
		if n == 0 && !testing.Short() {
			t.Errorf("case %d of %d was never tried", i+1, len(cases))
		}
	}
}
