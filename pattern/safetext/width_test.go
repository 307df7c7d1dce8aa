package safetext

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestWidth(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       int
	}{
		{"letters take one cell", "peg", 3},
		{"an accent takes none", "e\u0301", 1},
		{"Chinese takes two", "草垫", 4},
		{"box drawing takes one in every locale", "─│▸", 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, Width(c.text))
		})
	}
}

func TestCutAndPad(t *testing.T) {
	for _, c := range []struct {
		name, text string
		width      int
		cut, pad   string
	}{
		{"a text that fits stays", "row 12", 6, "row 12", "row 12"},
		{"a long text is cut", "row 12", 4, "row ", "row "},
		{"a short text is padded", "row", 5, "row", "row  "},
		{"a wide character is never halved", "a草b", 2, "a", "a "},
		{"an accent stays with its letter", "cafe\u0301s", 4, "cafe\u0301", "cafe\u0301"},
		{"no room is no text", "row", 0, "", ""},
		{"less than no room is no text", "row", -3, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.cut, Cut(c.text, c.width))
			assert.Equal(t, c.pad, Pad(c.text, c.width))
		})
	}
}

func TestPadIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Clean(rapid.String().Draw(t, "text"))
		width := rapid.IntRange(0, 40).Draw(t, "width")
		assert.Equal(t, width, Width(Pad(s, width)))
		assert.LessOrEqual(t, Width(Cut(s, width)), width)
	})
}

func TestIsSymbol(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       bool
	}{
		{"a letter", "o", true},
		{"a letter with an accent", "e\u0301", true},
		{"a narrow sign", "◊", true},
		{"nothing", "", false},
		{"a blank", " ", false},
		{"two letters", "ab", false},
		{"a wide character", "草", false},
		{"a picture character", "🧶", false},
		{"a mark alone", "\u0301", false},
		{"a control", "\x1b", false},
		{"a zero width", "\u200b", false},
		{"a letter with a hidden character", "o\u200d", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, IsSymbol(c.text))
		})
	}
}

func TestFirst(t *testing.T) {
	assert.Equal(t, "e\u0301", First("e\u0301x"))
	assert.Equal(t, "草", First("草垫"))
	assert.Equal(t, "", First(""))
}
