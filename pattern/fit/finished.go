package fit

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// Finished is what a piece off the loom measures and weighs. What its maker did not tell
// is 0.
type Finished struct {
	Width  measure.Length // of all pegs, to the millimetre; of a tube the way round, however it was measured
	Height measure.Length // of all rows
	Grams  float64        // to the tenth
}

// ExampleOf is how one writes what a piece of a form measures and weighs.
func ExampleOf(form pattern.Form) string {
	if form == pattern.Tube {
		return "22.5 cm flat, 30 cm high, 62 g"
	}
	return "21.5 x 30 cm, 62 g"
}

// longestFinished is how many bytes a size and a weight may be told in.
const longestFinished = 200

// side is what a word says of a measure.
type side uint8

const (
	noSide side = iota
	across      // from edge to edge; of a tube as it lies flat
	round       // of a tube the whole way
	upright
)

// sides are the words that people use for a measure.
var sides = map[string]side{
	"wide": across, "width": across, "across": across, "flat": across,
	"round": round, "around": round, "circumference": round,
	"high": upright, "height": upright, "long": upright, "length": upright, "tall": upright,
}

// fillers are words around them that say nothing more.
var fillers = []string{"laid", "lying", "lies", "measured", "all", "the", "way", "that", "is"}

var (
	// bareSize is a length or two of which no unit is told.
	bareSize = regexp.MustCompile(`^[0-9][0-9.,/ ½¼¾⅛⅜⅝⅞]*((x|X|×|by)[0-9.,/ ½¼¾⅛⅜⅝⅞]+)?$`)
	// weightBehind is a weight that nothing parts from a word or a unit before it.
	weightBehind = regexp.MustCompile(`(?i)([a-z"”])\s+([0-9]+(?:[.,][0-9]+)?(?: ?[½¼¾]| [0-9]+/[0-9]+)? ?(?:k?g|gr|grams?|oz|ounces?|lbs?|pounds?))$`)
	// besides is a side that is named, with the other one behind it: "45 cm round x 30 cm high".
	besides = regexp.MustCompile(`(?i)\b(wide|across|flat|round|around|high|long|tall)\s+(?:x|×|by)\s+`)
)

// telling is what is told of a piece of a form, as far as it is read.
type telling struct {
	Finished
	form pattern.Form
}

// ParseFinished reads what a finished piece of a form measures and weighs: "21.5 x 30 cm,
// 62 g", the width first, or some of it: "62 g", "21.5 cm wide", "30 cm high, 2.2 oz". A tube
// is measured as it lies flat unless a word says that it was round. A size without a unit is in
// centimetres; a comma between two digits is a decimal one. The error says what to write
// instead.
func ParseFinished(text string, form pattern.Form) (Finished, error) {
	r := telling{form: form}
	if len(text) > longestFinished {
		return Finished{}, errors.New("a size and a weight are told in a few words: " + r.example())
	}
	listed := besides.ReplaceAllString(strings.ReplaceAll(strings.TrimSpace(text), " and ", "; "), "$1; ")
	listed = weightBehind.ReplaceAllString(listed, "$1; $2")
	for _, part := range strings.Split(strings.ReplaceAll(spaced(listed), ", ", ";"), ";") {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		if err := r.put(part); err != nil {
			return Finished{}, err
		}
	}
	if r.Finished == (Finished{}) {
		return Finished{}, fmt.Errorf("%s tells no size and no weight: %s", quote(text), r.example())
	}
	return r.Finished, nil
}

// ParseKept reads what Of wrote of a piece of any form. Of a tube it was once written without
// a word which way its width goes: that was the way round.
func ParseKept(text string) (Finished, error) { return ParseFinished(text, pattern.Panel) }

func (r *telling) example() string {
	return "write it like " + ExampleOf(r.form) + ", or only what you know, like 30 cm high"
}

// put takes one of the things that are told of a piece.
func (r *telling) put(part string) error {
	if g, ok := parseGrams(part); ok && strings.ContainsAny(part, "0123456789") {
		return r.set(&r.Grams, math.Round(10*g)/10, part, "the weight")
	}
	length, of := cutSide(part)
	if of == noSide && r.Width > 0 && r.Height == 0 { // the width comes first: "45 cm round x 30 cm"
		of = upright
	}
	if bareSize.MatchString(length) {
		length += " cm"
	}
	var wide, high measure.Length
	var err error
	switch {
	case measure.IsSize(length) && of != upright:
		wide, high, err = measure.ParseSize(length)
	case of == noSide:
		return fmt.Errorf("%s does not say of what: %s", quote(part), r.example())
	case of == upright:
		high, err = measure.ParseLength(length)
	default:
		wide, err = measure.ParseLength(length)
	}
	if err != nil {
		return err
	}
	if r.form == pattern.Tube && of != round { // there and back
		wide *= 2
	}
	for _, l := range []struct {
		at   *measure.Length
		is   measure.Length
		name string
	}{{&r.Width, wide, "the width"}, {&r.Height, high, "the height"}} {
		if l.is > 0 {
			if err := r.set((*float64)(l.at), math.Round(float64(l.is)), part, l.name); err != nil {
				return err
			}
		}
	}
	return nil
}

// cutSide takes the word that says of which side a length is off its end, or its beginning,
// with those around it that say nothing more.
func cutSide(part string) (length string, of side) {
	words := slices.DeleteFunc(strings.Fields(part), func(w string) bool { return slices.Contains(fillers, strings.ToLower(w)) })
	last := len(words) - 1
	if last < 0 {
		return part, noSide
	}
	if of = sides[strings.ToLower(words[last])]; of != noSide {
		return strings.Join(words[:last], " "), of
	}
	if of = sides[strings.ToLower(words[0])]; of != noSide {
		return strings.Join(words[1:], " "), of
	}
	return part, noSide
}

// set takes a figure. Told twice it is the same: "22.5 cm flat, that is 45 cm round".
func (r *telling) set(at *float64, x float64, part, name string) error {
	switch {
	case *at > 0 && *at != x:
		return fmt.Errorf("%s is told twice: write one of them", name)
	case x <= 0:
		return fmt.Errorf("%s is too little for %s: %s", quote(part), name, r.example())
	}
	*at = x
	return nil
}

// String is what ParseKept reads; "" where nothing is told.
func (f Finished) String() string { return f.Of(pattern.Panel) }

// Of is what a piece of that form measures and weighs, as ParseFinished and ParseKept read it:
// "21.5 x 30 cm, 62 g"; of a tube "45 cm round, 30 cm high".
func (f Finished) Of(form pattern.Form) string {
	if form == pattern.Tube {
		return f.say(f.Width.String() + " round")
	}
	return f.say("")
}

// Say is the same for people, who lay a tube flat to measure it: "22.5 cm flat, that is 45 cm
// round, 30 cm high".
func (f Finished) Say(form pattern.Form) string {
	if form == pattern.Tube {
		return f.say(measure.Number((f.Width/2).In(measure.Centimetre), 2) + " cm flat, that is " + f.Width.String() + " round")
	}
	return f.say("")
}

// say is all that is told, with a width in those words; "" for that of a panel.
func (f Finished) say(round string) string {
	var says []string
	switch {
	case f.Width > 0 && round != "":
		says = append(says, round)
		if f.Height > 0 {
			says = append(says, f.Height.String()+" high")
		}
	case f.Width > 0 && f.Height > 0:
		says = append(says, measure.Number(f.Width.In(measure.Centimetre), 1)+" x "+f.Height.String())
	case f.Width > 0:
		says = append(says, f.Width.String()+" wide")
	case f.Height > 0:
		says = append(says, f.Height.String()+" high")
	}
	if f.Grams > 0 {
		says = append(says, measure.Number(f.Grams, 1)+" g")
	}
	return strings.Join(says, ", ")
}
