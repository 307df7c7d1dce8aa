package fit

import (
	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// widthOf is how wide a pattern likely comes out; 0 where nobody knows.
func widthOf(p *pattern.Pattern) measure.Length { return SizeOf(p).Width.Likely }

// heightOf is how high it likely comes out; 0 where nobody knows.
func heightOf(p *pattern.Pattern) measure.Length { return SizeOf(p).Height.Likely }

// zoneHeights are the likely heights of the zones, in mm; 0 where nobody knows.
func zoneHeights(p *pattern.Pattern) []float64 {
	var heights []float64
	for _, z := range SizeOf(p).Zones {
		heights = append(heights, float64(z.Height.Likely))
	}
	return heights
}

// rowHeights are the likely heights of one row of each zone, in mm.
func rowHeights(p *pattern.Pattern) []float64 {
	heights := zoneHeights(p)
	for i := range heights {
		heights[i] /= float64(p.Zones[i].Rows())
	}
	return heights
}

// yarnOf is how many metres of all yarns a pattern likely takes; 0 where nobody knows.
func yarnOf(p *pattern.Pattern) float64 {
	metres := 0.0
	for _, n := range YarnOf(p) {
		metres += n.Metres.Likely
	}
	return metres
}

// onGuess says what sizes go by where nobody counted stitches, or nothing.
func onGuess(d *pattern.Design) string {
	switch GaugeOf(d).Stitches.From {
	case FromSpacing:
		return "there is no gauge, so sizes go by the spacing of the pegs: work a swatch before you cast on"
	case FromClass:
		return "there is no gauge, so sizes go by the yarn's class: work a swatch before you cast on"
	}
	return ""
}
