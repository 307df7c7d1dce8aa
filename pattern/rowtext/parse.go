package rowtext

// Limits of a row. They are checked before anything is expanded.
const (
	maxPegs  = 4000      // pegs of a row, and so the largest count
	maxText  = 64 << 10  // bytes of a row
	maxDepth = 16        // brackets and stars inside each other
	tooWide  = 1_000_000 // where widths stop growing
)

// parser makes the tree of one row. After a fault it goes on behind the next comma,
// so that one row can report several.
type parser struct {
	faults
	text   string
	tokens []token
	i      int      // the token at hand
	depth  int      // brackets open
	marks  []int    // the stars open, the outermost first
	sizes  int      // which of several sizes is read; 0 for none
	notes  []Note   // readings taken that could be others
	stated *stated  // the count behind the row
	short  *span    // where it turns before its end
	colour bool     // a colour has been named
	either []*group // repeats whose count can be read in two ways
	steps  int      // tokens looked at: the work done
}

// stated is a count that checks the row: "(12 sts)".
type stated struct {
	span
	loops int
}

func (p *parser) tok() *token { return &p.tokens[p.i] }

// ahead is the n-th token behind the one at hand.
func (p *parser) ahead(n int) *token { return &p.tokens[min(p.i+n, len(p.tokens)-1)] }

// next moves on; the end is never passed.
func (p *parser) next() {
	p.steps++
	p.i = min(p.i+1, len(p.tokens)-1)
}

// last is the piece of the token before the one at hand.
func (p *parser) last() span { return p.tokens[max(p.i-1, 0)].span }

// accept moves on if the token at hand is one of the words.
func (p *parser) accept(words ...string) bool {
	for _, w := range words {
		if p.tok().word == w {
			p.next()
			return true
		}
	}
	return false
}

// phrase moves behind the words if they all follow, one after the other.
func (p *parser) phrase(words ...string) bool {
	for n, w := range words {
		if p.ahead(n).word != w {
			return false
		}
	}
	for range words {
		p.next()
	}
	return true
}

// breaks moves behind commas and stops, and tells whether there were some.
func (p *parser) breaks() bool {
	start := p.i
	for breakKind(p.tok().kind) {
		p.next()
	}
	return p.i > start
}

func breakKind(k tokenKind) bool {
	switch k {
	case tokBreak, tokStop, tokBullet:
		return true
	}
	return false
}

func (p *parser) warn(at span, msg string) {
	p.notes = append(p.notes, Note{Start: at.start, End: at.end, Msg: msg})
}

// skip moves to the end of the faulty part.
func (p *parser) skip() {
	for {
		switch p.tok().kind {
		case tokEnd, tokBreak, tokStop, tokOpen, tokClose, tokStar, tokLine:
			return
		}
		if repWord(p.tok().word) {
			return
		}
		p.next()
	}
}

// body reads the whole row.
func (p *parser) body() []node {
	parts := p.list(nil)
	for p.tok().kind != tokEnd {
		p.stray()
		p.list(nil) // read for its faults only
	}
	return parts
}

// list reads parts up to something that only its caller can judge: the end, a
// closing bracket, the star that closes, or "rep" where a star is open.
func (p *parser) list(parts []node) []node {
	for {
		t := p.tok()
		switch {
		case breakKind(t.kind), t.kind == tokAnd:
			p.next()
		case t.kind == tokEnd, t.kind == tokClose:
			return parts
		case t.kind == tokOpen:
			if p.repeatNote() && len(p.marks) > 0 {
				return parts
			}
			parts = p.bracket(parts)
		case t.kind == tokStar:
			if p.closesStar() || p.open(t.number) && p.marks[len(p.marks)-1] != t.number {
				return parts
			}
			if len(p.marks) == 0 && p.depth == 0 && len(parts) > 0 && p.onlyCloses() {
				parts = p.closeOnly(parts)
				continue
			}
			parts = append(parts, p.star())
		case repWord(t.word):
			if len(p.marks) > 0 || p.depth > 0 {
				return parts
			}
			parts = p.starless(parts)
		case t.kind == tokDots, t.word == "etc", p.keepsOn():
			parts = p.ellipsis(parts)
		case t.kind == tokMinus, t.kind == tokDash, t.kind == tokEquals:
			p.dash()
		case t.kind == tokColon && len(parts) > 0 && repWord(p.ahead(1).word), t.kind == tokSlash && len(parts) > 0 && p.ahead(1).kind == tokWord:
			p.next()
		case t.kind == tokNumber, t.kind == tokFraction, t.kind == tokWord:
			more, ok := p.words(parts)
			if !ok {
				return parts
			}
			parts = more
		default:
			p.stray()
		}
	}
}

// words reads what begins with a word or a number. It is false where only the caller
// can go on: at the end of a star's list.
func (p *parser) words(parts []node) ([]node, bool) {
	if n := p.plain(); n != nil {
		return append(parts, n), true
	}
	t := p.tok()
	switch {
	case p.statedAhead(0) > 0:
		p.takeStated(p.statedAhead(0))
	case p.colourPrefix(), p.noise(), p.turn():
	case endWord(t.word) && p.depth == 0, p.lastIn():
		if len(p.marks) > 0 {
			return parts, false
		}
		return p.ended(parts), true
	case ribWord(t.word) && len(parts) > 0 && p.depth == 0 && len(p.marks) == 0:
		return p.rib(parts), true
	case p.numberedRib():
		return p.ribOf(parts), true
	case (farWord(t.word) || t.word == "all") && len(parts) > 0:
		if len(p.marks) > 0 || p.depth > 0 {
			return parts, len(p.marks) == 0 && p.strayFar()
		}
		return p.listFar(parts), true
	case t.word == "peg" || t.word == "pegs":
		return add(parts, p.pegsFirst()), true
	default:
		return add(parts, p.item(parts)), true
	}
	return parts, true
}

// plain reads what most rows are made of, a letter with its count: "k3,". It is nil where
// anything else stands there. All that the longer way would ask is answered by the two
// tokens and the one behind them.
func (p *parser) plain() node {
	t, count := p.tok(), p.ahead(1)
	if len(t.word) != 1 || count.kind != tokNumber || count.number < 1 || count.number > maxPegs {
		return nil
	}
	switch p.ahead(2).kind {
	case tokBreak, tokStop, tokEnd, tokClose:
	default:
		return nil
	}
	n := &work{span: t.to(count.span), count: count.number}
	switch t.word {
	case "k":
		n.stitch = Knit
	case "p":
		n.stitch = Purl
	default:
		return nil
	}
	p.next()
	p.next()
	return n
}

// add appends a part unless it is nil: one that could not be read.
func add(parts []node, n node) []node {
	if n == nil {
		return parts
	}
	return append(parts, n)
}

// strayFar refuses a goal inside brackets. It is always true: the list goes on.
func (p *parser) strayFar() bool {
	at := p.tok().span
	p.skip()
	p.add(at.to(p.last()), "say it behind the bracket: (k2, p2) to last 2", "inside a bracket nothing says how far that is")
	return true
}

// stray refuses the token at hand, which begins no part, and moves behind it.
func (p *parser) stray() {
	t := *p.tok()
	p.next()
	switch {
	case t.kind == tokClose:
		p.add(t.span, "", "this closing bracket was never opened")
	case t.kind == tokLine:
		p.add(t.span, "write every row as a text of its own", "the row goes on behind a line break")
	case t.kind == tokStar:
		p.add(t.span, "put the other * where the repeat begins", "nothing says what this star repeats")
	case repWord(t.word):
		p.add(t.span, "put a * where the repeat begins", "there is no * to go back to")
		p.skipRep()
	default:
		p.add(t.span, "", "%s has no meaning here", quote(p.text[t.start:t.end]))
	}
}

// skipRep moves behind the star of a "rep from *" that has no beginning.
func (p *parser) skipRep() {
	p.accept("from")
	if p.tok().kind == tokStar {
		p.next()
	}
	p.skip()
}

// noise moves behind a word that means no stitch: markers, "and".
func (p *parser) noise() bool {
	switch {
	case p.phrase("place", "marker"), p.phrase("slip", "marker"), p.phrase("remove", "marker"),
		p.phrase("place", "a", "marker"), p.phrase("slip", "the", "marker"), p.phrase("sl", "marker"), p.phrase("sl", "m"):
		return true
	case p.tok().word == "next" && !countAhead(p.ahead(1)) && !loopWord(p.ahead(1).word):
		return false
	case p.tok().word == "work" || p.tok().word == "working":
		p.next()
		p.accept("in")
		return true
	case noiseWord(p.tok().word) && p.tok().word != "next":
		p.next()
		return true
	}
	return false
}

// countAhead tells whether a token is a number, in figures or spelt.
func countAhead(t *token) bool {
	if t.kind == tokNumber {
		return true
	}
	_, ok := numberOf(t.word)
	return ok
}

// turn moves behind "turn" at the end of a row, and refuses it elsewhere: what is
// left would be a short row.
func (p *parser) turn() bool {
	at := p.tok().span
	switch {
	case p.phrase("do", "not", "turn"), p.phrase("don't", "turn"):
		return true
	case p.accept("turn"):
		p.accept("the")
		p.accept("work")
		if p.tok().kind == tokEnd || p.tok().kind == tokStop && p.ahead(1).kind == tokEnd {
			return true
		}
	case p.tok().word == "w" && p.ahead(1).kind == tokAnd && p.ahead(2).word == "t":
		p.next()
		p.next()
		p.next()
	case p.phrase("wrap", "and", "turn"), p.accept("wt"):
	default:
		return false
	}
	at = at.to(p.last())
	p.short = &at
	return true
}

// colourPrefix moves behind a colour: "with A,". The first is noise; where there are
// several the row changes yarn, which is told.
func (p *parser) colourPrefix() bool {
	at := p.tok().span
	switch {
	case p.yarnAhead():
		return false
	case p.accept("with", "using"), p.phrase("change", "to"), p.phrase("switch", "to"), p.accept("join"):
	case p.tok().word == "in" && p.ahead(1).kind == tokWord && breakKind(p.ahead(2).kind):
		p.next()
	default:
		return false
	}
	called := p.accept("colour", "color", "yarn")
	if t := p.tok(); t.kind != tokWord || notColour(t.word) || called && len(t.word) > 2 {
		p.add(at.to(t.span), "name the colour, as in with A, k2", "the colour is missing")
		p.skip()
		return true
	}
	p.next()
	if p.tok().kind == tokColon {
		p.next()
	}
	if p.colour {
		p.warn(at.to(p.last()), "the colours of a row are not read, only its stitches")
	}
	p.colour = true
	return true
}

// notColour tells the words that mean something else where a colour could stand.
func notColour(word string) bool {
	_, stitch := stitchOf(word)
	_, _, old := oldStitch(word)
	_, number := numberOf(word)
	return stitch || old && len(word) > 1 || number || changing(word) || farWord(word) || repWord(word) || loopWord(word) || rowWord(word)
}

// yarnAhead tells whether "with yarn in front" follows, and stays before it.
func (p *parser) yarnAhead() bool {
	save := p.i
	_, ok := p.yarn()
	p.i = save
	return ok
}
