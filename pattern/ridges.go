package pattern

// ridges counts garter ridges in one named column: an unbroken band of purl rows
// there is a ridge. Zones where that column is no garter have none to count.
type ridges struct {
	col    int     // -1 where every column is slipped somewhere
	done   []int32 // ridges complete when so many rows are done
	garter []bool  // for each zone, whether ridges can be counted in it
}

// RidgeColumn is the column in which ridges are counted: the outermost, from the
// side of peg 1, that is in use and not slipped on every row. It is -1 where there is none.
func (p *Pattern) RidgeColumn() int { return p.ridges.col }

// Ridges is how many ridges the fabric shows when so many rows are done. The cast-on
// edge is not one.
func (p *Pattern) Ridges(rowsDone int) int { return int(p.ridges.done[rowsDone]) }

// HasRidges tells whether ridges can be counted in a zone; where they cannot, rows
// are counted.
func (p *Pattern) HasRidges(zone int) bool { return p.ridges.garter[zone] }

// RidgesIn is how many ridges a zone has.
func (p *Pattern) RidgesIn(zone int) int {
	z := p.Zones[zone]
	return p.Ridges(z.Last) - p.Ridges(z.First-1)
}

func countRidges(p *Pattern) ridges {
	r := ridges{
		col:    ridgeColumn(p.Grid, p.Way.Peg1),
		done:   make([]int32, p.Grid.Rows()+1),
		garter: make([]bool, len(p.Zones)),
	}
	if r.col < 0 {
		return r
	}
	below := FaceNone
	for i := range p.Zones {
		z := &p.Zones[i]
		r.garter[i] = isGarter(p.Grid, z, r.col)
		for row := z.First; row <= z.Last; row++ {
			face := p.Grid.Cells(row, r.col, r.col+1)[0].Stitch.Face()
			r.done[row] = r.done[row-1]
			if r.garter[i] && face == FacePurl && below != FacePurl {
				r.done[row]++
			}
			below = face
		}
	}
	return r
}

func ridgeColumn(g *Grid, peg1 Side) int {
	for i := range g.pegs {
		col := i
		if peg1 == Right {
			col = g.pegs - 1 - i
		}
		if everWorked(g, col) {
			return col
		}
	}
	return -1
}

// everWorked tells whether a column is worked on every row: never slipped, never out
// of use.
func everWorked(g *Grid, col int) bool {
	for i := range g.kept {
		switch g.kept[i].cells[col].Stitch {
		case NoStitch, Slip, SlipFront:
			return false
		}
	}
	return true
}

// isGarter tells whether a column takes knit and purl in turn throughout a zone, and its
// neighbour does not do the very opposite: in seed there is no ridge to be seen.
func isGarter(g *Grid, z *Zone, col int) bool {
	beside := col + 1
	if beside == g.pegs {
		beside = col - 1
	}
	last, seed := FaceNone, beside >= 0 && z.Last > z.First
	for row := z.First; row <= z.Last; row++ {
		cells := g.Row(row).cells
		face := cells[col].Stitch.Face()
		if face == last || (face != FaceKnit && face != FacePurl) {
			return false
		}
		seed = seed && cells[beside].Stitch.Face() != face
		last = face
	}
	return !seed
}
