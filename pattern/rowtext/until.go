package rowtext

import "strings"

// until reads what stands behind "until": "6 rows have been worked", "row 6", "piece measures 7 in".
func (c *cursor) until(a *again) {
	at := c.i
	c.acceptAll("a", "total", "of", "you", "have", "there", "are", "you've", "worked", "completed", "to", "the", "end", "in", "all", "piece", "work", "has")
	if isRows(c.tok()) {
		c.next()
		if n, ok := c.number(); ok {
			a.often, a.n = oftenRows, n
			c.acceptAll("is", "has", "been", "are", "complete", "completed", "worked", "done", "finished", "reached")
			return
		}
		c.i = at
	}
	if n, ok := c.number(); ok {
		more := c.accept("more")
		if isRows(c.tok()) {
			c.next()
			a.often, a.n = oftenRows, n
			if more {
				a.often = oftenMoreRows
			}
			c.acceptAll("in", "all", "total", "have", "has", "been", "are", "is", "were", "worked", "complete", "completed", "done", "made", "finished", "knit",
				"knitted", "altogether", "of", "pattern")
			return
		}
	}
	c.i = at
	c.lengthWanted(a)
}

// lengthWanted reads a length in the words before it: "piece measures 7 in", "desired length", "7 in long".
func (c *cursor) lengthWanted(a *again) bool {
	at := c.i
	for range 12 {
		t := c.tok()
		switch {
		case c.accept("desired", "required", "wanted", "wished") || c.sequence("long", "enough") || c.sequence("as", "long", "as"):
			c.acceptAll("length", "size", "measurement", "desired", "you", "like", "wish", "want", "is", "reached", "has", "been")
			a.often, a.length = oftenLength, "as wished"
			return true
		case t.kind == tokNumber || t.kind == tokFraction:
			length, ok := c.length()
			if !ok {
				c.i = at
				return false
			}
			a.often, a.length = oftenLength, length
			c.lengthTail()
			return true
		case t.kind == tokWord && !repWord(t.word):
			c.next()
		default:
			c.i = at
			return false
		}
	}
	c.i = at
	return false
}

// length reads "7 in", "7 1/2 inches", "18 cm" and writes it with the unit's sign.
func (c *cursor) length() (text string, ok bool) {
	start := c.tok().start
	for c.acceptKind(tokNumber, tokFraction, tokSlash) {
	}
	text = strings.TrimSpace(c.text[start:c.prev().end])
	c.acceptKind(tokMinus)
	unit, ok := units[c.tok().word]
	if !ok && c.tok().kind == tokQuote {
		unit, ok = "in", true
	}
	if !ok || strings.HasSuffix(text, "/") || len(text) > 12 {
		return "", false
	}
	c.next()
	return text + " " + unit, true
}

// units are the words for lengths and the signs they are written with.
var units = map[string]string{
	"in": "in", "ins": "in", "inch": "in", "inches": "in", "cm": "cm", "cms": "cm", "centimetres": "cm", "centimeters": "cm",
	"mm": "mm", "m": "m", "metre": "m", "metres": "m", "ft": "ft", "feet": "ft", "yd": "yd", "yards": "yd",
}

// lengthTail moves behind what says nothing new behind a length: "long from the cast-on edge", the same in other units.
func (c *cursor) lengthTail() {
	if c.tok().kind == tokStop && c.ahead(1).kind != tokEnd {
		c.next()
	}
	if at := c.i; c.acceptKind(tokOpen, tokSlash) {
		if _, ok := c.length(); !ok {
			c.i = at
		}
		c.acceptKind(tokClose)
	}
	c.acceptAll("long", "in", "length", "from", "the", "cast-on", "cast", "on", "edge", "beginning", "beg", "start", "or", "desired", "is", "reached",
		"measured", "total", "altogether")
}
