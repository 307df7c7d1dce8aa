package fit

import (
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// Tex is how thick a yarn is: grams per kilometre. Every other way to say it is a ratio to
// it (ISO 1144, ASTM D2260).
type Tex float64

// The ratios of other systems. Counts by length (Nm, Ne, worsted) are the larger the
// thinner a yarn is.
const (
	texNm      = 1000.0
	texNe      = 0.45359237 * 1e6 / (840 * 0.9144) // a pound has so many hanks of 840 yd
	texWorsted = 0.45359237 * 1e6 / (560 * 0.9144)
	texDenier  = 9.0
)

// Nm is the metric count: kilometres in a kilogram.
func (t Tex) Nm() float64 { return texNm / float64(t) }

// Ne is the cotton count.
func (t Tex) Ne() float64 { return texNe / float64(t) }

// Worsted is the worsted count.
func (t Tex) Worsted() float64 { return texWorsted / float64(t) }

// Denier is grams in 9 km.
func (t Tex) Denier() float64 { return texDenier * float64(t) }

// MetresIn100g is how many metres there are in 100 g.
func (t Tex) MetresIn100g() float64 { return 100 * 1000 / float64(t) }

const yarnExample = `write it like "200 m/100 g", "11 wpi", "500 tex", "Nm 2", "Ne 1.2", "4500 denier", "class 4" or "aran"`

// ParseYarn reads what names a yarn, in any of the ways people say it: metres in a weight,
// wraps per inch, tex, metric or cotton count, denier, or the class by its number, its name or
// a kind of yarn that belongs to it: "class 4", "medium", "aran". A count such as Nm 2/28
// is of that many plies. Of the yarn that comes back Weight, WPI, Tex or Metres
// and Grams is set. The error says what to write instead.
func ParseYarn(text string) (pattern.YarnInfo, error) {
	y := pattern.YarnInfo{Weight: pattern.UnknownWeight}
	s := strings.ToLower(strings.TrimSpace(text))
	if metres, grams, ok := perWeight(s); ok {
		y.Metres, y.Grams = metres, grams
		return y, nil
	}
	if class, ok := classNamed(s); ok {
		y.Weight = class
		return y, nil
	}
	if number, name, both := strings.Cut(s, " ("); both && strings.HasSuffix(name, ")") { // "class 4 (medium)", as it is told here
		s = number
	}
	number, unit, ok := numberAndUnit(s)
	if !ok {
		return y, fmt.Errorf("%s names no yarn: %s", quote(text), yarnExample)
	}
	switch unit {
	case "", "class", "weight":
		if number != float64(int(number)) || number > 7 {
			return y, fmt.Errorf("%s is no class of yarn: write class 0 to class 7", quote(text))
		}
		y.Weight = int(number)
		return y, nil
	}
	if number <= 0 || number > 1e6 {
		return y, fmt.Errorf("%s names no yarn: write a number above 0", quote(text))
	}
	switch unit {
	case "wpi", "wraps per inch", "wraps":
		y.WPI = number
	case "tex":
		y.Tex = number
	case "dtex", "decitex":
		y.Tex = number / 10
	case "denier", "den":
		y.Tex = number / texDenier
	case "nm":
		y.Tex = texNm / number
	case "ne", "nec":
		y.Tex = texNe / number
	case "worsted count", "new":
		y.Tex = texWorsted / number
	default:
		return y, fmt.Errorf("%s names no yarn: %s", quote(text), yarnExample)
	}
	return y, nil
}

// perWeight reads "200 m/100 g", "85 m in 50 g", "900 yd/lb", and the weight first: "100 g =
// 200 m".
func perWeight(s string) (metres, grams float64, ok bool) {
	for _, sign := range []string{"/", "=", ":", " in ", " per ", " to "} {
		one, other, _ := cutLast(s, sign)
		for _, pair := range [][2]string{{one, other}, {other, one}} {
			m, isLength := parseMetres(pair[0])
			g, isWeight := parseGrams(pair[1])
			if isLength && isWeight {
				return m, g, true
			}
		}
	}
	return 0, 0, false
}

// kinds are kinds of yarn by the class that they are of. The Standard Yarn Weight System
// names them beside its classes. Roving is left out: it is in two.
var kinds = map[string]int{
	"sock": 1, "fingering": 1, "sport": 2, "dk": 3, "double knitting": 3, "light worsted": 3,
	"worsted": 4, "afghan": 4, "aran": 4, "chunky": 5, "craft": 5, "rug": 5,
}

// classNamed is the class of a name, or of a kind of yarn.
func classNamed(s string) (class int, ok bool) {
	s = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(s, " yarn"), " weight"))
	for i, c := range Classes {
		if c.Name == s {
			return i, true
		}
	}
	class, ok = kinds[s]
	return class, ok
}

// parseMetres reads a length of yarn, which may be longer than any knitting is.
func parseMetres(s string) (float64, bool) {
	number, unit, err := measure.ParseQuantity(s)
	if err != nil || number <= 0 || number > 1e6 {
		return 0, false
	}
	l, err := measure.ParseLength("1 " + unit)
	return number * l.In(measure.Metre), err == nil
}

func cutLast(s, sep string) (before, after string, found bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}

// GramsInOunce is an ounce, exactly.
const GramsInOunce = 28.349523125

// gramsIn are weights by their names.
var gramsIn = map[string]float64{
	"g": 1, "gr": 1, "gram": 1, "grams": 1, "kg": 1000, "oz": GramsInOunce, "ounce": GramsInOunce, "ounces": GramsInOunce,
	"lb": 453.59237, "lbs": 453.59237, "pound": 453.59237, "pounds": 453.59237,
}

// parseGrams reads a weight: "18g", "3.5 oz", "lb".
func parseGrams(s string) (float64, bool) {
	s = strings.ToLower(strings.TrimSpace(s))
	if unit, ok := gramsIn[s]; ok { // as in yards per pound
		return unit, true
	}
	number, unit, err := measure.ParseQuantity(s)
	g, known := gramsIn[unit]
	return number * g, err == nil && known && number > 0 && number <= 1e6
}

// numberAndUnit parts "500 tex" and "Nm 2" alike. A count of plies is divided: "Nm 2/28" is
// 14, and "Ne 8/4" is 2. Some write the plies first and some last; there are fewer of them
// than the count is (common practice, no source).
func numberAndUnit(s string) (number float64, unit string, ok bool) {
	isDigit := func(r rune) bool { return r >= '0' && r <= '9' || strings.ContainsRune(".,/", r) }
	start := strings.IndexFunc(s, isDigit)
	if start < 0 {
		return 0, "", false
	}
	text, rest := measure.CutNumber(s[start:])
	unit = strings.TrimSpace(strings.TrimSpace(s[:start]) + " " + strings.TrimSpace(rest))
	one, other, plied := strings.Cut(text, "/")
	if !plied {
		number, err := measure.ParseNumber(text)
		return number, unit, err == nil
	}
	a, errA := measure.ParseNumber(one)
	b, errB := measure.ParseNumber(other)
	if errA != nil || errB != nil || a <= 0 || b <= 0 {
		return 0, "", false
	}
	return max(a, b) / min(a, b), unit, true
}
