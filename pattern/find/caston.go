package find

import (
	"slices"

	"bypeg/pattern"
)

// While a piece is cast on it has no rows: what tells the place is how many loops are on. Where
// all of them are, the place is looked for in the rows as ever.

// castingOn is the answer while the piece is cast on; ok is false where it is not.
func (r *reader) castingOn(e Evidence) (a Answer, ok bool) {
	loops := r.o.Pattern.CastOnLoops()
	told := slices.IndexFunc(e.Clues, func(c Clue) bool { return c.Kind == Loops })
	began := len(e.Clues) == 0 && e.Noted.Phase == pattern.CastingOn && e.Noted.Done > 0 && r.o.Pattern.Holds(e.Noted)
	ask := Question{Kind: Loops}
	switch {
	case told >= 0 && e.Clues[told].Count < loops:
		on := e.Clues[told].Count
		return r.offTheRows(e.Clues, Fit{0, on, on}, 1), true
	case told >= 0 || !began:
		return a, false
	case slices.Contains(e.Skipped, ask):
		return Answer{Fits: []Fit{{0, e.Noted.Done, e.Noted.Done}}}, true
	}
	return Answer{Fits: []Fit{{0, 0, loops - 1}, {1, 0, 0}}, Ask: ask, Asks: true}, true
}
