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

func TestAGaugeOfTheTextureGoesFirst(t *testing.T) {
	const seed = "[gauges.seed]\nstitches = 8\nrows = 25\nover = \"10 cm\"\n"
	s := fit.SizeOf(made(t, head(32)+seed+zone("border", `"k", "p"`, 2, "border = true")+
		zone("field", `"*k1, p1; rep from * to end"`, 50, `gauge = "seed"`)))
	assert.InDelta(t, 40, cm(s.Width.Likely), 1e-9, "the field's own stitches")
	assert.InDelta(t, 32, cm(s.Zones[0].Width.Likely), 1e-9)
	assert.InDelta(t, 20, cm(s.Zones[1].Height.Likely), 1e-9, "its own rows, whatever its texture")
	assert.True(t, s.ByOwn)
	// A band of garter that was measured as a texture: its height counts those rows, and is met.
	p := made(t, head(32)+"[gauges.band]\nstitches = 10\nrows = 25\nover = \"10 cm\"\n[[zone]]\nname = \"band\"\nrows = [\"k\", \"p\"]\nheight = \"8 cm\"\ngauge = \"band\"\n")
	assert.Equal(t, 20, p.Grid.Rows())
	s = fit.SizeOf(p)
	assert.InDelta(t, 8, cm(s.Height.Likely), 1e-9)
	assert.False(t, s.GarterDerived())
}

func TestStripsSideBySide(t *testing.T) {
	p := made(t, head(30)+`[gauges.cable]
stitches = 20
rows = 20
over = "10 cm"
[[zone]]
name = "field"
times = 40
[[zone.strip]]
pegs = 10
rows = ["k"]
[[zone.strip]]
pegs = 20
gauge = "cable"
rows = ["k"]
`)
	s := fit.SizeOf(p)
	assert.InDelta(t, 10+10, cm(s.Width.Likely), 1e-9, "each strip by its own stitches")
	assert.InDelta(t, (25*10+20*20)/30.0, cm(s.Height.Likely), 1e-9, "between the strips, by their pegs")
}

func TestWithoutAGauge(t *testing.T) {
	for _, c := range []struct {
		name, text    string
		from          fit.Origin
		low, high     float64 // cm wide
		tall, tallest float64
	}{
		// A stitch is 0.67 to 0.80 of the spacing wide: our estimate from published gauges.
		{"by the spacing", "[loom]\nspacing = \"10 mm\"\n[yarn]\nweight = 1\n", fit.FromSpacing, 30 * 0.67, 30 * 0.80, 20.1 * 48 / 30 / 2, 24.0 * 48 / 30 / 1.2},
		// Class 4 has 16 to 20 stitches in 4 in: Standard Yarn Weight System.
		{"by the class", "[yarn]\nweight = 4\n", fit.FromClass, 30 * 10.16 / 20, 30 * 10.16 / 16, 15.24 * 48 / 30 / 2, 19.05 * 48 / 30 / 1.2},
		{"by nothing", "", fit.Missing, 0, 0, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := fit.SizeOf(made(t, "pattern = 1\npegs = 30\n"+c.text+zone("field", `"k"`, 48)))
			assert.Equal(t, c.from, s.Gauge.Stitches.From)
			assert.Equal(t, c.from != fit.Missing, s.WidthEstimated)
			assert.Equal(t, c.from != fit.Missing, s.HeightEstimated())
			assert.InDelta(t, c.low, cm(s.Width.Low), 0.05)
			assert.InDelta(t, c.high, cm(s.Width.High), 0.05)
			assert.InDelta(t, c.tall, cm(s.Height.Low), 0.05)
			assert.InDelta(t, c.tallest, cm(s.Height.High), 0.05)
		})
	}
	half := fit.SizeOf(made(t, "pattern = 1\npegs = 30\n[gauge]\nstitches = 10\nover = \"10 cm\"\n"+zone("field", `"k"`, 48)))
	assert.False(t, half.WidthEstimated)
	assert.True(t, half.HeightEstimated(), "the rows were not counted")
}

func TestHeightsThatWholeRepeatsDoNotMeet(t *testing.T) {
	text := head(32) + "[[zone]]\nname = \"field\"\nsides = 3\nheight = \"1 cm\"\nrows = [\"k\", \"k\", \"k\", \"k\", \"k\", \"k\", \"k\", \"k\"]\n" +
		"[[zone]]\nname = \"sky\"\nrows = [\"k\"]\nheight = \"10 cm\"\n"
	p := made(t, text)
	s := fit.SizeOf(p)
	assert.Equal(t, []string{`"field" was to be 1 cm high: 8 rows, whole repeats, come to 5 cm`}, fit.HeightsOf(file.LayoutOf([]byte(text)), p, &s))
}

func TestHours(t *testing.T) {
	p := made(t, head(30)+zone("field", `"k"`, 38))
	stitches, loops := fit.StitchesOf(p)
	assert.Equal(t, []int{1140, 60}, []int{stitches, loops})
	assert.InDelta(t, 1, fit.Hours(p, 20), 1e-9, "1200 at 20 a minute")
	assert.Zero(t, fit.Hours(p, 0))
}
