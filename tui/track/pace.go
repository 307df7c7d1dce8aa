package track

import "slices"

// Moment is how many stitches of the whole work were done at a time, told in seconds.
type Moment struct {
	Seconds float64
	Done    int
	Rest    bool // it came of something that was no work: a jump, a step back
}

// Pauses and lone hurried steps are no pace.
const (
	longestStep  = 5 * 60 // seconds; what took longer was a pause
	paceStitches = 400    // how many of the last stitches make the pace
	leastPaces   = 5      // steps before anything is said
)

// Pace is how fast a maker works, from the moments of their last steps. The zero Pace
// knows nothing yet.
type Pace struct {
	last  Moment
	begun bool
	steps []paced // the latest last
}

// paced is a step: its seconds a stitch, and how many stitches it took.
type paced struct {
	each     float64
	stitches int
}

// Mark takes note of a moment. What took longer
// than a person works without looking up was a pause, and does not count.
func (p Pace) Mark(m Moment) Pace {
	if m.Rest {
		p.last, p.begun = m, true
		return p
	}
	took, did := m.Seconds-p.last.Seconds, m.Done-p.last.Done
	counts := p.begun && did > 0 && took > 0 && took <= longestStep
	p.last, p.begun = m, true
	if !counts {
		return p
	}
	p.steps = append(slices.Clone(p.steps), paced{took / float64(did), did})
	stitches := 0
	for i := len(p.steps) - 1; i >= 0; i-- {
		if stitches += p.steps[i].stitches; stitches >= paceStitches {
			p.steps = p.steps[i:]
			break
		}
	}
	return p
}

// Left is how many seconds so many stitches take: each the median of those of the last
// steps, so that neither a dropped loop nor a burst of keys counts for much. It is
// false while too little is known.
func (p Pace) Left(stitches int) (seconds float64, ok bool) {
	if len(p.steps) < leastPaces {
		return 0, false
	}
	sorted := slices.Clone(p.steps)
	slices.SortFunc(sorted, func(a, b paced) int {
		switch {
		case a.each < b.each:
			return -1
		case a.each > b.each:
			return 1
		}
		return 0
	})
	all := 0
	for _, s := range sorted {
		all += s.stitches
	}
	for seen, i := 0, 0; ; i++ {
		if seen += sorted[i].stitches; 2*seen >= all {
			return sorted[i].each * float64(stitches), true
		}
	}
}

// SayLeft says how long the rest of the work takes at a pace, from the start of the row in
// hand: "1 h 20"; "" where that is not known yet.
func (t *Tracker) SayLeft(p Pace) string {
	c := t.RowProgress()
	seconds, ok := p.Left(c.Of - c.Done)
	if !ok || c.Done == c.Of {
		return ""
	}
	return SayTime(seconds)
}
