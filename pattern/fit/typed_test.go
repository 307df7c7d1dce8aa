package fit_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

// Every reader of what a person types, by the length it reads in millimetres.
var lengthReaders = map[string]func(text string) (float64, error){
	"a length": func(text string) (float64, error) {
		l, err := measure.ParseLength(text)
		return l.In(measure.Millimetre), err
	},
	"a gauge": func(text string) (float64, error) {
		g, err := fit.ParseGauge("1 stitch = " + text)
		return 100 / g.Stitches, err
	},
	"a gauge before another": func(text string) (float64, error) {
		g, err := fit.ParseGauge("1 peg = " + text + ", 30 rows = 20 cm")
		return 100 / g.Stitches, err
	},
	"the height of a swatch": func(text string) (float64, error) {
		g, err := fit.ParseGauge("24 stitches and 1 row = 15 cm x " + text)
		return 100 / g.Rows, err
	},
	"a sample": func(text string) (float64, error) {
		s, err := fit.ParseSample(text + " x " + text + " = 11 g")
		return s.Height.In(measure.Millimetre), err
	},
	"a sample with one unit": func(text string) (float64, error) {
		number, unit := measure.CutNumber(text)
		s, err := fit.ParseSample(number + " x " + number + unit + " = 11 g")
		return s.Width.In(measure.Millimetre), err
	},
	"yarn that is left": func(text string) (float64, error) {
		s, err := fit.ParseStock(text)
		return 1000 * s.Metres, err
	},
	"yarn in a weight": func(text string) (float64, error) {
		y, err := fit.ParseYarn(text + "/100 g")
		return 1000 * y.Metres, err
	},
	"the spacing of a loom in a list": func(text string) (float64, error) {
		looms, found := fit.Looms("looms.toml", fmt.Appendf(nil, "looms = 1\n[window]\npegs = 24\nspacing = '''%s'''\n", text))
		if err := found.Err(); err != nil {
			return 0, err
		}
		return looms[0].Loom.SpacingMM, nil
	},
	"the spacing in a pattern": func(text string) (float64, error) {
		p, found := loadText(fmt.Sprintf("pattern = 1\npegs = 6\n[loom]\nspacing = '''%s'''\n", text) + zone("field", `"k"`, 2))
		if p == nil {
			return 0, found.Err()
		}
		return p.Loom.SpacingMM, nil
	},
}

func TestLengthsAreReadAlikeEverywhere(t *testing.T) {
	// An inch is exactly 2.54 cm.
	good := map[string]float64{
		"10 cms": 100, "4 cm": 40, `4"`: 101.6, "4 ins": 101.6, "1/2 in": 12.7, "½ in": 12.7, "1 1/2 in": 38.1, "12,7 mm": 12.7, "12.7mm": 12.7, "1,5 cm": 15,
	}
	for name, read := range lengthReaders {
		for text, want := range good {
			got, err := read(text)
			require.NoError(t, err, "%s: %s", name, text)
			assert.InDelta(t, want, got, 1e-6, "%s: %s", name, text)
		}
		for _, text := range []string{"ten", "ten cm", "", "0 cm", "-3 cm", "1,250 mm", "4 ells", "1/0 in"} {
			_, err := read(text)
			assert.ErrorContains(t, err, "write", "%s: %q", name, text)
		}
	}
}

// Every reader of a number that is no length.
var numberReaders = map[string]func(text string) (float64, error){
	"stitches of a gauge": func(text string) (float64, error) {
		g, err := fit.ParseGauge(text + " pegs = 10 cm")
		return g.Stitches, err
	},
	"rows behind a comma": func(text string) (float64, error) {
		g, err := fit.ParseGauge("24 pegs = 18,5 cm," + text + " rows = 10 cm")
		return g.Rows, err
	},
	"grams": func(text string) (float64, error) {
		s, err := fit.ParseStock(text + " g")
		return s.Grams, err
	},
	"grams of a ball": func(text string) (float64, error) {
		y, err := fit.ParseYarn("85 m per " + text + " g")
		return y.Grams, err
	},
	"grams of a sample": func(text string) (float64, error) {
		s, err := fit.ParseSample("15 x 16 cm = " + text + " g")
		return s.Of.Grams, err
	},
}

func TestNumbersAreReadAlikeEverywhere(t *testing.T) {
	for name, read := range numberReaders {
		for text, want := range map[string]float64{"12,5": 12.5, "12.5": 12.5, "12 1/2": 12.5, "12½": 12.5, "1/2": 0.5, "18": 18} {
			got, err := read(text)
			require.NoError(t, err, "%s: %s", name, text)
			assert.InDelta(t, want, got, 1e-9, "%s: %s", name, text)
		}
		for _, text := range []string{"ten", "0", "-3", "1,250", "1e3", "inf"} {
			_, err := read(text)
			assert.ErrorContains(t, err, "write", "%s: %q", name, text)
		}
	}
	for text, want := range map[string]pattern.YarnInfo{"12,5 wpi": {WPI: 12.5}, "500,5 tex": {Tex: 500.5}, "Nm 2,5": {Tex: 400}} {
		y, err := fit.ParseYarn(text)
		require.NoError(t, err)
		assert.InDelta(t, want.WPI, y.WPI, 1e-9)
		assert.InDelta(t, want.Tex, y.Tex, 1e-9)
	}
	// Size and plies are told in either order: common practice, no source.
	for _, text := range []string{"Ne 8/4", "Ne 4/8", "Ne 2"} {
		y, err := fit.ParseYarn(text)
		require.NoError(t, err)
		assert.InDelta(t, 590.541/2, y.Tex, 0.001, text)
	}
}
