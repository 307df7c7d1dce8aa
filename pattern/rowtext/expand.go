package rowtext

import "slices"

// expand appends the runs of a part. Turns is what the solver found for it; brackets
// bring their own.
func expand(runs []Run, n node, turns int) []Run {
	switch n := n.(type) {
	case *work:
		return push(runs, Run{n.stitch, n.count * turns})
	case *fill:
		return push(runs, Run{n.stitch, turns})
	case *group:
		return repeat(runs, n.parts, n.count)
	case *star:
		return repeat(runs, n.parts, turns)
	case *pegs:
		return push(runs, Run{n.stitch, n.width()})
	}
	return runs
}

// repeat appends the runs of parts that are worked turns times. The unit is expanded
// once; a unit of one run is multiplied, so that work follows the runs and not the
// pegs.
func repeat(runs []Run, parts []node, turns int) []Run {
	unit := unitRuns(parts)
	if len(unit) == 1 {
		return push(runs, Run{unit[0].Stitch, unit[0].Count * turns})
	}
	runs = slices.Grow(runs, len(unit)*turns)
	for range turns {
		runs = join(runs, unit)
	}
	return runs
}

// push appends a run, merged with an equal neighbour. A run of none is left out.
func push(runs []Run, r Run) []Run {
	if r.Count == 0 {
		return runs
	}
	if last := len(runs) - 1; last >= 0 && runs[last].Stitch == r.Stitch {
		runs[last].Count += r.Count
		return runs
	}
	return append(runs, r)
}

// join appends runs, merged where they meet.
func join(runs, more []Run) []Run {
	for _, r := range more {
		runs = push(runs, r)
	}
	return runs
}

func sameRuns(a, b []Run) bool { return slices.Equal(a, b) }
