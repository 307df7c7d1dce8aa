package fit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

// What people at the pegs ask, each with its numbers and the answer that is right. Common
// practice, no source, unless another is named.

// inGauge is the top of a file in a gauge over 10 cm.
func inGauge(pegs int, stitches, rows float64, more ...string) string {
	return fmt.Sprintf("pattern = 1\npegs = %d\n[gauge]\nstitches = %v\nrows = %v\n%s\nover = \"10 cm\"\n", pegs, stitches, rows, strings.Join(more, "\n"))
}

func gauge(t *testing.T, text string) pattern.Gauge {
	t.Helper()
	g, err := fit.ParseGauge(text)
	require.NoError(t, err)
	return g
}

// counts are the best count for a size and those beside it.
func counts(t *testing.T, w fit.CountWish) []int {
	t.Helper()
	c, err := fit.CountsFor(w)
	require.NoError(t, err)
	found := []int{c.Best.N}
	for _, o := range c.Others {
		found = append(found, o.N)
	}
	return found
}

const centimetre = measure.Centimetre

func TestABorderAsHighAsItIsWide(t *testing.T) {
	// 6 pegs at 16 in 10 cm are 3.75 cm: 12 garter rows at 32 in 10 cm, 6 ridges; with the plain
	// rows of the middle it would be a wrong 9.
	g := fit.GaugeOf(&pattern.Design{Gauge: gauge(t, "16 stitches, 24 rows, 32 garter rows in 10 cm")})
	plain, garter := fit.SquareRows(6, g)
	assert.InDelta(t, 12, garter, 1e-9)
	assert.InDelta(t, 9, plain, 1e-9)
}

func TestSidesThatPullIn(t *testing.T) {
	// 96 rows: the middle wants 40 cm, the border 30 cm. Two rows more in the border every 6
	// rows, 16 times, if nothing stretched; every 10 to 20 rows is published practice.
	p := made(t, inGauge(40, 18, 24, "garter_rows = 32")+zone("field", `"k"`, 96, "sides = 8"))
	s := fit.SizeOf(p)
	pulls := fit.PullsOf(p, &s)
	require.Len(t, pulls, 1)
	assert.InDelta(t, 40, cm(pulls[0].Field), 1e-9)
	assert.InDelta(t, 30, cm(pulls[0].Side), 1e-9)
	assert.InDelta(t, 0.25, pulls[0].Short, 1e-9)
	assert.Equal(t, 16, pulls[0].Pairs)
	assert.Equal(t, 6, pulls[0].Every)
	assert.False(t, pulls[0].Narrow())
	narrow := made(t, inGauge(40, 18, 24, "garter_rows = 32")+zone("field", `"k"`, 96, "sides = 3"))
	s = fit.SizeOf(narrow)
	assert.True(t, fit.PullsOf(narrow, &s)[0].Narrow(), "three pegs stretch to match")
	even := made(t, inGauge(40, 18, 24, "garter_rows = 24")+zone("field", `"k"`, 96, "sides = 8"))
	s = fit.SizeOf(even)
	assert.Empty(t, fit.PullsOf(even, &s), "sides of the same row gauge pull nothing in")
}

func TestPickingUpAlongTheSide(t *testing.T) {
	exact, n := fit.PickUp(160, gauge(t, "18 stitches and 24 rows in 10 cm"), fit.Multiple{Of: 4, Plus: 1})
	assert.InDelta(t, 120, exact, 1e-9, "3 for every 4 rows")
	assert.Equal(t, 121, n)
}

func TestPurlRoundsOfAGarterBrim(t *testing.T) {
	p := made(t, "form = \"tube\"\n"+head(36)+zone("brim", `"k", "p"`, 5, "border = true")+zone("body", `"k"`, 20))
	assert.Equal(t, 5, p.RidgesIn(0))
	for round := 1; round <= 10; round++ {
		purl := p.Grid.Row(round).Cells()[0].Stitch == pattern.Purl
		assert.Equal(t, round%2 == 0, purl, "round %d", round)
	}
}

func TestHowManyPegs(t *testing.T) {
	// 52 cm; a swatch of 24 pegs measures 18.5 cm; the middle a multiple of 8 plus 3, borders 4 + 4.
	w := fit.CountWish{
		Size: 52 * centimetre, Per10: measure.Density(gauge(t, "24 pegs = 18.5 cm").Stitches),
		Multiples: []fit.Multiple{{Of: 8, Plus: 3}}, Ends: 8,
	}
	c, err := fit.CountsFor(w)
	require.NoError(t, err)
	assert.InDelta(t, 67.46, c.Exact, 0.01)
	assert.Equal(t, []int{67, 59, 75}, counts(t, w))
	for i, want := range []float64{51.6, 45.5, 57.8} {
		size := append([]fit.Count{c.Best}, c.Others...)[i].Size
		assert.InDelta(t, want, cm(size), 0.05)
	}
	// Five repeats of 8 plus 3 are 43 on a panel, and 40 in a tube, which has no plus.
	flat := fit.CountWish{Size: 43 * centimetre, Per10: 10, Multiples: []fit.Multiple{{Of: 8, Plus: 3}}}
	assert.Equal(t, 43, counts(t, flat)[0])
	flat.Form = pattern.Tube
	assert.Equal(t, 40, counts(t, flat)[0])
}

func TestALoomTooSmall(t *testing.T) {
	c, err := fit.CountsFor(fit.CountWish{Size: 118 * centimetre, Per10: 12.5, Limit: 62})
	require.NoError(t, err)
	assert.InDelta(t, 147.5, c.Exact, 1e-9)
	assert.Equal(t, 62, c.Best.N, "no more go on it")
	for _, o := range c.Others {
		assert.False(t, o.Fits)
	}
	panels, each := fit.Panels(148, 62)
	assert.Equal(t, []int{3, 51}, []int{panels, each})
	// With borders of 4 and 4 and whole repeats of 8 and 3: 3 panels of 51, too; of 10 and 1, panels of
	// 49 are 143 pegs wide, within a twentieth.
	for m, want := range map[fit.Multiple][2]int{{Of: 8, Plus: 3}: {3, 51}, {Of: 10, Plus: 1}: {3, 49}, {Of: 30, Plus: 0}: {4, 38}, {Of: 60, Plus: 0}: {0, 0}} {
		w := fit.CountWish{Size: 118 * centimetre, Per10: 12.5, Limit: 62, Ends: 8, Multiples: []fit.Multiple{m}}
		panels, each := w.Panels(148)
		assert.Equal(t, want, [2]int{panels, each}, "%v", m)
	}
	p := made(t, head(148)+"[loom]\npegs = 62\n"+zone("field", `"k"`, 10))
	assert.Equal(t, fit.No, fit.LoomOf(p).Fits)
	assert.Equal(t, 62-148, fit.LoomOf(p).Unused)
}

func TestMorePegsAreNoLargerLoom(t *testing.T) {
	long := func(pegs int, spacing string) float64 {
		p := made(t, fmt.Sprintf("pattern = 1\npegs = 10\n[loom]\npegs = %d\nspacing = %q\n%s", pegs, spacing, zone("f", `"k"`, 2)))
		return fit.LoomOf(p).Length.In(measure.Millimetre)
	}
	assert.InDelta(t, 684, long(36, "19 mm"), 1e-9)
	assert.InDelta(t, 624, long(48, "13 mm"), 1e-9)
}

func TestTheGaugeOfTheLoomCounts(t *testing.T) {
	// The pattern wants 20 in 10 cm, the loom gives 16: 60 pegs become 48.
	wide := measure.Density(20).Length(60)
	assert.Equal(t, 48, counts(t, fit.CountWish{Size: wide, Per10: 16})[0])
	// A piece of 84 pegs measures 66 cm, not 60: 12.7 in 10 cm, and 76 pegs would be 60 cm.
	real := gauge(t, "84 pegs = 66 cm")
	assert.InDelta(t, 12.7, real.Stitches, 0.05)
	assert.Equal(t, 76, counts(t, fit.CountWish{Size: 60 * centimetre, Per10: measure.Density(real.Stitches), Multiples: []fit.Multiple{{Of: 4}}})[0])
}

func TestASquare(t *testing.T) {
	g := fit.GaugeOf(&pattern.Design{Gauge: gauge(t, "16 stitches and 22 rows in 10 cm")})
	plain, garter := fit.SquareRows(36, g)
	assert.InDelta(t, 49.5, plain, 1e-9)
	assert.InDelta(t, 72, garter, 1e-9, "a ridge a peg")
	assert.Equal(t, fit.Derived, g.Garter.From)
	short := made(t, inGauge(36, 16, 22)+zone("field", `"k", "p"`, 33))
	s := fit.SizeOf(short)
	assert.InDelta(t, 0.92, float64(s.Height.Likely/s.Width.Likely), 0.005, "66 rows leave it 8 % short")
}

func TestHowManyRows(t *testing.T) {
	w := fit.CountWish{Size: 70 * centimetre, Per10: 18, Ends: 8 + 9, Multiples: []fit.Multiple{{Of: 10}}}
	c, err := fit.CountsFor(w)
	require.NoError(t, err)
	assert.InDelta(t, 126, c.Exact, 1e-9)
	assert.Equal(t, 127, c.Best.N)
	assert.InDelta(t, 70.6, cm(c.Best.Size), 0.05)
	assert.Equal(t, 117, c.Others[0].N)
	assert.InDelta(t, 65, cm(c.Others[0].Size), 1e-9)
}

func TestSeveralRepeatsOnOneCount(t *testing.T) {
	all := []fit.Multiple{{6, 1}, {8, 1}, {4, 1}}
	assert.Equal(t, []int{73, 49, 97}, counts(t, fit.CountWish{Size: 62.5 * centimetre, Per10: 10, Multiples: all}))
	assert.Equal(t, []int{57, 33, 81}, counts(t, fit.CountWish{Size: 60 * centimetre, Per10: 10, Multiples: all, Ends: 8}), "with borders of 4 and 4")
}

func TestPegsThatAreLeftOver(t *testing.T) {
	assert.Equal(t, []fit.Balanced{{42, 4, 1}, {44, 4, 2}}, fit.Balance(43, 10))
	assert.Equal(t, []fit.Balanced{{44, 4, 2}}, fit.Balance(44, 10), "two at each side")
	assert.Equal(t, []fit.Balanced{{40, 4, 0}}, fit.Balance(40, 10))
	assert.Empty(t, fit.Balance(5, 10))
	// Or with half repeats at both ends, mirrored.
	for _, c := range []struct {
		pegs, repeat int
		want         fit.Balanced
		ok           bool
	}{{42, 10, fit.Balanced{Pegs: 42, Repeats: 3, Edge: 6}, true}, {44, 10, fit.Balanced{Pegs: 44, Repeats: 3, Edge: 7}, true}, {43, 9, fit.Balanced{Pegs: 43, Repeats: 3, Edge: 8}, true}} {
		got, ok := fit.Mirrored(c.pegs, c.repeat)
		assert.Equal(t, c.want, got)
		assert.True(t, ok)
		assert.Equal(t, c.pegs, got.Repeats*c.repeat+2*got.Edge)
	}
	for _, c := range [][2]int{{43, 10}, {19, 10}, {9, 1}} {
		_, ok := fit.Mirrored(c[0], c[1])
		assert.False(t, ok, "never 3 on one side: %v", c)
	}
}

func TestPicturesThatComeOutSquashed(t *testing.T) {
	// A circle of 24 by 24 on squared paper, at 16 stitches and 22 rows: 33 rows.
	g := gauge(t, "16 stitches and 22 rows in 10 cm")
	stretch := fit.Stretch(fit.Square, g)
	assert.InDelta(t, 1.375, stretch, 1e-9)
	assert.InDelta(t, 33, 24*stretch, 1e-9)
	assert.InDelta(t, 15, cm(measure.Density(g.Stitches).Length(24)), 1e-9)
	assert.InDelta(t, 10.9, cm(measure.Density(g.Rows).Length(24)), 0.05)
}

func TestTwoStrandsHeldTogether(t *testing.T) {
	thin, err := fit.ParseYarn("300 m/100 g")
	require.NoError(t, err)
	need := fit.YarnNeed{Amount: fit.Amount{Metres: fit.Range[float64]{Low: 240, Likely: 240, High: 240}}}
	held := need.Held(2, thin)
	assert.InDelta(t, 480, held.Metres.Likely, 1e-9)
	assert.InDelta(t, 160, held.Grams.Likely, 1e-9)
	assert.Equal(t, 2, held.Balls(0))
}

func TestOneMoreRepeatOrTheBorder(t *testing.T) {
	repeat := func(x float64, n int) []float64 {
		all := make([]float64, n)
		for i := range all {
			all[i] = x
		}
		return all
	}
	ends := []int{0, 10, 20, 30, 40}
	// 26 g left; 0.65 g a row; the top border 8 rows of 0.7 g; bind-off 1.3 g; reserve 1 g.
	ahead := fit.Ahead{Field: repeat(0.65, 40), Ends: ends, Worked: repeat(0.65, 40), Back: []int{0, 10, 20}, Close: 8*0.7 + 1.3 + 1}
	stop := ahead.StopWith(26)
	assert.True(t, stop.Enough)
	assert.Equal(t, 20, stop.Rows, "2 more repeats, not 3")
	assert.InDelta(t, 18.1-13, stop.Spare, 1e-9)
	assert.Equal(t, 27, stop.Could)
	// 5 g left at the end of a repeat: short by 2.9 g, and 10 rows taken back leave 3.6 g.
	stop = ahead.StopWith(5)
	assert.Equal(t, -10, stop.Rows)
	assert.InDelta(t, 3.6, stop.Spare, 1e-9)
	nothing := fit.Ahead{Field: repeat(0.65, 40), Ends: ends, Close: 7.9}.StopWith(5)
	assert.False(t, nothing.Enough)
	assert.InDelta(t, -2.9, nothing.Spare, 1e-9)
}

func TestEnoughForTheBindOff(t *testing.T) {
	// 75 cm wide, 9.5 m left; a row takes 3 to 4 widths by rules of thumb, the bind-off 6 and a tail of 15 cm.
	keep := 6*0.75 + fit.Tail.In(measure.Metre)
	assert.InDelta(t, 4.65, keep, 1e-9)
	for widths, rows := range map[float64]int{3: 2, 4: 1} {
		ahead := fit.Ahead{Field: []float64{widths * 0.75, widths * 0.75, widths * 0.75}, Ends: []int{0, 1, 2, 3}, Close: keep}
		assert.Equal(t, rows, ahead.StopWith(9.5).Rows, "%v widths a row", widths)
	}
	// By the geometry, with the last rows of a field that ends at the bind-off: the cautious answer is 1.
	p := made(t, inGauge(75, 10, 15)+zone("field", `"k"`, 40))
	l, err := fit.LeftOf(pattern.Order{Pattern: p, Way: p.Way}, pattern.Place{Phase: pattern.Working, Row: 21}, 0, fit.Stock{Metres: 9.5})
	require.NoError(t, err)
	assert.InDelta(t, keep, l.Close.High, 1e-9)
	assert.Equal(t, 1, l.Cautious.Rows)
	row, ok := l.StopRow()
	assert.True(t, ok)
	assert.Equal(t, 21, row)
}

func TestHowMuchYarnToBuy(t *testing.T) {
	// A swatch of 15 by 15 cm weighs 11 g; a blanket of 90 by 110 cm; balls of 100 g.
	s, err := fit.ParseSample("15 x 15 cm = 11 g")
	require.NoError(t, err)
	need := s.For(90*centimetre, 110*centimetre)
	assert.InDelta(t, 484, need.Grams, 0.5)
	assert.InDelta(t, 532, need.Grams*(1+fit.DefaultMargin), 0.5)
	assert.InDelta(t, 6, math.Ceil(need.Grams*1.1/100), 1e-9)
	// The same by stitches, in a pattern that has the swatch.
	p := made(t, inGauge(90, 10, 10, "garter_rows = 10")+"[swatch]\nstitches = 15\nrows = 15\ngrams = 11\n[yarn]\nmetres = 200\ngrams = 100\n"+zone("field", `"k"`, 110))
	n := fit.YarnOf(p)[0]
	assert.True(t, n.Weighed)
	assert.InDelta(t, 484, n.Zones[0].Grams.Likely, 0.5)
	assert.Equal(t, 6, n.Balls(fit.DefaultMargin))
}

func TestStripesWhoseYarnIsAtTheWrongEnd(t *testing.T) {
	striped := func(rows int, colours ...string) *pattern.Pattern {
		text := head(20)
		for _, c := range colours {
			text += fmt.Sprintf("[yarns.%s]\ncolour = %[1]q\n", c)
		}
		for i := range 6 {
			text += zone(fmt.Sprintf("stripe %d", i+1), `"k"`, rows, fmt.Sprintf("yarn = %q", colours[i%len(colours)]))
		}
		return made(t, text)
	}
	strays := func(p *pattern.Pattern) []fit.Stray { return fit.StraysOf(pattern.Order{Pattern: p, Way: p.Way}) }
	odd := strays(striped(3, "slate", "moss"))
	require.NotEmpty(t, odd)
	assert.Equal(t, fit.Stray{Yarn: 1, Ended: 3, Row: 7, At: pattern.Left, Wants: pattern.Right}, odd[0])
	assert.Empty(t, strays(striped(2, "slate", "moss")))
	assert.Empty(t, strays(striped(4, "slate", "moss")))
	assert.Empty(t, strays(striped(3, "slate", "moss", "rust")), "with three colours of 3 rows it is always where it is needed")
}

// Markers: caps where borders and repeats begin, from both ends, and by the loom's own numbers.
func TestWhereTheMarkersGo(t *testing.T) {
	p := made(t, "markers = [12, 20, 28]\n"+head(40)+"[loom]\npegs = 48\n"+zone("field", `"k"`, 20, "sides = 4"))
	var pegs, back, own []int
	for _, m := range fit.MarkersOf(pattern.Order{Pattern: p, Way: p.Way}) {
		pegs, back, own = append(pegs, m.Peg), append(back, m.Back), append(own, m.Loom)
	}
	assert.Equal(t, []int{4, 12, 20, 28, 37}, pegs)
	assert.Equal(t, []int{37, 29, 21, 13, 4}, back)
	assert.Equal(t, []int{8, 16, 24, 32, 41}, own, "the work begins at the loom's peg 5")
	left := fit.MarkersOf(pattern.Order{Pattern: p, Way: p.WayFor(pattern.LeftHand)})
	assert.Equal(t, 4, left[0].Peg, "a left-hander counts from the other side")
}
