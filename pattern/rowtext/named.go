package rowtext

import "strconv"

// named is a stitch pattern by its name: "work in garter st for 6 rows". What its rows are depends on whether it is
// worked on a loom or on needles, and in rounds or not, so it stays a directive.
type named struct {
	span
	name   string
	rows   int // 0 where they are not said
	round  bool
	length string // or how long it is to be; empty where that is not said
	unread span
}

// leadWords stand before the name of a stitch pattern.
var leadWords = []string{"work", "working", "knit", "in", "for", "of", "continue", "cont", "then", "a", "with", "the", "even", "now", "and", "next", "first"}

// opensNamed tells the name of a stitch pattern at hand, with a verb before it or a count of rows beside it.
func (c *cursor) opensNamed() bool {
	n, ok := c.byName()
	return ok && (n.rows > 0 || n.length != "" || n.unread.start == n.unread.end)
}

// byName reads a stitch pattern by its name.
func (c *cursor) byName() (n named, ok bool) {
	start := c.tok().span
	verb := oneOf(c.tok().word, "work", "working", "continue", "cont", "knit")
	c.lead(&n)
	if n.name = c.stitchName(); n.name == "" {
		return n, false
	}
	c.accept("pattern", "patt")
	c.acceptKind(tokBreak)
	c.extent(&n)
	c.acceptKind(tokStop, tokBreak)
	n.span = start.to(c.prev())
	if !c.done() {
		n.unread = c.rest()
	}
	return n, verb || n.rows > 0 || n.length != ""
}

// lead reads what stands before the name, a count of rows among it.
func (c *cursor) lead(n *named) {
	for range maxLead {
		at := c.i
		if count, ok := c.number(); ok {
			round, rows := rowsWord(c.tok().word)
			if !rows {
				c.i = at
				return
			}
			n.rows, n.round = count, round
			c.next()
			continue
		}
		if !c.accept(leadWords...) {
			return
		}
	}
}

// stitchName reads the name of a stitch pattern and gives the one it goes by here; the empty string where none is at
// hand.
func (c *cursor) stitchName() string {
	before := ""
	if c.accept("reverse", "rev", "reversed") {
		before = "reverse "
	} else if c.accept("double") {
		before = "double "
	}
	switch {
	case c.accept("garter"):
		c.accept("st", "sts", "stitch")
		return before + "garter"
	case c.accept("stockinette", "stocking", "stockinet"), c.tok().word == "st" && oneOf(c.ahead(1).word, "st", "stitch") && c.accept("st"), c.accept("stst"):
		c.acceptKind(tokStop)
		c.accept("st", "sts", "stitch")
		return before + "stockinette"
	case c.accept("seed"):
		c.accept("st", "sts", "stitch")
		return before + "seed"
	case c.accept("moss"):
		c.accept("st", "sts", "stitch")
		return before + "moss"
	}
	return ""
}

// extent reads for how many rows, or how long.
func (c *cursor) extent(n *named) {
	at := c.i
	c.acceptAll("for", "a", "total", "of", "the", "next", "over")
	if count, ok := c.number(); ok {
		c.accept("more")
		if round, rows := rowsWord(c.tok().word); rows {
			c.next()
			n.rows, n.round = count, round
			return
		}
	}
	c.i = at
	if !c.accept("until", "for", "till") {
		return
	}
	var a again
	if c.lengthWanted(&a) {
		n.length = a.length
		return
	}
	c.i = at
}

// text is the directive.
func (n named) text() string {
	unit := " rows "
	if n.round {
		unit = " rounds "
	}
	switch {
	case n.rows > 0:
		return strconv.Itoa(n.rows) + unit + n.name
	case n.length != "":
		return n.name + " until length " + n.length
	}
	return n.name
}

// equalRows reads "K 2 rows" and "knit every row" as far as the word for rows. It returns the header they amount to,
// whose span is that of the stitches, and the token behind all of it.
func (c *cursor) equalRows() (h header, behind int, ok bool) {
	from := c.i
	h.start = c.tok().start
	for range 3 {
		t := c.tok()
		if t.kind != tokWord || repWord(t.word) || oneOf(t.word, "next", "last", "these", "the", "work", "as", "all", "every", "each") {
			break
		}
		c.next()
		h.end = c.prev().end
		at := c.i
		whole := c.accept("every", "all", "each")
		n, counted := c.number()
		if whole == counted {
			c.i = at
			continue
		}
		c.accept("more")
		round, rows := rowsWord(c.tok().word)
		if !rows || !instructs(c.tokens[from:at]) {
			break
		}
		c.next()
		if t := c.tok(); !c.done() && t.kind != tokStop && t.kind != tokBreak && !oneOf(t.word, "and", "then") {
			break
		}
		h.kind, h.next, h.round = headNext, n, round
		if whole {
			h.kind = headAll
		}
		return h, c.i, true
	}
	c.i = from
	return h, 0, false
}
