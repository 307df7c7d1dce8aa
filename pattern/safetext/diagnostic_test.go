package safetext

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestPositionsAreLinesAndCells(t *testing.T) {
	s := NewSource("mat.toml", "ab\n草x\r\n\n\ty\x1bz")
	for _, c := range []struct {
		name              string
		offset, line, col int
	}{
		{"the first byte", 0, 1, 1},
		{"the line feed belongs to its line", 2, 1, 3},
		{"the first byte of the second line", 3, 2, 1},
		{"inside a character is at that character", 4, 2, 1},
		{"a wide character takes two columns", 6, 2, 3},
		{"an empty line", 9, 3, 1},
		{"after a tab, one cell", 11, 4, 2},
		{"a control takes no column", 13, 4, 3},
		{"the end", 14, 4, 4},
		{"beyond the end is the end", 99, 4, 4},
		{"before the start is the start", -1, 1, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			line, col := s.Position(c.offset)
			assert.Equal(t, [2]int{c.line, c.col}, [2]int{line, col})
		})
	}
}

func TestPictures(t *testing.T) {
	for _, c := range []struct {
		name, text, mark, want string
	}{
		{
			"the caret stands under the word", "pegs = ten\n", "ten",
			"pegs = ten\n" +
				"       ^^^",
		},
		{
			"wide characters and tabs are measured", "\ttitle = \"草垫\" x", "x",
			" title = \"草垫\" x\n" +
				"                ^",
		},
		{
			"the end of a line can be meant", "pegs =\nform", "\n",
			"pegs =\n" +
				"      ^",
		},
		{
			"what goes on over the line is marked to its end", "a = [1,\n2]", "[1,\n2]",
			"a = [1,\n" +
				"    ^^^",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := NewSource("mat.toml", c.text)
			start := strings.Index(c.text, c.mark)
			d := s.At(start, start+len(c.mark), Error, "no", "")
			assert.Equal(t, c.want, d.Picture())
		})
	}
}

func TestPictureOfALongLineShowsThePartMeant(t *testing.T) {
	text := strings.Repeat("k2, p2, ", 40) + "q7, " + strings.Repeat("k2, p2, ", 40)
	start := strings.Index(text, "q7")
	d := NewSource("mat.toml", text).At(start, start+2, Error, "no", "")
	lines := strings.Split(d.Picture(), "\n")
	require.Len(t, lines, 2)
	assert.LessOrEqual(t, Width(lines[0]), pictureWidth)
	assert.Equal(t, strings.Index(lines[0], "q7"), strings.Index(lines[1], "^^"))
	assert.True(t, strings.HasPrefix(lines[0], "...") && strings.HasSuffix(lines[0], "..."))
}

func TestPictureLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		if rapid.Bool().Draw(t, "long") {
			text = strings.Repeat(text, 20)
		}
		start := rapid.IntRange(-1, len(text)+1).Draw(t, "start")
		end := rapid.IntRange(-1, len(text)+1).Draw(t, "end")
		d := NewSource("x", text).At(start, end, Error, "m", "h")
		lines := strings.Split(d.Picture(), "\n")
		require.Len(t, lines, 2)
		assert.LessOrEqual(t, Width(lines[0]), pictureWidth)
		assert.LessOrEqual(t, Width(lines[1]), Width(lines[0])+1)
		assert.Greater(t, d.EndCol, d.Col)
		assert.LessOrEqual(t, d.Col, Width(d.Text)+1)
	})
}

func TestDiagnosticsNameThePlace(t *testing.T) {
	s := NewSource("my\x1b mat.toml", "pegs = 0\n")
	d := s.At(7, 8, Error, "pegs must be \x1b[1m1 or more", "")
	assert.Equal(t, "my mat.toml:1:8: pegs must be [1m1 or more", d.Error())
	d.Severity = Warning
	assert.Equal(t, "my mat.toml:1:8: warning: pegs must be [1m1 or more", d.Error())
	d.Severity = Note
	assert.Equal(t, "my mat.toml:1:8: note: pegs must be [1m1 or more", d.Error())
}

func TestDiagnosticsAreSortedAndCounted(t *testing.T) {
	at := func(line, col int, s Severity) Diagnostic {
		return Diagnostic{File: "f", Line: line, Col: col, Severity: s, Message: s.String()}
	}
	ds := Diagnostics{at(3, 1, Error), at(1, 9, Error), at(1, 2, Warning), at(1, 2, Error)}
	ds.Sort()
	assert.Equal(t, Diagnostics{at(1, 2, Error), at(1, 2, Warning), at(1, 9, Error), at(3, 1, Error)}, ds)
	assert.EqualError(t, ds.Err(), "f:1:2: error (and 2 more)")
	assert.NoError(t, Diagnostics{at(1, 2, Warning)}.Err(), "a warning is no error")
	assert.NoError(t, Diagnostics(nil).Err())
}
