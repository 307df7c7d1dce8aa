package rowtext

// cursor walks over the tokens of a line or of a statement, the last of which is a
// tokEnd.
type cursor struct {
	text   string
	tokens []token
	i      int // the token at hand
	most   int // how many numbers a list may have; 0 for any
	moves  int // tokens moved behind, for the tests
}

func (c *cursor) tok() *token { return c.ahead(0) }

// ahead is the n-th token behind the one at hand; the end is never passed.
func (c *cursor) ahead(n int) *token { return &c.tokens[min(c.i+n, len(c.tokens)-1)] }

// prev is the piece of the token before the one at hand.
func (c *cursor) prev() span { return c.tokens[max(c.i-1, 0)].span }

func (c *cursor) next() {
	c.i = min(c.i+1, len(c.tokens)-1)
	c.moves++
}

func (c *cursor) done() bool { return c.tok().kind == tokEnd }

// accept moves behind the token at hand if it is one of the words.
func (c *cursor) accept(words ...string) bool {
	if !oneOf(c.tok().word, words...) {
		return false
	}
	c.next()
	return true
}

// acceptAll moves behind all of the words that stand at hand, in any order.
func (c *cursor) acceptAll(words ...string) {
	for c.accept(words...) {
	}
}

// sequence moves behind words that stand at hand one after the other, or not at all.
func (c *cursor) sequence(words ...string) bool {
	for n, word := range words {
		if c.ahead(n).word != word {
			return false
		}
	}
	c.i = min(c.i+len(words), len(c.tokens)-1)
	c.moves++
	return true
}

// acceptKind moves behind the token at hand if it is of one of the kinds.
func (c *cursor) acceptKind(kinds ...tokenKind) bool {
	for _, kind := range kinds {
		if c.tok().kind == kind {
			c.next()
			return true
		}
	}
	return false
}

// number reads a number in digits or in a word.
func (c *cursor) number() (n int, ok bool) {
	t := c.tok()
	if t.kind == tokNumber {
		c.next()
		return t.number, true
	}
	if n, ok = numberOf(t.word); ok {
		c.next()
	}
	return n, ok
}

// glued tells whether the token at hand hangs on to the one before it.
func (c *cursor) glued() bool { return c.i > 0 && c.prev().end == c.tok().start }

// rest is the piece from the token at hand to the last.
func (c *cursor) rest() span {
	return span{c.tok().start, c.tokens[len(c.tokens)-1].end}
}

// written is the text of the token at hand.
func (c *cursor) written() string { return c.text[c.tok().start:c.tok().end] }

// oneOf tells whether a word is among some; the empty word never is.
func oneOf(word string, words ...string) bool {
	for _, w := range words {
		if w == word && w != "" {
			return true
		}
	}
	return false
}

// rowsWord tells the words for one row or several, and whether they speak of rounds.
func rowsWord(word string) (round, ok bool) {
	switch word {
	case "row", "rows":
		return false, true
	case "rnd", "rnds", "round", "rounds", "rd", "rds":
		return true, true
	}
	return false, false
}

// plural tells whether a word speaks of several rows.
func plural(word string) bool { return word[len(word)-1] == 's' }

// isRows tells whether a token is a word for rows.
func isRows(t *token) bool {
	_, ok := rowsWord(t.word)
	return ok
}

// ordinals are the words that number rows, the first at 1.
var ordinals = [...]string{
	"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth",
	"thirteenth", "fourteenth", "fifteenth", "sixteenth", "seventeenth", "eighteenth", "nineteenth", "twentieth",
}

// ordinal reads "3rd" or "third".
func (c *cursor) ordinal() (n int, ok bool) {
	t := c.tok()
	if after := c.ahead(1); t.kind == tokNumber && after.start == t.end && oneOf(after.word, "st", "nd", "rd", "th") {
		c.next()
		c.next()
		return t.number, true
	}
	for n := 1; n < len(ordinals); n++ {
		if t.word == ordinals[n] {
			c.next()
			return n, true
		}
	}
	return 0, false
}

// mayWork tells the words that may belong to instructions. A line with one of them is never passed over as a
// remark, so the list is rather too long than too short.
func mayWork(word string) bool {
	if _, ok := stitchOf(word); ok {
		return true
	}
	switch word {
	case "k", "p", "kl", "pl", "knits", "purls", "knitted", "purled", "knitting", "purling", "s", "sts", "st", "stitch", "stitches", "peg", "pegs",
		"slipped", "skipped", "wrap", "wraps", "yo", "yf", "yfwd", "yrn", "yon", "over", "o", "n", "narrow", "m", "make", "inc", "dec",
		"tog", "together", "tbl", "wyif", "wyib", "psso", "turn", "pm", "sm", "work", "worked", "row", "rows", "rnd", "rnds", "round", "rounds",
		"to", "end", "ending", "last", "times", "time", "twice", "once", "more", "across", "around", "all", "every", "each", "until", "etc",
		"bo", "bind", "cast", "co", "move", "swap", "cross", "leave", "w", "wt":
		return true
	}
	return repWord(word) || oneOf(word, "reps", "repeats", "repeated", "repeating") || workPrefix(word)
}

// workPrefix tells words that begin as stitches do.
func workPrefix(word string) bool {
	for _, begin := range []string{"knit", "purl", "slip", "skip", "ewrap", "e-wrap", "uwrap", "u-wrap"} {
		if len(word) >= len(begin) && word[:len(begin)] == begin {
			return true
		}
	}
	return false
}

// instructs tells whether something in the tokens could be an instruction: a stitch, a
// repeat, a letter with a number.
func instructs(tokens []token) bool {
	for i := range tokens {
		t := &tokens[i]
		switch {
		case t.kind == tokStar, t.kind == tokTimes, t.word != "" && mayWork(t.word):
			return true
		case t.kind == tokWord && i+1 < len(tokens) && tokens[i+1].kind == tokNumber && tokens[i+1].start == t.end:
			return true
		}
	}
	return false
}
