package rowtext

import "slices"

// The shortest honest row.
//
// A row is measured by its parts, as a person takes it in: a step told ("k4") is one
// part, "rep from * to last 7" is one, "3 times" is two, for it makes the maker keep
// count. Letters would measure badly: "p9" is shorter than "p to last 3", and says less.
// Of these shapes the cheapest is taken, in this order where they cost the same:
//
//	k                                        a row of one step
//	k3, p to last 3, k3                      one step is the row's body
//	p3, *k4, p2; rep from * to last 7, k4, p3
//	k1, (p1, k1) 5 times, k5                 brackets, or a plain list
//
// A body is three loops of five or more, and its edges are as wide as each other. A repeat is worked twice or more and covers
// half of the loops. Among repeats of one cost the one that goes to the end comes first,
// then the one that begins earliest. A repeat may begin inside a run ("*k2, p1, k2" makes
// k4 of two neighbours); as that is harder to follow it costs a part more, and a run cut
// between the edge and the repeat one and a half.
//
// Where repeats can lie at all is found once (repeats.go). Brackets are then laid by
// going along the row, keeping for each run the cheapest way to have got there, without
// brackets in brackets; what stands in a bracket or a repeat is shortened by itself
// afterwards. Repeats are rated from the same figures: those of the edges are known
// already, the inside is taken at its plain length.
//
// "To last n" counts loops of the row below. So an open part is never written where
// nothing says how much it takes: over yarn overs alone, before an edge that takes no
// loops, or in a row with pegs that are not in use.

// partKind is the kind of a part of a row in words.
type partKind uint8

const (
	partStep    partKind = iota // k3
	partWhole                   // k
	partFill                    // k to last 3
	partBracket                 // (k1, p1) 3 times
	partStar                    // *k1, p1; rep from * to last 3
)

// part is a part of a row in words.
type part struct {
	kind  partKind
	run   Run    // of a step, a whole row and a fill
	parts []part // of a bracket and a star
	times int    // of a bracket
	last  int    // of a fill and a star: loops before the end where it stops
}

// What parts cost.
const (
	costPart  = 10
	costTimes = 20 // of a bracket, beside its parts
	costRep   = 10 // of a star, beside its parts
	costWrap  = 10 // of a star that ends and begins with the same step
	costCut   = 15 // of a run that is cut between an edge and a star
)

// shorten is a row in parts.
func shorten(runs []Run) []part {
	runs = merged(runs)
	if len(runs) == 0 {
		return nil
	}
	open := !slices.ContainsFunc(runs, func(r Run) bool { return r.Stitch == NoStitch })
	loops := In(runs)
	if i := mainRun(runs, loops); open && i >= 0 {
		return filled(runs, i)
	}
	s := newShortener(runs)
	if open {
		if star, ok := s.bestRefrain(loops); ok {
			return star.parts()
		}
	}
	return s.list()
}

// merged is runs with equal neighbours as one; the same slice where there are none.
func merged(runs []Run) []Run {
	for i := 1; i < len(runs); i++ {
		if runs[i].Stitch == runs[i-1].Stitch {
			var one []Run
			for _, r := range runs {
				one = push(one, r)
			}
			return one
		}
	}
	return runs
}

// mainRun is the run that is the row's body, or -1. In a row of several runs a few loops
// are no body: they are seen at a glance. Nor are those between edges of unlike width,
// which are a figure's and no frame's.
func mainRun(runs []Run, loops int) int {
	const fewest = 5
	before := 0
	for i, r := range runs {
		in := r.Count * r.Stitch.In()
		after := loops - before - in
		switch {
		case 5*in < 3*loops || r.Count < 2:
		case len(runs) == 1:
			return i
		case in >= fewest && (bare(r.Stitch) || r.Count > 2) && (before == 0 || after == 0 || before == after):
			return i
		}
		before += in
	}
	return -1
}

// filled is the row with its main run open.
func filled(runs []Run, main int) []part {
	r := runs[main]
	switch {
	case len(runs) == 1 && bare(r.Stitch):
		return []part{{kind: partWhole, run: r}}
	case len(runs) == 1 && (r.Stitch.In() == 0 || !Letters.say(r.Stitch).whole):
		return []part{{run: r}}
	}
	last := In(runs[main+1:])
	if last == 0 && main+1 < len(runs) {
		return newShortener(runs).list()
	}
	parts := newShortener(runs[:main]).list()
	if bare(r.Stitch) {
		parts = append(parts, part{kind: partFill, run: r, last: last})
	} else {
		parts = append(parts, part{kind: partStar, parts: []part{{run: Run{r.Stitch, 1}}}, last: last})
	}
	return append(parts, newShortener(runs[main+1:]).list()...)
}

// shortener holds what is known of a row.
type shortener struct {
	runs  []Run
	found []stretch
	head  []way // the cheapest way to each place from the start
}

func newShortener(runs []Run) *shortener {
	found := repeats(runs, true)
	return &shortener{runs, found, ways(len(runs), found)}
}

// way is the cheapest way to a place in a row, and its last step: one run, or a bracket
// of so many runs worked so often.
type way struct{ cost, period, times int }

// ways finds the cheapest ways to all places of a row of so many runs.
func ways(runs int, found []stretch) []way {
	found = slices.Clone(found)
	slices.SortStableFunc(found, func(a, b stretch) int { return a.from + 2*a.period - b.from - 2*b.period })
	all := make([]way, runs+1)
	var open []stretch
	for i := 1; i <= runs; i++ {
		best := way{cost: all[i-1].cost + costPart}
		for len(found) > 0 && found[0].from+2*found[0].period <= i {
			open, found = append(open, found[0]), found[1:]
		}
		open = slices.DeleteFunc(open, func(s stretch) bool { return s.to < i })
		for _, s := range open {
			best = s.bracket(all, i, best)
		}
		all[i] = best
	}
	return all
}

// bracket is the better of a way to place i and the best bracket that ends there. Of
// long repeats only the first few counts and the greatest are tried.
func (s stretch) bracket(all []way, i int, best way) way {
	const few = 6
	most := (i - s.from) / s.period
	for n := 2; n <= most; n++ {
		if n == few {
			n = most
		}
		if cost := all[i-n*s.period].cost + s.period*costPart + costTimes; cost < best.cost {
			best = way{cost, s.period, n}
		}
	}
	return best
}

// list is the row as a list with brackets.
func (s *shortener) list() []part {
	var parts []part
	for i := len(s.runs); i > 0; {
		w := s.head[i]
		if w.times == 0 {
			i--
			parts = append(parts, part{run: s.runs[i]})
			continue
		}
		i -= w.period * w.times
		inner := newShortener(s.runs[i : i+w.period]).list()
		parts = append(parts, part{kind: partBracket, parts: inner, times: w.times})
	}
	slices.Reverse(parts)
	return parts
}
