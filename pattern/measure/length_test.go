package measure

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		text   string
		wantMM float64
	}{
		{"24 cm", 240},
		{"10cm", 100},
		{"10 CM", 100},
		{"4 in", 101.6},
		{"4 in.", 101.6},
		{"4 inches", 101.6},
		{`4"`, 101.6},
		{"4″", 101.6},
		{"1/2 in", 12.7},
		{"½ in", 12.7},
		{"1 1/2 in", 38.1},
		{"1½ in", 38.1},
		{"1 ½ in", 38.1},
		{"12.7 mm", 12.7},
		{"12,7 mm", 12.7},
		{"0.5 m", 500},
		{"1,5 m", 1500},
		{"2 ft", 609.6},
		{"1 yd", 914.4},
		{"  7 cm  ", 70},
	} {
		t.Run(c.text, func(t *testing.T) {
			got, err := ParseLength(c.text)
			require.NoError(t, err)
			assert.InDelta(t, c.wantMM, got.In(Millimetre), 1e-9)
		})
	}
}

func TestParseLengthSaysWhatToWrite(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a word", "ten", `"ten" is no length: write a number and a unit, such as 24 cm, 4 in or 1/2 in`},
		{"a word and a unit", "ten cm", `"ten cm" is no length: write a number and a unit, such as 24 cm, 4 in or 1/2 in`},
		{"nothing", "", `"" is no length: write a number and a unit, such as 24 cm, 4 in or 1/2 in`},
		{"a number alone", "24", `"24" has no unit: write 24 cm, 24 mm or 24 in`},
		{"an unknown unit", "3 ells", `"ells" is no unit of length: write mm, cm, m, in, ft or yd`},
		{"nought", "0 cm", `"0 cm" is no length to work with: write more than 0`},
		{"less than nought", "-3 cm", `"-3 cm" is no length to work with: write more than 0`},
		{"a fraction of nothing", "1/0 in", `"1/0" is no number: write it like 24, 12.7, 1/2 or 1 1/2`},
		{"two points", "1.2.3 cm", `"1.2.3" is no number: write it like 24, 12.7, 1/2 or 1 1/2`},
		{"two numbers", "3 4 cm", `"3 4" is no number: write it like 24, 12.7, 1/2 or 1 1/2`},
		{"a comma that may be thousands", "1,250 mm", `"1,250" may be thousands or a decimal: write it with a point, or without the comma`},
		{"too long", "2000 m", `"2000 m" is too long: a length is at most 1 km here`},
		{"far too long", strings.Repeat("9", 400) + " m", `"9999999999999999999999999999999999999999..." is no number: write it like 24, 12.7, 1/2 or 1 1/2`},
		{"an escape sequence is spelled out", "\x1b[2J", `"\x1b[2J" is no length: write a number and a unit, such as 24 cm, 4 in or 1/2 in`},
		{"a number within words", "cm 24 x", `"cm 24 x" is no length: write a number and a unit, such as 24 cm, 4 in or 1/2 in`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := ParseLength(c.text)
			assert.EqualError(t, err, c.want)
		})
	}
}

// Peg spacings and the inch: exact inch 2.54 cm, by definition.
func TestInches(t *testing.T) {
	for _, c := range []struct {
		name, text string
		wantMM     float64
		tolerance  float64
	}{
		{"4 in in cm is 10.16 (exact inch 2.54 cm)", "4 in", 101.6, 1e-9},
		{"peg spacing 3/16 in (exact inch 2.54 cm)", "3/16 in", 4.76, 0.01},
		{"peg spacing 1/4 in (exact inch 2.54 cm)", "1/4 in", 6.35, 0.01},
		{"peg spacing 3/8 in (exact inch 2.54 cm)", "3/8 in", 9.52, 0.01},
		{"peg spacing 1/2 in (exact inch 2.54 cm)", "1/2 in", 12.70, 0.01},
		{"peg spacing 5/8 in (exact inch 2.54 cm)", "5/8 in", 15.88, 0.01},
		{"peg spacing 3/4 in (exact inch 2.54 cm)", "3/4 in", 19.05, 0.01},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ParseLength(c.text)
			require.NoError(t, err)
			assert.InDelta(t, c.wantMM, got.In(Millimetre), c.tolerance)
		})
	}
}

func TestLengthsAreWrittenToTheMillimetre(t *testing.T) {
	assert.Equal(t, "24 cm", (24 * Centimetre).String())
	assert.Equal(t, "1.3 cm", (12.7 * Millimetre).String())
	assert.Equal(t, "100 cm", Metre.String())
}

func TestWrittenLengthsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.IntRange(1, 1_000_000).Draw(t, "mm"))
		got, err := ParseLength(l.String())
		require.NoError(t, err)
		assert.InDelta(t, float64(l), float64(got), 1e-6)
	})
}

func TestAnyTextIsALengthOrAnError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.OneOf(
			rapid.String(),
			rapid.StringMatching(`[-+]?[0-9 ½¾/.,]{0,6} ?(mm|cm|m|in|"|ft)?`),
		).Draw(t, "text")
		l, err := ParseLength(s)
		if err == nil {
			assert.Positive(t, float64(l))
			assert.LessOrEqual(t, l, longest)
		}
	})
}

func TestInchesAreToldFromCentimetres(t *testing.T) {
	for text, want := range map[string]bool{"36 in": true, `4"`: true, "1 1/2 inches": true, "20yd": true, "3 ft": true, "36 cm": false, "12 mm": false, "2 m": false, "36": false, "": false} {
		assert.Equal(t, want, InInches(text), text)
	}
}
