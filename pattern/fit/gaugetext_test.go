package fit

import (
	"strings"
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
		// A comma between two digits is a decimal one, any other parts a list.
		{"12,5 pegs = 10 cm", pattern.Gauge{Stitches: 12.5}},
		{"12,5 sts,20,5 rows over 10 cm", pattern.Gauge{Stitches: 12.5, Rows: 20.5}},
		{"24 pegs = 18,5 cm,30 rows = 20 cm;16 ridges = 10 cm", pattern.Gauge{Stitches: 24 / 1.85, Rows: 15, GarterRows: 32}},
		{"12 1/2 pegs = 10 cms", pattern.Gauge{Stitches: 12.5}},
		{"12½ pegs / 10 cm", pattern.Gauge{Stitches: 12.5}},
		// A whole swatch: its width first.
		{"24 stitches and 30 rows = 15 x 16 cm", pattern.Gauge{Stitches: 16, Rows: 18.75}},
		{"24 stitches, 30 rows are 15 cm by 16 cm and 22 garter rows = 5,5 cm", pattern.Gauge{Stitches: 16, Rows: 18.75, GarterRows: 40}},
		{`24 pegs and 32 rows measure 6" x 8"`, pattern.Gauge{Stitches: 24 / 1.524, Rows: 32 / 2.032}},
		{"18 sts x 24 rows = 10 x 10 cm", pattern.Gauge{Stitches: 18, Rows: 24}},
		{"18 sts × 24 rows & 16 ridges per 10cm", pattern.Gauge{Stitches: 18, Rows: 24, GarterRows: 32}},
		// An inch is exactly 2.54 cm.
		{"4.5 sts per inch", pattern.Gauge{Stitches: 45 / 2.54}},
		{"4,5 sts to the inch", pattern.Gauge{Stitches: 45 / 2.54}},
		{`18 stitches, 24 rows, 32 garter rows in 4"`, pattern.Gauge{Stitches: 18 / 1.016, Rows: 24 / 1.016, GarterRows: 32 / 1.016}},
		{"4.5 st per 1 in", pattern.Gauge{Stitches: 45 / 2.54}},
		{"4 sts/in, 5.5 rows/in", pattern.Gauge{Stitches: 40 / 2.54, Rows: 55 / 2.54}},
		{`16 st & 22 r = 4"`, pattern.Gauge{Stitches: 16 / 1.016, Rows: 22 / 1.016}},
		{"16 sts and 22 rows = 4 in square", pattern.Gauge{Stitches: 16 / 1.016, Rows: 22 / 1.016}},
		{"16 sts and 22 rows to a 10 cm square", pattern.Gauge{Stitches: 16, Rows: 22}},
		// Other joints, and the length first.
		{"16 sts x 22 rows = 10 cm", pattern.Gauge{Stitches: 16, Rows: 22}},
		{"16 sts / 22 rows / 10 cm", pattern.Gauge{Stitches: 16, Rows: 22}},
		{"16 S / 22 R per 10cm", pattern.Gauge{Stitches: 16, Rows: 22}},
		{"20 cm = 24 pegs", pattern.Gauge{Stitches: 12}},
		{"15 x 16 cm = 24 stitches and 30 rows", pattern.Gauge{Stitches: 16, Rows: 18.75}},
		{"4 inch = 16 sts, 22 rows", pattern.Gauge{Stitches: 16 / 1.016, Rows: 22 / 1.016}},
		// Stitches are told before rows: common practice, no source.
		{"16/22 per 10 cm", pattern.Gauge{Stitches: 16, Rows: 22}},
		{"16 x 22 in 10 cm", pattern.Gauge{Stitches: 16, Rows: 22}},
		{"12,5x20.5 = 10cm", pattern.Gauge{Stitches: 12.5, Rows: 20.5}},
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
		{strings.Repeat("24 pegs and ", 1000) + "= 10 cm", "a gauge is said in a few words: " + gaugeExample},
		{"0 stitches in 10 cm", `"0" is no count of a gauge: write a number above 0`},
		{"-4 stitches in 10 cm", `"-4 stitches in 10 cm" is no gauge: ` + gaugeExample},
		{"16 stitches", `"16 stitches" does not say over which length it was counted: ` + gaugeExample},
		{"16 in 10 cm", `"16 in 10 cm" counts nothing that is known: ` + gaugeExample},
		{"16 loops in 10 cm", `"16 loops in 10 cm" counts nothing that is known: ` + gaugeExample},
		{"16 stitches in 10", `"10" has no unit: write 10 cm, 10 mm or 10 in`},
		{"16 stitches in 10 ells", `"ells" is no unit of length: write mm, cm, m, in, ft or yd`},
		{"16, 22 rows in 10 cm", `"16, 22 rows in 10 cm" counts nothing that is known: ` + gaugeExample},
		{"1,600 stitches in 10 m", `"1,600" may be thousands or a decimal: write it with a point, or without the comma`},
		{"16 22 rows in 10 cm", `"16 22" is no number: write it like 24, 12.7, 1/2 or 1 1/2`},
		{"16 stitches = 10 cm 22 rows = 10 cm", `"10 cm 22 rows = 10 cm" is more than one length: write a comma between, as in "24 pegs = 18.5 cm, 30 rows = 20 cm"`},
		{"0.001 stitches in 10 cm", "0.001 stitches in 10 cm is no gauge of knitted fabric: count over a relaxed swatch"},
		{"16 stitches in 0", `"0" is no length to work with: write more than 0`},
		{"16 stitches in ten cm", `"ten cm" is no length: write a number and a unit, such as 24 cm, 4 in or 1/2 in`},
		{"16 stitches = 15 x 16", `"16" has no unit: write 16 cm, 16 mm or 16 in`},
		{"16 stitches = x 16 cm", `"x 16 cm" is no width and height: write it like 15 x 16 cm`},
		{"20 cm = 24 pegs, 20 cm = 30 rows", `"20 cm = 24 pegs, 20 cm = 30 rows" counts nothing that is known: ` + gaugeExample},
		{"16/22", `"16/22" counts nothing that is known: ` + gaugeExample},
		{"16 stitches x 22 loops in 10 cm", `"22 loops in 10 cm" counts nothing that is known: ` + gaugeExample},
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
			rapid.StringMatching(`([0-9]{1,3} (sts|rows|ridges|garter rows|pegs)(, | and | in | = | x |/)?([0-9]{1,3} cm)?){1,3}`)).Draw(t, "text")
		g, err := ParseGauge(text)
		if err == nil {
			assert.Positive(t, g.Stitches+g.Rows+g.GarterRows)
		} else {
			assert.Equal(t, pattern.Gauge{}, g)
		}
	})
}
