package rowtext

// Headers that speak of many rows by their kind: "all even rows", "Row 2 and every WS row", "2nd and every alt row".

// everyRow reads "All rows", "Every WS row" and "Even rows".
func (c *cursor) everyRow(h *header) bool {
	whole := c.accept("all", "every", "each")
	c.accept("the", "other")
	what, _, ok := c.kindOfRows()
	if ok {
		h.kind, h.what, h.every = headEvery, what, true
	} else if !whole {
		return false
	} else {
		h.kind = headAll
	}
	if what == rowsAlternate && ok {
		return false // alternate to which?
	}
	round, ok := rowsWord(c.tok().word)
	if !ok {
		return false
	}
	h.round = round
	h.side = sideOf(what, h.side)
	c.next()
	return true
}

// sideOf is the side that rows of a kind show.
func sideOf(what rowKind, unsaid Side) Side {
	switch what {
	case rowsRight:
		return RightSide
	case rowsWrong:
		return WrongSide
	case rowsAlternate, rowsEven, rowsOdd:
	}
	return unsaid
}

// kindOfRows reads the word for a kind of rows, and for alternate ones their step.
func (c *cursor) kindOfRows() (what rowKind, step int, ok bool) {
	c.acceptAll("other", "following", "foll", "subsequent", "remaining", "succeeding", "of", "the")
	other := c.prev()
	switch {
	case c.accept("even", "even-numbered"):
		what = rowsEven
	case c.accept("odd", "odd-numbered"):
		what = rowsOdd
	case c.accept("rs", "right-side") || c.sequence("right", "side"):
		what = rowsRight
	case c.accept("ws", "wrong-side") || c.sequence("wrong", "side"):
		what = rowsWrong
	case c.accept("alt", "alternate", "alternating"):
		c.acceptKind(tokStop)
		return rowsAlternate, 2, true
	default:
		if n, ok := c.ordinal(); ok && n > 1 {
			return rowsAlternate, n, true
		}
		return rowsAlternate, 2, c.i > 0 && c.text[other.start:other.end] == "other"
	}
	c.acceptKind(tokMinus)
	c.accept("numbered")
	return what, 0, true
}

// further reads "and all even rows", in brackets or not.
func (c *cursor) further(h *header) {
	if h.kind != headRows || c.andMore(h) {
		return
	}
	from := c.i
	if c.beside(h, true); !c.andMore(h) {
		c.i = from
	}
}

// andMore reads "and all even rows" at hand, or moves nowhere.
func (c *cursor) andMore(h *header) bool {
	from := c.i
	open := c.acceptKind(tokOpen)
	join := c.acceptKind(tokBreak)
	join = c.acceptKind(tokAnd, tokPlus) || c.accept("and") || join
	whole := c.accept("all", "every", "each")
	what, step, ok := c.kindOfRows()
	if !join || !ok {
		c.i = from
		return false
	}
	round, rows := rowsWord(c.tok().word)
	if rows {
		h.round = h.round || round
		c.next()
	} else if !whole {
		c.i = from
		return false
	}
	c.accept("thereafter", "throughout")
	if c.accept("to", "through", "thru", "until") {
		if isRows(c.tok()) {
			c.next()
		}
		if h.until, ok = c.number(); !ok {
			c.i = from
			return false
		}
	}
	if open && !c.acceptKind(tokClose) {
		c.i = from
		return false
	}
	h.every, h.what, h.step = true, what, step
	h.side = sideOf(what, h.side)
	return true
}
