package main

import (
	"io"
	"math"

	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

// Candidates as programs are told them. Fields stand in the order of their names. What is
// not known is null.

type jsonResized struct {
	Candidates []jsonCandidate `json:"candidates"`
	Estimated  []string        `json:"estimated"`
	Schema     int             `json:"schema"`
	Warnings   []string        `json:"warnings"`
}

type jsonCandidate struct {
	ErrorPercent float64  `json:"error_percent"`
	FitsLoom     *bool    `json:"fits_loom"`
	HeightCM     *float64 `json:"height_cm"`
	Pegs         int      `json:"pegs"`
	Rows         int      `json:"rows"`
	Sides        int      `json:"sides"`
	Warnings     []string `json:"warnings"`
	WidthCM      *float64 `json:"width_cm"`
	Yarn         *float64 `json:"yarn_m_likely"`
}

func jsonOfCandidate(c fit.Candidate) jsonCandidate {
	j := jsonCandidate{ErrorPercent: tenths(c.Error), Pegs: c.Pegs, Rows: c.Rows, Sides: c.Sides, Warnings: orEmpty(c.Notes)}
	if c.Fits != fit.Unknown {
		yes := c.Fits == fit.Yes
		j.FitsLoom = &yes
	}
	known := func(x float64) *float64 {
		if x == 0 {
			return nil
		}
		return &x
	}
	j.WidthCM, j.HeightCM = known(tenths(c.Width.In(measure.Centimetre))), known(tenths(c.Height.In(measure.Centimetre)))
	j.Yarn = known(math.Round(c.Yarn))
	return j
}

func tenths(x float64) float64 { return math.Round(x*10) / 10 }

// orEmpty is a list that JSON writes as [] where it is empty.
func orEmpty(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}

func writeResizedJSON(w io.Writer, r *fit.Resized) {
	j := jsonResized{Estimated: orEmpty(r.Estimated), Schema: jsonSchema, Warnings: orEmpty(r.Notes)}
	for _, c := range r.Candidates {
		j.Candidates = append(j.Candidates, jsonOfCandidate(c))
	}
	writeIndented(w, j)
}
