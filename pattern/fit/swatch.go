package fit

import (
	"fmt"
	"math"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// A swatch is worked before a piece, to measure its gauge on. It is a pattern like any
// other, a plain field and a band of garter, so it is worked with the same care. All is
// measured in the middle, off the loom and rested.

// What is measured over, with as much again beside it that the edges may spoil.
const (
	swatchWide   = 14 * measure.Centimetre
	swatchPlain  = 12 * measure.Centimetre
	swatchGarter = 8 * measure.Centimetre
	swatchSides  = 3 // pegs of garter at each edge
)

// A swatch is no smaller and no larger, be the gauge what it may.
const (
	fewestSwatch = 12
	mostSwatch   = 80
)

// SwatchFor is the pattern file of a swatch for a design: on its loom, in its yarn and its
// wrap.
func SwatchFor(d *pattern.Design) string {
	g := GaugeOf(d)
	count := func(f Figure, l measure.Length, otherwise int) int {
		if !f.Known() {
			return otherwise
		}
		return min(max(int(math.Round(f.Likely.Count(l))), fewestSwatch), mostSwatch)
	}
	pegs := count(g.Stitches, swatchWide, 24)
	if d.Loom.Pegs > 0 {
		pegs = min(pegs, d.Loom.Pegs)
	}
	sides := swatchSides
	if 2*sides >= pegs-4 {
		sides = 0
	}
	plain, garter := even(count(g.Rows, swatchPlain, 30)), even(count(g.Garter, swatchGarter, 30))
	inside := ""
	if sides > 0 {
		inside = fmt.Sprintf("sides = %d\n", sides)
	}
	return fmt.Sprintf(swatchText, "Swatch for "+safetext.Clean(d.Title), pegs, d.KnitAs, inside, plain, garter/2)
}

const swatchText = `pattern = 1
title   = %q
about   = """
Rest it off the loom, lay it flat, and count over the middle of each part: stitches and
rows of the plain part, rows of the garter part, and the centimetres they take."""
pegs    = %d
cast_on = "chain"
knit_as = %q

[[zone]]
name   = "bottom border"
border = true
rows   = ["k", "p"]
times  = 2

[[zone]]
name  = "plain, to measure"
%srows  = ["k"]
times = %d

[[zone]]
name  = "garter, to measure"
rows  = ["k", "p"]
times = %d

[[zone]]
name = "top border"
like = "bottom border"

[[zone]]
name   = "set-up"
border = true
rows   = ["k"]
`

func even(n int) int { return n + n%2 }

// Regauge is a pattern's text with the gauge that a maker measured. What was not measured
// with it is carried over in proportion, and said to be; every other byte stays. The text
// must be a pattern file that loads.
func Regauge(text []byte, g pattern.Gauge) (changed []byte, carried []string, err error) {
	p, found := file.Load("the file", text)
	if p == nil {
		return nil, nil, found.Err()
	}
	r := &resizer{wish: Wish{Gauge: g, Weight: pattern.UnknownWeight}, text: text, old: p}
	if err := r.newDesign(); err != nil {
		return nil, nil, err
	}
	changed, err = file.Rewrite(text, r.gaugeChanges())
	return changed, r.found.Estimated, err
}
