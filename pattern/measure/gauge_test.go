package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestDensity(t *testing.T) {
	// Exact inch 2.54 cm; patterns treat the two as equal, which is 1.6 % off.
	assert.InDelta(t, 19.685, float64(DensityOf(20, 4*Inch)), 0.005, "20 stitches in 4 in, in 10 cm")
	assert.InDelta(t, 11, float64(DensityOf(11, 10*Centimetre)), 1e-9)
	assert.InDelta(t, 36, DensityOf(15, 10*Centimetre).Count(24*Centimetre), 1e-9)
	assert.InDelta(t, 24, DensityOf(15, 10*Centimetre).Length(36).In(Centimetre), 1e-9)
	// Two rows of garter as tall as one stitch is wide: published,
	// museumofknitting.com, 1 st x 2 rows KPT Garter Stitch.
	assert.InDelta(t, 22, float64(GarterRows(11)), 1e-9)
}

func TestRowsForAHeight(t *testing.T) {
	for _, c := range []struct {
		name   string
		height Length
		per10  Density
		repeat int
		even   bool
		rows   int
		says   string
	}{
		{
			"a height that is whole repeats stays",
			24 * Centimetre, 15, 4, true, 36, "24 cm is 36 rows",
		},
		{
			"the nearest whole repeat is taken",
			25 * Centimetre, 15, 4, true, 36, "25 cm would be 37.5 rows: rounded to 36 rows, 9 repeats of 4, which is 24 cm",
		},
		{
			"an odd repeat beside garter sides is worked an even number of times",
			10 * Centimetre, 15, 3, true, 18,
			"10 cm would be 15 rows: rounded to 18 rows, 6 repeats of 3, an even number for the garter sides, which is 12 cm",
		},
		{
			"without garter sides an odd number may stand",
			10 * Centimetre, 15, 3, false, 15, "10 cm is 15 rows",
		},
		{
			"half a repeat counts as a whole one",
			10 * Centimetre, 15, 2, false, 16, "10 cm would be 15 rows: rounded to 16 rows, 8 repeats of 2, which is 10.7 cm",
		},
		{
			"a height below one repeat is one repeat",
			1 * Centimetre, 15, 12, false, 12, "1 cm would be 1.5 rows: rounded to 12 rows, 1 repeat of 12, which is 8 cm",
		},
		{
			"plain rows say no repeat",
			10 * Centimetre, 15.2, 1, false, 15, "10 cm would be 15.2 rows: rounded to 15 rows, which is 9.9 cm",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := RowsFor(c.height, c.per10, c.repeat, c.even, 100_000)
			assert.Equal(t, c.rows, h.Rows)
			assert.Equal(t, c.says, h.String())
		})
	}
}

func TestRowsForAHeightLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		height := Length(rapid.Float64Range(0.1, 1e6).Draw(t, "mm"))
		d := Density(rapid.Float64Range(0.01, 1e6).Draw(t, "rows in 10 cm"))
		repeat := rapid.IntRange(1, 200).Draw(t, "repeat")
		even := rapid.Bool().Draw(t, "even")
		h := RowsFor(height, d, repeat, even, 100_000)
		unit := repeat
		if even && repeat%2 == 1 {
			unit = 2 * repeat
		}
		assert.Positive(t, h.Rows)
		assert.Zero(t, h.Rows%unit, "whole repeats")
		assert.LessOrEqual(t, h.Rows, 100_000+unit)
		if exact := d.Count(height); exact < 100_000 && h.Rows > unit {
			assert.InDelta(t, exact, h.Rows, float64(unit)/2+1e-6, "the nearest")
		}
	})
}

func TestTheSamePegsUnderTwoKindsOfKnit(t *testing.T) {
	// 30 pegs; one maker's knit gives 14 in 10 cm, another's 17: 21.4 cm and 17.6 cm. Arithmetic; common practice, no source.
	for density, want := range map[Density]string{14: "21.4 cm", 17: "17.6 cm"} {
		assert.Equal(t, want, density.Length(30).String())
	}
}
