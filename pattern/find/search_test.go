package find_test

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/find"
	"bypeg/pattern/patterntest"
)

// at is one place: the row to work next or under way, and the stitches done in it.
type at struct{ row, done int }

func places(fits []find.Fit) []at {
	var all []at
	for _, f := range fits {
		for done := f.From; done <= f.To; done++ {
			all = append(all, at{f.Row, done})
		}
	}
	return all
}

// search is the places at which all clues hold, by trying every one.
func (m *model) search(clues []find.Clue) []at {
	var hold [][]bool
	for _, c := range clues {
		key := fmt.Sprint(c)
		if _, known := m.held[key]; !known {
			m.held[key] = make([]bool, len(m.sights))
			for i, s := range m.sights {
				m.held[key][i] = m.fits(s, c)
			}
		}
		hold = append(hold, m.held[key])
	}
	var all []at
next:
	for i, s := range m.sights {
		for _, h := range hold {
			if !h[i] {
				continue next
			}
		}
		all = append(all, at{s.row, s.done})
	}
	return all
}

func example(t testing.TB, name string, h pattern.Hand) pattern.Order {
	t.Helper()
	text, ok := examples.Text(name)
	require.True(t, ok)
	p, diags := file.Load(name, text)
	require.NotNil(t, p, "%v", diags)
	return pattern.Order{Pattern: p, Way: p.WayFor(h)}
}

// models are those of examples, made once.
var models = map[string]*model{}

func exampleModel(t testing.TB, name string, h pattern.Hand) *model {
	t.Helper()
	key := name + h.String()
	if models[key] == nil {
		models[key] = newModel(example(t, name, h))
	}
	return models[key]
}

var ofPegs = []find.Kind{find.Look, find.Bumps, find.Alike, find.Crossed}

// clues is a random part of what a person at a place might say.
func (m *model) clues(s *sight, rnd *rand.Rand) []find.Clue {
	var told []find.Clue
	add := func(k find.Kind, number int) {
		if c, ok := m.told(s, k, number, rnd.IntN); ok {
			told = append(told, c)
		}
	}
	for _, k := range []find.Kind{find.Ridges, find.LastRow, find.Yarn, find.FromPeg, find.Zone, find.Colour} {
		if rnd.IntN(3) == 0 {
			add(k, 0)
		}
	}
	for range rnd.IntN(3) {
		add(ofPegs[rnd.IntN(len(ofPegs))], 1+rnd.IntN(m.o.Pattern.Pegs))
	}
	return told
}

// Every place of every example is told by parts of what a person would see there; the places
// found are those, and only those, at which a model of the loom shows the same.
func TestThePlacesFoundAreThoseThatShowIt(t *testing.T) {
	tried, found := 0, 0
	for i, name := range examples.Names() {
		m := exampleModel(t, name, pattern.Hand(i%2))
		rnd := rand.New(rand.NewPCG(7, uint64(i)))
		for n, s := range m.sights {
			if testing.Short() && (n%29 != 0 && s.done != 0 || s.row > 60) {
				continue
			}
			clues := m.clues(s, rnd)
			got, want := places(m.reader.Fits(clues)), m.search(clues)
			where := fmt.Sprintf("%s, row %d, %d done: %+v", name, s.row, s.done, clues)
			if !slices.Equal(want, got) {
				require.Equal(t, want, got, where)
			}
			require.True(t, slices.Contains(got, at{s.row, s.done}), where)
			tried++
			found += len(got)
		}
	}
	t.Logf("%d places told by some of what shows there: %.1f agree in the mean", tried, float64(found)/float64(tried))
}

// The same for pieces of every kind of stitch, with slips, and with pegs out of use.
func TestThePlacesFoundInPiecesOfAllKinds(t *testing.T) {
	check := func(t interface {
		require.TestingT
		Helper()
	}, plan pattern.Plan, way pattern.Way, seed uint64) {
		p, errs := pattern.Build(plan)
		if len(errs) > 0 {
			return
		}
		m := newModel(pattern.Order{Pattern: p, Way: way})
		rnd := rand.New(rand.NewPCG(seed, 1))
		for range 40 {
			s := m.sights[rnd.IntN(len(m.sights))]
			clues := m.clues(s, rnd)
			got := places(m.reader.Fits(clues))
			require.Equal(t, m.search(clues), got, "row %d, %d done: %+v", s.row, s.done, clues)
			require.True(t, slices.Contains(got, at{s.row, s.done}))
		}
	}
	for _, form := range []pattern.Form{pattern.Panel, pattern.Tube} {
		for seed := range uint64(20) {
			check(t, patterntest.Lace(form), pattern.DefaultWay(pattern.Hand(seed%2)), seed)
		}
	}
	for seed := range uint64(40) {
		way := pattern.Way{Peg1: pattern.Side(seed % 2), Row1: pattern.Direction(seed / 2 % 2)}
		check(t, patterntest.Drawn("..-|..", "../\\..", ".-||-.", "./|-\\.", "-|--||", "||-|--"), way, seed)
	}
	rapid.Check(t, func(t *rapid.T) {
		check(t, patterntest.Plans().Draw(t, "plan"), patterntest.Ways().Draw(t, "way"), rapid.Uint64().Draw(t, "seed"))
	})
}

// What is said at random, right or wrong, agrees with just the places at which it holds.
func TestClueThatMayBeWrong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, errs := pattern.Build(patterntest.Plans().Draw(t, "plan"))
		if len(errs) > 0 {
			t.Skip("not a pattern")
		}
		m := newModel(pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(t, "way")})
		var clues []find.Clue
		for range rapid.IntRange(1, 5).Draw(t, "clues") {
			c := find.Clue{
				Kind: find.Kind(rapid.IntRange(0, int(find.Colour)).Draw(t, "kind")), Peg: rapid.IntRange(1, p.Pegs).Draw(t, "peg"),
				Count: rapid.IntRange(0, 6).Draw(t, "count"), Row: find.RowLook(rapid.IntRange(0, 2).Draw(t, "row")),
				Hangs: find.Hangs(rapid.IntRange(0, 3).Draw(t, "hangs")), Length: 50,
			}
			for range rapid.IntRange(1, 4).Draw(t, "seen") {
				c.Seen = append(c.Seen, find.Seen(rapid.IntRange(int(find.V), int(find.Bump)).Draw(t, "look")))
			}
			if c.Kind != find.Length && c.Kind != find.Bound && find.Check(m.o, c) == nil {
				clues = append(clues, c)
			}
		}
		least := 0
		if len(clues) == 0 {
			least = p.CastOnLoops() // a cast-on under way is asked for its loops alone
		}
		a := find.Search(m.o, find.Evidence{Clues: clues, Noted: m.o.Ahead(pattern.Start(), rapid.IntRange(least, least+30).Draw(t, "noted"))})
		got := places(a.Fits)
		slices.SortFunc(got, func(a, b at) int { return cmp.Or(a.row-b.row, a.done-b.done) })
		require.Equal(t, m.search(clues), got, "%+v", clues)
		require.False(t, a.Asks && len(got) < 2, "there is nothing to tell apart")
	})
}

// Who answers all that is asked of a piece of any kind is left with places that look alike, and
// the true one is among them.
func TestAnswersNeverLoseThePlace(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 5))
	plans := []pattern.Plan{patterntest.Lace(pattern.Panel), patterntest.Lace(pattern.Tube)}
	for i := range 20 {
		plans = append(plans, patterntest.Plans().Example(i))
	}
	tried := 0
	for _, plan := range plans {
		p, errs := pattern.Build(plan)
		if len(errs) > 0 {
			continue
		}
		m := newModel(pattern.Order{Pattern: p, Way: p.Way})
		for range 6 {
			s := m.sights[rnd.IntN(len(m.sights))]
			_, left := m.asked(t, s, find.Evidence{})
			require.Contains(t, left, at{s.row, s.done})
			tried++
		}
	}
	t.Logf("%d places found by answers in pieces of all kinds", tried)
}

// all is everything that a person can say of a place.
func (m *model) all(s *sight) []find.Clue {
	var told []find.Clue
	sure := func(n int) int { return n - 1 }
	add := func(k find.Kind, number int) {
		if c, ok := m.told(s, k, number, sure); ok && (k != find.LastRow || !s.along['b'] || !s.along['v']) {
			told = append(told, c)
		}
	}
	for _, k := range []find.Kind{find.Ridges, find.LastRow, find.Yarn, find.FromPeg, find.Zone} {
		add(k, 0)
	}
	for _, k := range ofPegs {
		for n := 1; n <= m.o.Pattern.Pegs; n++ {
			add(k, n)
		}
	}
	return told
}

// With all that can be seen the true place is found alone: in none of the examples do two
// places look alike.
func TestAllEvidenceTellsThePlace(t *testing.T) {
	tried, step := 0, 3
	if testing.Short() {
		step = 31
	}
	for _, name := range examples.Names() {
		m := exampleModel(t, name, pattern.RightHand)
		for n, s := range m.sights {
			if n%step != 0 && (s.done != 0 || testing.Short() && s.row%3 > 0) {
				continue
			}
			got := places(m.reader.Fits(m.all(s)))
			require.True(t, len(got) == 1 && got[0] == at{s.row, s.done}, "%s, row %d, %d done: %v", name, s.row, s.done, got)
			tried++
		}
	}
	t.Logf("%d places found alone", tried)
}

func TestModelCountsAsTheTrackerDoes(t *testing.T) {
	// The model is held against what the program says elsewhere of whole rows.
	for _, name := range examples.Names() {
		o := example(t, name, pattern.RightHand)
		m := newModel(o)
		for _, s := range m.sights {
			if s.done > 0 {
				continue
			}
			where := fmt.Sprintf("%s, row %d", name, s.row)
			require.Equal(t, o.Pattern.Ridges(s.row-1), s.ridges, where)
			if o.Pattern.Form == pattern.Panel {
				require.Equal(t, o.YarnSide(s.row-1), s.side, where)
			}
		}
	}
}
