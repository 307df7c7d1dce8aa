package rowtext

// groupOf reads a bracket of parts and what is said behind it: a count, how far, or
// nothing.
func (p *parser) groupOf() node {
	open := p.tok().span
	p.next()
	if p.depth+len(p.marks) >= maxDepth {
		return p.tooDeep(open)
	}
	p.depth++
	parts := p.list(nil)
	p.depth--
	switch {
	case p.tok().kind != tokClose:
		p.add(open, "", "this bracket is never closed")
		return &group{span: open, parts: parts, count: 1}
	case !p.matches(open):
		p.add(p.tok().span, "", "this bracket closes one of another kind")
	case len(parts) == 0 && len(p.faults.list) == 0:
		p.add(open.to(p.tok().span), "", "there is nothing in this bracket")
	}
	p.next()
	return p.afterGroup(open, parts)
}

// tooDeep refuses brackets and stars that stand too deep, and reads no further.
func (p *parser) tooDeep(at span) node {
	p.add(at, "", "brackets stand more than %d deep", maxDepth)
	p.closed = true // what is left is read no further, so its faults are none
	p.i = len(p.tokens) - 1
	return &group{span: at, count: 1}
}

// afterGroup reads what is said behind a bracket.
func (p *parser) afterGroup(open span, parts []node) node {
	if t := p.tok(); t.kind == tokStar && t.start == p.last().end && !p.open(t.number) {
		p.next()
		return &star{span: open.to(p.last()), parts: parts, doubt: "a star behind a bracket is read as a repeat to the end"}
	}
	if f, ok := p.repeatFar(); ok {
		return &star{span: open.to(p.last()), parts: parts, to: f}
	}
	if p.moreAhead() {
		n, _, _ := p.further()
		p.warn(open.to(p.last()), "more times behind a bracket is read as that and the one written")
		return &group{span: open.to(p.last()), parts: parts, count: n, counted: true}
	}
	if n, ok := p.times(); ok {
		return &group{span: open.to(p.last()), parts: parts, count: n, counted: true}
	}
	if len(p.marks) == 0 && p.depth == 0 {
		if n, ok := p.groupRep(open, parts); ok {
			return n
		}
	}
	return &group{span: open.to(p.last()), parts: parts, count: 1}
}

// moreAhead tells whether "2 more times", "twice more" or "2 times more" follows.
func (p *parser) moreAhead() bool {
	n := 1
	if !countAhead(p.tok()) && p.tok().word != "once" && p.tok().word != "twice" {
		return false
	}
	if p.ahead(n).word == "times" || p.ahead(n).word == "time" {
		n++
	}
	return p.ahead(n).word == "more"
}

// groupRep reads "rep to last st" behind a bracket.
func (p *parser) groupRep(open span, parts []node) (node, bool) {
	save, faults := p.i, len(p.faults.list)
	p.breaks()
	if n, ok := p.times(); ok && p.tok().kind != tokOpen {
		return &group{span: open.to(p.last()), parts: parts, count: n, counted: true}, true
	}
	if !repWord(p.tok().word) || p.ahead(1).word == "from" || p.ahead(1).kind == tokStar || p.ahead(1).kind == tokColon {
		p.i, p.faults.list = save, p.faults.list[:faults]
		return nil, false
	}
	p.repWord()
	if f, ok := p.repeatFar(); ok {
		return &star{span: open.to(p.last()), parts: parts, to: f}, true
	}
	if n, other, ok := p.further(); ok {
		return p.countedBy(open, parts, n, other), true
	}
	return &star{span: open.to(p.last()), parts: parts}, true
}

// countedBy is parts worked so often, with the other reading of the count if there is
// one.
func (p *parser) countedBy(open span, parts []node, n, other int) node {
	g := &group{span: open.to(p.last()), parts: parts, count: n, counted: true, literal: n, other: other}
	if other > 0 {
		p.either = append(p.either, g)
	}
	return g
}

// matches tells whether the closing bracket at hand is of the opening one's kind.
func (p *parser) matches(open span) bool {
	switch p.text[open.start] {
	case '(':
		return p.text[p.tok().start] == ')'
	case '[':
		return p.text[p.tok().start] == ']'
	}
	return p.text[p.tok().start] == '}'
}

// open tells whether a star of this mark is open.
func (p *parser) open(mark int) bool {
	for _, m := range p.marks {
		if m == mark {
			return true
		}
	}
	return false
}

// star reads a starred unit and its repeat: "*k2, p2; rep from * to end", or a pair
// of stars with what is said behind it.
func (p *parser) star() node {
	open, mark := p.tok().span, p.tok().number
	p.next()
	switch {
	case p.depth+len(p.marks) >= maxDepth:
		return p.tooDeep(open)
	case p.open(mark):
		p.add(open, "use brackets for the inner one: (k1, p1) 3 times", "a star inside a star")
	}
	p.marks = append(p.marks, mark)
	parts := p.list(nil)
	p.marks = p.marks[:len(p.marks)-1]
	if len(parts) == 0 && len(p.faults.list) == 0 {
		p.add(open, "", "there is nothing to repeat behind this star")
	}
	pair := p.tok().kind == tokStar && p.tok().number == mark
	if pair {
		p.next()
		save := p.i
		if p.breaks() && !repWord(p.tok().word) {
			p.i = save
		}
	}
	switch {
	case repWord(p.tok().word), p.repeatNote():
		return p.rep(open, mark, parts, pair)
	case pair:
		return p.pairOf(open, parts)
	}
	if f, ok := p.repeatFar(); ok {
		return &star{span: open.to(p.last()), parts: parts, to: f}
	}
	if len(p.marks) > 0 || p.depth > 0 || p.tok().kind == tokStar {
		p.add(open, "write rep from * where it goes back", "this star is never repeated")
	}
	return &star{span: open.to(p.last()), parts: parts, doubt: "nothing says how far the star goes: it is read as a repeat to the end"}
}

// pairOf reads what is said behind a pair of stars: how often, how far, or nothing.
func (p *parser) pairOf(open span, parts []node) node {
	if n, ok := p.times(); ok {
		return &group{span: open.to(p.last()), parts: parts, count: n, counted: true}
	}
	if p.moreAhead() {
		n, _, _ := p.further()
		return &group{span: open.to(p.last()), parts: parts, count: n, counted: true}
	}
	f, _ := p.repeatFar()
	return &star{span: open.to(p.last()), parts: parts, to: f}
}

// onlyCloses tells whether the star at hand can only close a repeat that was never
// opened: no part follows it.
func (p *parser) onlyCloses() bool {
	n := 1
	for breakKind(p.ahead(n).kind) {
		n++
	}
	t := p.ahead(n)
	return t.kind == tokEnd || repWord(t.word) || farWord(t.word) || endWord(t.word)
}

// closeOnly makes a repeat of all before a star that only closes.
func (p *parser) closeOnly(parts []node) []node {
	open, mark := parts[0].at(), p.tok().number
	p.next()
	p.warn(p.last(), "this star only closes: the repeat is read as beginning at the start of the row")
	save := p.i
	if p.breaks() && !repWord(p.tok().word) {
		p.i = save
	}
	if repWord(p.tok().word) {
		return []node{p.rep(open, mark, parts, true)}
	}
	return []node{p.pairOf(open, parts)}
}

// closesStar tells a closing star from the opening of a further one: it is of the
// innermost open mark, and it hangs on to what stands before it or no part follows.
func (p *parser) closesStar() bool {
	t := p.tok()
	if len(p.marks) == 0 || p.marks[len(p.marks)-1] != t.number {
		return false
	}
	return p.last().end == t.start && p.tokens[max(p.i-1, 0)].kind != tokStar || p.onlyCloses() || !stitchWord(p.ahead(1).word) && p.ahead(1).kind != tokOpen
}

// rep reads "rep from *" and what is said behind it. Behind a pair of stars it is
// clear what is meant without the star.
func (p *parser) rep(open span, mark int, parts []node, pair bool) node {
	note := p.tok().kind == tokOpen
	if note {
		p.next()
	}
	word := p.tok().span
	p.repWord()
	from := p.accept("from", "between")
	from = p.accept("the") || from
	switch t := p.tok(); {
	case t.kind == tokStar && t.number != mark:
		p.add(open, "", "this star is opened and never repeated")
		p.next()
	case t.kind == tokStar:
		p.next()
		p.accept("s", "'s")
		p.toStar()
	case from || !pair && p.tok().word != "to" && !farWord(p.tok().word) && !countAhead(p.tok()) && p.tok().kind != tokEnd && !breakKind(p.tok().kind):
		p.add(word.to(p.last()), "write rep from *", "the repeat mark * is missing behind %s", quote(p.text[p.last().start:p.last().end]))
		p.skip()
		return &star{span: open.to(p.last()), parts: parts}
	}
	n := p.repFar(open, parts)
	if note {
		if p.tok().kind != tokClose {
			p.add(p.tok().span, "", "the remark on the repeat cannot be read")
			p.skip()
		}
		if p.tok().kind == tokClose {
			p.next()
		}
	}
	return n
}

// repWord moves behind "rep" and the full stop that shortens it.
func (p *parser) repWord() {
	p.next()
	if t := p.ahead(1); p.tok().kind == tokStop && (t.word == "from" || farWord(t.word) || t.kind == tokStar || countAhead(t)) {
		p.next()
	}
}

// toStar reads the end of "from * to *".
func (p *parser) toStar() {
	if (p.tok().word == "to" || p.tok().word == "and" || p.tok().kind == tokAnd || p.tok().kind == tokMinus) && p.ahead(1).kind == tokStar {
		p.next()
		p.next()
	}
}

// repFar reads how far or how often a repeat goes. A comma may stand before "to end".
func (p *parser) repFar(open span, parts []node) node {
	save := p.i
	if p.breaks() && !farWord(p.tok().word) {
		p.i = save
	}
	if f, ok := p.repeatFar(); ok {
		return &star{span: open.to(p.last()), parts: parts, to: f}
	}
	if n, other, ok := p.further(); ok {
		return p.countedBy(open, parts, n, other)
	}
	return &star{span: open.to(p.last()), parts: parts}
}

// ended reads what is said of the end of a row of repeats: "end k2", "end last repeat
// k2", "last 5 sts in p4, k1".
func (p *parser) ended(parts []node) []node {
	start := p.tok().span
	stated, replaces := 0, false
	if p.accept("last") {
		stated, _ = p.count()
		p.acceptLoops()
		p.accept("in", "as")
		p.accept("follows")
	} else {
		p.next()
		p.accept("with", "by", "in", "on")
		p.accept("the", "each", "every")
		if p.tok().word == "last" && (repWord(p.ahead(1).word)) {
			p.next()
			p.next()
			replaces = true
		}
		p.accept("with", "by", "in", "on", "at")
		p.accept("a")
	}
	if p.tok().kind == tokColon {
		p.next()
	}
	tail := p.list(nil)
	at := start.to(p.last())
	switch n := widthOf(tail, byLoops); {
	case len(tail) == 0:
		p.add(at, "write what is worked there, as in end k2", "the end is announced and nothing is worked")
	case stated > 0 && n != stated:
		p.add(at, "", "the last %s are announced and %d worked", many(stated, "loop"), n)
	}
	if len(parts) > 0 {
		if s, ok := parts[len(parts)-1].(*star); ok && s.to.last == 0 && s.end == nil {
			s.end = &ending{span: at, parts: tail, replaces: replaces}
			return parts
		}
	}
	return append(parts, tail...)
}

// lastIn tells whether "last 5 sts in" follows.
func (p *parser) lastIn() bool {
	if p.tok().word != "last" || !countAhead(p.ahead(1)) || !loopWord(p.ahead(2).word) {
		return false
	}
	t := p.ahead(3)
	return t.word == "in" || t.word == "as" || t.kind == tokColon || stitchWord(t.word)
}
