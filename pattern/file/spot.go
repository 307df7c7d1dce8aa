package file

import (
	"strconv"
	"unicode/utf8"
)

// span is bytes of the file, from start up to but not including end.
type span struct{ start, end int }

// quoting is how a value is written.
type quoting uint8

const (
	unquoted  quoting = iota
	basic             // "..."
	raw               // '...'
	basicText         // """..."""
	rawText           // '''...'''
)

// spot is where a key or a list element and its value stand in the file. The decoder
// tells no more than the order of keys, so the walk before it notes this.
type spot struct {
	name    span // the last part of the key or header; the value, for an element
	value   span // with its quotes; the name again, for a header
	quoted  quoting
	defined bool // it has a value of its own, or a header of its own
	keys    map[string]*spot
	items   []*spot // of a list, or of a header in double brackets
}

// key finds or makes the spot of a key in a table.
func (s *spot) key(name string) *spot {
	if s.keys == nil {
		s.keys = map[string]*spot{}
	}
	if s.keys[name] == nil {
		s.keys[name] = &spot{}
	}
	return s.keys[name]
}

// named notes the first place where a table's name stands.
func (s *spot) named(at span) *spot {
	if s.name == (span{}) {
		s.name, s.value = at, at
	}
	return s
}

// content is what stands between the quotes of a string.
func (s *spot) content(text string) span {
	n := 0
	switch s.quoted {
	case basic, raw:
		n = 1
	case basicText, rawText:
		n = 3
	}
	c := span{s.value.start + n, s.value.end - n}
	if n == 3 { // a line feed right after the quotes is not part of the string
		if c.start < c.end && text[c.start] == '\r' {
			c.start++
		}
		if c.start < c.end && text[c.start] == '\n' {
			c.start++
		}
	}
	return c
}

// within is where the bytes [from, to) of a string's value stand in the file.
func (s *spot) within(text string, from, to int) span {
	at := span{s.offset(text, from, true), s.offset(text, to, false)}
	at.end = max(at.start, at.end)
	return at
}

// offset walks the string as the decoder does, over escapes and over line ends
// that a backslash takes away. The start of a piece lies behind such a line end, the
// end of one before it.
func (s *spot) offset(text string, want int, start bool) int {
	c := s.content(text)
	if s.quoted != basic && s.quoted != basicText {
		return min(c.start+max(0, want), c.end)
	}
	i, n := c.start, 0
	for i < c.end && n <= want {
		in, out := 1, 1
		if text[i] == '\\' {
			in, out = escape(text[i:c.end])
		}
		if n == want && (out > 0 || !start) {
			break
		}
		i += in
		n += out
	}
	return min(i, c.end)
}

// escape is how many bytes an escape takes in the file and how many it gives.
func escape(s string) (in, out int) {
	if len(s) < 2 {
		return len(s), 0
	}
	digits := 0
	switch s[1] {
	case 'x':
		digits = 2
	case 'u':
		digits = 4
	case 'U':
		digits = 8
	case ' ', '\t', '\r', '\n':
		in = 1
		for in < len(s) && (s[in] == ' ' || s[in] == '\t' || s[in] == '\r' || s[in] == '\n') {
			in++
		}
		return in, 0
	default:
		return 2, 1
	}
	in = min(2+digits, len(s))
	code, _ := strconv.ParseUint(s[2:in], 16, 32)
	return in, max(1, utf8.RuneLen(rune(code)))
}
