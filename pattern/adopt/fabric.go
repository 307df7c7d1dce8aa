package adopt

import (
	"slices"

	"bypeg/pattern"
)

// A fabric is told by its grid alone, whatever it was called. Where every row is the first
// one, or the first one with knit and purl changed over, the fabric is a row of bands by a
// column of bands, and of these sizes are all the plain textures made:
//
//	columns    rows        it is
//	all one    all one     plain, or reverse plain
//	all one    in turn     garter: 1 row and 1 row; else a welt
//	bands      all one     rib
//	1 and 1    1 and 1     seed
//	1 and 1    2 and 2     double seed: moss where single seed is called seed
//	bands      bands       basket
//
// What else repeats is told by its repeat, and around any of these there may be a frame of
// garter.

// Kind is what a fabric is.
type Kind uint8

// The kinds of fabric.
const (
	Unknown Kind = iota // it does not repeat
	Shaped              // pegs go out of use in it, or come into use
	Texture             // it repeats, and has no name here
	Plain
	ReversePlain
	Garter
	Welt
	Rib
	Seed
	DoubleSeed
	Basket
)

// Fabric is a fabric with its measures.
type Fabric struct {
	Kind       Kind
	Knit, Purl int    // of ribs, the stitches of a column; of welts, the rows of a band
	Wide, High [2]int // of baskets the two blocks that take turns: stitches and rows; of textures one repeat; of what does not repeat all rows
	Frame      Frame
	Moves      bool // some of its stitches move loops
}

// Frame is the garter around a fabric.
type Frame struct {
	Sides  int // stitches at both edges
	Bottom int // rows
	Top    int
}

// Part is a part of a grid: rows First to Last, counted from 1, and columns from From up
// to but not including To.
type Part struct{ First, Last, From, To int }

// Whole is all of a grid.
func Whole(g *pattern.Grid) Part { return Part{1, g.Rows(), 0, g.Pegs()} }

// FabricOf tells what a part of a grid is. Slipped stitches count as the face they show;
// a part with stitches that move loops, or with pegs not in use, is told by its repeat.
func FabricOf(g *pattern.Grid, form pattern.Form, at Part) Fabric {
	return newTexture(g, form, at).fabric()
}

// fabric tells what a texture is.
func (t *texture) fabric() Fabric {
	if f, ok := t.simple(); ok {
		return f
	}
	if f, ok := t.framed(); ok {
		return f
	}
	return t.repeating()
}

// texture is a part of a grid, with rows that look alike kept once.
type texture struct {
	form  pattern.Form
	wide  int
	rows  []int              // the look of each row
	looks [][]pattern.Stitch // Knit or Purl where plain, else the stitch itself
	even  bool               // all of it is Knit or Purl
}

func newTexture(g *pattern.Grid, form pattern.Form, at Part) *texture {
	t := &texture{form: form, wide: at.To - at.From, even: true}
	kept := map[*pattern.Row]int{}
	ids := map[string]int{}
	for row := at.First; row <= at.Last; row++ {
		r := g.Row(row)
		id, ok := kept[r]
		if !ok {
			look := make([]pattern.Stitch, 0, t.wide)
			for _, c := range r.Cells()[at.From:at.To] {
				st := lookOf(c.Stitch)
				t.even = t.even && (st == pattern.Knit || st == pattern.Purl)
				look = append(look, st)
			}
			key := keyOf(look)
			if id, ok = ids[key]; !ok {
				id = len(t.looks)
				ids[key], t.looks = id, append(t.looks, look)
			}
			kept[r] = id
		}
		t.rows = append(t.rows, id)
	}
	return t
}

// lookOf is what a cell looks like: a knit or a purl, or itself where it moves loops.
func lookOf(s pattern.Stitch) pattern.Stitch {
	if _, _, ok := s.Cross(); ok || s.LoopsIn() != 1 {
		return s
	}
	if s.Face() == pattern.FacePurl {
		return pattern.Purl
	}
	return pattern.Knit
}

// part is the texture between rows and columns, which count from 0.
func (t *texture) part(first, last, from, to int) *texture {
	p := &texture{form: t.form, wide: to - from, even: true}
	if p.wide < t.wide {
		p.form = pattern.Panel
	}
	ids := make([]int, len(t.looks))
	for i := range ids {
		ids[i] = -1
	}
	byLook := map[string]int{}
	for _, id := range t.rows[first:last] {
		if ids[id] < 0 {
			look := t.looks[id][from:to]
			key := keyOf(look)
			known, ok := byLook[key]
			if !ok {
				known = len(p.looks)
				byLook[key], p.looks = known, append(p.looks, look)
				p.even = p.even && !slices.ContainsFunc(look, func(s pattern.Stitch) bool { return s != pattern.Knit && s != pattern.Purl })
			}
			ids[id] = known
		}
		p.rows = append(p.rows, ids[id])
	}
	return p
}

// keyOf is a look as the key of a map.
func keyOf(look []pattern.Stitch) string {
	key := make([]byte, 0, 2*len(look))
	for _, s := range look {
		key = append(key, byte(s), byte(s>>8))
	}
	return string(key)
}

// simple is the texture where it is a row of bands by a column of bands.
func (t *texture) simple() (Fabric, bool) {
	if !t.even || len(t.rows) == 0 || t.wide == 0 {
		return Fabric{}, false
	}
	base := t.looks[t.rows[0]]
	over := make([]bool, len(t.looks)) // whether a look is the first row changed over
	for i, look := range t.looks {
		over[i] = look[0] != base[0]
		for col, st := range look {
			if (st != base[col]) != over[i] {
				return Fabric{}, false
			}
		}
	}
	across := make([]bool, t.wide)
	for col, st := range base {
		across[col] = st == pattern.Purl
	}
	up := make([]bool, len(t.rows))
	for i, id := range t.rows {
		up[i] = over[id]
	}
	cols, okCols := bandsOf(across)
	rows, okRows := bandsOf(up)
	if !okCols || !okRows {
		return Fabric{}, false
	}
	return named(cols, rows, across[0], t.form)
}

// bands are the bands of a row or a column of two looks in turn.
type bands struct {
	n             int // how many bands there are
	first, second int // the stitches or rows of a whole band: of the look it begins with, and of the other
}

// bandsOf are the bands of a sequence, where those of one look are of one size; the first
// and the last may be cut.
func bandsOf(looks []bool) (b bands, ok bool) {
	size := [2]int{}
	var lens []int
	for from := 0; from < len(looks); {
		to := from + 1
		for to < len(looks) && looks[to] == looks[from] {
			to++
		}
		lens = append(lens, to-from)
		from = to
	}
	for i, n := range lens {
		size[i%2] = max(size[i%2], n)
	}
	for i, n := range lens {
		if n != size[i%2] && i > 0 && i < len(lens)-1 {
			return bands{}, false
		}
	}
	return bands{len(lens), size[0], size[1]}, true
}

// fair tells whether few bands are a texture: one band alone, or one far wider than the
// other, is a stripe on a ground.
func (b bands) fair() bool {
	const most = 4
	return b.n > 3 || b.n == 1 || max(b.first, b.second) <= most*min(b.first, b.second)
}

// named is the fabric of a row of bands by a column of bands. Purl tells what the lower
// left cell is.
func named(cols, rows bands, purl bool, form pattern.Form) (Fabric, bool) {
	least := 3 // fewer bands side by side are blocks and no texture
	if form == pattern.Tube {
		least = 4
	}
	knits := func(b bands) Fabric {
		if purl {
			return Fabric{Knit: b.second, Purl: b.first}
		}
		return Fabric{Knit: b.first, Purl: b.second}
	}
	switch {
	case !cols.fair() || !rows.fair():
		return Fabric{}, false
	case cols.n == 1 && rows.n == 1 && purl:
		return Fabric{Kind: ReversePlain}, true
	case cols.n == 1 && rows.n == 1:
		return Fabric{Kind: Plain}, true
	case cols.n == 1 && rows.first == 1 && rows.second == 1:
		return Fabric{Kind: Garter}, true
	case cols.n == 1:
		f := knits(rows)
		f.Kind = Welt
		return f, true
	case cols.n < least:
		return Fabric{}, false
	case rows.n == 1:
		f := knits(cols)
		f.Kind = Rib
		return f, true
	}
	wide, high := [2]int{cols.first, cols.second}, [2]int{rows.first, rows.second}
	switch {
	case wide == [2]int{1, 1} && high == [2]int{1, 1}:
		return Fabric{Kind: Seed}, true
	case wide == [2]int{1, 1} && high == [2]int{2, 2}:
		return Fabric{Kind: DoubleSeed}, true
	}
	return Fabric{Kind: Basket, Wide: wide, High: high}, true
}

// mostPeriod is how long a repeat of rows is looked for.
const mostPeriod = 200

// gaps tells whether pegs are out of use in a texture.
func (t *texture) gaps() bool {
	return !t.even && slices.ContainsFunc(t.looks, func(look []pattern.Stitch) bool { return slices.Contains(look, pattern.NoStitch) })
}

// repeating is a texture told by its repeat: the rows of it, and the stitches of it that
// all rows share between their edges.
func (t *texture) repeating() Fabric {
	f := Fabric{Kind: Unknown, Moves: !t.even, High: [2]int{len(t.rows), 0}}
	if t.gaps() {
		return Fabric{Kind: Shaped, Moves: true}
	}
	high := 0
	for p := 1; p <= min(len(t.rows)/2, mostPeriod); p++ {
		if slices.Equal(t.rows[p:], t.rows[:len(t.rows)-p]) {
			high = p
			break
		}
	}
	c := columns{of: make([]int, t.wide)}
	ids := map[string]int{}
	key := make([]byte, 2*len(t.looks))
	for col := range t.wide {
		for i, look := range t.looks {
			key[2*i], key[2*i+1] = byte(look[col]), byte(look[col]>>8)
		}
		if _, ok := ids[string(key)]; !ok {
			ids[string(key)] = len(ids)
		}
		c.of[col] = ids[string(key)]
	}
	rep, ok := c.find(0)
	wide := 0
	if ok && rep.period > 1 && 2*(rep.to-rep.from) > t.wide {
		wide = rep.period
	}
	if wide > 0 || high > 0 {
		f.Kind, f.Wide[0], f.High[0] = Texture, wide, high
	}
	return f
}
