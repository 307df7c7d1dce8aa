package file

import (
	"bypeg/pattern"
)

// motif lays a zone's motif on a knit ground: in the middle, or where the motif says
// by column and row, counted from 1 at the lower left corner of the room between the
// sides. Without a height the zone is as high as the motif.
func (z *zoneReader) motif(t *table, zn *zone, room int, yarn pattern.Yarn) {
	name, ok := t.line("motif", "leaf")
	if !ok || room < 1 {
		return
	}
	m := z.motifs[name]
	if m == nil {
		t.failKey("motif", didYouMean(name, z.motifs, "draw it under [motif."+name+"]"), "there is no motif %s", shown(name))
		return
	}
	f := z.drawn(m, yarn)
	if f == nil {
		return
	}
	width, height := len(f.lines[0].Cells), len(f.lines)
	col, row, needs := (room-width)/2, 0, width
	placed := m.has("at")
	if placed {
		if col, row, ok = m.corner(); !ok {
			return
		}
		needs = col + width
	}
	if needs > room {
		t.failKey("motif", "", "the motif %s needs %d pegs; there are %d for it: %s", shown(name), needs, room, missBy(needs, room))
		return
	}
	rows, repeat := z.motifRows(t, zn, row+height)
	if row+height > rows {
		t.failKey("height", "", "the motif %s needs %d rows; the height gives %d", shown(name), row+height, rows)
		return
	}
	if !placed {
		row = (repeat - height) / 2
	}
	zn.plan.Rows = rows
	if !z.weaver.fits(repeat, room) {
		t.failKey(t.countKey(), "", tooMuch)
		return
	}
	z.weaver.cells += repeat * room
	lines := ground(repeat, room, yarn)
	for i, l := range f.lines {
		copy(lines[row+i].Cells[col:], l.Cells)
	}
	zn.plan.Strips = append(zn.plan.Strips, pattern.StripPlan{Pegs: room, Lines: lines})
}

// drawn is the motif's own fabric, or nil where something is wrong with it.
func (z *zoneReader) drawn(m *table, yarn pattern.Yarn) *fabric {
	picture, ok := m.raw("chart", "|-|")
	if !ok {
		return nil
	}
	f := z.weaver.chart(m.entries["chart"], picture, 0, yarn)
	if !m.told(m.entries["chart"], f) {
		return nil
	}
	return f
}

// motifRows is how many rows a zone with a motif has, and how many one repeat: with
// a height the motif stands in it once, with times it is repeated.
func (z *zoneReader) motifRows(t *table, zn *zone, needs int) (rows, repeat int) {
	if t.has("height") && !t.has("times") {
		rows = z.rowsOf(t, zn, 1, false)
		return rows, rows
	}
	return z.rowsOf(t, zn, needs, false), needs
}

// corner is where a motif says its lower left corner lies, counted from 0.
func (m *table) corner() (col, row int, ok bool) {
	const example = "[3, 1]"
	numbers, ok := m.list("at", example)
	if !ok {
		return 0, 0, false
	}
	if len(numbers) != 2 {
		m.failKey("at", "write it like at = "+example, "at takes two numbers: a column and a row, from the lower left corner")
		return 0, 0, false
	}
	col, okCol := m.wholeIn("at", numbers[0], 1, pattern.MaxPegs)
	row, okRow := m.wholeIn("at", numbers[1], 1, pattern.MaxRows)
	return col - 1, row - 1, okCol && okRow
}

// ground is knit rows for a motif to lie on.
func ground(rows, pegs int, yarn pattern.Yarn) []pattern.Line {
	backing := make([]pattern.Cell, rows*pegs)
	for i := range backing {
		backing[i] = pattern.Cell{Stitch: pattern.Knit, Yarn: yarn}
	}
	lines := make([]pattern.Line, rows)
	for i := range lines {
		lines[i].Cells = backing[i*pegs : (i+1)*pegs : (i+1)*pegs]
	}
	return lines
}
