package fit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

// ungauged is the top of a file that says no gauge.
func ungauged(pegs int, more string) string {
	return fmt.Sprintf("pattern = 1\npegs = %d\n%s\n", pegs, more)
}

const eightyFive = "[yarn]\nmetres = 85\ngrams = 50\n"

func ownOf(t require.TestingT, p *pattern.Pattern, f fit.Finished) *fit.Own {
	o, err := fit.OwnOf(p, f)
	require.NoError(t, err)
	return o
}

// By hand: 35 pegs are 21.5 cm, so there are 35 / 21.5 x 10 = 16.28 stitches in 10 cm, and 73
// rows in 30 cm are 24.33 (common practice: what is counted, over what it measures, times
// 10). 35 x 73 are 2555 stitches; cast-on and bind-off take 3.5 / 3.9 and 5 / 3.9 of a row's
// yarn (as pattern/fit reckons), 76 more; so 62 g are 23.56 g in 1000.
func TestAFinishedPieceIsASwatch(t *testing.T) {
	p := made(t, ungauged(35, "")+zone("field", `"k"`, 73))
	o := ownOf(t, p, fit.Finished{Width: 215, Height: 300, Grams: 62})
	assert.InDelta(t, 16.28, o.Gauge.Stitches, 0.005)
	assert.InDelta(t, 24.33, o.Gauge.Rows, 0.005)
	assert.InDelta(t, 0.02356, o.PerStitch, 0.00001)
	assert.Zero(t, o.Metres, "nobody says how heavy the yarn is")
	assert.Equal(t, "21.5 x 30 cm, 62 g: 16.3 stitches and 24.3 rows in 10 cm, over the whole piece, 23.6 g in 1000 stitches", o.Say())
}

// The same with a yarn of 85 m in 50 g: 62 g are 105.4 m, and two tails of 15 cm weigh 0.18 g.
func TestGramsAreMetresToo(t *testing.T) {
	p := made(t, inGauge(35, 16, 24)+eightyFive+zone("field", `"k"`, 73))
	o := ownOf(t, p, fit.Finished{Width: 215, Height: 300, Grams: 62})
	assert.InDelta(t, 105.4, o.Metres, 0.01)
	assert.InDelta(t, (62-0.1765)/62*0.02356, o.PerStitch, 0.00001)
	assert.Equal(t, "21.5 x 30 cm, 62 g (105 m): 16.3 stitches and 24.3 rows in 10 cm, 23.5 g in 1000 stitches", o.Say())
}

// shipped are the examples, and with them designs of every kind.
func shipped(t testing.TB) map[string][]byte {
	all := map[string][]byte{}
	for _, name := range examples.Names() {
		all[name], _ = examples.Text(name)
	}
	all["no gauge"] = []byte(ungauged(30, "") + zone("ends", `"k", "p"`, 4) + zone("field", `"k"`, 40))
	all["a texture"] = []byte(inGauge(30, 12, 17) + "[gauges.rib]\nstitches = 15\nrows = 18\nover = '10 cm'\n" +
		zone("ends", `"k", "p"`, 4) + zone("field", `"*k1, p1; rep from * to end"`, 40, `gauge = "rib"`))
	all["spacing only"] = []byte(ungauged(30, "[loom]\nspacing = '1/2 in'") + zone("ends", `"k", "p"`, 4) + zone("field", `"k"`, 40))
	all["garter"] = []byte(inGauge(20, 12, 17) + zone("all", `"k", "p"`, 20))
	require.Greater(t, len(all), 9)
	return all
}

// A pattern with the figures of a piece comes out as the piece did, and takes what it took.
func TestBySomebodysOwnFiguresAPatternComesOutAsThePieceDid(t *testing.T) {
	texts := shipped(t)
	for name, text := range texts {
		p := made(t, string(text))
		size := fit.SizeOf(p)
		rapid.Check(t, func(t *rapid.T) {
			k := rapid.Float64Range(0.5, 2).Draw(t, "larger")
			f := fit.Finished{Width: measure.Length(math.Round(250 * k)), Height: measure.Length(math.Round(300 * k))}
			if size.Width.Known() {
				f.Width = measure.Length(math.Round(k * float64(size.Width.Likely)))
				f.Height = measure.Length(math.Round(rapid.Float64Range(0.5, 2).Draw(t, "higher") * float64(size.Height.Likely)))
			}
			grams := 0.0
			for _, n := range fit.YarnOf(p) {
				grams += n.Grams.Likely
			}
			f.Grams = rapid.SampledFrom([]float64{0, 0.5, 1, 2}).Draw(t, "heavier") * grams
			if f.Grams = math.Round(10*f.Grams) / 10; grams == 0 {
				f.Grams = rapid.SampledFrom([]float64{0, 40, 62.5}).Draw(t, "grams")
			}
			changed, carried, err := ownOf(t, p, f).In(text)
			require.NoError(t, err, name)
			assert.Empty(t, carried, name)
			q, _ := file.Load(name, changed)
			require.NotNil(t, q, "%s\n%s", name, changed)
			is := fit.SizeOf(q)
			assert.InEpsilon(t, float64(f.Width), float64(is.Width.Likely), 1e-3, name)
			assert.InEpsilon(t, float64(f.Height), float64(is.Height.Likely), 1e-3, name)
			if worked := fit.YarnsWorked(p); f.Grams > 0 && len(worked) == 1 {
				assert.InEpsilon(t, f.Grams, fit.YarnOf(q)[0].Grams.Likely, 1e-3, name)
			}
		})
	}
}

// Measured as planned, a piece changes nothing.
func TestMeasuredAsPlannedNothingChanges(t *testing.T) {
	for name, text := range shipped(t) {
		p := made(t, string(text))
		size := fit.SizeOf(p)
		if !size.Width.Known() {
			continue
		}
		f := fit.Finished{Width: size.Width.Likely, Height: size.Height.Likely}
		o := ownOf(t, p, f)
		was := fit.GaugeOf(&p.Design)
		assert.InDelta(t, float64(was.Stitches.Likely), o.Gauge.Stitches, 1e-3, name)
		assert.InDelta(t, float64(was.Rows.Likely), o.Gauge.Rows, 1e-3, name)
		assert.InDelta(t, float64(was.Garter.Likely), o.Gauge.GarterRows, 1e-3, name)
	}
}

// A tube that is measured flat as it was planned changes nothing, and told round it is the
// same.
func TestATubeMeasuredFlatAsPlannedChangesNothing(outer *testing.T) {
	rapid.Check(outer, func(t *rapid.T) {
		pegs, rows := rapid.IntRange(12, 120).Draw(t, "pegs"), rapid.IntRange(8, 90).Draw(t, "rounds")
		text := strings.Replace(inGauge(pegs, 12, 16)+zone("body", `"k"`, rows), "pegs =", "form = 'tube'\npegs =", 1)
		p := made(outer, text)
		size := fit.SizeOf(p)
		round, high := size.Width.Likely.In(measure.Centimetre), size.Height.Likely.In(measure.Centimetre)
		flat, err := fit.ParseFinished(fmt.Sprintf("%.4f x %.4f cm", round/2, high), p.Form)
		require.NoError(t, err)
		told, err := fit.ParseFinished(fmt.Sprintf("%.4f cm round, %.4f cm high", round, high), p.Form)
		require.NoError(t, err)
		assert.Equal(t, told, flat)
		changed, carried, err := ownOf(t, p, flat).In([]byte(text))
		require.NoError(t, err)
		assert.Empty(t, carried)
		is := fit.SizeOf(made(outer, string(changed)))
		assert.InDelta(t, float64(size.Width.Likely), float64(is.Width.Likely), 0.6, "to the millimetre")
		assert.InDelta(t, float64(size.Height.Likely), float64(is.Height.Likely), 0.6)
	})
}

// Twice as wide has half the stitches in 10 cm, whatever the pattern; twice as heavy takes
// twice as much a stitch, its tails apart.
func TestFiguresScaleWithThePiece(t *testing.T) {
	for name, text := range shipped(t) {
		p := made(t, string(text))
		size := fit.SizeOf(p)
		f := fit.Finished{Width: size.Width.Likely, Height: size.Height.Likely, Grams: 50}
		if !size.Width.Known() {
			f.Width, f.Height = 200, 300
		}
		if n := fit.YarnOf(p)[0]; n.Grams.Known() {
			f.Grams = n.Grams.Likely
		}
		twice := fit.Finished{Width: 2 * f.Width, Height: 2 * f.Height, Grams: 2 * f.Grams}
		a, b := ownOf(t, p, f), ownOf(t, p, twice)
		assert.InDelta(t, a.Gauge.Stitches/2, b.Gauge.Stitches, 1e-3, name)
		assert.InDelta(t, a.Gauge.Rows/2, b.Gauge.Rows, 1e-3, name)
		assert.InDelta(t, a.Gauge.GarterRows/2, b.Gauge.GarterRows, 1e-3, name)
		assert.InDelta(t, 2*a.Metres, b.Metres, 1e-9, name)
		if len(fit.YarnsWorked(p)) > 1 {
			assert.Zero(t, a.PerStitch, name)
			continue
		}
		tails := 0.3 * fit.GramsInMetre(p.Yarns[0])
		assert.InEpsilon(t, (2*f.Grams-tails)/(f.Grams-tails), b.PerStitch/a.PerStitch, 1e-9, name)
	}
}

// What was not measured stays as the pattern has it; in another pattern it is carried over,
// and said to be.
func TestWhatWasNotMeasuredOfAPiece(t *testing.T) {
	text := inGauge(30, 12, 17) + zone("field", `"k"`, 40)
	o := ownOf(t, made(t, text), fit.Finished{Width: 200})
	assert.Equal(t, pattern.Gauge{Stitches: 15}, o.Gauge)
	assert.Equal(t, "20 cm wide: 15 stitches in 10 cm", o.Say())
	changed, carried, err := o.In([]byte(text))
	require.NoError(t, err)
	assert.Empty(t, carried)
	assert.InDelta(t, 17, made(t, string(changed)).Gauge.Rows, 1e-9)
	changed, carried, err = o.In([]byte(inGauge(40, 10, 14) + zone("field", `"k"`, 40)))
	require.NoError(t, err)
	assert.Equal(t, []string{"rows: carried over by the ratio of the gauges"}, carried)
	assert.InDelta(t, 21, made(t, string(changed)).Gauge.Rows, 1e-9)

	o = ownOf(t, made(t, text), fit.Finished{Grams: 40})
	assert.Equal(t, pattern.Gauge{}, o.Gauge)
	assert.Equal(t, "40 g: 31.6 g in 1000 stitches", o.Say())
	changed, _, err = o.In([]byte(text))
	require.NoError(t, err)
	assert.InDelta(t, 12, made(t, string(changed)).Gauge.Stitches, 1e-9)
}

// Of several yarns only the whole is known; where nobody says how heavy one of them is, no
// weight is too much.
func TestAPieceOfSeveralYarnsIsOnlyWeighed(t *testing.T) {
	text := inGauge(30, 12, 17) + eightyFive + "[yarns.moss]\ncolour = 'moss'\n" + zone("field", `"k"`, 4) + zone("sky", `"k"`, 40, "yarn = 'moss'")
	o := ownOf(t, made(t, text), fit.Finished{Width: 200, Grams: 40})
	assert.Zero(t, o.PerStitch)
	assert.Equal(t, "20 cm wide, 40 g: 15 stitches in 10 cm", o.Say())
	assert.Equal(t, pattern.Swatch{}, o.Swatch())
}

// The rows that are told are those by which the height goes.
func TestRowsOfAPieceAreOfTheirKind(t *testing.T) {
	framed := inGauge(30, 12, 17, "garter_rows = 24") + zone("ends", `"k", "p"`, 4) + zone("field", `"k"`, 40)
	for text, want := range map[string]string{
		framed: "12 stitches, 17 rows and 24 garter rows in 10 cm",
		inGauge(30, 12, 17, "garter_rows = 24") + zone("all", `"k", "p"`, 4): "12 stitches and 24 garter rows in 10 cm",
		strings.Replace(framed, "pegs = 30", "form = 'tube'\npegs = 30", 1):  "12 stitches, 17 rounds and 24 garter rounds in 10 cm",
	} {
		p := made(t, text)
		s := fit.SizeOf(p)
		assert.Equal(t, want, ownOf(t, p, fit.Finished{Width: s.Width.Likely, Height: s.Height.Likely}).SayFigures())
	}
}

func TestASizeThatCannotBe(t *testing.T) {
	text := inGauge(30, 12, 17) + eightyFive + zone("field", `"k"`, 40)
	for _, c := range []struct {
		name, text string
		f          fit.Finished
		msg, hint  string
	}{
		{"another unit", text, fit.Finished{Width: 2500}, "250 cm wide was to be 25 cm: that is no slip of the gauge", "measure again, and check the unit"},
		{"ounces for grams", text, fit.Finished{Grams: 1.2}, "1.2 g is far from the 24 g that the pattern takes", "weigh it alone, and check the unit"},
		{"with the ball", text, fit.Finished{Grams: 300}, "300 g is far from the 24 g that the pattern takes", "weigh it alone, and check the unit"},
		{"a few rows", inGauge(30, 12, 17) + zone("field", `"k"`, 4), fit.Finished{Width: 250, Height: 30}, "a height over 4 rows tells too little", "write only the width and the weight"},
		{"no fabric", ungauged(30, "") + zone("field", `"k"`, 40), fit.Finished{Width: 1}, "the gauge would be 3000 stitches in 10 cm, and no knitted fabric has that", "measure again, and check the unit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := fit.OwnOf(made(t, c.text), c.f)
			refusal := &fit.Refusal{}
			require.ErrorAs(t, err, &refusal)
			assert.Equal(t, c.msg, refusal.Msg)
			assert.Equal(t, c.hint, refusal.Hint)
		})
	}
}

func TestWhatAPieceIsLike(t *testing.T) {
	base := func() *pattern.Design {
		return &pattern.Design{Loom: pattern.Loom{SpacingMM: 12.7}, Yarns: []pattern.YarnInfo{{Weight: 5, Fibre: "cotton", Colour: "slate"}}}
	}
	for name, c := range map[string]struct {
		set  func(*pattern.Design)
		want bool
	}{
		"the same":            {func(*pattern.Design) {}, true},
		"another colour":      {func(d *pattern.Design) { d.Yarns[0].Colour = "red" }, true},
		"12.7 mm and 1/2 in":  {func(d *pattern.Design) { d.Loom.SpacingMM = 12.75 }, true},
		"closer pegs":         {func(d *pattern.Design) { d.Loom.SpacingMM = 9.5 }, false},
		"no spacing":          {func(d *pattern.Design) { d.Loom.SpacingMM = 0 }, false},
		"a thinner yarn":      {func(d *pattern.Design) { d.Yarns[0].Weight = 4 }, false},
		"of no known class":   {func(d *pattern.Design) { d.Yarns[0].Weight = pattern.UnknownWeight }, false},
		"another fibre":       {func(d *pattern.Design) { d.Yarns[0].Fibre = "wool" }, false},
		"another wrap":        {func(d *pattern.Design) { d.KnitAs = pattern.WrapE }, false},
		"of no yarn whatever": {func(d *pattern.Design) { d.Yarns = nil }, false},
	} {
		d := base()
		c.set(d)
		assert.Equal(t, c.want, fit.Like(base(), d), name)
		assert.Equal(t, c.want, fit.Like(d, base()), name)
	}
}
