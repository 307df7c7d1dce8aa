package main

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
	"bypeg/tui/report"
	"bypeg/tui/track"
)

// fitAlone answers without a pattern: how many pegs, how many rows, which yarn.
func (p *program) fitAlone(ask *fitting) error {
	out := bufio.NewWriter(p.out)
	var err error
	switch {
	case ask.swatch:
		if err = ask.swatchAlone(out); err == nil {
			p.noteSwatch()
		}
	case ask.given("sample"):
		err = ask.bySample(out)
	case ask.given("width") && ask.given("height"):
		err = ask.cloth(out)
	case ask.given("width") || ask.given("height"):
		err = ask.countTo(out)
	case ask.given("pegs"):
		err = ask.countAt(out)
	default:
		err = ask.tellYarn(out)
	}
	if err != nil {
		return err
	}
	return written(out.Flush())
}

// multiples reads --multiple and --plus.
func (ask *fitting) multiples() ([]fit.Multiple, error) {
	if ask.plus < 0 || ask.plus > pattern.MaxPegs {
		return nil, usage("write --multiple 8 --plus 3", "--plus is stitches beside the repeats, 0 to %d", pattern.MaxPegs)
	}
	var all []fit.Multiple
	for _, text := range ask.multiple {
		of, plus, both := strings.Cut(strings.ReplaceAll(strings.TrimSpace(text), "plus", "+"), "+")
		m := fit.Multiple{Plus: ask.plus}
		var errOf, errPlus error
		m.Of, errOf = strconv.Atoi(strings.TrimSpace(of))
		if both {
			m.Plus, errPlus = strconv.Atoi(strings.TrimSpace(plus))
		}
		if errOf != nil || errPlus != nil || m.Of < 1 || m.Plus < 0 || m.Of > pattern.MaxPegs || m.Plus > pattern.MaxPegs {
			return nil, usage("write --multiple 8 --plus 3, or --multiple 8+3", "--multiple cannot be %q", safetext.Clean(text))
		}
		all = append(all, m)
	}
	if len(all) == 0 && ask.plus > 0 {
		return nil, usage("write --multiple 8 --plus 3", "--plus is beside a --multiple")
	}
	return all, nil
}

// wish is what is to be met: a width in pegs, or a height in rows.
func (ask *fitting) wish() (w fit.CountWish, g pattern.Gauge, err error) {
	if ask.gauge == "" {
		return w, g, usage(`write --gauge "24 pegs = 18.5 cm"`, "a size alone is no count: the gauge is missing")
	}
	if g, err = fit.ParseGauge(ask.gauge); err != nil {
		return w, g, usage("", "--gauge: %w", err)
	}
	if w.Multiples, err = ask.multiples(); err != nil {
		return w, g, err
	}
	switch ask.form {
	case pattern.Panel.String():
	case pattern.Tube.String():
		w.Form = pattern.Tube
	default:
		return w, g, usage("write --form panel or --form tube", "--form cannot be %q", safetext.Clean(ask.form))
	}
	flag, text := "--width", ask.width
	w.Per10, w.Ends, w.Limit = measure.Density(g.Stitches), 2*ask.sides, ask.loom
	missing := `the gauge says no stitches: write it like "24 pegs = 18.5 cm"`
	if ask.height != "" {
		flag, text = "--height", ask.height
		w.Per10, w.Ends, w.Limit, w.Form = measure.Density(g.Rows), ask.ends, 0, pattern.Panel
		missing = `the gauge says no rows: write it like "18 rows = 10 cm"`
	}
	switch {
	case ask.sides < 0 || ask.ends < 0 || ask.sides > pattern.MaxPegs/2 || ask.ends > pattern.MaxRows:
		return w, g, usage("write --sides 4, or --height 70cm --ends 17", "--sides and --ends are counts, 0 or more")
	case ask.given("loom") && (ask.loom < 1 || ask.loom > pattern.MaxPegs):
		return w, g, usage("write --loom 41", "--loom is a number of pegs, from 1 to %d", pattern.MaxPegs)
	case w.Per10 <= 0:
		return w, g, usage("", "--gauge: %s", missing)
	}
	if w.Size, err = measure.ParseLength(text); err != nil {
		return w, g, usage("write it like "+flag+" 52cm", "%s: %w", flag, err)
	}
	return w, g, nil
}

// countTo tells which counts come nearest to a size.
func (ask *fitting) countTo(out io.Writer) error {
	c, w, err := ask.counts()
	switch {
	case err != nil:
		return err
	case ask.json:
		ask.writeCountsJSON(out, c, w)
	default:
		ask.writeCounts(out, c, w)
		writeNotes(out, ask.countNotes(c, w))
	}
	return nil
}

// counts are the counts that come nearest to the size asked for, a width or a height.
func (ask *fitting) counts() (*fit.Counted, fit.CountWish, error) {
	w, _, err := ask.wish()
	if err != nil {
		return nil, w, err
	}
	if n, most := w.Per10.Count(w.Size), ask.most(); n > float64(most) {
		return nil, w, &failure{exitWrong, fmt.Errorf("that would take %.0f %ss; a pattern has at most %d", n, ask.counted(), most), "ask for a smaller size"}
	}
	c, err := fit.CountsFor(w)
	if err != nil {
		return nil, w, &failure{exitWrong, err, ""}
	}
	if c.Exact > float64(w.Limit)*(1+farOff/100.0) && w.Limit > 0 {
		return nil, w, ask.refuseLoom(c, w)
	}
	return c, w, nil
}

func (ask *fitting) writeCounts(out io.Writer, c *fit.Counted, w fit.CountWish) {
	fmt.Fprintf(out, "%s would be %s %ss\n", ask.sizeAsked(w.Size), measure.Number(c.Exact, 1), ask.counted())
	fmt.Fprintf(out, "take      %s\n", ask.countText(c.Best, w))
	for i, other := range c.Others {
		label := "or"
		if i > 0 {
			label = ""
		}
		fmt.Fprintf(out, "%-9s %s\n", label, ask.countText(other, w))
	}
}

func writeNotes(out io.Writer, notes []string) {
	for _, note := range notes {
		fmt.Fprintf(out, "note: %s\n", note)
	}
}

// sizeAsked is the size that was asked for, in centimetres and in the maker's own unit.
func (ask *fitting) sizeAsked(size measure.Length) string {
	text := measure.Number(size.In(measure.Centimetre), 2) + " cm"
	if ask.inInches() {
		return fmt.Sprintf("%s in (%s)", measure.Number(size.In(measure.Inch), 2), text)
	}
	return text
}

// size is a size to the millimetre, and in inches beside it where they were asked for.
func (ask *fitting) size(size measure.Length) string {
	if ask.inInches() {
		return fmt.Sprintf("%s (%s)", size, report.Inches(size))
	}
	return size.String()
}

func (ask *fitting) inInches() bool { return measure.InInches(cmp.Or(ask.height, ask.width)) }

// most is how many of what is counted a pattern has.
func (ask *fitting) most() int {
	if ask.height != "" {
		return pattern.MaxRows
	}
	return pattern.MaxPegs
}

func (ask *fitting) counted() string {
	switch {
	case ask.height == "":
		return "peg"
	case ask.form == pattern.Tube.String():
		return pattern.Tube.RowWord()
	}
	return pattern.Panel.RowWord()
}

// countText is a count with what it is made of: "67 pegs = 4 + 59 + 4: 51.6 cm".
func (ask *fitting) countText(c fit.Count, w fit.CountWish) string {
	text := track.Plural(c.N, ask.counted())
	if w.Ends > 0 && ask.height == "" {
		text += fmt.Sprintf(" = %d + %d + %[1]d", w.Ends/2, c.N-w.Ends)
	}
	if inside := c.N - w.Ends; len(w.Multiples) == 1 {
		m := w.Multiples[0]
		if w.Form == pattern.Tube {
			m.Plus = 0
		}
		text += ", " + repeatsText((inside-m.Plus)/m.Of, m)
	}
	text += ": " + ask.size(c.Size)
	if !c.Fits {
		text += ", more than the loom has"
	}
	return text
}

// refuseLoom is the answer where a loom has far too few pegs.
func (ask *fitting) refuseLoom(c *fit.Counted, w fit.CountWish) error {
	return &failure{
		exitWrong, fmt.Errorf("%s takes %d pegs, and the loom has %d: at most %s go on it, %s", ask.sizeAsked(w.Size), c.Wide.N, w.Limit, track.Plural(c.Best.N, "peg"), ask.size(c.Best.Size)),
		panelsHint(c.Wide.N, w),
	}
}

// panelsHint is how a width could be had on a shorter loom.
func panelsHint(pegs int, w fit.CountWish) string {
	const otherwise = "take a looser stitch, or a coarser loom"
	if w.Form != pattern.Panel {
		return otherwise
	}
	n, each := w.Panels(pegs)
	if n < 2 {
		return otherwise
	}
	return fmt.Sprintf("%d panels of %d pegs, each with as many rows, are %s wide once they are sewn, for a seam takes an edge peg of both; or %s",
		n, each, w.Per10.Length(float64(fit.Sewn(n, each))), otherwise)
}

// largestPiece is from what size on a wrong unit is likelier than such a piece.
const largestPiece = 10 * measure.Metre

func (ask *fitting) countNotes(c *fit.Counted, w fit.CountWish) []string {
	var notes []string
	if w.Size > largestPiece {
		notes = append(notes, ask.sizeAsked(w.Size)+" is a very large piece: is the unit the one that is meant?")
	}
	if ask.height == "" {
		notes = append(notes, fit.GaugeDoubt(float64(w.Per10))...)
	}
	if w.Form == pattern.Tube && slices.ContainsFunc(w.Multiples, func(m fit.Multiple) bool { return m.Plus > 0 }) {
		notes = append(notes, "in a tube the plus is dropped: the round closes on itself")
	}
	if off := 100 * math.Abs(float64(c.Best.N)-c.Exact) / c.Exact; off > farOff && c.Best.N != w.Limit {
		notes = append(notes, fmt.Sprintf("that is %.0f %% off, and no whole repeat comes nearer: ask for another size, or take a smaller repeat or narrower borders", off))
	}
	if pegs := c.Wide.N; w.Limit > 0 && pegs > w.Limit {
		notes = append(notes, fmt.Sprintf("%d pegs do not go on a loom of %d: %s", pegs, w.Limit, panelsHint(pegs, w)))
	}
	return notes
}
