package chart

import (
	"math"
	"slices"
	"strconv"

	"bypeg/pattern"
)

// # The overview
//
// A view from afar, like a small photograph of the cloth: a dot is half a cell, which a
// terminal shows about as wide as high (common practice, no source), and covers a patch
// of fabric as wide as high. So the proportions are the cloth's own.
//
//   - A dot that is smaller than a row shows the row in its middle. The scale is then
//     chosen so that every row gets the same whole number of dots: ridges come out even.
//   - A dot that is larger than a row, or a stitch, shows what prevails in its patch, and
//     a patch is never less than two rows: ridges too fine to be seen run together
//     evenly. A picture that showed some and lost others would tell of ridges that the
//     cloth has not.
//   - Of a large patch only the middle is looked at, mostLooks rows and stitches of it, so
//     that the largest piece costs no more than the picture has dots.

const (
	mostLooks     = 12  // rows, and stitches, of a patch that are looked at
	leastRows     = 2   // in a patch that holds more than one: garter is as even as it can be
	leastStitches = 1.5 // in such a patch: what stands upright stays sharper
	mostDots      = 2   // dots of a row: a small piece is not enlarged without end
)

// Relief is what the stitches under a dot show.
type Relief uint8

// The reliefs.
const (
	Nothing Relief = iota // no fabric: pegs not in use, holes
	Flat                  // knit
	Mixed                 // knit and purl, too fine to be told apart
	Raised                // purl
)

// Ground is what the stitches under a dot belong to.
type Ground uint8

// The grounds.
const (
	InField Ground = iota
	InBorder
	InSecond // the second yarn
	InThird
	InFurther
	grounds // how many there are
)

// Dot is half a cell of an overview.
type Dot struct {
	Relief Relief
	Ground Ground
	Coming bool // not worked yet
}

// DotPainter is a painter that can give the two halves of a cell a look each. It returns
// n cells that are alike, or tells that it can't: then dots are drawn as shapes.
type DotPainter interface {
	Painter
	PaintDots(top, bottom Dot, n int) (string, bool)
}

// Overview is a view of the whole fabric, or of some of it, drawn small.
type Overview struct {
	chart  *Chart
	view   View
	size   *size
	dot    float64    // the edge of a dot, as a length
	bottom float64    // the height of the view's lower edge
	dots   [][]Dot    // bottom first
	spans  []rowsSpan // the rows under each of them
	number int        // cells of the longest row number, 0 without
	zone   int        // cells for the zones' names, 0 without
	foot   []string
	cloth  []string // the lines without what stands beside them, top first
}

// rowsSpan is the rows under a line of dots.
type rowsSpan struct {
	span
	zone int
	row  int // the one in the middle
}

// span is a stretch of rows or columns and how much each counts.
type span struct {
	from    int // counted from 0
	weights []float64
}

// Overview draws a view in at most v.Width cells and height lines. It reads the fabric
// once, and not more than it shows.
func (c *Chart) Overview(v View, height int) *Overview {
	v = c.clamped(v)
	o := &Overview{chart: c, view: v, size: c.sizeOf()}
	if v.Width < 1 || height < 1 {
		return o
	}
	o.bottom = o.size.height(c.pattern, float64(v.First-1))
	o.layOut(height)
	o.cloth = o.draw()
	return o
}

// high and wide are the size of the view, as lengths.
func (o *Overview) high() float64 {
	return o.size.height(o.chart.pattern, float64(o.view.Last)) - o.bottom
}

func (o *Overview) wide() float64 { return float64(o.view.To-o.view.From) * o.size.stitch }

// scale is the smallest edge of a dot with which the view fits: see above.
func (o *Overview) scale(cells, lines int) float64 {
	edge := max(o.wide()/float64(cells), o.high()/float64(2*lines))
	p := o.chart.pattern
	rows := slices.Clone(o.size.rows[p.ZoneIndex(o.view.First) : p.ZoneIndex(o.view.Last)+1])
	slices.Sort(rows)
	for _, row := range rows {
		if dots := math.Floor(row/edge + 1e-9); dots >= 1 {
			return row / min(dots, mostDots)
		}
	}
	return edge
}

// look reads the fabric into as many dots as fit into cells by lines.
func (o *Overview) look(cells, lines int) {
	o.dot = o.scale(cells, lines)
	columns := o.columns(min(cells, max(1, int(math.Round(o.wide()/o.dot)))))
	count := min(2*lines, max(1, int(math.Round(o.high()/o.dot))))
	o.dots, o.spans = make([][]Dot, 0, count), make([]rowsSpan, 0, count)
	for i := range count {
		s := o.rowsUnder(i)
		if i > 0 && s.zone == o.spans[i-1].zone && s.from == o.spans[i-1].from && len(s.weights) == 1 {
			o.dots = append(o.dots, o.dots[i-1])
		} else {
			o.dots = append(o.dots, o.read(s, columns))
		}
		o.spans = append(o.spans, s)
	}
}

// columns are the stretches of columns under the dots of a line.
func (o *Overview) columns(count int) []span {
	spans := make([]span, count)
	per := o.dot / o.size.stitch
	for i := range spans {
		spans[i] = patch(float64(o.view.From)+(float64(i)+0.5)*per, per, leastStitches, o.view.From, o.view.To)
	}
	return spans
}

// rowsUnder are the rows under a line of dots, all of one zone.
func (o *Overview) rowsUnder(i int) rowsSpan {
	p := o.chart.pattern
	middle, zone := o.size.rowAt(p, o.bottom+(float64(i)+0.5)*o.dot)
	z := &p.Zones[zone]
	from, to := max(z.First, o.view.First)-1, min(z.Last, o.view.Last)
	s := patch(middle, o.dot/o.size.rows[zone], leastRows, from, to)
	return rowsSpan{span: s, zone: zone, row: min(to, max(from+1, int(middle)+1))}
}

// patch is what a dot covers along one axis: so many rows or columns about its middle,
// within [from, to); the least is for patches of more than one.
func patch(middle, per, least float64, from, to int) span {
	if per <= 1+1e-9 {
		return span{min(to-1, max(from, int(middle))), []float64{1}}
	}
	per = max(per, least)
	low := max(float64(from), min(middle-per/2, float64(to)-per)) // at an edge it is moved, not cut
	high := min(float64(to), low+per)
	s := span{from: min(to-1, int(low))}
	end := min(to, max(s.from+1, int(math.Ceil(high))))
	if n := end - s.from; n > mostLooks {
		s.from += (n - mostLooks) / 2
		s.weights = slices.Repeat([]float64{1}, mostLooks)
		return s
	}
	for i := s.from; i < end; i++ {
		s.weights = append(s.weights, max(1e-9, min(high, float64(i+1))-max(low, float64(i))))
	}
	return s
}

// sum is what was seen under a dot.
type sum struct {
	all, there, purl float64
	grounds          [grounds]float64
}

// read is a line of dots.
func (o *Overview) read(s rowsSpan, columns []span) []Dot {
	line := make([]Dot, len(columns))
	z := &o.chart.pattern.Zones[s.zone]
	coming := o.view.At.Active && s.row >= o.view.At.Row
	for i, col := range columns {
		var seen sum
		for k, weight := range s.weights {
			cells := o.chart.cells(s.from+k+1, col.from, col.from+len(col.weights))
			for j, cell := range cells {
				seen.add(cell, lookAt(z, col.from+j, o.chart.pattern.Pegs), weight*col.weights[j])
			}
		}
		line[i] = seen.dot()
		line[i].Coming = coming && line[i].Relief != Nothing
	}
	return line
}

func (s *sum) add(c pattern.Cell, l look, weight float64) {
	s.all += weight
	face := c.Stitch.Face()
	if face == pattern.FaceNone || face == pattern.FaceOpen {
		return
	}
	s.there += weight
	if face == pattern.FacePurl {
		s.purl += weight
	}
	g := InField
	switch {
	case c.Yarn > 0:
		g = InSecond + Ground(min(c.Yarn, 3)-1)
	case l == inBorder:
		g = InBorder
	}
	s.grounds[g] += weight
}

// dot is what prevails.
func (s *sum) dot() Dot {
	if s.there*2 <= s.all {
		return Dot{}
	}
	d := Dot{Relief: Mixed}
	switch share := s.purl / s.there; {
	case share < 0.25:
		d.Relief = Flat
	case share > 0.75:
		d.Relief = Raised
	}
	for g, weight := range s.grounds {
		if weight > s.grounds[d.Ground] {
			d.Ground = Ground(g)
		}
	}
	return d
}

// rowsOf are the first and the last row under a line of the overview, counted from the top.
func (o *Overview) rowsOf(line int) (first, last int) {
	lines := (len(o.dots) + 1) / 2
	low := 2 * (lines - 1 - line)
	high := min(low+1, len(o.spans)-1)
	return o.spans[low].row, o.spans[high].row
}

// lineOf is the line that shows a row of the view.
func (o *Overview) lineOf(row int) int {
	middle := o.size.height(o.chart.pattern, float64(row)-0.5) - o.bottom
	dot := min(len(o.dots)-1, max(0, int(middle/o.dot)))
	return (len(o.dots)+1)/2 - 1 - dot/2
}

// RowsPerLine is how many rows of the fabric a line of the overview shows, one at least.
func (o *Overview) RowsPerLine() int {
	lines := max(1, (len(o.dots)+1)/2)
	return max(1, (o.view.Last-o.view.First+1)/lines)
}

func numberWidth(row int) int { return len(strconv.Itoa(row)) }
