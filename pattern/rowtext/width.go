package rowtext

// Widths come first. A row is expanded only after its width is known to be the
// number of pegs, so the work of reading is bounded by the text and the pegs,
// whatever the counts say: "((k1) 4000 times) 4000 times" costs two products.
// Widths stop growing at tooWide, which no row reaches.

// measure is what the width of a part counts.
type measure uint8

const (
	byLoops measure = iota // loops of the row below; a peg not in use counts as one
	byCells                // pegs that its stitches end on
)

// of is the width of a stitch.
func (m measure) of(s Stitch) int {
	switch {
	case s == NoStitch:
		return 1
	case m == byCells:
		return s.Out()
	}
	return s.In()
}

// width is how many pegs a part covers. An open part has no width of its own and
// counts 0: its caller solves it.
func width(n node, m measure) int {
	switch n := n.(type) {
	case *work:
		return times(m.of(n.stitch), n.count)
	case *group:
		return times(widthOf(n.parts, m), n.count)
	case *pegs:
		return n.width()
	}
	return 0
}

// widthOf is the width of parts in a row.
func widthOf(parts []node, m measure) int {
	sum := 0
	for _, n := range parts {
		sum = min(sum+width(n, m), tooWide)
	}
	return sum
}

// times is a product that stops at tooWide.
func times(width, count int) int {
	if width > 0 && count > tooWide/width {
		return tooWide
	}
	return width * count
}

// checkMade refuses rows whose brackets leave more loops than a row can have: yarn overs
// take none, so the width of what they are worked into does not bound them.
func (s *solver) checkMade() bool {
	sum := 0
	for i, n := range s.parts {
		sum = min(sum+s.made(i, n), tooWide)
	}
	return s.makes(s.parts[0].at().to(s.parts[len(s.parts)-1].at()), sum)
}

// made is how many loops a part leaves as it was solved.
func (s *solver) made(i int, n node) int {
	switch n := n.(type) {
	case *fill, *echo:
		return s.turns[i]
	case *star:
		return min(times(widthOf(n.parts, byCells), s.turns[i])+runsWidth(s.tails[i], byCells), tooWide)
	}
	return width(n, byCells)
}

// makes refuses a part that leaves more loops than a row can have.
func (s *solver) makes(at span, loops int) bool {
	if loops > maxPegs {
		s.add(at, "", "this leaves %s, more than the %d a row can have", many(loops, "loop"), maxPegs)
	}
	return loops <= maxPegs
}

// openPart is how far an open part goes. It is false for parts with a width.
func openPart(n node) (f far, ok bool) {
	switch n := n.(type) {
	case *fill:
		return n.to, true
	case *echo:
		return n.to, true
	case *star:
		return n.to, true
	}
	return far{}, false
}

// checkInner refuses open parts inside brackets and stars, where nothing says how
// much room one turn has, and repeats that use up no loop.
func (s *solver) checkInner(parts []node, within string) {
	for _, n := range parts {
		switch n := n.(type) {
		case *fill:
			if within != "" {
				s.add(n.span, "give the stitch a count", "a stitch without an end inside %s", within)
			} else if s.m.of(n.stitch) == 0 {
				s.add(n.span, "say how many", "%s uses no loop: it would never come to the end", n.stitch.Name())
			}
		case *echo:
			if within != "" {
				s.add(n.span, "", "stitches as they appear inside %s", within)
			}
		case *pegs:
			if within != "" {
				s.add(n.span, "", "pegs by their numbers inside %s", within)
			}
		case *star:
			if within != "" {
				s.add(n.span, "give the inner one a count: (k1, p1) 3 times", "a repeat without a count inside %s", within)
			} else if len(n.parts) > 0 && widthOf(n.parts, s.m) == 0 && !s.hasOpen(n.parts) {
				s.add(n.span, "", "the repeat uses no loop of the row below: it would never come to the end")
			}
			s.checkInner(n.parts, "a repeat")
			if n.end != nil {
				s.checkInner(n.end.parts, "the end of a repeat")
			}
		case *group:
			s.checkInner(n.parts, "a bracket")
		}
	}
}

func (s *solver) hasOpen(parts []node) bool {
	for _, n := range parts {
		if _, open := openPart(n); open {
			return true
		}
		if _, ok := n.(*pegs); ok {
			return true
		}
	}
	return false
}
