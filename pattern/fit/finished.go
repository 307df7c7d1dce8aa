package fit

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// Finished is what a piece off the loom measures and weighs. What its maker did not tell
// is 0.
type Finished struct {
	Width  measure.Length // of all pegs, to the millimetre; of a tube the way round
	Height measure.Length // of all rows
	Grams  float64        // to the tenth
}

const finishedExample = "write it like 21.5 x 30 cm, 62 g, or only what you know, like 30 cm high"

// longestFinished is how many bytes a size and a weight may be told in.
const longestFinished = 200

// across tells of the words that people use for a measure whether it is the width.
var across = map[string]bool{
	"wide": true, "width": true, "across": true, "round": true, "around": true,
	"high": false, "height": false, "long": false, "length": false, "tall": false,
}

var (
	// bareSize is a length or two of which no unit is told.
	bareSize = regexp.MustCompile(`^[0-9][0-9.,/ ½¼¾⅛⅜⅝⅞]*((x|X|×|by)[0-9.,/ ½¼¾⅛⅜⅝⅞]+)?$`)
	// weightBehind is a weight that nothing parts from a word or a unit before it.
	weightBehind = regexp.MustCompile(`(?i)([a-z"”])\s+([0-9]+(?:[.,][0-9]+)?(?: ?[½¼¾]| [0-9]+/[0-9]+)? ?(?:k?g|gr|grams?|oz|ounces?|lbs?|pounds?))$`)
)

// ParseFinished reads what a finished piece measures and weighs: "21.5 x 30 cm, 62 g", the
// width first, or some of it: "62 g", "21.5 cm wide", "30 cm high, 2.2 oz". A size without a
// unit is in centimetres; a comma between two digits is a decimal one. The error says what to
// write instead.
func ParseFinished(text string) (Finished, error) {
	var f Finished
	if len(text) > longestFinished {
		return f, errors.New("a size and a weight are told in a few words: " + finishedExample)
	}
	listed := weightBehind.ReplaceAllString(strings.ReplaceAll(strings.TrimSpace(text), " and ", "; "), "$1; $2")
	for _, part := range strings.Split(strings.ReplaceAll(spaced(listed), ", ", ";"), ";") {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		if err := f.put(part); err != nil {
			return Finished{}, err
		}
	}
	if f == (Finished{}) {
		return f, fmt.Errorf("%s tells no size and no weight: %s", quote(text), finishedExample)
	}
	return f, nil
}

// put takes one of the things that are told of a piece.
func (f *Finished) put(part string) error {
	if g, ok := parseGrams(part); ok && strings.ContainsAny(part, "0123456789") {
		return f.set(&f.Grams, math.Round(10*g)/10, part, "the weight")
	}
	length, isWidth, named := cutSide(part)
	if bareSize.MatchString(length) {
		length += " cm"
	}
	var wide, high measure.Length
	var err error
	switch {
	case measure.IsSize(length) && !named:
		wide, high, err = measure.ParseSize(length)
	case !named:
		return fmt.Errorf("%s does not say of what: %s", quote(part), finishedExample)
	case isWidth:
		wide, err = measure.ParseLength(length)
	default:
		high, err = measure.ParseLength(length)
	}
	if err != nil {
		return err
	}
	for _, l := range []struct {
		at   *measure.Length
		is   measure.Length
		name string
	}{{&f.Width, wide, "the width"}, {&f.Height, high, "the height"}} {
		if l.is > 0 {
			if err := f.set((*float64)(l.at), math.Round(float64(l.is)), part, l.name); err != nil {
				return err
			}
		}
	}
	return nil
}

// cutSide takes the word that says of which side a length is off its end, or its beginning.
func cutSide(part string) (length string, isWidth, named bool) {
	words := strings.Fields(part)
	last := len(words) - 1
	if isWidth, named = across[strings.ToLower(words[last])]; named {
		return strings.Join(words[:last], " "), isWidth, true
	}
	if isWidth, named = across[strings.ToLower(words[0])]; named {
		return strings.Join(words[1:], " "), isWidth, true
	}
	return part, false, false
}

// set takes a figure, which is told once.
func (f *Finished) set(at *float64, x float64, part, name string) error {
	switch {
	case *at > 0:
		return fmt.Errorf("%s is told twice: write one of them", name)
	case x <= 0:
		return fmt.Errorf("%s is too little for %s: %s", quote(part), name, finishedExample)
	}
	*at = x
	return nil
}

// String is what ParseFinished reads; "" where nothing is told.
func (f Finished) String() string { return f.Of(pattern.Panel) }

// Of is what a piece of that form measures and weighs: "21.5 x 30 cm, 62 g", "44 cm round".
func (f Finished) Of(form pattern.Form) string {
	wide := "wide"
	if form == pattern.Tube {
		wide = "round"
	}
	var says []string
	switch {
	case f.Width > 0 && f.Height > 0:
		says = append(says, measure.Number(f.Width.In(measure.Centimetre), 1)+" x "+f.Height.String())
	case f.Width > 0:
		says = append(says, f.Width.String()+" "+wide)
	case f.Height > 0:
		says = append(says, f.Height.String()+" high")
	}
	if f.Grams > 0 {
		says = append(says, measure.Number(f.Grams, 1)+" g")
	}
	return strings.Join(says, ", ")
}
