package fit

import (
	"fmt"
	"strconv"
	"strings"

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
	"stitch": stitches, "st": stitches, "peg": stitches,
	"row": rows, "round": rows, "rnd": rows, "garter row": garterRows, "ridge": garterRows, "garter ridge": garterRows,
}

const gaugeExample = `write it like "16 stitches and 22 rows in 10 cm", or "24 pegs = 18.5 cm"`

// ParseGauge reads a gauge as people say it: counts of stitches or pegs, rows, garter
// rows or ridges, and the length they were counted over: "16 stitches and 22 rows in 10
// cm", "24 pegs = 18.5 cm, 30 rows = 20 cm". A ridge is two garter rows. What is not
// said is 0. The error says what to write instead.
func ParseGauge(text string) (pattern.Gauge, error) {
	var g pattern.Gauge
	var waiting []count
	rest := strings.ToLower(strings.TrimSpace(strings.ReplaceAll(text, "=", " = ")))
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
		l, err := measure.ParseLength(over)
		if err != nil {
			return pattern.Gauge{}, err
		}
		for _, c := range waiting {
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

// count is a number of something.
type count struct {
	n    float64
	what counted
}

// firstCount reads "16 stitches" off the front of a text, and what joins it to more.
func firstCount(text string) (count, string, error) {
	end := strings.IndexFunc(text, func(r rune) bool { return (r < '0' || r > '9') && r != '.' })
	if end < 1 {
		return count{}, "", fmt.Errorf("%s is no gauge: %s", quote(text), gaugeExample)
	}
	n, err := strconv.ParseFloat(text[:end], 64)
	if err != nil || n <= 0 || n > 1e6 {
		return count{}, "", fmt.Errorf("%s is no count of a gauge: write a number above 0", quote(text[:end]))
	}
	rest := strings.TrimSpace(text[end:])
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
		return count{n, what}, strings.TrimSpace(strings.TrimPrefix(rest, "and ")), nil
	}
	return count{}, "", fmt.Errorf("%s counts nothing that is known: %s", quote(text), gaugeExample)
}

func singular(word string) string {
	if s, ok := strings.CutSuffix(word, "stitches"); ok {
		return s + "stitch"
	}
	return strings.TrimSuffix(word, "s")
}

// overLength reads "in 10 cm" or "= 10 cm" off the front of a text, up to the next
// comma, "and" or count.
func overLength(text string) (length, rest string, ok bool) {
	for _, sign := range []string{"in ", "=", "over ", "per ", "are ", "to "} {
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
	case d < 0.5 || d > 500: // as pattern files have it
		return fmt.Errorf("%s %s in 10 cm is no gauge of knitted fabric: count over a relaxed swatch", measure.Number(min(d, 1e9), 1), name)
	}
	*at = d
	return nil
}
