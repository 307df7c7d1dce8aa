package chart

import (
	"slices"

	"bypeg/pattern"
)

// View is the part of a chart that is wanted, and the room for it.
type View struct {
	First, Last int  // rows from the bottom, both included; 0 is the first or the last there is
	From, To    int  // columns, To not included; To 0 is all
	Width       int  // screen cells in a line
	At          At   // where the work stands
	Brief       bool // an overview has no words: no size and no key
}

// clamped is the view with its defaults filled in, within the grid.
func (c *Chart) clamped(v View) View {
	rows, pegs := c.pattern.Grid.Rows(), c.pattern.Pegs
	if v.Last < 1 || v.Last > rows {
		v.Last = rows
	}
	v.First = min(max(1, v.First), v.Last)
	if v.To < 1 || v.To > pegs {
		v.To = pegs
	}
	v.From = min(max(0, v.From), v.To-1)
	return v
}

// Parts are the windows in which a view is shown when its stitches alone have
// v.Width cells, left to right: one at pitch 2 where that fits, or one at pitch 1, or
// as few as it takes. There are none where no peg has room.
func (c *Chart) Parts(v View) []Window {
	v = c.clamped(v)
	whole := Window{v.From, v.To, 2}
	if whole.Width() <= v.Width {
		return []Window{whole}
	}
	if v.Width < 1 {
		return nil
	}
	edges := c.edges(v)
	var parts []Window
	for v.From < v.To {
		to := c.cut(v, edges)
		parts = append(parts, Window{v.From, to, 1})
		v.From = to
	}
	return parts
}

// cut is where the first part of a view ends. The parts are to be much of a size; near
// that, they end at the edge of a strip, or else after a tenth peg.
func (c *Chart) cut(v View, edges []int) int {
	pegs := v.To - v.From
	parts := (pegs + v.Width - 1) / v.Width
	if parts == 1 {
		return v.To
	}
	even := v.From + (pegs+parts-1)/parts
	least, most := max(v.From+1, v.To-(parts-1)*v.Width), v.From+v.Width
	nearest := func(reach int, fits func(col int) bool) (int, bool) {
		for off := range reach + 1 {
			for _, col := range []int{even - off, even + off} {
				if col >= least && col <= most && fits(col) {
					return col, true
				}
			}
		}
		return 0, false
	}
	if col, ok := nearest(v.Width/4, func(col int) bool { _, ok := slices.BinarySearch(edges, col); return ok }); ok {
		return col
	}
	if col, ok := nearest(v.Width, c.afterTen); ok {
		return col
	}
	return even
}

// edges are the columns where the strips of a view begin.
func (c *Chart) edges(v View) []int {
	var edges []int
	p := c.pattern
	for i := p.ZoneIndex(v.First); i <= p.ZoneIndex(v.Last); i++ {
		for _, s := range p.Zones[i].Strips {
			edges = append(edges, s.From)
		}
	}
	slices.Sort(edges)
	return slices.Compact(edges)
}

// afterTen tells whether a tenth peg and the one after it meet at the left of a
// column.
func (c *Chart) afterTen(col int) bool {
	if c.order.Way.Peg1 == pattern.Right {
		return c.order.Peg(col)%10 == 0
	}
	return c.order.Peg(col-1)%10 == 0
}
