package fit

import "bypeg/pattern"

// Stray is a yarn that hangs at the wrong end when it is wanted again: it must be cut there
// and joined anew.
type Stray struct {
	Yarn  pattern.Yarn
	Ended int // the last row that it was worked in
	Row   int // the row that wants it
	At    pattern.Side
	Wants pattern.Side
}

// StraysOf are the rows of a panel, worked in one yarn from end to end, whose yarn was left
// at the other end by the rows before: the first such row of each yarn.
func StraysOf(o pattern.Order) []Stray {
	if o.Pattern.Form == pattern.Tube || len(o.Pattern.Yarns) < 2 {
		return nil
	}
	type hanging struct {
		row  int
		at   pattern.Side
		told bool
	}
	left := map[pattern.Yarn]hanging{}
	var strays []Stray
	for row := 1; row <= o.Pattern.Grid.Rows(); row++ {
		y, whole := yarnOfRow(o.Pattern.Grid.Row(row))
		if !whole {
			left = map[pattern.Yarn]hanging{} // inside a row several hang at once
			continue
		}
		h, known := left[y]
		from := o.Direction(row).From()
		if known && !h.told && h.at != from {
			strays = append(strays, Stray{Yarn: y, Ended: h.row, Row: row, At: h.at, Wants: from})
			h.told = true
		}
		left[y] = hanging{row, o.Direction(row).To(), h.told}
	}
	return strays
}

// yarnOfRow is the yarn of a row that is worked in one.
func yarnOfRow(r *pattern.Row) (y pattern.Yarn, whole bool) {
	first := true
	for _, c := range r.Cells() {
		switch {
		case c.Stitch == pattern.NoStitch:
		case first:
			y, first = c.Yarn, false
		case c.Yarn != y:
			return 0, false
		}
	}
	return y, !first
}
