package rowtext

import (
	"fmt"
	"strings"

	"bypeg/pattern"
)

// rowRange is the rows from one number to another, both counted.
type rowRange struct {
	span
	first, last int
}

func (r rowRange) len() int { return r.last - r.first + 1 }

// numberList reads the numbers of rows: "1", "1-4", "1 & 3", "2, 4 and 6", "1st to 3rd". Words for rows between
// them are noise. Plural tells that one number alone is not all.
//
// "Row 5 - 3 k" is row 5: with blanks around the hyphen and a single "row" a range needs punctuation behind it.
func (c *cursor) numberList(single bool) (list []rowRange) {
	for {
		from := c.i
		r, ok := c.oneRange(single && list == nil)
		if !ok {
			c.i = from
			return list
		}
		list = append(list, r)
		before := c.i
		if len(list) == c.most || !c.listJoin() {
			return list
		}
		if !c.numberBehind() {
			c.i = before
			return list
		}
	}
}

// listJoin moves behind what joins two numbers of a list.
func (c *cursor) listJoin() bool {
	comma := c.tok().kind == tokBreak && c.text[c.tok().start] == ','
	if comma {
		c.next()
	}
	return c.acceptKind(tokAnd, tokPlus, tokSlash) || c.accept("and") || comma
}

// numberBehind tells whether the number of a row is at hand, and no count ("rows 1-2, 3 times") nor the end of
// one number ("1,000").
func (c *cursor) numberBehind() bool {
	at := c.i
	_, ok := c.rowNumber()
	word := c.tok().word
	c.i = at
	thousands := c.text[c.prev().start:c.prev().end] == "," && c.glued() && len(c.written()) == 3 && c.written()[0] == '0'
	return ok && !thousands && !oneOf(word, "times", "time", "x", "more", "further")
}

// peekRowNumber reads the number of a row without moving.
func (c *cursor) peekRowNumber() (n int, ok bool) {
	at := c.i
	n, ok = c.rowNumber()
	c.i = at
	return n, ok
}

// rowNumber reads one number with the words before it: "#6", "no. 6", "row 6", "6th".
func (c *cursor) rowNumber() (n int, ok bool) {
	at := c.i
	c.accept("the")
	if isRows(c.tok()) || c.tok().word == "r" {
		c.next()
	}
	if c.accept("no", "nr", "number") {
		c.acceptKind(tokStop)
	}
	c.acceptKind(tokHash)
	if n, ok = c.ordinal(); ok {
		return n, true
	}
	if n, ok = c.number(); !ok {
		c.i = at
	}
	return n, ok
}

// oneRange reads a number, or two with "to" or a dash between.
func (c *cursor) oneRange(single bool) (r rowRange, ok bool) {
	start := c.tok().span
	n, ok := c.rowNumber()
	if !ok {
		return r, false
	}
	r = rowRange{start.to(c.prev()), n, n}
	at := c.i
	spaced := c.prev().end < c.tok().start
	if !c.accept("to", "through", "thru", "till") && !c.acceptKind(tokMinus, tokDash) {
		return r, true
	}
	to, ok := c.rowNumber()
	if counts := spaced && stitchWord(c.tok().word); ok && (single && spaced && !c.firmBehind() || counts && c.joined()) {
		ok = false
	}
	if !ok {
		c.i = at
		return r, true
	}
	r.span, r.last = start.to(c.prev()), to
	return r, true
}

// joined tells whether the number before the hyphen at hand ends a list: "1 & 2 - 4 k" is two rows of 4 knits.
func (c *cursor) joined() bool {
	t := c.tokens[max(c.i-4, 0)]
	return t.kind == tokAnd || t.kind == tokBreak || t.word == "and"
}

// firmBehind tells whether punctuation or a word for rows stands at hand.
func (c *cursor) firmBehind() bool {
	t := c.tok()
	switch t.kind {
	case tokColon, tokStop, tokClose, tokMinus, tokDash, tokEnd, tokOpen, tokBreak, tokAnd, tokEquals:
		return true
	}
	return isRows(t) || oneOf(t.word, "and", "rs", "ws", "form", "forms")
}

// count is how many rows a list names; it stops growing above the limit of rows.
func count(list []rowRange) int {
	n := 0
	for _, r := range list {
		n = min(n+max(r.len(), 0), pattern.MaxRows+1)
	}
	return n
}

// joinRanges joins ranges that follow one another.
func joinRanges(list []rowRange) []rowRange {
	var out []rowRange
	for _, r := range list {
		if last := len(out) - 1; last >= 0 && out[last].last+1 == r.first {
			out[last].last = r.last
			continue
		}
		out = append(out, r)
	}
	return out
}

// rowsText is a list as directives and messages have it: "row 1", "rows 1-4", "rows 1, 3".
func rowsText(list []rowRange) string {
	list = joinRanges(list)
	var b strings.Builder
	for i, r := range list {
		if i > 0 {
			b.WriteString(", ")
		}
		if r.first == r.last {
			fmt.Fprint(&b, r.first)
		} else {
			fmt.Fprintf(&b, "%d-%d", r.first, r.last)
		}
		if b.Len() > 60 && i+1 < len(list) {
			b.WriteString(" and more")
			break
		}
	}
	if len(list) == 1 && list[0].first == list[0].last {
		return "row " + b.String()
	}
	return "rows " + b.String()
}
