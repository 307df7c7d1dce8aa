package rowtext

// The row is cut at its anchors. "k3, p to last 8, *k1, p1; rep from * to last 2, k2"
// has anchors at 8 and at 2 pegs before the end; between two neighbouring anchors
// (and the ends of the row) at most one part may be open, and its room is what the
// parts with a width leave:
//
//	|k3 [p......]|[*k1 p1......]|k2|
//	0         pegs-8         pegs-2  pegs
//
// An open part without an anchor is bounded by the next anchor or the end of the
// row. Each open part must be worked at least once: a row that fits only by leaving
// a part out was most likely meant for another count.

// solver finds how often each part of a row is worked on so many pegs.
type solver struct {
	faults
	parts []node
	pegs  int
	turns []int // for each part; 1 for parts with a width

	from   int  // where the stretch at hand begins
	first  int  // the part that begins it
	fixed  int  // pegs of its parts with a width
	open   int  // its open part, or -1
	anchor *far // the anchor before it, or nil
}

// solve is, for each part, how often it is worked (repeats of a star, pegs of a
// fill, else 1).
func solve(parts []node, pegs int) ([]int, error) {
	s := &solver{parts: parts, pegs: pegs, turns: make([]int, len(parts)), open: -1}
	s.checkInner()
	if len(s.list) > 0 {
		return nil, s.err()
	}
	if s.whole() {
		return s.turns, s.err()
	}
	for i, n := range parts {
		if !s.take(i, n) {
			return nil, s.err()
		}
	}
	s.close(pegs)
	return s.turns, s.err()
}

// checkInner refuses open parts that are not at the top of the row.
func (s *solver) checkInner() {
	for _, n := range s.parts {
		switch n := n.(type) {
		case *star:
			s.refuseInner(n.parts, "a repeat")
		case *group:
			s.refuseInner(n.parts, "a bracket")
		}
	}
}

// whole settles rows of one word, "k" and "k all", and refuses "all" in longer rows.
func (s *solver) whole() bool {
	if len(s.parts) == 1 {
		switch n := s.parts[0].(type) {
		case *work:
			if n.bare {
				s.turns[0] = s.pegs
				return true
			}
		case *fill:
			if n.to.reach == reachWhole {
				s.turns[0] = s.pegs
				return true
			}
		}
	}
	for _, n := range s.parts {
		if f, ok := openPart(n); ok && f.reach == reachWhole {
			s.add(n.at(), "write to end, or to last 3", "this means the whole row, but the row has other parts")
		}
	}
	return len(s.list) > 0
}

// take adds a part to the stretch at hand, or closes the stretch with it. It is
// false after a fault that leaves the rest without a meaning.
func (s *solver) take(i int, n node) bool {
	s.turns[i] = 1
	f, open := openPart(n)
	if !open {
		s.fixed = min(s.fixed+width(n), tooWide)
		return true
	}
	if s.open >= 0 {
		s.add(n.at(), "say where the first ends: to last 3", "two parts without an end: nothing says where the first stops")
		return false
	}
	s.open = i
	if f.reach == reachOpen {
		return true
	}
	if f.last == 0 && i+1 < len(s.parts) {
		s.nothingAfterEnd(i)
		return false
	}
	if f.last > s.pegs {
		s.add(f.span, "", "the row has only %s, and this stops %d before the end: %d too many",
			many(s.pegs, "peg"), f.last, f.last-s.pegs)
		return false
	}
	if s.anchor != nil && f.last >= s.anchor.last {
		s.add(f.span, "", "this stops where the part before it has ended already")
		return false
	}
	if !s.close(s.pegs - f.last) {
		return false
	}
	s.from, s.first, s.fixed, s.open, s.anchor = s.pegs-f.last, i+1, 0, -1, &f
	return true
}

// close ends the stretch at hand at a peg and settles its open part.
func (s *solver) close(end int) bool {
	room := end - s.from - s.fixed
	switch {
	case s.open < 0 && room != 0:
		s.misfit(room)
	case s.open < 0:
	case room < 1:
		s.noRoom(room)
	default:
		s.settle(room)
	}
	return len(s.list) == 0
}

// settle gives the open part its room.
func (s *solver) settle(room int) {
	n, ok := s.parts[s.open].(*star)
	if !ok {
		s.turns[s.open] = room
		return
	}
	unit := widthOf(n.parts)
	if room%unit != 0 {
		s.uneven(n, unit, room)
		return
	}
	s.turns[s.open] = room / unit
}
