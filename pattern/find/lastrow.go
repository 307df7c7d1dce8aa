package find

import "bypeg/pattern"

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
	pegs  []Seen // Edge where a peg shows nothing
	plain map[*pattern.Row][]Seen
	memo  map[pair]turned
	below *pattern.Row // what pegs shows is its stitches and no other's; nil where it can't be said so
}

// pair is a row above another that is worked one way.
type pair struct {
	below, row *pattern.Row
	d          pattern.Direction
}

// turned is where a look goes and comes while a row is worked: up to gone stitches done it
// is still there on a peg not passed yet, and it is there again once more than back are done.
type turned struct{ gone, back int }

// byNewest lets places through at which some peg shows a look just under it.
func (r *reader) byNewest(look Seen) sieve {
	n := &newest{pegs: make([]Seen, r.grid.Pegs()), plain: map[*pattern.Row][]Seen{}, memo: map[pair]turned{}}
	for i := range n.pegs {
		n.pegs[i] = Edge
	}
	worked := 0
	return func(row int, of span) [2]span {
		for worked++; worked < row; worked++ { // rows that were not asked for are worked all the same
			n.above(r.grid.Row(worked), look, r.o.Direction(worked))
		}
		if row > r.grid.Rows() {
			if t := n.turn(nil, look, pattern.ToRight); t.gone >= 0 {
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
	shown, plain := n.shownBy(row)
	key := pair{n.below, row, d}
	t, known := n.memo[key]
	if !known || n.below == nil || !plain {
		t = n.turn(row, look, d)
		if n.below != nil && plain {
			n.memo[key] = t
		}
	}
	if plain {
		n.pegs, n.below = shown, row
		return t
	}
	mixed := make([]Seen, len(n.pegs))
	for col, c := range row.Cells() {
		mixed[col] = after(n.pegs[col], c.Stitch)
	}
	n.pegs, n.below = mixed, nil
	return t
}

// shownBy is what a row shows where all its pegs get a stitch; plain is false where some
// don't.
func (n *newest) shownBy(row *pattern.Row) (shown []Seen, plain bool) {
	shown, known := n.plain[row]
	if known {
		return shown, shown != nil
	}
	shown = make([]Seen, len(row.Cells()))
	for col, c := range row.Cells() {
		if makesNone(c.Stitch) {
			n.plain[row] = nil
			return nil, false
		}
		shown[col] = after(Edge, c.Stitch)
	}
	n.plain[row] = shown
	return shown, true
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

// turn goes along a row in order of work; without one it is done, and all pegs show what they
// show.
func (n *newest) turn(row *pattern.Row, look Seen, d pattern.Direction) turned {
	t := turned{gone: -1, back: 1 << 30}
	passed := 0
	for i := range n.pegs {
		col := i
		if d == pattern.ToLeft {
			col = len(n.pegs) - 1 - i
		}
		if n.pegs[col] == look {
			t.gone = passed
		}
		if row == nil {
			continue
		}
		s := row.Cells()[col].Stitch
		if after(n.pegs[col], s) == look {
			t.back = min(t.back, passed)
		}
		if s != pattern.NoStitch {
			passed++
		}
	}
	return t
}
