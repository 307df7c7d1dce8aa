package find_test

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/patterntest"
)

// against are the clues that disagree with what is seen at a place.
func (m *model) against(s *sight, clues []find.Clue) (against []int) {
	for i, c := range clues {
		if !m.fits(s, c) {
			against = append(against, i)
		}
	}
	return against
}

// Where nothing agrees with all clues, or with all but one, those that agree with all but two are
// named, if there are any at all; and the true row is among them more often than not.
func TestWhereTwoThingsAreWrongTheNearestAreNamed(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 12))
	var right score
	for _, name := range examples.Names() {
		m := exampleModel(t, name, pattern.RightHand)
		sights := map[at]*sight{}
		for _, s := range m.sights {
			sights[at{s.row, s.done}] = s
		}
		for _, s := range m.sights {
			if s.row < 5 || s.done > 0 && rnd.IntN(60) > 0 {
				continue
			}
			clues := m.four(s, 1+rnd.IntN(m.o.Pattern.Pegs))
			first := rnd.IntN(4)
			clues = m.slip(m.slip(clues, first, 1), (first+1+rnd.IntN(3))%4, -1)
			clues[0].Count += 3 // so that no other place agrees but for one
			e := find.Evidence{Clues: clues, Noted: noted(s.row - 1 - rnd.IntN(3))}
			a := find.Search(m.o, e)
			require.True(t, len(a.Two) == 0 || len(a.Fits) == 0 && len(a.But) == 0, "only where there is nothing else")
			if len(a.Fits) > 0 || len(a.But) > 0 {
				continue
			}
			if any := slices.ContainsFunc(m.sights, func(s *sight) bool { return len(m.against(s, clues)) == 2 }); any {
				require.NotEmpty(t, a.Two, "%s: some agree but for two: %+v", name, clues)
			}
			require.LessOrEqual(t, len(a.Two), find.MostTwo)
			rows := []int{}
			for _, two := range a.Two {
				require.Equal(t, two.Clues[:], m.against(sights[at{two.Row, two.From}], clues), "%s: %+v", name, two)
				require.NotContains(t, rows, two.Row, "no row is named twice")
				rows = append(rows, two.Row)
			}
			if len(m.against(s, clues)) == 2 {
				right.add(slices.Index(rows, s.row))
			}
		}
	}
	t.Logf("two of four pieces are wrong: the right row is among the three named in %.1f%% of %d cases", 100*right.share(), right.tried)
	assert.Greater(t, right.tried, 10)
	assert.Greater(t, right.share(), 0.5)
}

func TestTwoThingsThatAreWrongAreSaid(t *testing.T) {
	o := example(t, "sluice-cloth", pattern.RightHand)
	talk := find.Talk{Order: o, Evidence: find.Evidence{Noted: noted(18), Clues: []find.Clue{
		{Kind: find.Ridges, Count: 9}, {Kind: find.Yarn, Hangs: find.AtRight},
		{Kind: find.Look, Peg: 3, Seen: []find.Seen{find.V, find.V}}, {Kind: find.Bumps, Peg: 5, Count: 12},
	}}}
	talk.Answer = find.Search(o, talk.Evidence)
	guesses, agree := talk.Guesses()
	assert.False(t, agree)
	require.Len(t, guesses, 3)
	assert.Equal(t, pattern.Place{Phase: pattern.Working, Row: 19}, guesses[0].Place)
	assert.Contains(t, guesses[0].Says, "; it agrees if peg 3 shows bv and in the column of peg 5 there are 5 bumps fewer")
	assert.Equal(t, "no place agrees with all of it, nor with all but one thing; these agree but for two, the likeliest first:", talk.Over())
	assert.Empty(t, talk.More())
}

// Without notes the row comes first from which both things together are off the least; a ridge is
// two rows (common practice, no source).
func TestOfTwoThingsThatAreWrongTheLeastOffComesFirst(t *testing.T) {
	o := garter(t, 10, 20)
	a := find.Search(o, find.Evidence{Clues: []find.Clue{
		{Kind: find.Ridges, Count: 15}, {Kind: find.Bumps, Peg: 3, Count: 5}, {Kind: find.Bumps, Peg: 6, Count: 8},
	}})
	require.NotEmpty(t, a.Two)
	assert.Equal(t, 17, a.Two[0].Row, "8 bumps: 7 and 3 are off; with 5 bumps it would be 10 and 3, with 15 ridges 10 and 7")
	assert.Equal(t, [2]int{0, 1}, a.Two[0].Clues)
}

// What is said of a clue that the piece shows nowhere: at the most so many as its maker can see at
// any place.
func TestWhatThePieceHasAtMost(t *testing.T) {
	for _, name := range examples.Names() {
		m := exampleModel(t, name, pattern.RightHand)
		ridges := slices.MaxFunc(m.sights, func(a, b *sight) int { return cmp.Compare(a.ridges, b.ridges) }).ridges
		if ridges == 0 {
			continue
		}
		is := find.Evidence{Clues: []find.Clue{{Kind: find.Ridges, Count: ridges}}}
		assert.Empty(t, find.Beyond(m.o, is), name)
		is.Clues[0].Count++
		assert.Len(t, find.Beyond(m.o, is), 1, name)
	}
	o, crossed, plain := example(t, "sluice-cloth", pattern.RightHand), example(t, "weir-cloth", pattern.RightHand), garter(t, 8, 5)
	p := patterntest.Build(t, patterntest.Drawn("||||", "||||"))
	knit := pattern.Order{Pattern: p, Way: p.Way}
	for _, c := range []struct {
		o    pattern.Order
		clue find.Clue
		want string
	}{
		{plain, find.Clue{Kind: find.Ridges, Count: 6}, "the piece has 5 ridges at most: count them again, the cast-on edge is not one"},
		{plain, find.Clue{Kind: find.Bumps, Peg: 2, Count: 6}, "in the column of peg 2 there are never more than 5 bumps: count again, and count the pegs from the right"},
		{plain, find.Clue{Kind: find.Alike, Peg: 2, Count: 4, Seen: []find.Seen{find.V}}, "below peg 2 the count is 1 at most: count again, and count the pegs from the right"},
		{plain, find.Clue{Kind: find.Look, Peg: 2, Seen: []find.Seen{find.V, find.V}}, "peg 2 never shows vv: look again, and count the pegs from the right"},
		{knit, find.Clue{Kind: find.LastRow, Row: find.Purled}, "no row of the piece is worked so: look again; from behind it is a purl that shows a V"},
		{o, find.Clue{Kind: find.Crossed, Peg: 10, Count: 6}, "the loop of peg 10 never crosses: count again, and count the pegs from the right"},
		{crossed, find.Clue{Kind: find.Crossed, Peg: 12, Count: 30}, "below peg 12 the crossing row is number 11 from the top at most: count again, and count the pegs from the right"},
	} {
		assert.Equal(t, []string{c.want}, find.Beyond(c.o, find.Evidence{Clues: []find.Clue{c.clue}}))
	}
}
