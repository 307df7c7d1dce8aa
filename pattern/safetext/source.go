package safetext

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// Source is a foreign text with a name, in which places can be pointed at. Places are
// byte offsets; people are told lines and columns, both from 1, columns in cells of
// the cleaned line.
type Source struct {
	name   string
	text   string
	starts []int // the offset of each line
}

// NewSource holds a text under a name that is cleaned.
func NewSource(name, text string) *Source {
	starts := make([]int, 1, strings.Count(text, "\n")+1)
	for i := 0; ; {
		next := strings.IndexByte(text[i:], '\n')
		if next < 0 {
			break
		}
		i += next + 1
		starts = append(starts, i)
	}
	return &Source{name: Clean(name), text: text, starts: starts}
}

// Position is the line and the column of a byte offset. An offset outside the text
// counts as its nearest end, one inside a character as that character's.
func (s *Source) Position(offset int) (line, col int) {
	offset = min(max(offset, 0), len(s.text))
	line = sort.SearchInts(s.starts, offset+1)
	start := s.starts[line-1]
	for offset > start && offset < len(s.text) && !utf8.RuneStart(s.text[offset]) {
		offset--
	}
	return line, 1 + Width(Clean(s.text[start:offset]))
}

// Line is the cleaned text of a line, counted from 1.
func (s *Source) Line(line int) string {
	if line < 1 || line > len(s.starts) {
		return ""
	}
	end := len(s.text)
	if line < len(s.starts) {
		end = s.starts[line] - 1
	}
	return Clean(s.text[s.starts[line-1]:end])
}

// At is a diagnostic that points at the bytes from start up to end. It points within
// one line: where end lies further on, to the end of the first line. The message and
// the hint are cleaned.
func (s *Source) At(start, end int, severity Severity, message, hint string) Diagnostic {
	line, col := s.Position(start)
	text := s.Line(line)
	endLine, endCol := s.Position(end)
	if endLine != line {
		endCol = 1 + Width(text)
	}
	return Diagnostic{
		File:     s.name,
		Line:     line,
		Col:      col,
		EndCol:   max(endCol, col+1),
		Severity: severity,
		Message:  Clean(message),
		Hint:     Clean(hint),
		Text:     text,
	}
}
