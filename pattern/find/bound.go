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
func (r *reader) bindingOff(e Evidence) (a Answer, ok bool) {
	top, loops := r.grid.Rows()+1, r.o.Pattern.BindOffLoops()
	told := slices.IndexFunc(e.Clues, func(c Clue) bool { return c.Kind == Bound })
	began := len(e.Clues) == 0 && e.Noted.Phase == pattern.BindingOff && e.Noted.Done > 0 && r.o.Pattern.Holds(e.Noted)
	ask := Question{Kind: Bound}
	switch {
	case told >= 0 && e.Clues[told].Count > 0:
		// The peg after the empty ones has been worked too and holds the last loop.
		worked := min(e.Clues[told].Count+1, loops-1)
		return r.offTheRows(e.Clues, Fit{top, worked, worked}, top), true
	case told >= 0 || !began:
		return a, false
	case slices.Contains(e.Skipped, ask):
		return Answer{Fits: []Fit{{top, e.Noted.Done, e.Noted.Done}}}, true
	}
	return Answer{Fits: []Fit{{top, 0, 0}, {top, 1, loops - 1}}, Ask: ask, Asks: true}, true
}

// offTheRows is the answer where the cast-on or the bind-off has come to a place: that one, if
// whatever else was said agrees with a piece that stands before a row, the first or the one
// above the last. The yarn tells nothing of those.
func (r *reader) offTheRows(clues []Clue, at Fit, row int) (a Answer) {
	before := Fit{Row: row}
	var against []int
	for i := range clues {
		ofYarn := clues[i].Kind == Yarn || clues[i].Kind == FromPeg
		if !ofYarn && !slices.Contains(r.search(clues[i:i+1], nil, likelihood{}), before) {
			against = append(against, i)
		}
	}
	switch len(against) {
	case 0:
		a.Fits = []Fit{at}
	case 1:
		a.But = []But{{Fit: at, Clue: against[0], Off: r.off(&clues[against[0]], before)}}
	}
	return a
}
