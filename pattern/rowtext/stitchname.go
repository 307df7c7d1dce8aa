package rowtext

// Stitches that are written as several words or several steps: "knit 2 together", "sl1, k1, psso".

// old takes the reading of an old word, with a warning.
func (p *parser) old(t token, s Stitch, doubt string) (Stitch, bool) {
	if s == YarnOver && len(t.word) > 1 {
		save := p.i
		p.breaks()
		if next, ok := stitchOf(p.tok().word); ok && next == Slip {
			p.i = save
			p.add(t.span, "write sl1 wyif, or yo, sl1", "%s before a slipped stitch can be a yarn over or only bring the yarn to the front", quote(t.word))
			return s, false
		}
		p.i = save
	}
	p.warn(t.span, doubt)
	return s, true
}

// joined makes one step of what is written as several: "k2tog", "sl1, k1, psso".
func (p *parser) joined(s Stitch) Stitch {
	switch s {
	case Knit, Purl:
		if n, ok := p.together(); ok {
			return p.twoOf(s, n)
		}
		if s == Knit && p.frontAndBack() {
			return KnitTwice
		}
	case Slip:
		if passed, ok := p.passedOver(); ok {
			return passed
		}
	}
	return s
}

// together reads "2tog" and "2 together" behind a letter.
func (p *parser) together() (n int, ok bool) {
	if !countAhead(p.tok()) {
		return 0, false
	}
	ahead := 1
	if loopWord(p.ahead(ahead).word) {
		ahead++
	}
	if w := p.ahead(ahead).word; w != "tog" && w != "together" && w != "togeth" {
		return 0, false
	}
	n, _ = p.count()
	for range ahead {
		p.next()
	}
	return n, true
}

// twoOf is so many loops worked together.
func (p *parser) twoOf(s Stitch, n int) Stitch {
	at := p.last()
	if n != 2 {
		p.add(at, "two are k2tog or ssk, three sk2p", "%d together cannot be told here yet", n)
	}
	switch {
	case s == Purl && p.behind():
		return SlipSlipPurl
	case s == Purl:
		return PurlTwo
	case p.behind():
		return SlipSlipKnit
	}
	return KnitTwo
}

// behind reads the words for the back of the loop.
func (p *parser) behind() bool {
	return p.accept("tbl") || p.phrase("through", "back", "loop") || p.phrase("through", "the", "back", "loop") ||
		p.phrase("through", "back", "loops") || p.phrase("through", "the", "back", "loops") || p.phrase("through", "the", "back", "of", "the", "loop")
}

// frontAndBack reads what is written out of kfb: "k1fb", "kf&b", "knit front and back".
func (p *parser) frontAndBack() bool {
	if p.phrase("front", "and", "back") || p.phrase("into", "front", "and", "back") || p.phrase("in", "front", "and", "back") {
		return true
	}
	if p.tok().number == 1 && p.tok().kind == tokNumber {
		switch {
		case p.ahead(1).word == "fb":
			p.next()
			p.next()
			return true
		case p.ahead(1).word == "f" && p.ahead(2).kind == tokAnd && p.ahead(3).word == "b":
			for range 4 {
				p.next()
			}
			return true
		}
	}
	return false
}

// passedOver reads the rest of a decrease that begins with a slip: "sl1, k1, psso".
func (p *parser) passedOver() (Stitch, bool) {
	save := p.i
	p.accept("one")
	if p.tok().kind == tokNumber && p.tok().number == 1 {
		p.next()
	}
	p.acceptLoops()
	for mannerWord(p.tok().word) {
		p.next()
	}
	p.joints()
	if !p.accept("k", "knit") {
		p.i = save
		return NoStitch, false
	}
	made := SlipKnitPass
	n, ok := p.together()
	switch {
	case ok && n == 2:
		made = SlipTwoPass
	case !ok && (p.tok().number == 1 && p.tok().kind == tokNumber || p.tok().word == "one"):
		p.next()
		p.acceptLoops()
	}
	p.joints()
	p.accept("and")
	if p.accept("psso") || p.passWords() {
		return made, true
	}
	p.i = save
	return NoStitch, false
}

// passWords reads "psso" written out.
func (p *parser) passWords() bool {
	for _, words := range [][]string{
		{"pass", "slipped", "stitch", "over"}, {"pass", "slipped", "st", "over"}, {"pass", "the", "slipped", "stitch", "over"},
		{"pass", "sl", "st", "over"}, {"pass", "slip", "stitch", "over"}, {"pass", "slip", "st", "over"},
	} {
		if p.phrase(words...) {
			return true
		}
	}
	return false
}

// joints moves behind commas and hyphens inside one step.
func (p *parser) joints() {
	for p.tok().kind == tokBreak || p.tok().kind == tokMinus || p.tok().kind == tokStop {
		p.next()
	}
}

// twoWords reads the stitches that are named by several words.
func (p *parser) twoWords() (Stitch, bool) {
	t := p.tok()
	switch {
	case p.phrase("no", "stitch"), p.phrase("no", "stitches"), p.phrase("no", "st"):
		return NoStitch, true
	case p.phrase("yarn", "over"):
		return YarnOver, true
	case t.word == "y" && p.ahead(1).kind == tokStop && p.ahead(2).word == "o" && p.ahead(2).start == p.ahead(1).end:
		for range 3 {
			p.next()
		}
		if p.tok().kind == tokStop {
			p.next()
		}
		return YarnOver, true
	case t.word == "e" && p.ahead(1).kind == tokDash && p.ahead(2).word == "wrap",
		t.word == "u" && p.ahead(1).kind == tokDash && p.ahead(2).word == "wrap":
		for range 3 {
			p.next()
		}
		if t.word == "e" {
			return EWrap, true
		}
		return UWrap, true
	case p.phrase("e", "wrap"), p.phrase("e-wrap", "knit"), p.phrase("ewrap", "knit"), p.phrase("e", "wrap", "knit"):
		p.accept("knit")
		return EWrap, true
	case p.phrase("u", "wrap"), p.phrase("u-wrap", "knit"), p.phrase("uwrap", "knit"), p.phrase("u", "knit"):
		p.accept("knit")
		return UWrap, true
	case p.phrase("flat", "knit"):
		return FlatKnit, true
	case p.phrase("true", "knit"):
		return TrueKnit, true
	case p.phrase("kf") && p.tok().kind == tokAnd && p.ahead(1).word == "b":
		p.next()
		p.next()
		return KnitTwice, true
	case t.word == "make" && (p.ahead(1).word == "one" || p.ahead(1).number == 1 && p.ahead(1).kind == tokNumber):
		p.next()
		p.next()
		p.warn(t.to(p.last()), "make 1 is read as a yarn over, as in old openwork; today it is another increase: m1")
		return YarnOver, true
	case t.word == "m" && p.ahead(1).kind == tokNumber && p.ahead(1).number == 1:
		p.next()
		p.next()
		if p.tok().start == p.last().end {
			p.accept("l", "r")
		}
		return MakeOne, true
	case t.word == "sk" && p.ahead(1).kind == tokNumber && p.ahead(1).number == 2 && (p.ahead(2).word == "p" || p.ahead(2).word == "po"):
		p.next()
		p.next()
		p.next()
		return SlipTwoPass, true
	}
	return NoStitch, false
}

// refused refuses what is no cell: binding off inside a row.
func (p *parser) refused() bool {
	t := *p.tok()
	switch t.word {
	case "bind", "bo", "cast", "co":
		p.next()
		p.accept("off", "on")
		p.count()
		p.acceptLoops()
		p.add(t.to(p.last()), "write the row without it, and end the piece or the shaping there", "%s inside a row is no stitch that can be told", quote(p.text[t.start:p.last().end]))
		p.skip()
		return true
	case "psso":
		p.next()
		p.add(t.span, "write sl1, k1, psso or skp", "no slipped stitch stands before it")
		p.skip()
		return true
	}
	return false
}
