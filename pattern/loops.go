package pattern

// A row is worked into the loops that the row below left on the pegs. Left to right,
// each cell takes as many of them as its stitch needs: one for most, two for two
// together, none for a yarn over. Where a loop is not on the peg that takes it, it
// must be moved there first; a cross takes its loops in another order. This one rule
// gives the moves of cables, lace and shaping alike, for either hand.

// Move is one loop that changes its peg before a row is worked.
type Move struct {
	From, To int  // columns of the fabric
	Front    bool // it passes in front of the loops it crosses
}

// Moves are the loops that change pegs before a row, left to right by the peg they
// end on. Most rows have none.
func (p *Pattern) Moves(row int) []Move {
	cells := p.Grid.Row(row).Cells()
	loops := p.loopColumns(row)
	var moves []Move
	next := 0
	for col, c := range cells {
		n := c.Stitch.LoopsIn()
		taken := loops[next : next+n]
		if cross, part, ok := c.Stitch.Cross(); ok {
			taken = loops[next-part+cross.source(part):][:1]
		}
		next += n
		for _, from := range taken {
			if from != col {
				moves = append(moves, Move{from, col, passesInFront(c.Stitch, from, col)})
			}
		}
	}
	return moves
}

// loopColumns are the columns that carry a loop when a row begins. The cast-on puts
// one on every peg that row 1 uses.
func (p *Pattern) loopColumns(row int) []int {
	var cols []int
	for col, c := range p.Grid.Row(max(1, row-1)).Cells() {
		if c.Stitch.LoopsOut() == 1 {
			cols = append(cols, col)
		}
	}
	return cols
}

// passesInFront tells whether a moved loop lies on top. A decrease that leans right
// has the loop from the left on top, one that leans left the loop from the right.
func passesInFront(s Stitch, from, to int) bool {
	if c, part, ok := s.Cross(); ok {
		return c.front(part)
	}
	switch s {
	case RightTwo, PurlTwo:
		return from < to
	case LeftTwo, LeftPurlTwo:
		return from > to
	}
	return false
}
