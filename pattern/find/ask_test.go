package find_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/find"
)

// answered is the clue with which a person at a place answers a question, and what the answer
// costs: a look 1, a count of n 1 + n/10, and reading down a column as much as counting there.
func (m *model) answered(t testing.TB, q find.Question, s *sight) (find.Clue, float64) {
	t.Helper()
	first := func(int) int { return 0 }
	c := find.Clue{Kind: q.Kind, Peg: q.Peg}
	switch q.Kind {
	case find.Look:
		column := s.pegs[m.col(q.Peg)].column
		for i := range q.Deep {
			if i >= len(column) {
				c.Seen = append(c.Seen, find.Edge)
				break
			}
			require.NotEqual(t, byte('?'), column[len(column)-1-i].from, "asked of what can't be told")
			c.Seen = append(c.Seen, map[byte]find.Seen{'v': find.V, 'b': find.Bump}[column[len(column)-1-i].from])
		}
		return c, 1 + float64(len(c.Seen)-1)/10
	case find.Alike:
		if len(s.pegs[m.col(q.Peg)].column) == 0 {
			c.Kind, c.Seen = find.Look, []find.Seen{find.Edge} // "nothing but the cast-on edge"
			return c, 1
		}
	case find.Yarn:
		c.Hangs = find.AtEnd
		switch {
		case s.between:
			c.Hangs = find.Between
		case m.o.Pattern.Form == pattern.Panel && s.side == pattern.Left:
			c.Hangs = find.AtLeft
		case m.o.Pattern.Form == pattern.Panel:
			c.Hangs = find.AtRight
		}
		return c, 1
	}
	c, ok := m.told(s, q.Kind, q.Peg, first)
	require.True(t, ok, "%+v can't be answered at row %d, %d done", q, s.row, s.done)
	count := c.Count
	if q.Kind == find.FromPeg {
		count = min(c.Peg, m.o.Pattern.Pegs+1-c.Peg)
	}
	return c, 1 + float64(count)/10
}

// asked is what it costs a person at a place to be asked until nothing is left to ask, and
// the places that are left.
func (m *model) asked(t testing.TB, s *sight, e find.Evidence, log func(...any)) (cost float64, left []at) {
	t.Helper()
	for range 50 {
		a := find.Search(m.o, e)
		if !a.Asks {
			return cost, places(a.Fits)
		}
		require.NotContains(t, []find.Kind{find.Zone, find.Length}, a.Ask.Kind, "only looks and counts are asked")
		c, paid := m.answered(t, a.Ask, s)
		if log != nil {
			log(a.Ask, c, paid, a.Places())
		}
		cost += paid
		e = e.With(c)
	}
	t.Fatal("the questions never end")
	return 0, nil
}

func TestTry(t *testing.T) {
	for _, name := range examples.Names() {
		m := newModel(example(t, name, pattern.RightHand))
		var ends []find.Fit
		for _, s := range m.sights {
			if s.done == 0 {
				ends = append(ends, find.Fit{Row: s.row})
			}
		}
		mean, worst, n := 0.0, 0.0, 0.0
		for _, s := range m.sights {
			if s.done > 0 {
				continue
			}
			cost, left := m.asked(t, s, find.Evidence{Clues: []find.Clue{{Kind: find.Yarn, Hangs: find.AtEnd}}}, nil)
			assert.Equal(t, []at{{s.row, s.done}}, left)
			mean += cost
			worst = max(worst, cost)
			n++
		}
		fmt.Println(name, len(ends), "asked", mean/n, worst, "greedy", find.GreedyTree(m.o, ends))
		if len(ends) <= 64 {
			best, ok := find.BestTree(m.o, ends, 20000)
			fmt.Println(best, ok)
		}
	}
}
