package rowtext

import "bypeg/pattern"

// crossAhead tells whether a cross named by its strands follows: "2/1lpc".
func (p *parser) crossAhead() bool {
	return p.tok().kind == tokNumber && p.ahead(1).kind == tokSlash && p.ahead(2).kind == tokNumber && p.ahead(3).kind == tokWord
}

// cross reads a cross: "c4f", "2/1lpc".
func (p *parser) cross() (Stitch, bool) {
	t := *p.tok()
	if p.crossAhead() {
		return p.strands()
	}
	if t.word != "c" || p.ahead(1).kind != tokNumber {
		return NoStitch, false
	}
	lean, side := pattern.Left, p.ahead(2).word
	switch side {
	case "f", "fw", "l":
	case "b", "bk", "r":
		lean = pattern.Right
	default:
		return NoStitch, false
	}
	n := p.ahead(1).number
	p.next()
	p.next()
	p.next()
	c := pattern.Cross{Front: n / 2, Back: n - n/2, Lean: lean}
	if n%2 != 0 || len(c.Parts()) == 0 {
		p.add(t.to(p.last()), "crosses of 2, 4, 6 and 8 are known", "a cross of %s cannot be told here", many(n, "peg"))
		return Knit, true
	}
	return CrossStitch(c), true
}

// strands reads a cross by its strands in front and behind, its lean, and a p where the
// back is purled.
func (p *parser) strands() (Stitch, bool) {
	t := *p.tok()
	c := pattern.Cross{Front: t.number, Back: p.ahead(2).number}
	for range 3 {
		p.next()
	}
	word := p.tok().word
	p.next()
	switch word {
	case "lc":
	case "lpc":
		c.PurlBack = true
	case "rc":
		c.Lean = pattern.Right
	case "rpc":
		c.Lean, c.PurlBack = pattern.Right, true
	default:
		p.add(t.to(p.last()), "write lc, rc, lpc or rpc behind the strands, as in 2/1rpc", "which way the cross leans is missing")
	}
	if len(c.Parts()) == 0 {
		p.add(t.to(p.last()), "a cross has 1 to 4 strands in front and as many behind", "a cross of %s cannot be told here", many(c.Width(), "peg"))
		return Knit, true
	}
	return CrossStitch(c), true
}
