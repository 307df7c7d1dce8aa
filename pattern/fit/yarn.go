package fit

import (
	"math"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// Yarn, by the geometry of the plain fabric: a stitch takes so many times its width. The
// classical formulas bracket a fabric made by hand, 3.4 by Peirce and 4.2 by Munden (see
// the tests); the likely one lies near their middle.
var (
	rowYarn     = Range[float64]{3.4, 3.9, 4.2}
	castOnYarn  = Range[float64]{3, 3.5, 4} // of a cast-on from the ball
	bindOffYarn = Range[float64]{3, 5, 6}   // 4.67 as measured once
)

// floatYarn is what a peg that is skipped takes: the yarn passes it straight.
const floatYarn = 1.0

// Tail is how long the tail at either end is left.
const Tail = 15 * measure.Centimetre

// weighed is how sure a weighed swatch is: to a twentieth. Our estimate, no source.
var weighed = Range[float64]{0.95, 1, 1.05}

// DefaultMargin is how much more yarn one buys than is likely to be needed. Common
// practice, no source: 5 to 15 %.
const DefaultMargin = 0.10

// Amount is how much yarn something takes. A figure of which nothing is known is 0: metres
// without a gauge, grams where nobody says how heavy the yarn is.
type Amount struct{ Metres, Grams Range[float64] }

// Plus is both together.
func (a Amount) Plus(b Amount) Amount { return Amount{a.Metres.plus(b.Metres), a.Grams.plus(b.Grams)} }

// YarnNeed is how much of one yarn a piece takes.
type YarnNeed struct {
	Yarn pattern.YarnInfo
	Amount
	CastOn, BindOff Amount   // with their tails
	Zones           []Amount // as the pattern has them
	Weighed         bool     // by a swatch that was weighed, and not by the geometry
}

// YarnOf is how much of each of its yarns a pattern takes, in their order.
func YarnOf(p *pattern.Pattern) []YarnNeed {
	s := newSpinner(p)
	needs := make([]YarnNeed, len(p.Yarns))
	for y := range needs {
		n := &needs[y]
		n.Yarn, n.Weighed = p.Yarns[y], s.perStitch > 0 && y == 0
		n.Zones = make([]Amount, len(p.Zones))
		n.CastOn, n.BindOff = s.castOn(pattern.Yarn(y)), s.bindOff(pattern.Yarn(y))
		n.Amount = n.CastOn.Plus(n.BindOff)
	}
	for i := range p.Zones {
		for row := p.Zones[i].First; row <= p.Zones[i].Last; row++ {
			for _, one := range s.yarnsOf(i, row) {
				n := &needs[one.yarn]
				n.Zones[i], n.Amount = n.Zones[i].Plus(one.Amount), n.Amount.Plus(one.Amount)
			}
		}
	}
	return needs
}

// Balls is how many balls to buy of a yarn, with a margin such as 0.1 on what is likely;
// 0 where nobody says what is in a ball.
func (n *YarnNeed) Balls(margin float64) int {
	return ballsFor(n.Yarn, n.Amount, margin)
}

func ballsFor(y pattern.YarnInfo, a Amount, margin float64) int {
	balls := 0.0
	switch {
	case y.Metres > 0 && a.Metres.Known():
		balls = a.Metres.Likely * (1 + margin) / y.Metres
	case y.Grams > 0 && a.Grams.Known():
		balls = a.Grams.Likely * (1 + margin) / y.Grams
	}
	return int(math.Ceil(min(balls, 1e6) - 1e-9))
}

// Held is a need worked with so many strands held together, each of a yarn that is to be
// had in balls of its own: so many times the metres, and its own weight.
func (n *YarnNeed) Held(strands int, thin pattern.YarnInfo) YarnNeed {
	held := YarnNeed{Yarn: thin}
	held.Metres = n.Metres.by(float64(strands))
	held.Grams = held.Metres.by(GramsInMetre(thin))
	return held
}

// GramsInMetre is how heavy a metre of a yarn is; 0 where nobody says.
func GramsInMetre(y pattern.YarnInfo) float64 {
	if m := MetresIn100g(y); m > 0 {
		return 100 / m
	}
	return 0
}

// spinner reckons yarn. A stitch costs so many times its width.
type spinner struct {
	p         *pattern.Pattern
	meter     meter
	perStitch float64 // grams, by the swatch; 0 without one
	rows      map[rowKey][]yarnAmount
}

// rowKey is a row of a zone.
type rowKey struct {
	row  *pattern.Row
	zone int
}

// yarnAmount is how much of a yarn something takes.
type yarnAmount struct {
	yarn pattern.Yarn
	Amount
}

func newSpinner(p *pattern.Pattern) *spinner {
	s := &spinner{p: p, meter: meter{p: p, gauge: GaugeOf(&p.Design)}, rows: map[rowKey][]yarnAmount{}}
	if w := p.Swatch; w.Stitches > 0 && w.Rows > 0 && w.Grams > 0 {
		s.perStitch = w.Grams / float64(w.Stitches*w.Rows)
	}
	return s
}

// row is how much of a yarn a row of a zone takes.
func (s *spinner) row(zone, row int, y pattern.Yarn) Amount {
	for _, one := range s.yarnsOf(zone, row) {
		if one.yarn == y {
			return one.Amount
		}
	}
	return Amount{}
}

// yarnsOf is how much a row of a zone takes of each yarn in it. Rows that are equal are
// reckoned once.
func (s *spinner) yarnsOf(zone, row int) []yarnAmount {
	key := rowKey{s.p.Grid.Row(row), zone}
	if known, ok := s.rows[key]; ok {
		return known
	}
	z := &s.p.Zones[zone]
	var all []yarnAmount
	at := map[pattern.Yarn]int{}
	for _, strip := range z.Strips {
		g := s.meter.gaugeOf(z, strip)
		for _, w := range s.worked(key.row.Cells()[strip.From:strip.To], z, g) {
			i, ok := at[w.yarn]
			if !ok {
				i, at[w.yarn] = len(all), len(all)
				all = append(all, yarnAmount{yarn: w.yarn})
			}
			all[i].Amount = all[i].Plus(s.amount(g.Stitches.length(w.stitches), rowYarn, w.more, w.stitches, w.yarn))
		}
	}
	s.rows[key] = all
	return all
}

// wrapped are stitches of one yarn that each take more of it than those that the gauge was
// measured on, by a factor.
type wrapped struct {
	yarn     pattern.Yarn
	more     Range[float64]
	stitches float64
}

// worked counts stitches by their yarns and their wraps.
func (s *spinner) worked(cells []pattern.Cell, z *pattern.Zone, g Gauge) []wrapped {
	measuredIn := s.p.KnitAs
	if g != s.meter.gauge { // measured on that very texture
		measuredIn = z.KnitAs
	}
	type kind struct {
		yarn pattern.Yarn
		more Range[float64]
	}
	var counted []wrapped
	at := map[pattern.Cell]int{} // cells of a kind are many
	kinds := map[kind]int{}
	for _, c := range cells {
		if c.Stitch == pattern.NoStitch || int(c.Yarn) >= len(s.p.Yarns) {
			continue
		}
		i, known := at[c]
		if !known {
			k := kind{c.Yarn, moreYarn(c.Stitch, z.KnitAs, measuredIn)}
			if i, known = kinds[k]; !known {
				i = len(counted)
				kinds[k], counted = i, append(counted, wrapped{yarn: k.yarn, more: k.more})
			}
			at[c] = i
		}
		counted[i].stitches += loopsOf(c.Stitch)
	}
	return counted
}

// moreYarn is by how much more yarn a stitch takes than those that the gauge was measured
// on.
func moreYarn(s pattern.Stitch, knitAs, measuredIn pattern.Wrap) Range[float64] {
	if wrap, ok := namedWraps[s]; ok {
		return carried(wrap, measuredIn)
	}
	if s == pattern.Knit {
		return carried(knitAs, measuredIn)
	}
	return just(1.0)
}

// loopsOf is how much of a plain stitch's yarn a stitch takes.
func loopsOf(s pattern.Stitch) float64 {
	switch s {
	case pattern.Slip, pattern.SlipFront:
		return floatYarn / rowYarn.Likely
	}
	return 1
}

// amount is the yarn of stitches so wide, each so many times its width, and more by a
// factor. A weighed swatch goes before the geometry: what is no plain row counts there as so
// many stitches' worth, of which it can't tell more than the geometry does.
func (s *spinner) amount(widths Range[measure.Length], each, more Range[float64], stitches float64, y pattern.Yarn) Amount {
	times := each.times(more)
	inRows := more
	if each != rowYarn {
		inRows = times.by(1 / rowYarn.Likely)
	}
	inGram := GramsInMetre(s.p.Yarns[y])
	if s.perStitch > 0 && y == 0 {
		a := Amount{Grams: weighed.times(inRows).by(s.perStitch * stitches)}
		if inGram > 0 {
			a.Metres = a.Grams.by(1 / inGram)
		}
		return a
	}
	var a Amount
	for _, at := range []struct {
		metres *float64
		width  measure.Length
		times  float64
	}{{&a.Metres.Low, widths.Low, times.Low}, {&a.Metres.Likely, widths.Likely, times.Likely}, {&a.Metres.High, widths.High, times.High}} {
		*at.metres = at.width.In(measure.Metre) * at.times
	}
	a.Grams = a.Metres.by(inGram)
	return a
}

// castOn is what the cast-on takes, if it is of that yarn: that of the first stitch.
func (s *spinner) castOn(y pattern.Yarn) Amount {
	if s.edgeYarn(1) != y {
		return Amount{}
	}
	return s.edge(s.p.CastOnLoops(), castOnYarn, y)
}

// bindOff is what the bind-off takes, if it is of that yarn: that of the last row.
func (s *spinner) bindOff(y pattern.Yarn) Amount {
	if s.edgeYarn(s.p.Grid.Rows()) != y {
		return Amount{}
	}
	return s.edge(s.p.BindOffLoops(), bindOffYarn, y)
}

// edgeYarn is the yarn of most stitches of a row.
func (s *spinner) edgeYarn(row int) pattern.Yarn {
	var n [256]int
	most := pattern.Yarn(0)
	for _, c := range s.p.Grid.Row(row).Cells() {
		if c.Stitch == pattern.NoStitch {
			continue
		}
		if n[c.Yarn]++; n[c.Yarn] > n[most] {
			most = c.Yarn
		}
	}
	return most
}

// edge is a cast-on or bind-off of so many loops, with its tail.
func (s *spinner) edge(loops int, times Range[float64], y pattern.Yarn) Amount {
	a := s.amount(s.meter.gauge.Stitches.length(float64(loops)), times, just(1.0), float64(loops), y)
	tail := Amount{Metres: just(Tail.In(measure.Metre))}
	tail.Grams = tail.Metres.by(GramsInMetre(s.p.Yarns[y]))
	if !a.Metres.Known() { // a tail alone is no answer
		tail.Metres = Range[float64]{}
	}
	return a.Plus(tail)
}
