package find

import (
	"fmt"
	"strconv"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// Parse reads a clue that nobody asked for, as a person writes it. What is said of one peg
// begins with its number: "12=vvb". A length is "12 cm", a zone its name, and all else as
// Question.Read has it. The error says what to write instead.
func Parse(o pattern.Order, k Kind, text string) (Clue, error) {
	c := Clue{Kind: k}
	var err error
	switch {
	case k == Length:
		var l measure.Length
		if l, err = measure.ParseLength(text); err == nil {
			c.Length = l.In(measure.Millimetre)
			err = Check(o, c)
		}
		return c, err
	case k == Zone:
		c.Count, err = zoneNamed(o.Pattern, text)
		return c, err
	case !k.OfPeg():
		return Question{Kind: k}.Read(o, text)
	}
	number, said, found := strings.Cut(text, "=")
	peg, err := strconv.Atoi(strings.TrimSpace(number))
	if err != nil || !found {
		return c, fmt.Errorf("%s does not say of which peg: write %s", quote(text), forms[k])
	}
	return Question{Kind: k, Peg: peg, Deep: deepest}.Read(o, said)
}

// forms are how that is written which is said of one peg.
var forms = map[Kind]string{
	Look:    "12=vvb for peg 12, the newest first",
	Bumps:   "14=9 for 9 bumps in the column of peg 14",
	Alike:   "12=5v for 5 V's below peg 12, 12=2b for 2 bumps",
	Crossed: "10=6 where below peg 10 the crossing row is the 6th from the top",
}

func zoneNamed(p *pattern.Pattern, name string) (int, error) {
	var names []string
	for i := range p.Zones {
		if strings.EqualFold(p.Zones[i].Name, strings.TrimSpace(name)) {
			return i, nil
		}
		names = append(names, p.Zones[i].Name)
	}
	if near := safetext.Nearest(name, names); near != "" {
		return 0, fmt.Errorf("there is no zone %s: did you mean %s?", quote(name), quote(near))
	}
	return 0, fmt.Errorf("there is no zone %s: the zones are %s", quote(name), strings.Join(names, ", "))
}

// quote makes what a person wrote safe to show, in a line's breadth.
func quote(s string) string {
	const width = 40
	if s = safetext.Clean(s[:min(len(s), 8*width)]); safetext.Width(s) > width {
		s = safetext.Cut(s, width-3) + "..."
	}
	return `"` + s + `"`
}
