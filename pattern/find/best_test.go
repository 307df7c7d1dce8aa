package find_test

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/find"
)

// four as a key of a map.
type fourKey [4]struct {
	kind             find.Kind
	peg, count       int
	row              find.RowLook
	hangs            find.Hangs
	first, next, old find.Seen
}

func keyOf(clues []find.Clue) (k fourKey) {
	for i, c := range clues {
		k[i].kind, k[i].peg, k[i].count, k[i].row, k[i].hangs = c.Kind, c.Peg, c.Count, c.Row, c.Hangs
		if len(c.Seen) == 3 {
			k[i].first, k[i].next, k[i].old = c.Seen[0], c.Seen[1], c.Seen[2]
		}
	}
	return k
}

// within is how often a place within a row is tried, to one at the end of a row.
const within = 1.0 / 40

// told is one person's four pieces of evidence, one of them wrong.
type told struct {
	at    *sight
	clues []find.Clue
}

// slips are all ways to go wrong in one of four pieces of evidence at a place; either look is
// right where the last row shows both.
func (m *model) slips(s *sight, number int, add func([]find.Clue)) {
	clues := m.four(s, number)
	for i := range clues {
		if clues[i].Kind == find.LastRow && s.along['v'] && s.along['b'] {
			continue
		}
		add(m.slip(clues, i, 1))
		add(m.slip(clues, i, -1))
	}
}

// weights are, for each evidence that is told, how likely every row is that can have led to it.
func (m *model) weights(all []told) map[fourKey]map[int]float64 {
	w := map[fourKey]map[int]float64{}
	for _, c := range all {
		w[keyOf(c.clues)] = map[int]float64{}
	}
	for _, s := range m.sights {
		if s.row < 5 {
			continue
		}
		weight := 1.0
		if s.done > 0 {
			weight = within
		}
		for number := 1; number <= m.o.Pattern.Pegs; number++ {
			m.slips(s, number, func(clues []find.Clue) {
				if rows := w[keyOf(clues)]; rows != nil {
					rows[s.row] += weight
				}
			})
		}
	}
	return w
}

// likeliest is the order of rows that is right most often of all orders, if all that fit wholly
// are named first.
func likeliest(weights map[int]float64, a find.Answer) []int {
	fits := map[int]bool{}
	for _, f := range a.Fits {
		fits[f.Row] = true
		weights[f.Row] += 0
	}
	rows := make([]int, 0, len(weights))
	for row := range weights {
		rows = append(rows, row)
	}
	slices.SortFunc(rows, func(a, b int) int {
		if fits[a] != fits[b] {
			if fits[a] {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(weights[b], weights[a]), a-b)
	})
	return rows
}

// Without notes nine cases of ten can't be had: often more than three rows lead to the very same
// evidence. The order of the places named is held against the best there can be, which knows
// how often each slip is made: one that names the rows that fit wholly first, and then those
// likeliest to have led to the evidence.
func TestNoOrderIsMuchBetter(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 2))
	var ours, best score
	for _, name := range examples.Names() {
		m := exampleModel(t, name, pattern.RightHand)
		var all []told
		for _, s := range m.sights {
			if s.row < 5 || s.done > 0 && rnd.Float64() > within {
				continue
			}
			m.slips(s, 1+rnd.IntN(m.o.Pattern.Pegs), func(clues []find.Clue) { all = append(all, told{s, clues}) })
		}
		weights := m.weights(all)
		for _, c := range all {
			a := find.Search(m.o, find.Evidence{Clues: c.clues})
			ours.add(slices.Index(named(a), c.at.row))
			best.add(slices.Index(likeliest(weights[keyOf(c.clues)], a), c.at.row))
		}
	}
	t.Logf("no notes: the right row is among the first 3 in %.1f%% of %d cases; in the best of all orders in %.1f%%", 100*ours.share(), ours.tried, 100*best.share())
	assert.GreaterOrEqual(t, ours.share(), 0.98*best.share())
	assert.Less(t, best.share(), 0.9, "where any order can have nine cases of ten, ours is to have them too")
}
