package rowtext

// Widths come first. A row is expanded only after its width is known to be the
// number of pegs, so the work of reading is bounded by the text and the pegs,
// whatever the counts say: "((k1) 4000 times) 4000 times" costs two products.
// Widths stop growing at tooWide, which no row reaches.

// width is how many pegs a part covers. An open part has no width of its own and
// counts 0: its caller solves it.
func width(n node) int {
	switch n := n.(type) {
	case *work:
		return n.count
	case *group:
		return times(widthOf(n.parts), n.count)
	}
	return 0
}

// widthOf is the width of parts in a row.
func widthOf(parts []node) int {
	sum := 0
	for _, n := range parts {
		sum = min(sum+width(n), tooWide)
	}
	return sum
}

// times is a product that stops at tooWide.
func times(width, count int) int {
	if width > 0 && count > tooWide/width {
		return tooWide
	}
	return width * count
}

// openPart is how far an open part goes. It is false for parts with a width.
func openPart(n node) (f far, ok bool) {
	switch n := n.(type) {
	case *fill:
		return n.to, true
	case *star:
		return n.to, true
	}
	return far{}, false
}

// refuseInner reports open parts inside brackets and stars, where nothing says how
// much room one turn has.
func (s *solver) refuseInner(parts []node, within string) {
	for _, n := range parts {
		switch n := n.(type) {
		case *fill:
			s.add(n.span, "give the stitch a count", "a stitch without an end inside %s", within)
		case *star:
			s.add(n.span, "give the inner one a count: (k1, p1) 3 times", "a repeat without a count inside %s", within)
			s.refuseInner(n.parts, within)
		case *group:
			s.refuseInner(n.parts, within)
		}
	}
}
