package look

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// luminance is the relative luminance of a colour like "#ff8a80". Formula: WCAG 2.1,
// "relative luminance", https://www.w3.org/TR/WCAG21/#dfn-relative-luminance
func luminance(t testing.TB, colour string) float64 {
	require.Regexp(t, `^#[0-9a-f]{6}$`, colour)
	weights, sum := []float64{0.2126, 0.7152, 0.0722}, 0.0
	for i, w := range weights {
		n, err := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		require.NoError(t, err)
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += w * c
	}
	return sum
}

// contrast is the contrast ratio of two colours, 1 to 21. WCAG 2.1, "contrast ratio".
func contrast(t testing.TB, a, b string) float64 {
	l, m := luminance(t, a), luminance(t, b)
	return (max(l, m) + 0.05) / (min(l, m) + 0.05)
}

// xterm is the colour of a number of xterm's default palette: its sixteen as XTerm-col.ad
// has them, the cube and the greys of 256colres.h. From memory.
func xterm(t testing.TB, number string) string {
	n, err := strconv.Atoi(number)
	require.NoError(t, err)
	sixteen := []string{
		"#000000", "#cd0000", "#00cd00", "#cdcd00", "#0000ee", "#cd00cd", "#00cdcd", "#e5e5e5",
		"#7f7f7f", "#ff0000", "#00ff00", "#ffff00", "#5c5cff", "#ff00ff", "#00ffff", "#ffffff",
	}
	steps := []int{0, 95, 135, 175, 215, 255}
	switch {
	case n < 16:
		return sixteen[n]
	case n < 232:
		n -= 16
		return fmt.Sprintf("#%02x%02x%02x", steps[n/36], steps[n/6%6], steps[n%6])
	}
	grey := 8 + 10*(n-232)
	return fmt.Sprintf("#%02x%02x%02x", grey, grey, grey)
}

func TestTheContrastFormulaIsThePublishedOne(t *testing.T) {
	assert.InDelta(t, 21, contrast(t, "#000000", "#ffffff"), 1e-9)
	assert.InDelta(t, 4.54, contrast(t, "#767676", "#ffffff"), 0.005) // the lightest grey that passes on white: well known
	assert.InDelta(t, 1, contrast(t, "#123456", "#123456"), 1e-9)
}

func TestEveryInkReadsOnEveryGroundItIsFor(t *testing.T) {
	grounds := map[Theme]struct {
		of     []string
		of16   []string // sixteen colours are the terminal's own, on its own ground
		atMost float64
	}{
		Auto:          {[]string{"#000000", "#ffffff"}, []string{"#000000", "#ffffff"}, 4.5},
		Dark:          {[]string{"#000000", "#1e1e1e", "#282c34"}, []string{"#000000"}, 4.5},
		Light:         {[]string{"#ffffff", "#f5f5f5", "#fdf6e3"}, []string{"#ffffff"}, 4.5},
		Contrast:      {[]string{"#000000", "#1e1e1e"}, []string{"#000000"}, 7},
		ContrastLight: {[]string{"#ffffff", "#f5f5f5"}, []string{"#ffffff"}, 7},
	}
	pairs := 0
	for theme := range Theme(len(themeNames)) {
		p, ok := palettes[theme]
		require.True(t, ok, "%s has a palette", theme)
		inks := map[string]ink{"danger": p.danger}
		for tone, i := range p.inks() {
			inks[tone.String()] = i
		}
		ground, coloured := grounds[theme]
		for name, i := range inks {
			if !coloured {
				assert.Empty(t, i.full+i.of256+i.of16, "%s: %s", theme, name)
				continue
			}
			check := func(colour string, on []string) {
				for _, g := range on {
					assert.GreaterOrEqual(t, contrast(t, colour, g), ground.atMost, "%s: %s, %s on %s", theme, name, colour, g)
					pairs++
				}
			}
			check(i.full, ground.of)
			if i.of256 != "" {
				check(xterm(t, i.of256), ground.of)
			}
			if i.of16 != "" {
				check(xterm(t, i.of16), ground.of16)
			}
		}
	}
	assert.Greater(t, pairs, 250, "pairs of ink and ground")
}

func TestRedIsForDangerAlone(t *testing.T) {
	for theme, p := range palettes {
		for tone, i := range p.inks() {
			for _, colour := range fullColours(t, i) {
				assert.False(t, red(colour), "%s: %s is %s", theme, tone, colour)
			}
		}
		for _, colour := range fullColours(t, p.danger) {
			assert.True(t, red(colour), "%s: danger is %s", theme, colour)
		}
	}
}

func fullColours(t testing.TB, i ink) []string {
	var all []string
	if i.full != "" {
		all = append(all, i.full)
	}
	for _, number := range []string{i.of256, i.of16} {
		if number != "" {
			all = append(all, xterm(t, number))
		}
	}
	return all
}

// red tells whether a colour's hue is within 20 degrees of red, and it is no grey.
func red(colour string) bool {
	n, _ := strconv.ParseUint(colour[1:], 16, 32)
	r, g, b := float64(n>>16), float64(n>>8&255), float64(n&255)
	most, least := max(r, g, b), min(r, g, b)
	return most == r && most-least > 0.2*most && math.Abs(g-b)/(most-least)*60 < 20
}

func TestTheGroundIsWhatTheTerminalSaysOfItself(t *testing.T) {
	cases := []struct {
		name, term, colorfgbg string
		want                  Ground
	}{
		{"it says nothing", "xterm-256color", "", UnknownGround},
		{"white on black", "rxvt", "15;0", DarkGround},
		{"black on white", "rxvt", "0;15", LightGround},
		{"black on light grey", "rxvt", "0;7", LightGround},
		{"three fields", "rxvt", "15;default;0", DarkGround},
		{"no number", "rxvt", "default;default", UnknownGround},
		{"the console is black", "linux", "", DarkGround},
		{"nonsense", "xterm", "1;-7", UnknownGround},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, GroundOf(c.term, c.colorfgbg)) })
	}
	assert.Equal(t, Dark, Auto.On(DarkGround))
	assert.Equal(t, Light, Auto.On(LightGround))
	assert.Equal(t, Auto, Auto.On(UnknownGround))
	assert.Equal(t, Dark, Dark.On(LightGround), "who chose a theme has it")
	assert.Equal(t, ContrastLight, Contrast.On(LightGround))
}

func TestThemesHaveNames(t *testing.T) {
	assert.Equal(t, []string{"auto", "dark", "light", "contrast", "none"}, ThemeNames())
	for _, name := range ThemeNames() {
		theme, ok := ParseTheme(name)
		require.True(t, ok)
		assert.Equal(t, name, theme.String())
	}
	_, ok := ParseTheme("contrast on light")
	assert.False(t, ok, "the ground decides that")
}
