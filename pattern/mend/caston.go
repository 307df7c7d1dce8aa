package mend

import (
	"fmt"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

// CastOn is a cast-on peg by peg, in the direction that makes row 1 right. What is done at a
// peg is from memory for the kinds that go there and back, common practice for the others.
type CastOn struct {
	Kind  pattern.CastOn
	Steps []CastStep
	order pattern.Order
}

// CastStep is what is done at one peg on one pass.
type CastStep struct {
	Col     int
	Pass    int  // 1, or 2 on the way back; of a tube 2 is the second time round
	Outside bool // of the woven kinds: the yarn passes in front of the peg, on the outside of a round loom, else behind
}

// CastOnOf puts a loop on every peg that row 1 uses.
func CastOnOf(o pattern.Order) *CastOn {
	c := &CastOn{Kind: o.Pattern.CastOn, order: o}
	n := o.Pattern.CastOnLoops()
	for pass := 1; pass <= max(1, c.Kind.Passes); pass++ {
		for i := range n {
			at := i
			if pass == 2 && o.Pattern.Form == pattern.Panel {
				at = n - 1 - i
			}
			col := o.ColumnAt(pattern.Place{Phase: pattern.CastingOn, Done: at})
			c.Steps = append(c.Steps, CastStep{Col: col, Pass: pass, Outside: (at+pass)%2 == 1})
		}
	}
	return c
}

// Ends is the peg where the yarn is left.
func (c *CastOn) Ends() int { return c.order.Peg(c.Steps[len(c.Steps)-1].Col) }

// Len is one step to fasten the yarn, and one for each peg on each pass.
func (c *CastOn) Len() int { return len(c.Steps) + 1 }

// Words says one of the steps.
func (c *CastOn) Words(i int) string {
	if i == 0 {
		return c.fasten()
	}
	s := c.Steps[i-1]
	peg := c.order.Peg(s.Col)
	switch c.Kind.Name {
	case "e-wrap":
		return fmt.Sprintf("peg %d: wrap the yarn once all round it, from the inside", peg)
	case "double e-wrap":
		return fmt.Sprintf("peg %d: wrap the yarn twice all round it, and lift the lower wrap over the upper one", peg)
	case "chain":
		if i == len(c.Steps) {
			return fmt.Sprintf("peg %d: put the loop of the hook on it", peg)
		}
		return fmt.Sprintf("peg %d: with the yarn behind it, draw a chain stitch round its front", peg)
	case "weave", "drawstring":
		side := "behind"
		if s.Outside {
			side = "in front of"
		}
		return fmt.Sprintf("peg %d, %s: lead the yarn %s it", peg, c.passWords(s.Pass), side)
	}
	return fmt.Sprintf("peg %d, %s: as your cast-on has it", peg, c.passWords(s.Pass))
}

// mark says which pegs carry a marker before the first loop is on.
func (c *CastOn) mark() string {
	p := c.order.Pattern
	if len(p.Markers) == 0 {
		return ""
	}
	var pegs []int
	for _, col := range p.Markers {
		pegs = append(pegs, c.order.Peg(col))
	}
	slices.Sort(pegs)
	return "mark " + pegList(pegs) + "; "
}

func (c *CastOn) fasten() string {
	knot := "leave a tail"
	if c.Kind.Name == "chain" {
		knot = "make a slip knot on the hook, with a tail"
	}
	return c.mark() + fmt.Sprintf("%s of %s cm, and begin at peg %d, %s", knot, measure.Number(fit.Tail.In(measure.Centimetre), 0),
		c.order.Peg(c.Steps[0].Col), c.order.CastOnDirection())
}

// passWords says which pass it is.
func (c *CastOn) passWords(pass int) string {
	switch {
	case pass == 1:
		return "the first time"
	case c.order.Pattern.Form == pattern.Tube:
		return "the second time round"
	}
	return "on the way back"
}

// EndWords say where the yarn is left, and how the first row goes on from there.
func (c *CastOn) EndWords() string {
	word := c.order.Pattern.Form.RowWord()
	text := fmt.Sprintf("every peg has one loop, %d in all; %s 1 runs %s", c.order.Pattern.CastOnLoops(), word, c.order.Direction(1))
	if c.order.Pattern.Form == pattern.Tube {
		return text + fmt.Sprintf(", from peg %d on", c.order.Peg(c.order.Column(1, 0)))
	}
	return text + fmt.Sprintf(", from peg %d: %s", c.order.Peg(c.order.Column(1, 0)), yarnWords(c.order, 0))
}
