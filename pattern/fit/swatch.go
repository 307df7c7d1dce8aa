package fit

import (
	"fmt"
	"math"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// A swatch is worked before a piece, to measure its gauge on. It is a pattern like any
// other, a plain field and a band of garter, so it is worked with the same care. All is
// measured in the middle, off the loom and rested.

// What is measured over, with as much again beside it that the edges may spoil.
const (
	swatchWide   = 18 * measure.Centimetre
	swatchPlain  = 12 * measure.Centimetre
	swatchGarter = 8 * measure.Centimetre
	swatchSides  = 3 // pegs of garter at each edge
)

// A swatch is no smaller and no larger, be the gauge what it may.
const (
	fewestSwatch = 12
	mostSwatch   = 80
)

// firstWash is by how much a fabric may become shorter and narrower when it is washed the
// first time: fully relaxed, plain fabric has so many more rows and stitches in a length than
// when it has only dried (see the tests).
const firstWash = 0.10

// SwatchFor is the pattern file of a swatch for a design: on its loom and in its wrap. Its
// text says how to measure it, and with which command the gauge and the weight go into the
// design's own file, which is told by its name, or is any without one.
func SwatchFor(d *pattern.Design, name string) string {
	g := GaugeOf(d)
	count := func(f Figure, l measure.Length, otherwise int) int {
		if !f.Known() {
			return otherwise
		}
		return min(max(int(math.Round(f.Likely.Count(l))), fewestSwatch), mostSwatch)
	}
	w := swatch{pegs: count(g.Stitches, swatchWide, 24), plain: even(count(g.Rows, swatchPlain, 30)), garter: even(count(g.Garter, swatchGarter, 30))}
	if d.Loom.Pegs > 0 {
		w.pegs = min(w.pegs, d.Loom.Pegs)
	}
	if w.sides = swatchSides; 2*w.sides >= w.pegs-4 {
		w.sides = 0
	}
	title := "Swatch"
	if own := safetext.Clean(d.Title); own != "" {
		title += " for " + own
	}
	inside := ""
	if w.sides > 0 {
		inside = fmt.Sprintf("sides = %d\n", w.sides)
	}
	blanks := "W, H, G and N"
	if name = plainName(name); name == "" {
		blanks, name = "FILE, "+blanks, "FILE"
	}
	return fmt.Sprintf(swatchText, title, 100*firstWash, w.plainPegs(), w.plain, w.garter, blanks, w.command(name),
		w.pegs, d.KnitAs, gaugeTable(d.Gauge)+yarnTable(d)+loomText(d.Loom), swatchEnds, inside, w.plain, w.garter/2)
}

// swatch is what a swatch is made of.
type swatch struct{ pegs, sides, plain, garter int }

// swatchEnds is the ridges of its border at either end.
const swatchEnds = 2

func (w swatch) plainPegs() int { return w.pegs - 2*w.sides }

// weighedRows is its rows for the scales: the cast-on and the bind-off weigh as much as so
// many more.
func (w swatch) weighedRows() int {
	edges := int(math.Round((castOnYarn.Likely + bindOffYarn.Likely) / rowYarn.Likely))
	return w.plain + w.garter + 2*2*swatchEnds + 1 + edges
}

// command is what puts the figures of a swatch into a pattern.
func (w swatch) command(name string) string {
	return fmt.Sprintf(`bypeg fit %s --gauge "%d stitches and %d rows = W x H cm, %d garter rows = G cm" --sample "%d stitches and %d rows = N g" -o mine.toml`,
		name, w.plainPegs(), w.plain, w.garter, w.pegs, w.weighedRows())
}

// plainName is a name that every shell reads as it stands, or none.
func plainName(name string) string {
	if strings.Trim(strings.ToLower(name), "abcdefghijklmnopqrstuvwxyz0123456789-_./") != "" || strings.HasPrefix(name, "-") {
		return ""
	}
	return name
}

// gaugeTable is a gauge that a design says, for the size of its swatch; the swatch is worked
// to find the maker's own.
func gaugeTable(g pattern.Gauge) string {
	text := ""
	for _, f := range []struct {
		key  string
		in10 float64
	}{{"stitches", g.Stitches}, {"rows", g.Rows}, {"garter_rows", g.GarterRows}} {
		if f.in10 >= fewestIn10cm && f.in10 <= mostIn10cm {
			text += fmt.Sprintf("%s = %s\n", f.key, measure.Number(f.in10, 3))
		}
	}
	if text == "" {
		return ""
	}
	return "\n[gauge] # as it is expected; yours is what you measure\nover = \"10 cm\"\n" + text
}

// yarnTable is a design's main yarn, as far as figures tell of it.
func yarnTable(d *pattern.Design) string {
	if len(d.Yarns) == 0 {
		return ""
	}
	y, text := d.Yarns[0], ""
	if y.Weight != pattern.UnknownWeight {
		text += fmt.Sprintf("weight = %d\n", y.Weight)
	}
	for _, f := range []struct {
		key string
		x   float64
	}{{"metres", y.Metres}, {"grams", y.Grams}, {"wpi", y.WPI}, {"tex", y.Tex}} {
		if f.x > 0 {
			text += fmt.Sprintf("%s = %s\n", f.key, measure.Number(f.x, 3))
		}
	}
	if text == "" {
		return ""
	}
	return "\n[yarn]\n" + text
}

// loomText is a loom as a pattern file has it.
func loomText(l pattern.Loom) string {
	text := ""
	if l.Pegs > 0 {
		text += fmt.Sprintf("pegs    = %d\n", l.Pegs)
	}
	if l.SpacingMM > 0 {
		text += fmt.Sprintf("spacing = \"%s mm\"\n", measure.Number(l.SpacingMM, 3))
	}
	if text == "" {
		return ""
	}
	return "\n[loom]\n" + text
}

const swatchText = `pattern = 1
title   = %q
about   = '''
Wash and dry it as you will the piece: it may shrink by up to %.0f %% the first time. Let it
rest, lay it flat, and measure in its middle, in cm: W and H, how wide and how high the plain
part is between the sides, %d stitches and %d rows; G, how high the %d garter rows are. Cut the
tails off and weigh it: N, or leave --sample out. Then, with yours for %s:
%s'''
pegs    = %d
cast_on = "chain"
knit_as = %q
%s
[[zone]]
name   = "bottom border"
border = true
rows   = ["k", "p"]
times  = %d

[[zone]]
name  = "plain, to measure"
%srows  = ["k"]
times = %d

[[zone]]
name  = "garter, to measure"
rows  = ["k", "p"]
times = %d

[[zone]]
name = "top border"
like = "bottom border"

[[zone]]
name   = "set-up"
border = true
rows   = ["k"]
`

func even(n int) int { return n + n%2 }

// Regauge is a pattern's text with the gauge that a maker measured and the swatch that was
// weighed; either may be zero. What was not measured is carried over in proportion, and said
// to be; every other byte stays. The text must be a pattern file that loads.
func Regauge(text []byte, g pattern.Gauge, weighed pattern.Swatch) (changed []byte, carried []string, err error) {
	return regauge(text, weighed, func(r *resizer) error {
		r.wish.Gauge = g
		return r.newDesign()
	})
}

// regauge is a pattern's text with the design that is made of its own, and a weighed swatch.
func regauge(text []byte, weighed pattern.Swatch, remake func(*resizer) error) (changed []byte, carried []string, err error) {
	p, found := file.Load("the file", text)
	if p == nil {
		return nil, nil, found.Err()
	}
	r := &resizer{wish: Wish{Weight: pattern.UnknownWeight}, text: text, old: p, design: p.Design}
	if err := remake(r); err != nil {
		return nil, nil, err
	}
	changes := r.gaugeChanges()
	if in := file.Under("swatch"); weighed != (pattern.Swatch{}) {
		changes = append(changes, file.Change{In: in, Key: "stitches", Value: weighed.Stitches},
			file.Change{In: in, Key: "rows", Value: weighed.Rows}, file.Change{In: in, Key: "grams", Value: weighed.Grams})
	}
	changed, err = file.Rewrite(text, changes)
	return changed, r.found.Estimated, err
}

const weighedExample = `write it like "20 stitches and 57 rows = 12 g"`

// ParseWeighed reads a swatch that was weighed: "20 stitches and 57 rows = 12 g", or by its
// size, as ParseSample does, where a gauge says how many stitches and rows that is. The
// error says what to write instead.
func ParseWeighed(text string, g pattern.Gauge) (pattern.Swatch, error) {
	counts, amount, ok := strings.Cut(text, "=")
	if !ok {
		return pattern.Swatch{}, fmt.Errorf("%s is no swatch that was weighed: %s", quote(text), weighedExample)
	}
	grams, err := ParseStock(strings.TrimSpace(amount))
	switch {
	case err != nil:
		return pattern.Swatch{}, err
	case grams.Grams == 0:
		return pattern.Swatch{}, fmt.Errorf("%s was not weighed: %s", quote(strings.TrimSpace(amount)), weighedExample)
	}
	s := pattern.Swatch{Grams: math.Round(100*grams.Grams) / 100}
	if measure.IsSize(counts) {
		s.Stitches, s.Rows, err = countsOf(counts, g)
	} else {
		s.Stitches, s.Rows, err = countsIn(counts)
	}
	switch {
	case err != nil:
		return pattern.Swatch{}, err
	case s.Stitches < 1 || s.Rows < 1 || s.Stitches > pattern.MaxPegs || s.Rows > pattern.MaxRows || s.Grams <= 0:
		return pattern.Swatch{}, fmt.Errorf("%s is no swatch that was weighed: %s", quote(text), weighedExample)
	}
	return s, nil
}

// countsOf is how many stitches and rows a size has.
func countsOf(size string, g pattern.Gauge) (stitches, rows int, err error) {
	width, height, err := measure.ParseSize(size)
	if err != nil {
		return 0, 0, err
	}
	if g.Stitches <= 0 || g.Rows <= 0 {
		return 0, 0, fmt.Errorf("without a gauge nobody knows how many stitches and rows %s has: %s", quote(strings.TrimSpace(size)), weighedExample)
	}
	return int(math.Round(measure.Density(g.Stitches).Count(width))), int(math.Round(measure.Density(g.Rows).Count(height))), nil
}

// countsIn reads stitches and rows, or ridges. What is told twice is none.
func countsIn(text string) (wide, high int, err error) {
	for rest := plainWords(text); rest != ""; {
		var c count
		if c, rest, err = firstCount(rest); err != nil {
			return 0, 0, err
		}
		at := &high
		if c.what == stitches {
			at = &wide
		}
		if *at > 0 || c.n != math.Trunc(c.n) {
			return 0, 0, nil
		}
		*at = int(c.n)
	}
	return wide, high, nil
}
