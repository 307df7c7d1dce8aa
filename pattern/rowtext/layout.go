package rowtext

import (
	"strings"

	"bypeg/pattern"
)

// A text is cut into statements: rows, repeats of rows, declarations, directives and lines that may be any of these.
// A statement ends where its line ends or another begins in the middle of it. Which of the lines without a header go on
// with the row above is only known when all have been seen (numbering.go).

// statementKind is what a statement is by its first words.
type statementKind uint8

const (
	stmtBare     statementKind = iota // instructions without a header, or a remark
	stmtRow                           // a header and instructions
	stmtRows                          // so many equal rows: "k 2 rows"
	stmtRepeat                        // rows again: "rep rows 1-4 twice"
	stmtMultiple                      // "multiple of 4 plus 3"
	stmtCastOn                        //
	stmtBindOff                       //
	stmtNamed                         // a stitch pattern by its name: "work in garter st for 6 rows"
	stmtRound                         // "work in the round"
)

// statement is one piece of a text. Its body is what stands behind a header, else all of it; it is empty where a
// header stands alone.
type statement struct {
	span
	kind  statementKind
	head  *header // an empty one where none is written
	body  span
	first bool  // it begins its line
	ended bool  // a full stop or a colon is its last sign
	looks looks // of stmtBare
}

// reader reads a text.
type reader struct {
	faults
	text       string
	options    Options
	statements []statement
	headed     bool // rows have headers
	none       header
	numbers
	contents   map[string]*content
	oddWrong   bool // odd rows are wrong-side rows
	round      bool // the text speaks of rounds
	title      string
	cast       castOn
	multiples  []multiple
	declared   multiple // the one of them that says most
	warnings   []Note
	directives []Note
	work       int // loops run, for the tests
}

// scan cuts the text into statements.
func (r *reader) scan() {
	r.statements = make([]statement, 0, min(strings.Count(r.text, "\n")+1, pattern.MaxRows))
	for at := 0; at < len(r.text); {
		end, next := len(r.text), len(r.text)
		if i := strings.IndexFunc(r.text[at:], lineBreak); i >= 0 {
			end = at + i
			next = end + len("\n")
			if r.text[end] >= 0x80 {
				next = end + len("\u2028")
			}
		}
		r.line(span{at, end})
		at = next
	}
}

func lineBreak(c rune) bool { return c == '\n' || c == '\r' || c == '\u2028' || c == '\u2029' }

// line cuts one line.
func (r *reader) line(at span) {
	if at.end-at.start > maxText {
		r.add(at, "write every row on a line of its own", "a line longer than %d KiB", maxText>>10)
		return
	}
	tokens := lex(r.text, at)
	c := &cursor{text: r.text, tokens: tokens}
	defer func() { r.work += len(tokens) + c.moves }()
	c.bullets()
	if c.done() {
		return
	}
	s, from := r.open(c, true)
	s.first = true
	for {
		s, from = r.upTo(c, s, from)
		if from < 0 {
			return
		}
	}
}

// upTo ends a statement whose body begins at a token, and returns the one that begins behind it on the same line with
// where its body begins, or -1.
func (r *reader) upTo(c *cursor, s statement, from int) (next statement, body int) {
	for i := max(from, 1); ; i++ {
		c.i = i
		if c.tokens[i].kind == tokEnd {
			r.put(c, s, from, i)
			return statement{}, -1
		}
		r.work++
		if next, body, ok := r.middle(c, &s, i == from); ok {
			end := i
			for end > from && layoutSign(c.tokens[end-1].kind) {
				end--
			}
			r.put(c, s, from, end)
			return next, body
		}
	}
}

// layoutSign tells the tokens that layout puts between two rows on one line.
func layoutSign(k tokenKind) bool {
	return k == tokBullet || k == tokDash || k == tokMinus || k == tokSlash
}

// put keeps a statement whose body is the tokens from one up to another.
func (r *reader) put(c *cursor, s statement, from, to int) {
	s.body = span{c.tokens[from].start, c.tokens[from].start}
	if from < to {
		s.body.end = c.tokens[to-1].end
	} else if from > 0 {
		s.body = span{c.tokens[from-1].end, c.tokens[from-1].end}
	}
	s.end = max(s.body.end, s.head.end)
	if to > 0 {
		last := c.tokens[to-1].kind
		s.ended = last == tokColon || last == tokStop
	}
	if s.kind == stmtBare {
		c.i = from
		s.looks = c.looks(to)
	}
	r.headed = r.headed || s.kind == stmtRow
	r.statements = append(r.statements, s)
}

// bullets moves behind what layout puts before a line. A hyphen or a star is such a sign only before a header: else it
// can be a part of the row.
func (c *cursor) bullets() {
	for c.acceptKind(tokBullet) {
	}
	for c.tok().kind == tokMinus || c.tok().kind == tokDash {
		if c.ahead(1).kind == tokNumber && c.ahead(1).start == c.tok().end {
			return
		}
		c.next()
	}
	if c.tok().kind == tokStar {
		at := c.i
		c.next()
		ahead := *c
		if h, ok := ahead.header(true); ok && !h.alone && h.kind == headRows {
			return
		}
		c.i = at
	}
}

// open is the statement that begins at hand, and the token where its body begins. Start tells that nothing stands
// before it on the line, where a statement without a header can begin.
func (r *reader) open(c *cursor, start bool) (s statement, body int) {
	from := c.i
	s.start, s.head = c.tok().start, &r.none
	if c.plain() {
		return s, from
	}
	if s.kind = c.opening(start); s.kind != stmtBare {
		c.i = from
		return s, from
	}
	c.i = from
	if h, n, ok := c.equalRows(); ok {
		s.kind, s.head = stmtRows, kept(h)
		return s, n
	}
	c.i = from
	if h, ok := c.header(start); ok {
		s.kind, s.head = stmtRow, kept(h)
		return s, c.i
	}
	c.i = from
	return s, from
}

// plain tells the commonest beginnings of instructions without a header, for the sake of speed: "k3", "p,".
func (c *cursor) plain() bool {
	if !oneOf(c.tok().word, "k", "p") {
		return false
	}
	switch after := c.ahead(1); after.kind {
	case tokEnd, tokBreak:
		return true
	case tokNumber:
		return after.start == c.tok().end && !isRows(c.ahead(2))
	}
	return false
}

// kept is a header that outlives the walk over its line.
func kept(h header) *header { return &h }

// middle is the statement that begins at hand behind another one on the same line. Behind a header only another
// header can follow at once.
func (r *reader) middle(c *cursor, before *statement, atBody bool) (s statement, body int, ok bool) {
	i := c.i
	prev := c.tokens[i-1]
	sentence := prev.kind == tokStop || prev.kind == tokBullet || prev.kind == tokDots || prev.kind == tokColon && before.kind == stmtBare
	sentence = sentence && c.tok().kind != tokBreak
	joined := (before.kind == stmtRows || before.kind == stmtCastOn) && (prev.kind == tokBreak || oneOf(prev.word, "and", "then"))
	s.start, s.head = c.tok().start, &r.none
	if !atBody && (sentence || joined) {
		if s, body = r.open(c, false); s.kind == stmtRow && !c.alive(s.head, before, prev) {
			return s, 0, false
		}
		if !sentence {
			return s, body, s.kind == stmtRows
		}
		// A full stop ends no row, but it ends a declaration.
		return s, body, s.kind != stmtBare || before.kind != stmtRow && before.kind != stmtBare && !before.runsOn(c, i)
	}
	if !atBody && before.kind != stmtRepeat && repWord(c.tok().word) && c.opening(false) == stmtRepeat {
		s.kind = stmtRepeat
		return s, i, true
	}
	c.i = i
	if !mayHead(c.tok()) || !mayPrecede(&prev) {
		return s, 0, false
	}
	c.most = maxHead
	h, found := c.header(false)
	c.most = 0
	if !found || !c.alive(&h, before, prev) {
		c.i = i
		return s, 0, false
	}
	s.kind, s.head = stmtRow, kept(h)
	return s, c.i, true
}

// runsOn tells whether what stands behind a full stop still belongs to a repeat or a declaration: nothing that could
// be worked does not begin a row.
func (s *statement) runsOn(c *cursor, i int) bool {
	return !instructs(c.tokens[i:min(len(c.tokens)-1, i+maxHead)])
}

// mayHead tells the tokens that can begin a header in the middle of a line.
func mayHead(t *token) bool {
	return isRows(t) || t.kind == tokOpen || t.kind == tokNumber || oneOf(t.word, "r", "next", "rs", "ws", "right", "wrong") || oneOf(t.word, ordinals[1:]...)
}

// mayPrecede tells the tokens that a header in the middle of a line can stand behind: "as row 1" is none.
func mayPrecede(t *token) bool {
	switch t.kind {
	case tokAnd, tokPlus, tokHash, tokEquals, tokOpen:
		return false
	case tokWord:
		_, stitch := stitchOf(t.word)
		_, number := numberOf(t.word)
		return stitch || number || loopWord(t.word) || isRows(t) || oneOf(t.word, "knits", "purls", "rest", "end", "times", "twice", "once", "more", "across", "around", "all", "tog", "tbl", "turn", "rem", "remain", "total")
	}
	return true
}

// alive tells whether a header in the middle of a line is one: it names its rows by numbers or begins a sentence, and
// something stands behind it. One without punctuation must be of the kind its line began with.
func (c *cursor) alive(h *header, before *statement, prev token) bool {
	sentence := prev.kind == tokStop || prev.kind == tokBullet || prev.kind == tokDots
	switch {
	case !h.firm && (layoutSign(prev.kind) || isRows(&prev)):
		return false
	case h.alone, h.kind != headRows && !sentence:
		return false
	case !h.firm:
		return before.kind == stmtRow && !before.head.firm && !c.done() || sentence && c.tok().kind == tokWord
	}
	colon := c.text[h.end-1] == ':'
	return colon || !c.done()
}
