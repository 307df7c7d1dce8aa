package fit

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// counted is what a gauge counts.
type counted uint8

const (
	stitches counted = iota
	rows
	garterRows
)

// counts of a gauge by the words people use, in the singular.
var countWords = map[string]counted{
	"stitch": stitches, "st": stitches, "s": stitches, "peg": stitches,
	"row": rows, "r": rows, "round": rows, "rnd": rows, "garter row": garterRows, "ridge": garterRows, "garter ridge": garterRows,
}

const gaugeExample = `write it like "16 stitches and 22 rows in 10 cm", or "24 pegs = 18.5 cm"`

// longestGauge is how many bytes a gauge may be said in.
const longestGauge = 200

// ParseGauge reads a gauge as people say it: counts of stitches or pegs, rows, garter
// rows or ridges, and the length they were counted over: "16 stitches and 22 rows in 10
// cm", "24 pegs = 18.5 cm, 30 rows = 20 cm", or over a whole swatch, its width first: "24
// stitches and 30 rows = 15 x 16 cm". The length may stand first, "20 cm = 24 pegs", and two
// bare counts are stitches and rows: "16 x 22 in 10 cm". A ridge is two garter rows. A comma
// between two digits is a decimal one. What is not said is 0. The error says what to write
// instead.
func ParseGauge(text string) (pattern.Gauge, error) {
	var g pattern.Gauge
	if len(text) > longestGauge {
		return g, fmt.Errorf("a gauge is said in a few words: %s", gaugeExample)
	}
	var waiting []count
	rest := bothNamed(plainWords(lengthLast(text)))
	for rest != "" {
		c, after, err := firstCount(rest)
		if err != nil {
			return pattern.Gauge{}, err
		}
		waiting = append(waiting, c)
		over, after, given := overLength(after)
		rest = after
		if !given {
			if rest == "" {
				return pattern.Gauge{}, fmt.Errorf("%s does not say over which length it was counted: %s", quote(text), gaugeExample)
			}
			continue
		}
		across, up, err := parseOver(over)
		if err != nil {
			return pattern.Gauge{}, err
		}
		for _, c := range waiting {
			l := up
			if c.what == stitches {
				l = across
			}
			if err := c.put(&g, l); err != nil {
				return pattern.Gauge{}, err
			}
		}
		waiting = nil
	}
	if g == (pattern.Gauge{}) {
		return g, fmt.Errorf("%s is no gauge: %s", quote(text), gaugeExample)
	}
	return g, nil
}

// lengthLast puts a length that stands before what was counted over it behind it.
func lengthLast(text string) string {
	length, counts, ok := strings.Cut(text, "=")
	if !ok || strings.Contains(counts, "=") {
		return text
	}
	if _, _, err := parseOver(strings.TrimSpace(length)); err != nil {
		return text
	}
	return counts + " = " + length
}

var bareCounts = regexp.MustCompile(`^([0-9]+(?:[.,][0-9]+)?) ?[/x×] ?([0-9]+(?:[.,][0-9]+)?) (in|=|over|per|to|/) `)

// bothNamed says what two bare counts are of: stitches come first, as with every size its
// width does. Common practice, no source.
func bothNamed(words string) string {
	return bareCounts.ReplaceAllString(words, "$1 stitches and $2 rows $3 ")
}

// plainWords is a text in small letters, its words and signs with one blank between.
func plainWords(text string) string {
	return strings.ToLower(strings.Join(strings.Fields(spaced(text)), " "))
}

// spaced puts a blank behind every comma that parts two things of a list, and blanks around
// the signs that part a count from its length or from another one.
func spaced(text string) string {
	digit := func(s []rune) bool { return len(s) > 0 && unicode.IsDigit(s[0]) }
	var b strings.Builder
	runes := []rune(text)
	for i, r := range runes {
		between := i > 0 && digit(runes[i-1:]) && digit(runes[i+1:])
		switch {
		case r == '&':
			b.WriteString(" and ")
		case r == '=', r == '/' && !between:
			b.WriteString(" " + string(r) + " ")
		case (r == ',' || r == ';') && !between:
			b.WriteString(string(r) + " ")
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// parseOver reads the length that stitches and rows were counted over, or the width and the
// height. A unit alone is one of it: "per inch". A length may be said to be square.
func parseOver(text string) (across, up measure.Length, err error) {
	if strings.Contains(text, "=") {
		return 0, 0, fmt.Errorf(`%s is more than one length: write a comma between, as in "24 pegs = 18.5 cm, 30 rows = 20 cm"`, quote(text))
	}
	text = strings.TrimPrefix(strings.TrimSuffix(strings.TrimSuffix(text, " square"), " sq"), "a ")
	if measure.IsSize(text) {
		return measure.ParseSize(text)
	}
	if number, _ := measure.CutNumber(text); number == "" {
		unit := strings.TrimPrefix(strings.TrimPrefix(text, "the "), "an ")
		if l, err := measure.ParseLength("1 " + unit); err == nil {
			return l, l, nil
		}
	}
	l, err := measure.ParseLength(text)
	return l, l, err
}

// count is a number of something.
type count struct {
	n    float64
	what counted
}

// firstCount reads "16 stitches" off the front of a text, and what joins it to more.
func firstCount(text string) (count, string, error) {
	number, rest := measure.CutNumber(text)
	if number == "" {
		return count{}, "", fmt.Errorf("%s is no gauge: %s", quote(text), gaugeExample)
	}
	n, err := measure.ParseNumber(number)
	if err != nil {
		return count{}, "", err
	}
	if n <= 0 || n > 1e6 {
		return count{}, "", fmt.Errorf("%s is no count of a gauge: write a number above 0", quote(number))
	}
	for _, words := range []int{2, 1} {
		fields := strings.Fields(rest)
		if len(fields) < words {
			continue
		}
		word := strings.TrimSuffix(strings.Join(fields[:words], " "), ",")
		what, ok := countWords[singular(word)]
		if !ok {
			continue
		}
		if strings.HasSuffix(word, "ridge") || strings.HasSuffix(word, "ridges") {
			n *= 2
		}
		for range words {
			rest = strings.TrimSpace(strings.TrimPrefix(rest, strings.Fields(rest)[0]))
		}
		return count{n, what}, joined(rest), nil
	}
	return count{}, "", fmt.Errorf("%s counts nothing that is known: %s", quote(text), gaugeExample)
}

// joined is what follows a word or sign that joins two counts. A stroke does so only where a
// count is behind it: else it parts the count from its length.
func joined(rest string) string {
	for _, sign := range []string{"and ", "x ", "× ", "by ", "+ "} {
		if after, ok := strings.CutPrefix(rest, sign); ok {
			return after
		}
	}
	if after, ok := strings.CutPrefix(rest, "/ "); ok {
		if _, words := measure.CutNumber(after); words != "" {
			if _, counts := countWords[singular(strings.TrimSuffix(strings.Fields(words)[0], ","))]; counts {
				return after
			}
		}
	}
	return rest
}

func singular(word string) string {
	if word == "s" {
		return word
	}
	if s, ok := strings.CutSuffix(word, "stitches"); ok {
		return s + "stitch"
	}
	return strings.TrimSuffix(word, "s")
}

// overLength reads "in 10 cm" or "= 10 cm" off the front of a text, up to the next
// comma, "and" or count.
func overLength(text string) (length, rest string, ok bool) {
	for _, sign := range []string{"in ", "=", "over ", "per ", "/", "are ", "measure ", "to "} {
		after, found := strings.CutPrefix(text, sign)
		if !found {
			continue
		}
		end := len(after)
		for _, stop := range []string{", ", "; ", " and "} {
			if i := strings.Index(after, stop); i >= 0 && i < end {
				end, rest = i, after[i+len(stop):]
			}
		}
		return strings.TrimSpace(after[:end]), strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(rest), "and ")), true
	}
	return "", text, false
}

// put sets what was counted over a length.
func (c count) put(g *pattern.Gauge, over measure.Length) error {
	d := float64(measure.DensityOf(c.n, over))
	at, name := &g.Stitches, "stitches"
	switch c.what {
	case rows:
		at, name = &g.Rows, "rows"
	case garterRows:
		at, name = &g.GarterRows, "garter rows"
	}
	switch {
	case *at > 0:
		return fmt.Errorf("the gauge says twice how many %s there are", name)
	case d < fewestIn10cm || d > mostIn10cm:
		return fmt.Errorf("%s %s in 10 cm is no gauge of knitted fabric: count over a relaxed swatch", measure.Number(min(d, 1e9), 3), name)
	}
	*at = d
	return nil
}
