package fit

import (
	"fmt"
	"math"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// Sample is a piece of fabric of so much yarn: a swatch that was measured and weighed as
// it lies, whatever its stitches.
type Sample struct {
	Width, Height measure.Length
	Of            Stock
}

const sampleExample = `write it like "15 x 15 cm = 11 g"`

// ParseSample reads "15 x 15 cm = 11 g", "6 x 6 in = 7 yd". The error says what to write
// instead.
func ParseSample(text string) (Sample, error) {
	size, amount, ok := strings.Cut(text, "=")
	if !ok || !measure.IsSize(size) {
		return Sample{}, fmt.Errorf("%s is no sample: %s", quote(text), sampleExample)
	}
	var s Sample
	var err error
	if s.Width, s.Height, err = measure.ParseSize(size); err != nil {
		return Sample{}, err
	}
	s.Of, err = ParseStock(strings.TrimSpace(amount))
	return s, err
}

// For is how much yarn a fabric of that size takes, as likely. Nothing is rounded before it
// is multiplied.
func (s Sample) For(width, height measure.Length) Stock {
	times := float64(width*height) / float64(s.Width*s.Height)
	return Stock{Metres: s.Of.Metres * times, Grams: s.Of.Grams * times}
}

// Balls is how many balls to buy for so much yarn, with a margin such as 0.1; 0 where one
// is told in grams and the other in metres.
func (s Stock) Balls(ball Stock, margin float64) int {
	balls := 0.0
	switch {
	case s.Grams > 0 && ball.Grams > 0:
		balls = s.Grams / ball.Grams
	case s.Metres > 0 && ball.Metres > 0:
		balls = s.Metres / ball.Metres
	}
	return int(math.Ceil(min(balls*(1+margin), 1e6) - 1e-9))
}

// PlainNeed is how much of a yarn a plain piece of so many pegs and rows takes, its cast-on,
// bind-off and tails too.
func PlainNeed(g pattern.Gauge, y pattern.YarnInfo, pegs, rows int) YarnNeed {
	s := &spinner{p: &pattern.Pattern{Design: pattern.Design{Gauge: g, Yarns: []pattern.YarnInfo{y}}}}
	s.meter = meter{p: s.p, gauge: GaugeOf(&s.p.Design)}
	n := YarnNeed{Yarn: y, CastOn: s.edge(pegs, castOnYarn, 0), BindOff: s.edge(pegs, bindOffYarn, 0)}
	stitches := float64(pegs) * float64(rows)
	n.Amount = s.amount(s.meter.gauge.Stitches.length(stitches), rowYarn, just(1.0), stitches, 0).Plus(n.CastOn).Plus(n.BindOff)
	return n
}
