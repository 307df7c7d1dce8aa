package rowtext

// Limits of a row. They are checked before anything is expanded.
const (
	maxPegs  = 4000      // pegs of a row, and so the largest count
	maxText  = 64 << 10  // bytes of a row
	maxDepth = 16        // brackets inside brackets
	tooWide  = 1_000_000 // where widths stop growing
)

// parser makes the tree of one row. After a fault it goes on behind the next comma,
// so that one row can report several.
type parser struct {
	faults
	text   string
	tokens []token
	i      int  // the token at hand
	depth  int  // brackets open
	inStar bool // a star is open
}

// parse is the parts of a row, or its faults.
func parse(text string) ([]node, error) {
	p := &parser{text: text, tokens: lex(text, span{0, len(text)})}
	parts := p.list()
	for p.tok().kind != tokEnd {
		p.stray()
		p.list() // read for its faults only
	}
	if len(parts) == 0 && len(p.faults.list) == 0 {
		p.add(span{0, len(text)}, "write the stitches, as in k3, p2", "the row has no instructions")
	}
	return parts, p.err()
}

func (p *parser) tok() *token { return &p.tokens[p.i] }

// ahead is the n-th token behind the one at hand.
func (p *parser) ahead(n int) *token { return &p.tokens[min(p.i+n, len(p.tokens)-1)] }

// next moves on; the end is never passed.
func (p *parser) next() { p.i = min(p.i+1, len(p.tokens)-1) }

// last is the piece of the token before the one at hand.
func (p *parser) last() span { return p.tokens[max(p.i-1, 0)].span }

// accept moves on if the token at hand is the word.
func (p *parser) accept(word string) bool {
	if p.tok().word != word {
		return false
	}
	p.next()
	return true
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

// list reads parts up to something that only its caller can judge: the end, a
// closing bracket, a star or "rep".
func (p *parser) list() []node {
	var parts []node
	for {
		t := p.tok()
		switch {
		case t.kind == tokBreak || t.kind == tokStop:
			p.next()
		case t.kind == tokOpen:
			parts = append(parts, p.group())
		case t.kind == tokStar && !p.inStar:
			parts = append(parts, p.star())
		case t.kind == tokEnd, t.kind == tokClose, t.kind == tokStar, repWord(t.word):
			return parts
		case t.kind == tokWord:
			if n := p.item(endsBare(parts)); n != nil {
				parts = append(parts, n)
			}
		default:
			p.stray()
		}
	}
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
	case t.kind == tokNumber || t.kind == tokFraction:
		p.add(t.span, "write the stitch first, as in k3, or 3 times behind a bracket", "a number without a stitch")
		p.skip()
	case t.kind == tokDots:
		p.add(t.span, "write *k2, p2; rep from * to end", "dots do not say how far it goes on")
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

// endsBare tells whether the last of the parts is a letter without a count.
func endsBare(parts []node) bool {
	if len(parts) == 0 {
		return false
	}
	w, ok := parts[len(parts)-1].(*work)
	return ok && w.bare
}

// item reads a stitch with its count or how far it goes. It returns nil where the
// word at hand names no stitch. Behind a letter without a count "across" is refused:
// "k, p across" can mean a rib as well as purling to the end.
func (p *parser) item(afterBare bool) node {
	start := p.tok().span
	stitch, ok := p.stitch()
	if !ok {
		return nil
	}
	goal := p.tok().word
	if f, ok := p.far(); ok {
		n := &fill{span: start.to(p.last()), stitch: stitch, to: f}
		if afterBare && (goal == "across" || goal == "around") {
			p.add(n.span, "write to end, or put brackets round the list", "this can mean one stitch %s, or the list again and again", goal)
		}
		return n
	}
	n := &work{stitch: stitch, count: 1, bare: true}
	if count, ok := p.count(); ok {
		n.count, n.bare = count, false
		p.glued(start)
		p.acceptLoops()
		n.stitch = p.modify(stitch)
		if farWord(p.tok().word) {
			at := start.to(p.tok().span)
			p.add(at, "to repeat more than one stitch put brackets round them", "a stitch with a count cannot also go %s", quote(p.tok().word))
			p.skip()
		}
	}
	n.span = start.to(p.last())
	return n
}

// stitch reads the name of a stitch and the word that may change it.
func (p *parser) stitch() (Stitch, bool) {
	t := *p.tok()
	if t.word == "no" && (p.ahead(1).word == "stitch" || p.ahead(1).word == "stitches") {
		p.next()
		p.next()
		return NoStitch, true
	}
	p.next()
	s, ok := stitchOf(t.word)
	switch {
	case !ok && familiar(t.word):
		p.add(t.span, "", "%s has no meaning here", quote(t.word))
		p.skip()
		return s, false
	case !ok:
		p.unknown(t.span, unknownHint(t.word))
		return s, false
	}
	return p.modify(s), true
}

// unknown refuses a name together with the letters and digits that hang on to it.
func (p *parser) unknown(at span, hint string) {
	for t := p.tok(); t.start == at.end && (t.kind == tokWord || t.kind == tokNumber); t = p.tok() {
		at.end = t.end
		p.next()
	}
	p.add(at, hint, "%s is no stitch known here", quote(p.text[at.start:at.end]))
	p.skip()
}

// modify takes the words that change a stitch, if some are at hand.
func (p *parser) modify(s Stitch) Stitch {
	if s == Slip && mannerWord(p.tok().word) {
		p.next()
	}
	changed, ok := modified(s, p.tok().word)
	if ok {
		p.next()
	}
	return changed
}

// glued refuses a name with a number in its middle, such as k2tog: what follows a
// count with no blank between must have a meaning of its own.
func (p *parser) glued(start span) {
	t := *p.tok()
	if t.kind != tokWord || t.start != p.last().end || familiar(t.word) {
		return
	}
	p.unknown(start.to(p.last()), knownStitches)
}

// group reads a bracket and what is said behind it: a count, how far, or nothing.
func (p *parser) group() node {
	open := p.tok().span
	p.next()
	if p.depth == maxDepth {
		p.add(open, "", "brackets stand more than %d deep", maxDepth)
		p.closed = true // what is left is read no further, so its faults are none
		p.i = len(p.tokens) - 1
		return &group{span: open, count: 1}
	}
	p.depth++
	parts := p.list()
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
	if f, ok := p.repeatFar(); ok {
		return &star{span: open.to(p.last()), parts: parts, to: f}
	}
	n, counted := p.times()
	return &group{span: open.to(p.last()), parts: parts, count: n, counted: counted}
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

// star reads a starred unit and its repeat: "*k2, p2; rep from * to end", or a pair
// of stars with what is said behind it.
func (p *parser) star() node {
	open := p.tok().span
	p.next()
	p.inStar = true
	parts := p.list()
	for p.tok().kind == tokStar && !p.closesStar() {
		p.add(p.tok().span, "use brackets for the inner one: (k1, p1) 3 times", "a star inside a star")
		p.next()
		p.list() // read for its faults only
	}
	p.inStar = false
	if len(parts) == 0 && len(p.faults.list) == 0 {
		p.add(open, "", "there is nothing to repeat behind this star")
	}
	pair := p.tok().kind == tokStar
	if pair {
		p.next()
		if p.tok().kind == tokBreak && repWord(p.ahead(1).word) {
			p.next()
		}
	}
	if repWord(p.tok().word) {
		return p.rep(open, parts, pair)
	}
	if !pair {
		p.add(open, "write rep from * to end where it goes back", "this star is never repeated")
		return &star{span: open, parts: parts}
	}
	if n, ok := p.times(); ok {
		return &group{span: open.to(p.last()), parts: parts, count: n, counted: true}
	}
	f, _ := p.repeatFar()
	return &star{span: open.to(p.last()), parts: parts, to: f}
}

// closesStar tells a closing star from the opening of an inner one: behind a
// closing star stands no stitch.
func (p *parser) closesStar() bool {
	t := p.ahead(1)
	switch t.kind {
	case tokOpen, tokStar:
		return false
	case tokWord:
		_, stitch := stitchOf(t.word)
		return !stitch
	}
	return true
}
