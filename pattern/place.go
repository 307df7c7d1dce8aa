package pattern

import "fmt"

// Phase is a part of the work on a piece.
type Phase uint8

// The phases, in the order in which they come.
const (
	CastingOn  Phase = iota // loops are put on the pegs
	Working                 // rows are worked
	BindingOff              // loops are taken off
	Finishing               // the piece is off the loom
)

var phaseNames = [...]string{"cast-on", "rows", "bind-off", "finish"}

// String is the phase as journals and files write it: "cast-on", "rows",
// "bind-off", "finish".
func (p Phase) String() string {
	if int(p) >= len(phaseNames) {
		return fmt.Sprintf("phase %d", uint8(p))
	}
	return phaseNames[p]
}

// ParsePhase reads what String writes.
func ParsePhase(s string) (Phase, bool) {
	for i, name := range phaseNames {
		if s == name {
			return Phase(i), true
		}
	}
	return 0, false
}

// Place is where the work on a piece stands. It holds for either hand: stitches are
// counted in order of work, never by peg number.
//
// Row counts from 1 while rows are worked and is 0 in the other phases. Done is how
// many stitches of the row (or loops of the cast-on or bind-off) have been worked;
// a row whose last stitch has been worked is told as the next row with none done.
type Place struct {
	Phase Phase
	Row   int
	Done  int
}

// Start is the place of a piece that has not been begun.
func Start() Place { return Place{Phase: CastingOn} }

// Before tells whether p comes before q in the work.
func (p Place) Before(q Place) bool {
	switch {
	case p.Phase != q.Phase:
		return p.Phase < q.Phase
	case p.Row != q.Row:
		return p.Row < q.Row
	}
	return p.Done < q.Done
}
