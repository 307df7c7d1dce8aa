package safetext

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxMarks is how many combining marks one character may carry. Written languages
// need up to three or four; text made to climb over the lines above carries dozens.
const maxMarks = 4

// Clean is s as one line that may be shown on a terminal. Line feeds and tabs become
// blanks; all other controls, all invisible format characters (bidirectional marks,
// zero widths, tags) and the line and paragraph separators are dropped; a character
// keeps at most four combining marks, and a mark with nothing to stand on is dropped;
// bytes that are not UTF-8 become U+FFFD.
func Clean(s string) string { return clean(s, ' ') }

// CleanLines is Clean for text of several lines: line feeds stay.
func CleanLines(s string) string { return clean(s, '\n') }

func clean(s string, lineEnd byte) string {
	if isPlain(s) {
		return s
	}
	var b strings.Builder
	b.Grow(len(s))
	marks := maxMarks // a leading mark has no base and would join what stands before s
	for _, r := range s {
		switch {
		case r == '\n':
			b.WriteByte(lineEnd)
			marks = maxMarks // a mark on a new line stands on nothing, also where the line end is drawn as a blank
		case r == '\t':
			b.WriteByte(' ')
			marks = 0
		case isUnsafe(r):
		case unicode.Is(unicode.M, r):
			if marks < maxMarks {
				b.WriteRune(r)
				marks++
			}
		default:
			b.WriteRune(r) // an invalid byte arrives here as utf8.RuneError
			marks = 0
		}
	}
	return b.String()
}

// isUnsafe tells whether a terminal might obey r, or hide it, instead of showing it.
func isUnsafe(r rune) bool {
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
}

// isPlain tells whether s is printable ASCII throughout, as most text is.
func isPlain(s string) bool {
	for i := range len(s) {
		if s[i] < 0x20 || s[i] >= 0x7f {
			return false
		}
	}
	return true
}

// TooLong tells whether s has more than limit characters, without reading on from
// there.
func TooLong(s string, limit int) bool {
	return len(s) > limit && utf8.RuneCountInString(s[:min(len(s), (limit+1)*utf8.UTFMax)]) > limit
}
