package adopt

import (
	"slices"

	"bypeg/pattern"
)

// framed is a simple texture with garter around it.
func (t *texture) framed() (Fabric, bool) {
	f := t.frame()
	if f == (Frame{}) || !t.even {
		return Fabric{}, false
	}
	inner := t.part(f.Bottom, len(t.rows)-f.Top, f.Sides, t.wide-f.Sides)
	fabric, ok := inner.simple()
	if !ok {
		fabric = inner.repeating()
	}
	fabric.Frame = f
	return fabric, ok || fabric.Kind == Texture
}

// leastSide is how many stitches of garter at an edge are a border: one alone is the edge of
// seed as well.
const leastSide = 2

// leastEnd is how many rows of garter at an end are a border: purl, knit, purl make two
// ridges.
const leastEnd = 3

// frame is the garter around a texture.
func (t *texture) frame() Frame {
	var f Frame
	n := len(t.rows)
	if n < 2 {
		return f
	}
	first, last := 0, n // the rows between which not every row is of one stitch
	for first < n && uniform(t.looks[t.rows[first]]) {
		first++
	}
	for last > first && uniform(t.looks[t.rows[last-1]]) {
		last--
	}
	if first < n && t.form == pattern.Panel {
		f.Sides = t.sides()
	}
	if f.Sides == 0 {
		return t.ends()
	}
	// A knit row beside the field is its own, a purl row that of the border.
	if f.Bottom = first; first > 0 && t.looks[t.rows[first]][0] == pattern.Purl {
		f.Bottom--
	}
	if f.Top = n - last; f.Top == 1 && t.looks[t.rows[last]][0] == pattern.Knit {
		f.Top = 0
	}
	return f
}

// ends is the garter at both ends of a texture without sides.
func (t *texture) ends() Frame {
	n := len(t.rows)
	end := func(row, step int) int {
		rows := t.garterFrom(row, step)
		if rows > 0 && t.looks[t.rows[row+step*(rows-1)]][0] == pattern.Knit {
			rows--
		}
		if rows < leastEnd {
			return 0
		}
		return rows
	}
	f := Frame{Bottom: end(0, 1), Top: end(n-1, -1)}
	if f.Bottom+f.Top >= n {
		return Frame{}
	}
	return f
}

// garterFrom is how many rows of garter there are from a row on, upwards or downwards.
func (t *texture) garterFrom(row, step int) int {
	n := 0
	for ; row >= 0 && row < len(t.rows); row += step {
		look := t.looks[t.rows[row]]
		if !uniform(look) || n > 0 && look[0] == t.looks[t.rows[row-step]][0] {
			break
		}
		n++
	}
	return n
}

// sides is how many stitches at both edges are garter from end to end; 0 where the field
// beside them would be nothing.
func (t *texture) sides() int {
	most := (t.wide - 1) / 2
	for i, id := range t.rows {
		look := t.looks[id]
		edge := look[0]
		if i > 0 && edge == t.looks[t.rows[i-1]][0] || edge != pattern.Knit && edge != pattern.Purl {
			return 0
		}
		for n := range most {
			if look[n] != edge || look[t.wide-1-n] != edge {
				most = n
				break
			}
		}
	}
	if most < leastSide {
		return 0
	}
	return most
}

func uniform(look []pattern.Stitch) bool {
	return !slices.ContainsFunc(look, func(s pattern.Stitch) bool { return s != look[0] })
}
