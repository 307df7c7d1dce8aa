package chart_test

import (
	"fmt"
	"slices"
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

// reading is how a person reads a set: for each symbol the stitch, in the field and
// in a border. It is written out here once more, not taken from the code.
type reading struct {
	style         chart.Style
	field, border string // knit, purl, slip, and knit and purl in the second yarn
}

var readings = []reading{
	{chart.Style{Set: chart.Bars}, "│─v2₂", "┃━V②❷"},
	{chart.Style{Set: chart.Squares}, " ─v2₂", "░━V②❷"},
	{chart.Style{Set: chart.Letters}, "kpv2₂", "KPV②❷"},
	{chart.Style{Set: chart.Bars, ASCII: true}, "|-v2@", "!=V2@"},
	{chart.Style{Set: chart.Squares, ASCII: true}, " -v2@", "#=V2@"},
	{chart.Style{Set: chart.Letters, ASCII: true}, "kpv2@", "KPV2@"},
}

var read = []pattern.Cell{
	{Stitch: pattern.Knit}, {Stitch: pattern.Purl}, {Stitch: pattern.Slip},
	{Stitch: pattern.Knit, Yarn: 1}, {Stitch: pattern.Purl, Yarn: 1},
}

// cells reads a row of symbols back; the row is drawn at pitch 1.
func (r reading) cells(t require.TestingT, p *pattern.Pattern, row int, line string) []pattern.Cell {
	var cells []pattern.Cell
	for col, symbol := range []rune(line) {
		known := []rune(r.field)
		if p.Border(row, col) {
			known = []rune(r.border)
		}
		at := slices.Index(known, symbol)
		require.GreaterOrEqual(t, at, 0, "%q is no symbol here", symbol)
		cells = append(cells, read[at])
	}
	return cells
}

// shown is a row's cells without what a symbol does not tell: a slipped stitch takes
// no yarn of its row.
func shown(cells []pattern.Cell) []pattern.Cell {
	cells = slices.Clone(cells)
	for i := range cells {
		if cells[i].Stitch == pattern.Slip {
			cells[i].Yarn = 0
		}
	}
	return cells
}

// fabric is a random pattern, worked either way.
func fabric(t *rapid.T) pattern.Order {
	plan := patterntest.Plans().Draw(t, "plan")
	p, errs := pattern.Build(plan)
	require.Empty(t, errs)
	return pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(t, "worked")}
}

// place is anywhere in the work, before it and after it.
func place(t *rapid.T, p *pattern.Pattern) chart.At {
	at := chart.At{
		Active:  rapid.Bool().Draw(t, "active"),
		Row:     rapid.IntRange(0, p.Grid.Rows()+1).Draw(t, "row in work"),
		Unsaved: rapid.Bool().Draw(t, "unsaved"),
	}
	at.Done = rapid.IntRange(0, p.Pegs).Draw(t, "done")
	return at
}

func window(t *rapid.T, p *pattern.Pattern) chart.Window {
	w := chart.Window{From: rapid.IntRange(0, p.Pegs-1).Draw(t, "from")}
	w.To = rapid.IntRange(w.From+1, p.Pegs).Draw(t, "to")
	w.Pitch = rapid.IntRange(1, 2).Draw(t, "pitch")
	return w
}

func TestThePictureIsTheFabric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := fabric(t)
		r := rapid.SampledFrom(readings).Draw(t, "set")
		c := chart.New(o, r.style)
		w, at := window(t, o.Pattern), place(t, o.Pattern)
		row := rapid.IntRange(1, o.Pattern.Grid.Rows()).Draw(t, "row")
		line := []rune(c.Row(row, w, at))
		if w.Pitch == 2 {
			for i := range (len(line) - 1) / 2 {
				line[i] = line[2*i+1]
			}
			line = line[:(len(line)-1)/2]
		}
		// Columns outside the window are blotted out with what is known of them.
		whole := []rune(c.Row(row, chart.Window{To: o.Pattern.Pegs, Pitch: 1}, chart.At{}))
		copy(whole[w.From:], line)
		assert.Equal(t, shown(o.Pattern.Grid.Row(row).Cells()), r.cells(t, o.Pattern, row, string(whole)))
	})
}

func TestTheHandDoesNotChangeThePicture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := fabric(t)
		w := window(t, o.Pattern)
		left, right := o, o
		left.Way, right.Way = pattern.DefaultWay(pattern.LeftHand), pattern.DefaultWay(pattern.RightHand)
		for row := 1; row <= o.Pattern.Grid.Rows(); row++ {
			assert.Equal(t, chart.New(right, chart.Style{}).Row(row, w, chart.At{}), chart.New(left, chart.Style{}).Row(row, w, chart.At{}))
		}
	})
}

func TestCrossesReadBackWhateverStandsBeside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var cells []pattern.Cell
		var want []string
		for range rapid.IntRange(1, 6).Draw(t, "how many") {
			if rapid.Bool().Draw(t, "plain") {
				cells, want = append(cells, pattern.Cell{Stitch: pattern.Purl}), append(want, "purl")
				continue
			}
			c := pattern.Cross{
				Front: rapid.IntRange(1, 4).Draw(t, "front"), Back: rapid.IntRange(1, 4).Draw(t, "back"),
				Lean: pattern.Side(rapid.IntRange(0, 1).Draw(t, "lean")), PurlBack: rapid.Bool().Draw(t, "purl back"),
			}
			cells, want = append(cells, cross(c)...), append(want, c.String())
		}
		p, errs := pattern.Build(patterntest.Drawn(strings.Repeat("|", len(cells))))
		require.Empty(t, errs)
		c := chart.New(pattern.Order{Pattern: p}, chart.Style{Cells: func(_, from, to int) []pattern.Cell { return cells[from:to] }})
		assert.Equal(t, want, readCrosses(t, []rune(c.Row(1, chart.Window{To: len(cells), Pitch: 1}, chart.At{}))))
	})
}

// readCrosses reads a row of purls and crosses as an eye would: a strand with two
// dashes is the outer end of those behind.
func readCrosses(t require.TestingT, line []rune) []string {
	var names []string
	take := func(symbols string) int {
		n := 0
		for n < len(line) && strings.ContainsRune(symbols, line[n]) {
			n++
		}
		line = line[n:]
		return n
	}
	for len(line) > 0 {
		var c pattern.Cross
		switch line[0] {
		case '─':
			names, line = append(names, "purl"), line[1:]
			continue
		case '╲':
			c.Front = take("╲")
			c.Back = take("┊┄") + 1
			c.PurlBack = line[0] == '╌'
			require.Contains(t, "╌╎", string(line[0]))
			line = line[1:]
		default:
			require.Contains(t, "╌╎", string(line[0]))
			c.PurlBack, c.Lean, line = line[0] == '╌', pattern.Right, line[1:]
			c.Back = take("┊┄") + 1
			c.Front = take("╱")
		}
		names = append(names, c.String())
	}
	return names
}

func TestALineIsAsWideAsItSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := fabric(t)
		c := chart.New(o, rapid.SampledFrom(readings).Draw(t, "set").style)
		w, at := window(t, o.Pattern), place(t, o.Pattern)
		over, under := c.Markers(w, c.Hand(at), at.Unsaved)
		for _, line := range []string{c.Row(rapid.IntRange(1, o.Pattern.Grid.Rows()).Draw(t, "row"), w, at), c.Ruler(w), over, under} {
			assert.Equal(t, w.Width(), safetext.Width(line), "%q", line)
		}
	})
}

func TestNoLineIsWiderThanTheTerminal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := fabric(t)
		c := chart.New(o, rapid.SampledFrom(readings).Draw(t, "set").style)
		v := chart.View{
			First: rapid.IntRange(-1, 50).Draw(t, "first"), Last: rapid.IntRange(-1, 50).Draw(t, "last"),
			From: rapid.IntRange(-1, 30).Draw(t, "from"), To: rapid.IntRange(-1, 30).Draw(t, "to"),
			Width: rapid.IntRange(0, 200).Draw(t, "width"),
		}
		for _, line := range append(c.Lines(v), c.Legend(v)...) {
			assert.LessOrEqual(t, safetext.Width(line), v.Width, "%q", line)
			assert.NotContains(t, line, "\n")
		}
	})
}

func TestPartsShowEveryPegOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := fabric(t)
		v := chart.View{Width: rapid.IntRange(1, 60).Draw(t, "width")}
		parts := chart.New(o, chart.Style{}).Parts(v)
		next := 0
		for _, w := range parts {
			assert.Equal(t, next, w.From)
			assert.Less(t, w.From, w.To)
			assert.LessOrEqual(t, w.Width(), v.Width)
			next = w.To
		}
		assert.Equal(t, o.Pattern.Pegs, next)
		if parts[0].Pitch == 1 {
			assert.Len(t, parts, (o.Pattern.Pegs+v.Width-1)/v.Width, "as few as it takes")
		}
	})
}

// A terminal repaints only lines that change, so a step must leave the others as they
// are, byte for byte.
func TestAStepChangesNoOtherRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := fabric(t)
		c := chart.New(o, chart.Style{Painter: tagged{}})
		w := window(t, o.Pattern)
		a := place(t, o.Pattern)
		b := a
		b.Done, b.Unsaved = rapid.IntRange(0, o.Pattern.Pegs).Draw(t, "done then"), !a.Unsaved
		for row := 1; row <= o.Pattern.Grid.Rows(); row++ {
			if row != a.Row {
				assert.Equal(t, c.Row(row, w, a), c.Row(row, w, b))
				assert.Equal(t, c.Row(row, w, a), chart.New(o, chart.Style{Painter: tagged{}}).Row(row, w, b), "a new chart draws the same")
			}
		}
	})
}

// counted counts the cells that a chart reads.
func counted(p *pattern.Pattern, s chart.Style) (*chart.Chart, *int) {
	n := 0
	s.Cells = func(row, from, to int) []pattern.Cell {
		n += to - from
		return p.Grid.Cells(row, from, to)
	}
	return chart.New(pattern.Order{Pattern: p, Way: p.Way}, s), &n
}

// blanket is a piece of 100 pegs and so many rows.
func blanket(t testing.TB, rows int) *pattern.Pattern {
	return patterntest.Build(t, patterntest.Frame(100, 3, 3, rows-13))
}

func TestOnlyWhatIsInViewIsRead(t *testing.T) {
	p := blanket(t, 20_000) // 2,000,000 stitches
	require.Equal(t, 2_000_000, p.Grid.Rows()*p.Pegs)
	c, n := counted(p, chart.Style{})
	assert.Zero(t, *n, "a new chart reads nothing")

	at := chart.At{Active: true, Row: 12_007, Done: 60}
	w := chart.Window{From: 20, To: 58, Pitch: 2}
	c.Ruler(w)
	c.Markers(w, c.Hand(at), at.Unsaved)
	assert.Zero(t, *n, "rulers and markers read nothing")
	for row := 12_000; row < 12_020; row++ {
		c.Row(row, w, at)
	}
	assert.Equal(t, 20*38, *n)

	*n = 0
	c.Lines(chart.View{First: 12_000, Last: 12_019, From: 10, To: 90, Width: 40})
	assert.Equal(t, 20*80, *n, "a printed chart reads each stitch once, though it is cut into parts")
	*n = 0
	c.Legend(chart.View{First: 12_000, Last: 12_019, From: 10, To: 90, Width: 40})
	assert.Equal(t, 20*80, *n)
}

// paints counts what is painted.
type paints struct{ n *int }

func (p paints) Paint(_ chart.Tone, s string) string { *p.n++; return s }

func TestASymbolIsPaintedOnce(t *testing.T) {
	n := 0
	c := build(t, frame(), chart.Style{Set: chart.Squares, Painter: paints{&n}})
	w, at := chart.Window{To: 9, Pitch: 2}, chart.At{Active: true, Row: 3, Done: 4}
	first := rows(c, 7, w, at)
	painted := n
	assert.Less(t, painted, 20, "kinds of cells and gaps, not cells")
	assert.Equal(t, first, rows(c, 7, w, at))
	assert.Equal(t, painted, n, "nothing is painted again")
}

// painter is as dear as one that writes colours.
type painter struct{}

func (painter) Paint(t chart.Tone, s string) string { return fmt.Sprintf("\x1b[3%dm%s\x1b[0m", t, s) }

// BenchmarkView draws what the work screen shows on 80 by 24: it must not cost more
// on a large piece than on a small one.
func BenchmarkView(b *testing.B) {
	for _, rows := range []int{20, 20_000} {
		b.Run(fmt.Sprintf("%d stitches", rows*100), func(b *testing.B) {
			p := blanket(b, rows)
			c := chart.New(pattern.Order{Pattern: p, Way: p.Way}, chart.Style{Painter: painter{}})
			w := chart.Window{From: 0, To: 38, Pitch: 2}
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				at := chart.At{Active: true, Row: rows / 2, Done: i % 100}
				c.Ruler(w)
				c.Markers(w, c.Hand(at), at.Unsaved)
				for row := rows/2 - 10; row < rows/2+10; row++ {
					c.Row(max(1, row), w, at)
				}
			}
		})
	}
}
