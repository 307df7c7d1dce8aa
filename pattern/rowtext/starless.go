package rowtext

// Loom writers often repeat without a star: "k2, p2 across", "k1, p1, repeat until the
// last stitch", a unit shown twice and dots, a rib by its name. What is repeated is
// then all that stands before.

// starless reads "rep" where no star is open.
func (p *parser) starless(parts []node) []node {
	word := p.tok().span
	p.repWord()
	if (p.tok().kind == tokColon || p.tok().kind == tokOpen) && p.statedAhead(0) == 0 {
		return p.repeatBracket(word, parts)
	}
	from := p.accept("from")
	switch {
	case p.tok().kind == tokStar:
		p.add(word.to(p.tok().span), "put a * where the repeat begins", "there is no * to go back to")
		p.next()
		p.skip()
		return parts
	case from && !p.phrase("the", "beginning") && !p.phrase("the", "start") && !p.accept("beginning", "start"):
		p.add(word.to(p.last()), "put a * where the repeat begins and behind from", "the repeat mark * is missing behind %s", quote("from"))
		p.skip()
		return parts
	case len(parts) == 0:
		p.add(word, "write the stitches before it, as in k2, p2, rep to end", "nothing stands before that could be repeated")
		p.skip()
		return parts
	}
	open := parts[0].at()
	if f, ok := p.repeatFar(); ok {
		return []node{&star{span: open.to(p.last()), parts: parts, to: f}}
	}
	if n, other, ok := p.further(); ok {
		return []node{p.countedBy(open, parts, n, other)}
	}
	return []node{&star{span: open.to(p.last()), parts: parts}}
}

// starlessNote reads "(repeat to end)" where no star is open.
func (p *parser) starlessNote(parts []node) []node {
	open := p.tok().span
	p.next()
	parts = p.starless(parts)
	if p.tok().kind == tokClose {
		p.next()
		return parts
	}
	p.add(open, "", "the remark on the repeat cannot be read")
	return parts
}

// repeatBracket reads "repeat: (p3, k2)".
func (p *parser) repeatBracket(word span, parts []node) []node {
	if p.tok().kind == tokColon {
		p.next()
	}
	if p.tok().kind != tokOpen {
		p.add(word, "put brackets round what is repeated", "what is repeated cannot be told")
		return parts
	}
	n := p.groupOf()
	if g, ok := n.(*group); ok && !g.counted {
		n = &star{span: word.to(g.span), parts: g.parts}
	}
	return append(parts, n)
}

// listFar reads "across" and the like behind a list: the list is repeated.
func (p *parser) listFar(parts []node) []node {
	at, word := p.tok().span, p.tok().word
	list := word == "across" || word == "around" || word == "all"
	if breakKind(p.tokens[p.i-1].kind) && (!list || len(parts) == 1) {
		if _, ok := p.far(); !ok {
			p.next()
		}
		p.add(at.to(p.last()), "write it as in p to end", "which stitch goes so far is missing")
		return parts
	}
	f, ok := p.repeatFar()
	if !ok {
		p.next()
		p.add(at, "", "%s has no meaning here", quote(p.text[at.start:at.end]))
		p.skip()
		return parts
	}
	for _, n := range parts {
		if _, plain := n.(*work); !plain {
			p.add(f.span, "put a star where the repeat begins", "what goes so far cannot be told")
			return parts
		}
	}
	s := &star{span: parts[0].at().to(p.last()), parts: parts, to: f, loose: f.last == 0}
	if !list && len(parts) > 1 {
		s.doubt = "without a star the whole list is read as the repeat"
	}
	return []node{s}
}

// keepsOn tells whether "keep alternating" or "and so on" follows, and moves behind it.
func (p *parser) keepsOn() bool {
	switch {
	case p.phrase("and", "so", "on"), p.phrase("and", "so", "forth"):
		return true
	case p.tok().word == "keep", p.tok().word == "continue", p.tok().word == "cont":
		p.next()
		p.accept("alternating", "repeating", "going", "on", "working")
		if !p.phrase("in", "this", "manner") && !p.phrase("in", "this", "way") && !p.phrase("like", "this") {
			p.phrase("this", "pattern")
		}
		return true
	}
	return false
}

// ellipsis makes a repeat of a unit that is shown, once or several times, and followed
// by dots.
func (p *parser) ellipsis(parts []node) []node {
	at := p.tok().span
	said := p.tok().kind != tokDots && p.tok().word != "etc" // "keep alternating" says it in words
	for p.tok().kind == tokDots || p.tok().word == "etc" || breakKind(p.tok().kind) {
		p.next()
	}
	if p.tok().kind == tokEnd && len(parts) == 0 {
		return parts
	}
	repeated := repWord(p.tok().word)
	if repeated {
		p.next()
	}
	f, _ := p.repeatFar()
	if len(parts) == 0 || len(p.marks) > 0 || p.depth > 0 || fixedOpen(parts) {
		p.add(at, "write *k2, p2; rep from * to end", "dots do not say how far it goes on")
		return parts
	}
	unit, shown := p.unitShown(parts, repeated)
	if unit == nil {
		p.add(at, "write *k2, p2; rep from * to end", "dots do not say what is repeated")
		p.closed, p.i = true, len(p.tokens)-1 // what follows would be read again and again
		return parts
	}
	s := &star{span: parts[0].at().to(p.last()), parts: unit, to: f, loose: f.last == 0}
	if shown == 1 && !said {
		s.doubt = "dots behind what is shown once: all of it is read as the repeat"
	}
	return []node{s}
}

// fixedOpen tells whether some part is open.
func fixedOpen(parts []node) bool {
	for _, n := range parts {
		if _, open := openPart(n); open {
			return true
		}
	}
	return false
}

// unitShown is the shortest unit that parts show whole, and how often. It is nil where
// the last one is shown in part, or where they are wider than a row; but what shows no
// unit twice, and is said to be repeated, is the unit.
func (p *parser) unitShown(parts []node, repeated bool) (unit []node, shown int) {
	if widthOf(parts, byLoops) > maxPegs || widthOf(parts, byCells) > maxPegs {
		return nil, 0
	}
	var runs []Run
	for _, n := range parts {
		runs = expand(runs, n, 1)
	}
	steps := stepsOf(runs, nil)
	p.steps += len(steps)
	if len(steps) == 0 {
		return nil, 0
	}
	period := period(steps)
	if repeated && len(steps) < 2*period {
		period = len(steps)
	}
	if len(steps)%period != 0 {
		return nil, 0
	}
	at := parts[0].at().to(parts[len(parts)-1].at())
	for _, r := range runsOf(steps[:period]) {
		unit = append(unit, &work{span: at, stitch: r.Stitch, count: r.Count})
	}
	return unit, len(steps) / period
}

// stepsOf appends runs step by step.
func stepsOf(runs []Run, steps []Stitch) []Stitch {
	for _, r := range runs {
		for range r.Count {
			steps = append(steps, r.Stitch)
		}
	}
	return steps
}

// runsOf joins steps into runs.
func runsOf(steps []Stitch) []Run {
	var runs []Run
	for _, s := range steps {
		runs = push(runs, Run{s, 1})
	}
	return runs
}

// period is the shortest length after which steps recur, by the longest border of
// each beginning.
func period[T comparable](steps []T) int {
	border := make([]int, len(steps))
	k := 0
	for i := 1; i < len(steps); i++ {
		for k > 0 && steps[i] != steps[k] {
			k = border[k-1]
		}
		if steps[i] == steps[k] {
			k++
		}
		border[i] = k
	}
	return len(steps) - k
}

// rib reads "rib" behind a knit and a purl: the name of a fabric that fills the row.
func (p *parser) rib(parts []node) []node {
	at := p.tok().span
	p.next()
	f, _ := p.repeatFar()
	if !ribPair(parts) {
		p.add(at, "write *k2, p2; rep from * to end", "which part is the rib cannot be told")
		return parts
	}
	return []node{&star{span: parts[0].at().to(p.last()), parts: parts, to: f, loose: f.last == 0}}
}

// ribPair tells whether parts are a knit and a purl, in either order.
func ribPair(parts []node) bool {
	if len(parts) != 2 {
		return false
	}
	a, ok := parts[0].(*work)
	b, also := parts[1].(*work)
	return ok && also && (a.stitch == Knit && b.stitch == Purl || a.stitch == Purl && b.stitch == Knit)
}

// numberedRib tells whether a rib named by its columns follows: "2x2 rib".
func (p *parser) numberedRib() bool {
	return p.tok().kind == tokNumber && (p.ahead(1).word == "x" || p.ahead(1).kind == tokTimes || p.ahead(1).kind == tokSlash) &&
		p.ahead(2).kind == tokNumber && ribWord(p.ahead(3).word)
}

// ribOf reads a rib named by its columns.
func (p *parser) ribOf(parts []node) []node {
	start := p.tok().span
	a, _ := p.count()
	p.next()
	b, _ := p.count()
	p.next()
	at := start.to(p.last())
	f, _ := p.repeatFar()
	return append(parts, &star{
		span:  start.to(p.last()),
		parts: []node{&work{span: at, stitch: Knit, count: a}, &work{span: at, stitch: Purl, count: b}},
		to:    f, loose: f.last == 0,
	})
}

// joinedRib makes a repeat of "k2p2" written as one word: that is a rib's name.
func joinedRib(parts []node) []node {
	if !ribPair(parts) || parts[0].at().end != parts[1].at().start {
		return parts
	}
	a, b := parts[0].(*work), parts[1].(*work)
	if a.bare || b.bare {
		return parts
	}
	return []node{&star{span: a.to(b.span), parts: parts, loose: true}}
}
