package look

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"bypeg/chart"
)

// cloth is the colours of an overview: knit and purl of the field, the border, and the
// second, third and further yarns. A purl is further from the ground than a knit, as far
// at least as two neighbouring things must be to be told apart; a test computes it. Where
// a terminal has its own sixteen colours only, the chart's shapes tell all.
type cloth struct {
	knit, purl [5]string
	ground     string // what a row to come goes back to
	strength   float64
	of256      bool // of the 256 colours that many terminals have
}

var (
	onDark = cloth{
		knit:   [5]string{"#7e796f", "#4a84a5", "#8d68a8", "#96774a", "#5f8a65"},
		purl:   [5]string{"#eae4d6", "#c4e6f8", "#e6d3f6", "#f2dcae", "#cdebd0"},
		ground: "#202020", strength: 0.35,
	}
	onAny   = cloth{knit: onDark.knit, purl: onDark.purl, ground: "#787878", strength: 0.3}
	onLight = cloth{
		knit:   [5]string{"#928c84", "#6392ad", "#9f80b7", "#a9874d", "#6e9674"},
		purl:   [5]string{"#38342e", "#101f4a", "#452560", "#3f2a06", "#234428"},
		ground: "#f4f2ee", strength: 0.35,
	}
	strongOnDark = cloth{
		knit:   [5]string{"#6a6a6a", "#307095", "#8358a2", "#84642e", "#44754d"},
		purl:   [5]string{"#ffffff", "#d7f0ff", "#f9ecff", "#ffe9b8", "#d8f5dc"},
		ground: "#000000", strength: 0.45,
	}
	strongOnLight = cloth{
		knit:   [5]string{"#8c8c8c", "#5f93b3", "#a07fba", "#aa874a", "#6c9773"},
		purl:   [5]string{"#1a1a1a", "#00273d", "#2c0a42", "#331f00", "#0c2a12"},
		ground: "#ffffff", strength: 0.45,
	}
	cloths = map[Theme]*cloth{Auto: &onAny, Dark: &onDark, Light: &onLight, Contrast: &strongOnDark, ContrastLight: &strongOnLight}
)

// clothFor are the colours of a theme, or none where the terminal has too few. Among 256
// they are the nearest.
func clothFor(r *lipgloss.Renderer, theme Theme) *cloth {
	c := cloths[theme]
	switch profile := r.ColorProfile(); {
	case c == nil || profile != termenv.TrueColor && profile != termenv.ANSI256:
		return nil
	case profile == termenv.ANSI256:
		of256 := *c
		of256.of256 = true
		return &of256
	}
	return c
}

// colour is the colour of a dot that is something.
func (c *cloth) colour(d chart.Dot) lipgloss.Color {
	share := 0.5
	switch d.Relief {
	case chart.Flat:
		share = 0
	case chart.Raised:
		share = 1
	}
	colour := mix(c.knit[d.Ground], c.purl[d.Ground], share)
	if d.Coming {
		colour = mix(c.ground, colour, c.strength)
	}
	if c.of256 {
		colour = nearest(colour)
	}
	return lipgloss.Color(colour)
}

// mix is a colour on the way from a to b.
func mix(a, b string, share float64) string {
	x, y := rgb(a), rgb(b)
	for i := range x {
		x[i] += int(share * float64(y[i]-x[i]))
	}
	return fmt.Sprintf("#%02x%02x%02x", x[0], x[1], x[2])
}

func rgb(colour string) (parts [3]int) {
	for i := range parts {
		n, _ := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8) // the palettes are right: a test reads them
		parts[i] = int(n)
	}
	return parts
}

// nearest is the number of the colour among 256 that is nearest, those left out that every
// terminal has its own of. Greys stay greys, which a cloth needs more than hues.
func nearest(colour string) string {
	steps := []int{0, 95, 135, 175, 215, 255}
	want := rgb(colour)
	best, least := 0, math.MaxInt
	for n := 16; n < 256; n++ {
		has := [3]int{8 + 10*(n-232), 8 + 10*(n-232), 8 + 10*(n-232)}
		if n < 232 {
			has = [3]int{steps[(n-16)/36], steps[(n-16)/6%6], steps[(n-16)%6]}
		}
		far := 0
		for i := range has {
			far += (has[i] - want[i]) * (has[i] - want[i])
		}
		if far < least {
			best, least = n, far
		}
	}
	return strconv.Itoa(best)
}

// PaintDots draws n cells of an overview, or tells that there are no colours for it.
func (s *Style) PaintDots(top, bottom chart.Dot, n int) (string, bool) {
	if s.cloth == nil {
		return "", false
	}
	style, sign := s.plain, "▀"
	switch {
	case top.Relief == chart.Nothing && bottom.Relief == chart.Nothing:
		return strings.Repeat(" ", n), true
	case top.Relief == chart.Nothing:
		style, sign = style.Foreground(s.cloth.colour(bottom)), "▄"
	case top == bottom:
		style, sign = style.Foreground(s.cloth.colour(top)), "█"
	default:
		style = style.Foreground(s.cloth.colour(top))
		if bottom.Relief != chart.Nothing {
			style = style.Background(s.cloth.colour(bottom))
		}
	}
	return style.Render(strings.Repeat(sign, n)), true
}
