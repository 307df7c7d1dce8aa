package find_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/find"
)

func TestWhereTheWorkStands(t *testing.T) {
	cloth, mat, collar := example(t, "sluice-cloth", pattern.RightHand), example(t, "quay-mat", pattern.LeftHand), example(t, "lock-collar", pattern.RightHand)
	for _, c := range []struct {
		o    pattern.Order
		fit  find.Fit
		want string
	}{
		{cloth, find.Fit{Row: 1}, "the cast-on is done: next is row 1, right to left: knit; the yarn hangs at the right, away from the tail"},
		{cloth, find.Fit{Row: 2}, "1 row is done: next is row 2, left to right: purl; the yarn hangs at the left, where the tail is"},
		{cloth, find.Fit{Row: 18}, "17 rows are done: next is row 18, left to right: purl 3, knit to the last 3 pegs, purl 3; the yarn hangs at the left, where the tail is"},
		{cloth, find.Fit{Row: 18, From: 5, To: 20}, "row 18, left to right, is under way: 5 of 30 pegs worked, the last of them peg 26; next is peg 25"},
		{cloth, find.Fit{Row: 50}, "all 49 rows are done: next is the bind-off, from peg 30; the yarn hangs at the left, where the tail is"},
		{mat, find.Fit{Row: 3}, "2 rows are done: next is row 3, left to right: knit; the yarn hangs at the left, away from the tail"},
		{collar, find.Fit{Row: 8}, "7 rounds are done: next is round 8, right to left: *knit 3, purl 1; repeat from * to the end; the yarn hangs at the end of the round, above the tail"},
	} {
		assert.Equal(t, c.want, c.fit.Where(c.o))
	}
	assert.Equal(t, "row 18, left to right, is under way: 5 to 20 of 30 pegs worked", find.Fit{Row: 18, From: 5, To: 20}.Words(cloth))
}

func TestWhatADoubtSays(t *testing.T) {
	o := example(t, "sluice-cloth", pattern.RightHand)
	collar := example(t, "lock-collar", pattern.RightHand)
	for _, c := range []struct {
		o    pattern.Order
		clue find.Clue
		at   find.Fit
		want string
	}{
		{o, find.Clue{Kind: find.Ridges, Count: 9}, find.Fit{Row: 17}, "the ridges: there would be 8; count them again, the cast-on edge is not one"},
		{o, find.Clue{Kind: find.LastRow}, find.Fit{Row: 5}, "the last row: look again; from behind it is a purl that shows a V"},
		{o, find.Clue{Kind: find.Yarn}, find.Fit{Row: 17}, "the yarn's side: check the cast-on kind, or a row was skipped"},
		{o, find.Clue{Kind: find.Yarn, Hangs: find.Between}, find.Fit{Row: 17}, "where the yarn hangs: see whether a row is under way"},
		{collar, find.Clue{Kind: find.Yarn, Hangs: find.AtEnd}, find.Fit{Row: 7, From: 3, To: 3}, "where the yarn hangs: see whether a round is under way"},
		{o, find.Clue{Kind: find.FromPeg, Peg: 8}, find.Fit{Row: 17, From: 9, To: 9}, "the peg that the yarn comes from: it would be peg 9, counted from the right"},
		{o, find.Clue{Kind: find.Look, Peg: 8}, find.Fit{Row: 17}, "peg 8: count the pegs from the right, and look at its column again"},
		{o, find.Clue{Kind: find.Length, Length: 80}, find.Fit{Row: 17}, "the length: measure it again, laid flat and not stretched"},
		{o, find.Clue{Kind: find.Zone}, find.Fit{Row: 17}, "the zone"},
	} {
		assert.Equal(t, c.want, find.But{Fit: c.at}.Doubt(c.o, find.Evidence{Clues: []find.Clue{c.clue}}))
	}
}

// Every question says which side to look from, and has words for what is asked.
func TestQuestionsSayWhereToLookFrom(t *testing.T) {
	for _, o := range []pattern.Order{example(t, "sluice-cloth", pattern.RightHand), example(t, "lock-collar", pattern.LeftHand)} {
		for kind := find.Ridges; kind <= find.Crossed; kind++ {
			words := find.Question{Kind: kind, Peg: 3, Deep: 2}.Words(o)
			assert.NotEmpty(t, words, kind)
			if kind != find.Yarn && kind != find.FromPeg {
				assert.Contains(t, strings.ToLower(words), "from the front", kind)
			}
		}
	}
}
