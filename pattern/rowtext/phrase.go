package rowtext

// count reads a number of stitches, pegs or times: "3", "three". A number that no
// row can have is reported and read as 1, so that the rest can be read.
func (p *parser) count() (n int, ok bool) {
	t := *p.tok()
	switch {
	case t.kind == tokMinus && p.ahead(1).kind == tokNumber:
		p.next()
		p.next()
		p.add(t.to(p.last()), "counts begin at 1", "the count is below zero")
		return 1, true
	case t.kind == tokFraction:
		p.next()
		p.add(t.span, "", "the count is not a whole number")
		return 1, true
	case t.kind == tokNumber:
		n = t.number
	default:
		if n, ok = numberOf(t.word); !ok {
			return 0, false
		}
	}
	p.next()
	switch {
	case n == 0:
		p.add(t.span, "counts begin at 1", "the count is 0")
		n = 1
	case n > maxPegs:
		p.add(t.span, "", "the count is beyond the %d pegs a row can have", maxPegs)
		n = 1
	}
	return n, true
}

// acceptLoops moves behind a word for stitches or pegs.
func (p *parser) acceptLoops() bool {
	if !loopWord(p.tok().word) {
		return false
	}
	p.next()
	return true
}

// times reads how often: "3 times", "x 3", "3x", "twice". It returns 1 and false
// where nothing is said.
func (p *parser) times() (n int, ok bool) {
	t := *p.tok()
	switch {
	case p.accept("once"):
		return 1, true
	case p.accept("twice"):
		return 2, true
	case t.kind == tokTimes, t.word == "x":
		p.next()
		if n, ok = p.count(); !ok {
			p.add(t.span, "write x 3", "how many times is missing")
			return 1, true
		}
		return n, true
	}
	start := p.tok().span
	if n, ok = p.count(); !ok {
		return 1, false
	}
	switch {
	case p.accept("times"), p.accept("time"), p.accept("x"):
	case p.tok().kind == tokTimes:
		p.next()
	default:
		p.add(start, "write 3 times", "a number without a stitch")
		p.skip()
	}
	return n, true
}

// far reads how far something goes: "to end", "to last 3 sts", "across", "all". The
// span is empty and ok false where nothing is said.
func (p *parser) far() (f far, ok bool) {
	start := p.tok().span
	switch {
	case p.accept("to"), p.accept("until"):
		f = p.goal(start)
	case p.accept("across"):
		p.accept("the")
		p.acceptRow()
		f.reach = reachLast
		if p.accept("to") {
			f = p.goal(start)
		}
	case p.accept("around"):
		f.reach = reachLast
	case p.accept("rest"):
		if p.accept("of") {
			p.accept("the")
			p.acceptRow()
		}
		f.reach = reachLast
	case p.accept("all"), p.accept("every"):
		p.acceptLoops()
		f.reach = reachWhole
	default:
		return far{span: span{start.start, start.start}}, false
	}
	f.span = start.to(p.last())
	return f, true
}

// repeatFar reads how far a repeat goes. "All" is for single stitches only.
func (p *parser) repeatFar() (far, bool) {
	f, ok := p.far()
	if f.reach == reachWhole {
		p.add(f.span, "write to end", "how far it goes cannot be read")
	}
	return f, ok
}

// acceptRow moves behind a word for the row.
func (p *parser) acceptRow() {
	if rowWord(p.tok().word) {
		p.next()
	}
}

// goal reads what stands behind "to" and "until": "the end of the row", "last 3
// sts", "last peg", "3 sts remain", "you reach the last 3 sts".
func (p *parser) goal(start span) far {
	if p.accept("you") {
		p.accept("reach")
	}
	p.accept("the")
	switch {
	case p.accept("end"):
		if p.accept("of") {
			p.accept("the")
			p.acceptRow()
		}
		return far{reach: reachLast}
	case p.accept("last"):
		if n, ok := p.count(); ok {
			p.acceptLoops()
			return far{reach: reachLast, last: n}
		}
		if p.acceptLoops() {
			return far{reach: reachLast, last: 1}
		}
	default:
		if n, ok := p.count(); ok {
			p.acceptLoops()
			if p.accept("rem") || p.accept("remain") {
				return far{reach: reachLast, last: n}
			}
		}
	}
	p.add(start.to(p.last()), "write to end, or to last 3", "how far it goes cannot be read")
	p.skip()
	return far{reach: reachLast}
}

// rep reads "rep from *" and what is said behind it. Behind a pair of stars it is
// clear what is meant without the star.
func (p *parser) rep(open span, parts []node, pair bool) node {
	word := p.tok().span
	p.next()
	from := p.accept("from")
	if p.tok().kind == tokStar {
		p.next()
	} else if from || !pair {
		p.add(word.to(p.last()), "write rep from *", "the repeat mark * is missing")
		p.skip()
		return &star{span: open.to(p.last()), parts: parts}
	}
	if p.tok().word == "to" && p.ahead(1).kind == tokStar {
		p.next()
		p.next()
	}
	if f, ok := p.repeatFar(); ok {
		return &star{span: open.to(p.last()), parts: parts, to: f}
	}
	if n, ok := p.further(); ok {
		return &group{span: open.to(p.last()), parts: parts, count: n, counted: true}
	}
	return &star{span: open.to(p.last()), parts: parts}
}

// further reads how often a starred unit is worked in all: "3 more times" is 4, "3
// times in all" is 3. Without such a word both are in use, so it is refused.
func (p *parser) further() (n int, ok bool) {
	start := p.tok().span
	switch {
	case p.accept("once"):
		n = 1
	case p.accept("twice"):
		n = 2
	default:
		if n, ok = p.count(); !ok {
			return 0, false
		}
		if p.accept("more") {
			p.timesWord()
			return n + 1, true
		}
		p.timesWord()
	}
	switch {
	case p.accept("more"):
		return n + 1, true
	case p.accept("in"):
		if p.accept("all") || p.accept("total") {
			return n, true
		}
	}
	p.add(start.to(p.last()), "write either more times, or times in all",
		"this can mean %s in all or %d", many(n+1, "time"), n)
	p.skip()
	return n, true
}

// timesWord moves behind "times" or "time".
func (p *parser) timesWord() {
	if !p.accept("times") {
		p.accept("time")
	}
}
