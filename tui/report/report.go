// Package report is what is said of a pattern before a stitch of it is cast on: its size, the
// yarn it takes, whether the loom suits, its edges, markers and time, a few lines each. It
// says what pattern/fit reckons, and prints nothing itself.
package report

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// Report is all that is known of a pattern before a stitch of it is cast on.
type Report struct {
	Order    pattern.Order
	Called   string // what the piece is called; "" is as its pattern
	Size     fit.Size
	Yarns    []fit.YarnNeed
	Held     *fit.YarnNeed // what is bought where several strands are held together
	Strands  int
	Margin   float64 // how much more to buy: 0.1 is a tenth
	Pace     float64 // stitches a minute; 0 is the usual one
	OwnPace  bool    // the pace is by the maker's own last steps
	Loom     fit.OnLoom
	OwnLoom  bool // it is the maker's own, and not the one that the pattern was made for
	Edges    []fit.Edge
	Pulls    []fit.PullIn
	Markers  []fit.Marker
	Classes  []int
	Strays   []fit.Stray
	Heights  []string // figures of the gauge that were carried over, and heights that are no whole repeats
	Doubts   []string
	Cautions []string
	Owns     []Own // the maker's finished pieces by whose figures it could be reckoned
	By       *Own  // the one by whose figures it is; nil by the pattern's
	Typed    bool  // a command asked for it: what else may be asked is told as its flags, which a screen has none of
}

// Of is the report of a pattern, in the maker's order of work. The text is that of its file.
func Of(o pattern.Order, text []byte) *Report {
	p := o.Pattern
	r := &Report{
		Order: o, Size: fit.SizeOf(p), Yarns: fit.YarnOf(p), Strands: 1, Margin: fit.DefaultMargin,
		Loom: fit.LoomOf(p), Edges: fit.EdgesOf(p), Markers: fit.MarkersOf(o), Classes: fit.ClassesOf(p.Yarns[0]),
		Strays: fit.StraysOf(o), Cautions: fit.Cautions(&p.Design),
	}
	r.Pulls, r.Doubts = fit.PullsOf(p, &r.Size), fit.Doubts(p, &r.Size)
	r.Heights = fit.HeightsOf(file.LayoutOf(text), p, &r.Size)
	return r
}

// usualPace is told where the maker says no pace of their own. From memory: an estimate.
const usualPace = 20

// Part is a part of the report: lines under one label.
type Part struct {
	Label string
	Lines []string
}

// Parts are the report, what matters first. A part of which nothing is to be said has no
// lines.
func (r *Report) Parts() []Part {
	p := r.Order.Pattern
	return []Part{
		{"size", append(r.sizeLines(), r.Heights...)},
		{own, r.ownLines()},
		{"yarn", r.yarnLines()},
		{"loom", r.loomLines()},
		{"edges", r.edgeLines()},
		{"markers", r.markerLines()},
		{"time", []string{r.timeLine(p)}},
		{"doubt", append(r.Doubts, r.StrayLines()...)},
		{"care", r.Cautions},
	}
}

// flag names the flag that asks for more, behind what it is about; nothing on a screen.
func (r *Report) flag(name string) string {
	if !r.Typed {
		return ""
	}
	return " (--" + name + ")"
}

// Title is the pattern in a line.
func (r *Report) Title() string {
	p := r.Order.Pattern
	return fmt.Sprintf("%s: %s, %s, %s", safetext.Clean(cmp.Or(r.Called, p.Title)), p.Form, track.Plural(p.Pegs, "peg"), track.Plural(p.Grid.Rows(), p.Form.RowWord()))
}

func (r *Report) sizeLines() []string {
	s, p := &r.Size, r.Order.Pattern
	if !s.Width.Known() && !s.Height.Known() {
		line := "not known: the pattern says no gauge, no spacing of pegs and no class of yarn"
		if r.Typed {
			line += "; --gauge says yours"
		}
		return []string{line}
	}
	wide := "wide"
	if p.Form == pattern.Tube {
		wide = "round"
	}
	lines := []string{fmt.Sprintf("%s %s, %s high", SizeText(s.Width), wide, SizeText(s.Height))}
	switch exact := s.Width.Exact() && s.Height.Exact(); {
	case !s.Width.Known() || !s.Height.Known():
	case exact:
		lines[0] += fmt.Sprintf(" (%s by %s)", Inches(s.Width.Likely), Inches(s.Height.Likely))
	default:
		lines = append(lines, fmt.Sprintf("%s %s, %s high", inchesText(s.Width), wide, inchesText(s.Height)))
	}
	if p.Form == pattern.Tube {
		lines = append(lines, fmt.Sprintf("laid flat %s wide", SizeText(half(s.Width))))
	}
	return append(lines, r.gaugeLines()...)
}

func half(l fit.Range[measure.Length]) fit.Range[measure.Length] {
	return fit.Range[measure.Length]{Low: l.Low / 2, Likely: l.Likely / 2, High: l.High / 2}
}

// gaugeLines say what the size was reckoned by.
func (r *Report) gaugeLines() []string {
	g := r.Size.Gauge
	by := map[fit.Origin]string{
		fit.FromSpacing: "the spacing of the pegs", fit.FromClass: "the yarn's class", fit.FromRatio: "the usual ratio of rows to stitches",
	}
	var lines []string
	if g.Stitches.From.Estimated() {
		lines = append(lines, fmt.Sprintf("an estimate by %s, %.0f to %.0f stitches in 10 cm: work a swatch first%s",
			by[g.Stitches.From], float64(g.Stitches.Low), float64(g.Stitches.High), r.flag("swatch")))
	} else if r.Size.HeightEstimated() {
		lines = append(lines, "the height is an estimate by "+by[fit.FromRatio]+": the gauge does not say the rows")
	}
	if r.Size.GarterDerived() {
		lines = append(lines, fmt.Sprintf("garter rows were derived from the stitches: %s in 10 cm", measure.Number(float64(g.Garter.Likely), 1)))
	}
	return lines
}

// SizeText is a size, or from what to what it may be, to half a centimetre: "21.5 cm"; "?"
// where it is not known.
func SizeText(l fit.Range[measure.Length]) string {
	if !l.Known() {
		return "?"
	}
	low, high := l.Low.Rough(), l.High.Rough()
	if low == high {
		return low
	}
	return strings.TrimSuffix(low, " cm") + " to " + high
}

// inchesText is a size in inches, or from what to what it may be.
func inchesText(l fit.Range[measure.Length]) string {
	low, high := Inches(l.Low), Inches(l.High)
	if low == high {
		return low
	}
	return strings.TrimSuffix(low, " in") + " to " + high
}

// Inches is a length in inches to the quarter: "8 1/2 in".
func Inches(l measure.Length) string {
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

func (r *Report) markerLines() []string {
	var pegs, back, own []string
	for _, m := range r.Markers {
		pegs, back, own = append(pegs, fmt.Sprint(m.Peg)), append(back, fmt.Sprint(m.Back)), append(own, fmt.Sprint(m.Loom))
	}
	after := fmt.Sprintf("after the cast-on: are there %s? count them in tens", track.Plural(r.Order.Pattern.CastOnLoops(), "loop"))
	if len(pegs) == 0 {
		return []string{after}
	}
	word := "pegs"
	if len(pegs) == 1 {
		word = "peg"
	}
	before := fmt.Sprintf("before the cast-on: put markers on %s %s", word, Listed(pegs))
	lines := []string{before}
	var other []string
	if r.Order.Pattern.Form == pattern.Panel {
		other = append(other, "counted from the other end "+Listed(back))
	}
	if r.Loom.First > 1 && r.Loom.Fits == fit.Yes {
		other = append(other, "the loom's own numbers "+Listed(own))
	}
	if len(other) > 0 {
		lines = append(lines, strings.Join(other, "; "))
	}
	return append(lines, after)
}

// Listed is "3", "3 and 24", "3, 10 and 24".
func Listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

func (r *Report) timeLine(p *pattern.Pattern) string {
	stitches, loops := fit.StitchesOf(p)
	pace, how := r.Pace, "at %s a minute"
	switch {
	case r.OwnPace:
		how = "at your own pace, %s a minute"
	case pace == 0:
		pace, how = usualPace, "at %s a minute"+r.flag("pace")
	}
	return fmt.Sprintf("%d stitches and %d loops: about %s "+how,
		stitches, loops, track.SayTime(3600*fit.Hours(p, pace)), measure.Number(pace, 0))
}

// StrayLines tell of yarns that do not hang where they are wanted next.
func (r *Report) StrayLines() []string {
	var lines []string
	for _, s := range r.Strays {
		lines = append(lines, fmt.Sprintf("the yarn %s ended row %d at the %s, and row %d begins at the %s: cut it, or make stripes of 2 or 4 rows",
			r.Order.Pattern.Yarns[s.Yarn].Called(), s.Ended, s.At, s.Row, s.Wants))
	}
	return lines
}
