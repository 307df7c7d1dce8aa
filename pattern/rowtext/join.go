package rowtext

// join settles what the lines without a header are: where rows have headers they go on with the row above, else each
// is a row. What is certainly a remark is passed over with a warning.
func (r *reader) join() {
	kept := r.statements[:0]
	seen := false // a row has been seen
	open := false // the statement above can go on
	for _, s := range r.statements {
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
		case r.remark(&s, r.headed && !seen):
			r.unread(s.span)
			open = false
			continue
		case !r.headed:
		case above != nil && r.goesOn(above, &s):
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

// goesOn tells whether a line without a header goes on with the statement above it: with a row always, with other
// statements where nothing in it could be worked.
func (r *reader) goesOn(above, s *statement) bool {
	return above.kind == stmtRow || s.first && !above.ended && !instructs(lex(r.text, s.span))
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

// remark tells a statement that is certainly no row. Titles are passed over only before the first of the rows that
// have headers.
func (r *reader) remark(s *statement, title bool) bool {
	if !s.first || s.end-s.start > maxText {
		return false
	}
	tokens := lex(r.text, s.span)
	c := &cursor{text: r.text, tokens: tokens}
	worked := instructs(tokens[:len(tokens)-1])
	switch {
	case c.abbreviation():
		return true
	case oneOf(c.tok().word, labels...):
		for c.tok().kind == tokWord {
			c.next()
		}
		return c.tok().kind == tokColon || c.done() && !worked
	case worked:
		return false
	}
	return title || s.heading || oneOf(c.tok().word, headings...) && c.ahead(1).kind == tokEnd
}

// abbreviation tells a line that says what a known word means, and the same as here: "k = knit".
func (c *cursor) abbreviation() bool {
	left, sign := c.tok(), c.ahead(1).kind
	if left.kind != tokWord || sign != tokEquals && sign != tokColon {
		return false
	}
	for i := 3; ; i++ {
		if k := c.ahead(i).kind; k == tokEnd {
			break
		} else if k != tokWord && k != tokStop && k != tokBreak {
			return false
		}
	}
	right := c.ahead(2).word
	a, stitch := stitchOf(left.word)
	b, same := stitchOf(right)
	switch {
	case stitch && same && a == b && left.word != right:
		return oneOf(c.ahead(3).word, "", "stitch", "st", "stitches", "sts")
	case loopWord(left.word) && loopWord(right), isRows(left) && isRows(c.ahead(2)), repWord(left.word) && repWord(right):
		return c.ahead(3).word == ""
	}
	return false
}
