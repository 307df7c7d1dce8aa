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
	since  []reading // of the stitches below each index, since the very bottom
	first  []int32   // for each count of rows done: the lowest stitch that hangs from the peg
	end    []int32   // and the one past the newest
	looped []bool    // whether there is a loop on the peg
}

// reading is what is counted of all stitches of the list below one of them.
type reading struct {
	bumps  int32
	unsure int32
	vs     int32 // how many of the newest may all be V's
	bs     int32 // how many of the newest may all be bumps
	cross  int32 // the index of the newest that crosses, -1 where none does
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
		read[i] = &column{
			seen: make([]Seen, 0, rows), since: make([]reading, 1, rows+1),
			first: make([]int32, rows+1), end: make([]int32, rows+1), looped: make([]bool, rows+1),
		}
		read[i].since[0].cross = -1
		read[i].looped[0] = g.Row(1).Cells()[col].Stitch != pattern.NoStitch
	}
	for row := 1; row <= rows; row++ {
		cells := g.Row(row).Cells()
		for i, col := range cols {
			read[i].work(row, cells[col].Stitch)
		}
	}
	return read
}

// work adds a row's stitch.
func (c *column) work(row int, s pattern.Stitch) {
	c.first[row] = c.first[row-1]
	c.looped[row] = s != pattern.NoStitch
	if seen, ok := shows(s); ok {
		c.add(seen, crosses(s))
	}
	if c.end[row] = int32(len(c.seen)); !c.looped[row] {
		c.first[row] = c.end[row]
	}
}

func (c *column) add(seen Seen, crosses bool) {
	r := c.since[len(c.seen)]
	switch seen {
	case V:
		r.vs, r.bs = r.vs+1, 0
	case Bump:
		r.vs, r.bs = 0, r.bs+1
		r.bumps++
	default:
		r.vs, r.bs = r.vs+1, r.bs+1
		r.unsure++
	}
	if crosses {
		r.cross = int32(len(c.seen))
	}
	c.seen = append(c.seen, seen)
	c.since = append(c.since, r)
}

// from is what the peg shows with so many rows done, counted from the newest stitch: 0 is the
// newest.
func (c *column) from(done, newest int) Seen {
	i := int(c.end[done]) - 1 - newest
	if i < int(c.first[done]) {
		return Edge
	}
	return c.seen[i]
}

// stitches is how many hang from the peg.
func (c *column) stitches(done int) int { return int(c.end[done] - c.first[done]) }

// bumps is how many bumps a person may count up to the peg.
func (c *column) bumps(done int) (least, most int) {
	a, b := c.since[c.first[done]], c.since[c.end[done]]
	least = int(b.bumps - a.bumps)
	return least, least + int(b.unsure-a.unsure)
}

// alike is how many of the newest stitches may all show the same.
func (c *column) alike(done int, seen Seen) int {
	n := c.since[c.end[done]].vs
	if seen == Bump {
		n = c.since[c.end[done]].bs
	}
	return min(int(n), c.stitches(done))
}

// crossed is how many stitches hang from the peg since its loop last crossed, that one
// counted; 0 where it never did.
func (c *column) crossed(done int) int {
	at := c.since[c.end[done]].cross
	if at < c.first[done] {
		return 0
	}
	return int(c.end[done] - at)
}

// agrees tells whether the column shows what a clue says with so many rows done.
func (c *column) agrees(clue *Clue, done int) bool {
	if !c.looped[done] {
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
