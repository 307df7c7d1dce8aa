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
// row. One that is left no room is worked no time, with a warning: the row was most
// likely meant for another count.

// solver finds how often each part of a row is worked on so many pegs.
type solver struct {
	faults
	notes []Note
	parts []node
	scene scene
	pegs  int // the width to be filled
	m     measure
	turns []int   // for each part; 1 for parts with a width
	tails [][]Run // for each part what is worked behind its turns: a cut repeat, its end

	from   int  // where the stretch at hand begins
	first  int  // the part that begins it
	fixed  int  // pegs of its parts with a width
	open   int  // its open part, or -1
	anchor *far // the anchor before it, or nil
}

func newSolver(parts []node, s scene, m measure) *solver {
	return &solver{
		parts: parts, scene: s, pegs: s.loops, m: m,
		turns: make([]int, len(parts)), tails: make([][]Run, len(parts)), open: -1,
	}
}

// solve finds, for each part, how often it is worked (repeats of a star, pegs of a
// fill, else 1), or what is wrong.
func (s *solver) solve() bool {
	s.checkInner(s.parts, "")
	if len(s.list) > 0 || s.whole() {
		return len(s.list) == 0
	}
	for i, n := range s.parts {
		if !s.take(i, n) {
			return false
		}
	}
	return s.close(s.pegs) && s.placed() && s.checkMade()
}

// whole settles rows of one word, "k" and "k all", and refuses "all" in longer rows.
func (s *solver) whole() bool {
	if len(s.parts) == 1 {
		s.turns[0] = s.pegs
		switch n := s.parts[0].(type) {
		case *work:
			if n.bare && s.m.of(n.stitch) == 1 {
				return true
			}
		case *fill:
			if n.to.reach == reachWhole {
				return true
			}
		case *echo:
			if n.to.reach == reachWhole || n.to.reach == reachOpen {
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
		s.fixed = min(s.fixed+width(n, s.m), tooWide)
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
	if f.reach == reachPeg && !s.toPeg(&f) {
		return false
	}
	if n, ok := n.(*star); ok && f.last == 0 && i+1 < len(s.parts) && !fixedOpen(s.parts[i+1:]) {
		if f.said {
			s.warn(f.span, "to the end is read as up to what follows")
		}
		return n.end == nil
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

// toPeg turns the number of a peg into loops before the end of the row. The peg itself
// is worked.
func (s *solver) toPeg(f *far) bool {
	if f.last > s.pegs {
		s.add(f.span, "", "there is no peg %d: the row has %s", f.last, many(s.pegs, "peg"))
		return false
	}
	last := s.pegs - f.last
	if s.scene.back {
		last = f.last - 1
	}
	f.reach, f.last = reachLast, last
	return true
}

// close ends the stretch at hand at a peg and settles its open part.
func (s *solver) close(end int) bool {
	room := end - s.from - s.fixed
	switch {
	case s.open < 0 && room != 0:
		s.misfit(room)
	case s.open < 0:
	case room < 0:
		s.noRoom(room)
	default:
		s.settle(room)
	}
	return len(s.list) == 0
}

// settle gives the open part its room.
func (s *solver) settle(room int) {
	n, ok := s.parts[s.open].(*star)
	switch {
	case !ok && room == 0:
		at := s.parts[s.open].at()
		s.warn(at, "no peg is left for this part: it is not worked")
		fallthrough
	case !ok:
		s.turns[s.open] = room
	case n.end != nil:
		s.settleEnd(n, room)
	default:
		s.settleStar(n, room)
	}
}

// settleStar gives a repeat its room.
func (s *solver) settleStar(n *star, room int) {
	unit := widthOf(n.parts, s.m)
	s.turns[s.open] = room / unit
	switch left := room % unit; {
	case left != 0 && !(n.loose && room > unit && s.cut(n, left)):
		s.uneven(n, unit, room)
	case left != 0:
	case room == 0:
		s.warn(n.span, "no peg is left for this repeat: it is worked no time")
	case n.doubt != "":
		s.warn(n.span, n.doubt)
	}
}

// cut works the beginning of the unit once more, where the writers of such rows stop
// within a repeat. It is false where a step of several loops would be cut.
func (s *solver) cut(n *star, left int) bool {
	if !s.makes(n.span, widthOf(n.parts, byCells)) {
		return false
	}
	tail, ok := cutLoops(unitRuns(n.parts), left, s.m)
	if ok {
		s.tails[s.open] = tail
		s.warn(n.span, "the row ends within a repeat: "+many(left, "peg")+" left over")
	}
	return ok
}

// cutLoops is the beginning of runs that takes so many loops. It is false where a step
// of several would be cut.
func cutLoops(runs []Run, loops int, m measure) ([]Run, bool) {
	var head []Run
	for _, r := range runs {
		w := m.of(r.Stitch)
		if loops == 0 {
			break
		}
		n := r.Count
		if w > 0 {
			n = min(n, loops/w)
			if n < r.Count && loops%w != 0 {
				return nil, false
			}
		}
		head = push(head, Run{r.Stitch, n})
		loops -= n * w
	}
	return head, loops == 0
}

// A row of repeats that "ends with" something is meant in three ways, tried in this
// order: it is worked after whole repeats; it takes the place of the last repeat's end,
// which "end last repeat" always means; it only describes how the last repeat ends.

// settleEnd gives a repeat and its end their room.
func (s *solver) settleEnd(n *star, room int) {
	if !s.makes(n.span, widthOf(n.parts, byCells)) || !s.makes(n.end.span, widthOf(n.end.parts, byCells)) {
		return
	}
	unit, tail := widthOf(n.parts, s.m), unitRuns(n.end.parts)
	x := widthOf(n.end.parts, s.m)
	left := room - x
	switch {
	case !n.end.replaces && left >= unit && left%unit == 0:
		s.turns[s.open], s.tails[s.open] = left/unit, tail
	case left >= 0 && s.endsCut(n, left%unit, x, tail):
		head, _ := cutLoops(unitRuns(n.parts), left%unit, s.m)
		s.turns[s.open], s.tails[s.open] = left/unit, join(head, tail)
		if n.end.replaces && len(head) == 0 {
			s.warn(n.end.span, "this takes the place of the whole last repeat")
		}
		if !n.end.replaces {
			s.warn(n.end.span, "as an end of its own it does not fit: it is read as the end of the last repeat, which is cut short")
		}
	case room >= unit && room%unit == 0 && endsWith(unitRuns(n.parts), tail):
		s.turns[s.open] = room / unit
		s.warn(n.end.span, "the row is full without it: it is read as what the last repeat ends with")
	default:
		s.uneven(n, unit, room-x)
	}
}

// endsCut tells whether the end can take the place of what the unit has behind its
// first few loops: at the border of two parts, and where "last repeat" is not said, as
// the unit goes on there anyhow.
func (s *solver) endsCut(n *star, head, x int, tail []Run) bool {
	runs := unitRuns(n.parts)
	begin, ok := cutLoops(runs, head, s.m)
	if !ok || head == 0 && !n.end.replaces {
		return false
	}
	if n.end.replaces {
		at := 0
		for _, part := range n.parts {
			if at == head {
				return true
			}
			at += width(part, s.m)
		}
		return false
	}
	whole, ok := cutLoops(runs, head+x, s.m)
	return ok && head+x < widthOf(n.parts, s.m) && sameRuns(whole, join(begin, tail))
}

// unitRuns are the runs of parts that have a width, worked once.
func unitRuns(parts []node) []Run {
	var runs []Run
	for _, n := range parts {
		runs = expand(runs, n, 1)
	}
	return runs
}

// endsWith tells whether runs end with others.
func endsWith(runs, tail []Run) bool {
	for i := range tail {
		j := len(runs) - len(tail) + i
		if j < 0 || runs[j].Stitch != tail[i].Stitch || runs[j].Count < tail[i].Count || i > 0 && runs[j].Count != tail[i].Count {
			return false
		}
	}
	return true
}

// placed holds parts that say where they stand against where they are.
func (s *solver) placed() bool {
	before := 0
	for i, n := range s.parts {
		switch n := n.(type) {
		case *work:
			switch {
			case n.place == atStart && before > 0:
				s.add(n.span, "", "the first pegs are worked already")
			case n.place == atEnd && i+1 < len(s.parts):
				s.add(n.span, "", "other stitches follow the last pegs")
			}
		case *pegs:
			s.checkPegs(n, before)
		}
		before += s.worked(i)
	}
	return len(s.list) == 0
}

// worked is how many pegs a part takes as it was solved.
func (s *solver) worked(i int) int {
	switch n := s.parts[i].(type) {
	case *fill, *echo:
		return s.turns[i]
	case *star:
		return times(widthOf(n.parts, s.m), s.turns[i]) + runsWidth(s.tails[i], s.m)
	default:
		return width(n, s.m)
	}
}

func runsWidth(runs []Run, m measure) int {
	n := 0
	for _, r := range runs {
		n += r.Count * m.of(r.Stitch)
	}
	return n
}

func (s *solver) warn(at span, msg string) {
	s.notes = append(s.notes, Note{Start: at.start, End: at.end, Msg: msg})
}
