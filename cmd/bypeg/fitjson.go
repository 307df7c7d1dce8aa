package main

import (
	"math"

	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/tui/report"
)

// What fit tells programs. Fields stand in the order of their names. What is not known is
// null.

type jsonFitted struct {
	By          *string    `json:"by_own"`
	Edges       jsonEdges  `json:"edges"`
	Estimated   []string   `json:"estimated"`
	HeightCM    *float64   `json:"height_cm"`
	Loom        jsonOnLoom `json:"loom"`
	Markers     []int      `json:"markers"`
	Own         []jsonOwn  `json:"own"`
	Rows        int        `json:"rows"`
	Schema      int        `json:"schema"`
	Stitches    int        `json:"stitches"`
	Warnings    []string   `json:"warnings"`
	WidthCM     *float64   `json:"width_cm"`
	Yarn        jsonYarn   `json:"yarn"`
	YarnClasses []int      `json:"yarn_classes"`
}

// jsonOwn is a finished piece of the maker's, and the figures that it tells.
type jsonOwn struct {
	Date       string   `json:"date"`
	GPer1000   *float64 `json:"g_per_1000_stitches"`
	GarterRows *float64 `json:"garter_rows_in_10_cm"`
	Grams      *float64 `json:"grams"`
	HeightCM   *float64 `json:"height_cm"`
	Rows       *float64 `json:"rows_in_10_cm"`
	Stitches   *float64 `json:"stitches_in_10_cm"`
	Title      string   `json:"title"`
	WidthCM    *float64 `json:"width_cm"`
}

func jsonOfOwn(o *report.Own) jsonOwn {
	f := o.Figures
	two := func(x float64) *float64 { return orNull(math.Round(100*x) / 100) }
	return jsonOwn{
		Date: o.Date, Title: o.Title, GPer1000: two(1000 * f.PerStitch), Grams: orNull(tenths(f.Finished.Grams)),
		Stitches: two(f.Gauge.Stitches), Rows: two(f.Gauge.Rows), GarterRows: two(f.Gauge.GarterRows),
		WidthCM:  orNull(tenths(f.Finished.Width.In(measure.Centimetre))),
		HeightCM: orNull(tenths(f.Finished.Height.In(measure.Centimetre))),
	}
}

type jsonEdges struct {
	Bottom *jsonEdge `json:"bottom"`
	Left   *jsonEdge `json:"left"`
	Right  *jsonEdge `json:"right"`
	Top    *jsonEdge `json:"top"`
}

type jsonEdge struct {
	Index float64 `json:"index"`
	Words string  `json:"words"`
}

type jsonOnLoom struct {
	FirstPeg  *int     `json:"first_peg"`
	Fits      *bool    `json:"fits"`
	Name      *string  `json:"name"`
	SpacingMM *float64 `json:"spacing_mm"`
}

type jsonYarn struct {
	Balls   *int     `json:"balls"`
	GLikely *float64 `json:"g_likely"`
	MHigh   *float64 `json:"m_high"`
	MLikely *float64 `json:"m_likely"`
	MLow    *float64 `json:"m_low"`
}

// orNull is a figure, or null where it is 0 and so not known.
func orNull[T int | float64 | string](x T) *T {
	var none T
	if x == none {
		return nil
	}
	return &x
}

func jsonOf(r *report.Report, carried bool) jsonFitted {
	p := r.Order.Pattern
	stitches, _ := fit.StitchesOf(p)
	j := jsonFitted{
		Estimated: estimated(r, carried), Markers: []int{}, Own: []jsonOwn{}, Rows: p.Grid.Rows(), Schema: jsonSchema, Stitches: stitches,
		Warnings: orEmpty(append(append(append([]string(nil), r.Doubts...), r.StrayLines()...), r.Cautions...)),
		WidthCM:  orNull(tenths(r.Size.Width.Likely.In(measure.Centimetre))),
		HeightCM: orNull(tenths(r.Size.Height.Likely.In(measure.Centimetre))),
		Yarn:     jsonYarnOf(r), YarnClasses: append([]int{}, r.Classes...),
	}
	for i := range r.Owns {
		j.Own = append(j.Own, jsonOfOwn(&r.Owns[i]))
	}
	if r.By != nil {
		j.By = &r.By.Title
	}
	for _, m := range r.Markers {
		j.Markers = append(j.Markers, m.Peg)
	}
	for _, e := range r.Edges {
		edge := &jsonEdge{Index: math.Round(1000*e.Index) / 1000, Words: e.Roll.String()}
		*map[fit.EdgeOf]**jsonEdge{
			fit.BottomEdge: &j.Edges.Bottom, fit.LeftEdge: &j.Edges.Left, fit.RightEdge: &j.Edges.Right, fit.TopEdge: &j.Edges.Top,
		}[e.Of] = edge
	}
	l := r.Loom
	j.Loom = jsonOnLoom{FirstPeg: orNull(l.First), Name: orNull(l.Name), SpacingMM: orNull(math.Round(100*l.Loom.SpacingMM) / 100)}
	if l.Fits != fit.Unknown {
		yes := l.Fits == fit.Yes
		j.Loom.Fits = &yes
	}
	return j
}

// jsonYarnOf is all yarns together. What is not known of one of them is not known of all.
func jsonYarnOf(r *report.Report) jsonYarn {
	needs := r.Yarns
	if r.Held != nil {
		needs = append([]fit.YarnNeed{*r.Held}, needs[1:]...)
	}
	return jsonOfNeeds(needs, r.Margin)
}

func jsonOfNeeds(needs []fit.YarnNeed, margin float64) jsonYarn {
	var sum fit.Amount
	balls, allBalls, allGrams := 0, true, true
	for i := range needs {
		n := needs[i].Balls(margin)
		sum, balls = sum.Plus(needs[i].Amount), balls+n
		if needs[i].Metres.Known() || needs[i].Grams.Known() {
			allBalls, allGrams = allBalls && n > 0, allGrams && needs[i].Grams.Known()
		}
	}
	m := sum.Metres
	j := jsonYarn{MHigh: orNull(math.Round(m.High)), MLikely: orNull(math.Round(m.Likely)), MLow: orNull(math.Round(m.Low))}
	if allBalls {
		j.Balls = orNull(balls)
	}
	if allGrams {
		j.GLikely = orNull(math.Round(sum.Grams.Likely))
	}
	return j
}

// estimated are the names of the figures that are estimates.
func estimated(r *report.Report, carried bool) []string {
	names := []string{"edges"}
	if r.Size.HeightEstimated() || carried {
		names = append(names, "height_cm")
	}
	if r.Size.WidthEstimated {
		names = append(names, "width_cm")
	}
	return append(names, "yarn")
}
