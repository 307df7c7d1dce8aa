package fit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
)

func TestParseGauge(t *testing.T) {
	for _, c := range []struct {
		text string
		want pattern.Gauge
	}{
		{"16 stitches and 22 rows in 10 cm", pattern.Gauge{Stitches: 16, Rows: 22}},
		{"16 sts, 22 rows over 10cm", pattern.Gauge{Stitches: 16, Rows: 22}},
		// 24 pegs are 18.5 cm: 12.97 in 10 cm.
		{"24 pegs = 18.5 cm", pattern.Gauge{Stitches: 24 / 1.85}},
		{"24 pegs are 18,5 cm", pattern.Gauge{Stitches: 24 / 1.85}},
		{"24 pegs = 18.5 cm, 30 rows = 20 cm", pattern.Gauge{Stitches: 24 / 1.85, Rows: 15}},
		{"24 pegs = 18.5 cm and 30 rounds = 20 cm", pattern.Gauge{Stitches: 24 / 1.85, Rows: 15}},
		// An inch is exactly 2.54 cm.
		{`18 stitches, 24 rows, 32 garter rows in 4"`, pattern.Gauge{Stitches: 18 / 1.016, Rows: 24 / 1.016, GarterRows: 32 / 1.016}},
		{"4.5 st per 1 in", pattern.Gauge{Stitches: 45 / 2.54}},
		// Two garter rows are one ridge: common practice, no source.
		{"16 ridges in 10 cm", pattern.Gauge{GarterRows: 32}},
		{"16 Stitches AND 16 garter ridges in 10 cm", pattern.Gauge{Stitches: 16, GarterRows: 32}},
	} {
		t.Run(c.text, func(t *testing.T) {
			got, err := ParseGauge(c.text)
			require.NoError(t, err)
			assert.InDelta(t, c.want.Stitches, got.Stitches, 1e-9)
			assert.InDelta(t, c.want.Rows, got.Rows, 1e-9)
			assert.InDelta(t, c.want.GarterRows, got.GarterRows, 1e-9)
		})
	}
}

func TestParseGaugeSaysWhatToWrite(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", `"" is no gauge: ` + gaugeExample},
		{"ten", `"ten" is no gauge: ` + gaugeExample},
		{"0 stitches in 10 cm", `"0" is no count of a gauge: write a number above 0`},
		{"-4 stitches in 10 cm", `"-4 stitches in 10 cm" is no gauge: ` + gaugeExample},
		{"16 stitches", `"16 stitches" does not say over which length it was counted: ` + gaugeExample},
		{"16 in 10 cm", `"16 in 10 cm" counts nothing that is known: ` + gaugeExample},
		{"16 loops in 10 cm", `"16 loops in 10 cm" counts nothing that is known: ` + gaugeExample},
		{"16 stitches in 10", `"10" has no unit: write 10 cm, 10 mm or 10 in`},
		{"16 stitches in 10 cms", `"cms" is no unit of length: write mm, cm, m, in, ft or yd`},
		{"16 stitches and 20 pegs in 10 cm", "the gauge says twice how many stitches there are"},
		{"1 row in 1 m", "0.1 rows in 10 cm is no gauge of knitted fabric: count over a relaxed swatch"},
		{"600 rows in 10 cm", "600 rows in 10 cm is no gauge of knitted fabric: count over a relaxed swatch"},
	} {
		t.Run(c.text, func(t *testing.T) {
			_, err := ParseGauge(c.text)
			assert.EqualError(t, err, c.want)
		})
	}
}

func TestAnyTextIsAGaugeOrAnError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(),
			rapid.StringMatching(`([0-9]{1,3} (sts|rows|ridges|garter rows|pegs)(, | and | in | = )?([0-9]{1,3} cm)?){1,3}`)).Draw(t, "text")
		g, err := ParseGauge(text)
		if err == nil {
			assert.Positive(t, g.Stitches+g.Rows+g.GarterRows)
		} else {
			assert.Equal(t, pattern.Gauge{}, g)
		}
	})
}
