package find

import "bypeg/pattern"

// byLastRow are the sieves of how the last row was worked: one for knit, one for purl, or
// both.
func (r *reader) byLastRow(look RowLook) []sieve {
	switch look {
	case Knitted:
		return []sieve{r.byNewest(newest{look: V, after: worked})}
	case Purled:
		return []sieve{r.byNewest(newest{look: Bump, after: worked})}
	}
	return []sieve{r.byNewest(newest{look: V, after: worked}), r.byNewest(newest{look: Bump, after: worked})}
}

// ofYarn looks for loops of a yarn on the pegs. Of what the cast-on's are nothing is known.
func ofYarn(y pattern.Yarn) newest {
	return newest{look: V, castOn: V, after: func(before Seen, c pattern.Cell) Seen {
		switch {
		case c.Stitch == pattern.NoStitch:
			return Edge
		case makesNone(c.Stitch):
			return before
		case c.Yarn == y:
			return V
		}
		return Bump
	}}
}

// newest is what all pegs show, row upon row, and what is looked for on them.
type newest struct {
	look, castOn Seen
	after        func(before Seen, c pattern.Cell) Seen // what a peg shows once a stitch is worked on it
	below        int                                    // the row that shows on all pegs; 0 where there is no such row
	shown        *shown                                 // what it shows
	pegs         []Seen                                 // what each peg shows where there is none, Edge where it is nothing
	rows         []shown                                // what each of the grid's kept rows shows
}

// turned is where a look goes and comes while a row is worked: with up to gone stitches done
// it is still there on a peg not passed yet, and with more than back it is there again.
type turned struct{ gone, back int }

// byNewest lets places through at which some peg shows what is looked for.
func (r *reader) byNewest(of newest) sieve {
	n := &of
	n.pegs, n.rows = make([]Seen, r.grid.Pegs()), make([]shown, r.grid.Kept())
	for col, c := range r.grid.Row(1).Cells() {
		if n.pegs[col] = n.castOn; n.castOn == Unsure || c.Stitch == pattern.NoStitch {
			n.pegs[col] = Edge
		}
	}
	done := 0
	return func(row int, of span) [2]span {
		for done++; done < row; done++ { // rows that were not asked for
			r.above(n, done)
		}
		if row > r.grid.Rows() {
			if r.gone(n, row, nil) >= 0 {
				return [2]span{of}
			}
			return [2]span{}
		}
		t := r.above(n, row)
		s := [2]span{{0, min(t.gone+1, of.to)}, {min(t.back+1, of.to), of.to}}
		if s[1].from <= s[0].to {
			s = [2]span{{0, of.to}}
		}
		return s
	}
}

// above works a row on top and says where the look goes and comes.
func (r *reader) above(n *newest, row int) turned {
	shown := n.shownBy(r.grid, row)
	t := turned{r.gone(n, row, shown), r.back(n, row, shown)}
	if shown.plain {
		n.below, n.shown = row, shown
		return t
	}
	pegs := make([]Seen, len(n.pegs))
	for col, c := range r.grid.Row(row).Cells() {
		pegs[col] = n.after(r.seen(n, col), c)
	}
	n.pegs, n.below = pegs, 0
	return t
}

// seen is what a peg shows.
func (r *reader) seen(n *newest, col int) Seen {
	if n.below > 0 {
		return n.after(Edge, r.grid.Row(n.below).Cells()[col])
	}
	return n.pegs[col]
}

// worked is what a peg shows just under it once a stitch is worked on it. A cable shows its
// strands here: of a whole row nobody looks at the crossing alone.
func worked(before Seen, c pattern.Cell) Seen {
	switch s := c.Stitch; {
	case s == pattern.Knit: // nearly all are one of these
		return V
	case s == pattern.Purl:
		return Bump
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
// the look before the row is worked; -1 where none does. Above the last row, of which nothing
// is shown, it is 0 or more where some peg shows the look.
func (r *reader) gone(n *newest, row int, s *shown) int {
	pegs, d := len(n.pegs), r.o.Direction(row)
	if n.below > 0 && (s == nil || s.plain) {
		e := n.shown.seen
		switch {
		case e.left < 0:
			return -1
		case d == pattern.ToLeft:
			return pegs - 1 - int(e.left)
		}
		return int(e.right)
	}
	left := pegs // stitches up to and with the peg
	if s != nil {
		left = int(r.kept(row).stitches)
	}
	for i := pegs - 1; i >= 0; i-- {
		col := columnOf(i, pegs, d)
		if s == nil || r.grid.Row(row).Cells()[col].Stitch != pattern.NoStitch {
			left--
		}
		if r.seen(n, col) == n.look {
			return left
		}
	}
	return -1
}

// back is how many stitches of a row come before the first peg, in order of work, that shows
// the look once the row is worked.
func (r *reader) back(n *newest, row int, s *shown) int {
	pegs, d := len(n.pegs), r.o.Direction(row)
	if s.plain {
		e := s.seen
		switch {
		case e.left < 0:
			return never
		case d == pattern.ToLeft:
			return pegs - 1 - int(e.right)
		}
		return int(e.left)
	}
	passed := 0
	for i := range pegs {
		col := columnOf(i, pegs, d)
		c := r.grid.Row(row).Cells()[col]
		if n.after(r.seen(n, col), c) == n.look {
			return passed
		}
		if c.Stitch != pattern.NoStitch {
			passed++
		}
	}
	return never
}

// never is more stitches than a row has.
const never = pattern.MaxPegs + 1

// columnOf is the i-th column the way a row runs.
func columnOf(i, pegs int, d pattern.Direction) int {
	if d == pattern.ToLeft {
		return pegs - 1 - i
	}
	return i
}
