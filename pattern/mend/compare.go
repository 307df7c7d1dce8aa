package mend

import (
	"errors"
	"fmt"
	"slices"

	"bypeg/pattern"
)

// Comparing. A column as counted is laid beside the pattern's. One slip of the hand changes
// the column in one of three ways: a row that was skipped, or a peg that was missed in it,
// leaves a stitch out, so that all above it sit one lower; a row worked twice puts one in; a wrong stitch changes a look and
// moves nothing. Each of these is one cut: below it the counted column agrees unmoved, above
// it moved by one. How far it agrees either way is read once from each end, so every row is
// tried at the cost of two comparisons, and the answer is every slip that would give just
// what was counted.

// Slip is what may have gone wrong.
type Slip uint8

// The slips, the likelier first: one hand slips at one stitch more often than at a whole row.
const (
	Nothing Slip = iota
	WrongStitch
	MissedPeg // not worked in a row that was worked on other pegs
	SkippedRow
	DoubledRow
)

// String is the slip in words.
func (s Slip) String() string {
	return [...]string{"nothing wrong", "wrong stitch", "missed peg", "skipped row", "doubled row"}[min(s, DoubledRow)]
}

// Found is one slip that would give the columns as counted. Row is 0 of Nothing.
type Found struct {
	Slip Slip
	Row  int
	Cols []int // of WrongStitch: where the look differs; of MissedPeg: which pegs were
}

// Compared is what the columns say.
type Compared struct {
	// First is the first row, in the order of counting, whose stitch differs from what was
	// counted, in column Col, with nothing moved; 0 where nothing does.
	First, Col int
	Fits       []Found // all that can't be told apart, likeliest first; none where one slip does not explain it
}

// ErrNotCounted is that a counted column is longer than the fabric.
var ErrNotCounted = errors.New("more stitches are counted than hang from that peg: the cast-on edge and the loop on the peg are none")

// Compare lays counted columns beside the pattern's at the place where the work stands. Pegs
// that are not there, or have no column, are an error.
func Compare(o pattern.Order, at pattern.Place, looks []Looks) (*Compared, error) {
	var beside []*counted
	rows := 0
	for _, l := range looks {
		col := o.ColumnOfPeg(l.Peg)
		if col < 0 || col >= o.Pattern.Pegs {
			return nil, fmt.Errorf("there is no peg %d: the pattern has %d", l.Peg, o.Pattern.Pegs)
		}
		if slices.ContainsFunc(beside, func(c *counted) bool { return c.col == col }) {
			return nil, fmt.Errorf("peg %d is told twice: tell the count that you trust", l.Peg)
		}
		if reason := noLoop(o, at, col); reason != "" {
			return nil, fmt.Errorf("peg %d: %s", l.Peg, reason)
		}
		c := newCounted(columnOf(o.Pattern, col, Top(o, at, col)), col, l)
		if len(l.Seen) > len(c.seen)+1 {
			return nil, fmt.Errorf("peg %d: %w", l.Peg, ErrNotCounted)
		}
		beside = append(beside, c)
		rows = max(rows, len(c.at)-1)
	}
	done := &Compared{Fits: fits(beside, rows, o.RowsDone(at))}
	for _, c := range beside {
		if row := c.first(); row > 0 && (done.First == 0 || (row < done.First) != c.top) {
			done.First, done.Col = row, c.col
		}
	}
	return done, nil
}

// Mendable is the one slip that columns let down can put right: a wrong stitch, or a peg that
// was missed, from the lowest row in which it may have been. It is false where whole rows may be
// to blame.
func (c *Compared) Mendable() (Found, bool) {
	if len(c.Fits) == 0 {
		return Found{}, false
	}
	first := c.Fits[0]
	for _, f := range c.Fits {
		if f.Slip != first.Slip || f.Slip != WrongStitch && f.Slip != MissedPeg || !slices.Equal(f.Cols, first.Cols) {
			return Found{}, false
		}
	}
	return first, len(c.Fits) == 1 || first.Slip == MissedPeg
}

// fits are the slips that all columns allow. Only rows that are complete can be skipped or
// doubled as a whole.
func fits(beside []*counted, rows, complete int) []Found {
	var found []Found
	if all(beside, func(c *counted) bool { return c.unmoved() }) {
		found = append(found, Found{Slip: Nothing})
	}
	for row := 1; row <= rows; row++ {
		if cols, ok := oddIn(beside, func(c *counted) bool { return c.wrongAt(row) }); ok {
			found = append(found, Found{WrongStitch, row, cols})
		}
	}
	var late []Found // of several pegs a hand seldom misses each one that happens to be counted
	for row := 1; row <= rows; row++ {
		cols, ok := oddIn(beside, func(c *counted) bool { return c.moved(SkippedRow, row) })
		switch {
		case ok && len(cols) > 1 && len(cols) == len(beside):
			late = append(late, Found{MissedPeg, row, cols})
		case ok:
			found = append(found, Found{MissedPeg, row, cols})
		}
	}
	for _, s := range []Slip{SkippedRow, DoubledRow} {
		for row := 1; row <= complete; row++ {
			if all(beside, func(c *counted) bool { return c.moved(s, row) }) {
				found = append(found, Found{Slip: s, Row: row})
			}
		}
	}
	return append(found, late...)
}

func all(beside []*counted, allows func(*counted) bool) bool {
	for _, c := range beside {
		if !allows(c) {
			return false
		}
	}
	return true
}

// oddIn tells whether the columns agree but for some that a slip explains, and which these are.
func oddIn(beside []*counted, explains func(*counted) bool) (cols []int, ok bool) {
	for _, c := range beside {
		switch {
		case c.unmoved():
		case explains(c):
			cols = append(cols, c.col)
		default:
			return nil, false
		}
	}
	return cols, len(cols) > 0
}

// counted is a counted column beside the pattern's. Unmoved, stitch j of the count is the
// pattern's stitch j + base.
type counted struct {
	*column
	col   int
	saw   []Seen
	top   bool // the count begins at the peg: what changes below moves what lies lower
	whole bool
	base  int
	low   [3]int // for a shift of -1, 0, 1: how many of the count agree from the bottom
	high  [3]int // and from the top
	odd   int    // how many differ unmoved
	last  int    // the last that does
}

func newCounted(c *column, col int, l Looks) *counted {
	n := &counted{column: c, col: col, saw: l.Seen, top: l.FromTop, last: -1}
	lacks := len(c.seen) - len(l.Seen)
	n.whole = !l.Part && lacks >= -1 && lacks <= 1
	if n.top {
		n.base = lacks
	}
	for shift := -1; shift <= 1; shift++ {
		i := shift + 1
		for n.low[i] < len(n.saw) && n.is(n.low[i], shift) {
			n.low[i]++
		}
		for n.high[i] < len(n.saw) && n.is(len(n.saw)-1-n.high[i], shift) {
			n.high[i]++
		}
	}
	for j := range n.saw {
		if !n.is(j, 0) {
			n.odd, n.last = n.odd+1, j
		}
	}
	return n
}

// is tells whether stitch j of the count may be the pattern's, moved by a shift.
func (c *counted) is(j, shift int) bool {
	i := j + c.base + shift
	return i >= 0 && i < len(c.seen) && agrees(c.saw[j], c.seen[i])
}

// unmoved tells whether the count agrees as it is.
func (c *counted) unmoved() bool {
	return c.odd == 0 && (!c.whole || len(c.saw) == len(c.seen))
}

// wrongAt tells whether the count differs in the given row alone.
func (c *counted) wrongAt(row int) bool {
	if c.odd != 1 || c.whole && len(c.saw) != len(c.seen) || row >= len(c.at) {
		return false
	}
	i := c.last + c.base
	return i >= 0 && i < len(c.seen) && c.rows[i] == row
}

// first is the first row that differs unmoved, in the order in which it was counted; 0 where
// none does. Where the count ends too soon or goes on too long, that is the row at its end.
func (c *counted) first() int {
	j := c.low[1]
	if c.top {
		j = len(c.saw) - 1 - c.high[1]
	}
	if c.unmoved() || len(c.rows) == 0 {
		return 0
	}
	return c.rows[max(0, min(j+c.base, len(c.rows)-1))]
}

// moved tells whether the count is what it would be with a row skipped or doubled.
func (c *counted) moved(s Slip, row int) bool {
	i := -1
	if row < len(c.at) {
		i = c.at[row]
	}
	if i < 0 { // the row makes no stitch here
		return c.unmoved()
	}
	by := 1 // what lies above a skipped row is a stitch further on in the pattern
	cut := i
	if s == DoubledRow {
		by, cut = -1, i+1
	}
	if c.whole && len(c.saw) != len(c.seen)-by {
		return false
	}
	below, above := 0, by
	if c.top {
		below, above = -by, 0
	}
	cut = max(0, min(cut-c.base-below, len(c.saw)))
	return c.low[below+1] >= cut && c.high[above+1] >= len(c.saw)-cut
}
