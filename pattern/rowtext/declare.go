package rowtext

import (
	"fmt"
	"slices"
)

// maxLead is how many words may stand before the one that makes a statement a declaration or a directive.
const maxLead = 8

// opening is the kind of a statement by its first words; stmtBare where they do not tell. It moves.
func (c *cursor) opening(start bool) statementKind {
	from := c.i
	if c.opensAgain(start) {
		return stmtRepeat
	}
	for _, o := range []struct {
		kind  statementKind
		opens func(*cursor) bool
	}{
		{stmtMultiple, (*cursor).opensMultiple}, {stmtCastOn, (*cursor).opensCastOn}, {stmtBindOff, (*cursor).opensBindOff},
		{stmtNamed, (*cursor).opensNamed}, {stmtRound, (*cursor).opensRound},
	} {
		c.i = from
		if o.opens(c) {
			return o.kind
		}
	}
	c.i = from
	return stmtBare
}

// leadTo moves behind words that say nothing of their own, as far as some other token.
func (c *cursor) leadTo(words ...string) {
	for range maxLead {
		if !c.accept(words...) && !c.acceptKind(tokOpen, tokColon, tokBreak) {
			return
		}
	}
}

// opensMultiple tells "worked over a multiple of 8 sts" and "odd number of pegs" at hand.
func (c *cursor) opensMultiple() bool {
	if c.anyNumber() {
		return true
	}
	c.leadTo("a", "an", "any", "worked", "work", "works", "over", "on", "with", "for", "stitch", "st", "sts", "stitches", "pegs", "number", "of", "pattern",
		"patt", "repeat", "rep", "is", "this", "the", "use", "using", "requires", "you", "need", "cast", "co", "needs", "total", "to", "be")
	if c.accept("multiple", "multiples", "mult", "divisible") {
		return true
	}
	return c.accept("even", "odd", "uneven") && c.accept("number", "no", "num", "amount")
}

// anyNumber moves behind "any number of sts", if it stands at hand.
func (c *cursor) anyNumber() bool {
	at := c.i
	c.acceptAll("worked", "work", "works", "over", "on", "cast")
	if c.sequence("any", "number", "of") && loopWord(c.tok().word) {
		c.loopWords()
		return true
	}
	c.i = at
	return false
}

// multiple is a declared count of stitches: so many a repeat, and some beside them.
type multiple struct {
	span
	of, plus int
}

// multiple reads a declaration as far as it goes.
func (c *cursor) multiple() (m multiple, ok bool) {
	start := c.tok().span
	if c.anyNumber() {
		return multiple{start.to(c.prev()), 1, 0}, true
	}
	c.opensMultiple()
	switch word := c.text[c.tokens[c.i-1].start:c.tokens[c.i-1].end]; lower(word) {
	case "number", "no", "num", "amount":
		m = multiple{of: 2}
		if lower(c.text[c.tokens[c.i-2].start:c.tokens[c.i-2].end]) != "even" {
			m.plus = 1
		}
		c.acceptKind(tokStop)
		c.accept("of")
		c.loopWords()
		m.span = start.to(c.prev())
		return m, true
	}
	c.acceptKind(tokStop)
	c.accept("of", "by", "is")
	c.acceptKind(tokColon, tokEquals)
	if m.of, ok = c.number(); !ok {
		return m, false
	}
	c.loopWords()
	m.span = start.to(c.prev())
	at := c.i
	c.acceptKind(tokBreak)
	less := c.accept("minus", "less") || c.acceptKind(tokMinus)
	if less || c.accept("plus", "and", "with") || c.acceptKind(tokPlus, tokAnd) {
		c.accept("an")
		n, ok := c.number()
		if !ok {
			c.i = at
			return m, true
		}
		if m.plus = n; less && m.of > 0 {
			m.plus = (m.of - n%m.of) % m.of
		}
		c.loopWords()
		m.span = start.to(c.prev())
		return m, true
	}
	c.i = at
	return m, true
}

// loopWords moves behind words for stitches and what they may be called.
func (c *cursor) loopWords() {
	c.acceptAll("extra", "more", "additional", "edge", "selvage", "selvedge", "balancing", "st", "sts", "stitch", "stitches", "peg", "pegs", "loops", "loop")
	c.acceptKind(tokClose)
}

// fits tells whether a count of pegs is one of the declared ones.
func (m multiple) fits(pegs int) bool { return pegs >= m.plus && (pegs-m.plus)%m.of == 0 }

// text is the declaration in words.
func (m multiple) text() string {
	switch {
	case m.of == 2 && m.plus == 0:
		return "an even number"
	case m.of == 2 && m.plus == 1:
		return "an odd number"
	case m.plus == 0:
		return fmt.Sprintf("a multiple of %d", m.of)
	}
	return fmt.Sprintf("a multiple of %d plus %d", m.of, m.plus)
}

// nearest says which counts about a number are of the declared ones.
func (m multiple) nearest(pegs int) string {
	down := pegs - ((pegs-m.plus)%m.of+m.of)%m.of
	if down < max(1, m.plus) {
		return fmt.Sprintf("%d is", down+m.of)
	}
	return fmt.Sprintf("%d and %d are", down, down+m.of)
}

// opensCastOn tells "cast on 24" at hand, with words before it that say how.
func (c *cursor) opensCastOn() bool {
	c.leadTo("with", "using", "loosely", "a", "b", "mc", "cc", "yarn", "main", "colour", "color", "e-wrap", "ewrap", "chain", "crochet", "first", "to", "begin",
		"start", "and", "then", "your", "the", "method", "cast-on", "long-tail")
	if !c.sequence("cast", "on") && !c.accept("co") && lower(c.text[c.prev().start:c.prev().end]) != "cast-on" {
		return false
	}
	c.acceptKind(tokColon)
	c.acceptAll("a", "total", "of", "loosely")
	_, ok := c.number()
	return ok
}

// castOn is a declared count of pegs. Further counts are those of other sizes.
type castOn struct {
	span
	pegs  int
	sizes []int
	round bool
	rest  span // what is said beside it; empty where nothing is
}

// castOn reads a cast-on to the end of its statement.
func (c *cursor) castOn() castOn {
	start := c.tok().span
	c.opensCastOn()
	last := c.tokens[c.i-1]
	co := castOn{pegs: last.number}
	if last.kind == tokWord {
		co.pegs, _ = numberOf(last.word)
	}
	if c.tok().kind == tokOpen && c.ahead(1).kind == tokNumber {
		c.next()
		for c.tok().kind == tokNumber {
			co.sizes = append(co.sizes, c.tok().number)
			c.next()
			c.acceptKind(tokBreak)
		}
		c.acceptKind(tokClose)
	}
	c.loopWords()
	co.span = start.to(c.prev())
	from := c.i
	for !c.done() {
		co.round = c.sequence("in", "the", "round") || c.sequence("in", "rounds") || c.sequence("as", "a", "tube") || c.accept("join", "joined") || co.round
		c.next()
	}
	c.i = from
	c.acceptKind(tokStop, tokBreak)
	if !c.done() {
		co.rest = c.rest()
	}
	return co
}

// castOnWords are what may stand beside a cast-on without a meaning for the rows.
var castOnWords = []string{
	"and", "then", "prepare", "ready", "join", "joined", "to", "work", "worked", "working", "in", "the", "round", "rounds", "for", "as", "a", "an", "tube", "flat", "panel", "piece", "knit",
	"using", "with", "by", "method", "cast", "cast-on", "on", "chain", "crochet", "e-wrap", "ewrap", "long", "tail", "long-tail", "cable", "loosely", "your", "loom",
	"pegs", "sts", "stitches", "being", "be", "careful", "not", "twist", "knitting", "place", "marker", "pm", "of", "favourite", "favorite", "any",
}

// harmless tells whether all of the words are among those.
func harmless(tokens []token, words []string) bool {
	return !slices.ContainsFunc(tokens, func(t token) bool {
		switch t.kind {
		case tokWord:
			return !slices.Contains(words, t.word)
		case tokBreak, tokStop, tokEnd, tokAnd, tokLine, tokClose:
			return false
		}
		return true
	})
}

// opensBindOff tells "bind off all sts" at hand: all of the loops, not some.
func (c *cursor) opensBindOff() bool {
	c.leadTo("then", "and", "now", "loosely", "finally")
	if !c.sequence("bind", "off") && !c.sequence("cast", "off") && !c.accept("bo", "bind-off", "cast-off", "bindoff") {
		return false
	}
	for i := 0; ; i++ {
		t := c.ahead(i)
		switch {
		case t.kind == tokEnd, t.kind == tokStop:
			return true
		case t.kind != tokWord && t.kind != tokBreak, repWord(t.word), i > 20, oneOf(t.word, "next", "first", "every", "st", "stitch", "until"):
			return false
		}
	}
}

// opensRound tells "work in the round" at hand.
func (c *cursor) opensRound() bool {
	c.leadTo("work", "worked", "working", "knit", "knitted", "join", "joined", "to", "for", "and", "prepare", "is", "this", "piece", "pattern", "all", "being")
	return c.sequence("in", "the", "round") && (c.done() || c.acceptKind(tokStop, tokBreak, tokColon) || c.accept("on", "being", "over"))
}
