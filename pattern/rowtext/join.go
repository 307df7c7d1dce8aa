package rowtext

// join settles what the lines without a header are: where rows have headers they go on with the row above, else each
// is a row. What is certainly a remark is passed over with a warning.
func (r *reader) join() {
	kept := r.statements[:0]
	seen := false // a row has been seen
	open := false // the statement above can go on
	for i, s := range r.statements {
		r.work++
		var above *statement
		if open && len(kept) > 0 {
			above = &kept[len(kept)-1]
		}
		alone := above != nil && above.kind == stmtRow && above.body.start == above.body.end
		switch {
		case alone && s.first && (s.kind == stmtRepeat || s.kind == stmtNamed || s.kind == stmtRows):
			above.body, above.end = s.span, s.end
			continue
		case s.kind != stmtBare:
		case s.remark(r.headed && !seen):
			if i > 0 || s.looks >= looksHeading || s.end-s.start > maxTitle {
				r.unread(s.span)
			} else {
				r.title = r.text[s.start:s.end]
			}
			open = false
			continue
		case !r.headed:
		case above != nil && above.goesOn(&s):
			if alone {
				above.body.start = s.start
			}
			above.body.end, above.end, above.ended = s.end, s.end, s.ended
			continue
		default:
			r.add(s.span, "begin it with its number, as in Row 3:", "this line belongs to no row: other rows have numbers")
			open = false
			continue
		}
		kept, open = append(kept, s), true
		seen = seen || s.kind == stmtRow || s.kind == stmtRows
	}
	r.statements = kept
}

// maxTitle is how many bytes the first line of a text may have to be its title.
const maxTitle = 100

// goesOn tells whether a line without a header goes on with the statement above it: with a row always, with other
// statements where nothing in it could be worked.
func (above *statement) goesOn(s *statement) bool {
	return above.kind == stmtRow || s.first && !above.ended && s.looks > looksPhrase
}

// unread warns that a piece of the text was passed over.
func (r *reader) unread(at span) {
	r.warn(at, "not read: %s", quote(r.text[at.start:at.end]))
}

// labels begin lines that are about the piece and never a row.
var labels = []string{
	"gauge", "tension", "materials", "material", "yarn", "yarns", "needles", "needle", "loom", "size", "sizes", "finished", "abbreviations", "difficulty",
	"level", "skill", "dimensions", "measurements", "hook", "designer", "title", "copyright",
}

// headings are words that a line of their own can have.
var headings = []string{
	"instructions", "directions", "pattern", "method", "note", "notes", "border", "body", "finishing", "edging", "stitches", "special", "field", "top", "bottom", "chart",
}

// looks is what a line without a header can be.
type looks uint8

const (
	looksWorked  looks = iota // something in it can be worked
	looksPhrase               // stitches are spoken of, but no row reads so
	looksWords                // nothing in it can be worked
	looksHeading              // and it heads what follows
	looksRemark               // it is certainly no row
)

// looks judges the tokens from the one at hand up to another.
func (c *cursor) looks(to int) looks {
	from, last := c.i, c.tokens[to-1].kind
	worked := instructs(c.tokens[from:to])
	word := c.tok().word
	if c.abbreviation(to) {
		return looksRemark
	}
	if oneOf(word, labels...) {
		for c.tok().kind == tokWord && c.i < to {
			c.next()
		}
		if c.tok().kind == tokColon || c.i == to && !worked {
			return looksRemark
		}
	}
	switch {
	case worked && rowLike(c.tokens[from:to]):
		return looksWorked
	case worked:
		return looksPhrase
	case last == tokColon, oneOf(word, headings...) && to == from+1:
		return looksHeading
	}
	return looksWords
}

// remark tells a statement that is certainly no row. Titles are passed over only before the first of the rows that
// have headers.
func (s *statement) remark(title bool) bool {
	return s.first && (s.looks >= looksHeading || s.looks >= looksPhrase && title)
}

// rowLike tells whether tokens could be a row, well written or not: a stitch has a number, a star stands there, or a
// stitch comes first.
func rowLike(tokens []token) bool {
	for i, t := range tokens {
		_, stitch := stitchOf(t.word)
		switch {
		case t.kind == tokStar, i == 0 && stitch && t.word != "e-wrap" && t.word != "slip", repWord(t.word):
			return true
		case stitch && t.word != "s" && i+1 < len(tokens) && countAhead(&tokens[i+1]), stitch && i > 0 && tokens[i-1].kind == tokNumber:
			return true
		}
	}
	return false
}

// abbreviation tells a line that says what a known word means, and the same as here: "k = knit".
func (c *cursor) abbreviation(to int) bool {
	left, sign := c.tok(), c.ahead(1).kind
	if left.kind != tokWord || sign != tokEquals && sign != tokColon {
		return false
	}
	for i := c.i + 3; i < to; i++ {
		if k := c.tokens[i].kind; k != tokWord && k != tokStop && k != tokBreak {
			return false
		}
	}
	right := c.ahead(2).word
	a, stitch := stitchOf(left.word)
	b, same := stitchOf(right)
	switch {
	case stitch && same && a == b && left.word != right:
		return c.ahead(3).word == "" || loopWord(c.ahead(3).word)
	case loopWord(left.word) && loopWord(right), isRows(left) && isRows(c.ahead(2)), repWord(left.word) && repWord(right):
		return c.ahead(3).word == ""
	}
	return false
}
