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
	if d.Gauge.Stitches > 0 && said == nil {
		said = GaugeDoubt(d.Gauge.Stitches)
	}
	for _, y := range d.Yarns {
		said = append(said, yarnDoubt(y)...)
	}
	if l := LoomOf(p); l.Off != 0 {
		said = append(said, l.offDoubt(d))
	}
	said = append(said, ribDoubt(p)...)
	return append(said, widthDoubt(p, s)...)
}

// GaugeDoubt tells of a gauge, in stitches in 10 cm, that lies far outside of what any class
// of yarn leads to expect.
func GaugeDoubt(stitches float64) []string {
	all := make([]int, len(Classes))
	for class := range all {
		all[class] = class
	}
	e := ExpectedOf(all)
	if len(gaugeDoubt(stitches, e, "")) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("%s stitches in 10 cm are far from what any yarn gives, %.0f to %.0f: is the length right that they were counted over?",
		measure.Number(stitches, 1), float64(e.Low), float64(e.High))}
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

// ribsDrawIn is by how many percent ribs of 1 by 1 are narrower than as many stitches of
// plain fabric, by sources that disagree (published, see the tests).
var ribsDrawIn = Span{30, 50}

// ribDoubt tells of zones that are ribbed, in a gauge that was not measured on them.
func ribDoubt(p *pattern.Pattern) []string {
	var names []string
	for i := range p.Zones {
		z := &p.Zones[i]
		if z.Gauge == "" && z.Rows() >= fewestRibRows && slices.ContainsFunc(z.Strips, func(s pattern.Strip) bool { return s.Gauge == "" && !s.Side && ribbed(p, z, s) }) {
			names = append(names, quote(z.Name))
		}
	}
	if names == nil {
		return nil
	}
	are := "is"
	if len(names) > 1 {
		are = "are"
	}
	return []string{fmt.Sprintf("%s %s ribbed, and ribs draw in, those of 1 by 1 by %.0f to %.0f %%: unless [gauge] was measured on them, measure them and write it under [gauges.NAME]",
		strings.Join(names, ", "), are, ribsDrawIn.Low, ribsDrawIn.High)}
}

// Ribs have columns that stay knit or purl over some rows; a third of them, at least, are
// another than their neighbour, as in 3 by 3.
const (
	fewestRibRows = 4
	ribShare      = 1.0 / 3
)

func ribbed(p *pattern.Pattern, z *pattern.Zone, s pattern.Strip) bool {
	first := p.Grid.Row(z.First).Cells()
	stays := make([]bool, s.To-s.From)
	for i := range stays {
		stays[i] = knitOrPurl(first[s.From+i].Stitch.Face())
	}
	seen := map[*pattern.Row]bool{}
	for row := z.First; row <= z.Last; row++ {
		r := p.Grid.Row(row)
		if seen[r] {
			continue
		}
		seen[r] = true
		for i, c := range r.Cells()[s.From:s.To] {
			stays[i] = stays[i] && c.Stitch.Face() == first[s.From+i].Stitch.Face()
		}
	}
	changes := 0
	for i := 1; i < len(stays); i++ {
		if stays[i-1] && stays[i] && first[s.From+i-1].Stitch.Face() != first[s.From+i].Stitch.Face() {
			changes++
		}
	}
	return changes >= 2 && float64(changes) >= ribShare*float64(len(stays)-1)-1
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
