package find_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/patterntest"
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
func (m *model) asked(t testing.TB, s *sight, e find.Evidence) (cost float64, left []at) {
	t.Helper()
	for range 50 {
		a := find.Search(m.o, e)
		if !a.Asks {
			return cost, places(a.Fits)
		}
		require.NotContains(t, []find.Kind{find.Zone, find.Length}, a.Ask.Kind, "only looks and counts are asked")
		c, paid := m.answered(t, a.Ask, s)
		cost += paid
		e = e.With(c)
	}
	t.Fatal("the questions never end")
	return 0, nil
}

// inOrder is what it costs to be asked in one order whatever is known: the yarn, the last row, the
// ridges, then bumps and stitches alike peg by peg.
func (m *model) inOrder(t testing.TB, s *sight, e find.Evidence) (cost float64) {
	t.Helper()
	order := []find.Question{{Kind: find.Yarn}, {Kind: find.FromPeg}, {Kind: find.LastRow}, {Kind: find.Ridges}}
	for n := 1; n <= m.o.Pattern.Pegs; n++ {
		order = append(order, find.Question{Kind: find.Bumps, Peg: n}, find.Question{Kind: find.Alike, Peg: n})
	}
	for _, q := range order {
		if len(places(m.reader.Fits(e.Clues))) < 2 {
			break
		}
		if q.Kind == find.LastRow && len(s.along) == 0 || q.Kind == find.Ridges && !m.garterAnywhere() || q.Kind == find.FromPeg && !s.between {
			continue
		}
		c, paid := m.answered(t, q, s)
		cost += paid
		e = e.With(c)
	}
	return cost
}

// tally is the costs of finding places.
type tally struct{ sum, worst, n float64 }

func (c *tally) add(cost float64) {
	c.sum += cost
	c.worst = max(c.worst, cost)
	c.n++
}

func (c *tally) mean() float64 { return c.sum / max(1, c.n) }

// Who is asked at the end of a row, nothing else being known, pays at most a quarter more than
// by the best tree of questions there is, which is found by trying all.
func TestQuestionsAreNearlyTheBest(t *testing.T) {
	known := []find.Clue{{Kind: find.Yarn, Hangs: find.AtEnd}}
	for _, name := range examples.Names() {
		m := exampleModel(t, name, pattern.RightHand)
		e := find.Evidence{Clues: known}
		fits := m.reader.Fits(e.Clues)
		if testing.Short() && len(fits) > 45 {
			continue
		}
		var asked, fixed tally
		for _, s := range m.sights {
			if s.done > 0 {
				continue
			}
			cost, left := m.asked(t, s, e)
			require.Equal(t, []at{{s.row, s.done}}, left, name)
			asked.add(cost)
			fixed.add(m.inOrder(t, s, e))
		}
		line := fmt.Sprintf("%s, %d places: asked %.2f in the mean, %.1f at worst; by the rule of thumb %.2f; in a fixed order %.2f, %.1f at worst",
			name, len(fits), asked.mean(), asked.worst, find.GreedyTree(m.o, fits), fixed.mean(), fixed.worst)
		assert.Less(t, asked.mean(), fixed.mean())
		if len(fits) <= 61 {
			best, ok := find.BestTree(m.o, fits, 20_000)
			require.True(t, ok, "%s: the best tree was not found", name)
			line += fmt.Sprintf("; the best tree %.2f, so %.2f times that", best, asked.mean()/best)
			assert.LessOrEqual(t, asked.mean(), 1.25*best, name)
		}
		t.Log(line)
	}
}

// The same where some evidence is known already, for examples and for pieces of all kinds.
func TestQuestionsAfterSomeEvidenceAreNearlyTheBest(t *testing.T) {
	var asked, best tally
	worst := 0.0
	try := func(t testing.TB, m *model, rnd *rand.Rand) {
		s := m.sights[rnd.IntN(len(m.sights))]
		if s.done > 0 && rnd.IntN(4) > 0 {
			return
		}
		e := find.Evidence{Clues: m.clues(s, rnd)}
		yarn, _ := m.answered(t, find.Question{Kind: find.Yarn}, s)
		peg, _ := m.answered(t, find.Question{Kind: find.FromPeg}, s)
		e = e.With(yarn).With(peg)
		fits := m.reader.Fits(e.Clues)
		if n := len(places(fits)); n != len(fits) || n < 2 || n > 61 {
			return
		}
		least, ok := find.BestTree(m.o, fits, 5_000)
		if !ok {
			return
		}
		var mean tally
		for _, f := range fits {
			for _, s := range m.sights {
				if s.row == f.Row && s.done == f.From {
					cost, _ := m.asked(t, s, e)
					mean.add(cost)
				}
			}
		}
		require.GreaterOrEqual(t, mean.mean(), least-0.001, "the best tree is beaten: %+v", e)
		asked.add(mean.mean())
		best.add(least)
		if least > 0 {
			worst = max(worst, mean.mean()/least)
		}
		assert.LessOrEqual(t, mean.mean(), 1.25*least+1e-6, "%+v of %d places", e, len(fits))
	}
	rnd := rand.New(rand.NewPCG(3, 3))
	times := 60
	if testing.Short() {
		times = 15
	}
	for _, name := range []string{"lock-collar", "quay-mat", "skiff-cloth", "sluice-cloth", "weir-cloth"} {
		m := exampleModel(t, name, pattern.LeftHand)
		for range times {
			try(t, m, rnd)
		}
	}
	for i := range 2 * times {
		p, errs := pattern.Build(patterntest.Plans().Example(i))
		if len(errs) > 0 {
			continue
		}
		try(t, newModel(pattern.Order{Pattern: p, Way: p.Way}), rnd)
	}
	t.Logf("%.0f sets of places: asked %.2f in the mean, the best tree %.2f; at worst %.2f times the best", asked.n, asked.mean(), best.mean(), worst)
	assert.Greater(t, asked.n, 10.0)
}

// Nothing is known at all: whether a row is under way is asked first, then the peg, and the
// place is found alone, be it within a row.
func TestQuestionsFindThePlaceWithinRows(t *testing.T) {
	rnd := rand.New(rand.NewPCG(9, 1))
	some := 40
	if testing.Short() {
		some = 12
	}
	for _, name := range examples.Names() {
		m := exampleModel(t, name, pattern.RightHand)
		var asked, fixed tally
		for _, s := range m.sights {
			if s.done == 0 || rnd.IntN(len(m.sights)) > some {
				continue
			}
			first := find.Search(m.o, find.Evidence{})
			require.Equal(t, find.Question{Kind: find.Yarn}, first.Ask)
			require.True(t, first.Asks)
			cost, left := m.asked(t, s, find.Evidence{})
			require.Equal(t, []at{{s.row, s.done}}, left, name)
			asked.add(cost)
			fixed.add(m.inOrder(t, s, find.Evidence{}))
		}
		t.Logf("%s, within rows: asked %.2f in the mean, %.1f at worst; in a fixed order %.2f, %.1f at worst", name, asked.mean(), asked.worst, fixed.mean(), fixed.worst)
		assert.Less(t, asked.mean(), fixed.mean()+0.5, name)
	}
}

func TestATubeIsNeverAskedForLeftOrRight(t *testing.T) {
	o := example(t, "lock-collar", pattern.RightHand)
	a := find.Search(o, find.Evidence{})
	require.Equal(t, find.Yarn, a.Ask.Kind)
	words := a.Ask.Words(o)
	assert.NotContains(t, words, "left")
	assert.NotContains(t, words, "right")
	for _, h := range []find.Hangs{find.AtLeft, find.AtRight} {
		assert.ErrorContains(t, find.Check(o, find.Clue{Kind: find.Yarn, Hangs: h}), "a tube has no left or right end")
	}
}
