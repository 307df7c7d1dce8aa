package term

import (
	"fmt"
	"html"
	"image/color"
	"strings"
)

// The measures of a picture: a cell, and the margin around the screen.
const (
	cellWide, cellTall = 9, 20
	margin             = 14
)

// Picture is the screen as an SVG drawing, on a ground of a colour like "#18181b", with
// text in another where the program gave it none. Blocks are drawn as boxes, so that they
// meet whatever the font is.
func (s *Screen) Picture(ground, text string) string {
	w, h := s.Size()
	var b strings.Builder
	wide, tall := w*cellWide+2*margin, h*cellTall+2*margin
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" viewBox="0 0 %d %d">`+"\n", wide, tall, wide, tall)
	fmt.Fprintf(&b, `<rect width="%d" height="%d" rx="8" fill="%s"/>`+"\n", wide, tall, ground)
	fmt.Fprintf(&b, `<g font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="15">`+"\n")
	for y := range h {
		for x := 0; x < w; {
			x += s.draw(&b, x, y, text)
		}
	}
	b.WriteString("</g>\n</svg>\n")
	return b.String()
}

// draw draws the cells from one on that have one look, and returns how many they are. The
// tone is that of text without a colour of its own.
func (s *Screen) draw(b *strings.Builder, x, y int, tone string) int {
	w, _ := s.Size()
	first, style := s.cell(x, y)
	left, top := margin+x*cellWide, margin+y*cellTall
	if box, ok := boxes[first]; ok {
		s.fill(b, x, y)
		fmt.Fprintf(b, `<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f"%s%s/>`+"\n",
			float64(left)+box.x*cellWide, float64(top)+box.y*cellTall, box.w*cellWide+0.3, box.h*cellTall, fill(style, tone), opacity(box.dense))
		return 1
	}
	text, n := first, 1
	for ; x+n < w; n++ {
		next, other := s.cell(x+n, y)
		if _, ok := boxes[next]; ok || fill(other, tone) != fill(style, tone) || other.Bold != style.Bold || (first == " ") != (next == " ") {
			break
		}
		text += next
	}
	for i := range n {
		s.fill(b, x+i, y)
	}
	if strings.TrimSpace(text) == "" {
		return n
	}
	bold := ""
	if style.Bold {
		bold = ` font-weight="bold"`
	}
	fmt.Fprintf(b, `<text x="%d" y="%d" textLength="%d" xml:space="preserve"%s%s>%s</text>`+"\n",
		left, top+cellTall*3/4, n*cellWide, fill(style, tone), bold, html.EscapeString(text))
	return n
}

// fill draws the ground of a cell, where it has one of its own.
func (s *Screen) fill(b *strings.Builder, x, y int) {
	if _, style := s.cell(x, y); style.Bg != nil {
		fmt.Fprintf(b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`+"\n", margin+x*cellWide, margin+y*cellTall, cellWide, cellTall, hex(style.Bg))
	}
}

// cell is what a cell shows, and how.
func (s *Screen) cell(x, y int) (string, Style) {
	style := s.Style(x, y)
	s.mu.Lock()
	defer s.mu.Unlock()
	c := s.emu.CellAt(x, y)
	if c == nil || c.Content == "" {
		return " ", Style{}
	}
	return c.Content, style
}

// box is the part of a cell that a block fills, and how densely.
type box struct{ x, y, w, h, dense float64 }

var boxes = map[string]box{
	"█": {0, 0, 1, 1, 1}, "▀": {0, 0, 1, .5, 1}, "▄": {0, .5, 1, .5, 1},
	"░": {0, 0, 1, 1, .22}, "▒": {0, 0, 1, 1, .45}, "▓": {0, 0, 1, 1, .7},
	"▏": {0, 0, .125, 1, 1}, "▎": {0, 0, .25, 1, 1}, "▍": {0, 0, .375, 1, 1}, "▌": {0, 0, .5, 1, 1},
	"▋": {0, 0, .625, 1, 1}, "▊": {0, 0, .75, 1, 1}, "▉": {0, 0, .875, 1, 1},
}

func fill(s Style, tone string) string {
	if s.Fg == nil {
		return fmt.Sprintf(` fill="%s"`, tone)
	}
	return fmt.Sprintf(` fill="%s"`, hex(s.Fg))
}

func opacity(dense float64) string {
	if dense == 1 {
		return ""
	}
	return fmt.Sprintf(` opacity="%.2f"`, dense)
}

func hex(c color.Color) string {
	r, g, b, _ := c.RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}
