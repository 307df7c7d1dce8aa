package file

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// curlyQuotes are what word processors make of quotes, and what is taken for them.
const curlyQuotes = "“”„‟‘’‚‛«»‹›″′"

// curly refuses a curly quote at a place where a straight one should stand, and
// tells whether there is one.
func (s *scanner) curly(pos int) bool {
	r, size := utf8.DecodeRuneInString(s.text[pos:])
	if size == 0 || !strings.ContainsRune(curlyQuotes, r) {
		return false
	}
	line, _, _ := strings.Cut(s.text[pos+size:], "\n")
	hint := "type straight quotes"
	if end := strings.IndexAny(line, curlyQuotes+`"'`); end > 0 {
		hint += `: "` + strings.Trim(shown(line[:end]), `"`) + `"`
	}
	s.fail(span{pos, pos + size}, hint, "this quote is curly: only straight ones hold a text")
	return true
}

// curlyIn refuses a text that is opened with a straight quote and perhaps closed
// with a curly one on the same line, and tells whether there is one.
func (s *scanner) curlyIn(quote byte) bool {
	line, _, _ := strings.Cut(s.text[s.pos:], "\n")
	at := strings.LastIndexAny(line, curlyQuotes)
	if at < 0 {
		return false
	}
	_, size := utf8.DecodeRuneInString(line[at:])
	s.fail(span{s.pos + at, s.pos + at + size}, fmt.Sprintf("close the text with a straight quote: %c", quote),
		"this quote is curly and closes nothing")
	return true
}

// suspect looks into a text between three quotes for a line that looks like a key or
// a header: then the quotes that close it were perhaps meant to open another.
func (s *scanner) suspect(text span) {
	n := 0
	for line := range strings.Lines(s.text[text.start:text.end]) {
		if n > 0 && isStatement(line) {
			s.opened, s.swallowed = s.line(text.start), s.line(text.start)+n
			return
		}
		n++
	}
}
