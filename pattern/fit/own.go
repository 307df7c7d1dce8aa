package fit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// The maker's own figures. A piece that is off the loom and has rested is the largest swatch
// there is: what it measures and weighs is its maker's own gauge, and what a stitch takes.
// A piece with a frame of garter and a plain field has no single gauge, so its pattern's own
// is scaled until the pattern comes out as the piece did.

// Own are the figures that a finished piece gives its maker.
type Own struct {
	Finished  Finished
	Gauge     pattern.Gauge // what was measured of it; 0 elsewhere
	Whole     bool          // the pattern had no rows to scale: they are of the whole piece, be they what they may
	PerStitch float64       // grams of a plain stitch; 0 where it was not weighed, or is of several yarns
	Metres    float64       // that its grams are; 0 where nobody says how heavy the yarn is

	was, scaled    pattern.Design // of which only the gauges count: as planned, and as the piece shows
	garter, plain  bool           // its height goes by rows of that kind
	form           pattern.Form
	stitches, rows int
}

// slipOfWeight is by how much a weight may miss what was reckoned before it is taken for a
// slip: another unit, or another piece on the scales. Our estimate, no source.
const slipOfWeight = 6

// OwnOf is what a piece of a pattern tells that measures and weighs so much. The error is a
// *Refusal.
func OwnOf(p *pattern.Pattern, f Finished) (*Own, error) {
	size := SizeOf(p)
	o := &Own{Finished: f, form: p.Form, garter: size.ByGarter, plain: size.ByRows, stitches: p.Pegs, rows: p.Grid.Rows()}
	if f.Height > 0 && o.rows < fewestMeasured {
		return nil, &Refusal{fmt.Sprintf("a height over %d rows tells too little", o.rows), "write only the width and the weight"}
	}
	at := Progress{Rows: o.rows, Width: f.Width, Height: f.Height}
	if err := at.check(p); err != nil {
		return nil, err
	}
	r := &resizer{old: p, design: p.Design}
	r.takeMeasure(at)
	if o.Whole = f.Height > 0 && slices.Contains(rowHeights(p), 0); o.Whole { // there is no proportion to scale
		all := figure(float64(measure.DensityOf(float64(o.rows), f.Height)))
		r.design.Gauge.Rows, r.design.Gauge.GarterRows, r.design.Gauges = all, all, p.Gauges
	}
	o.was, o.scaled, o.Gauge = p.Design, r.design, r.design.Gauge
	if f.Width == 0 {
		o.Gauge.Stitches = 0
	}
	if f.Height == 0 {
		o.Gauge.Rows, o.Gauge.GarterRows = 0, 0
	}
	if err := r.checkGauges(); err != nil {
		return nil, &Refusal{err.Error(), "measure again, and check the unit"}
	}
	return o, o.weigh(p)
}

// weigh takes the weight of a piece of one yarn to its stitches.
func (o *Own) weigh(p *pattern.Pattern) error {
	grams := o.Finished.Grams
	if grams == 0 {
		return nil
	}
	reckoned, all := 0.0, true
	for _, n := range YarnOf(p) {
		reckoned += n.Grams.Likely
		all = all && n.Metres.Known() == n.Grams.Known()
	}
	if all && reckoned > 0 && (grams > slipOfWeight*reckoned || grams < reckoned/slipOfWeight) {
		return &Refusal{fmt.Sprintf("%s g is far from the %.0f g that the pattern takes", measure.Number(grams, 1), reckoned), "weigh it alone, and check the unit"}
	}
	if !slices.Equal(YarnsWorked(p), []pattern.Yarn{0}) {
		return nil
	}
	inMetre := GramsInMetre(p.Yarns[0])
	if inMetre > 0 {
		o.Metres = grams / inMetre
	}
	worked := grams - 2*Tail.In(measure.Metre)*inMetre
	if o.PerStitch = worked / stitchesWorth(p); worked <= 0 {
		return &Refusal{fmt.Sprintf("%s g is less than its tails weigh", measure.Number(grams, 1)), "weigh it again, and check the unit"}
	}
	return nil
}

// stitchesWorth is how many plain stitches take as much yarn as a whole piece of one yarn
// does, its tails apart.
func stitchesWorth(p *pattern.Pattern) float64 {
	bare := *p // a yarn of which nobody knows the weight, so that tails have none
	bare.Yarns = []pattern.YarnInfo{{Weight: pattern.UnknownWeight}}
	bare.Yarns = append(bare.Yarns, p.Yarns[1:]...)
	bare.Swatch = pattern.Swatch{Stitches: 1, Rows: 1, Grams: 1}
	return YarnOf(&bare)[0].Grams.Likely
}

// Swatch is the piece as a swatch that was weighed, its edges and tails apart; zero where
// nobody knows what a stitch takes.
func (o *Own) Swatch() pattern.Swatch {
	if o.PerStitch == 0 {
		return pattern.Swatch{}
	}
	return pattern.Swatch{Stitches: o.stitches, Rows: o.rows, Grams: figure(o.PerStitch * float64(o.stitches*o.rows))}
}

// In is the text of a pattern with these figures in place of its own. Where it has the gauge
// that the piece was made after, all of that is scaled as the piece shows; in another one,
// what was not measured is carried over in proportion, and said to be. The text must be a
// pattern file that loads.
func (o *Own) In(text []byte) (changed []byte, carried []string, err error) {
	return regauge(text, o.Swatch(), func(r *resizer) error {
		if r.old.Gauge == o.was.Gauge && slices.Equal(r.old.Gauges, o.was.Gauges) {
			r.design.Gauge, r.design.Gauges = o.scaled.Gauge, o.scaled.Gauges
			return nil
		}
		r.wish.Gauge = o.Gauge
		return r.newDesign()
	})
}

// sayGauge is the gauge in words: "16.3 stitches and 24.4 rows in 10 cm"; "" where nothing
// was measured.
func (o *Own) sayGauge() string {
	var says []string
	say := func(x float64, word string) {
		if x > 0 {
			says = append(says, measure.Number(x, 1)+" "+word)
		}
	}
	word := o.form.RowWord() + "s"
	say(o.Gauge.Stitches, "stitches")
	if !o.garter || o.plain || o.Whole {
		say(o.Gauge.Rows, word)
	}
	if o.garter && !o.Whole {
		say(o.Gauge.GarterRows, "garter "+word)
	}
	switch n := len(says); {
	case n == 0:
		return ""
	case n > 1:
		says = []string{strings.Join(says[:n-1], ", ") + " and " + says[n-1]}
	}
	if o.Whole {
		return says[0] + " in 10 cm, over the whole piece"
	}
	return says[0] + " in 10 cm"
}

// sayYarn is what its stitches take: "21 g in 1000 stitches"; "" where nobody knows.
func (o *Own) sayYarn() string {
	if o.PerStitch == 0 {
		return ""
	}
	grams := 1000 * o.PerStitch
	decimals := 0
	if grams < 100 {
		decimals = 1
	}
	return measure.Number(grams, decimals) + " g in 1000 stitches"
}

// sayFinished is what the piece measures and weighs: "21.5 x 30 cm, 62 g (105 m)", "22.5 cm
// flat, that is 45 cm round".
func (o *Own) sayFinished() string {
	text := o.Finished.Say(o.form)
	if o.Metres > 0 {
		text += fmt.Sprintf(" (%.0f m)", math.Round(o.Metres))
	}
	return text
}

// SayFigures is what it tells of the next piece: "16.3 stitches and 24.4 rows in 10 cm, 21 g
// in 1000 stitches"; "" where it tells nothing.
func (o *Own) SayFigures() string {
	var says []string
	for _, s := range []string{o.sayGauge(), o.sayYarn()} {
		if s != "" {
			says = append(says, s)
		}
	}
	return strings.Join(says, ", ")
}

// Say is all of it in a line, without what nobody knows.
func (o *Own) Say() string {
	text := o.sayFinished()
	if figures := o.SayFigures(); figures != "" {
		text += ": " + figures
	}
	return text
}

// Like tells whether figures of a piece of one design hold for another: pegs as far apart,
// yarn of the same class and fibre, and the same wrap.
func Like(a, b *pattern.Design) bool {
	if len(a.Yarns) == 0 || len(b.Yarns) == 0 {
		return false
	}
	classes := ClassesOf(a.Yarns[0])
	return a.Loom.SpacingMM > 0 && math.Abs(a.Loom.SpacingMM-b.Loom.SpacingMM) < sameSpacing && a.KnitAs == b.KnitAs &&
		len(classes) > 0 && slices.Equal(classes, ClassesOf(b.Yarns[0])) && slices.Equal(FibresOf(a.Yarns[0].Fibre), FibresOf(b.Yarns[0].Fibre))
}

// sameSpacing is by how many millimetres spacings may differ and be the same: 3/8 in is
// 9.5 mm to some.
const sameSpacing = 0.1
