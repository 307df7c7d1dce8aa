package pattern

import (
	"hash/maphash"
	"slices"
	"sort"
)

// Grid is the finished fabric seen from its right side: columns left to right, row 1
// at the bottom. It does not change once it is built. Rows that are equal are kept
// once, so a blanket of one repeat is as small as its repeat.
type Grid struct {
	pegs int
	rows []uint32 // which of the kept rows each row of the fabric is, bottom first
	kept []Row
}

// Pegs is the width of the grid in columns.
func (g *Grid) Pegs() int { return g.pegs }

// Rows is the height of the grid.
func (g *Grid) Rows() int { return len(g.rows) }

// Kept is how many different rows the grid holds.
func (g *Grid) Kept() int { return len(g.kept) }

// Row is the given row of the fabric; row 1 is the bottom one. It panics where there
// is no such row, as a slice does.
func (g *Grid) Row(row int) *Row { return &g.kept[g.rows[row-1]] }

// KeptAs is which of the kept rows a row is, counted from 0: rows that are equal are the same one.
func (g *Grid) KeptAs(row int) int { return int(g.rows[row-1]) }

// Cells are the cells of a row in columns from to, left to right, to be read only.
func (g *Grid) Cells(row, from, to int) []Cell { return g.Row(row).cells[from:to] }

// Row is one row of the fabric with its runs found once and for all.
type Row struct {
	cells    []Cell
	spans    []span
	stitches int
	loopsIn  int
}

// span is a stretch of equal neighbours, left to right; pegs not in use are left
// out. Columns fit because MaxPegs does.
type span struct {
	col   uint16 // its leftmost column
	first uint16 // how many stitches of the row lie left of it
}

// Cells are the row's cells, left to right, to be read only.
func (r *Row) Cells() []Cell { return r.cells }

// Stitches is how many pegs are in use on the row.
func (r *Row) Stitches() int { return r.stitches }

// LoopsIn is how many loops the row is worked into.
func (r *Row) LoopsIn() int { return r.loopsIn }

// spanOf finds the span that holds the i-th stitch from the left.
func (r *Row) spanOf(i int) int {
	return sort.Search(len(r.spans), func(k int) bool { return int(r.spans[k].first) > i }) - 1
}

// bounds are the stitches [from, to) of the k-th span, counted from the left.
func (r *Row) bounds(k int) (from, to int) {
	to = r.stitches
	if k+1 < len(r.spans) {
		to = int(r.spans[k+1].first)
	}
	return int(r.spans[k].first), to
}

// column is the column of the i-th stitch from the left.
func (r *Row) column(i int) int {
	s := r.spans[r.spanOf(i)]
	return int(s.col) + i - int(s.first)
}

// leftOf is how many stitches lie left of a column.
func (r *Row) leftOf(col int) int {
	k := sort.Search(len(r.spans), func(k int) bool { return int(r.spans[k].col) > col }) - 1
	if k < 0 {
		return 0
	}
	from, to := r.bounds(k)
	return min(to, from+col-int(r.spans[k].col))
}

// loom collects the rows of a grid, keeping equal ones once.
type loom struct {
	grid    Grid
	seed    maphash.Seed
	byHash  map[uint64][]uint32
	scratch []span
	bytes   []byte
}

func newLoom(pegs int) *loom {
	return &loom{grid: Grid{pegs: pegs}, seed: maphash.MakeSeed(), byHash: map[uint64][]uint32{}}
}

// keep finds the row with these cells, or makes a new one that owns them as own says:
// a copy, or the cells themselves.
func (l *loom) keep(cells []Cell, own func([]Cell) []Cell) uint32 {
	row := l.measure(cells)
	h := l.hash(row)
	for _, id := range l.byHash[h] {
		if slices.Equal(l.grid.kept[id].cells, cells) {
			return id
		}
	}
	row.cells = own(cells)
	row.spans = slices.Clone(row.spans)
	id := uint32(len(l.grid.kept))
	l.grid.kept = append(l.grid.kept, row)
	l.byHash[h] = append(l.byHash[h], id)
	return id
}

// measure finds the spans of a row in one pass. The row shares cells and scratch.
func (l *loom) measure(cells []Cell) Row {
	row := Row{cells: cells, spans: l.scratch[:0]}
	last := Cell{}
	for col, c := range cells {
		if c.Stitch == NoStitch {
			last = c
			continue
		}
		if c != last && (c.Stitch&crossBit == 0 || !continues(last, c)) {
			row.spans = append(row.spans, span{uint16(col), uint16(row.stitches)})
		}
		last = c
		row.stitches++
	}
	for k, s := range row.spans {
		from, to := row.bounds(k)
		row.loopsIn += (to - from) * cells[s.col].Stitch.LoopsIn()
	}
	l.scratch = row.spans[:0]
	return row
}

// continues tells whether b is the next part of the cross that a is a part of.
func continues(a, b Cell) bool {
	ca, i, ok := a.Stitch.Cross()
	if !ok || a.Yarn != b.Yarn {
		return false
	}
	cb, j, ok := b.Stitch.Cross()
	return ok && ca == cb && j == i+1
}

// hash takes a row's spans, since they are far fewer than its cells.
func (l *loom) hash(row Row) uint64 {
	l.bytes = l.bytes[:0]
	for _, s := range row.spans {
		c := row.cells[s.col]
		l.bytes = append(l.bytes, byte(s.col), byte(s.col>>8), byte(c.Stitch), byte(c.Stitch>>8), byte(c.Yarn))
	}
	return maphash.Bytes(l.seed, l.bytes)
}
