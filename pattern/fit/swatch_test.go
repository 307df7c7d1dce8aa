package fit_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

func TestASwatchCanBeWorkedAndItsGaugeWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := pattern.Design{
			Title: rapid.String().Draw(t, "title"), KnitAs: pattern.Wrap(rapid.IntRange(0, 3).Draw(t, "wrap")),
			Gauge: pattern.Gauge{Stitches: rapid.Float64Range(0, 60).Draw(t, "stitches"), Rows: rapid.Float64Range(0, 90).Draw(t, "rows")},
			Loom:  pattern.Loom{Pegs: rapid.IntRange(0, 60).Draw(t, "loom")},
			Yarns: []pattern.YarnInfo{{Weight: pattern.UnknownWeight}},
		}
		text := fit.SwatchFor(&d, rapid.StringMatching(`[a-z .;"'-]{0,8}`).Draw(t, "name"))
		p, found := file.Load("swatch", []byte(text))
		require.NotNil(t, p, "%v\n%s", found, text)
		assert.Empty(t, found.Of(safetext.Warning))
		assert.True(t, d.Loom.Pegs == 0 || p.Pegs <= d.Loom.Pegs)
		// What is measured on it is written into the pattern.
		g := pattern.Gauge{Stitches: rapid.Float64Range(1, 100).Draw(t, "measured"), Rows: rapid.Float64Range(1, 100).Draw(t, "measured rows")}
		changed, carried, err := fit.Regauge([]byte(text), g, pattern.Swatch{})
		require.NoError(t, err)
		q, _ := file.Load("measured", changed)
		assert.InDelta(t, g.Stitches, q.Gauge.Stitches, 0.001)
		assert.InDelta(t, g.Rows, q.Gauge.Rows, 0.001)
		assert.Empty(t, carried)
	})
}

func TestWhatIsNotMeasuredAnewIsCarriedOver(t *testing.T) {
	text := strings.Replace(inGauge(24, 28, 40, "garter_rows = 56"), "10 cm", "20 cm", 1) + zone("field", `"k"`, 10)
	changed, carried, err := fit.Regauge([]byte(text), gauge(t, "24 pegs = 20 cm"), pattern.Swatch{})
	require.NoError(t, err)
	p := made(t, string(changed))
	assert.InDelta(t, 12, p.Gauge.Stitches, 1e-3)
	assert.InDelta(t, 20*12/14.0, p.Gauge.Rows, 1e-3, "though over is another length now")
	assert.InDelta(t, 28*12/14.0, p.Gauge.GarterRows, 1e-3)
	assert.Equal(t, []string{"rows: carried over by the ratio of the gauges", "garter rows: carried over by the ratio of the gauges"}, carried)
	_, _, err = fit.Regauge([]byte("pattern = 2"), gauge(t, "24 pegs = 20 cm"), pattern.Swatch{})
	assert.Error(t, err)
}

// What a swatch's text tells to type, with figures in its blanks, is what was measured.
func TestASwatchTellsWhatToDoWhenItIsDone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := pattern.Design{Yarns: []pattern.YarnInfo{{Weight: 4}}, Loom: pattern.Loom{Pegs: rapid.IntRange(8, 60).Draw(t, "loom")}}
		p, _ := file.Load("swatch", []byte(fit.SwatchFor(&d, "mat.toml")))
		require.NotNil(t, p)
		said := regexp.MustCompile(`bypeg fit mat.toml --gauge "(.*)" --sample "(.*)" -o mine.toml$`).FindStringSubmatch(p.About)
		require.Len(t, said, 3, p.About)
		_, err := fit.ParseGauge(said[1])
		require.ErrorContains(t, err, "write", "a blank that was not filled in is told")
		_, err = fit.ParseWeighed(said[2], pattern.Gauge{})
		require.ErrorContains(t, err, "write")
		stitches, rows, garter := rapid.Float64Range(8, 25).Draw(t, "stitches"), rapid.Float64Range(10, 35).Draw(t, "rows"), rapid.Float64Range(12, 50).Draw(t, "garter rows")
		plain := p.Zones[1]
		inside := p.Pegs - 2*plain.Sides
		g, err := fit.ParseGauge(strings.NewReplacer(
			"W", fmt.Sprint(float64(inside)/stitches*10), "H", fmt.Sprint(float64(plain.Rows())/rows*10), "G", fmt.Sprint(float64(p.Zones[2].Rows())/garter*10),
		).Replace(said[1]))
		require.NoError(t, err)
		assert.InDelta(t, stitches, g.Stitches, 1e-9)
		assert.InDelta(t, rows, g.Rows, 1e-9)
		assert.InDelta(t, garter, g.GarterRows, 1e-9)
		w, err := fit.ParseWeighed(strings.Replace(said[2], "N", "12,5", 1), g)
		require.NoError(t, err)
		assert.Equal(t, p.Pegs, w.Stitches)
		assert.InDelta(t, 12.5, w.Grams, 1e-9)
		// Its rows stand for the edges too: so many rows weigh what the swatch does, but for its tails.
		q := *p
		q.Gauge, q.Yarns = pattern.Gauge{Stitches: 14, Rows: 20}, []pattern.YarnInfo{{Metres: 100, Grams: 50}}
		need := fit.YarnOf(&q)[0]
		row := need.Zones[2].Grams.Likely / float64(p.Zones[2].Rows())
		tails := 2 * fit.Tail.In(measure.Metre) / 2
		assert.InDelta(t, (need.Grams.Likely-tails)/row, float64(w.Rows), 0.5)
	})
}

func TestANameThatAShellReadsOtherwiseIsLeftToTheMaker(t *testing.T) {
	for name, want := range map[string]string{
		"mat.toml": "mat.toml", "../Quay_2/mat.toml": "../Quay_2/mat.toml", "": "FILE", "-": "FILE", "my mat.toml": "FILE", "$(x).toml": "FILE", "mat's": "FILE", "mät.toml": "FILE",
	} {
		d := pattern.Design{Yarns: []pattern.YarnInfo{{Weight: 4}}}
		text := fit.SwatchFor(&d, name)
		assert.Contains(t, text, "\nbypeg fit "+want+" --gauge ")
		assert.Equal(t, want == "FILE", strings.Contains(text, "yours for FILE, W"), name)
	}
}

func TestParseWeighed(t *testing.T) {
	g := pattern.Gauge{Stitches: 16, Rows: 20}
	for text, want := range map[string]pattern.Swatch{
		"20 stitches and 57 rows = 12 g": {Stitches: 20, Rows: 57, Grams: 12},
		"20 pegs, 28 ridges = 1/2 oz":    {Stitches: 20, Rows: 56, Grams: 14.17},
		"57 rounds and 20 sts = 12,5 g":  {Stitches: 20, Rows: 57, Grams: 12.5},
		"15 x 16 cm = 11 g":              {Stitches: 24, Rows: 32, Grams: 11},
	} {
		got, err := fit.ParseWeighed(text, g)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{
		"", "11 g", "20 stitches = 12 g", "20 stitches and 57 rows", "20 stitches and 57 rows = 3 m", "20 stitches and 57 rows = heavy", "0 stitches and 5 rows = 3 g",
		"20.5 stitches and 57 rows = 12 g", "20 stitches and 20 pegs and 3 rows = 12 g", "9999999 stitches and 5 rows = 3 g", "20 loops and 3 rows = 2 g", "0 x 5 cm = 3 g", "1 x 1 mm = 3 g", "ten x ten cm = 3 g", "\x1b[2J = 3 g",
	} {
		_, err := fit.ParseWeighed(text, g)
		require.ErrorContains(t, err, "write", text)
		assert.NotContains(t, err.Error(), "\x1b")
	}
	_, err := fit.ParseWeighed("15 x 16 cm = 11 g", pattern.Gauge{Stitches: 16})
	assert.ErrorContains(t, err, "without a gauge nobody knows")
}

// What a design says of its gauge and its yarn is in its swatch: so it is known how large it
// comes out and how much it takes. What is only estimated is not written down as if it were said.
func TestASwatchSaysWhatItsDesignSays(t *testing.T) {
	d := pattern.Design{
		Gauge: pattern.Gauge{Stitches: 14, Rows: 20.5, GarterRows: 28}, Loom: pattern.Loom{SpacingMM: 9.5},
		Yarns: []pattern.YarnInfo{{Weight: 4, Metres: 85, Grams: 50}},
	}
	p := made(t, fit.SwatchFor(&d, ""))
	assert.Equal(t, d.Gauge, p.Gauge)
	assert.Equal(t, d.Yarns[0].Metres, p.Yarns[0].Metres)
	assert.Equal(t, 4, p.Yarns[0].Weight)
	need := fit.YarnOf(p)[0]
	assert.Equal(t, 1, need.Balls(fit.DefaultMargin))
	d.Gauge, d.Yarns[0] = pattern.Gauge{}, pattern.YarnInfo{Weight: pattern.UnknownWeight}
	p = made(t, fit.SwatchFor(&d, ""))
	assert.Equal(t, pattern.Gauge{}, p.Gauge)
	assert.Equal(t, pattern.UnknownWeight, p.Yarns[0].Weight)
}
