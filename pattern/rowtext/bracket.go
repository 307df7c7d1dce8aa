package rowtext

import (
	"fmt"
	"strings"
)

// Brackets mean many things in a row, told by what is in them: parts that are
// repeated, the count of a row, several sizes, a remark. They are told apart before
// they are read, by one look at their tokens.

// bracket reads what stands in brackets and what is said behind it.
func (p *parser) bracket(parts []node) []node {
	open := p.tok().span
	switch {
	case p.statedAhead(0) > 0:
		p.takeStated(p.statedAhead(0))
	case p.onlyNumbers(1) > 1:
		p.several(open)
	case p.repeatNote():
		return p.starlessNote(parts)
	case p.timesNote(parts):
	case p.remark(), p.closing(0) == 2 && p.ahead(1).word == "turn" && p.ahead(3).kind == tokEnd:
		p.skipBracket()
	default:
		return p.loosened(parts, p.groupOf())
	}
	return parts
}

// loosened appends a bracket. One that only groups, and holds a part that goes so far, is its parts: "k2, (p to last
// 2), k2".
func (p *parser) loosened(parts []node, n node) []node {
	if g, ok := n.(*group); ok && !g.counted && p.depth == 0 && len(p.marks) == 0 && fixedOpen(g.parts) {
		return append(parts, g.parts...)
	}
	return add(parts, n)
}

// closing is how many tokens ahead the bracket that opens at the n-th closes; 0 where
// it never does.
func (p *parser) closing(n int) int {
	depth := 0
	for ; p.i+n < len(p.tokens); n++ {
		p.steps++
		switch p.ahead(n).kind {
		case tokOpen:
			depth++
		case tokClose:
			if depth--; depth == 0 {
				return n
			}
		case tokEnd:
			return 0
		}
	}
	return 0
}

// skipBracket moves behind a bracket.
func (p *parser) skipBracket() {
	for range p.closing(0) + 1 {
		p.next()
	}
}

// onlyNumbers is how many numbers stand in the bracket whose first token is the n-th
// ahead; 0 where there is something else.
func (p *parser) onlyNumbers(n int) int {
	count := 0
	for ; ; n++ {
		switch t := p.ahead(n); t.kind {
		case tokNumber:
			count++
		case tokBreak, tokSlash, tokColon, tokDash, tokMinus:
		case tokClose:
			return count
		default:
			return 0
		}
	}
}

// ofSizes reads a number with further sizes in brackets: "3 (5, 7)".
func (p *parser) ofSizes() (n int, ok bool) {
	if p.ahead(1).kind != tokOpen {
		return 0, false
	}
	further := p.onlyNumbers(2)
	if further == 0 || further == 1 && p.statedAhead(1) > 0 {
		return 0, false
	}
	at, first := p.tok().span, p.tok().number
	p.next()
	sizes := append([]int{first}, p.numbers()...)
	at = at.to(p.last())
	switch {
	case p.sizes == 0:
		p.add(at, "write the one that is worked, or choose: "+listed(sizes), "several sizes are given and none is chosen")
		return p.counts(at, first), true
	case p.sizes > len(sizes):
		p.add(at, "", "there is no size %d here, only %d", p.sizes, len(sizes))
		return p.counts(at, first), true
	}
	return p.counts(at, sizes[p.sizes-1]), true
}

// numbers are those of a bracket of numbers, moved behind it.
func (p *parser) numbers() []int {
	var all []int
	for {
		t := p.tok()
		if t.kind == tokNumber {
			all = append(all, t.number)
		}
		p.next()
		if t.kind == tokClose || t.kind == tokEnd {
			return all
		}
	}
}

// listed is sizes as a list for a hint, cut where there are many.
func listed(numbers []int) string {
	var words []string
	for i, n := range numbers {
		if i == 6 {
			words = append(words, "...")
			break
		}
		words = append(words, fmt.Sprintf("size %d is %d", i+1, n))
	}
	return strings.Join(words, ", ")
}

// several refuses sizes that belong to no number.
func (p *parser) several(open span) {
	p.skipBracket()
	p.add(open.to(p.last()), "write the one that is worked", "several sizes are given and none is chosen")
}

// countWords are what may stand beside the count that checks a row.
var countWords = map[string]bool{
	"now": true, "total": true, "in": true, "all": true, "you": true, "have": true, "should": true, "left": true, "rem": true,
	"remain": true, "remaining": true, "on": true, "loom": true, "the": true, "use": true, "altogether": true, "there": true,
	"are": true, "will": true, "be": true, "made": true, "worked": true, "each": true, "row": true, "needle": true,
}

// statedAhead is how many tokens a count takes that checks the row and ends it, from
// the n-th ahead: "(12 sts)", "12 sts", a bare "(14)". It is 0 where there is none.
func (p *parser) statedAhead(n int) int {
	start, bracket := n, p.ahead(n).kind == tokOpen
	switch {
	case bracket:
		n++
	case !countAhead(p.ahead(n)):
		return 0
	}
	numbers, loops := 0, false
	for ; ; n++ {
		p.steps++
		t := p.ahead(n)
		switch {
		case countAhead(t) && numbers == 0:
			numbers++
			continue
		case t.kind == tokEquals && numbers == 0:
			continue
		case loopWord(t.word) && numbers == 1:
			loops = true
			continue
		case countWords[t.word]:
			continue
		}
		break
	}
	if numbers == 0 || !bracket && !loops {
		return 0
	}
	if bracket {
		if p.ahead(n).kind != tokClose {
			return 0
		}
		n++
	}
	behind := n
	for breakKind(p.ahead(behind).kind) {
		behind++
	}
	if t := p.ahead(behind); t.kind != tokEnd && !(t.word == "turn" && p.ahead(behind+1).kind == tokEnd) {
		return 0
	}
	return n - start
}

// takeStated reads the count of so many tokens.
func (p *parser) takeStated(tokens int) {
	at := p.tok().span
	loops := 0
	for range tokens {
		if p.tok().kind == tokNumber {
			loops = p.tok().number
		} else if n, ok := numberOf(p.tok().word); ok {
			loops = n
		}
		p.next()
	}
	p.stated = &stated{at.to(p.last()), loops}
}

// dash moves behind a dash between parts.
func (p *parser) dash() {
	t := *p.tok()
	p.next()
	if p.statedAhead(0) > 0 || p.tok().kind == tokWord || p.tok().kind == tokOpen || p.tok().kind == tokStar || p.tok().kind == tokEnd && t.kind != tokEquals {
		return
	}
	if p.tok().kind == tokNumber && t.end < p.tok().start {
		return
	}
	p.add(t.span, "", "%s has no meaning here", quote(p.text[t.start:t.end]))
}

// repeatNote tells whether the bracket at hand says that something is repeated:
// "(rep from * 3 times)".
func (p *parser) repeatNote() bool {
	return p.tok().kind == tokOpen && repWord(p.ahead(1).word) && p.ahead(2).kind != tokColon
}

// timesNote reads a bracket that says how often the bracket before it is worked: "(k2,
// p2) (3 times)".
func (p *parser) timesNote(parts []node) bool {
	often := p.ahead(1).word == "twice" || p.ahead(1).word == "thrice"
	if len(parts) == 0 || !(often && p.closing(0) == 2) && (p.closing(0) != 3 || !countAhead(p.ahead(1)) || p.ahead(2).word != "times") {
		return false
	}
	g, ok := parts[len(parts)-1].(*group)
	if !ok || g.counted {
		return false
	}
	p.next()
	g.count, g.counted = 1, true
	if n, ok := p.times(); ok {
		g.count = n
	}
	p.next()
	g.span = g.to(p.last())
	return true
}

// remark tells whether the bracket at hand holds plain words about the row: none of them names a stitch or a number,
// says how far or how often, or is a word of the trade that would change what is worked. "Skip this peg" is one all
// the same. What is followed by a count, or by how far it goes, is none.
func (p *parser) remark() bool {
	closing := p.closing(0)
	if closing == 0 || p.countsBehind(closing+1) {
		return false
	}
	if skipsThis(p.ahead(1), p.ahead(2)) {
		return closing <= 4
	}
	words := false
	for n := 1; n < closing; n++ {
		t := p.ahead(n)
		switch {
		case t.kind == tokWord && (t.word == "rs" || t.word == "ws" || t.word == "pm" || t.word == "sm" || t.word == "rm"):
			words = true
		case t.kind != tokWord && !breakKind(t.kind), countAhead(t), stitchWord(t.word), changing(t.word), workPrefix(t.word), farWord(t.word),
			repWord(t.word), actWord(t.word), t.word == "edge" && loopWord(p.ahead(n+1).word):
			return false
		case len(t.word) > 2 && !familiar(t.word):
			words = true
		}
	}
	return words
}

// actWord tells the words for what is done to loops or how many of them.
func actWord(word string) bool {
	switch word {
	case "all", "rest", "turn", "wrap", "w", "knits", "purls", "o", "n", "m", "yo", "over", "narrow", "tog", "psso", "kl", "pl", "move", "swap", "cross", "leave":
		return true
	}
	return false
}

// skipsThis tells the remark that a slip is a skipped peg: "skip this peg".
func skipsThis(verb, which *token) bool {
	return (verb.word == "skip" || verb.word == "slip") && (which.word == "this" || which.word == "that")
}

func stitchWord(word string) bool {
	_, ok := stitchOf(word)
	return ok
}

// countsBehind tells whether a count or a goal stands at the n-th token ahead.
func (p *parser) countsBehind(n int) bool {
	t := p.ahead(n)
	switch {
	case t.word == "twice", t.word == "once", t.word == "thrice", t.kind == tokTimes, t.word == "x", farWord(t.word), repWord(t.word):
		return true
	case t.kind == tokMinus:
		return p.ahead(n+1).kind == tokNumber
	}
	return countAhead(t) && (p.ahead(n+1).word == "times" || p.ahead(n+1).word == "x" || p.ahead(n+1).kind == tokTimes)
}
