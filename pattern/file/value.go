package file

import (
	"fmt"
	"strings"
)

// value reads one value into a spot.
func (s *scanner) value(at *spot) {
	start := s.pos
	switch c := s.peek(); c {
	case '[', '{':
		if s.depth++; s.depth > maxDepth {
			s.fail(s.here(), s.kind.check(), "brackets stand more than %d deep in each other", maxDepth)
			return
		}
		s.pos++
		if c == '[' {
			s.list(at)
		} else {
			s.inline(at)
		}
		s.depth--
	case '"', '\'':
		if strings.HasPrefix(s.text[s.pos:], strings.Repeat(string(c), 3)) {
			s.multiLine(at, c)
		} else {
			s.oneLine(at, c)
		}
	default:
		s.plain()
	}
	at.value = span{start, s.pos}
}

// list reads the elements of a list; its bracket has been read.
func (s *scanner) list(at *spot) {
	open := bracket{span{s.pos - 1, s.pos}, ']', "list"}
	for {
		from := s.pos
		s.skipLines()
		if s.take(']') {
			return
		}
		if s.pos == len(s.text) || s.statement(from) {
			s.unclosed(open, from)
			return
		}
		if s.elements++; s.elements > maxElements {
			s.fail(s.here(), s.kind.check(), "the lists of the file have more than %d elements", maxElements)
			return
		}
		item := &spot{}
		start := s.pos
		s.value(item)
		item.name = span{start, s.pos}
		at.items = append(at.items, item)
		from = s.pos
		s.skipLines()
		if !s.take(',') && s.peek() != ']' {
			s.unclosed(open, from)
			return
		}
	}
}

// inline reads the pairs of a table in braces; its brace has been read.
func (s *scanner) inline(at *spot) {
	open := bracket{span{s.pos - 1, s.pos}, '}', "table in braces"}
	for {
		from := s.pos
		s.skipLines()
		if s.take('}') {
			return
		}
		if s.pos == len(s.text) || s.peek() == '[' {
			s.unclosed(open, from)
			return
		}
		s.pair(at)
		from = s.pos
		s.skipLines()
		if !s.take(',') && s.peek() != '}' {
			s.unclosed(open, from)
			return
		}
	}
}

// bracket is one that is open.
type bracket struct {
	at      span
	closing byte
	what    string
}

// unclosed tells what is missing: the bracket, where the file ends or goes on with
// its next key or header, or else a comma.
func (s *scanner) unclosed(open bracket, from int) {
	end, advice := s.pos >= len(s.text), fmt.Sprintf("put a %c behind what belongs to it", open.closing)
	if !end && s.statement(from) && (open.closing == ']' || s.peek() == '[') {
		end, advice = true, fmt.Sprintf("%s, before line %d", advice, s.line(s.pos))
	}
	switch {
	case end:
		s.fail(open.at, advice, "this %s is not closed: there is no %c", open.what, open.closing)
		return
	case s.line(open.at.start) < s.line(s.pos):
		advice = fmt.Sprintf("the %s was opened in line %d", open.what, s.line(open.at.start))
	default:
		advice = "if this belongs to a text, one of its quotes is missing"
	}
	s.fail(s.here(), advice, "there should be a comma or %c here", open.closing)
}

// statement tells whether what has been skipped ended a line, and the next line looks
// like a header or a key: "[[zone]]", "times = 3".
func (s *scanner) statement(from int) bool {
	if strings.IndexByte(s.text[from:s.pos], '\n') < 0 {
		return false
	}
	line, _, _ := strings.Cut(s.rest(maxLook), "\n")
	return isStatement(line)
}

// maxLook is how much of a line is looked at to see what it is.
const maxLook = 64

// isStatement tells whether a line looks like a header or a key with its value.
func isStatement(line string) bool {
	line = strings.TrimLeft(line[:min(len(line), maxLook)], " \t")
	name := strings.TrimLeft(line, "[")
	end := strings.IndexFunc(name, func(r rune) bool { return r > 127 || !isBare(byte(r)) && r != '.' })
	if end < 1 || isDigit(name[0]) {
		return false
	}
	rest := strings.TrimLeft(name[end:], " \t")
	if name != line {
		return strings.HasPrefix(rest, "]")
	}
	return strings.HasPrefix(rest, "=")
}

// line is the line of the file that a byte stands in.
func (s *scanner) line(pos int) int { return 1 + strings.Count(s.text[:pos], "\n") }

func (s *scanner) oneLine(at *spot, quote byte) {
	at.quoted = raw
	if quote == '"' {
		at.quoted = basic
	}
	for i := s.pos + 1; i < len(s.text) && s.text[i] != '\n'; i++ {
		switch s.text[i] {
		case quote:
			s.pos = i + 1
			return
		case '\\':
			if quote == '"' {
				i++
			}
		}
	}
	if !s.curlyIn(quote) {
		s.fail(span{s.pos, s.pos + 1}, "close it with the same quote; for several lines use three quotes",
			"the quotes are not closed on this line")
	}
}

func (s *scanner) multiLine(at *spot, quote byte) {
	at.quoted = rawText
	if quote == '"' {
		at.quoted = basicText
	}
	for i := s.pos + 3; i < len(s.text); i++ {
		i = s.nextMark(i, quote)
		if i == len(s.text) {
			break
		}
		switch s.text[i] {
		case quote:
			n := 1
			for i+n < len(s.text) && s.text[i+n] == quote {
				n++
			}
			switch {
			case n > 5:
				s.fail(span{i, i + n}, "", "more than five quotes stand in a row")
				return
			case n >= 3: // up to two quotes may end the text itself
				s.suspect(span{s.pos, i})
				s.pos = i + n
				return
			}
			i += n - 1
		case '\\':
			if quote == '"' {
				i++
			}
		}
	}
	s.fail(span{s.pos, s.pos + 3}, "put three quotes on a line of their own below the last line", "the three quotes are not closed")
}

// nextMark is where the next quote stands, or in double quotes the next backslash.
func (s *scanner) nextMark(from int, quote byte) int {
	if quote == '\'' { // nothing but the quote ends it
		if n := strings.IndexByte(s.text[from:], quote); n >= 0 {
			return from + n
		}
		return len(s.text)
	}
	for from < len(s.text) && s.text[from] != quote && s.text[from] != '\\' {
		from++
	}
	return from
}

// plain reads a number, a date, true or false. What it is worth is the decoder's
// business; here it only has to look like one.
func (s *scanner) plain() {
	if s.curly(s.pos) {
		return
	}
	start := s.pos
	s.word()
	word := s.text[start:s.pos]
	if len(word) == 10 && word[4] == '-' && s.peek() == ' ' && isDigit(s.text[min(s.pos+1, len(s.text)-1)]) {
		s.pos++ // a date and a time may stand apart
		s.word()
		word = s.text[start:s.pos]
	}
	switch {
	case word == "" && (s.pos == len(s.text) || s.peek() == '\r' || s.peek() == '\n' || s.peek() == '#'):
		s.fail(s.here(), "write a number, or words in quotes", "there is no value here")
	case word == "":
		s.fail(s.here(), "write a number, or words in quotes", "there should be a value here")
	case word == "true" || word == "false" || word == "nan" || word == "inf":
	case !isDigit(word[0]) && word[0] != '-' && word[0] != '+' || strings.ContainsFunc(word, isNoDigitNorMark):
		hint := "put words in quotes"
		if c := s.peek(); c == '"' || c == '\'' {
			hint = "put a quote before it too"
		}
		s.fail(span{start, s.pos}, hint, "%s is neither a number nor in quotes", shown(word))
	}
}

// word reads as far as a value without quotes can go.
func (s *scanner) word() {
	for s.pos < len(s.text) && !strings.ContainsRune(" \t\r\n,]}#=\"'[{", rune(s.text[s.pos])) {
		s.pos++
	}
}

// isNoDigitNorMark tells whether no number and no date can hold r.
func isNoDigitNorMark(r rune) bool {
	return r > 127 || !isBare(byte(r)) && !strings.ContainsRune("+.: ", r)
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
