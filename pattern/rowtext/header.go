package rowtext

// headKind is how a header says which rows it stands for.
type headKind uint8

const (
	headRows  headKind = iota // by their numbers, perhaps with "and all even rows"
	headNext                  // so many rows behind the last one
	headSetUp                 // a row before row 1
	headAll                   // every row there is
	headEvery                 // every row of a kind: "all even rows"
)

// kinds of rows that a header can speak of.
type rowKind uint8

const (
	rowsAlternate rowKind = iota // counted from the row named before
	rowsEven
	rowsOdd
	rowsRight // right-side rows
	rowsWrong
)

// Side is which side of the fabric a row's header says faces the maker.
type Side uint8

// The sides.
const (
	SideUnsaid Side = iota
	RightSide       // RS
	WrongSide       // WS
)

// Course is which way a row's header says that it runs.
type Course uint8

// The ways.
const (
	CourseUnsaid  Course = iota
	CourseToLeft         // right to left
	CourseToRight        // left to right
)

// header is what stands before the instructions of a row: "(RS) Row 1 and all odd rows (dec row):".
type header struct {
	span
	kind  headKind
	rows  []rowRange // of headRows
	next  int        // of headNext: how many
	every bool       // headRows: and further ones, of a kind
	what  rowKind
	step  int // of rowsAlternate: every so many rows
	until int // the last of the further ones; 0 where that is not said
	side  Side
	runs  Course
	loops int  // the row leaves so many, where a bracket says it
	at    span // of that bracket
	round bool // it speaks of rounds
	firm  bool // punctuation stands behind it
	alone bool // a number without a word for rows
	lone  bool // it says rows, and one number
}

// maxHead is how many numbers a header in the middle of a line may have. It keeps the work of looking for headers in
// proportion to the text.
const maxHead = 60

// header reads a header at hand. Start tells that it stands first in its line, where a number alone can be one. It
// moves only where there is a header.
func (c *cursor) header(start bool) (h header, ok bool) {
	from := c.i
	h.start = c.tok().start
	c.beside(&h, false)
	if start && c.i > from && h.side != SideUnsaid && c.tokens[c.i-1].kind == tokColon && !c.rowAhead() {
		h.kind, h.next, h.firm = headNext, 1, true // "RS: knit"
		h.end = c.prev().end
		return h, true
	}
	if !c.named(&h, start) {
		c.i = from
		return h, false
	}
	c.further(&h)
	c.beside(&h, true)
	c.punctuation(&h)
	if !h.firm && !c.openEnd(&h) {
		c.i = from
		return h, false
	}
	h.end = c.prev().end
	if h.firm {
		c.beside(&h, false)
		c.acceptKind(tokColon)
	}
	return h, true
}

// openEnd tells whether a header without punctuation can end here: before instructions, where it did not leave in
// doubt what is number and what is count.
func (c *cursor) openEnd(h *header) bool {
	t := c.tok()
	if h.alone || h.kind != headRows && h.kind != headEvery && h.kind != headAll && t.kind != tokEnd {
		return false
	}
	switch t.kind {
	case tokEnd, tokStar, tokOpen, tokNumber, tokQuote:
		return true
	case tokWord:
		return !oneOf(t.word, "form", "forms", "times", "time", "of", "more", "is", "are", "has", "have", "to", "for", "until", "in", "again",
			"only", "once", "twice", "set", "sets", "establish", "make", "complete", "should")
	}
	return false
}

// rowAhead tells whether what names rows stands at hand.
func (c *cursor) rowAhead() bool {
	ahead := *c
	var h header
	return ahead.named(&h, true)
}

// named reads what names the rows.
func (c *cursor) named(h *header, start bool) bool {
	t := c.tok()
	_, isRow := rowsWord(t.word)
	switch {
	case isRow || t.word == "r" && c.ahead(1).kind == tokNumber:
		return c.numbered(h)
	case oneOf(t.word, "next", "following"):
		return c.nextRows(h)
	case oneOf(t.word, "all", "every", "each", "even", "odd", "even-numbered", "odd-numbered", "rs", "ws", "right", "wrong", "right-side", "wrong-side"):
		return c.everyRow(h)
	case c.setUp(h):
		return true
	}
	if _, ok := c.peekRowNumber(); ok && c.ordinalRows(h) {
		return true
	}
	if !start {
		return false
	}
	return c.countedRows(h) || c.numberAlone(h) || c.nameOfRow(h)
}

// numbered reads "Rows 1-4" and "R1".
func (c *cursor) numbered(h *header) bool {
	word := c.tok().word
	h.round, _ = rowsWord(word)
	c.next()
	if h.round {
		c.acceptKind(tokStop)
	}
	single := !plural(word)
	h.rows = c.numberList(single)
	if h.rows == nil || (c.tok().kind == tokMinus || c.tok().kind == tokDash) && c.ahead(1).kind == tokColon {
		return false // no number, or a range without its end
	}
	h.lone = !single && len(h.rows) == 1 && h.rows[0].len() == 1
	if single && len(h.rows) > 1 && !c.firmBehind() {
		return false // "Row 1, 3 k"
	}
	if isRows(c.tok()) && c.ahead(1).kind == tokColon {
		c.next()
	}
	return true
}

// ordinalRows reads "1st and 3rd rows", and "2nd and every alt row" as far as "2nd".
func (c *cursor) ordinalRows(h *header) bool {
	from := c.i
	dotted := c.tok().kind == tokNumber && c.ahead(1).kind == tokStop && isRows(c.ahead(2))
	if dotted {
		h.rows = []rowRange{{c.tok().span, c.tok().number, c.tok().number}}
		c.next()
		c.next()
	} else if _, ok := c.ordinal(); ok {
		c.i = from
		h.rows = c.numberList(false)
	}
	if h.rows != nil {
		c.beside(h, false)
	}
	round, ok := rowsWord(c.tok().word)
	switch {
	case h.rows == nil:
	case ok:
		h.round = round
		c.next()
		return true
	case oneOf(c.tok().word, "and") || c.tok().kind == tokAnd || c.tok().kind == tokBreak:
		at := c.i
		c.further(h)
		if c.i = at; h.every {
			h.every = false
			return true
		}
	}
	h.rows, c.i = nil, from
	return false
}

// nextRows reads "Next row" and "Next 3 rows".
func (c *cursor) nextRows(h *header) bool {
	c.next()
	n, counted := c.number()
	round, ok := rowsWord(c.tok().word)
	if !ok || !counted && plural(c.tok().word) {
		return false
	}
	c.next()
	if !counted {
		n = 1
	}
	h.kind, h.next, h.round = headNext, n, round
	return true
}

// countedRows reads "4 rows:".
func (c *cursor) countedRows(h *header) bool {
	from := c.i
	n, ok := c.number()
	round, rows := rowsWord(c.tok().word)
	c.next()
	if !ok || !rows || c.tok().kind != tokColon {
		c.i = from
		return false
	}
	h.kind, h.next, h.round = headNext, n, round
	return true
}

// setUp reads "Set-up row" and its like.
func (c *cursor) setUp(h *header) bool {
	from := c.i
	found := c.accept("set-up", "setup", "foundation", "preparation", "preparatory", "prep") || c.sequence("set", "up")
	round, ok := rowsWord(c.tok().word)
	if !found || !ok {
		c.i = from
		return false
	}
	c.next()
	h.kind, h.round = headSetUp, round
	if n, ok := c.number(); ok && n != 1 {
		c.i = from
		return false
	}
	return true
}

// numberAlone reads "3)", "(3)", "3." and "3:" at the start of a line.
func (c *cursor) numberAlone(h *header) bool {
	from := c.i
	open := c.acceptKind(tokOpen)
	if h.rows = c.numberList(true); h.rows == nil {
		c.i = from
		return false
	}
	t := c.tok()
	gap := c.text[c.prev().end:t.start]
	h.alone = true
	switch {
	case open:
		if t.kind == tokClose && !oneOf(c.ahead(1).word, "times", "x") {
			return true
		}
	case t.kind == tokClose, t.kind == tokColon:
		return true
	case t.kind == tokStop && c.ahead(1).kind != tokEnd:
		return true
	case (t.kind == tokMinus || t.kind == tokDash) && gap != "":
		return true
	case t.kind == tokWord && len(gap) > 0 && gap[0] == '\t':
		h.alone, h.firm = false, true
		return true
	}
	h.alone, h.rows, c.i = false, nil, from
	return false
}

// nameOfRow reads "Rib row:", a name of one to three words.
func (c *cursor) nameOfRow(h *header) bool {
	from := c.i
	if oneOf(c.tok().word, "last", "final") && isRows(c.ahead(1)) && !plural(c.ahead(1).word) && c.ahead(2).kind == tokColon {
		h.round, _ = rowsWord(c.ahead(1).word)
		h.kind, h.next = headNext, 1
		c.next()
		c.next()
		return true
	}
	for range 3 {
		if t := c.tok(); t.kind != tokWord || farWord(t.word) || repWord(t.word) || oneOf(t.word, "of", "the", "work", "last", "these", "as", "each", "every") {
			break
		}
		c.next()
		if round, ok := rowsWord(c.tok().word); ok && !plural(c.tok().word) {
			c.next()
			h.kind, h.next, h.round = headNext, 1, round
			at := c.i
			c.beside(h, true)
			firm := c.tok().kind == tokColon || c.tok().kind == tokDash || c.tok().kind == tokMinus
			if c.i = at; firm {
				return true
			}
			break
		}
	}
	c.i = from
	return false
}

// punctuation moves behind what ends a header.
func (c *cursor) punctuation(h *header) {
	for {
		t := c.tok()
		switch {
		case t.kind == tokMinus && c.ahead(1).kind == tokNumber && c.ahead(1).start == t.end && h.firm:
			return // a count below zero, which the row refuses
		case t.kind == tokClose && (h.firm || h.kind != headRows):
			return
		}
		if !c.acceptKind(tokColon, tokStop, tokClose, tokMinus, tokDash, tokBreak, tokEquals) {
			return
		}
		h.firm = true
	}
}
