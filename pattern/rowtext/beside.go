package rowtext

// maxBeside is how many things stand beside a number; it keeps the work in proportion to the text.
const maxBeside = 4

// beside reads what stands beside the number of a row: sides, directions, counts and remarks. A remark in brackets is
// one only where the header's punctuation or its end is still to come, which remarks tells: behind it a bracket is a
// part of the row.
func (c *cursor) beside(h *header, remarks bool) {
	for range maxBeside {
		from := c.i
		comma := remarks && c.acceptKind(tokBreak)
		switch {
		case c.bracketed(h, remarks):
		case c.sideWord(h, !remarks):
		case c.direction(h, !remarks):
		default:
			c.i = from
			return
		}
		if comma && c.i == from {
			return
		}
	}
}

// bracketed reads a bracket with a side, a direction, a count or a remark.
func (c *cursor) bracketed(h *header, remarks bool) bool {
	from := c.i
	if !c.acceptKind(tokOpen) {
		return false
	}
	known := false
	for range maxBeside {
		c.acceptKind(tokBreak, tokSlash, tokAnd, tokColon, tokStop)
		if !c.sideWord(h, false) && !c.direction(h, false) {
			break
		}
		known = true
	}
	if known && c.acceptKind(tokClose) {
		return true
	}
	if remarks {
		if n, ok := c.number(); ok && loopWord(c.tok().word) && c.ahead(1).kind == tokClose {
			h.loops, h.at = n, c.tokens[from].span.to(c.ahead(1).span)
			c.next()
			c.next()
			return true
		}
		if c.remark(from + 1) {
			return true
		}
	}
	c.i = from
	return false
}

// remark moves behind a short bracket of words that stands between a row's number and its colon. What could name
// rows or stitches is none.
func (c *cursor) remark(from int) bool {
	c.i = from
	for range 14 {
		if c.acceptKind(tokClose) {
			return c.tok().kind == tokColon || c.tok().kind == tokDash || c.tok().kind == tokMinus || c.tok().kind == tokStop
		}
		t := c.tok()
		named := repWord(t.word) || oneOf(t.word, "times", "time", "x", "twice", "thrice", "more", "and", "all", "every", "each", "even", "odd", "alt", "alternate", "as", "same")
		if named || !c.acceptKind(tokWord, tokStop, tokBreak, tokSlash, tokMinus) {
			return false
		}
	}
	return false
}

// sideWord reads "RS", "wrong side facing". Loose ones, which stand in no bracket, must be followed by punctuation or
// a word for rows, so that they are not taken out of the instructions.
func (c *cursor) sideWord(h *header, loose bool) bool {
	from := c.i
	var s Side
	c.accept("the")
	switch {
	case c.accept("rs", "right-side", "rsf") || c.sequence("right", "side"):
		s = RightSide
	case c.accept("ws", "wrong-side", "wsf") || c.sequence("wrong", "side"):
		s = WrongSide
	default:
		c.i = from
		return false
	}
	c.acceptAll("facing", "faces", "you")
	if t := c.tok(); loose && t.kind != tokColon && t.kind != tokBreak && t.kind != tokStop && t.kind != tokDash && t.kind != tokMinus &&
		!(isRows(t) && (c.ahead(1).kind == tokNumber || c.ahead(1).kind == tokHash)) {
		c.i = from
		return false
	}
	if isRows(c.tok()) && c.ahead(1).kind == tokClose {
		c.next()
	}
	if loose {
		c.acceptKind(tokColon, tokBreak, tokStop, tokDash, tokMinus)
	}
	h.side = s
	return true
}

// direction reads "from right to left". A loose one is a step of the row and ends with punctuation.
func (c *cursor) direction(h *header, loose bool) bool {
	from := c.i
	if !loose {
		c.acceptAll("this", "row", "is")
	}
	c.acceptAll("working", "worked", "work", "knitting", "knit", "going", "runs", "running")
	c.accept("from")
	c.accept("the")
	var runs Course
	switch {
	case c.sequence("right", "to", "left") || c.sequence("r", "to", "l") || c.accept("right-to-left", "rtl", "r-l"):
		runs = CourseToLeft
	case c.sequence("left", "to", "right") || c.sequence("l", "to", "r") || c.accept("left-to-right", "ltr", "l-r"):
		runs = CourseToRight
	default:
		c.i = from
		return false
	}
	if loose && !c.acceptKind(tokColon, tokBreak, tokDash, tokMinus) {
		c.i = from
		return false
	}
	h.runs = runs
	return true
}
