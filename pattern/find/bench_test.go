package find_test

import (
	"testing"

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

func BenchmarkSearch(b *testing.B) {
	for _, c := range []struct {
		name  string
		pegs  int
		clues []find.Clue
	}{
		{"20 pegs, nothing known", 20, nil},
		{"20 pegs, some known", 20, []find.Clue{{Kind: find.Yarn, Hangs: find.AtEnd}, {Kind: find.LastRow, Row: find.Knitted}, {Kind: find.Look, Peg: 9, Seen: []find.Seen{find.V, find.Bump}}}},
		{"20 pegs, none agrees", 20, []find.Clue{{Kind: find.Ridges, Count: 900}, {Kind: find.Yarn, Hangs: find.AtLeft}, {Kind: find.Bumps, Peg: 9, Count: 31}, {Kind: find.Look, Peg: 10, Seen: []find.Seen{find.V, find.Bump}}}},
		{"1000 pegs, nothing known", 1000, nil},
		{"1000 pegs, some known", 1000, []find.Clue{{Kind: find.Yarn, Hangs: find.AtEnd}, {Kind: find.LastRow, Row: find.Knitted}, {Kind: find.Look, Peg: 9, Seen: []find.Seen{find.V, find.Bump}}}},
		{"1000 pegs, none agrees", 1000, []find.Clue{{Kind: find.Ridges, Count: 900}, {Kind: find.Yarn, Hangs: find.AtLeft}, {Kind: find.Bumps, Peg: 9, Count: 31}, {Kind: find.Look, Peg: 10, Seen: []find.Seen{find.V, find.Bump}}}},
		{"200 pegs, nothing known", 200, nil},
		{"200 pegs, some known", 200, []find.Clue{{Kind: find.Yarn, Hangs: find.AtEnd}, {Kind: find.LastRow, Row: find.Knitted}, {Kind: find.Look, Peg: 9, Seen: []find.Seen{find.V, find.Bump}}}},
	} {
		b.Run(c.name, func(b *testing.B) {
			o := pattern.Order{Pattern: patterntest.Build(b, twoMillion(c.pegs))}
			for b.Loop() {
				find.Search(o, find.Evidence{Clues: c.clues, Noted: pattern.Place{Phase: pattern.Working, Row: 31}})
			}
		})
	}
}
