package find_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/patterntest"
)

// twoMillion is a piece of two million cells of so many pegs, in a repeat of its own for each
// of five strips, with garter sides. They meet again so late that most rows are kept.
func twoMillion(pegs int) pattern.Plan {
	plan := patterntest.Drawn("|")
	plan.Pegs = pegs
	z := pattern.ZonePlan{Name: "field", Rows: 2_000_000 / pegs, Sides: 2, SideRows: pattern.GarterSide(2, 0)}
	left := pegs - 4
	for i, repeat := range []int{7, 9, 11, 13, 17} {
		s := pattern.StripPlan{Pegs: left / (5 - i)}
		left -= s.Pegs
		for row := range repeat {
			cells := make([]pattern.Cell, s.Pegs)
			for col := range cells {
				cells[col].Stitch = pattern.Knit
				if (col+row*(i+2))%repeat < repeat/2 {
					cells[col].Stitch = pattern.Purl
				}
			}
			s.Lines = append(s.Lines, pattern.Line{Cells: cells})
		}
		z.Strips = append(z.Strips, s)
	}
	plan.Zones = []pattern.ZonePlan{z}
	return plan
}

// known is what is said in turn of pieces of two million cells: nothing, what many rows agree
// with, and what none does.
var known = []struct {
	name  string
	clues []find.Clue
}{
	{"nothing known", nil},
	{"some known", []find.Clue{{Kind: find.Yarn, Hangs: find.AtEnd}, {Kind: find.LastRow, Row: find.Knitted}, {Kind: find.Look, Peg: 9, Seen: []find.Seen{find.V, find.Bump}}}},
	{"much known", []find.Clue{{Kind: find.LastRow, Row: find.Both}, {Kind: find.Yarn, Hangs: find.AtEnd}, {Kind: find.Look, Peg: 9, Seen: []find.Seen{find.V}}, {Kind: find.Look, Peg: 4, Seen: []find.Seen{find.V}}, {Kind: find.Look, Peg: 12, Seen: []find.Seen{find.Bump}}}},
	{"none agrees", []find.Clue{{Kind: find.Ridges, Count: 900}, {Kind: find.Yarn, Hangs: find.AtLeft}, {Kind: find.Bumps, Peg: 9, Count: 31}, {Kind: find.Look, Peg: 10, Seen: []find.Seen{find.V, find.Bump}}}},
	{"two are wrong", []find.Clue{{Kind: find.Ridges, Count: 99_000}, {Kind: find.Yarn, Hangs: find.AtLeft}, {Kind: find.Bumps, Peg: 9, Count: 99_000}, {Kind: find.Look, Peg: 10, Seen: []find.Seen{find.V, find.Bump}}}},
}

func BenchmarkSearch(b *testing.B) {
	for _, pegs := range []int{20, 200, 2000} {
		o := pattern.Order{Pattern: patterntest.Build(b, twoMillion(pegs))}
		for _, k := range known {
			b.Run(fmt.Sprintf("%d pegs, %s", pegs, k.name), func(b *testing.B) {
				for b.Loop() {
					find.Search(o, find.Evidence{Clues: k.clues, Noted: pattern.Place{Phase: pattern.Working, Row: 31}})
				}
			})
		}
	}
}

// A search is held against the time in which the piece itself is built from its strips, on the
// same machine at the same time: the best of some each. The bound is about four times what was
// measured, and a search that goes over rows in the square is far beyond it.
func TestASearchTakesAboutAsLongAsThePieceIsBuilt(t *testing.T) {
	if testing.Short() {
		t.Skip("a measure of time is not taken beside other tests")
	}
	best := func(f func()) time.Duration {
		least := time.Hour
		for range 5 {
			began := time.Now()
			f()
			least = min(least, time.Since(began))
		}
		return least
	}
	for _, pegs := range []int{20, 200, 2000} {
		plan := twoMillion(pegs)
		built := best(func() { patterntest.Build(t, plan) })
		o := pattern.Order{Pattern: patterntest.Build(t, plan)}
		for _, k := range known {
			took := best(func() {
				find.Search(o, find.Evidence{Clues: k.clues, Noted: pattern.Place{Phase: pattern.Working, Row: 31}})
			})
			t.Logf("%d pegs, %d rows, %s: %.1f ms; the piece was built in %.1f ms", pegs, 2_000_000/pegs, k.name,
				1e3*took.Seconds(), 1e3*built.Seconds())
			assert.Less(t, took, 4*built)
		}
	}
}
