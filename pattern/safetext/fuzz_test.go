package safetext

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// FuzzClean holds the laws of Clean and CleanLines for whatever bytes there are. The
// property test draws its strings from a description; this one may find others.
func FuzzClean(f *testing.F) {
	for _, seed := range []string{
		"Żółta mata, 草垫 🧶", "\x1b]52;c;aGk=\x1b\\", "a\r\nb\tc\u0301", "\n\u20e0\u093ex", "a\u009b31m\x9b\xe2\x94",
		"e\u0301\u0302\u0303\u0304\u0305\u200b\u0306", "x\u202ey\u2028z\U000e0041", "\xed\xa0\x80\xff\x00\x7f",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, s string) {
		one, lines := Clean(s), CleanLines(s)
		require.NotContains(t, one, "\n")
		isSafe(t, s, one)
		isSafe(t, s, lines)
		require.Equal(t, one, Clean(one), "cleaning twice is cleaning once")
		require.Equal(t, lines, CleanLines(lines), "cleaning lines twice is cleaning them once")
		require.Equal(t, one, Clean(lines), "lines first, then one line")
		require.Equal(t, lines, CleanLines(lines + one)[:len(lines)], "what follows changes nothing before it")
		require.Equal(t, strings.Count(s, "\n"), strings.Count(lines, "\n"))
		require.Equal(t, visible(s), visible(one), "nothing that can be seen is lost")
		require.Equal(t, visible(s), visible(lines), "nothing that can be seen is lost")
	})
}

// isSafe asserts what holds for any cleaned text.
func isSafe(t *testing.T, s, cleaned string) {
	t.Helper()
	require.True(t, utf8.ValidString(cleaned))
	require.LessOrEqual(t, len(cleaned), 3*len(s), "a byte that is no UTF-8 takes three at most")
	require.LessOrEqual(t, utf8.RuneCountInString(cleaned), utf8.RuneCountInString(s))
	marks := 4 // at the beginning of a line a mark has nothing to stand on
	for _, r := range cleaned {
		switch {
		case r == '\n':
			marks = 4
		case unicode.Is(unicode.M, r):
			marks++
			require.LessOrEqual(t, marks, 4, "marks on one character of %q", cleaned)
		default:
			require.False(t, unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp), "%U in %q", r, cleaned)
			marks = 0
		}
	}
}

// visible is what of a text takes room on a screen, without its blanks.
func visible(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || unicode.In(r, unicode.M, unicode.Cc, unicode.Cf) {
			return -1
		}
		return r
	}, s)
}
