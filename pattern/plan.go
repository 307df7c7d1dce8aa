package pattern

// Limits of one pattern. They are checked before anything is expanded.
const (
	MaxPegs  = 4_000
	MaxRows  = 100_000
	MaxCells = 20_000_000
)

// Plan is a pattern as its maker writes it, with words turned into numbers. Build
// makes the fabric of it.
type Plan struct {
	Design
	Mark      []int // pegs to mark beside the borders' own, numbered as Design.Way says
	MarkEvery int   // mark every so many pegs; 0 is none
	Zones     []ZonePlan
}

// ZonePlan is one zone as written.
type ZonePlan struct {
	Name     string
	Border   bool
	Rows     int         // how many rows the zone has
	Sides    int         // border pegs at both edges, 0 none
	SideRows [][]Cell    // one repeat of a side, bottom first, each from the outer edge inwards
	Strips   []StripPlan // the fabric between the sides, left to right
	SlipEdge bool        // the first stitch of every row is slipped
	Like     string      // the zone it was copied from, if any
	KnitAs   Wrap
	Gauge    string // the name of a gauge of its own, or empty
}

// StripPlan is one repeat of a strip. A strip narrower than the zone lies beside
// others.
type StripPlan struct {
	Pegs  int
	Lines []Line // bottom first
	Gauge string // the name of a gauge of its own, or empty
}

// Line is one row of a strip. Its cells must not be changed once the plan is built:
// the fabric may keep them.
type Line struct {
	Cells []Cell
	// Written lines are in order of work: which way they lie on the fabric depends
	// on the way their row runs. Others are drawn, left to right as seen. The parts
	// of a cross stand left to right as seen in both.
	Written bool
}

// GarterSide is the side of a field unless it says otherwise: a knit row, then a
// purl row.
func GarterSide(pegs int, yarn Yarn) [][]Cell {
	side := make([][]Cell, 2)
	for i, s := range []Stitch{Knit, Purl} {
		side[i] = make([]Cell, pegs)
		for j := range side[i] {
			side[i][j] = Cell{s, yarn}
		}
	}
	return side
}

// PlanError is one thing in a plan that cannot be made into fabric. Zone, Strip and
// Line count from 0; -1 where the fault is not in one.
type PlanError struct {
	Zone, Strip, Line int
	Msg               string
}

// Error is the message alone; the caller knows how to show the place.
func (e *PlanError) Error() string { return e.Msg }
