package rowtext

// item reads a stitch with its count or how far it goes, and what may stand before or
// behind it. It returns nil where nothing could be read.
func (p *parser) item(parts []node) node {
	start := p.tok().span
	if n, ok := p.echo(start); ok {
		return n
	}
	if n, ok := p.timesFirst(); ok {
		return n
	}
	count, counted := p.countFirst()
	manner, yarn := p.yarn()
	if yarn {
		p.breaks()
		if _, ok := stitchOf(p.tok().word); !ok {
			p.add(start.to(p.last()), "write sl1 wyif", "only a slipped stitch is told where the yarn is")
			p.skip()
			return nil
		}
	}
	stitch, ok := p.stitch()
	if !ok {
		return nil
	}
	stitch = p.modify(stitch)
	if yarn {
		stitch = p.withYarn(stitch, manner, start)
	}
	if counted {
		p.acceptLoops()
		return p.counted(start, p.modify(stitch), count, anywhere)
	}
	return p.goes(start, stitch, parts)
}

// goes reads how far a stitch goes or how often it is worked.
func (p *parser) goes(start span, stitch Stitch, parts []node) node {
	if n, ok := p.onPegs(start, stitch); ok {
		return n
	}
	goal := p.tok().word
	if f, ok := p.far(); ok {
		if endsBare(parts) && (goal == "across" || goal == "around") {
			p.add(start.to(p.last()), "write to end, or put brackets round the list",
				"this can mean one stitch %s, or the list again and again", goal)
		}
		return p.filled(start.to(p.last()), stitch, f)
	}
	place, placed := p.place()
	count, counted := p.count()
	switch {
	case counted:
		p.glued(start)
		p.acceptLoops()
		stitch = p.modify(stitch)
	case placed || loopWord(p.tok().word):
		if count = 1; !p.acceptLoops() {
			p.add(start.to(p.last()), "write first 3 pegs, or last peg", "how many is missing")
		}
	default:
		if n, ok := p.times(); ok {
			return &work{span: start.to(p.last()), stitch: stitch, count: n}
		}
		return &work{span: start.to(p.last()), stitch: stitch, count: 1, bare: single(stitch)}
	}
	if len(parts) == 0 || !single(stitch) {
		if n, ok := p.times(); ok {
			count = min(count*n, tooWide)
		}
	}
	return p.counted(start, stitch, count, place)
}

// single tells the stitches that are one loop for one.
func single(s Stitch) bool { return s.In() == 1 && s.Out() == 1 }

// counted is a stitch with its count, the times behind it refused where they could
// mean the whole list.
func (p *parser) counted(start span, stitch Stitch, count int, place edge) node {
	n := &work{span: start.to(p.last()), stitch: stitch, count: count, place: place}
	at := p.tok().span
	if _, ok := p.times(); ok {
		p.add(at.to(p.last()), "put brackets round what is repeated: (k2, p2) 3 times", "nothing says what is worked so often")
	}
	return n
}

// place reads where a counted stitch stands: "first", "next", "last".
func (p *parser) place() (at edge, ok bool) {
	start := p.tok().span
	the := p.accept("the")
	switch {
	case p.accept("first"):
		return atStart, true
	case p.tok().kind == tokNumber && p.tok().number == 1 && p.ahead(1).word == "st" && p.ahead(1).start == p.tok().end && loopWord(p.ahead(2).word):
		p.next()
		p.next()
		return atStart, true
	case p.accept("last"):
		return atEnd, true
	}
	if p.accept("next", "remaining") {
		return anywhere, true
	}
	if the && !countAhead(p.tok()) {
		p.add(start, "write the next 3 pegs, or knit the knits and purl the purls", "%s has no meaning here", quote("the"))
		p.skip()
	}
	return anywhere, false
}

// filled is an open part of one stitch. One that takes several loops is a repeat.
func (p *parser) filled(at span, stitch Stitch, f far) node {
	if single(stitch) || stitch == NoStitch {
		return &fill{span: at, stitch: stitch, to: f}
	}
	if f.reach == reachWhole {
		f.reach = reachLast
	}
	return &star{span: at, parts: []node{&work{span: at, stitch: stitch, count: 1}}, to: f}
}

// endsBare tells whether the last of the parts is a letter without a count.
func endsBare(parts []node) bool {
	if len(parts) == 0 {
		return false
	}
	w, ok := parts[len(parts)-1].(*work)
	return ok && w.bare
}

// timesFirst reads a count before its bracket: "3 x (k1, p1)".
func (p *parser) timesFirst() (node, bool) {
	start := p.tok().span
	x := p.ahead(1)
	if !countAhead(p.tok()) || x.kind != tokTimes && x.word != "x" && x.word != "times" || p.ahead(2).kind != tokOpen {
		return nil, false
	}
	n, _ := p.count()
	p.next()
	inner := p.groupOf()
	if g, ok := inner.(*group); ok && !g.counted {
		g.span, g.count, g.counted = start.to(g.span), n, true
		return g, true
	}
	p.add(start.to(p.last()), "write it once: (k1, p1) 3 times", "how often is said on both sides of the bracket")
	return inner, true
}

// countFirst reads a number that stands before its stitch: "3 k".
func (p *parser) countFirst() (n int, ok bool) {
	if p.tok().kind == tokNumber && p.crossAhead() {
		return 0, false
	}
	if p.tok().kind != tokNumber && p.tok().kind != tokFraction {
		if _, ok := numberOf(p.tok().word); !ok {
			return 0, false
		}
	}
	at := p.tok().span
	n, _ = p.count()
	p.acceptLoops()
	if p.tok().kind != tokWord {
		p.add(at, "write the stitch first, as in k3, or 3 times behind a bracket", "a number without a stitch")
		p.skip()
	}
	return n, true
}

// stitch reads the name of a stitch.
func (p *parser) stitch() (Stitch, bool) {
	t := *p.tok()
	if t.kind != tokWord && !p.crossAhead() {
		return NoStitch, false // a fault told already
	}
	if s, ok := p.twoWords(); ok {
		return s, true
	}
	if s, ok := p.cross(); ok {
		return s, true
	}
	if p.refused() {
		return NoStitch, false
	}
	p.next()
	if s, doubt, ok := oldStitch(t.word); ok {
		return p.old(t, s, doubt)
	}
	s, ok := stitchOf(t.word)
	switch {
	case ok && t.word == "s" && !countAhead(p.tok()):
		ok = false
		fallthrough
	case !ok:
		p.unknown(t)
		return s, false
	}
	return p.joined(s), true
}

// unknown refuses a name together with the letters and digits that hang on to it.
func (p *parser) unknown(t token) {
	if familiar(t.word) {
		p.add(t.span, unknownHint(t.word), "%s has no meaning here", quote(p.text[t.start:t.end]))
		p.skip()
		return
	}
	p.unknownName(t.span, unknownHint(t.word))
}

func (p *parser) unknownName(at span, hint string) {
	for t := p.tok(); t.start == at.end && (t.kind == tokWord || t.kind == tokNumber); t = p.tok() {
		at.end = t.end
		p.next()
	}
	p.add(at, hint, "%s is no stitch known here", quote(p.text[at.start:at.end]))
	p.skip()
}

// modify takes the words that change a stitch, if some are at hand.
func (p *parser) modify(s Stitch) Stitch {
	at := p.tok().span
	switch {
	case s == Slip, s == SlipFront, s == SlipBack:
		for mannerWord(p.tok().word) || p.phrase("as", "if", "to", "purl") || p.phrase("as", "if", "to", "knit") {
			if mannerWord(p.tok().word) {
				p.next()
			}
		}
		if manner, ok := p.yarn(); ok {
			return p.withYarn(s, manner, at)
		}
	case s == Knit && p.behind():
		return KnitTBL
	case s == Purl && p.behind():
		return PurlTBL
	}
	return s
}

// yarn reads where the yarn is: the slip it makes.
func (p *parser) yarn() (Stitch, bool) {
	switch {
	case p.accept("wyif", "wyf"), p.phrase("with", "yf"):
		return SlipFront, true
	case p.accept("wyib", "wyb"), p.phrase("with", "yb"):
		return SlipBack, true
	}
	save := p.i
	p.accept("with")
	p.accept("the")
	if p.accept("yarn") {
		p.accept("held")
		p.accept("in", "to", "at")
		p.accept("the")
		switch {
		case p.accept("front", "fwd", "forward"):
			return SlipFront, true
		case p.accept("back", "behind"):
			return SlipBack, true
		}
	}
	p.i = save
	return NoStitch, false
}

// withYarn is a slip with its yarn; other stitches have none.
func (p *parser) withYarn(s, manner Stitch, at span) Stitch {
	if s != Slip && s != manner {
		p.add(at.to(p.last()), "write sl1 wyif", "only a slipped stitch is told where the yarn is")
		return s
	}
	return manner
}

// glued refuses a name with a number in its middle: what follows a count with no
// blank between must have a meaning of its own.
func (p *parser) glued(start span) {
	t := *p.tok()
	if t.kind != tokWord || t.start != p.last().end || familiar(t.word) {
		return
	}
	if _, _, ok := oldStitch(t.word); ok && len(t.word) > 1 {
		return
	}
	p.unknownName(start.to(p.last()), knownStitches)
}
