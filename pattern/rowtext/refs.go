package rowtext

import "slices"

// howOften is how a repeat of rows says how often.
type howOften uint8

const (
	oftenOpen     howOften = iota // not at all, or for ever
	oftenFurther                  // so many more times
	oftenTotal                    // so many times, what stands there counted
	oftenUnsaid                   // so many times, and neither of the two
	oftenRows                     // until there are so many rows
	oftenMoreRows                 // for so many rows further
	oftenRowsSaid                 // for so many rows, of which it is not said from where they count
	oftenLength                   // until the piece is so long
)

// again names rows that are worked again: "rows 1 and 2 three more times". What rows it means depends on where it
// stands where last counts them from there.
type again struct {
	span
	list   []rowRange // the rows by their numbers
	last   int        // or so many behind one another: "these 2 rows"; -1 where their count is not said
	from   bool       // from the row on, to nobody knows where
	forms  bool       // "these 2 rows form the pattern"
	steady bool       // "continue in pattern": the rows recur as they did so far
	often  howOften
	n      int
	length string // of oftenLength: "7 in"
	unread span   // what is said beside it and could not be read; empty where all was read
	aside  bool   // unread says only which row comes last: "ending with a WS row"
}

// opensAgain tells whether a statement at hand speaks of rows that are worked again. Start tells that it begins its line.
func (c *cursor) opensAgain(start bool) bool {
	if c.inPattern() || start && c.againAlone() {
		return true
	}
	verb := c.againVerb()
	c.accept("the")
	if verb && c.tok().word == "from" && c.ahead(2).kind != tokStar && (isRows(c.ahead(1)) || oneOf(c.ahead(1).word, "the", "first", "beginning", "start") ||
		c.ahead(1).kind == tokNumber) {
		return true
	}
	at := c.i
	if _, ok := c.rowsNamed(); ok {
		return verb || c.formsPattern()
	}
	c.i = at
	return false
}

// againVerb moves behind the words that open a repeat of rows.
func (c *cursor) againVerb() bool {
	at := c.i
	c.acceptAll("then", "now", "and")
	if c.accept("rep", "repeat", "repeats", "repeating", "reps") {
		return true
	}
	if c.accept("continue", "cont", "keep", "go") {
		c.acceptAll("to", "on", "by")
		if c.accept("rep", "repeat", "repeating", "working") {
			return true
		}
	}
	if c.accept("work", "working") {
		if named := *c; isRows(c.tok()) || c.accept("the", "these", "last", "previous") || named.ordinalAhead() {
			c.i = named.i
			return true
		}
	}
	c.i = at
	return false
}

// inPattern moves behind "continue in pattern" and "work as established", if they stand at hand.
func (c *cursor) inPattern() bool {
	at := c.i
	c.acceptAll("then", "now", "and")
	said := false
	if c.accept("continue", "cont", "work", "working", "keep", "continuing") {
		c.acceptAll("to", "on", "work", "working", "even", "straight")
		if c.accept("in") {
			c.acceptAll("the", "this", "established", "same", "above", "set", "stitch", "st")
			if said = c.accept("pattern", "patt", "pat", "way", "manner"); !said {
				c.i = at
				return false
			}
		}
		if c.accept("as") {
			c.accept("already")
			said = c.accept("established", "est", "set", "above", "given", "before")
		}
	}
	if !said {
		c.i = at
	}
	return said
}

// againAlone tells "repeat twice more" on a line of its own. Which rows it means is not said; read on as the end of the
// row above it would be another thing.
func (c *cursor) againAlone() bool {
	at := c.i
	if c.accept("rep", "repeat") {
		var a again
		c.times(&a)
		c.acceptKind(tokStop)
		if a.often != oftenOpen && c.done() {
			return true
		}
	}
	c.i = at
	return false
}

// ordinalAhead tells whether "1st" or "first" is at hand.
func (c *cursor) ordinalAhead() bool {
	_, ok := c.ordinal()
	return ok
}

// formsPattern reads "form the pattern" and its like.
func (c *cursor) formsPattern() bool {
	at := c.i
	c.acceptAll("now", "will")
	switch {
	case c.accept("form", "forms", "establish", "establishes", "make", "makes", "set", "sets", "complete", "completes", "create", "creates"):
		c.acceptAll("up", "the", "a", "one", "stitch", "st", "full", "complete", "your", "this", "row")
		if c.accept("pattern", "patt", "pat", "repeat", "rep", "texture", "design") {
			c.acceptAll("repeat", "rep", "and")
			return true
		}
	case c.accept("are", "is"):
		c.acceptAll("then", "the")
		if c.accept("repeated", "pattern", "patt") {
			return true
		}
	}
	c.i = at
	return false
}

// rowsNamed reads which rows: "rows 1-4", "1st and 2nd rows", "these 2 rows", "last row".
func (c *cursor) rowsNamed() (a again, ok bool) {
	at := c.i
	a.span = c.tok().span
	c.accept("the")
	switch {
	case c.accept("last", "previous", "preceding", "these", "those", "this", "prev", "above"):
		c.acceptKind(tokStop)
		c.accept("last")
		one := c.text[c.prev().start:c.prev().end] == "this"
		n, counted := c.number()
		word := c.tok().word
		if isRows(c.tok()) {
			c.next()
			switch {
			case counted && n > 0:
				a.last = n
			case !counted && word[len(word)-1] != 's':
				a.last = 1
			case !counted && !one:
				a.last = -1
			}
			ok = a.last != 0
		}
	case isRows(c.tok()), c.tok().word == "r" && c.ahead(1).kind == tokNumber:
		a.list = c.numberList(false)
		ok = a.list != nil
	default:
		if c.ordinalAhead() {
			c.i = at
			c.accept("the")
			a.list = c.numberList(false)
			if ok = a.list != nil && (isRows(c.tok()) || c.done() || c.tok().kind == tokStop && c.ahead(1).kind == tokEnd); isRows(c.tok()) {
				c.next()
			}
		}
	}
	if !ok {
		c.i = at
		return again{}, false
	}
	a.span = a.to(c.prev())
	c.acceptAll("above", "inclusive", "incl")
	return a, true
}

// again reads a repeat of rows to the end of its statement. It moves only where there is one; what it cannot read
// behind the rows is left in unread.
func (c *cursor) again() (a again, ok bool) {
	at, start := c.i, c.tok().span
	if c.inPattern() {
		a.steady, a.last = true, -1
		return c.extentOf(a, start), true
	}
	verb := c.againVerb() || c.likeVerb()
	c.accept("the")
	from := verb && c.accept("from")
	c.accept("the")
	if from && c.accept("beginning", "start") {
		a, ok = again{list: []rowRange{{c.prev(), 1, 1}}}, true
	} else {
		a, ok = c.rowsNamed()
	}
	forms := ok && c.formsPattern()
	if !ok || !verb && !forms {
		c.i = at
		return again{}, false
	}
	a.from, a.forms = from, forms
	if c.acceptKind(tokStop, tokBreak); forms {
		c.accept("and")
		c.acceptAll("are", "is", "then", "repeated")
		c.againVerb()
	}
	return c.extentOf(a, start), true
}

// extentOf reads how often rows are worked again, and what else stands in the statement.
func (c *cursor) extentOf(a again, start span) again {
	c.acceptKind(tokStop, tokBreak)
	c.often(&a)
	c.acceptKind(tokStop, tokDots)
	if !c.done() {
		a.unread = c.rest()
		c.acceptKind(tokBreak)
		a.aside = a.often == oftenLength && oneOf(c.tok().word, "end", "ending") && !c.stitchBehind()
	}
	a.span = start.to(c.tokens[len(c.tokens)-1].span)
	return a
}

// stitchBehind tells whether a stitch is named in the rest of the statement.
func (c *cursor) stitchBehind() bool {
	return slices.ContainsFunc(c.tokens[c.i:], func(t token) bool {
		_, ok := stitchOf(t.word)
		return ok || t.kind == tokStar || t.kind == tokOpen
	})
}

// likeVerb moves behind the words that open a reference to other rows.
func (c *cursor) likeVerb() bool {
	at := c.i
	c.acceptAll("work", "worked", "knit", "working", "the")
	switch {
	case c.accept("as", "like", "see"):
		c.acceptAll("for", "given", "on", "in", "at")
		return true
	case c.sequence("same", "as"), c.sequence("exactly", "as"):
		c.acceptAll("for", "on", "in")
		return true
	}
	c.i = at
	return false
}

// often reads how often rows are worked again.
func (c *cursor) often(a *again) {
	at := c.i
	open := c.acceptKind(tokOpen)
	c.acceptAll("in", "order", "sequence", "respectively")
	if c.accept("again") {
		a.often, a.n = oftenFurther, 1
	}
	c.acceptKind(tokBreak, tokColon)
	switch {
	case c.accept("until", "till"):
		c.until(a)
	case c.sequence("for", "pattern"), c.sequence("for", "patt"), c.accept("throughout", "continuously"), c.sequence("to", "form", "pattern"),
		c.sequence("as", "desired"), c.sequence("as", "required"), c.sequence("as", "needed"), c.sequence("for", "the", "pattern"):
	case c.sequence("to", "end"), c.sequence("to", "the", "end"):
	case c.sequence("to", "row"), c.sequence("through", "row"):
		if n, ok := c.number(); ok {
			a.often, a.n = oftenRows, n
		} else {
			c.i = at
		}
	case c.accept("to", "for") && c.lengthWanted(a):
	case a.often == oftenFurther:
	default:
		c.i = at
		c.acceptKind(tokColon)
		open = c.acceptKind(tokOpen)
		c.times(a)
	}
	if open {
		c.acceptKind(tokClose)
	}
}

// times reads "3 more times", "for a total of 3 times", "twice", "for 6 rows".
func (c *cursor) times(a *again) {
	at := c.i
	c.acceptAll("for", "a", "an", "in", "order")
	total := c.accept("total")
	if total {
		c.accept("of")
	}
	further := c.accept("further", "another", "additional")
	n, ok := c.frequency()
	if !ok {
		c.i = at
		return
	}
	further = c.accept("more", "further", "additional", "again", "longer") || further
	rows := isRows(c.tok())
	if rows || c.accept("times", "time", "x") || c.acceptKind(tokTimes) {
		if rows {
			c.next()
		}
		further = c.accept("more", "further", "again", "longer") || further
	}
	c.acceptKind(tokBreak, tokOpen)
	at = c.i
	c.acceptAll("in", "for", "a")
	if c.accept("total", "all", "altogether", "overall") {
		total = true
	} else {
		c.i = at
	}
	c.acceptKind(tokClose)
	a.n = n
	switch {
	case total && further:
		c.i = at // it cannot be both
	case rows && total:
		a.often = oftenRows
	case rows && further:
		a.often = oftenMoreRows
	case rows:
		a.often = oftenRowsSaid
	case total:
		a.often = oftenTotal
	case further, n == 1:
		a.often = oftenFurther
	default:
		a.often = oftenUnsaid
	}
}

// frequency reads "3", "x 3", "once", "twice".
func (c *cursor) frequency() (n int, ok bool) {
	switch {
	case c.accept("once"):
		return 1, true
	case c.accept("twice"):
		return 2, true
	case c.accept("thrice"):
		return 3, true
	}
	c.accept("x")
	c.acceptKind(tokTimes)
	return c.number()
}
