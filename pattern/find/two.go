package find

import (
	"cmp"
	"slices"

	"bypeg/pattern"
)

// Where two clues are wrong no place agrees with all but one. The search is made once more
// without each of them: what then agrees with all but one of the others agrees with all but two.

// MostTwo is how many places that disagree with two clues are named at most.
const MostTwo = 3

// Two is a place that agrees with all clues but two.
type Two struct {
	Fit
	Clues [2]int // the lower index first
}

// butTwo are the likeliest places, none of a row twice, that agree with all but two of three or
// more clues.
func (r *reader) butTwo(e Evidence, l likelihood) []Two {
	if len(e.Clues) < 3 {
		return nil
	}
	type ranked struct {
		Two
		unlikely float64
	}
	var all []ranked
	for i := range e.Clues {
		var but shortlist
		r.search(slices.Delete(slices.Clone(e.Clues), i, i+1), &but, l)
		for _, b := range but.likeliest() {
			if b.Clue >= i {
				b.Clue++
			}
			off := b.Off + r.off(&e.Clues[i], b.Fit)
			all = append(all, ranked{Two{b.Fit, [2]int{min(i, b.Clue), max(i, b.Clue)}}, offByOne*off + l.unlikely(r, b.Fit)})
		}
	}
	slices.SortStableFunc(all, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.unlikely, b.unlikely), cmp.Compare(a.Row, b.Row))
	})
	var named []Two
	for _, t := range all {
		if len(named) < MostTwo && !slices.ContainsFunc(named, func(n Two) bool { return n.Row == t.Row }) {
			named = append(named, t.Two)
		}
	}
	return named
}

// Agrees says with what other evidence the place would agree: "it agrees if there is one ridge
// fewer and the yarn hangs at the left".
func (t Two) Agrees(o pattern.Order, e Evidence) string {
	first, second := But{Fit: t.Fit, Clue: t.Clues[0]}, But{Fit: t.Fit, Clue: t.Clues[1]}
	return "it agrees if " + first.seenThere(o, e.Clues[first.Clue]) + " and " + second.seenThere(o, e.Clues[second.Clue])
}
