package fit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// What is told beside the candidates: why no other count is offered, what a wish asks
// that the design can't be, and what was sound in the design and is no longer.

// tell tells what holds for all candidates.
func (r *resizer) tell(made []Candidate) {
	r.tellWhy()
	r.tellPanels()
	r.tellBounds(made)
	r.tellDoubts()
}

func (r *resizer) note(format string, args ...any) {
	r.found.Notes = append(r.found.Notes, fmt.Sprintf(format, args...))
}

// wished is how many whole pegs would be just right.
func (r *resizer) wished() int { return int(math.Floor(r.target + 0.5)) }

// tellWhy tells why no other count is offered where the wish is for another.
func (r *resizer) tellWhy() {
	other := func(c Candidate) bool { return c.Pegs != r.old.Pegs }
	if pegs := r.wished(); pegs != r.old.Pegs && !r.heightAlone() && !slices.ContainsFunc(r.found.Candidates, other) {
		r.note("%s", r.why(pegs).Msg)
		return
	}
	if _, ok := r.count.strips(r.wish.Pegs); r.wish.Pegs > 0 && !ok {
		r.note("on %d pegs the repeats don't come out whole: these are the counts nearest to it", r.wish.Pegs)
	}
}

// tellPanels tells how a width could be had that the loom has not.
func (r *resizer) tellPanels() {
	pegs, loom := r.wished(), r.design.Loom.Pegs
	if loom == 0 || pegs <= loom || r.old.Form == pattern.Tube {
		return
	}
	allows := func(n int) bool { _, ok := r.count.strips(n); return ok }
	if panels, each := PanelsOf(pegs, loom, allows); panels > 0 {
		sewn := Sewn(panels, each)
		r.note("the wish takes %d pegs and the loom has %d: %d panels of %d pegs, with as many rows each, are %d pegs wide once they are sewn%s (each seam takes an edge peg of both)",
			pegs, loom, panels, each, sewn, r.about(sewn))
		return
	}
	for least := loom + 1; least <= pegs; least++ {
		if allows(least) {
			r.note("the loom has %d pegs and the design takes %d at the least: it can't be worked on it, not even in panels", loom, least)
			return
		}
	}
}

// about is how wide so many pegs are in the new gauge, after a comma, or nothing.
func (r *resizer) about(pegs int) string {
	if wide := widthOf(&r.on) * measure.Length(pegs) / measure.Length(r.old.Pegs); wide > 0 {
		return ", " + wide.Rough()
	}
	return ""
}

// beyond is by how many percent a size must miss the wished one before it is told that the
// design can't be so small or so large.
const beyond = 10

// longestPiece is from what height on it is asked whether it is meant.
const longestPiece = 10 * measure.Metre

// tellBounds tells where the design can't be as small or as large as the wish.
func (r *resizer) tellBounds(made []Candidate) {
	narrowest, lowest, highest := made[0], made[0], made[0]
	for _, c := range made[1:] {
		if c.Pegs < narrowest.Pegs {
			narrowest = c
		}
		if c.Height < lowest.Height {
			lowest = c
		}
		if c.Height > highest.Height {
			highest = c
		}
	}
	far := func(is, wanted float64) bool { return is > 0 && miss(is, wanted) > beyond }
	if float64(narrowest.Pegs) > r.target && far(float64(narrowest.Pegs), r.target) && r.noneBelow(narrowest.Pegs) {
		r.note("%d pegs%s is the narrowest it can be: borders keep their width, and a repeat is worked once at the least", narrowest.Pegs, r.about(narrowest.Pegs))
	}
	switch wanted := r.found.Wanted.Height; {
	case wanted > longestPiece:
		r.note("%.0f m high: is that the right unit?", wanted.In(measure.Metre))
	case wanted < lowest.Height && far(float64(lowest.Height), float64(wanted)):
		r.note("%s is the lowest it can be: borders and pictures keep their height, and a repeat is worked once at the least", lowest.Height.Rough())
	case wanted > highest.Height && far(float64(highest.Height), float64(wanted)):
		r.note("%s is the highest it can be: nothing in it can be worked more often", highest.Height.Rough())
	}
}

// noneBelow tells whether the design can't have fewer pegs.
func (r *resizer) noneBelow(pegs int) bool {
	for n := pegs - 1; n >= 1; n-- {
		if _, ok := r.count.strips(n); ok {
			return false
		}
	}
	return r.count.bytes <= mostRead
}

// tellDoubts tells what does not go together in the new design and did in the old one.
func (r *resizer) tellDoubts() {
	before := Doubts(r.old, sizeOf(r.old))
	best := r.found.Candidates[0].Pattern
	for _, doubt := range Doubts(best, sizeOf(best)) {
		if !slices.Contains(before, doubt) {
			r.note("%s", doubt)
		}
	}
}

func sizeOf(p *pattern.Pattern) *Size { s := SizeOf(p); return &s }

// ofCandidate is what is doubtful in a candidate's fabric and was not in the old one.
func (r *resizer) ofCandidate(p *pattern.Pattern) []string {
	var notes []string
	if loom := r.design.Loom.Pegs; r.old.Form == pattern.Tube && p.Pegs < loom {
		how := ""
		if !r.wish.Fill {
			how = " (--fill asks for them)"
		}
		notes = append(notes, fmt.Sprintf("a tube on a round loom closes on all its %d pegs%s; on fewer only a long loom works it", loom, how))
	}
	return append(notes, r.nowRoll(p)...)
}

// nowRoll tells which edges lay flat and may roll now. Those of which the same is to be said
// share a note.
func (r *resizer) nowRoll(p *pattern.Pattern) []string {
	was, sides := map[EdgeOf]Roll{}, 0
	for _, e := range EdgesOf(r.old) {
		was[e.Of] = e.Roll
	}
	for i := range p.Zones {
		sides = max(sides, p.Zones[i].Sides)
	}
	edges := map[string][]string{}
	var order []string
	for _, e := range EdgesOf(p) {
		if was[e.Of] != LiesFlat || e.Roll == LiesFlat {
			continue
		}
		cure := ""
		if e.Of.Side() && e.Border > sides {
			cure = fmt.Sprintf(": less likely with %d border pegs there instead of %d", e.Border, sides)
		}
		if edges[cure] == nil {
			order = append(order, cure)
		}
		edges[cure] = append(edges[cure], e.Of.String())
	}
	var notes []string
	for _, cure := range order {
		word := "edge"
		if len(edges[cure]) > 1 {
			word = "edges"
		}
		notes = append(notes, fmt.Sprintf("the %s %s lay flat and may roll now%s", strings.Join(edges[cure], " and "), word, cure))
	}
	return notes
}
