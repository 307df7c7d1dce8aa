package pattern_test

import (
	"testing"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
)

// fourStrips is two million cells: 200 pegs in four strips whose repeats of 7, 9, 11
// and 13 rows only meet again after 9,009 rows.
func fourStrips() pattern.Plan {
	plan := patterntest.Drawn("|")
	plan.Pegs = 200
	z := pattern.ZonePlan{Name: "field", Rows: 10_000}
	for i, repeat := range []int{7, 9, 11, 13} {
		s := pattern.StripPlan{Pegs: 50}
		for row := range repeat {
			cells := make([]pattern.Cell, 50)
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

func BenchmarkExpandAndVisitTwoMillionCells(b *testing.B) {
	plan := fourStrips()
	cells, purls := 0, 0
	for b.Loop() {
		p := patterntest.Build(b, plan)
		cells = 0
		for row := 1; row <= p.Grid.Rows(); row++ {
			for _, c := range p.Grid.Row(row).Cells() {
				if c.Stitch == pattern.Purl {
					purls++
				}
				cells++
			}
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(cells), "ns/cell")
}
