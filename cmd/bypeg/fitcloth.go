package main

import (
	"fmt"
	"io"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/tui/report"
)

// cloth is what a plain piece of a width and a height comes to: its pegs, its rows, and the
// yarn that it takes.
type cloth struct {
	wide, high fitting // the questions for the pegs and for the rows
	across, up *fit.Counted
	width      fit.CountWish
	height     fit.CountWish
	need       *fit.YarnNeed // nil where no yarn was named
	margin     float64
	notes      []string
}

// cloth answers for a width and a height at once.
func (ask *fitting) cloth(out io.Writer) error {
	c, err := ask.clothOf()
	switch {
	case err != nil:
		return err
	case ask.json:
		writeIndented(out, jsonOfCloth(c))
	default:
		c.write(out)
	}
	return nil
}

func (ask *fitting) clothOf() (*cloth, error) {
	c := &cloth{wide: *ask, high: *ask, margin: ask.margin / 100}
	c.wide.height, c.high.width = "", ""
	c.high.multiple, c.high.plus = nil, 0 // they are of the width
	var err error
	if c.across, c.width, err = c.wide.counts(); err != nil {
		return nil, err
	}
	if c.up, c.height, err = c.high.counts(); err != nil {
		return nil, err
	}
	c.notes = append(c.wide.countNotes(c.across, c.width), c.high.countNotes(c.up, c.height)...)
	if ask.yarn == "" {
		return c, nil
	}
	y, err := fit.ParseYarn(ask.yarn)
	if err != nil {
		return nil, usage("", "--yarn: %w", err)
	}
	g := pattern.Gauge{Stitches: float64(c.width.Per10), Rows: float64(c.height.Per10)}
	n := fit.PlainNeed(g, y, c.across.Best.N, c.up.Best.N)
	c.need = &n
	if n.Balls(c.margin) == 0 {
		c.notes = append(c.notes, `how many balls is not known: name the yarn by what is in one, as in --yarn "85 m/50 g"`)
	}
	return c, nil
}

func (c *cloth) write(out io.Writer) {
	c.wide.writeCounts(out, c.across, c.width)
	fmt.Fprintf(out, "%s would be %s %ss in plain fabric\n", c.high.sizeAsked(c.height.Size), measure.Number(c.up.Exact, 1), c.high.counted())
	fmt.Fprintf(out, "take      %s\n", c.high.countText(c.up.Best, c.height))
	if c.need != nil {
		fmt.Fprintf(out, "yarn      %s\n", report.NeedText(c.need, c.margin, report.Swatch))
	}
	writeNotes(out, c.notes)
}

// jsonCloth is what a width and a height together come to.
type jsonCloth struct {
	Counts   []jsonCount `json:"counts"`
	HeightCM float64     `json:"height_cm"`
	Rows     int         `json:"rows"`
	Schema   int         `json:"schema"`
	Warnings []string    `json:"warnings"`
	Yarn     *jsonYarn   `json:"yarn"`
}

func jsonOfCloth(c *cloth) jsonCloth {
	j := jsonCloth{
		Counts: c.wide.jsonOfCounts(c.across, c.width), Rows: c.up.Best.N, HeightCM: tenths(c.up.Best.Size.In(measure.Centimetre)),
		Schema: jsonSchema, Warnings: orEmpty(c.notes),
	}
	if c.need != nil {
		y := jsonOfNeeds([]fit.YarnNeed{*c.need}, c.margin)
		j.Yarn = &y
	}
	return j
}
