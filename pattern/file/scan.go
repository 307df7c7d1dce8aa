package file

import (
	"fmt"
	"strings"

	"bypeg/pattern/safetext"
)

// scanner walks a file once. At the first fault it moves to the end of the text, so
// that every loop ends.
type scanner struct {
	text     string
	kind     Kind
	pos      int
	depth    int
	keys     int
	elements int
	fault    *fault

	// A text just read, between three quotes, that holds what looks like a key or a
	// header: the line that opens it and that line, or 0.
	opened, swallowed int
}

// scan refuses what the guard refuses and returns where everything stands.
func scan(text string, kind Kind) (*spot, *fault) {
	if f := checkText(text, kind); f != nil {
		return nil, f
	}
	s := &scanner{text: text, kind: kind}
	root := &spot{}
	at := root
	for s.skipLines(); s.pos < len(text); s.skipLines() {
		swallowed := s.swallowed
		if s.peek() == '[' {
			at = s.header(root)
		} else {
			s.pair(at)
		}
		s.endOfLine()
		if s.swallowed == swallowed { // all went well behind the text
			s.swallowed = 0
		}
	}
	if s.fault != nil {
		return nil, s.fault
	}
	return root, nil
}

func (s *scanner) fail(at span, hint, format string, args ...any) {
	if s.fault == nil {
		at.end = max(at.start, min(at.end, len(s.text)))
		if s.swallowed > 0 {
			hint = fmt.Sprintf("the three quotes opened in line %d may not be closed where they should: line %d stands between them",
				s.opened, s.swallowed)
		}
		s.fault = &fault{at, fmt.Sprintf(format, args...), hint}
	}
	s.pos = len(s.text)
}

// here is the character at the scanner.
func (s *scanner) here() span { return span{s.pos, s.pos + len(safetext.First(s.rest(16)))} }

func (s *scanner) rest(n int) string { return s.text[s.pos:min(len(s.text), s.pos+n)] }

// peek is the byte at the scanner, or 0 at the end.
func (s *scanner) peek() byte {
	if s.pos < len(s.text) {
		return s.text[s.pos]
	}
	return 0
}

// take steps over b where it stands here.
func (s *scanner) take(b byte) bool {
	if s.peek() != b || s.pos == len(s.text) {
		return false
	}
	s.pos++
	return true
}

func (s *scanner) skipBlanks() {
	for s.peek() == ' ' || s.peek() == '\t' {
		s.pos++
	}
}

// skipLines steps over blanks, line ends and comments.
func (s *scanner) skipLines() {
	for s.pos < len(s.text) {
		switch s.text[s.pos] {
		case ' ', '\t', '\r', '\n':
			s.pos++
		case '#':
			s.skipComment()
		default:
			return
		}
	}
}

func (s *scanner) skipComment() {
	if i := strings.IndexByte(s.text[s.pos:], '\n'); i >= 0 {
		s.pos += i
	} else {
		s.pos = len(s.text)
	}
}

func (s *scanner) endOfLine() {
	s.skipBlanks()
	switch s.peek() {
	case '#':
		s.skipComment()
	case '\r', '\n':
	default:
		if s.pos < len(s.text) {
			s.fail(s.here(), "put one key on a line, and words in quotes", "the line should end here")
		}
	}
}

// header reads "[name]" or "[[name]]" and returns the table it opens.
func (s *scanner) header(root *spot) *spot {
	s.pos++
	closing := "]"
	if s.take('[') {
		closing = "]]"
	}
	names, spans := s.names()
	if s.fault != nil {
		return root
	}
	if !s.endsWith(closing, names) {
		return root
	}
	s.pos += len(closing)
	at := root
	for i, name := range names {
		at = at.key(name).named(spans[i])
		if i == len(names)-1 && !s.opens(at, names, spans[i], closing) {
			return root
		}
		if n := len(at.items); n > 0 { // of several tables the latest is meant
			at = at.items[n-1]
		}
	}
	last := spans[len(spans)-1]
	at.name, at.value, at.defined = last, last, true
	return at
}

// endsWith tells whether a header ends with the brackets that belong to its first.
func (s *scanner) endsWith(closing string, names []string) bool {
	hint := ""
	if header, several := listHeader(names); several {
		hint = "write " + header
	}
	switch rest := s.rest(2); {
	case !strings.HasPrefix(rest, closing):
		s.fail(s.here(), hint, "the header should end with %s here", closing)
	case closing == "]" && rest == "]]":
		s.fail(span{s.pos, s.pos + 2}, hint, "the header ends with two brackets and begins with one")
	}
	return s.fault == nil
}

// opens tells whether a header can open the table at a spot, and makes room for it
// in double brackets.
func (s *scanner) opens(at *spot, names []string, name span, closing string) bool {
	header, several := listHeader(names)
	plain := at.defined && at.name == at.value // it has a header of its own
	switch {
	case several && (plain || closing == "]" && len(at.items) > 0):
		if plain {
			name = at.name
		}
		s.fail(name, bracketsHint(header), singleBrackets, names[len(names)-1])
	case closing == "]]" && len(at.items) == 0 && len(at.keys) > 0 && several:
		s.fail(at.name, "write "+header+" and its name above the strip", "this strip stands in no zone")
	case plain, closing == "]" && (at.defined || len(at.items) > 0):
		s.fail(name, "put all its keys under one header", "there is a second header %s", shown(strings.Join(names, ".")))
	case closing == "]]":
		at.items = append(at.items, &spot{})
	}
	return s.fault == nil
}

// pair reads "key = value" into a table.
func (s *scanner) pair(at *spot) {
	names, spans := s.names()
	if s.fault != nil {
		return
	}
	for i, name := range names {
		at = at.key(name).named(spans[i])
	}
	last := spans[len(spans)-1]
	if at.defined {
		s.fail(last, "keep one of the two", "%s is written twice", shown(names[len(names)-1]))
		return
	}
	if !s.take('=') {
		s.fail(s.here(), "write a key, an equals sign and a value, such as "+s.kind.Example, "there should be an equals sign here")
		return
	}
	at.name, at.defined = last, true
	s.skipBlanks()
	s.value(at)
}

// names reads a name or names with dots between, and the blanks after it.
func (s *scanner) names() (names []string, spans []span) {
	if s.keys++; s.keys > maxKeys {
		s.fail(s.here(), s.kind.check(), "the file has more than %d keys and headers", maxKeys)
	}
	for s.fault == nil {
		s.skipBlanks()
		start := s.pos
		name := s.name()
		if s.fault != nil {
			break
		}
		names, spans = append(names, name), append(spans, span{start, s.pos})
		s.skipBlanks()
		if !s.take('.') {
			break
		}
		if len(names) > maxDots {
			s.fail(span{start, s.pos}, "", "a name has at most %d dots", maxDots)
		}
	}
	return names, spans
}

func (s *scanner) name() string {
	start := s.pos
	var name string
	if c := s.peek(); c == '"' || c == '\'' {
		name = s.quotedName(c)
	} else {
		for isBare(s.peek()) {
			s.pos++
		}
		if name = s.text[start:s.pos]; name == "" && !s.curly(start) {
			s.fail(s.here(), "put names with other signs in quotes", "there should be a name here")
		}
	}
	if safetext.TooLong(name, maxName) {
		s.fail(span{start, s.pos}, "", "a name has at most %d characters", maxName)
	}
	return name
}

func (s *scanner) quotedName(quote byte) string {
	start := s.pos
	s.pos++
	n := strings.IndexAny(s.text[s.pos:], string(quote)+"\n")
	if n < 0 || s.text[s.pos+n] == '\n' {
		s.fail(span{start, start + 1}, "close it with the same quote", "the quotes of this name are not closed")
		return ""
	}
	name := s.text[s.pos : s.pos+n]
	if i := strings.IndexByte(name, '\\'); i >= 0 && quote == '"' {
		s.pos += i
		s.fail(s.here(), "put the name in single quotes", "a name in double quotes cannot have a backslash")
		return ""
	}
	s.pos += n + 1
	return name
}

func isBare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-'
}
