package find

import (
	"slices"

	"bypeg/pattern"
)

// column is all that can be read in the column of one peg. Its stitches stand bottom first
// in one list; for each count of rows done it is known which of them hang from the peg. Slips
// and rows in which the peg is not in use have no stitch in it.
type column struct {
	seen   []Seen
	since  []reading // of the stitches below each index, since the very bottom; nil until it is asked for
	unsure []int32   // the indices of those that can't be told, and of those that cross: few
	cross  []int32
	hangs  []hung // for each count of rows done; nil as long as every row leaves one stitch more
}

// reading is what is counted of all stitches of the list below one of them.
type reading struct {
	bumps int32
	vs    int32 // how many of the newest may all be V's
	bs    int32 // how many of the newest may all be bumps
}

// hung is which stitches hang from the peg.
type hung struct {
	first, end int32 // the lowest of the list, and the one past the newest
	looped     bool  // whether there is a loop on the peg
}

// shows is what a stitch shows; ok is false where it makes none.
func shows(s pattern.Stitch) (seen Seen, ok bool) {
	switch {
	case s == pattern.Knit:
		return V, true
	case s == pattern.Purl:
		return Bump, true
	case makesNone(s):
		return Unsure, false
	case crosses(s):
		return Unsure, true
	case s.Face() == pattern.FaceKnit:
		return V, true
	case s.Face() == pattern.FacePurl:
		return Bump, true
	}
	return Unsure, true
}

// makesNone tells whether a stitch leaves the column as it was: a slip.
func makesNone(s pattern.Stitch) bool {
	return s == pattern.Slip || s == pattern.SlipFront || s == pattern.NoStitch
}

func crosses(s pattern.Stitch) bool {
	_, _, ok := s.Cross()
	return ok
}

// newColumns reads columns in one go over the rows: there may be a hundred thousand of those.
func newColumns(g *pattern.Grid, cols []int) []*column {
	rows := g.Rows()
	read := make([]*column, len(cols))
	for i, col := range cols {
		read[i] = &column{seen: make([]Seen, 0, rows)}
		if g.Row(1).Cells()[col].Stitch == pattern.NoStitch {
			read[i].bend(0, rows)
			read[i].hangs[0].looped = false
		}
	}
	for row := 1; row <= rows; row++ {
		cells := g.Row(row).Cells()
		for i, col := range cols {
			read[i].work(row, rows, cells[col].Stitch)
		}
	}
	return read
}

// work adds a row's stitch.
func (c *column) work(row, of int, s pattern.Stitch) {
	seen, ok := shows(s)
	if ok {
		c.add(seen, seen == Unsure && crosses(s))
	} else if c.hangs == nil {
		c.bend(row-1, of)
	}
	if c.hangs == nil {
		return
	}
	h := hung{c.hangs[row-1].first, int32(len(c.seen)), s != pattern.NoStitch}
	if !h.looped {
		h.first = h.end
	}
	c.hangs = append(c.hangs, h)
}

// bend begins to keep which stitches hang from the peg, after rows that left one more each.
func (c *column) bend(rows, of int) {
	c.hangs = make([]hung, 0, of+1)
	for done := range rows + 1 {
		c.hangs = append(c.hangs, hung{0, int32(done), true})
	}
}

func (c *column) add(seen Seen, crosses bool) {
	if seen == Unsure {
		c.unsure = append(c.unsure, int32(len(c.seen)))
	}
	if crosses {
		c.cross = append(c.cross, int32(len(c.seen)))
	}
	c.seen = append(c.seen, seen)
}

// counted is what is counted of all stitches of the list below one of them.
func (c *column) counted(below int32) reading {
	if c.since == nil {
		c.since = make([]reading, len(c.seen)+1)
		var r reading
		for i, seen := range c.seen {
			switch seen {
			case V:
				r.vs, r.bs = r.vs+1, 0
			case Bump:
				r.vs, r.bs = 0, r.bs+1
				r.bumps++
			default:
				r.vs, r.bs = r.vs+1, r.bs+1
			}
			c.since[i+1] = r
		}
	}
	return c.since[below]
}

// hung is which stitches hang from the peg with so many rows done.
func (c *column) hung(done int) hung {
	if c.hangs == nil {
		return hung{0, int32(done), true}
	}
	return c.hangs[done]
}

// from is what the peg shows with so many rows done, counted from the newest stitch: 0 is the
// newest.
func (c *column) from(done, newest int) Seen {
	h := c.hung(done)
	i := int(h.end) - 1 - newest
	if i < int(h.first) {
		return Edge
	}
	return c.seen[i]
}

// stitches is how many hang from the peg.
func (c *column) stitches(done int) int {
	h := c.hung(done)
	return int(h.end - h.first)
}

// bumps is how many bumps a person may count up to the peg.
func (c *column) bumps(done int) (least, most int) {
	h := c.hung(done)
	least = int(c.counted(h.end).bumps - c.counted(h.first).bumps)
	return least, least + below(c.unsure, h.end) - below(c.unsure, h.first)
}

// alike is how many of the newest stitches may all show the same.
func (c *column) alike(done int, seen Seen) int {
	r := c.counted(c.hung(done).end)
	n := r.vs
	if seen == Bump {
		n = r.bs
	}
	return min(int(n), c.stitches(done))
}

// crossed is how many stitches hang from the peg since its loop last crossed, that one
// counted; 0 where it never did.
func (c *column) crossed(done int) int {
	h := c.hung(done)
	newest := below(c.cross, h.end) - 1
	if newest < 0 || c.cross[newest] < h.first {
		return 0
	}
	return int(h.end - c.cross[newest])
}

// below is how many of some indices, lowest first, are lower than one.
func below(indices []int32, index int32) int {
	n, _ := slices.BinarySearch(indices, index)
	return n
}

// agrees tells whether the column shows what a clue says with so many rows done.
func (c *column) agrees(clue *Clue, done int) bool {
	if !c.hung(done).looped {
		return false
	}
	switch clue.Kind {
	case Look:
		return c.looksLike(clue.Seen, done)
	case Bumps:
		least, most := c.bumps(done)
		return least <= clue.Count && clue.Count <= most
	case Alike:
		n := c.alike(done, clue.Seen[0])
		next := c.from(done, clue.Count)
		return n == clue.Count || n > clue.Count && next == Unsure
	case Crossed:
		return c.crossed(done) == clue.Count
	}
	return false
}

// looksLike tells whether the newest stitches show what was seen. What begins below a
// column's first stitch is its edge, and that alone.
func (c *column) looksLike(seen []Seen, done int) bool {
	for i, s := range seen {
		is := c.from(done, i)
		switch {
		case is == Edge:
			return !slices.ContainsFunc(seen[i:], func(s Seen) bool { return s == V || s == Bump })
		case s == Edge, s != Unsure && is != Unsure && s != is:
			return false
		}
	}
	return true
}
