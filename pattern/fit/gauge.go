package fit

import (
	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// Origin is where a figure of a gauge comes from.
type Origin uint8

// The origins, the surest first.
const (
	Missing     Origin = iota // nothing is known
	Measured                  // the pattern says it
	Derived                   // follows from a figure that was measured
	FromSpacing               // an estimate: from the spacing of the pegs
	FromClass                 // an estimate: from the yarn's class
	FromRatio                 // an estimate: from the other figures
)

// Estimated tells whether a figure is an estimate.
func (o Origin) Estimated() bool { return o >= FromSpacing }

// Figure is one figure of a gauge: how many there are in 10 cm.
type Figure struct {
	Range[measure.Density]
	From Origin
}

// Gauge is a gauge with what nobody measured filled in.
type Gauge struct{ Stitches, Rows, Garter Figure }

// Stretched on the pegs, a stitch is narrower once it is off them: by so much of the
// spacing. Our generalisation of published gauges; always called an estimate.
var relaxed = Range[float64]{0.67, 0.73, 0.80}

// Plain rows in a length to the stitches in it: 1.2 to 1.5 on needles (published), up to
// about 2 on looms, where the spacing fixes the width (common practice, no source).
var rowsToStitches = Range[float64]{1.2, 1.35, 2.0}

// Garter rows in a length to the plain rows in it: 1.33 as measured once, 1.5 in theory
// (both published).
var garterToPlain = Range[float64]{1.33, 1.4, 1.5}

// GaugeOf is the gauge that a design is worked in.
func GaugeOf(d *pattern.Design) Gauge {
	g := Gauge{Stitches: stitchesOf(d)}
	switch {
	case d.Gauge.Rows > 0:
		g.Rows = Figure{just(measure.Density(d.Gauge.Rows)), Measured}
	case g.Stitches.Known():
		g.Rows = Figure{g.Stitches.times(rowsToStitches), FromRatio}
	case d.Gauge.GarterRows > 0:
		g.Rows = Figure{overRatio(measure.Density(d.Gauge.GarterRows), garterToPlain), FromRatio}
	}
	switch {
	case d.Gauge.GarterRows > 0:
		g.Garter = Figure{just(measure.Density(d.Gauge.GarterRows)), Measured}
	case g.Stitches.From == Measured:
		g.Garter = Figure{just(measure.GarterRows(g.Stitches.Likely)), Derived}
	case g.Stitches.Known():
		g.Garter = Figure{g.Stitches.by(2), g.Stitches.From}
	case d.Gauge.Rows > 0:
		g.Garter = Figure{g.Rows.times(garterToPlain), FromRatio}
	}
	return g
}

func stitchesOf(d *pattern.Design) Figure {
	switch {
	case d.Gauge.Stitches > 0:
		return Figure{just(measure.Density(d.Gauge.Stitches)), Measured}
	case d.Loom.SpacingMM > 0:
		return Figure{ExpectedOn(measure.Length(d.Loom.SpacingMM)), FromSpacing}
	case len(d.Yarns) > 0:
		if classes := ClassesOf(d.Yarns[0]); len(classes) > 0 {
			return Figure{ExpectedOf(classes), FromClass}
		}
	}
	return Figure{}
}

// ExpectedOn is how many stitches in 10 cm one would expect on pegs so far apart.
func ExpectedOn(spacing measure.Length) Range[measure.Density] {
	return overRatio(measure.DensityOf(1, spacing), relaxed)
}

// ExpectedOf is how many plain stitches in 10 cm one would expect of yarns of these
// classes; there must be one at least.
func ExpectedOf(classes []int) Range[measure.Density] {
	low, high := Classes[classes[0]].Stitches, Classes[classes[0]].Stitches
	for _, c := range classes {
		low.Low, high.High = min(low.Low, Classes[c].Stitches.Low), max(high.High, Classes[c].Stitches.High)
	}
	in := func(n float64) measure.Density { return measure.DensityOf(n, 4*measure.Inch) }
	return Range[measure.Density]{in(low.Low), in((low.Low + high.High) / 2), in(high.High)}
}

// overRatio is a density divided by a ratio.
func overRatio(d measure.Density, ratio Range[float64]) Range[measure.Density] {
	return Range[measure.Density]{d / measure.Density(ratio.High), d / measure.Density(ratio.Likely), d / measure.Density(ratio.Low)}
}

// length is how long so many stitches or rows come out.
func (f Figure) length(count float64) Range[measure.Length] {
	if !f.Known() {
		return Range[measure.Length]{}
	}
	return Range[measure.Length]{f.High.Length(count), f.Likely.Length(count), f.Low.Length(count)}
}

// named is the gauge of a zone or a strip: what was measured on that very texture goes
// before the piece's own, and its rows stand for plain and garter alike.
func (g Gauge) named(d *pattern.Design, name string) Gauge {
	for _, own := range d.Gauges {
		if name == "" || own.Name != name {
			continue
		}
		if own.Stitches > 0 {
			g.Stitches = Figure{just(measure.Density(own.Stitches)), Measured}
		}
		switch {
		case own.Rows > 0:
			g.Rows = Figure{just(measure.Density(own.Rows)), Measured}
			g.Garter = g.Rows
		case own.GarterRows > 0:
			g.Garter = Figure{just(measure.Density(own.GarterRows)), Measured}
		}
	}
	return g
}
