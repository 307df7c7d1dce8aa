package main

import (
	"fmt"
	"io"
	"math"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/tui/report"
	"bypeg/tui/track"
)

// repeating is how a repeat comes out on a count of pegs.
type repeating struct {
	of      fit.Multiple
	inside  int // pegs between the sides
	repeats int // whole ones; 0 where the pegs are too few
	over    int
	even    []fit.Balanced // counts on which it lies in the middle, where it doesn't on this one
	halves  []fit.Balanced // those on which it does with half repeats at both ends
}

func repeatingOn(inside int, m fit.Multiple) repeating {
	r := repeating{of: m, inside: inside}
	rest := inside - m.Plus
	if rest < m.Of {
		return r
	}
	r.repeats, r.over = rest/m.Of, rest%m.Of
	if r.over > 0 {
		r.even = fit.Balance(rest, m.Of)
		for n := rest - 1; n <= rest+1; n++ {
			if b, ok := fit.Mirrored(n, m.Of); ok {
				r.halves = append(r.halves, b)
			}
		}
	}
	return r
}

// atPegs is what is told of a count that the maker has in mind.
type atPegs struct {
	repeats       []repeating
	width         measure.Length // 0 without a gauge
	plain, garter float64        // rows that make a square; 0 where the gauge does not say
	derived       bool           // the garter rows were not measured
}

// countAt tells of a count that the maker has in mind.
func (ask *fitting) countAt(out io.Writer) error {
	told, err := ask.atPegs()
	switch {
	case err != nil:
		return err
	case ask.json:
		writeIndented(out, jsonOfPegs(ask.pegs, told))
	default:
		writeAtPegs(out, ask.pegs, told)
	}
	return nil
}

func (ask *fitting) atPegs() (told atPegs, err error) {
	if ask.pegs < 1 || ask.pegs > pattern.MaxPegs || ask.sides < 0 || 2*ask.sides >= ask.pegs {
		return told, usage("write --pegs 43, and --sides 3 with it", "--pegs is 1 to %d, and more than both sides take", pattern.MaxPegs)
	}
	all, err := ask.multiples()
	if err != nil {
		return told, err
	}
	for _, m := range all {
		told.repeats = append(told.repeats, repeatingOn(ask.pegs-2*ask.sides, m))
	}
	if ask.gauge == "" {
		if len(all) == 0 {
			return told, usage(`write --gauge "16 stitches and 22 rows in 10 cm", or --multiple 10`, "nothing is asked of the %d pegs", ask.pegs)
		}
		return told, nil
	}
	g, err := fit.ParseGauge(ask.gauge)
	if err != nil {
		return told, usage("", "--gauge: %w", err)
	}
	if g.Stitches <= 0 {
		return told, usage("", "--gauge: the gauge says no stitches: write it like %q", "24 pegs = 18.5 cm")
	}
	full := fit.GaugeOf(&pattern.Design{Gauge: g})
	told.width = measure.Density(g.Stitches).Length(float64(ask.pegs))
	told.plain, told.garter = fit.SquareRows(ask.pegs, full)
	if g.Rows <= 0 { // rows that are only guessed are no square
		told.plain = 0
	}
	told.derived = full.Garter.From == fit.Derived
	return told, nil
}

func writeAtPegs(out io.Writer, pegs int, told atPegs) {
	for _, r := range told.repeats {
		writeRepeating(out, r)
	}
	if told.width == 0 {
		return
	}
	fmt.Fprintf(out, "%s are %s wide\n", track.Plural(pegs, "peg"), report.SizeText(just(told.width)))
	label := "square"
	if told.plain > 0 {
		fmt.Fprintf(out, "%-9s in plain fabric with %s rows (%s)\n", label, nearest(told.plain), measure.Number(told.plain, 1))
		label = ""
	}
	derived := ""
	if told.derived {
		derived = "; garter rows were derived: a ridge is as high as a stitch is wide"
	}
	ridges := int(math.Round(told.garter / 2))
	fmt.Fprintf(out, "%-9s in garter with %d rows, %s%s\n", label, 2*ridges, track.Plural(ridges, "ridge"), derived)
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

func writeRepeating(out io.Writer, r repeating) {
	fmt.Fprintf(out, "%s: ", track.Plural(r.inside, "peg"))
	switch {
	case r.repeats == 0:
		fmt.Fprintf(out, "too few for %s\n", repeatsText(1, r.of))
	case r.over == 0:
		fmt.Fprintln(out, repeatsText(r.repeats, r.of))
	default:
		fmt.Fprintf(out, "%s, %d over\n", repeatsText(r.repeats, r.of), r.over)
		label := "even with"
		for i, b := range append(r.even, r.halves...) {
			how := ""
			if i >= len(r.even) {
				how = ", with half a repeat mirrored at both ends"
			}
			fmt.Fprintf(out, "%-9s %s: %d + %d + %[3]d%[5]s\n", label, track.Plural(b.Pegs+r.of.Plus, "peg"), b.Edge, b.Repeats*r.of.Of+r.of.Plus, how)
			label = "or"
		}
	}
}
