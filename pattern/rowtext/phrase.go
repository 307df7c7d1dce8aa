package rowtext

// count reads a number of stitches, pegs or times: "3", "three". A number that no
// row can have is reported and read as 1, so that the rest can be read.
func (p *parser) count() (n int, ok bool) {
	t := *p.tok()
	switch {
	case t.kind == tokMinus && p.ahead(1).kind == tokNumber && p.ahead(1).start == t.end:
		p.next()
		p.next()
		p.add(t.to(p.last()), "counts begin at 1", "the count is below zero")
		return 1, true
	case t.kind == tokFraction:
		p.next()
		p.add(t.span, "", "the count is not a whole number")
		return 1, true
	case t.kind == tokNumber:
		if n, ok := p.ofSizes(); ok {
			return n, true
		}
		n = t.number
	default:
		if n, ok = numberOf(t.word); !ok {
			return 0, false
		}
	}
	p.next()
	if p.tok().kind == tokFraction && p.tok().end-p.tok().start == 2 {
		p.next()
		p.add(t.to(p.last()), "", "the count is not a whole number")
		return 1, true
	}
	return p.counts(t.span, n), true
}

// counts is a number that a row can have.
func (p *parser) counts(at span, n int) int {
	switch {
	case n == 0:
		p.add(at, "counts begin at 1", "the count is 0")
		return 1
	case n > maxPegs:
		p.add(at, "", "the count is beyond the %d pegs a row can have", maxPegs)
		return 1
	}
	return n
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
	case p.accept("thrice"):
		return 3, true
	case t.kind == tokTimes, t.word == "x":
		p.next()
		if n, ok = p.count(); !ok {
			p.add(t.span, "write x 3", "how many times is missing")
			return 1, true
		}
		return n, true
	}
	if !p.timesAhead() {
		return 1, false
	}
	n, _ = p.count()
	if p.tok().kind == tokTimes {
		p.next()
	} else {
		p.accept("times", "time", "x")
	}
	p.inAll()
	return n, true
}

// inAll moves behind words that say a count is the whole of it.
func (p *parser) inAll() bool {
	return p.phrase("in", "all") || p.phrase("in", "total") || p.accept("total", "altogether")
}

// timesAhead tells whether "3 times" follows, or a count that is at fault.
func (p *parser) timesAhead() bool {
	n := 0
	if p.tok().kind == tokMinus {
		n++
	}
	if t := p.ahead(n); !countAhead(t) && t.kind != tokFraction {
		return false
	}
	t := p.ahead(n + 1)
	glued := t.start == p.ahead(n).end
	return t.word == "times" || t.word == "time" || t.kind == tokTimes || t.word == "x" && (glued || !countAhead(p.ahead(n+2)))
}

// far reads how far something goes: "to end", "to last 3 sts", "across", "all". The
// span is empty and ok false where nothing is said.
func (p *parser) far() (f far, ok bool) {
	start := p.tok().span
	switch {
	case p.accept("to", "until", "till", "til"), p.phrase("up", "to"):
		f = p.goal(start)
	case p.acrossAll():
		f.reach = reachLast
		if p.accept("to", "until", "till") {
			f = p.goal(start)
		}
	case p.rest():
		f.reach, f.rest = reachLast, true
	case p.wholeRow():
		f.reach = reachWhole
	default:
		return far{span: span{start.start, start.start}}, false
	}
	f.span = start.to(p.last())
	return f, true
}

// acrossAll reads "across", "around" and what says the same; not "across the next 3".
func (p *parser) acrossAll() bool {
	save := p.i
	if p.accept("all") {
		p.phrase("the", "way")
	}
	if !p.accept("across", "around", "along") {
		p.i = save
		return false
	}
	p.phrase("the")
	p.accept("all", "entire", "whole", "every")
	if countAhead(p.tok()) || p.tok().word == "next" {
		p.i = save
		return false
	}
	p.acceptRow()
	p.acceptLoops()
	return true
}

// rest reads "rest of row", "the remaining sts".
func (p *parser) rest() bool {
	save := p.i
	p.accept("all")
	p.accept("the")
	switch {
	case p.accept("rest", "remainder"):
		if p.accept("of") {
			p.accept("the", "this")
			if !p.acceptRow() {
				p.acceptLoops()
			}
		}
		return true
	case (p.tok().word == "remaining" || p.tok().word == "rem") && !countAhead(p.ahead(1)):
		p.next()
		p.acceptLoops()
		return true
	}
	p.i = save
	return false
}

// wholeRow reads "all", "every stitch", "the row".
func (p *parser) wholeRow() bool {
	save := p.i
	switch {
	case p.accept("all", "every", "each"):
		p.accept("the", "of", "other")
		if oddOrEven(p.tok().word) != everyPeg || p.tokens[p.i-1].word == "other" {
			break
		}
		p.accept("the")
		if !p.acceptLoops() {
			p.acceptRow()
		}
		p.phrase("across")
		p.phrase("to", "end")
		return true
	case p.phrase("the", "entire"), p.phrase("the", "whole"), p.accept("entire", "whole"), p.accept("the", "this"):
		if p.acceptRow() {
			return true
		}
	}
	p.i = save
	return false
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
func (p *parser) acceptRow() bool {
	if !rowWord(p.tok().word) {
		return false
	}
	p.next()
	return true
}

// goal reads what stands behind "to" and "until": "the end of the row", "last 3
// sts", "last peg", "3 sts remain", "you reach the last 3 sts", "peg 6".
func (p *parser) goal(start span) far {
	if !p.phrase("you", "reach") && !p.phrase("you", "have") && !p.phrase("there", "are") {
		p.accept("reaching", "within")
	}
	p.accept("only", "just")
	p.accept("the")
	switch {
	case p.accept("end"):
		if p.accept("of") {
			p.accept("the", "this")
			p.acceptRow()
		}
		return far{reach: reachLast, said: true}
	case p.phrase("row", "end"):
		return far{reach: reachLast, said: true}
	case p.accept("last"):
		if n, ok := p.count(); ok {
			p.acceptLoops()
			p.remain()
			return far{reach: reachLast, last: n}
		}
		if p.acceptLoops() {
			p.remain()
			return far{reach: reachLast, last: 1}
		}
	case p.tok().word == "peg" && (p.ahead(1).kind == tokNumber || p.ahead(1).word == "number" || p.ahead(1).kind == tokHash):
		return p.toPeg(start)
	case markWord(p.tok().word):
		p.next()
		p.acceptLoops()
		p.add(start.to(p.last()), "write to last 3, or to end", "no marker has been placed that the row could be worked to")
		return far{reach: reachLast}
	default:
		if n, ok := p.count(); ok {
			p.acceptLoops()
			if p.remain() {
				return far{reach: reachLast, last: n}
			}
		}
	}
	p.add(start.to(p.last()), "write to end, or to last 3", "how far it goes cannot be read")
	p.skip()
	return far{reach: reachLast}
}

// markWord tells the words for a marker or a marked peg.
func markWord(word string) bool {
	switch word {
	case "marker", "marked", "m", "mark", "markers":
		return true
	}
	return false
}

// remain reads what is said of loops before the end: "rem", "are left", "from end".
func (p *parser) remain() bool {
	save := p.i
	p.accept("are", "is")
	switch {
	case p.accept("rem", "remain", "remains", "remaining", "left"):
		p.phrase("in", "row")
		return true
	case p.accept("before", "from", "of"):
		p.accept("the")
		if p.accept("end") {
			if p.accept("of") {
				p.accept("the")
				p.acceptRow()
			}
			return true
		}
	}
	p.i = save
	return false
}

// toPeg reads a peg to which a stitch goes. Whether that peg is worked too is not
// said, and it is taken to be.
func (p *parser) toPeg(start span) far {
	p.next()
	p.accept("number")
	if p.tok().kind == tokHash {
		p.next()
	}
	n, _ := p.count()
	p.warn(start.to(p.last()), "to a peg is read as working that peg too")
	return far{reach: reachPeg, last: n}
}

// further reads how often a starred unit is worked in all: "3 more times" is 4, "3
// times in all" is 3. Without such a word both are in use: n is then the reading by the
// letter, as often again, and other the one in all.
func (p *parser) further() (n, other int, ok bool) {
	start := p.i
	p.accept("for")
	total := p.phrase("a", "total", "of") || p.accept("altogether")
	switch {
	case p.accept("once"):
		n = 1
	case p.accept("twice"):
		n = 2
	case p.accept("thrice"):
		n = 3
	default:
		if n, ok = p.count(); !ok {
			p.i = start
			return 0, 0, false
		}
	}
	more := p.accept("more", "further", "additional")
	p.accept("times", "time", "x")
	if p.tok().kind == tokTimes {
		p.next()
	}
	more = p.accept("more", "again") || more
	total = p.inAll() || total
	switch {
	case total:
		return n, 0, true
	case more:
		return n + 1, 0, true
	}
	return n + 1, n, true
}
