package fit_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// made is a pattern of the text of a file that has nothing wrong in it.
func made(t testing.TB, text string) *pattern.Pattern {
	t.Helper()
	p, found := loadText(text)
	require.NotNil(t, p, "%v", found)
	return p
}

func loadText(text string) (*pattern.Pattern, safetext.Diagnostics) {
	return file.Load("made.toml", []byte(text))
}

// head is the top of a file in a gauge of 10 stitches and 16 rows in 10 cm.
func head(pegs int, more ...string) string {
	return fmt.Sprintf("pattern = 1\npegs = %d\n%s\n[gauge]\nstitches = 10\nrows = 16\nover = \"10 cm\"\n", pegs, strings.Join(more, "\n"))
}

// zone is a zone of these rows, so many times.
func zone(name string, rows string, times int, more ...string) string {
	return fmt.Sprintf("[[zone]]\nname = %q\nrows = [%s]\ntimes = %d\n%s\n", name, rows, times, strings.Join(more, "\n"))
}

func cm(l measure.Length) float64 { return l.In(measure.Centimetre) }

func TestSizeRowByRow(t *testing.T) {
	plain := head(30)
	for _, c := range []struct {
		name          string
		text          string
		width, height float64
		garter        bool // some of it goes by garter rows that were derived
	}{
		{"plain rows go by the row gauge", plain + zone("field", `"k"`, 32), 30, 20, false},
		{"garter goes by its own: a ridge is as tall as a stitch is wide", plain + zone("field", `"k", "p"`, 20), 30, 20, true},
		{
			"garter rows that were measured go before that",
			strings.Replace(plain, "over", "garter_rows = 25\nover", 1) + zone("field", `"k", "p"`, 20), 30, 16, false,
		},
		{"a texture lies between: half its columns change, row by row", plain + zone("field", `"k", "*k1, p1; rep from * to end"`, 20), 30, 22.5, true},
		{"an odd number of garter rows is garter", plain + zone("field", `"k"`, 32) + zone("top", `"k", "p", "k"`, 1), 30, 21.5, true},
		{"a set-up row after a purl row is garter", plain + zone("top", `"k", "p"`, 2) + zone("set-up", `"k"`, 1), 30, 2.5, true},
		{"rib changes in no column", plain + zone("rib", `"*k1, p1; rep from * to end", "*p1, k1; rep from * to end"`, 16), 30, 20, false},
		{"sides are not asked: the field decides", plain + zone("field", `"k"`, 32, "sides = 3"), 30, 20, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := fit.SizeOf(made(t, c.text))
			assert.InDelta(t, c.width, cm(s.Width.Likely), 1e-9)
			assert.InDelta(t, c.height, cm(s.Height.Likely), 0.05)
			assert.True(t, s.Width.Exact() && s.Height.Exact())
			assert.Equal(t, c.garter, s.GarterDerived())
		})
	}
}
