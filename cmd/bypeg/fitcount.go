package main

import (
	"bufio"
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
	case ask.sample != "":
		err = ask.bySample(out)
	case ask.width != "" || ask.height != "":
		err = ask.countTo(out)
	case ask.pegs != 0:
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
	case ask.width != "" && ask.height != "":
		return w, g, usage("ask for one after the other", "--width counts pegs and --height rows")
	case ask.sides < 0 || ask.ends < 0 || ask.loom < 0 || ask.sides > pattern.MaxPegs || ask.ends > pattern.MaxRows || ask.loom > pattern.MaxPegs:
		return w, g, usage("write --sides 4 and --loom 41", "--sides, --ends and --loom are counts, 0 or more")
	case w.Per10 <= 0:
		return w, g, usage("", "--gauge: %s", missing)
	}
	if w.Size, err = measure.ParseLength(text); err != nil {
		return w, g, usage("write it like "+flag+" 52cm", "%s: %w", flag, err)
	}
	return w, g, nil
}

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

// countTo tells which counts come nearest to a size.
func (ask *fitting) countTo(out io.Writer) error {
	w, _, err := ask.wish()
	if err != nil {
		return err
	}
	c, err := fit.CountsFor(w)
	if err != nil {
		return &failure{exitWrong, err, ""}
	}
	if c.Exact > float64(w.Limit)*(1+farOff/100.0) && w.Limit > 0 {
		return ask.refuseLoom(c, w)
	}
	if ask.json {
		ask.writeCountsJSON(out, c, w)
		return nil
	}
	word := ask.counted(w.Form)
	fmt.Fprintf(out, "%s cm is %s %s to the hair\n", measure.Number(w.Size.In(measure.Centimetre), 2), measure.Number(c.Exact, 1), word+"s")
	fmt.Fprintf(out, "take      %s\n", ask.countText(c.Best, w, word))
	for i, other := range c.Others {
		label := "or"
		if i > 0 {
			label = ""
		}
		fmt.Fprintf(out, "%-9s %s\n", label, ask.countText(other, w, word))
	}
	for _, note := range ask.countNotes(c, w) {
		fmt.Fprintf(out, "note: %s\n", note)
	}
	return nil
}

func (ask *fitting) counted(form pattern.Form) string {
	if ask.height != "" {
		return form.RowWord()
	}
	return "peg"
}

// countText is a count with what it is made of: "67 pegs = 4 + 59 + 4: 51.6 cm".
func (ask *fitting) countText(c fit.Count, w fit.CountWish, word string) string {
	text := track.Plural(c.N, word)
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
	text += ": " + measure.Number(c.Size.In(measure.Centimetre), 1) + " cm"
	if !c.Fits {
		text += ", more than the loom has"
	}
	return text
}

// refuseLoom is the answer where a loom has far too few pegs.
func (ask *fitting) refuseLoom(c *fit.Counted, w fit.CountWish) error {
	pegs := int(math.Round(c.Exact))
	return &failure{
		exitWrong, fmt.Errorf("%s takes %d pegs, and the loom has %d: at most %s go on it, %s", w.Size, pegs, w.Limit, track.Plural(c.Best.N, "peg"), c.Best.Size),
		panelsHint(pegs, w),
	}
}

// panelsHint is how a width could be had on a shorter loom.
func panelsHint(pegs int, w fit.CountWish) string {
	if n, each := fit.Panels(pegs, w.Limit); n > 1 && w.Form == pattern.Panel {
		return fmt.Sprintf("%d panels of %d pegs, each with as many rows, would make it: a seam takes an edge peg of both; or take a looser stitch, or a coarser loom", n, each)
	}
	return "take a looser stitch, or a coarser loom"
}

func (ask *fitting) countNotes(c *fit.Counted, w fit.CountWish) []string {
	var notes []string
	if w.Form == pattern.Tube && slices.ContainsFunc(w.Multiples, func(m fit.Multiple) bool { return m.Plus > 0 }) {
		notes = append(notes, "in a tube the plus is dropped: the round closes on itself")
	}
	if pegs := int(math.Round(c.Exact)); w.Limit > 0 && pegs > w.Limit {
		notes = append(notes, fmt.Sprintf("%d pegs do not go on a loom of %d: %s", pegs, w.Limit, panelsHint(pegs, w)))
	}
	return notes
}

func (ask *fitting) writeCountsJSON(out io.Writer, c *fit.Counted, w fit.CountWish) {
	j := jsonCounts{Schema: jsonSchema, Warnings: orEmpty(ask.countNotes(c, w))}
	for _, n := range append([]fit.Count{c.Best}, c.Others...) {
		size := tenths(n.Size.In(measure.Centimetre))
		one := jsonCount{Pegs: &n.N, WidthCM: &size}
		if ask.height != "" {
			one = jsonCount{Rows: &n.N, HeightCM: &size}
		}
		if w.Limit > 0 {
			one.FitsLoom = &n.Fits
		}
		j.Counts = append(j.Counts, one)
	}
	writeIndented(out, j)
}

// countAt tells of a count that the maker has in mind.
func (ask *fitting) countAt(out io.Writer) error {
	if ask.pegs < 1 || ask.pegs > pattern.MaxPegs || ask.sides < 0 || 2*ask.sides >= ask.pegs {
		return usage("write --pegs 43, and --sides 3 with it", "--pegs is 1 to %d, and more than both sides take", pattern.MaxPegs)
	}
	if ask.json {
		return usage("leave --json out, or ask for --width", "--pegs is told to people alone")
	}
	all, err := ask.multiples()
	if err != nil {
		return err
	}
	inside := ask.pegs - 2*ask.sides
	for _, m := range all {
		tellRepeats(out, inside, m)
	}
	if ask.gauge == "" {
		if len(all) == 0 {
			return usage(`write --gauge "16 stitches and 22 rows in 10 cm", or --multiple 10`, "nothing is asked of the %d pegs", ask.pegs)
		}
		return nil
	}
	g, err := fit.ParseGauge(ask.gauge)
	if err != nil {
		return usage("", "--gauge: %w", err)
	}
	if g.Stitches <= 0 {
		return usage("", "--gauge: the gauge says no stitches: write it like %q", "24 pegs = 18.5 cm")
	}
	fmt.Fprintf(out, "%s are %s wide\n", track.Plural(ask.pegs, "peg"), report.SizeText(just(measure.Density(g.Stitches).Length(float64(ask.pegs)))))
	full := fit.GaugeOf(&pattern.Design{Gauge: g})
	plain, garter := fit.SquareRows(ask.pegs, full)
	if g.Rows > 0 {
		fmt.Fprintf(out, "square    in plain fabric with %s rows (%s)\n", nearest(plain), measure.Number(plain, 1))
	}
	derived := ""
	if full.Garter.From == fit.Derived {
		derived = "; garter rows were derived: a ridge is as high as a stitch is wide"
	}
	ridges := int(math.Round(garter / 2))
	fmt.Fprintf(out, "          in garter with %d rows, %s%s\n", 2*ridges, track.Plural(ridges, "ridge"), derived)
	return nil
}

func just(l measure.Length) fit.Range[measure.Length] {
	return fit.Range[measure.Length]{Low: l, Likely: l, High: l}
}

// nearest is a count that lies between two, as both where it is halfway.
func nearest(x float64) string {
	if f := x - math.Floor(x); f > 0.4 && f < 0.6 {
		return fmt.Sprintf("%.0f or %.0f", math.Floor(x), math.Ceil(x))
	}
	return fmt.Sprintf("%.0f", x)
}

// repeatsText is "7 repeats of 8 and 3".
func repeatsText(n int, m fit.Multiple) string {
	text := fmt.Sprintf("%s of %d", track.Plural(n, "repeat"), m.Of)
	if m.Plus > 0 {
		text += fmt.Sprintf(" and %d", m.Plus)
	}
	return text
}

func tellRepeats(out io.Writer, inside int, m fit.Multiple) {
	rest := inside - m.Plus
	fmt.Fprintf(out, "%s: ", track.Plural(inside, "peg"))
	switch {
	case rest < m.Of:
		fmt.Fprintf(out, "too few for %s\n", repeatsText(1, m))
	case rest%m.Of == 0:
		fmt.Fprintln(out, repeatsText(rest/m.Of, m))
	default:
		fmt.Fprintf(out, "%s, %d over\n", repeatsText(rest/m.Of, m), rest%m.Of)
		label := "even with"
		for _, b := range fit.Balance(rest, m.Of) {
			fmt.Fprintf(out, "%-9s %s: %d + %d + %[3]d\n", label, track.Plural(b.Pegs+m.Plus, "peg"), b.Edge, b.Repeats*m.Of+m.Plus)
			label = "or"
		}
	}
}

// tellYarn tells what a yarn is, by whatever names it.
func (ask *fitting) tellYarn(out io.Writer) error {
	y, err := fit.ParseYarn(ask.yarn)
	if err != nil {
		return usage("", "--yarn: %w", err)
	}
	if ask.json {
		return usage("leave --json out", "--yarn alone is told to people alone")
	}
	classes := fit.ClassesOf(y)
	for _, c := range classes {
		k := fit.Classes[c]
		fmt.Fprintf(out, "class %d   %s: %s stitches in 4 in (10.16 cm), plain; %s wraps per inch; %s m in 100 g\n",
			c, k.Name, spanText(k.Stitches), spanText(k.WPI), spanText(k.Metres))
	}
	if m := fit.MetresIn100g(y); m > 0 {
		t := fit.Tex(100 * 1000 / m)
		fmt.Fprintf(out, "thickness %.0f m in 100 g, %.0f tex, Nm %s, Ne %s, %.0f denier\n", m, float64(t), measure.Number(t.Nm(), 1), measure.Number(t.Ne(), 1), t.Denier())
	}
	if len(classes) > 1 {
		fmt.Fprintln(out, "note: classes overlap; work a swatch")
	}
	return nil
}

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
	if ask.json {
		return usage("leave --json out", "--sample is told to people alone")
	}
	need := s.For(width, height)
	fmt.Fprintf(out, "yarn      %s, %s with %s %% to spare\n", stockText(need, 1), stockText(need, 1+ask.margin/100), measure.Number(ask.margin, 1))
	if ask.ball == "" {
		return nil
	}
	ball, err := fit.ParseStock(ask.ball)
	if err != nil {
		return usage("", "--ball: %w", err)
	}
	balls := need.Balls(ball, ask.margin/100)
	if balls == 0 {
		return usage("say both in grams, or both in metres", "the sample and the ball are told in different units")
	}
	fmt.Fprintf(out, "buy       %s of %s, of one dye lot\n", track.Plural(balls, "ball"), stockText(ball, 1))
	return nil
}

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
