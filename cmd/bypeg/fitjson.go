package main

import (
	"math"

	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

// What fit tells programs. Fields stand in the order of their names. What is not known is
// null.

type jsonFitted struct {
	Edges       jsonEdges  `json:"edges"`
	Estimated   []string   `json:"estimated"`
	HeightCM    *float64   `json:"height_cm"`
	Loom        jsonOnLoom `json:"loom"`
	Markers     []int      `json:"markers"`
	Rows        int        `json:"rows"`
	Schema      int        `json:"schema"`
	Stitches    int        `json:"stitches"`
	Warnings    []string   `json:"warnings"`
	WidthCM     *float64   `json:"width_cm"`
	Yarn        jsonYarn   `json:"yarn"`
	YarnClasses []int      `json:"yarn_classes"`
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

func (r *fitted) json() jsonFitted {
	p := r.order.Pattern
	stitches, _ := fit.StitchesOf(p)
	j := jsonFitted{
		Estimated: r.estimated(), Markers: []int{}, Rows: p.Grid.Rows(), Schema: jsonSchema, Stitches: stitches,
		Warnings: orEmpty(append(append(append([]string(nil), r.doubts...), r.strayLines()...), r.cautions...)),
		WidthCM:  orNull(tenths(r.size.Width.Likely.In(measure.Centimetre))),
		HeightCM: orNull(tenths(r.size.Height.Likely.In(measure.Centimetre))),
		Yarn:     r.jsonYarn(), YarnClasses: append([]int{}, r.classes...),
	}
	for _, m := range r.markers {
		j.Markers = append(j.Markers, m.Peg)
	}
	for _, e := range r.edges {
		edge := &jsonEdge{Index: math.Round(1000*e.Index) / 1000, Words: e.Roll.String()}
		*map[fit.EdgeOf]**jsonEdge{
			fit.BottomEdge: &j.Edges.Bottom, fit.LeftEdge: &j.Edges.Left, fit.RightEdge: &j.Edges.Right, fit.TopEdge: &j.Edges.Top,
		}[e.Of] = edge
	}
	l := r.loom
	j.Loom = jsonOnLoom{FirstPeg: orNull(l.First), Name: orNull(l.Name), SpacingMM: orNull(math.Round(100*l.Loom.SpacingMM) / 100)}
	if l.Fits != fit.Unknown {
		yes := l.Fits == fit.Yes
		j.Loom.Fits = &yes
	}
	return j
}

// jsonYarn is all yarns together.
func (r *fitted) jsonYarn() jsonYarn {
	var sum fit.Amount
	balls := 0
	needs := r.yarns
	if r.held != nil {
		needs = append([]fit.YarnNeed{*r.held}, needs[1:]...)
	}
	for i := range needs {
		sum = sum.Plus(needs[i].Amount)
		balls += needs[i].Balls(r.margin)
	}
	m, g := sum.Metres, sum.Grams
	return jsonYarn{
		Balls: orNull(balls), GLikely: orNull(math.Round(g.Likely)),
		MHigh: orNull(math.Round(m.High)), MLikely: orNull(math.Round(m.Likely)), MLow: orNull(math.Round(m.Low)),
	}
}

// estimated are the names of the figures that are estimates.
func (r *fitted) estimated() []string {
	names := []string{"edges"}
	if r.size.HeightEstimated() || r.carried {
		names = append(names, "height_cm")
	}
	if r.size.WidthEstimated {
		names = append(names, "width_cm")
	}
	return append(names, "yarn")
}
