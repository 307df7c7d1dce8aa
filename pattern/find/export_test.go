package find

import "bypeg/pattern"

// Reader finds places again and again in one piece.
type Reader struct{ r *reader }

func NewReader(o pattern.Order) Reader { return Reader{newReader(o, nil)} }

// Fits is what Search finds, without a question and lowest row first.
func (r Reader) Fits(clues []Clue) []Fit { return r.r.search(clues, nil, likelihood{}) }

// Unlikely is how unlikely a place is, in rows away from the notes.
func Unlikely(o pattern.Order, noted pattern.Place, f Fit) float64 {
	return likelihoodOf(o, noted).unlikely(newReader(o, nil), f)
}

// BestTree is the mean cost of telling places apart by the best questions there are, of the
// pegs of all columns that differ. known is how many sets of places may be looked into; ok is
// false where that is too few.
func BestTree(o pattern.Order, places []Fit, known int) (mean float64, ok bool) {
	r := newReader(o, nil)
	t := r.table(places, r.questions(places), nil)
	b := &brute{t: t, memo: map[uint64]float64{}, left: known}
	all := make([]int, len(places))
	for i := range all {
		all[i] = i
	}
	cost := b.best(all, 1e18)
	return cost / float64(len(places)), b.left > 0
}

// GreedyTree is the mean cost by the rule of thumb alone.
func GreedyTree(o pattern.Order, places []Fit) float64 {
	r := newReader(o, nil)
	t := r.table(places, r.questions(places), nil)
	all := make([]int, len(places))
	for i := range all {
		all[i] = i
	}
	return t.thumb(all) / float64(len(places))
}

// brute finds the cheapest tree by trying all of them.
type brute struct {
	t    *table
	memo map[uint64]float64
	left int
}

// best is what telling places apart costs at the least, if it is less than the bound.
func (b *brute) best(places []int, bound float64) float64 {
	key := uint64(0)
	for _, p := range places {
		key |= 1 << p
	}
	if cost, known := b.memo[key]; known {
		return cost
	}
	if b.left--; b.left < 0 {
		return bound
	}
	ps := b.t.parts(places)
	if len(ps) == 0 {
		b.memo[key] = 0
		return 0
	}
	least := 1e18
	for _, p := range ps {
		cost := p.cost
		for _, class := range p.classes {
			if cost >= least {
				break
			}
			cost += b.best(class, least-cost)
		}
		least = min(least, cost)
	}
	b.memo[key] = least
	return least
}

// LoopsOf is the yarn of all loops on the pegs, if that is sure.
func LoopsOf(o pattern.Order, f Fit) (pattern.Yarn, bool) { return newReader(o, nil).loopsOf(f) }
