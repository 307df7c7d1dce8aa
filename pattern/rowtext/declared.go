package rowtext

import "strconv"

// statementCursor walks over the tokens of a statement, line breaks left out.
func (r *reader) statementCursor(s *statement) *cursor {
	tokens := unbroken(lex(r.text, s.span))
	r.work += len(tokens)
	return &cursor{text: r.text, tokens: tokens}
}

// multipleOf takes a declared multiple.
func (r *reader) multipleOf(s *statement) {
	c := r.statementCursor(s)
	m, ok := c.multiple()
	switch {
	case !ok:
		r.add(s.span, "write multiple of 4 plus 3", "how many it is a multiple of cannot be read")
		return
	case m.of < 1 || m.of > maxPegs || m.plus > maxPegs:
		r.add(m.span, "", "a multiple is of 1 to %d", maxPegs)
		return
	}
	c.acceptKind(tokStop, tokBreak, tokColon)
	r.beside(c, "for", "the", "both", "sides", "edges", "each", "side", "is", "used", "required", "needed", "at", "edge")
	if m.of > 1 && m.of > r.declared.of {
		r.declared = m
	}
	r.multiples = append(r.multiples, m)
}

// beside looks at what stands behind a declaration in the same statement: what could be worked is refused, the rest
// passed over with a warning unless it is of words that say nothing.
func (r *reader) beside(c *cursor, words ...string) {
	rest := c.tokens[c.i:]
	if harmless(rest, words) {
		return
	}
	at := c.rest()
	if instructs(rest[:len(rest)-1]) {
		r.add(at, "write it on a line of its own", "this cannot be read here")
		return
	}
	r.unread(at)
}

// checkMultiples holds the pegs against what is declared.
func (r *reader) checkMultiples(pegs int) bool {
	for _, m := range r.multiples {
		if pegs > 0 && !m.fits(pegs) {
			r.add(m.span, m.nearest(pegs), "%d is not %s", pegs, m.text())
			return false
		}
	}
	return true
}

// castOnOf takes a declared count of pegs.
func (r *reader) castOnOf(s *statement) {
	c := r.statementCursor(s)
	co := c.castOn()
	if n := len(co.sizes); n > 0 {
		switch size := r.options.Size; {
		case size < 1:
			r.add(co.span, "say which size, 1 the first", "counts for %d sizes", n+1)
			return
		case size > n+1:
			r.add(co.span, "", "there are %d sizes, and number %d is asked for", n+1, size)
			return
		case size > 1:
			co.pegs = co.sizes[size-2]
		}
	}
	switch {
	case co.pegs < 1 || co.pegs > maxPegs:
		r.add(co.span, "", "a row has 1 to %d pegs", maxPegs)
		return
	case r.cast.pegs > 0 && r.cast.pegs != co.pegs:
		r.add(co.span, "", "%d are cast on here, and %d before", co.pegs, r.cast.pegs)
		return
	}
	r.round = r.round || co.round
	r.cast = co
	r.beside(c, castOnWords...)
	r.direct(co.span, "cast on "+strconv.Itoa(co.pegs))
}

// namedOf keeps a stitch pattern by its name as a directive.
func (r *reader) namedOf(s *statement) {
	c := r.statementCursor(s)
	n, _ := c.byName()
	if n.rows > 0 {
		r.skips[r.top] += n.rows
	}
	r.round = r.round || n.round
	r.beside(c)
	r.direct(n.span, n.text())
	r.directives[len(r.directives)-1].Unwritten = true
}
