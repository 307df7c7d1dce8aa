package measure

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// Length is a length in millimetres.
type Length float64

// Lengths to count in. An inch is exactly 2.54 cm.
const (
	Millimetre Length = 1
	Centimetre        = 10 * Millimetre
	Metre             = 100 * Centimetre
	Inch              = 25.4 * Millimetre
	Foot              = 12 * Inch
	Yard              = 3 * Foot
)

// longest is the longest length that is understood: no knitting is a kilometre long.
const longest = 1000 * Metre

// In is the length counted in the given unit.
func (l Length) In(unit Length) float64 { return float64(l / unit) }

// String is the length in centimetres, to the millimetre: "24 cm", "1.3 cm".
func (l Length) String() string { return Number(l.In(Centimetre), 1) + " cm" }

// Rough is the length in centimetres to the half, as people are told a size: no swatch is
// measured better.
func (l Length) Rough() string { return Number(math.Round(2*l.In(Centimetre))/2, 1) + " cm" }

// Number writes a figure with at most so many decimals and no idle noughts: "24",
// "19.7".
func Number(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// unitNamed knows the units by the names and signs people write.
func unitNamed(s string) (Length, bool) {
	switch strings.ToLower(strings.TrimSuffix(s, ".")) {
	case "mm", "mms", "millimetre", "millimetres", "millimeter", "millimeters":
		return Millimetre, true
	case "cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters":
		return Centimetre, true
	case "m", "metre", "metres", "meter", "meters":
		return Metre, true
	case "in", "ins", "inch", "inches", `"`, "″", "”", "''":
		return Inch, true
	case "ft", "foot", "feet":
		return Foot, true
	case "yd", "yds", "yard", "yards":
		return Yard, true
	}
	return 0, false
}

// ParseLength reads a length as people write it: a whole number, a decimal with a
// point or a comma, a fraction or both ("1 1/2", "1½"), and a unit. The error says
// what to write instead.
func ParseLength(s string) (Length, error) {
	number, unitText := splitUnit(strings.TrimSpace(s))
	if number == "" {
		return 0, fmt.Errorf("%s is no length: write a number and a unit, such as 24 cm, 4 in or 1/2 in", quote(s))
	}
	x, err := ParseNumber(number)
	if err != nil {
		return 0, err
	}
	if x <= 0 {
		return 0, fmt.Errorf("%s is no length to work with: write more than 0", quote(s))
	}
	if unitText == "" {
		return 0, fmt.Errorf("%s has no unit: write %s cm, %[2]s mm or %[2]s in", quote(s), number)
	}
	unit, ok := unitNamed(unitText)
	if !ok {
		return 0, fmt.Errorf("%s is no unit of length: write mm, cm, m, in, ft or yd", quote(unitText))
	}
	l := Length(x) * unit
	if l > longest {
		return 0, fmt.Errorf("%s is too long: a length is at most 1 km here", quote(s))
	}
	return l, nil
}

// InInches tells whether a length is told in inches, feet or yards.
func InInches(s string) bool {
	_, text := splitUnit(strings.TrimSpace(s))
	unit, ok := unitNamed(text)
	return ok && (unit == Inch || unit == Foot || unit == Yard)
}

// ParseSize reads a width and a height: "15 x 16 cm", where the unit stands for both,
// `6" x 4"`, "15 by 16 cm". The error says what to write instead.
func ParseSize(s string) (width, height Length, err error) {
	wide, high, ok := cutSize(s)
	if !ok || wide == "" || high == "" {
		return 0, 0, fmt.Errorf("%s is no width and height: write it like 15 x 16 cm", quote(s))
	}
	if height, err = ParseLength(high); err != nil {
		return 0, 0, err
	}
	if _, unit := splitUnit(wide); unit == "" {
		_, unit = splitUnit(high)
		wide += " " + unit
	}
	width, err = ParseLength(wide)
	return width, height, err
}

// cutSize parts a width from the height behind it.
func cutSize(s string) (wide, high string, ok bool) {
	for _, sign := range []string{"x", "X", "×", " by "} {
		if wide, high, ok = strings.Cut(s, sign); ok {
			return strings.TrimSpace(wide), strings.TrimSpace(high), true
		}
	}
	return "", "", false
}

// IsSize tells whether a text has a sign of two lengths, as ParseSize reads them.
func IsSize(s string) bool {
	_, _, ok := cutSize(s)
	return ok
}

// ParseQuantity reads a number and what stands behind it, a unit as a rule: "18 g" is 18
// and "g". The error says what to write instead.
func ParseQuantity(s string) (x float64, unit string, err error) {
	number, unit := splitUnit(strings.TrimSpace(s))
	if number == "" {
		return 0, "", badNumber(s)
	}
	x, err = ParseNumber(number)
	return x, unit, err
}

// CutNumber parts the number that a text begins with, as ParseNumber reads it, from the
// rest. The number is empty where it begins with none.
func CutNumber(s string) (number, rest string) {
	digit := func(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }
	for i, r := range s {
		switch {
		case strings.ContainsRune("0123456789/ ", r) || fractionSign(r) > 0:
		case (r == '.' || r == ',') && digit(s[i+1:]): // a decimal one
		default:
			return strings.TrimSpace(s[:i]), s[i:]
		}
	}
	return strings.TrimSpace(s), ""
}

// splitUnit parts the number, which ends with the last digit or fraction sign, from
// the unit. The number is empty where the text does not begin with one.
func splitUnit(s string) (number, unit string) {
	end := strings.LastIndexFunc(s, func(r rune) bool { return unicode.IsDigit(r) || fractionSign(r) > 0 })
	if end < 0 {
		return "", s
	}
	for i := range s[end:] {
		if i > 0 {
			return numberFirst(s[:end+i], s[end+i:])
		}
	}
	return numberFirst(s, "")
}

func numberFirst(number, unit string) (string, string) {
	for _, r := range number {
		if !strings.ContainsRune("0123456789.,/ -+", r) && fractionSign(r) == 0 {
			return "", number + unit
		}
	}
	return strings.TrimSpace(number), strings.TrimSpace(unit)
}

// fractionSign is the value of a character such as ½, or 0 for any other.
func fractionSign(r rune) float64 {
	switch r {
	case '½':
		return 1.0 / 2
	case '¼':
		return 1.0 / 4
	case '¾':
		return 3.0 / 4
	case '⅛':
		return 1.0 / 8
	case '⅜':
		return 3.0 / 8
	case '⅝':
		return 5.0 / 8
	case '⅞':
		return 7.0 / 8
	}
	return 0
}

// ParseNumber reads a whole number, a decimal with a point or a comma, a fraction, or a
// whole number and a fraction. The error says what to write instead.
func ParseNumber(s string) (float64, error) {
	whole, rest, both := strings.Cut(s, " ")
	if both {
		x, okWhole := parseDigits(whole)
		y, ok := parseFraction(strings.TrimSpace(rest))
		if okWhole && ok {
			return x + y, nil
		}
		return 0, badNumber(s)
	}
	if x, ok := parseFraction(s); ok {
		return x, nil
	}
	if i := strings.IndexFunc(s, func(r rune) bool { return fractionSign(r) > 0 }); i > 0 {
		x, okWhole := parseDigits(s[:i])
		y, ok := parseFraction(s[i:])
		if okWhole && ok {
			return x + y, nil
		}
		return 0, badNumber(s)
	}
	return parseDecimal(s)
}

// parseFraction reads "1/2" or "½".
func parseFraction(s string) (float64, bool) {
	if r := []rune(s); len(r) == 1 && fractionSign(r[0]) > 0 {
		return fractionSign(r[0]), true
	}
	above, below, ok := strings.Cut(s, "/")
	x, okAbove := parseDigits(strings.TrimSpace(above))
	y, okBelow := parseDigits(strings.TrimSpace(below))
	return x / y, ok && okAbove && okBelow && y > 0
}

func parseDigits(s string) (float64, bool) {
	n, err := strconv.ParseUint(s, 10, 32)
	return float64(n), err == nil
}

// parseDecimal takes a point or a comma, but no comma that may stand for thousands:
// 1,250 mm would be one or the other, and a guess could be wrong a thousandfold.
func parseDecimal(s string) (float64, error) {
	if _, after, ok := strings.Cut(s, ","); ok && len(after) == 3 {
		return 0, fmt.Errorf("%s may be thousands or a decimal: write it with a point, or without the comma", quote(s))
	}
	x, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil || math.IsInf(x, 0) || strings.Trim(s, "0123456789.,-") != "" {
		return 0, badNumber(s)
	}
	return x, nil
}

func badNumber(s string) error {
	return fmt.Errorf("%s is no number: write it like 24, 12.7, 1/2 or 1 1/2", quote(s))
}

// quote shows the start of a foreign text with everything odd in it spelled out.
func quote(s string) string {
	const shown = 40
	if r := []rune(s[:min(len(s), 4*shown)]); len(r) > shown {
		s = string(r[:shown]) + "..."
	}
	return strconv.Quote(s)
}
