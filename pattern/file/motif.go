package file

import (
	"fmt"
	"math"

	"bypeg/pattern"
	"bypeg/pattern/measure"
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
	corner, placed, ok := m.corner()
	if f == nil || !ok {
		return
	}
	width, height := len(f.lines[0].Cells), len(f.lines)
	needs := corner.col + width
	if needs > room {
		t.failKey("motif", widthHint(corner, width, room), "the motif %s needs %d pegs; there are %d for it: %s",
			shown(name), needs, room, missBy(needs, room))
		return
	}
	rows, repeat := z.motifRows(t, zn, corner.row+height)
	switch {
	case corner.row+height > rows:
		t.failKey("height", z.heightHint(t, corner.row+height), "the motif %s needs %d rows; the height gives %d: %s",
			shown(name), corner.row+height, rows, missBy(corner.row+height, rows))
		return
	case !z.weaver.fits(repeat, room):
		t.failKey(t.countKey(), "", tooMuch)
		return
	}
	if !placed {
		corner = cell{(room - width) / 2, (repeat - height) / 2}
	}
	zn.plan.Rows = rows
	zn.plan.Strips = append(zn.plan.Strips, pattern.StripPlan{Pegs: room, Lines: z.weaver.lay(f, corner, repeat, room, yarn)})
}

// widthHint says how a motif that is too wide would fit.
func widthHint(corner cell, width, room int) string {
	if corner.col > 0 && width <= room {
		return fmt.Sprintf("with %d or less as the first number of at it fits", room-width+1)
	}
	return fmt.Sprintf("draw it %d pegs wide or less, or take more pegs", room)
}

// heightHint says how high a zone must be for a motif, in whole millimetres.
func (z *zoneReader) heightHint(t *table, rows int) string {
	density, _ := z.density(t, false)
	least := math.Ceil(density.Length(float64(rows)).In(measure.Millimetre))
	return fmt.Sprintf("height = %q or more would fit; without a height the zone is as high as the motif",
		measure.Number(least/10, 1)+" cm")
}

// cell is a place in a zone, counted from 0 at the lower left.
type cell struct{ col, row int }

// lay puts a picture on knit rows.
func (w *weaver) lay(f *fabric, corner cell, rows, pegs int, yarn pattern.Yarn) []pattern.Line {
	w.cells += rows * pegs
	backing := make([]pattern.Cell, rows*pegs)
	for i := range backing {
		backing[i] = pattern.Cell{Stitch: pattern.Knit, Yarn: yarn}
	}
	lines := make([]pattern.Line, rows)
	for i := range lines {
		lines[i].Cells = backing[i*pegs : (i+1)*pegs : (i+1)*pegs]
	}
	for i, l := range f.lines {
		copy(lines[corner.row+i].Cells[corner.col:], l.Cells)
	}
	return lines
}

// drawn is the motif's own fabric, or nil where something is wrong with it.
func (z *zoneReader) drawn(m *table, yarn pattern.Yarn) *fabric {
	if !m.has("chart") {
		return nil
	}
	f := z.weaver.chart(m, "chart", room{}, yarn)
	if !m.told("chart", f) {
		return nil
	}
	return f
}

// motifRows is how many rows a zone with a motif has, and how many one repeat: with
// a height the motif stands in it once, with times it is repeated.
func (z *zoneReader) motifRows(t *table, zn *zone, needs int) (rows, repeat int) {
	if t.has("height") && !t.has("times") {
		if _, ok := t.length("height", "24 cm"); !ok {
			return needs, needs
		}
		if density, _ := z.density(t, false); density <= 0 {
			return needs, needs
		}
		rows = z.rowsOf(t, zn, 1, false)
		return rows, rows
	}
	return z.rowsOf(t, zn, needs, false), needs
}

// corner is where a motif says its lower left corner lies.
func (m *table) corner() (at cell, placed, ok bool) {
	const example = "[3, 1]"
	if !m.has("at") {
		return cell{}, false, true
	}
	numbers, ok := m.list("at", example)
	if !ok {
		return cell{}, true, false
	}
	if len(numbers) != 2 {
		m.failKey("at", "write it like at = "+example, "at takes two numbers: a column and a row, from the lower left corner")
		return cell{}, true, false
	}
	col, okCol := m.wholeIn("at", numbers[0], 1, pattern.MaxPegs)
	row, okRow := m.wholeIn("at", numbers[1], 1, pattern.MaxRows)
	return cell{col - 1, row - 1}, true, okCol && okRow
}
