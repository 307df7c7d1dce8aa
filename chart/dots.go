package chart

import (
	"strings"

	"bypeg/pattern"
)

// The shapes of dots. Where the two halves of a cell cannot have a colour each, a cell
// is filled the more densely the more its stitches stand out: knit lightly, purl wholly,
// a further yarn with a pattern of its own. Where one half is purl or another yarn and
// the other knit or nothing, only that half is filled: ridges are lines. What is to come
// has the lightest shapes of all.

// ink is how densely a dot is filled.
type ink uint8

const (
	noInk ink = iota
	flatInk
	mixedInk
	raisedInk
	secondInk
	thirdInk
	furtherInk
	inks // how many there are
)

// dotShapes are the shapes of cells.
type dotShapes struct {
	worked, coming [inks]string
	halves         [2]string // the lower half filled, the upper
}

func dotShapesFor(ascii bool) dotShapes {
	if ascii {
		return dotShapes{
			worked: [inks]string{" ", ".", ":", "#", "%", "@", "&"},
			coming: [inks]string{" ", " ", "'", "'", "`", "`", "`"},
			halves: [2]string{"_", `"`},
		}
	}
	return dotShapes{
		worked: [inks]string{" ", "░", "▒", "█", "▓", "▚", "▞"},
		coming: [inks]string{" ", " ", "·", "·", "∙", "∙", "∙"},
		halves: [2]string{"▄", "▀"},
	}
}

func (d Dot) ink() ink {
	switch {
	case d.Relief == Nothing:
		return noInk
	case d.Ground >= InSecond:
		return secondInk + ink(d.Ground-InSecond)
	}
	return ink(d.Relief)
}

// of is the shape of a cell.
func (s *dotShapes) of(top, bottom Dot) string {
	a, b := top.ink(), bottom.ink()
	low, high := min(a, b), max(a, b)
	switch {
	case top.Coming || bottom.Coming:
		return s.coming[high]
	case low <= flatInk && high >= raisedInk && a > b:
		return s.halves[1]
	case low <= flatInk && high >= raisedInk:
		return s.halves[0]
	}
	return s.worked[high]
}

// dots draws n cells that are alike.
func (c *Chart) dots(top, bottom Dot, n int) string {
	if p, ok := c.painter.(DotPainter); ok {
		if s, ok := p.PaintDots(top, bottom, n); ok {
			return s
		}
	}
	// A shape tells whether a row is to come, so only one state fits into a cell: the lower.
	if bottom.Relief != Nothing && top.Coming != bottom.Coming {
		top = Dot{}
	}
	shown := bottom
	if top.ink() > bottom.ink() {
		shown = top
	}
	text := strings.Repeat(c.symbols.dots.of(top, bottom), n)
	if strings.TrimSpace(text) == "" {
		return text
	}
	return c.paint(shown.tone(), text)
}

// tone is the tone of a dot where it is a shape.
func (d Dot) tone() Tone {
	t := Other
	switch d.Ground {
	case InField:
		t = Field
	case InBorder:
		t = Border
	}
	if d.Coming {
		return t + FieldComing - Field
	}
	return t
}

// coloured tells whether the halves of cells have colours.
func (c *Chart) coloured() bool {
	p, ok := c.painter.(DotPainter)
	if ok {
		_, ok = p.PaintDots(Dot{}, Dot{}, 1)
	}
	return ok
}

// key explains what is seen, and nothing else.
func (o *Overview) key() []string {
	seen := map[Dot]bool{}
	for _, line := range o.dots {
		for _, d := range line {
			seen[d] = true
		}
	}
	any := func(fits func(Dot) bool) bool {
		for d := range seen {
			if d.Relief != Nothing && fits(d) {
				return true
			}
		}
		return false
	}
	coloured := o.chart.coloured()
	items := []word{{Faint, "key", ""}}
	for _, e := range []struct {
		dot  Dot
		name string
	}{
		{Dot{Relief: Flat}, "knit"}, {Dot{Relief: Raised}, "purl"}, {Dot{Relief: Mixed}, "knit and purl"},
	} {
		if any(func(d Dot) bool { return d.Relief == e.dot.Relief && d.Ground < InSecond && (coloured || !d.Coming) }) {
			items = append(items, o.chart.swatch(e.dot, e.name))
		}
	}
	if coloured && any(func(d Dot) bool { return d.Ground == InBorder }) {
		items = append(items, o.chart.swatch(Dot{Relief: Raised, Ground: InBorder}, "border"))
	}
	for g := InSecond; g < grounds; g++ {
		if any(func(d Dot) bool { return d.Ground == g && (coloured || !d.Coming) }) {
			items = append(items, o.chart.swatch(Dot{Relief: Raised, Ground: g}, o.chart.groundName(g)))
		}
	}
	if any(func(d Dot) bool { return d.Coming }) {
		items = append(items, o.chart.swatch(Dot{Relief: Raised, Coming: true}, "to come"))
	}
	return o.chart.flow(items, "   ", o.view.Width)
}

func (c *Chart) groundName(g Ground) string {
	if g == InFurther {
		return "further yarns"
	}
	return strings.TrimPrefix(c.yarnText([]pattern.Yarn{pattern.Yarn(g-InSecond) + 1}), ", ")
}

// swatch is a cell of one kind and its name.
func (c *Chart) swatch(d Dot, name string) word {
	return word{Text, "x " + name, c.dots(d, d, 1) + c.paint(Text, " "+name)}
}
