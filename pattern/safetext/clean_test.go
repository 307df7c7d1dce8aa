package safetext

import (
	"fmt"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestClean(t *testing.T) {
	for _, c := range []struct{ name, have, want string }{
		{"plain text stays", "Mossgate Mat no. 3", "Mossgate Mat no. 3"},
		{"other scripts stay", "Żółta mata, 草垫 ñ é", "Żółta mata, 草垫 ñ é"},
		{"a single picture character stays", "mat 🧶", "mat 🧶"},
		{"line feeds and tabs become blanks", "a\nb\tc", "a b c"},
		{"a carriage return and a line feed become one blank", "a\r\nb", "a b"},
		{"a colour sequence loses its escape", "\x1b[31mred", "[31mred"},
		{"a title sequence loses escape and bell", "\x1b]0;mine\a", "]0;mine"},
		{"a clipboard sequence loses both ends", "\x1b]52;c;aGk=\x1b\\", "]52;c;aGk=\\"},
		{"a link sequence loses both ends", "\x1b]8;;x:\x1b\\go\x1b]8;;\x1b\\", "]8;;x:\\go]8;;\\"},
		{"a device control string loses both ends", "\x1bPq#0\x1b\\", "Pq#0\\"},
		{"an application command loses both ends", "\x1b_Ga=T\x1b\\", "_Ga=T\\"},
		{"C1 controls written as UTF-8 go", "a\u009b31mb\u009d0;x\u009c", "a31mb0;x"},
		{"C1 controls as bare bytes are no UTF-8", "a\x9b31m", "a\uFFFD31m"},
		{"backspaces and deletes go", "ok\b\b\x7fno", "okno"},
		{"shift out and shift in go", "\x0eaq\x0f", "aq"},
		{"NUL goes", "a\x00b", "ab"},
		{"bidirectional overrides go", "mat\u202e\u2066gnp\u2069", "matgnp"},
		{"zero widths go", "a\u200bb\u200cc\u200dd\ufeffe\u2060f", "abcdef"},
		{"the soft hyphen goes", "gar\u00adter", "garter"},
		{"tag characters go", "x\U000e0041\U000e007f", "x"},
		{"line and paragraph separators go", "a\u2028b\u2029c", "abc"},
		{"four marks stay and the fifth goes", "e\u0301\u0302\u0303\u0304\u0305!", "e\u0301\u0302\u0303\u0304!"},
		{"a dropped character gives no room for more marks", "e\u0301\u0302\u0303\u0304\u200b\u0305", "e\u0301\u0302\u0303\u0304"},
		{"a leading mark would join what stands before it and goes", "\u0301a", "a"},
		{"a mark after a line feed stands on nothing and goes", "a\n\u20e0b", "a b"},
		{"a mark after a tab stands on its blank", "a\t\u20e0b", "a \u20e0b"},
		{"a truncated character becomes U+FFFD", "a\xe2\x94", "a\uFFFD\uFFFD"},
		{"an encoded surrogate becomes U+FFFD", "\xed\xa0\x80", "\uFFFD\uFFFD\uFFFD"},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, Clean(c.have))
		})
	}
}

func TestCleanLinesKeepsLineFeedsAndNothingElse(t *testing.T) {
	assert.Equal(t, "a\nb c\n", CleanLines("a\r\nb\tc\n\u0301\x1b"))
}

// Every character there is, and every byte, alone and between letters: nothing that a
// terminal obeys comes through, and all that is visible does.
func TestCleanOverAllCharacters(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		got := Clean("a" + string(r) + "b")
		switch {
		case r == '\n' || r == '\t':
			require.Equal(t, "a b", got)
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp):
			require.Equal(t, "ab", got, "%U", r)
		default:
			require.Equal(t, "a"+string(r)+"b", got, "%U", r)
		}
	}
	for i := range 256 {
		got := Clean("a" + string([]byte{byte(i)}) + "b")
		require.True(t, utf8.ValidString(got), "byte %#x", i)
		require.NotContains(t, got, "\x1b")
	}
}

func TestCleanLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"))
		if rapid.Bool().Draw(t, "text") {
			s = rapid.String().Draw(t, "string")
		}
		once := Clean(s)
		assert.Equal(t, once, Clean(once), "cleaning twice is cleaning once")
		assert.Equal(t, once, Clean(CleanLines(s)), "lines first, then one line")
		assert.True(t, utf8.ValidString(once))
		for _, r := range once {
			assert.False(t, isUnsafe(r), "%U", r)
		}
	})
}

func TestTooLong(t *testing.T) {
	assert.False(t, TooLong("", 0))
	assert.False(t, TooLong(strings.Repeat("草", 5), 5))
	assert.True(t, TooLong(strings.Repeat("草", 6), 5))
	assert.True(t, TooLong(strings.Repeat("x", 6), 5))
	assert.True(t, TooLong(strings.Repeat("\xff", 60), 5))
}

func TestNearest(t *testing.T) {
	keys := []string{"title", "about", "form", "pegs", "peg_1", "row_1", "cast_on", "cast_on_passes", "knit_as", "sides", "side_rows"}
	for _, c := range []struct{ word, want string }{
		{"titel", "title"},
		{"Pegs", "pegs"},
		{"peg", "pegs"},
		{"side_row", "side_rows"},
		{"caston", "cast_on"},
		{"stitches", ""},
		{"", ""},
		{"x", ""},
		{strings.Repeat("pegs", 1<<16), ""},
	} {
		name := fmt.Sprintf("%.10q", c.word)
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, c.want, Nearest(c.word, keys))
		})
	}
}
