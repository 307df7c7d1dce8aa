package chart_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/pattern/safetext"
)

// plain and garter are pieces of one zone, from edge to edge.
func plain(pegs, rows int) pattern.Plan {
	plan := patterntest.Drawn(strings.Repeat("|", pegs))
	plan.Zones[0].Rows = rows
	return plan
}

func garter(pegs, rows int) pattern.Plan {
	plan := patterntest.Drawn(strings.Repeat("-", pegs), strings.Repeat("|", pegs))
	plan.Zones[0].Rows = rows
	return plan
}

// extent is how many dots a picture is wide and high, half a cell each; the piece fills
// its first line.
func extent(o *chart.Overview) (wide, high int) {
	for _, line := range o.Lines(chart.View{}) {
		n := 0
		for _, r := range line {
			if strings.ContainsRune("░▒█▀▄", r) {
				n++
			}
		}
		if n > 0 {
			wide, high = n, high+2
		}
	}
	return wide, high
}

// A stitch is wider than high. Squares: 36 pegs by 49 or 50 rows of plain fabric at 16
// stitches and 22 rows in 10 cm, 72 rows at 32 rows of garter, which are one ridge a peg;
// a picture of 24 by 24 at 16 and 22 comes out squashed and needs 33 rows (arithmetic; the
// gauges are common practice, no source). Without a gauge a plain stitch is 3 to 4
// (0.80 +- 0.07: overtherainbowyarn.com/stitch-proportions, which the 3:4 rule of the trade
// is within), and a garter stitch 1 to 2 (0.50 +- 0.1: the same page).
func TestAPictureHasTheProportionsOfTheCloth(t *testing.T) {
	gauge := pattern.Gauge{Stitches: 16, Rows: 22, GarterRows: 32}
	for _, tt := range []struct {
		name   string
		plan   pattern.Plan
		gauge  pattern.Gauge
		height float64 // the cloth's height by its width
	}{
		{"36 pegs and 49 rows of plain fabric are a square", plain(36, 49), gauge, 1},
		{"36 pegs and 50 rows are one as well", plain(36, 50), gauge, 1},
		{"36 pegs and 72 rows of garter are a square", garter(36, 72), gauge, 1},
		{"36 pegs and 66 rows of garter are 8 % short", garter(36, 66), gauge, 0.92},
		{"24 pegs and 24 rows come out squashed", plain(24, 24), gauge, 10.9 / 15},
		{"24 pegs and 33 rows do not", plain(24, 33), gauge, 1},
		{"no gauge: 30 pegs and 40 rows of plain fabric are a square", plain(30, 40), pattern.Gauge{}, 1},
		{"no gauge: 30 pegs and 60 rows of garter are a square", garter(30, 60), pattern.Gauge{}, 1},
		{"stitches alone: rows are 4 for 3", plain(30, 40), pattern.Gauge{Stitches: 12}, 1},
		{"rows alone: stitches are 3 for 4", plain(30, 40), pattern.Gauge{Rows: 12}, 1},
	} {
		t.Run(tt.name, func(t *testing.T) {
			tt.plan.Gauge = tt.gauge
			for _, room := range [][2]int{{200, 60}, {80, 22}, {60, 100}, {40, 30}} {
				wide, high := extent(build(t, tt.plan, chart.Style{}).Overview(chart.View{Width: room[0], Brief: true}, room[1]))
				// Half a dot is lost at each end, and an odd dot is counted with its cell.
				assert.InDelta(t, tt.height*float64(wide), float64(high), 2+0.02*float64(high), "%v: %d by %d", room, wide, high)
				assert.Greater(t, wide, 15, "%v: as large as it can be", room)
			}
		})
	}
}

func TestAZoneHasTheHeightOfItsOwnGauge(t *testing.T) {
	seed := patterntest.Drawn(strings.Repeat("|-", 32), strings.Repeat("-|", 32))
	seed.Zones[0].Rows = 32
	for _, tt := range []struct {
		name string
		plan pattern.Plan
		own  pattern.Gauge
		want float64 // the height by the width
	}{
		{"rows of its own", plain(30, 20), pattern.Gauge{Name: "own", Rows: 5}, 40.0 / 30},
		{"garter rows of its own", garter(30, 20), pattern.Gauge{Name: "own", GarterRows: 5}, 40.0 / 30},
		{"what its gauge does not say is the piece's", plain(30, 20), pattern.Gauge{Name: "own", GarterRows: 5}, 20.0 / 30},
		{"seed is no garter", seed, pattern.Gauge{Name: "own", GarterRows: 5}, 0.5},
	} {
		tt.plan.Gauge = pattern.Gauge{Stitches: 10, Rows: 10, GarterRows: 20}
		tt.plan.Gauges = []pattern.Gauge{tt.own}
		tt.plan.Zones[0].Gauge = "own"
		wide, high := extent(build(t, tt.plan, chart.Style{}).Overview(chart.View{Width: 80, Brief: true}, 60))
		assert.InDelta(t, tt.want, float64(high)/float64(wide), 0.06, tt.name)
	}
}

func TestThePictureSaysWhereItsProportionsComeFrom(t *testing.T) {
	full := pattern.Gauge{Stitches: 10, Rows: 14, GarterRows: 20}
	for _, tt := range []struct {
		plan  pattern.Plan
		gauge pattern.Gauge
		want  string
	}{
		{plain(20, 28), full, "20 by 20 cm, proportions from the gauge"},
		{garter(20, 20), full, "20 by 10 cm, proportions from the gauge"},
		{garter(20, 20), pattern.Gauge{Stitches: 10, Rows: 14}, "20 by 10 cm, proportions from the gauge, garter estimated"},
		{plain(20, 28), pattern.Gauge{Stitches: 10}, "20 by 21 cm, estimated: the gauge has no rows"},
		{plain(20, 28), pattern.Gauge{Rows: 14}, "19 by 20 cm, estimated: the gauge has no stitches"},
		{plain(20, 28), pattern.Gauge{}, "estimated: no gauge in the pattern"},
	} {
		tt.plan.Gauge = tt.gauge
		lines := build(t, tt.plan, chart.Style{}).Overview(chart.View{Width: 80}, 24).Lines(chart.View{})
		assert.Contains(t, lines, tt.want)
	}
}

// evened has the gauge of square stitches, so that a stitch is two cells and a row a line.
func evened(p *pattern.Pattern) {
	p.Gauge = pattern.Gauge{Stitches: 10, Rows: 10, GarterRows: 10}
	p.Gauges = nil
}

func TestALargePictureIsTheFabricStitchByStitch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := fabric(t)
		evened(o.Pattern)
		g := o.Pattern.Grid
		lines := chart.New(o, chart.Style{}).Overview(chart.View{Width: 2*g.Pegs() + 40, Brief: true}, g.Rows()+1).Lines(chart.View{})
		before := strings.IndexFunc(lines[0], func(r rune) bool { return strings.ContainsRune("░█▓", r) })
		for row := 1; row <= g.Rows(); row++ {
			want := ""
			for _, c := range g.Row(row).Cells() {
				shape := map[pattern.Face]string{pattern.FaceKnit: "░░", pattern.FacePurl: "██"}[c.Stitch.Face()]
				if c.Yarn > 0 {
					shape = "▓▓"
				}
				want += shape
			}
			line := []rune(lines[g.Rows()-row])
			require.Equal(t, want, string(line[before:before+2*g.Pegs()]), "row %d", row)
		}
	})
}

func TestAPictureIsNeverLargerThanItsRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := fabric(t)
		rows := o.Pattern.Grid.Rows()
		o.Pattern.Gauge.Stitches = rapid.SampledFrom([]float64{0, 0.5, 14, 500}).Draw(t, "stitches")
		o.Pattern.Gauge.Rows = rapid.SampledFrom([]float64{0, 0.5, 20, 500}).Draw(t, "rows in 10 cm")
		v := chart.View{
			First: rapid.IntRange(0, rows).Draw(t, "first"), Last: rapid.IntRange(0, rows).Draw(t, "last"),
			Width: rapid.IntRange(-1, 90).Draw(t, "width"), Brief: rapid.Bool().Draw(t, "brief"), At: place(t, o.Pattern),
		}
		height := rapid.IntRange(-1, 40).Draw(t, "height")
		ascii := rapid.Bool().Draw(t, "ascii")
		lines := chart.New(o, chart.Style{ASCII: ascii}).Overview(v, height).Lines(chart.View{First: 1, Last: 3})
		assert.LessOrEqual(t, len(lines), max(0, height))
		for _, line := range lines {
			assert.LessOrEqual(t, safetext.Width(line), max(0, v.Width))
			if ascii {
				assert.NotRegexp(t, `[^\x20-\x7e]`, line)
			}
		}
		if v.Width > 0 && height > 0 {
			assert.NotEmpty(t, lines)
		}
	})
}

// ridgesSeen counts the lying lines in the first column of a picture; false where they run
// together.
func ridgesSeen(lines []string) (n int, even bool) {
	below := false
	even = true
	for i := len(lines) - 1; i >= 0; i-- {
		for _, dot := range map[string][]bool{"░": {false, false}, "▀": {false, true}, "▄": {true, false}, "█": {true, true}}[lines[i]] {
			if dot && !below {
				n++
			}
			below = dot
		}
		even = even && lines[i] != "▒"
	}
	return n, even
}

// Ridges are all there, or none can be told: a picture that lost some would be taken for
// a count.
func TestRidgesAreShownAllOrRunTogether(t *testing.T) {
	shown, together := 0, 0
	for _, rows := range []int{8, 40, 41, 72, 200} {
		c := build(t, garter(30, rows), chart.Style{})
		for height := 4; height <= 60; height++ {
			var column []string
			for _, line := range c.Overview(chart.View{Width: 90, Brief: true}, height).Lines(chart.View{}) {
				for _, r := range line {
					if strings.ContainsRune("░▒█▀▄", r) {
						column = append(column, string(r))
						break
					}
				}
			}
			n, even := ridgesSeen(column)
			switch {
			case even:
				assert.Equal(t, rows/2, n, "%d rows in %d lines: %v", rows, height, column)
				shown++
			default:
				assert.NotContains(t, strings.Join(column, ""), "█", "%d rows in %d lines", rows, height)
				assert.Zero(t, n, "%d rows in %d lines: %v", rows, height, column)
				together++
			}
		}
	}
	assert.Greater(t, min(shown, together), 40)
}

func TestAPictureLooksLikeTheCloth(t *testing.T) {
	plan := patterntest.Frame(15, 2, 2, 8)
	plan.Gauge = pattern.Gauge{Stitches: 12, Rows: 16, GarterRows: 16}
	motif := patterntest.Rows(
		"|||||||||||",
		"|||||||||||",
		"|||||-|||||",
		"||||---||||",
		"|||-----|||",
		"||||---||||",
		"|||||-|||||",
		"|||||||||||",
	)
	plan.Zones[1].Strips[0].Lines = nil
	for _, cells := range motif {
		plan.Zones[1].Strips[0].Lines = append(plan.Zones[1].Strips[0].Lines, pattern.Line{Cells: cells})
	}
	c := build(t, plan, chart.Style{})
	at := chart.At{Active: true, Row: 8}
	assert.Equal(t, picture(`
		17  ░░░░░░░░░░░░░░░░░░░░ ╴ set-up
		    ▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀ ╮ top border
		    ▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀ ╯
		    ▀▀▀░░░░░░░░░░░░░░▀▀▀ ╮
		    ▀▀▀░░░░░▄██▄░░░░░▀▀▀ │ field
		    ▀▀▀░░░░▀████▀░░░░▀▀▀ │
		    ▀▀▀░░░░░░▀▀░░░░░░▀▀▀ ╯
		    ▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀ ╮ bottom border
		 1  ▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀ ╯
		    15                 1
		12 by 11 cm, proportions from the gauge
		key   ░ knit   █ purl
	`), c.Overview(chart.View{Width: 60}, 14).Lines(chart.View{}))
	assert.Equal(t, picture(`
		17                       ╴ set-up
		    ···················· ╮ top border
		    ···················· ╯
		    ···              ··· ╮
		    ···     ····     ··· │ field
		 8 ▸░░░░░░░░▄▄▄▄░░░░░░░░ │
		   │▀▀▀░░░░░░▀▀░░░░░░▀▀▀ ╯
		   │▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀ ╮ bottom border
		 1  ▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀ ╯
		    15                 1
		12 by 11 cm, proportions from the gauge
		key   ░ knit   █ purl   · to come
	`), c.Overview(chart.View{Width: 60, At: at}, 14).Lines(chart.View{First: 3, Last: 8}),
		"rows to come are faint, the row in hand is marked, and what the chart shows")
}

func TestZonesAreNamedWhereThePictureNeedNotBeMuchSmaller(t *testing.T) {
	c := build(t, patterntest.Frame(40, 3, 3, 27), chart.Style{})
	low, high := c.Overview(chart.View{Width: 60}, 14).Lines(chart.View{}), c.Overview(chart.View{Width: 60}, 60).Lines(chart.View{})
	assert.Contains(t, strings.Join(low, "\n"), "╮ bottom border")
	assert.NotContains(t, strings.Join(high, "\n"), "border")
	assert.Greater(t, safetext.Width(high[1]), 55)
}

func TestWhatTheChartShowsIsMarkedBesideTheCloth(t *testing.T) {
	plan := plain(20, 20)
	plan.Gauge = pattern.Gauge{Stitches: 10, Rows: 10}
	o := build(t, plan, chart.Style{}).Overview(chart.View{Width: 60, Brief: true}, 21)
	for _, seen := range [][2]int{{1, 5}, {6, 6}, {16, 20}} {
		for i, line := range o.Lines(chart.View{First: seen[0], Last: seen[1]}) {
			if row := 20 - i; row >= 1 {
				assert.Equal(t, row >= seen[0] && row <= seen[1], []rune(line + "    ")[3] == '│', "row %d, %v", row, seen)
			}
		}
	}
	assert.NotContains(t, strings.SplitN(o.Lines(chart.View{})[3], "░", 2)[0], "│", "nothing is seen elsewhere")
}

// shaded shows dots as text.
type shaded struct{ tagged }

func (shaded) PaintDots(top, bottom chart.Dot, n int) (string, bool) {
	return fmt.Sprintf("%d{%d%d%v %d%d%v}", n, top.Relief, top.Ground, top.Coming, bottom.Relief, bottom.Ground, bottom.Coming), true
}

func TestColoursTellTheBorderTheYarnsAndWhatIsToCome(t *testing.T) {
	plan := patterntest.Frame(8, 2, 1, 2)
	for i := range 4 {
		plan.Zones[1].Strips[0].Lines[0].Cells[i].Yarn = pattern.Yarn(i)
	}
	plan.Zones[1].Strips[0].Lines[0].Written = false
	for range 3 {
		plan.Yarns = append(plan.Yarns, pattern.YarnInfo{Weight: pattern.UnknownWeight})
	}
	p := patterntest.Build(t, plan)
	evened(p)
	c := chart.New(pattern.Order{Pattern: p, Way: p.Way}, chart.Style{Painter: shaded{}})
	lines := c.Overview(chart.View{Width: 60, At: chart.At{Active: true, Row: 4}}, 20).Lines(chart.View{})
	flat := func(g chart.Ground, n int, coming bool) string {
		return fmt.Sprintf("%d{1%d%v 1%d%v}", n, g, coming, g, coming)
	}
	field := func(coming bool) string {
		return flat(chart.InField, 2, coming) + flat(chart.InSecond, 2, coming) + flat(chart.InThird, 2, coming) + flat(chart.InFurther, 2, coming)
	}
	assert.Contains(t, lines[4], flat(chart.InBorder, 4, false)+field(false)+flat(chart.InBorder, 4, false), "row 3")
	assert.Contains(t, lines[3], "4{31true 31true}"+field(true)+"4{31true 31true}", "row 4")
	text := strings.Join(lines, "\n")
	for _, name := range []string{"border", "yarn 2", "yarn 3", "further yarns", "to come"} {
		assert.Contains(t, text, "text{ "+name+"}")
	}
}

func TestAPictureReadsNoMoreThanItShows(t *testing.T) {
	for _, tt := range []struct{ pegs, rows int }{{100, 500}, {4000, 5000}, {200, 100_000}} {
		t.Run(fmt.Sprintf("%d pegs, %d rows", tt.pegs, tt.rows), func(t *testing.T) {
			p := patterntest.Build(t, patterntest.Frame(tt.pegs, 3, 3, tt.rows-13))
			c, n := counted(p, chart.Style{})
			o := c.Overview(chart.View{Width: 80, Brief: true}, 22)
			// At most 12 by 12 stitches under each of the dots of 80 cells by 22 lines, and a
			// few of each zone to know garter.
			assert.LessOrEqual(t, *n, 80*22*2*12*12+4*40)
			assert.NotZero(t, *n)
			*n = 0
			o.Lines(chart.View{First: 1, Last: 20})
			o.Lines(chart.View{First: 30, Last: 50})
			assert.Zero(t, *n, "drawing it again reads nothing")
		})
	}
}

// BenchmarkOverview reads the largest piece there can be.
func BenchmarkOverview(b *testing.B) {
	p := patterntest.Build(b, patterntest.Frame(4000, 3, 3, 4987))
	for b.Loop() {
		chart.New(pattern.Order{Pattern: p, Way: p.Way}, chart.Style{}).Overview(chart.View{Width: 80}, 22)
	}
}
