package file

import "strings"

// value reads one value into a spot.
func (s *scanner) value(at *spot) {
	start := s.pos
	switch c := s.peek(); c {
	case '[', '{':
		if s.depth++; s.depth > maxDepth {
			s.fail(s.here(), "check that this is a pattern file", "brackets stand more than %d deep in each other", maxDepth)
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
	open := span{s.pos - 1, s.pos}
	for {
		s.skipLines()
		if s.take(']') {
			return
		}
		if s.pos == len(s.text) {
			s.unclosed(open, ']', "list")
			return
		}
		if s.elements++; s.elements > maxElements {
			s.fail(s.here(), "check that this is a pattern file", "the lists of the file have more than %d elements", maxElements)
			return
		}
		item := &spot{}
		start := s.pos
		s.value(item)
		item.name = span{start, s.pos}
		at.items = append(at.items, item)
		s.skipLines()
		if !s.take(',') && s.peek() != ']' {
			s.unclosed(open, ']', "list")
			return
		}
	}
}

// inline reads the pairs of a table in braces; its brace has been read.
func (s *scanner) inline(at *spot) {
	open := span{s.pos - 1, s.pos}
	for {
		s.skipLines()
		if s.take('}') {
			return
		}
		if s.pos == len(s.text) {
			s.unclosed(open, '}', "table in braces")
			return
		}
		s.pair(at)
		s.skipLines()
		if !s.take(',') && s.peek() != '}' {
			s.unclosed(open, '}', "table in braces")
			return
		}
	}
}

// unclosed tells what is missing: the bracket, at the end of the file, or else a
// comma.
func (s *scanner) unclosed(open span, closing byte, what string) {
	if s.pos >= len(s.text) {
		s.fail(open, "", "this %s is not closed: there is no %c", what, closing)
		return
	}
	s.fail(s.here(), "", "there should be a comma or %c here", closing)
}

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
	s.fail(span{s.pos, s.pos + 1}, "close it with the same quote; for several lines use three quotes",
		"the quotes are not closed on this line")
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
	s.fail(span{s.pos, s.pos + 3}, "close it with three quotes", "the three quotes are not closed")
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
		s.fail(span{start, s.pos}, "put words in quotes", "%s is neither a number nor in quotes", shown(word))
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
