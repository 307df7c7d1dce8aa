package main

import (
	"io"
	"math"

	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

// What fit tells programs where no pattern is named. Fields stand in the order of their
// names. What is not known is null.

// jsonCounts is what the counts tell programs: the best first.
type jsonCounts struct {
	Counts   []jsonCount `json:"counts"`
	Schema   int         `json:"schema"`
	Warnings []string    `json:"warnings"`
}

type jsonCount struct {
	FitsLoom *bool    `json:"fits_loom,omitempty"`
	HeightCM *float64 `json:"height_cm,omitempty"`
	Pegs     *int     `json:"pegs,omitempty"`
	Rows     *int     `json:"rows,omitempty"`
	WidthCM  *float64 `json:"width_cm,omitempty"`
}

func (ask *fitting) writeCountsJSON(out io.Writer, c *fit.Counted, w fit.CountWish) {
	writeIndented(out, jsonCounts{Counts: ask.jsonOfCounts(c, w), Schema: jsonSchema, Warnings: orEmpty(ask.countNotes(c, w))})
}

func (ask *fitting) jsonOfCounts(c *fit.Counted, w fit.CountWish) []jsonCount {
	var all []jsonCount
	for _, n := range append([]fit.Count{c.Best}, c.Others...) {
		size := tenths(n.Size.In(measure.Centimetre))
		one := jsonCount{Pegs: &n.N, WidthCM: &size}
		if ask.height != "" {
			one = jsonCount{Rows: &n.N, HeightCM: &size}
		}
		if w.Limit > 0 {
			one.FitsLoom = &n.Fits
		}
		all = append(all, one)
	}
	return all
}

// jsonPegs is what a count that the maker has in mind comes to.
type jsonPegs struct {
	Estimated []string     `json:"estimated"`
	Pegs      int          `json:"pegs"`
	Repeats   []jsonRepeat `json:"repeats"`
	Schema    int          `json:"schema"`
	Square    jsonSquare   `json:"square"`
	Warnings  []string     `json:"warnings"`
	WidthCM   *float64     `json:"width_cm"`
}

// jsonRepeat is how a repeat comes out: so many whole ones, pegs over, and counts on which
// it lies in the middle, with whole repeats or with halves mirrored at both ends.
type jsonRepeat struct {
	EvenWith []jsonEven `json:"even_with"`
	Mirrored []jsonEven `json:"mirrored"`
	Multiple int        `json:"multiple"`
	Over     int        `json:"over"`
	Plus     int        `json:"plus"`
	Repeats  int        `json:"repeats"`
}

// jsonEven is a count between the sides, with so many of its pegs at each edge.
type jsonEven struct {
	Edge    int `json:"edge"`
	Pegs    int `json:"pegs"`
	Repeats int `json:"repeats"`
}

// jsonSquare is the rows that make a square, to the hair.
type jsonSquare struct {
	GarterRows *float64 `json:"garter_rows"`
	Rows       *float64 `json:"rows"`
}

func jsonOfPegs(pegs int, told atPegs) jsonPegs {
	j := jsonPegs{
		Estimated: []string{}, Pegs: pegs, Repeats: []jsonRepeat{}, Schema: jsonSchema, Warnings: []string{},
		Square:  jsonSquare{GarterRows: orNull(tenths(told.garter)), Rows: orNull(tenths(told.plain))},
		WidthCM: orNull(tenths(told.width.In(measure.Centimetre))),
	}
	if told.derived {
		j.Estimated = append(j.Estimated, "garter_rows")
	}
	for _, r := range told.repeats {
		one := jsonRepeat{
			EvenWith: jsonOfEven(r.even, r.of.Plus), Mirrored: jsonOfEven(r.halves, r.of.Plus),
			Multiple: r.of.Of, Over: r.over, Plus: r.of.Plus, Repeats: r.repeats,
		}
		if r.repeats == 0 {
			j.Warnings = append(j.Warnings, "too few pegs for "+repeatsText(1, r.of))
		}
		j.Repeats = append(j.Repeats, one)
	}
	return j
}

func jsonOfEven(counts []fit.Balanced, plus int) []jsonEven {
	all := []jsonEven{}
	for _, b := range counts {
		all = append(all, jsonEven{Edge: b.Edge, Pegs: b.Pegs + plus, Repeats: b.Repeats})
	}
	return all
}

// jsonOneYarn is what a yarn is, by whatever names it.
type jsonOneYarn struct {
	Classes      []jsonClass `json:"classes"`
	Denier       *float64    `json:"denier"`
	MetresIn100g *float64    `json:"metres_in_100_g"`
	Ne           *float64    `json:"ne"`
	Nm           *float64    `json:"nm"`
	Schema       int         `json:"schema"`
	Tex          *float64    `json:"tex"`
	Warnings     []string    `json:"warnings"`
	YarnClasses  []int       `json:"yarn_classes"`
}

type jsonClass struct {
	Class         int      `json:"class"`
	MetresIn100g  jsonSpan `json:"metres_in_100_g"`
	Name          string   `json:"name"`
	StitchesIn4In jsonSpan `json:"stitches_in_4_in"`
	WPI           jsonSpan `json:"wpi"`
}

// jsonSpan has null where it is open.
type jsonSpan struct {
	High *float64 `json:"high"`
	Low  *float64 `json:"low"`
}

func jsonOfSpan(s fit.Span) jsonSpan {
	j := jsonSpan{Low: orNull(s.Low)}
	if s.High < fit.Open {
		j.High = &s.High
	}
	return j
}

func jsonOfYarn(classes []int, metresIn100g float64) jsonOneYarn {
	j := jsonOneYarn{Classes: []jsonClass{}, Schema: jsonSchema, Warnings: []string{}, YarnClasses: append([]int{}, classes...)}
	for _, c := range classes {
		k := fit.Classes[c]
		j.Classes = append(j.Classes, jsonClass{c, jsonOfSpan(k.Metres), k.Name, jsonOfSpan(k.Stitches), jsonOfSpan(k.WPI)})
	}
	if len(classes) > 1 {
		j.Warnings = append(j.Warnings, classesOverlap)
	}
	if metresIn100g > 0 {
		t := texOf(metresIn100g)
		j.MetresIn100g, j.Tex, j.Denier = orNull(tenths(metresIn100g)), orNull(tenths(float64(t))), orNull(tenths(t.Denier()))
		j.Nm, j.Ne = orNull(math.Round(1000*t.Nm())/1000), orNull(math.Round(1000*t.Ne())/1000)
	}
	return j
}

// jsonSample is the yarn for a size, by a swatch.
type jsonSample struct {
	Schema   int            `json:"schema"`
	Warnings []string       `json:"warnings"`
	Yarn     jsonSampleYarn `json:"yarn"`
}

type jsonSampleYarn struct {
	Balls   *int     `json:"balls"`
	GLikely *float64 `json:"g_likely"`
	GToBuy  *float64 `json:"g_to_buy"`
	MLikely *float64 `json:"m_likely"`
	MToBuy  *float64 `json:"m_to_buy"`
}

// jsonOfSample tells what is needed, so many times as much to buy, and how many balls that
// is.
func jsonOfSample(need fit.Stock, times float64, balls int) jsonSample {
	return jsonSample{Schema: jsonSchema, Warnings: []string{}, Yarn: jsonSampleYarn{
		Balls:   orNull(balls),
		GLikely: orNull(math.Round(need.Grams)), GToBuy: orNull(math.Round(need.Grams * times)),
		MLikely: orNull(math.Round(need.Metres)), MToBuy: orNull(math.Round(need.Metres * times)),
	}}
}
