package chart

import (
	"strconv"
	"strings"

	"bypeg/pattern/safetext"
)

// mark is a text at a screen cell of a line.
type mark struct {
	at   int
	tone Tone
	text string
}

// lay writes marks, which are in ascending order and do not overlap, as a line of at
// least width cells.
func (c *Chart) lay(marks []mark, width int) string {
	var b strings.Builder
	at := 0
	for _, m := range marks {
		b.WriteString(strings.Repeat(" ", m.at-at))
		b.WriteString(c.paint(m.tone, m.text))
		at = m.at + safetext.Width(m.text)
	}
	b.WriteString(strings.Repeat(" ", max(0, width-at)))
	return b.String()
}

// Ruler numbers the pegs of a window as the maker counts them: the pegs at both ends
// and every tenth, where there is room. A number begins over its peg; at the right
// end it is moved to the left as far as it must. The line is w.Width() cells wide.
func (c *Chart) Ruler(w Window) string {
	width := w.Width()
	taken := make([]string, width) // the number that begins at each cell
	free := func(from, to int) bool {
		for i := max(0, from-5); i < min(width, to+1); i++ { // no number has more than 4 digits
			if n := len(taken[i]); n > 0 && i+n >= from {
				return false
			}
		}
		return true
	}
	put := func(col int) {
		n := strconv.Itoa(c.order.Peg(col))
		at := min(w.cell(col), width-len(n))
		if at >= 0 && free(at, at+len(n)) {
			taken[at] = n
		}
	}
	if w.From < w.To {
		put(w.From)
		put(w.To - 1)
	}
	for col := w.From; col < w.To; col++ {
		if c.order.Peg(col)%10 == 0 {
			put(col)
		}
	}
	var marks []mark
	for at, n := range taken {
		if n != "" {
			marks = append(marks, mark{at, Number, n})
		}
	}
	return c.lay(marks, width)
}

// Markers are the lines over and under a row, both w.Width() cells wide: small
// triangles at the marked pegs. At pitch 1 there is no room for brackets: the line over
// it points at the peg in hand as well, hand being its column or -1, with a hollow
// pointer where the last step is not on the disk yet.
func (c *Chart) Markers(w Window, hand int, unsaved bool) (over, under string) {
	pointer := c.symbols.pointer
	if unsaved {
		pointer = c.symbols.hollow
	}
	var overs, unders []mark
	for col := w.From; col < w.To; col++ {
		marked := c.pattern.Marked(col)
		switch {
		case col == hand && w.Pitch == 1:
			overs = append(overs, mark{w.cell(col), InHand, pointer})
		case marked:
			overs = append(overs, mark{w.cell(col), Marker, c.symbols.over})
		}
		if marked {
			unders = append(unders, mark{w.cell(col), Marker, c.symbols.under})
		}
	}
	return c.lay(overs, w.Width()), c.lay(unders, w.Width())
}
