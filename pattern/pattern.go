package pattern

import "sort"

// Pattern is a design and its fabric.
type Pattern struct {
	Design
	Zones   []Zone // bottom first; every row lies in exactly one
	Markers []int  // marked columns, ascending: where borders begin, and the maker's own
	Grid    *Grid

	ridges ridges
	before []int // stitches in all rows below each row, and in all rows
}

// Zone is consecutive rows with one purpose.
type Zone struct {
	Name   string
	Border bool
	First  int // its first row, counted from 1
	Last   int // its last row
	Sides  int // border pegs at both edges
	Strips []Strip
	Like   string // the zone it was copied from, if any
	KnitAs Wrap
	Gauge  string
}

// Rows is how many rows the zone has.
func (z *Zone) Rows() int { return z.Last - z.First + 1 }

// Strip is a side-by-side part of a zone with a row repeat of its own. Sides are the
// strips at both edges.
type Strip struct {
	From   int // its leftmost column
	To     int // the column after its last
	Repeat int // rows of one repeat, as written
	Side   bool
	Gauge  string // the name of a gauge of its own, or empty
}

// ZoneAt is the zone of a row from 1 to Grid.Rows.
func (p *Pattern) ZoneAt(row int) *Zone { return &p.Zones[p.ZoneIndex(row)] }

// ZoneIndex is the index in Zones of a row's zone.
func (p *Pattern) ZoneIndex(row int) int {
	return sort.Search(len(p.Zones), func(i int) bool { return p.Zones[i].Last >= row })
}

// Border tells whether a cell belongs to the frame that keeps the edges flat.
func (p *Pattern) Border(row, col int) bool {
	z := p.ZoneAt(row)
	return z.Border || z.Side(col, p.Pegs)
}

// Side tells whether a column lies in one of the zone's sides.
func (z *Zone) Side(col, pegs int) bool { return col < z.Sides || col >= pegs-z.Sides }

// Marked tells whether the peg of a column carries a marker.
func (p *Pattern) Marked(col int) bool {
	i := sort.SearchInts(p.Markers, col)
	return i < len(p.Markers) && p.Markers[i] == col
}

// CastOnLoops is how many loops are cast on: those that row 1 is worked into.
func (p *Pattern) CastOnLoops() int { return p.Grid.Row(1).LoopsIn() }

// BindOffLoops is how many loops the last row leaves.
func (p *Pattern) BindOffLoops() int { return p.Grid.Row(p.Grid.Rows()).Stitches() }

// StitchesBefore is how many stitches all rows below the given one hold; with a row
// one above the last, it is the stitches of the whole fabric.
func (p *Pattern) StitchesBefore(row int) int { return p.before[row-1] }

// Of is how many stitches or loops the part of the work at a place has: those of its
// row, or the loops to cast on or bind off. It is 0 once the piece is off the loom.
func (p *Pattern) Of(at Place) int {
	switch at.Phase {
	case CastingOn:
		return p.CastOnLoops()
	case Working:
		return p.Grid.Row(at.Row).Stitches()
	case BindingOff:
		return p.BindOffLoops()
	}
	return 0
}

// Holds tells whether a place exists in the pattern, in the one form that Place
// allows.
func (p *Pattern) Holds(at Place) bool {
	switch at.Phase {
	case CastingOn, BindingOff:
		return at.Row == 0 && at.Done >= 0 && at.Done < p.Of(at)
	case Working:
		return at.Row >= 1 && at.Row <= p.Grid.Rows() && at.Done >= 0 && at.Done < p.Of(at)
	case Finishing:
		return at == Place{Phase: Finishing}
	}
	return false
}

func sumStitches(g *Grid) []int {
	before := make([]int, g.Rows()+1)
	for row := 1; row <= g.Rows(); row++ {
		before[row] = before[row-1] + g.Row(row).Stitches()
	}
	return before
}
