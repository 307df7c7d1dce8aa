package find_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/find"
)

// A ridge is two rows (common practice, no source): who counts one too many beside the true side
// of the yarn is led two rows too far.
func TestOnePlaceThatAgreesHasANearOne(t *testing.T) {
	o := garter(t, 10, 20)
	e := find.Evidence{Noted: noted(21), Clues: []find.Clue{{Kind: find.Ridges, Count: 10}, {Kind: find.Yarn, Hangs: find.AtRight}}}
	near := func(e find.Evidence) string {
		a := find.Search(o, e)
		require.Len(t, a.Fits, 1)
		b, ok := a.Near(o, e)
		if !ok {
			return ""
		}
		return b.Instead(o, e)
	}
	assert.Equal(t, "or row 22, if the yarn hangs at the left", near(e), "where the notes have it")
	e.Noted = noted(18)
	assert.Equal(t, "or row 19, if there is one ridge fewer", near(e))
	e.Noted = pattern.Place{Phase: pattern.Working, Row: 21}
	assert.Empty(t, near(e), "the notes have the very place")
	e.Noted = pattern.Place{Phase: pattern.Working, Row: 17, Done: 4}
	e.Clues[0].Count = 11
	assert.Equal(t, "or row 19, if there are 2 ridges fewer", near(e), "the notes outweigh a second ridge")
	one := find.Evidence{Clues: []find.Clue{{Kind: find.Bumps, Peg: 1, Count: 9}, {Kind: find.Yarn, Hangs: find.AtEnd}}}
	a := find.Search(o, one)
	_, ok := a.Near(o, one)
	assert.False(t, ok, "several places agree: none of them is beside the only one")
}

func TestWhatWouldBeSeenAtTheNearPlace(t *testing.T) {
	o, collar := example(t, "sluice-cloth", pattern.RightHand), example(t, "lock-collar", pattern.RightHand)
	for _, c := range []struct {
		o    pattern.Order
		clue find.Clue
		at   find.Fit
		want string
	}{
		{o, find.Clue{Kind: find.Ridges, Count: 9}, find.Fit{Row: 17}, "or row 17, if there is one ridge fewer"},
		{o, find.Clue{Kind: find.Ridges, Count: 5}, find.Fit{Row: 17, From: 3, To: 3}, "or row 17 with 3 pegs worked, if there are 3 ridges more"},
		{o, find.Clue{Kind: find.LastRow}, find.Fit{Row: 5}, "or row 5, if the last row was worked otherwise"},
		{o, find.Clue{Kind: find.Yarn}, find.Fit{Row: 17}, "or row 17, if the yarn hangs at the right"},
		{o, find.Clue{Kind: find.Yarn}, find.Fit{Row: 17, From: 1, To: 1}, "or row 17 with one peg worked, if the yarn hangs between two pegs"},
		{collar, find.Clue{Kind: find.Yarn, Hangs: find.Between}, find.Fit{Row: 7}, "or round 7, if the yarn hangs at the end of the round"},
		{o, find.Clue{Kind: find.FromPeg, Peg: 8}, find.Fit{Row: 17, From: 9, To: 9}, "or row 17 with 9 pegs worked, if the yarn comes from peg 9"},
		{o, find.Clue{Kind: find.Look, Peg: 1, Seen: []find.Seen{find.V, find.V}}, find.Fit{Row: 5}, "or row 5, if peg 1 shows bv"},
		{o, find.Clue{Kind: find.Bumps, Peg: 1, Count: 4}, find.Fit{Row: 5}, "or row 5, if in the column of peg 1 there are 2 bumps fewer"},
		{o, find.Clue{Kind: find.Alike, Peg: 1, Count: 3, Seen: []find.Seen{find.V}}, find.Fit{Row: 4}, "or row 4, if the count below peg 1 is 1"},
		{o, find.Clue{Kind: find.Length, Length: 80}, find.Fit{Row: 50}, "or the bind-off, if it was measured wrongly"},
	} {
		assert.Equal(t, c.want, find.But{Fit: c.at}.Instead(c.o, find.Evidence{Clues: []find.Clue{c.clue}}))
	}
}

// A near place has one thing against it and no more; and where a wrong count of ridges has led to
// a single place, the true one is often the near one.
func TestTheNearPlaceAgreesButForOneThing(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 8))
	led, named := 0, 0
	for _, name := range examples.Names() {
		m := exampleModel(t, name, pattern.RightHand)
		sights := map[at]*sight{}
		for _, s := range m.sights {
			sights[at{s.row, s.done}] = s
		}
		for _, s := range m.sights {
			if s.done > 0 || s.row < 5 {
				continue
			}
			clues := m.slip(m.four(s, 1+rnd.IntN(m.o.Pattern.Pegs)), 0, 1-2*rnd.IntN(2))
			e := find.Evidence{Clues: clues, Noted: noted(s.row - 1 - rnd.IntN(3))}
			a := find.Search(m.o, e)
			if len(a.Fits) != 1 {
				continue
			}
			led++
			b, ok := a.Near(m.o, e)
			if !ok {
				continue
			}
			for i, c := range clues {
				require.Equal(t, i != b.Clue, m.fits(sights[at{b.Row, b.From}], c), "%s: %+v", name, b)
			}
			if b.Row == s.row {
				named++
			}
		}
	}
	t.Logf("%d wrong counts led to one place; the true one was the near one %d times", led, named)
	assert.Greater(t, led, 20)
	assert.GreaterOrEqual(t, named, led/2)
}
