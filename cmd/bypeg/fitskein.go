package main

import (
	"fmt"
	"io"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/tui/track"
)

// tellYarn tells what a yarn is, by whatever names it.
func (ask *fitting) tellYarn(out io.Writer) error {
	y, err := fit.ParseYarn(ask.yarn)
	if err != nil {
		return usage("", "--yarn: %w", err)
	}
	classes, metres := fit.ClassesOf(y), fit.MetresIn100g(y)
	if ask.json {
		writeIndented(out, jsonOfYarn(classes, metres))
		return nil
	}
	for _, c := range classes {
		k := fit.Classes[c]
		fmt.Fprintf(out, "class %d   %s: %s stitches in 4 in (10.16 cm), plain; %s wraps per inch; %s m in 100 g\n",
			c, k.Name, spanText(k.Stitches), spanText(k.WPI), spanText(k.Metres))
	}
	if metres > 0 {
		t := texOf(metres)
		fmt.Fprintf(out, "thickness %.0f m in 100 g, %.0f tex, Nm %s, Ne %s, %.0f denier\n", metres, float64(t), measure.Number(t.Nm(), 1), measure.Number(t.Ne(), 1), t.Denier())
	}
	if len(classes) > 1 {
		fmt.Fprintln(out, "note: "+classesOverlap)
	}
	return nil
}

const classesOverlap = "classes overlap; work a swatch"

func texOf(metresIn100g float64) fit.Tex { return fit.Tex(100 * 1000 / metresIn100g) }

// bySample tells how much yarn a size takes, by a swatch that was measured and weighed.
func (ask *fitting) bySample(out io.Writer) error {
	s, err := fit.ParseSample(ask.sample)
	if err != nil {
		return usage("", "--sample: %w", err)
	}
	width, err := measure.ParseLength(ask.width)
	if err != nil {
		return usage("write it like --width 90cm", "--width: %w", err)
	}
	height, err := measure.ParseLength(ask.height)
	if err != nil {
		return usage("write it like --height 110cm", "--height: %w", err)
	}
	need := s.For(width, height)
	var ball fit.Stock
	balls := 0
	if ask.ball != "" {
		if ball, err = fit.ParseStock(ask.ball); err != nil {
			return usage("", "--ball: %w", err)
		}
		if balls = need.Balls(ball, ask.margin/100); balls == 0 {
			return usage("say both in grams, or both in metres", "the sample and the ball are told in different units")
		}
	}
	if ask.json {
		writeIndented(out, jsonOfSample(need, 1+ask.margin/100, balls))
		return nil
	}
	fmt.Fprintf(out, "yarn      %s, %s with %s %% to spare\n", stockText(need, 1), stockText(need, 1+ask.margin/100), measure.Number(ask.margin, 1))
	if balls > 0 {
		fmt.Fprintf(out, "buy       %s of %s, of one dye lot\n", track.Plural(balls, "ball"), stockText(ball, 1))
	}
	return nil
}

// swatchAlone is a swatch for the loom and the yarn at hand.
func (ask *fitting) swatchAlone(out io.Writer) error {
	d := pattern.Design{Yarns: []pattern.YarnInfo{{Weight: pattern.UnknownWeight}}}
	err := ask.heedLoom(&d, fewestPegs)
	if err != nil {
		return err
	}
	if ask.yarn != "" {
		if d.Yarns[0], err = fit.ParseYarn(ask.yarn); err != nil {
			return usage("", "--yarn: %w", err)
		}
	}
	if ask.gauge != "" {
		if d.Gauge, err = fit.ParseGauge(ask.gauge); err != nil {
			return usage("", "--gauge: %w", err)
		}
	}
	_, err = io.WriteString(out, fit.SwatchFor(&d, ""))
	return err
}

// heedLoom puts the loom at hand in place of a design's own. Of a loom that is told in part
// the rest is not known.
func (ask *fitting) heedLoom(d *pattern.Design, fewest int) error {
	if !ask.given("loom") && !ask.given("spacing") {
		return nil
	}
	d.Loom = pattern.Loom{Pegs: ask.loom}
	if ask.given("loom") && (ask.loom < fewest || ask.loom > pattern.MaxPegs) {
		return usage("write --loom 41", "--loom is a number of pegs, from %d to %d", fewest, pattern.MaxPegs)
	}
	if ask.given("spacing") {
		l, err := measure.ParseLength(ask.spacing)
		if err != nil {
			return usage(`write it like --spacing "1/2 in"`, "--spacing: %w", err)
		}
		d.Loom.SpacingMM = l.In(measure.Millimetre)
	}
	return nil
}

// fewestPegs is the shortest loom that a swatch can be measured on.
const fewestPegs = 5

func stockText(s fit.Stock, times float64) string {
	if s.Grams > 0 {
		return fmt.Sprintf("%.0f g", s.Grams*times)
	}
	return fmt.Sprintf("%.0f m", s.Metres*times)
}

// spanText is a span as people say it.
func spanText(s fit.Span) string {
	switch {
	case s.High >= fit.Open:
		return measure.Number(s.Low, 2) + " or more"
	case s.Low == 0:
		return "under " + measure.Number(s.High, 2)
	}
	return measure.Number(s.Low, 2) + " to " + measure.Number(s.High, 2)
}
