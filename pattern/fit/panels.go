package fit

import "math"

// Panels is how many panels of how many pegs each make a width of so many pegs on a loom
// that has fewer: equally wide, one edge peg of each going into a seam. It is 0 panels
// where the loom is too short for any.
func Panels(pegs, loom int) (panels, each int) {
	if pegs <= loom {
		return 1, pegs
	}
	if loom < 3 {
		return 0, 0
	}
	panels = (pegs - 2 + loom - 3) / (loom - 2) // n panels of a loom's pegs, less 2 a seam
	each = (pegs + 2*(panels-1) + panels - 1) / panels
	return panels, each
}

// PanelsOf is how many panels of how many pegs each come nearest to a width of so many pegs
// where not every count can be had, such as one of whole repeats: allowed tells which can.
// They are as few as come within a twentieth of the width. It is 0 panels where none can be
// made.
func PanelsOf(pegs, loom int, allowed func(pegs int) bool) (panels, each int) {
	fewest, _ := Panels(pegs, loom)
	if fewest <= 1 {
		return fewest, pegs * fewest
	}
	for n, off := fewest, math.MaxInt; n <= fewest+mostMorePanels; n++ {
		one := nearestAllowed(pegs+2*(n-1), n, loom, allowed)
		if d := abs(Sewn(n, one) - pegs); one > 0 && d < off {
			panels, each, off = n, one, d
		}
		if off <= pegs/nearEnough {
			break
		}
	}
	return panels, each
}

const (
	mostMorePanels = 3  // than would do if every count could be had
	nearEnough     = 20 // a twentieth of the width
)

// nearestAllowed is the count that can be had on a loom of which n come nearest to a sum, the
// larger of two; 0 where there is none.
func nearestAllowed(sum, n, loom int, allowed func(pegs int) bool) int {
	below, above := min(sum/n, loom), sum/n+1
	for below >= 3 && !allowed(below) {
		below--
	}
	for above <= loom && (above < 3 || !allowed(above)) {
		above++
	}
	switch {
	case above <= loom && (below < 3 || n*above-sum <= sum-n*below):
		return above
	case below >= 3:
		return below
	}
	return 0
}

// Sewn is how many pegs wide panels are once they are sewn together: a seam takes an edge
// peg of both.
func Sewn(panels, each int) int { return panels*each - 2*(panels-1) }

// Panels are those that come nearest to a width which the loom is too short for, each of a
// count that the multiples allow.
func (w *CountWish) Panels(pegs int) (panels, each int) {
	if len(w.Multiples) == 0 && w.Ends == 0 {
		return Panels(pegs, w.Limit)
	}
	return PanelsOf(pegs, w.Limit, w.allows)
}
