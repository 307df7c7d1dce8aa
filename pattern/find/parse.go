package find

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// Parse reads a clue as a person writes it. The error says what to write instead.
//
//	ridges             8
//	last               knit, purl or both: how it was worked
//	yarn               left, right, end or between
//	from-peg           17
//	peg                12=vvb: v for a V, b for a bump, e for the cast-on edge, ? where it can't be told
//	bumps              14=9
//	alike              12=5v, 12=2b
//	crossed            10=6
//	length             12 cm
//	zone               its name
func Parse(o pattern.Order, k Kind, text string) (Clue, error) {
	c := Clue{Kind: k}
	var err error
	text = strings.TrimSpace(text)
	switch k {
	case Ridges:
		c.Count, err = number(text, "how many ridges you count: write 8")
	case LastRow:
		var i int
		i, err = oneOf(text, lastRowNames)
		c.Row = RowLook(i)
	case Yarn:
		var i int
		i, err = oneOf(text, hangsNames)
		c.Hangs = Hangs(i)
	case FromPeg:
		c.Peg, err = number(text, "the number of the peg that the yarn comes from: write 17")
	case Length:
		var l measure.Length
		l, err = measure.ParseLength(text)
		c.Length = l.In(measure.Millimetre)
	case Zone:
		c.Count, err = zoneNamed(o.Pattern, text)
	default:
		err = c.parseOfPeg(text)
	}
	if err == nil {
		err = Check(o, c)
	}
	return c, err
}

var (
	lastRowNames = []string{Knitted: "knit", Purled: "purl", Both: "both"}
	hangsNames   = []string{AtLeft: "left", AtRight: "right", AtEnd: "end", Between: "between"}
)

func oneOf(text string, names []string) (int, error) {
	i := slices.Index(names, strings.ToLower(text))
	if i < 0 {
		last := len(names) - 1
		return 0, fmt.Errorf("%s is not understood: write %s or %s", quote(text), strings.Join(names[:last], ", "), names[last])
	}
	return i, nil
}

// most is more than any count in a piece can be.
const most = 10 * pattern.MaxRows

// number reads a count; what says what it is and how it is written.
func number(text, what string) (int, error) {
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > most {
		return 0, fmt.Errorf("%s is not %s", quote(text), what)
	}
	return n, nil
}

var ofPegForms = map[Kind]string{
	Look:    "what a peg shows: write 12=vvb for peg 12, the newest first: v for a V, b for a bump, e for the cast-on edge, ? where it can't be told",
	Bumps:   "a count of bumps: write 14=9 for 9 bumps in the column of peg 14",
	Alike:   "a count of stitches alike: write 12=5v for 5 V's below peg 12, 12=2b for 2 bumps",
	Crossed: "a count since a crossing: write 10=6 for peg 10 where the crossing row is the 6th from the top",
}

// parseOfPeg reads what is said of one peg: "12=vvb".
func (c *Clue) parseOfPeg(text string) error {
	form := ofPegForms[c.Kind]
	peg, said, found := strings.Cut(text, "=")
	peg, said = strings.TrimSpace(peg), strings.ToLower(strings.TrimSpace(said))
	n, err := number(peg, form)
	if err != nil || !found {
		return fmt.Errorf("%s is not %s", quote(text), form)
	}
	c.Peg = n
	switch c.Kind {
	case Look:
		for _, letter := range said {
			i := strings.IndexRune(seenLetters, letter)
			if i < 0 {
				return fmt.Errorf("%s is not %s", quote(text), form)
			}
			c.Seen = append(c.Seen, Seen(i))
		}
		return nil
	case Alike:
		if said == "" {
			return fmt.Errorf("%s is not %s", quote(text), form)
		}
		end := len(said) - 1
		c.Seen = []Seen{Seen(max(0, strings.IndexByte(seenLetters, said[end])))}
		said = said[:end]
	}
	if c.Count, err = number(said, form); err != nil {
		return fmt.Errorf("%s is not %s", quote(text), form)
	}
	return nil
}

// seenLetters are how looks are written, in the order of Seen.
const seenLetters = "?vbe"

func zoneNamed(p *pattern.Pattern, name string) (int, error) {
	var names []string
	for i := range p.Zones {
		if strings.EqualFold(p.Zones[i].Name, name) {
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
