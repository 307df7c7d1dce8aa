package find

import (
	"slices"

	"bypeg/pattern"
)

// byLastRow are the sieves of how the last row was worked: one for knit, one for purl, or
// both.
func (r *reader) byLastRow(look RowLook) []sieve {
	switch look {
	case Knitted:
		return []sieve{r.byNewest(V)}
	case Purled:
		return []sieve{r.byNewest(Bump)}
	}
	return []sieve{r.byNewest(V), r.byNewest(Bump)}
}

// newest is what all pegs show just under them, row upon row.
type newest struct {
	below *pattern.Row    // the row that shows on all pegs; nil where there is no such row
	pegs  []Seen          // what each shows then, Edge where it is nothing
	memo  map[pair]turned // nil where few rows come again
}

// pair is a row above another that is worked one way.
type pair struct {
	below, row *pattern.Row
	d          pattern.Direction
}

// turned is where a look goes and comes while a row is worked: with up to gone stitches done
// it is still there on a peg not passed yet, and with more than back it is there again.
type turned struct{ gone, back int }

// byNewest lets places through at which some peg shows a look just under it.
func (r *reader) byNewest(look Seen) sieve {
	n := &newest{pegs: make([]Seen, r.grid.Pegs())}
	if r.repeats() {
		n.memo = map[pair]turned{}
	}
	for i := range n.pegs {
		n.pegs[i] = Edge
	}
	worked := 0
	return func(row int, of span) [2]span {
		for worked++; worked < row; worked++ { // rows that were not asked for
			n.above(r.grid.Row(worked), look, r.o.Direction(worked))
		}
		if row > r.grid.Rows() {
			if n.gone(nil, look, pattern.ToRight) >= 0 {
				return [2]span{of}
			}
			return [2]span{}
		}
		t := n.above(r.grid.Row(row), look, r.o.Direction(row))
		s := [2]span{{0, min(t.gone+1, of.to)}, {min(t.back+1, of.to), of.to}}
		if s[1].from <= s[0].to {
			s = [2]span{{0, of.to}}
		}
		return s
	}
}

// above works a row on top and says where the look goes and comes.
func (n *newest) above(row *pattern.Row, look Seen, d pattern.Direction) turned {
	plain := !slices.ContainsFunc(row.Cells(), func(c pattern.Cell) bool { return makesNone(c.Stitch) })
	key := pair{n.below, row, d}
	t, known := n.memo[key]
	if !known || n.below == nil || !plain {
		t = turned{n.gone(row, look, d), n.back(row, look, d)}
		if n.below != nil && plain && n.memo != nil {
			n.memo[key] = t
		}
	}
	if plain {
		n.below = row
		return t
	}
	pegs := make([]Seen, len(n.pegs))
	for col, c := range row.Cells() {
		pegs[col] = after(n.shows(col), c.Stitch)
	}
	n.pegs, n.below = pegs, nil
	return t
}

// shows is what a peg shows.
func (n *newest) shows(col int) Seen {
	if n.below != nil {
		return after(Edge, n.below.Cells()[col].Stitch)
	}
	return n.pegs[col]
}

// after is what a peg shows once a stitch is worked on it. A cable shows its strands here: of
// a whole row nobody looks at the crossing alone.
func after(before Seen, s pattern.Stitch) Seen {
	switch {
	case s == pattern.NoStitch:
		return Edge
	case makesNone(s):
		return before
	case s.Face() == pattern.FaceKnit:
		return V
	case s.Face() == pattern.FacePurl:
		return Bump
	}
	return Unsure
}

// gone is how many stitches of a row come before the last peg, in order of work, that shows
// the look before the row is worked; -1 where none does. Without a row it is 0 or more where
// some peg shows it.
func (n *newest) gone(row *pattern.Row, look Seen, d pattern.Direction) int {
	pegs := len(n.pegs)
	left := pegs // stitches up to and with the peg
	if row != nil {
		left = row.Stitches()
	}
	for i := pegs - 1; i >= 0; i-- {
		col := columnOf(i, pegs, d)
		if row == nil || row.Cells()[col].Stitch != pattern.NoStitch {
			left--
		}
		if n.shows(col) == look {
			return left
		}
	}
	return -1
}

// back is how many stitches of a row come before the first peg, in order of work, that shows
// the look once the row is worked.
func (n *newest) back(row *pattern.Row, look Seen, d pattern.Direction) int {
	passed := 0
	for i := range n.pegs {
		s := row.Cells()[columnOf(i, len(n.pegs), d)].Stitch
		if after(n.shows(columnOf(i, len(n.pegs), d)), s) == look {
			return passed
		}
		if s != pattern.NoStitch {
			passed++
		}
	}
	return 1 << 30
}

// columnOf is the i-th column the way a row runs.
func columnOf(i, pegs int, d pattern.Direction) int {
	if d == pattern.ToLeft {
		return pegs - 1 - i
	}
	return i
}
