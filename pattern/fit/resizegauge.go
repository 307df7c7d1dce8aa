package fit

import (
	"fmt"
	"math"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// newDesign is the design with the wished loom, gauge and yarn. A gauge that was not
// measured on them is carried over, and said to be estimated.
func (r *resizer) newDesign() error {
	d, w := r.old.Design, r.wish
	if w.Loom.Pegs > 0 {
		d.Loom.Pegs = w.Loom.Pegs
	}
	if w.Loom.SpacingMM > 0 {
		d.Loom.SpacingMM = w.Loom.SpacingMM
	}
	d.Yarns = slices.Clone(d.Yarns)
	if w.Weight != pattern.UnknownWeight {
		d.Yarns[0].Weight = w.Weight
	}
	if w.Fill && d.Loom.Pegs == 0 {
		return &Refusal{"the pattern does not say how many pegs the loom has", "add --loom 41"}
	}
	switch {
	case w.Gauge.Stitches > 0 || w.Gauge.Rows > 0 || w.Gauge.GarterRows > 0:
		r.measured(&d)
	case d.Loom.SpacingMM != r.old.Loom.SpacingMM && r.old.Loom.SpacingMM > 0:
		r.scale(&d, r.old.Loom.SpacingMM/d.Loom.SpacingMM, "carried over by the spacing of the pegs")
	case w.Weight != pattern.UnknownWeight && r.old.Yarns[0].Weight != pattern.UnknownWeight && w.Weight != r.old.Yarns[0].Weight:
		r.scale(&d, float64(ExpectedOf([]int{w.Weight}).Likely/ExpectedOf([]int{r.old.Yarns[0].Weight}).Likely), "carried over by the yarn's class")
	default:
		r.tellKept(&d)
	}
	r.design = d
	return r.checkGauges()
}

// checkGauges refuses gauges that no fabric has. The error is a *Refusal.
func (r *resizer) checkGauges() error {
	for _, g := range append([]pattern.Gauge{r.design.Gauge}, r.design.Gauges...) {
		for _, f := range []struct {
			is   float64
			name string
		}{{g.Stitches, "stitches"}, {g.Rows, "rows"}, {g.GarterRows, "garter rows"}} {
			if f.is != 0 && (f.is < fewestIn10cm || f.is > mostIn10cm) {
				return &Refusal{fmt.Sprintf("the gauge would be %s %s in 10 cm, and no knitted fabric has that", measure.Number(f.is, 3), f.name), "check the figures of --gauge and --spacing"}
			}
		}
	}
	return nil
}

// A gauge outside these is refused, as pattern files refuse it.
const (
	fewestIn10cm = 0.5
	mostIn10cm   = 500
)

// tellKept tells where a gauge stays although loom or yarn change, since nothing says how
// it would.
func (r *resizer) tellKept(d *pattern.Design) {
	const advice = ", so the gauge stays as it is: measure yours and add --gauge"
	switch {
	case d.Loom.SpacingMM != r.old.Loom.SpacingMM:
		r.found.Notes = append(r.found.Notes, "the pattern does not say the spacing of its own loom"+advice)
	case d.Yarns[0].Weight != r.old.Yarns[0].Weight:
		r.found.Notes = append(r.found.Notes, "the pattern does not say the class of its own yarn"+advice)
	}
}

// scale carries all gauges over by a ratio.
func (r *resizer) scale(d *pattern.Design, ratio float64, how string) {
	by := func(g pattern.Gauge) pattern.Gauge {
		g.Stitches, g.Rows, g.GarterRows = figure(g.Stitches*ratio), figure(g.Rows*ratio), figure(g.GarterRows*ratio)
		return g
	}
	d.Gauge = by(d.Gauge)
	d.Gauges = slices.Clone(d.Gauges)
	for i := range d.Gauges {
		d.Gauges[i] = by(d.Gauges[i])
	}
	if d.Gauge.Stitches > 0 {
		r.found.Carried = true
		r.found.Estimated = append(r.found.Estimated, fmt.Sprintf("the gauge is %s, %s stitches and %s rows in 10 cm: work a swatch before you cast on",
			how, measure.Number(d.Gauge.Stitches, 1), measure.Number(d.Gauge.Rows, 1)))
	}
}

// measured takes a gauge that was measured. What was not measured with it is carried
// over by the stitches, or else by the rows.
func (r *resizer) measured(d *pattern.Design) {
	was, is := d.Gauge, r.wish.Gauge
	ratio := 1.0
	switch {
	case is.Stitches > 0 && was.Stitches > 0:
		ratio = is.Stitches / was.Stitches
	case is.Rows > 0 && was.Rows > 0:
		ratio = is.Rows / was.Rows
	}
	var carried []string
	take := func(name string, was, is float64) float64 {
		if is > 0 {
			return figure(is)
		}
		if was > 0 && ratio != 1 {
			carried = append(carried, name)
		}
		return figure(was * ratio)
	}
	d.Gauge.Stitches = take("stitches", was.Stitches, is.Stitches)
	d.Gauge.Rows = take("rows", was.Rows, is.Rows)
	r.found.Carried = len(carried) > 0
	d.Gauge.GarterRows = take("garter rows", was.GarterRows, is.GarterRows)
	d.Gauges = slices.Clone(d.Gauges)
	for i, g := range d.Gauges {
		name := "gauge " + g.Name
		n := len(carried)
		d.Gauges[i].Stitches = take(name, g.Stitches, 0)
		d.Gauges[i].Rows = take(name, g.Rows, 0)
		d.Gauges[i].GarterRows = take(name, g.GarterRows, 0)
		carried = carried[:min(len(carried), n+1)]
	}
	for _, name := range carried {
		r.found.Estimated = append(r.found.Estimated, fmt.Sprintf("%s: carried over by the ratio of the gauges", name))
	}
}

// figure rounds a figure of a gauge to what a file is told.
func figure(x float64) float64 { return math.Round(x*1000) / 1000 }

// spacingText is a spacing as a file has it.
func (w *Wish) spacingText() string {
	if w.Spacing != "" {
		return w.Spacing
	}
	return measure.Number(w.Loom.SpacingMM, 3) + " mm"
}
