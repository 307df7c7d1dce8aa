package look

import (
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/chart"
)

// Two things side by side that a picture is understood by differ by 3 to 1 at least: WCAG
// 2.1, success criterion 1.4.11, "non-text contrast"; 4.5 in the strong themes.
func TestTheClothIsSeenOnEveryGroundAndItsPurlsOnItsKnits(t *testing.T) {
	for theme, tt := range map[Theme]struct {
		grounds []string
		purls   float64
	}{
		Auto:          {[]string{"#000000", "#ffffff"}, 3},
		Dark:          {[]string{"#000000", "#1e1e1e", "#282c34"}, 3},
		Light:         {[]string{"#ffffff", "#f5f5f5"}, 3},
		Contrast:      {[]string{"#000000", "#1e1e1e"}, 4.5},
		ContrastLight: {[]string{"#ffffff", "#f5f5f5"}, 4.5},
	} {
		c := cloths[theme]
		require.NotNil(t, c, theme)
		for i := range c.knit {
			for _, ground := range tt.grounds {
				assert.GreaterOrEqual(t, contrast(t, c.knit[i], ground), 3.0, "%s: knit %d on %s", theme, i, ground)
			}
			assert.GreaterOrEqual(t, contrast(t, c.knit[i], c.purl[i]), tt.purls, "%s: purl on knit %d", theme, i)
			for _, relief := range []chart.Relief{chart.Flat, chart.Raised} {
				d := chart.Dot{Relief: relief, Ground: chart.Ground(i)}
				worked := string(c.colour(d))
				d.Coming = true
				assert.Less(t, contrast(t, string(c.colour(d)), c.ground), contrast(t, worked, c.ground), "%s: what is to come is fainter", theme)
			}
		}
	}
}

// The 256 colours are coarse: what is knit and what is purl must stay two things there,
// worked and to come.
func TestAmong256ColoursKnitAndPurlStayTwoThings(t *testing.T) {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.ANSI256)
	for theme := range cloths {
		c := clothFor(r, theme)
		for g := range chart.Ground(len(c.knit)) {
			seen := func(relief chart.Relief, coming bool) string {
				return xterm(t, string(c.colour(chart.Dot{Relief: relief, Ground: g, Coming: coming})))
			}
			assert.GreaterOrEqual(t, contrast(t, seen(chart.Flat, false), seen(chart.Raised, false)), 2.5, "%s: ground %d", theme, g)
			assert.GreaterOrEqual(t, contrast(t, seen(chart.Flat, true), seen(chart.Raised, true)), 1.2, "%s: ground %d to come", theme, g)
		}
	}
}

func TestTheNearestOf256(t *testing.T) {
	for n := 16; n < 256; n++ {
		colour := xterm(t, strconv.Itoa(n))
		assert.Equal(t, colour, xterm(t, nearest(colour)))
	}
}

func TestDotsHaveColoursWhereATerminalHasEnough(t *testing.T) {
	dot := chart.Dot{Relief: chart.Raised}
	for _, tt := range []struct {
		profile termenv.Profile
		theme   Theme
		ascii   bool
		want    bool
	}{
		{termenv.TrueColor, Dark, false, true},
		{termenv.ANSI256, Light, false, true},
		{termenv.ANSI, Dark, false, false},
		{termenv.Ascii, Dark, false, false},
		{termenv.TrueColor, NoColour, false, false},
		{termenv.TrueColor, Dark, true, false},
	} {
		r := lipgloss.NewRenderer(io.Discard)
		r.SetColorProfile(tt.profile)
		_, ok := NewStyle(r, tt.theme, chart.Bars, tt.ascii).PaintDots(dot, dot, 1)
		assert.Equal(t, tt.want, ok, "%v", tt)
	}
}

func TestEveryPairOfDotsHasItsCells(t *testing.T) {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.TrueColor)
	s := NewStyle(r, Dark, chart.Bars, false)
	dots := []chart.Dot{{}, {Relief: chart.Flat}, {Relief: chart.Raised}, {Relief: chart.Mixed, Ground: chart.InBorder}, {Relief: chart.Raised, Coming: true}}
	seen := map[string]bool{}
	for _, top := range dots {
		for _, bottom := range dots {
			text, ok := s.PaintDots(top, bottom, 3)
			require.True(t, ok)
			assert.Equal(t, 3, ansi.StringWidth(text))
			assert.False(t, seen[text], "%v over %v looks like another pair", top, bottom)
			seen[text] = true
		}
	}
	assert.True(t, seen[strings.Repeat(" ", 3)])
}
