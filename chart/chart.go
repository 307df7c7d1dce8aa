package chart

import (
	"strings"

	"bypeg/pattern"
)

// Chart draws the grid of a pattern for one maker's way of working. It keeps every
// painted symbol it has drawn, so it is not for use by several goroutines at once; a
// change of style takes a new Chart.
type Chart struct {
	order   pattern.Order
	pattern *pattern.Pattern
	cells   func(row, from, to int) []pattern.Cell
	painter Painter
	paint   func(Tone, string) string
	symbols *symbols
	painted map[painted]string
	gaps    map[gapKey]string
}

// painted is what fixes the look of a cell.
type painted struct {
	cell  pattern.Cell
	look  look
	state state
}

// gapKey is what fixes the look of the space between two pegs.
type gapKey struct {
	text string
	tone Tone
}

// state is how far a stitch is worked.
type state uint8

const (
	worked state = iota
	coming
	inHand
)

// New prepares a chart of a pattern as its maker works it. No stitch is read yet.
func New(o pattern.Order, s Style) *Chart {
	c := &Chart{
		order: o, pattern: o.Pattern, cells: s.Cells, painter: s.Painter, paint: Plain{}.Paint,
		symbols: newSymbols(s.Set, s.ASCII), painted: map[painted]string{}, gaps: map[gapKey]string{},
	}
	if c.cells == nil {
		c.cells = o.Pattern.Grid.Cells
	}
	if s.Painter != nil {
		c.paint = s.Painter.Paint
	}
	return c
}

// Window is the columns of a chart that are drawn, From up to but not including To,
// counted from 0 at the left.
type Window struct {
	From, To int
	Pitch    int // screen cells a peg takes, 1 or 2
}

// Width is how many screen cells a window takes: one a peg at pitch 1; at pitch 2
// there is a gap before, between and after the pegs too.
func (w Window) Width() int {
	if w.Pitch == 2 {
		return 2*(w.To-w.From) + 1
	}
	return w.To - w.From
}

// cell is the screen cell of a column within the window.
func (w Window) cell(col int) int {
	if w.Pitch == 2 {
		return 2*(col-w.From) + 1
	}
	return col - w.From
}

func (w Window) holds(col int) bool { return col >= w.From && col < w.To }

// At is where the work stands. The zero value is a chart without work: every stitch
// is drawn as worked.
type At struct {
	Active  bool
	Row     int  // the row being worked; 0 before the first, one above the last when all are done
	Done    int  // its stitches worked so far, in order of work
	Unsaved bool // the last step is not on the disk yet: round brackets
}

// Hand is the column of the next peg to be worked, or -1 where no peg is in hand.
func (c *Chart) Hand(at At) int {
	if !at.Active || at.Row < 1 || at.Row > c.pattern.Grid.Rows() || at.Done >= c.pattern.Grid.Row(at.Row).Stitches() {
		return -1
	}
	return c.order.Column(at.Row, max(0, at.Done))
}

// Row is one row's stitches, exactly w.Width() cells wide. At pitch 2 the peg in hand
// stands in brackets; at pitch 1 there is no room for them: see Markers.
func (c *Chart) Row(row int, w Window, at At) string { return c.draw(row, w, at, nil) }

// draw is Row; what it draws is noted in the key too, unless that is nil.
func (c *Chart) draw(row int, w Window, at At, k *key) string {
	z := c.pattern.ZoneAt(row)
	hand := -1
	if at.Row == row {
		hand = c.Hand(at)
	}
	d := c.order.Direction(row)
	var b strings.Builder
	b.Grow(4 * w.Width())
	for i, cell := range c.cells(row, w.From, w.To) {
		col := w.From + i
		if w.Pitch == 2 {
			b.WriteString(c.gap(z, w, col, hand, at.Unsaved))
		}
		p := painted{cell, lookAt(z, col, c.pattern.Pegs), stateOf(row, col, at, hand, d)}
		k.note(p.cell, p.look)
		b.WriteString(c.symbol(p))
	}
	if w.Pitch == 2 {
		b.WriteString(c.gap(z, w, w.To, hand, at.Unsaved))
	}
	return b.String()
}

// isEdge tells whether the left of a column is the inner edge of a border.
func isEdge(z *pattern.Zone, col, pegs int) bool {
	return z.Sides > 0 && !z.Border && (col == z.Sides || col == pegs-z.Sides)
}

func lookAt(z *pattern.Zone, col, pegs int) look {
	if z.Border || z.Side(col, pegs) {
		return inBorder
	}
	return inField
}

func stateOf(row, col int, at At, hand int, d pattern.Direction) state {
	switch {
	case !at.Active || row < at.Row:
		return worked
	case row > at.Row:
		return coming
	case col == hand:
		return inHand
	case hand >= 0 && (col > hand) == (d == pattern.ToRight):
		return coming
	}
	return worked
}

// symbol is a painted symbol. Painting is dear, so each is painted once.
func (c *Chart) symbol(p painted) string {
	s, ok := c.painted[p]
	if !ok {
		s = c.paint(toneOf(p), c.symbols.of(p.cell, p.look))
		c.painted[p] = s
	}
	return s
}

func toneOf(p painted) Tone {
	t := Field
	switch {
	case p.state == inHand:
		return InHand
	case p.cell.Stitch == pattern.NoStitch:
		return Faint
	case p.cell.Yarn > 0:
		t = Other
	case p.look == inBorder:
		t = Border
	}
	if p.state == coming { // the coming tones stand in the order of the others
		return t + FieldComing - Field
	}
	return t
}

// gap is what stands left of a column at pitch 2: a bracket of the peg in hand, the
// edge of a border, or nothing.
func (c *Chart) gap(z *pattern.Zone, w Window, col, hand int, unsaved bool) string {
	open, closed := "[", "]"
	if unsaved {
		open, closed = "(", ")"
	}
	switch {
	case hand == col && w.holds(hand):
		return c.paintGap(open, InHand)
	case hand == col-1 && w.holds(hand):
		return c.paintGap(closed, InHand)
	case isEdge(z, col, c.pattern.Pegs):
		return c.paintGap(c.symbols.edge, Faint)
	}
	return c.paintGap(c.symbols.gap, Faint)
}

func (c *Chart) paintGap(text string, t Tone) string {
	if text == " " {
		return text
	}
	g := gapKey{text, t}
	s, ok := c.gaps[g]
	if !ok {
		s = c.paint(t, text)
		c.gaps[g] = s
	}
	return s
}
