package file

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const smallPattern = "pattern = 1\npegs = 5\n[[zone]]\nname = 'a'\nrows = ['k']\n"

// atOnce is how long refusing a text may take: a person does not notice.
const atOnce = time.Second * raceFactor

// Texts that brought the decoder down or to a crawl, measured with v1.6.0: gigabytes
// and minutes for kilobytes, and a stack overflow that no program survives. Each has
// to be refused at once, on the line where it goes too far.
func TestBombsAreRefusedAtOnce(t *testing.T) {
	const kib = 1 << 10
	for _, c := range []struct {
		name, text string
		line       int
		want       string
	}{
		{"a dotted key of 16 KiB", smallPattern + strings.Repeat("a.", 8*kib) + "a = 1", 6, "a name has at most 2 dots"},
		{"a dotted key of 1 MiB", strings.Repeat("a.", 512*kib) + "a = 1", 1, "a name has at most 2 dots"},
		{"a dotted key with blanks and quotes", strings.Repeat(`"a" . `, 10*kib) + "a = 1", 1, "a name has at most 2 dots"},
		{"a dotted key in braces", "yarn = {" + strings.Repeat("a.", 64*kib) + "a = 1}", 1, "a name has at most 2 dots"},
		{"a header of 256 KiB", "\n[" + strings.Repeat("a.", 128*kib) + "a]", 2, "a name has at most 2 dots"},
		{"a double header of 64 KiB", "\n[[" + strings.Repeat("a.", 32*kib) + "a]]", 2, "a name has at most 2 dots"},
		{"4 MiB of brackets", "a = " + strings.Repeat("[", MaxBytes-4), 1, "brackets stand more than 4 deep"},
		{"4 MiB of header brackets", strings.Repeat("[", MaxBytes), 1, "there should be a name here"},
		{"tables within tables", "a = " + strings.Repeat("{a = ", 64*kib), 1, "brackets stand more than 4 deep"},
		{"lists and tables in turn", "a = " + strings.Repeat("[{a = ", 64*kib), 1, "brackets stand more than 4 deep"},
		{"brackets on lines of their own", "a = " + strings.Repeat("[\n", 64*kib), 5, "brackets stand more than 4 deep"},
		{"1 MiB of flat keys", numbered("k%d=1\n", 100_000), 4097, "the file has more than 4096 keys and headers"},
		{"1 MiB of headers", numbered("[k%d]\n", 100_000), 4097, "the file has more than 4096 keys and headers"},
		{"1 MiB of double headers", strings.Repeat("[[zone]]\n", 100_000), 4097, "the file has more than 4096 keys and headers"},
		{"keys in braces count too", "a = {" + numbered("k%d=1,", 100_000) + "}", 1, "the file has more than 4096 keys and headers"},
		{"a million elements", "a = [\n" + strings.Repeat("1,\n", 1_000_000) + "]", 120_002, "the lists of the file have more than 120000 elements"},
		{"a million empty lists", "a = [" + strings.Repeat("[],", 1_000_000) + "]", 1, "the lists of the file have more than 120000 elements"},
		{"a name of 1 MiB", strings.Repeat("a", 1<<20) + " = 1", 1, "a name has at most 500 characters"},
		{"a quoted name of 1 MiB", `"` + strings.Repeat("é", 1<<19) + `" = 1`, 1, "a name has at most 500 characters"},
		{"more than 4 MiB", smallPattern + strings.Repeat("#", MaxBytes), 1, "the file is larger than the 4 MiB a pattern may have"},
	} {
		t.Run(c.name, func(t *testing.T) {
			start := time.Now()
			p, found := Load("f.toml", []byte(c.text))
			assert.Less(t, time.Since(start), atOnce)
			assert.Nil(t, p)
			require.Len(t, found, 1)
			assert.Equal(t, c.line, found[0].Line)
			assert.Contains(t, found[0].Message, c.want)
			assert.Less(t, len(found[0].Picture()), 2000, "a picture of a monster is small")
		})
	}
}

func numbered(format string, n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}

// The worst that passes the guard still loads, or is refused, in a time a person
// waits. These fill the limits without going beyond them.
func TestWhatPassesTheGuardEndsSoon(t *testing.T) {
	long := strings.Repeat("a", 480)
	for _, c := range []struct{ name, text, want string }{
		{"120,000 elements", smallPattern + "[swatch]\nrows = [" + strings.Repeat("1,", 119_000) + "]", "rows takes a whole number; this is a list"},
		{"120,000 lists", smallPattern + "[swatch]\nrows = [" + strings.Repeat("[],", 119_000) + "]", "rows takes a whole number; this is a list"},
		{"4,000 keys under a long header", smallPattern + "[" + long + "." + long + "]\n" + numbered("k%d.a.b=1\n", 4000), "there is no key"},
		{"4,000 long unknown keys", smallPattern + "[yarn]\n" + numbered(long+"%d=1\n", 4000), "there is no key"},
		{"zones that copy each other", smallPattern + numbered("[[zone]]\nname='z%d'\nlike='a'\n", 1300), ""},
		{"long rows copied for other widths", manyWidths(), "does not fit here: the zones copy more text than a pattern may have"},
		{"side rows without end, copied", "pattern=1\npegs=4000\n[[zone]]\nname='a'\nrows=['k']\nsides=1900\nside_rows=[" +
			strings.Repeat("'k',", 100_000) + "]\n" + numbered("[[zone]]\nname='z%d'\nlike='a'\n", 1300), tooMuch},
		{"4 MiB of comment", smallPattern + "#" + strings.Repeat("x", MaxBytes-1000), ""},
		{"4 MiB of unclosed text", smallPattern + "about = '''" + strings.Repeat("x", MaxBytes-1000), "the three quotes are not closed"},
		{"4 MiB of text", smallPattern + "[yarn]\nfibre = '''" + strings.Repeat("x", MaxBytes-1000) + "'''", "fibre has more than 500 characters"},
		{"a chart of 2 million lines", drawnAs("'''", strings.Repeat("|\n", 2_000_000)), tooMuch},
		{"a big chart in double quotes", strings.ReplaceAll(bigChart(), "'''", `"""`), ""},
		{"a chart of folded lines", drawnAs(`"""`, strings.Repeat("|\\\n", 1_000_000)), "this line of the chart has 1000000 stitches for 5 pegs"},
		{"backslashes without end", drawnAs(`"""`, strings.Repeat(`\\`, 2_000_000)), `the sign "\" is not in the legend`},
		{"quotes without end", drawnAs(`"""`, strings.Repeat(`""k`, 1_000_000)), `the sign """ is not in the legend`},
		{"a chart that is all wrong", drawnAs("'''", strings.Repeat("x\n", 90_000)), `the sign "x" is not in the legend`},
		{"one line of 3 MiB that is all wrong", "pattern=1\npegs=5\n[[zone]]\nname='a'\nrows=[" + strings.Repeat("'q12 of something, and more',", 100_000) + "]", "q12"},
		{"a motif on more ground than can be", "pattern=1\npegs=4000\n[gauge]\nrows=400\nover='10 cm'\n[motif.m]\nchart='|'\n" +
			numbered("[[zone]]\nname='z%d'\nmotif='m'\nheight='1000 m'\n", 900), tooMuch},
	} {
		t.Run(c.name, func(t *testing.T) {
			start := time.Now()
			_, found := Load("f.toml", []byte(c.text))
			took := time.Since(start)
			assert.Less(t, took, 3*time.Second*raceFactor)
			assert.LessOrEqual(t, len(found), 2*maxFindings)
			if c.want == "" {
				assert.NoError(t, found.Err())
			} else {
				assert.ErrorContains(t, found.Err(), "f.toml:")
				assert.Contains(t, found[len(found)-1].Message+found[0].Message, c.want)
			}
		})
	}
}

// drawnAs is a pattern with a chart between the given quotes.
func drawnAs(quotes, picture string) string {
	return "pattern=1\npegs=5\n[[zone]]\nname='a'\nchart=" + quotes + "\n" + picture + quotes
}

// manyWidths has one zone of rows as long as they may be, copied for 600 widths.
func manyWidths() string {
	rows := strings.Repeat("'"+strings.Repeat(" ", maxRow-20)+"k to end',", 40)
	return "pattern=1\npegs=4000\n[[zone]]\nname='a'\nrows=[" + rows + "]\n" +
		numbered("[[zone]]\nname='z%d'\nlike='a'\nsides=%[1]d\n", 600)
}

func TestControlsAreFoundWhereverTheyStand(t *testing.T) {
	for c := range 256 {
		plain := c >= 0x20 && c < 0x7f
		for at := range 8 {
			eight := []byte("12345678")
			eight[at] = byte(c)
			require.Equal(t, plain, isPlain(string(eight)), "byte %#x at %d", c, at)
		}
	}
	for at := range 40 {
		text := strings.Repeat("#", at) + "\x01" + strings.Repeat("#", 20)
		f := checkText(text, patterns)
		require.NotNil(t, f)
		require.Equal(t, span{at, at + 1}, f.at)
	}
}
