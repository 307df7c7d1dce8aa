package chart

import (
	"fmt"
	"slices"
	"sort"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// plainRatio is how many rows of plain fabric are as long as one stitch is wide, where
// nobody measured it: the trade's 3 to 4 rule.
const plainRatio = 4.0 / 3

// size is how wide and how high the fabric of a pattern comes out. Lengths are in
// millimetres, or in no unit at all where the pattern has no gauge: their proportions
// hold anyway.
type size struct {
	stitch float64   // the width of one stitch
	rows   []float64 // the height of one row in each zone
	tops   []float64 // the height from the cast-on to the top of each zone
	source source
}

// source is where the proportions come from.
type source uint8

const (
	fromGauge source = iota
	garterEstimated
	rowsEstimated
	stitchesEstimated
	noGauge
)

// says is what a source is told as.
var says = []string{
	fromGauge:         "proportions from the gauge",
	garterEstimated:   "proportions from the gauge, garter estimated",
	rowsEstimated:     "estimated: the gauge has no rows",
	stitchesEstimated: "estimated: the gauge has no stitches",
	noGauge:           "estimated: no gauge in the pattern",
}

// sizeOf measures a pattern. It looks at a few stitches of each zone, to know garter.
func (c *Chart) sizeOf() *size {
	p := c.pattern
	stitches, rows := p.Gauge.Stitches, p.Gauge.Rows
	s := &size{}
	switch {
	case stitches == 0 && rows == 0:
		s.source, stitches, rows = noGauge, 1, plainRatio
	case stitches == 0:
		s.source, stitches = stitchesEstimated, rows/plainRatio
	case rows == 0:
		s.source, rows = rowsEstimated, stitches*plainRatio
	}
	s.stitch = float64(measure.Density(stitches).Length(1))
	top := 0.0
	for i := range p.Zones {
		z := &p.Zones[i]
		density := c.density(s, z, stitches, rows)
		s.rows = append(s.rows, float64(density.Length(1)))
		top += float64(density.Length(float64(z.Rows())))
		s.tops = append(s.tops, top)
	}
	return s
}

// density is the rows of a zone in 10 cm: its own gauge's, or the piece's. It notes
// where garter was not measured.
func (c *Chart) density(s *size, z *pattern.Zone, stitches, rows float64) measure.Density {
	g := pattern.Gauge{Rows: rows, GarterRows: c.pattern.Gauge.GarterRows}
	if i := slices.IndexFunc(c.pattern.Gauges, func(g pattern.Gauge) bool { return g.Name == z.Gauge }); i >= 0 && z.Gauge != "" {
		own := c.pattern.Gauges[i]
		if own.Rows > 0 {
			g.Rows = own.Rows
		}
		if own.GarterRows > 0 {
			g.GarterRows = own.GarterRows
		}
	}
	switch {
	case !c.isGarter(z):
		return measure.Density(g.Rows)
	case g.GarterRows > 0:
		return measure.Density(g.GarterRows)
	}
	if s.source == fromGauge {
		s.source = garterEstimated
	}
	return measure.GarterRows(measure.Density(stitches))
}

// garterLooks is how many stitches of a row are looked at to know garter.
const garterLooks = 16

// isGarter tells whether a zone is knit and purl in turn from edge to edge. It looks at
// two rows only, and not at every stitch of them: all that depends on it is a height.
func (c *Chart) isGarter(z *pattern.Zone) bool {
	if z.Rows() < 2 {
		return false
	}
	step := max(1, c.pattern.Pegs/garterLooks)
	if step > 1 {
		step |= 1 // an odd step meets both stitches of a rib
	}
	below, above := c.faceAt(z.First, 0), c.faceAt(z.First+1, 0)
	if min(below, above) != pattern.FaceKnit || max(below, above) != pattern.FacePurl {
		return false
	}
	for col := step; col < c.pattern.Pegs; col += step {
		if c.faceAt(z.First, col) != below || c.faceAt(z.First+1, col) != above {
			return false
		}
	}
	return true
}

func (c *Chart) faceAt(row, col int) pattern.Face { return c.cells(row, col, col+1)[0].Stitch.Face() }

// height is how high the fabric is when so many rows are done; the count need not be
// whole.
func (s *size) height(p *pattern.Pattern, rows float64) float64 {
	i := sort.Search(len(p.Zones)-1, func(i int) bool { return float64(p.Zones[i].Last) >= rows })
	return s.tops[i] - (float64(p.Zones[i].Last)-rows)*s.rows[i]
}

// rowAt is how many rows lie below a height, and the index of the zone there.
func (s *size) rowAt(p *pattern.Pattern, height float64) (rows float64, zone int) {
	i := sort.Search(len(s.tops)-1, func(i int) bool { return s.tops[i] > height })
	return float64(p.Zones[i].Last) - (s.tops[i]-height)/s.rows[i], i
}

// told is how large a view comes out, and how that is known.
func (s *size) told(width, height float64) string {
	if s.source == noGauge {
		return says[s.source]
	}
	whole := func(l float64) string { return measure.Number(l/float64(measure.Centimetre), 0) }
	return fmt.Sprintf("%s by %s cm, %s", whole(width), whole(height), says[s.source])
}
