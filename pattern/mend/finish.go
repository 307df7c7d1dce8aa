package mend

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

// Task is a kind of work on a piece that is off the loom.
type Task uint8

// The tasks, in the order in which they are done.
const (
	Relax Task = iota
	WeaveIn
	Caution // read before anything is done with water and heat
	Wash
	DryTask
	Press
	Measure
	Weigh
)

// String is the task as programs read it.
func (t Task) String() string {
	return [...]string{"relax", "weave in", "caution", "wash", "dry", "press", "measure", "weigh"}[min(t, Weigh)]
}

// ToDo is one line of the list.
type ToDo struct {
	Task  Task
	Words string
}

// Finish is what is done to a piece off the loom.
type Finish []ToDo

// Len is how many lines there are.
func (f Finish) Len() int { return len(f) }

// Words says one of them.
func (f Finish) Words(i int) string { return f[i].Words }

// care is how a fibre is washed, dried and pressed. Washing: common practice, no source; a
// ball band goes before it. Pressing: published, the dots of care labels.
type care struct {
	wash   int // degrees Celsius at most
	iron   int // degrees Celsius at most; 0 tells not to
	dry    string
	gentle bool // squeezed, never wrung
}

var cares = map[fit.Fibre]care{
	fit.Cotton:    {40, 200, "flat; it is heavy when wet, and tightens up as it dries", false},
	fit.Linen:     {40, 200, "flat, and pull it to shape while it is damp", false},
	fit.Wool:      {30, 150, "flat, pinned to its size, away from heat; warm water and rubbing felt it", true},
	fit.Silk:      {30, 110, "flat, out of the sun", true},
	fit.Viscose:   {30, 110, "flat; it is weak and stretches while it is wet", true},
	fit.Acrylic:   {30, 110, "flat; it keeps its shape by the wash, and steam makes it limp for good", false},
	fit.Nylon:     {30, 110, "flat, away from heat", false},
	fit.Polyester: {30, 110, "flat, away from heat", false},
}

// unknownCare is that of a fibre that nobody names: the gentlest.
var unknownCare = care{30, 0, "flat, away from heat", true}

// careOf is what suits all fibres of a piece: the coolest water and iron, the gentlest hand.
func careOf(fibres []fit.Fibre) (c care, dry []string) {
	if len(fibres) == 0 {
		return unknownCare, []string{unknownCare.dry}
	}
	c = cares[fibres[0]]
	for _, f := range fibres {
		one := cares[f]
		c.wash, c.iron, c.gentle = min(c.wash, one.wash), min(c.iron, one.iron), c.gentle || one.gentle
		if !slices.Contains(dry, one.dry) {
			dry = append(dry, one.dry)
		}
	}
	return c, dry
}

// FinishOf is the list for a piece: by its use, its fibres and how it was made.
func FinishOf(p *pattern.Pattern) Finish {
	var fibres []fit.Fibre
	named := true
	for _, y := range p.Yarns {
		of := fit.FibresOf(y.Fibre)
		named = named && len(of) > 0
		fibres = append(fibres, of...)
	}
	if !named { // what one yarn is of nobody knows: the gentlest for all
		fibres = nil
	}
	list := Finish{
		{Relax, "lay it flat and pull it gently, first across, then lengthwise, until the stitches lie even; let it rest a day"},
		{WeaveIn, weaveWords(p)},
	}
	for _, c := range fit.CautionsBesidesIron(&p.Design) {
		list = append(list, ToDo{Caution, c})
	}
	list = append(list, careWords(fibres)...)
	return append(list, ToDo{Measure, measureWords(p)},
		ToDo{Weigh, "weigh it, and put size and grams down on the shelf: they are your own figures for the next one"})
}

func careWords(fibres []fit.Fibre) []ToDo {
	c, dry := careOf(fibres)
	wash := fmt.Sprintf("wash it at %d C at most", c.wash)
	if len(fibres) == 0 {
		wash = fmt.Sprintf("the fibre is not known: try it on the swatch first; else wash at %d C at most", c.wash)
	}
	if wash += "; the ball band goes before this"; c.gentle {
		wash += "; press the water out in a towel, never wring it"
	}
	list := []ToDo{{Wash, wash}}
	for _, d := range dry {
		list = append(list, ToDo{DryTask, "dry it " + d})
	}
	if c.iron == 0 {
		return append(list, ToDo{Press, "do not press it"})
	}
	return append(list, ToDo{Press, fmt.Sprintf("if you press it, from behind, at %d C at most, %s on the label", c.iron, fit.IronDots(c.iron))})
}

// weaveWords says how ends are sewn in: those of the cast-on and the bind-off at the least.
func weaveWords(p *pattern.Pattern) string {
	text := "weave in the ends of cast-on and bind-off, and of every ball you joined, some 5 cm there and back along a row, from behind"
	switch p.Use {
	case pattern.Baby:
		text += "; leave no end or loop that a finger could catch in"
	case pattern.HotPad, pattern.Cloth:
		text += "; split the strand once, so that it stands the wash"
	}
	return text
}

// measureWords says what to measure, beside what the pattern comes to.
func measureWords(p *pattern.Pattern) string {
	text := "once it is dry and has rested, measure it, unstretched, and note the true size"
	s := fit.SizeOf(p)
	if s.Width.Known() && s.Height.Known() {
		about := ""
		if !s.Width.Exact() || !s.Height.Exact() {
			about = "about "
		}
		text += "; by the pattern it is " + about + sizeWords(p.Form, s.Width.Likely, s.Height.Likely)
	}
	return text + fmt.Sprintf("; over %s and %s that is your own gauge", count(p.Pegs, "peg"), count(p.Grid.Rows(), p.Form.RowWord()))
}

// sizeWords is a size to half a centimetre, as the report of a pattern rounds it: "21.5 x 30
// cm"; a tube is measured as it lies flat: "45 cm round, 22.5 flat, 30 cm high".
func sizeWords(form pattern.Form, width, height measure.Length) string {
	bare := func(l measure.Length) string { return strings.TrimSuffix(l.Rough(), " cm") }
	if form == pattern.Tube {
		return fmt.Sprintf("%s round, %s flat, %s high", width.Rough(), bare(width/2), height.Rough())
	}
	return bare(width) + " x " + height.Rough()
}
