package find

import (
	"slices"

	"bypeg/pattern"
)

// While a piece is bound off no row can be under way, and its yarn hangs wherever the bind-off
// has come to. What tells the place then is how many pegs are empty. Where none is, the loops
// are all there, and the place is looked for in the rows as ever; and so it is for one who has
// something to say of them.

// bindingOff is the answer while the piece is bound off; ok is false where it is not.
func (r *reader) bindingOff(e Evidence, l likelihood) (a Answer, ok bool) {
	top, loops := r.grid.Rows()+1, r.o.Pattern.BindOffLoops()
	told := slices.IndexFunc(e.Clues, func(c Clue) bool { return c.Kind == Bound })
	began := len(e.Clues) == 0 && e.Noted.Phase == pattern.BindingOff && e.Noted.Done > 0 && r.o.Pattern.Holds(e.Noted)
	ask := Question{Kind: Bound}
	switch {
	case told >= 0 && e.Clues[told].Count > 0:
		// The peg after the empty ones has been worked too and holds the last loop.
		worked := min(e.Clues[told].Count+1, loops-1)
		return r.boundAt(e, Fit{top, worked, worked}, l), true
	case told >= 0 || !began:
		return a, false
	case slices.Contains(e.Skipped, ask):
		return Answer{Fits: []Fit{{top, e.Noted.Done, e.Noted.Done}}}, true
	}
	return Answer{Fits: []Fit{{top, 0, 0}, {top, 1, loops - 1}}, Ask: ask, Asks: true}, true
}

// boundAt is the answer where the bind-off has come to a place: that one, if whatever else was
// said agrees with a piece whose rows are all done. The yarn tells nothing of those any more.
func (r *reader) boundAt(e Evidence, at Fit, l likelihood) (a Answer) {
	clues := slices.Clone(e.Clues)
	for i := range clues {
		if clues[i].Kind == Yarn || clues[i].Kind == FromPeg {
			clues[i].Kind = Bound
		}
	}
	var but shortlist
	if fits := r.search(clues, &but, l); len(fits) > 0 && fits[len(fits)-1].Row == at.Row {
		a.Fits = []Fit{at}
		return a
	}
	for _, b := range but.likeliest() {
		if b.Row == at.Row {
			b.Fit = at
			a.But = append(a.But, b)
		}
	}
	return a
}
