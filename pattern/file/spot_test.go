package file

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// pieces are ways to write a character in TOML, and what each gives.
var pieces = []struct{ written, value string }{
	{"k", "k"}, {"草", "草"}, {`\t`, "\t"}, {`\"`, `"`}, {`\\`, `\`}, {`\e`, "\x1b"}, {`\x41`, "A"}, {`\u00e9`, "é"}, {`\U0001F9F6`, "🧶"},
}

// Wherever a string is pointed into, the place in the file is that of the piece that
// the decoder made the byte of.
func TestPlacesWithinStrings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		several := rapid.Bool().Draw(t, "several lines")
		open := `"`
		if several {
			open = rapid.SampledFrom([]string{`"""`, "\"\"\"\n", "\"\"\"\r\n"}).Draw(t, "open")
		}
		text := "pattern = 1\nx = [ " + open
		value := ""
		var starts, ends []int // where in the file the piece of each byte of the value is written
		for range rapid.IntRange(0, 8).Draw(t, "pieces") {
			if several && rapid.IntRange(0, 4).Draw(t, "line end") == 0 {
				text += rapid.SampledFrom([]string{"\\\n  ", "\\  \n\n\t"}).Draw(t, "fold")
			}
			p := rapid.SampledFrom(pieces).Draw(t, "piece")
			for i := range len(p.value) {
				at, end := len(text), len(text)+len(p.written)
				if p.written == p.value {
					at, end = at+i, at+i+1
				}
				starts, ends = append(starts, at), append(ends, end)
			}
			text += p.written
			value += p.value
		}
		text += strings.TrimSpace(open) + " ]"
		root, f := scan(text, patterns)
		require.Nil(t, f)
		values, f := decode(text)
		require.Nil(t, f)
		require.Equal(t, value, values["x"].([]any)[0])
		at := root.keys["x"].items[0]
		for i, want := range starts {
			got := at.within(text, i, i+1)
			if i == 0 || starts[i-1] != want { // the first byte of a piece
				assert.Equal(t, want, got.start, "byte %d of %q in %q", i, value, text)
			}
			if i == len(ends)-1 || ends[i+1] != ends[i] { // the last
				assert.Equal(t, ends[i], got.end, "byte %d of %q in %q", i, value, text)
			}
		}
	})
}

func TestPlacesOfKeysAndValues(t *testing.T) {
	const text = `a = 1
b.c = "x" # comment
[t]
list = [ 1, 'two', [3],
  {d = 4}, ]
[[z]]
e = true
[[z]]
f = 1979-05-27 07:32:00
[[z.sub]]
"g h" = '''
text'''
i = """a\"""b"""
`
	root, f := scan(text, patterns)
	require.Nil(t, f)
	at := func(s *spot) string {
		return fmt.Sprintf("%s|%s", text[s.name.start:s.name.end], text[s.value.start:s.value.end])
	}
	z := root.keys["z"].items
	require.Len(t, z, 2)
	for _, c := range []struct {
		spot *spot
		want string
	}{
		{root.keys["a"], "a|1"},
		{root.keys["b"], "b|b"},
		{root.keys["b"].keys["c"], `c|"x"`},
		{root.keys["t"], "t|t"},
		{root.keys["t"].keys["list"], "list|[ 1, 'two', [3],\n  {d = 4}, ]"},
		{root.keys["t"].keys["list"].items[1], "'two'|'two'"},
		{root.keys["t"].keys["list"].items[2].items[0], "3|3"},
		{root.keys["t"].keys["list"].items[3].keys["d"], "d|4"},
		{z[0].keys["e"], "e|true"},
		{z[1], "z|z"},
		{z[1].keys["f"], "f|1979-05-27 07:32:00"},
		{z[1].keys["sub"].items[0].keys["g h"], "\"g h\"|'''\ntext'''"},
		{z[1].keys["sub"].items[0].keys["i"], `i|"""a\"""b"""`},
	} {
		assert.Equal(t, c.want, at(c.spot))
	}
}
