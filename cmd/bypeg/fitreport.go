package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// fitted is all that fit knows of a pattern.
type fitted struct {
	order    pattern.Order
	size     fit.Size
	yarns    []fit.YarnNeed
	held     *fit.YarnNeed // what is bought where several strands are held together
	strands  int
	margin   float64
	pace     float64
	ownPace  bool // by the maker's own last steps
	loom     fit.OnLoom
	edges    []fit.Edge
	pulls    []fit.PullIn
	markers  []fit.Marker
	classes  []int
	strays   []fit.Stray
	carried  bool     // rows of the gauge were not measured with its stitches
	heights  []string // figures of the gauge that were carried over, and heights that are no whole repeats
	doubts   []string
	cautions []string
}

func newFitted(o pattern.Order, ask *fitting, held *pattern.YarnInfo) *fitted {
	p := o.Pattern
	r := &fitted{
		order: o, size: fit.SizeOf(p), yarns: fit.YarnOf(p), strands: ask.strands, margin: ask.margin / 100, pace: ask.pace,
		loom: fit.LoomOf(p), edges: fit.EdgesOf(p), markers: fit.MarkersOf(o), classes: fit.ClassesOf(p.Yarns[0]),
		strays: fit.StraysOf(o), cautions: fit.Cautions(&p.Design),
	}
	r.pulls, r.doubts = fit.PullsOf(p, &r.size), fit.Doubts(p, &r.size)
	if held != nil {
		n := r.yarns[0].Held(ask.strands, *held)
		r.held = &n
	}
	return r
}

// usualPace is told where the maker says no pace of their own. From memory: an estimate.
const usualPace = 20

// labelled is a part of the report: lines under one label.
type labelled struct {
	label string
	lines []string
}

// parts are the report, what matters first.
func (r *fitted) parts() []labelled {
	p := r.order.Pattern
	return []labelled{
		{"size", append(r.sizeLines(), r.heights...)},
		{"yarn", r.yarnLines()},
		{"loom", r.loomLines()},
		{"edges", r.edgeLines()},
		{"markers", r.markerLines()},
		{"time", []string{r.timeLine(p)}},
		{"doubt", append(r.doubts, r.strayLines()...)},
		{"care", r.cautions},
	}
}

// labelWidth is the column of labels.
const labelWidth = 9

func (p *program) writeFitted(w io.Writer, r *fitted) {
	style, width := p.style(), p.width()
	pat := r.order.Pattern
	title := fmt.Sprintf("%s: %s, %s, %s", safetext.Clean(pat.Title), pat.Form, track.Plural(pat.Pegs, "peg"),
		track.Plural(pat.Grid.Rows(), pat.Form.RowWord()))
	fmt.Fprintln(w, style.Strong(safetext.Cut(title, width)))
	fmt.Fprintln(w)
	for _, part := range r.parts() {
		writePart(w, style, part, width)
	}
}

func writePart(w io.Writer, style *look.Style, part labelled, width int) {
	label := part.label
	for _, text := range part.lines {
		for i, line := range wrapped(safetext.Clean(text), max(20, width-labelWidth-1)) {
			if i > 0 {
				line = "  " + line
			}
			fmt.Fprintf(w, "%s %s\n", style.Faint(safetext.Pad(label, labelWidth)), line)
			label = ""
		}
	}
}

// wrapped breaks a text between words; what follows the first line is two cells narrower.
func wrapped(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		room := width
		if len(lines) > 0 {
			room -= 2
		}
		if line != "" && safetext.Width(line)+1+safetext.Width(word) > room {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}

func (r *fitted) sizeLines() []string {
	s, p := &r.size, r.order.Pattern
	if !s.Width.Known() && !s.Height.Known() {
		return []string{"not known: the pattern says no gauge, no spacing of pegs and no class of yarn; --gauge says yours"}
	}
	wide := "wide"
	if p.Form == pattern.Tube {
		wide = "round"
	}
	lines := []string{fmt.Sprintf("%s %s, %s high", sizeText(s.Width), wide, sizeText(s.Height))}
	if s.Width.Known() && s.Width.Exact() && s.Height.Exact() {
		lines[0] += fmt.Sprintf(" (%s by %s)", inches(s.Width.Likely), inches(s.Height.Likely))
	}
	if p.Form == pattern.Tube {
		lines[0] = fmt.Sprintf("%s round, %s high; laid flat %s wide", sizeText(s.Width), sizeText(s.Height), sizeText(half(s.Width)))
	}
	return append(lines, r.gaugeLines()...)
}

func half(l fit.Range[measure.Length]) fit.Range[measure.Length] {
	return fit.Range[measure.Length]{Low: l.Low / 2, Likely: l.Likely / 2, High: l.High / 2}
}

// gaugeLines say what the size was reckoned by.
func (r *fitted) gaugeLines() []string {
	g := r.size.Gauge
	by := map[fit.Origin]string{
		fit.FromSpacing: "the spacing of the pegs", fit.FromClass: "the yarn's class", fit.FromRatio: "the usual ratio of rows to stitches",
	}
	var lines []string
	if g.Stitches.From.Estimated() {
		lines = append(lines, fmt.Sprintf("an estimate by %s, %.0f to %.0f stitches in 10 cm: work a swatch first (--swatch)",
			by[g.Stitches.From], float64(g.Stitches.Low), float64(g.Stitches.High)))
	} else if r.size.HeightEstimated() {
		lines = append(lines, "the height is an estimate by "+by[fit.FromRatio]+": the gauge does not say the rows")
	}
	if r.size.GarterDerived() {
		lines = append(lines, fmt.Sprintf("garter rows were derived from the stitches: %s in 10 cm", measure.Number(float64(g.Garter.Likely), 1)))
	}
	return lines
}

// halves is a length in centimetres to the half: no swatch is measured better.
func halves(l measure.Length) float64 { return math.Round(2*l.In(measure.Centimetre)) / 2 }

func sizeText(l fit.Range[measure.Length]) string {
	if !l.Known() {
		return "?"
	}
	low, high := measure.Number(halves(l.Low), 1), measure.Number(halves(l.High), 1)
	if low == high {
		return low + " cm"
	}
	return low + " to " + high + " cm"
}

// inches is a length in inches to the quarter.
func inches(l measure.Length) string {
	quarters := int(math.Round(4 * l.In(measure.Inch)))
	whole, part := quarters/4, []string{"", "1/4", "1/2", "3/4"}[quarters%4]
	switch {
	case part == "":
		return fmt.Sprintf("%d in", whole)
	case whole == 0:
		return part + " in"
	}
	return fmt.Sprintf("%d %s in", whole, part)
}

func (r *fitted) loomLines() []string {
	l, p := r.loom, r.order.Pattern
	var lines []string
	apart := ""
	if l.Loom.SpacingMM > 0 {
		apart = fmt.Sprintf("pegs %s mm (%s) apart, often called %s", measure.Number(l.Loom.SpacingMM, 1), spacingInches(l.Loom.SpacingMM), l.Name)
	}
	switch {
	case l.Fits == fit.Unknown && apart == "":
		return []string{fmt.Sprintf("the pattern names none; it takes %s", track.Plural(p.Pegs, "peg"))}
	case l.Fits == fit.Unknown:
		lines = append(lines, fmt.Sprintf("takes %s; %s", track.Plural(p.Pegs, "peg"), apart))
	case l.Fits == fit.No:
		lines = append(lines, tooShort(l, p)...)
	default:
		lines = append(lines, strings.TrimSuffix(fmt.Sprintf("fits: %d of %s; %s", p.Pegs, track.Plural(l.Loom.Pegs, "peg"), apart), "; "))
	}
	if l.Fits == fit.Yes && l.Unused > 0 {
		lines = append(lines, r.unusedLine())
	}
	if len(r.classes) > 0 {
		line := fmt.Sprintf("yarn of class %s (%s)", fit.ClassWords(r.classes), fit.Classes[r.classes[0]].Name)
		if l.Suits != nil && l.Off == 0 {
			line += " usually suits such pegs"
		}
		lines = append(lines, line)
	}
	return lines
}

func tooShort(l fit.OnLoom, p *pattern.Pattern) []string {
	if l.Unused >= 0 {
		return []string{fmt.Sprintf("does not fit: begun at the loom's peg %d, the last of %d pegs would be number %d of %d",
			l.First, p.Pegs, l.First+p.Pegs-1, l.Loom.Pegs)}
	}
	lines := []string{fmt.Sprintf("too short: the pattern takes %s, the loom has %d", track.Plural(p.Pegs, "peg"), l.Loom.Pegs)}
	if n, each := fit.Panels(p.Pegs, l.Loom.Pegs); n > 1 && p.Form == pattern.Panel {
		lines = append(lines, fmt.Sprintf("%d panels of %d pegs, sewn together, are as wide; or bypeg resize carries it over to your loom", n, each))
	}
	return lines
}

func (r *fitted) unusedLine() string {
	l, p := r.loom, r.order.Pattern
	stay := "stay"
	if l.Unused == 1 {
		stay = "stays"
	}
	line := fmt.Sprintf("%s %s empty: peg 1 of the work is the loom's peg %d", track.Plural(l.Unused, "peg"), stay, l.First)
	if l.Centred && l.First > 1 {
		line = fmt.Sprintf("%s %s empty: begin at the loom's peg %d to lie in the middle", track.Plural(l.Unused, "peg"), stay, l.First)
	}
	if p.Form == pattern.Tube {
		line = fmt.Sprintf("%s %s empty: a round closes only where the loom can be made so short", track.Plural(l.Unused, "peg"), stay)
	}
	return line
}

// spacingInches is a spacing as makers of looms say it.
func spacingInches(mm float64) string {
	sixteenths := int(math.Round(mm / 25.4 * 16))
	if off := math.Abs(float64(sixteenths)*25.4/16 - mm); off > 0.2 || sixteenths == 0 {
		return measure.Number(mm/25.4, 2) + " in"
	}
	n, of := sixteenths, 16
	for n%2 == 0 && of > 1 {
		n, of = n/2, of/2
	}
	if of == 1 {
		return fmt.Sprintf("%d in", n)
	}
	return fmt.Sprintf("%d/%d in", n, of)
}

func (r *fitted) markerLines() []string {
	var pegs, back, own []string
	for _, m := range r.markers {
		pegs, back, own = append(pegs, fmt.Sprint(m.Peg)), append(back, fmt.Sprint(m.Back)), append(own, fmt.Sprint(m.Loom))
	}
	after := fmt.Sprintf("after the cast-on: %s? count in tens", track.Plural(r.order.Pattern.CastOnLoops(), "loop"))
	if len(pegs) == 0 {
		return []string{after}
	}
	word := "pegs"
	if len(pegs) == 1 {
		word = "peg"
	}
	before := fmt.Sprintf("before the cast-on: put markers on %s %s", word, listed(pegs))
	lines := []string{before}
	var other []string
	if r.order.Pattern.Form == pattern.Panel {
		other = append(other, "counted from the other end "+listed(back))
	}
	if r.loom.First > 1 && r.loom.Fits == fit.Yes {
		other = append(other, "the loom's own numbers "+listed(own))
	}
	if len(other) > 0 {
		lines = append(lines, strings.Join(other, "; "))
	}
	return append(lines, after)
}

// listed is "3", "3 and 24", "3, 10 and 24".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

func (r *fitted) timeLine(p *pattern.Pattern) string {
	stitches, loops := fit.StitchesOf(p)
	pace, how := r.pace, "at %s a minute"
	switch {
	case r.ownPace:
		how = "at your own pace, %s a minute"
	case pace == 0:
		pace, how = usualPace, "at %s a minute (--pace)"
	}
	return fmt.Sprintf("%d stitches and %d loops: about %s "+how,
		stitches, loops, track.SayTime(3600*fit.Hours(p, pace)), measure.Number(pace, 0))
}

func (r *fitted) strayLines() []string {
	var lines []string
	for _, s := range r.strays {
		lines = append(lines, fmt.Sprintf("the yarn %s ended row %d at the %s, and row %d begins at the %s: cut it, or make stripes of 2 or 4 rows",
			r.order.Pattern.Yarns[s.Yarn].Called(), s.Ended, s.At, s.Row, s.Wants))
	}
	return lines
}
