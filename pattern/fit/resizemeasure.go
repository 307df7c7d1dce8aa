package fit

import (
	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// widthOf is how wide the pegs come out; 0 without a gauge.
func widthOf(p *pattern.Pattern) measure.Length {
	if p.Gauge.Stitches <= 0 {
		return 0
	}
	return measure.Density(p.Gauge.Stitches).Length(float64(p.Pegs))
}

// heightOf is how high all zones come out; 0 without a gauge.
func heightOf(p *pattern.Pattern) measure.Length {
	h := measure.Length(0)
	for i := range p.Zones {
		h += zoneHeightOf(p, i)
	}
	return h
}

// zoneHeightOf is how high a zone comes out; 0 without a gauge. Plain rows go by the row
// gauge and garter by its own; other textures lie between, by how often a column changes
// between knit and purl.
func zoneHeightOf(p *pattern.Pattern, i int) measure.Length {
	z := &p.Zones[i]
	g := p.Gauge
	for _, named := range p.Gauges {
		if named.Name == z.Gauge && named.Rows > 0 {
			return measure.Density(named.Rows).Length(float64(z.Rows()))
		}
	}
	plain, garter := measure.Density(g.Rows), measure.Density(g.GarterRows)
	if garter <= 0 {
		garter = measure.GarterRows(measure.Density(g.Stitches))
	}
	switch {
	case plain <= 0 && garter <= 0:
		return 0
	case plain <= 0:
		plain = garter
	case garter <= 0:
		garter = plain
	}
	share := changing(p, z)
	n := float64(z.Rows())
	return garter.Length(n*share) + plain.Length(n*(1-share))
}

// changing is how often a column between the sides changes from knit to purl or back,
// from one row to the next: 0 in plain fabric, 1 in garter.
func changing(p *pattern.Pattern, z *pattern.Zone) float64 {
	type pair struct{ below, above *pattern.Row }
	known := map[pair]int{}
	changes, cells := 0, 0
	for row := z.First; row <= z.Last; row++ {
		above := row + 1
		if row == z.Last { // the repeat goes on, as far as its height is asked
			above = z.First
		}
		at := pair{p.Grid.Row(row), p.Grid.Row(above)}
		n, ok := known[at]
		if !ok {
			lower, upper := at.below.Cells()[z.Sides:p.Pegs-z.Sides], at.above.Cells()[z.Sides:p.Pegs-z.Sides]
			for c := range lower {
				if lower[c].Stitch.Face() != upper[c].Stitch.Face() {
					n++
				}
			}
			known[at] = n
		}
		changes, cells = changes+n, cells+p.Pegs-2*z.Sides
	}
	return float64(changes) / float64(cells)
}

// How much yarn is likely, in widths of the piece, and of each of its two tails. Published
// ranges: a row 3.4 to 4.2 widths, a bind-off 3 to 6, a cast-on from the ball 3 to 4.
const (
	rowWidths     = 3.9
	castOnWidths  = 3.5
	bindOffWidths = 5
	tailMetres    = 0.15
)

// yarnOf is about how many metres of yarn a pattern takes; 0 without a gauge.
func yarnOf(p *pattern.Pattern) float64 {
	w := widthOf(p).In(measure.Metre)
	if w == 0 {
		return 0
	}
	worked := float64(p.StitchesBefore(p.Grid.Rows()+1)) / float64(p.Pegs)
	return w*(rowWidths*worked+castOnWidths+bindOffWidths) + 2*tailMetres
}

// classStitches is about how many stitches a yarn of a class makes in 10 cm: the middle
// of the range that the Standard Yarn Weight System gives for 4 in.
func classStitches(class int) float64 {
	return [...]float64{36.5, 29.5, 24.5, 22.5, 18, 13.5, 9, 6}[class] / 1.016
}
