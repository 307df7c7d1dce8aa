package rowtext

// Expand reads a written row for so many pegs, 1 to 4,000. The runs are in the order
// of work, neighbours differ, and their counts sum to pegs. The error is an Errors,
// each of its faults with a place inside the text.
func Expand(text string, pegs int) ([]Run, error) {
	var f faults
	switch all := (span{0, len(text)}); {
	case pegs < 1 || pegs > maxPegs:
		f.add(all, "", "a row has 1 to %d pegs, not %d", maxPegs, pegs)
	case len(text) > maxText:
		f.add(all, "", "the row is longer than %d KiB", maxText>>10)
	}
	if err := f.err(); err != nil {
		return nil, err
	}
	parts, err := parse(text)
	if err != nil {
		return nil, err
	}
	turns, err := solve(parts, pegs)
	if err != nil {
		return nil, err
	}
	var runs []Run
	for i, n := range parts {
		runs = expand(runs, n, turns[i])
	}
	return runs, nil
}

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
	}
	return runs
}

// repeat appends the runs of parts that are worked turns times. The unit is expanded
// once; a unit of one run is multiplied, so that work follows the runs and not the
// pegs.
func repeat(runs []Run, parts []node, turns int) []Run {
	var unit []Run
	for _, n := range parts {
		unit = expand(unit, n, 1)
	}
	if len(unit) == 1 {
		return push(runs, Run{unit[0].Stitch, unit[0].Count * turns})
	}
	for range turns {
		for _, r := range unit {
			runs = push(runs, r)
		}
	}
	return runs
}

// push appends a run, merged with an equal neighbour.
func push(runs []Run, r Run) []Run {
	if last := len(runs) - 1; last >= 0 && runs[last].Stitch == r.Stitch {
		runs[last].Count += r.Count
		return runs
	}
	return append(runs, r)
}
