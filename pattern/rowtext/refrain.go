package rowtext

import "slices"

// refrain is a repeat in a row: the runs of period that begin at run first, worked times
// times. Cut is how many steps of the run before first belong to it as well: then its
// last run is as much shorter, or left out.
type refrain struct {
	runs                      []Run
	first, period, times, cut int
	cost                      int
}

// bestRefrain is the repeat that makes the row shortest, if one is no dearer than brackets.
func (s *shortener) bestRefrain(loops int) (refrain, bool) {
	n := len(s.runs)
	list := s.head[n].cost
	best := refrain{cost: min(list, n*costPart-1) + 1}
	if len(s.found) == 0 {
		return best, false
	}
	r := newRater(s.runs, s.head, s.found, loops)
	for _, f := range s.found {
		times := (f.to - f.from) / f.period
		for first := f.from; times > 1 && first+times*f.period <= f.to; first++ {
			best = r.better(best, refrain{runs: s.runs, first: first, period: f.period, times: times})
		}
		if c, ok := cutRefrain(s.runs, f); ok {
			best = r.better(best, c)
		}
	}
	return best, best.times > 0
}

// cutRefrain is the repeat that begins inside the run before a stretch, if one can.
func cutRefrain(runs []Run, f stretch) (refrain, bool) {
	before := f.from - 1
	if before < 0 || runs[before].Stitch != runs[before+f.period].Stitch {
		return refrain{}, false
	}
	whole := runs[before+f.period].Count
	c := refrain{runs: runs, first: f.from, period: f.period, cut: min(whole, runs[before].Count)}
	c.times = (f.to - 1 - before) / f.period
	end := before + (c.times+1)*f.period
	if end == f.to && end < len(runs) && fits(runs[end], Run{runs[before].Stitch, whole - c.cut}) {
		c.times++
	}
	return c, c.times > 1
}

// fits tells whether a run can begin with another; with none of one always.
func fits(r, part Run) bool {
	return part.Count == 0 || r.Stitch == part.Stitch && r.Count >= part.Count
}

// lead, unit and tail are the runs before a repeat, in it, and behind it.
func (c refrain) lead() []Run {
	if c.cut == 0 {
		return c.runs[:c.first]
	}
	lead := slices.Clone(c.runs[:c.first])
	if lead[c.first-1].Count -= c.cut; lead[c.first-1].Count == 0 {
		lead = lead[:c.first-1]
	}
	return lead
}

func (c refrain) unit() []Run {
	if c.cut == 0 {
		return c.runs[c.first : c.first+c.period]
	}
	unit := []Run{{c.runs[c.first-1].Stitch, c.cut}}
	unit = append(unit, c.runs[c.first:c.first+c.period-1]...)
	if left := c.left(); left > 0 {
		unit = append(unit, Run{unit[0].Stitch, left})
	}
	return unit
}

// left is how long the last run of a cut repeat is.
func (c refrain) left() int { return c.runs[c.first-1+c.period].Count - c.cut }

func (c refrain) tail() []Run {
	end := c.first + c.times*c.period
	if c.cut == 0 {
		return c.runs[end:]
	}
	tail := slices.Clone(c.runs[end-1:])
	if tail[0].Count -= c.left(); tail[0].Count == 0 {
		tail = tail[1:]
	}
	return tail
}

// parts is the row in parts.
func (c refrain) parts() []part {
	tail := c.tail()
	parts := newShortener(c.lead()).list()
	parts = append(parts, part{kind: partStar, parts: newShortener(c.unit()).list(), last: In(tail)})
	return append(parts, newShortener(tail).list()...)
}

// toEnd tells whether nothing stands behind the repeat.
func (c refrain) toEnd() bool {
	return c.cut == 0 && c.first+c.times*c.period == len(c.runs) || len(c.tail()) == 0
}

// rater knows what the edges of a row cost wherever they are cut.
type rater struct {
	head, tail []way
	in         []int // loops before each run
	loops      int
}

func newRater(runs []Run, head []way, found []stretch, loops int) *rater {
	n := len(runs)
	turned := make([]stretch, len(found))
	for i, f := range found {
		turned[i] = stretch{n - f.to, n - f.from, f.period}
	}
	r := &rater{head: head, tail: ways(n, turned), in: make([]int, n+1), loops: loops}
	for i, run := range runs {
		r.in[i+1] = r.in[i] + run.Count*run.Stitch.In()
	}
	return r
}

// better is the better of two repeats, the first being the one found before.
func (r *rater) better(best, c refrain) refrain {
	if !r.stops(c) {
		return best
	}
	switch c.cost = r.cost(c); {
	case c.cost != best.cost:
		if c.cost < best.cost {
			return c
		}
	case best.times == 0:
	case c.toEnd() != best.toEnd():
		if c.toEnd() {
			return c
		}
	case c.first < best.first:
		return c
	}
	return best
}

// stops tells whether "to last n" says where the repeat stops, and whether it covers half
// of the row.
func (r *rater) stops(c refrain) bool {
	end := c.first + c.times*c.period
	unit := r.in[c.first+c.period] - r.in[c.first]
	after := r.loops - r.in[end]
	if c.cut > 0 {
		rest := c.runs[end-1]
		after += (rest.Count - c.left()) * rest.Stitch.In()
	}
	return unit > 0 && 2*c.times*unit >= r.loops && (after > 0 || c.toEnd())
}

// cost is what the row costs with a repeat, the inside of the repeat at its plain length.
func (r *rater) cost(c refrain) int {
	n := len(c.runs)
	end := c.first + c.times*c.period
	if c.cut == 0 {
		return r.head[c.first].cost + c.period*costPart + costRep + r.tail[n-end].cost
	}
	cost := r.head[c.first-1].cost + c.period*costPart + costRep + r.tail[n-end].cost
	left := c.left()
	if c.runs[c.first-1].Count > c.cut {
		cost += costPart + costCut
	}
	if left > 0 {
		cost += costPart + costWrap
	}
	if rest := c.runs[end-1].Count - left; rest > 0 {
		cost += costPart
		if left > 0 {
			cost += costCut
		}
	}
	return cost
}
