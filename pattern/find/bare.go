package find

import "bypeg/pattern"

// Bare is where the loop of a peg that lost it may hang by now: the newest stitch below it is
// of this row. Each row that is lost has left a loose rung above the loop.
type Bare struct {
	Row   int // 0 where nothing but the cast-on is left
	Rungs int
}

// BareAt is every row down to which the loop of a peg may have run, the highest first, at the
// place where the work stands: those with which its column shows a look. The clue must be
// right, see Check, and of a look; a peg that is not in use has no such row.
func BareAt(o pattern.Order, at pattern.Place, look Clue) []Bare {
	c, done := columnAt(o, at, look.Peg)
	top := c.hung(done)
	var bare []Bare
	for row := done; row >= 0; row-- {
		h := c.hung(row)
		if !h.looped {
			break
		}
		slipped := row > 0 && h.end == c.hung(row-1).end // what shows is a stitch of a row below
		if !slipped && c.looksLike(look.Seen, row) {
			bare = append(bare, Bare{row, int(top.end - h.end)})
		}
	}
	return bare
}

// Shown is what the newest stitches of a peg's column show at a place, as many as are asked for
// or as there are, the newest first.
func Shown(o pattern.Order, at pattern.Place, peg, most int) []Seen {
	c, done := columnAt(o, at, peg)
	seen := make([]Seen, min(most, c.stitches(done)))
	for i := range seen {
		seen[i] = c.from(done, i)
	}
	return seen
}

// columnAt is the column of a peg, and how many rows are done in it at a place.
func columnAt(o pattern.Order, at pattern.Place, peg int) (c *column, done int) {
	r := newReader(o, nil)
	col := o.ColumnOfPeg(peg)
	fit := Fit{Row: o.RowsDone(at) + 1}
	if at.Phase == pattern.Working {
		fit.From = at.Done
	}
	return r.column(col), r.doneIn(col, fit)
}
