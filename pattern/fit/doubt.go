package fit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// doubtful is from what part on two figures that should agree don't.
const doubtful = 0.25

// Rows to stitches of plain fabric on looms lie between these; outside one of them was
// counted wrongly. Common practice, no source.
const (
	lowestRatio  = 1.0
	highestRatio = 2.4
)

// tapered is from what part on two zones of one piece differ in width so much that it is
// worth telling.
const tapered = 0.10

// Doubts are what does not go together in a design: the gauge it states and the one that
// its loom and its yarn lead to expect, the yarn and the loom, and what is said of the yarn.
func Doubts(p *pattern.Pattern, s *Size) []string {
	var said []string
	d := &p.Design
	if given := d.Gauge.Stitches; given > 0 {
		if d.Loom.SpacingMM > 0 {
			said = append(said, gaugeDoubt(given, ExpectedOn(measure.Length(d.Loom.SpacingMM)), "the spacing of the pegs")...)
		}
		if classes := ClassesOf(d.Yarns[0]); len(classes) > 0 {
			said = append(said, gaugeDoubt(given, ExpectedOf(classes), "yarn of class "+ClassWords(classes))...)
		}
		if r := d.Gauge.Rows / given; d.Gauge.Rows > 0 && (r < lowestRatio || r > highestRatio) {
			said = append(said, fmt.Sprintf("%s rows to a stitch are unusual: plain fabric has %s to %s; was the swatch plain and relaxed?",
				measure.Number(r, 1), measure.Number(lowestRatio, 1), measure.Number(highestRatio, 1)))
		}
	}
	for _, y := range d.Yarns {
		said = append(said, yarnDoubt(y)...)
	}
	if l := LoomOf(p); l.Off != 0 {
		said = append(said, l.offDoubt(d))
	}
	return append(said, widthDoubt(p, s)...)
}

// gaugeDoubt tells of a gauge that lies far outside the expected.
func gaugeDoubt(given float64, expected Range[measure.Density], by string) []string {
	low, high := float64(expected.Low), float64(expected.High)
	if given >= low*(1-doubtful) && given <= high*(1+doubtful) {
		return nil
	}
	return []string{fmt.Sprintf("the gauge says %s stitches in 10 cm; by %s one expects %.0f to %.0f", measure.Number(given, 1), by, low, high)}
}

// yarnDoubt tells of a class that is stated and of figures that say another.
func yarnDoubt(y pattern.YarnInfo) []string {
	figured := figuredClasses(y)
	if y.Weight == pattern.UnknownWeight || len(figured) == 0 || slices.ContainsFunc(figured, func(c int) bool { return abs(c-y.Weight) <= 1 }) {
		return nil
	}
	return []string{fmt.Sprintf("%s is said to be of class %d; by its figures it is of class %s", y.Called(), y.Weight, ClassWords(figured))}
}

func (l *OnLoom) offDoubt(d *pattern.Design) string {
	than := "thinner"
	if l.Off > 0 {
		than = "thicker"
	}
	word := "class"
	if abs(l.Off) > 1 {
		word = "classes"
	}
	return fmt.Sprintf("yarn of class %s is %d %s %s than what usually suits pegs %s mm apart, class %s",
		ClassWords(ClassesOf(d.Yarns[0])), abs(l.Off), word, than, measure.Number(l.Loom.SpacingMM, 1), ClassWords(l.Suits))
}

// widthDoubt tells where borders would come out much wider or narrower than the field.
func widthDoubt(p *pattern.Pattern, s *Size) []string {
	for i, z := range s.Zones {
		if off := float64(z.Width.Likely/s.Width.Likely) - 1; math.Abs(off) > tapered {
			how := "wider"
			if off < 0 {
				how = "narrower"
			}
			return []string{fmt.Sprintf("%s would come out %.0f %% %s than the widest field by itself: it will pull or flare",
				quote(p.Zones[i].Name), 100*math.Abs(off), how)}
		}
	}
	return nil
}

// ClassWords are classes in words: "4", "4 or 5".
func ClassWords(classes []int) string {
	words := make([]string, len(classes))
	for i, c := range classes {
		words[i] = fmt.Sprint(c)
	}
	return strings.Join(words, " or ")
}
