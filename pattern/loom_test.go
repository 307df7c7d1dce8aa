package pattern_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

// A slow and obvious loom: pegs in a line, loops on them, a worker who follows the
// instructions of one hand peg by peg and knows nothing of grids. What hangs below
// the pegs at the end is the fabric.

// simLoom is the loom as it stands before the worker, pegs left to right.
type simLoom struct {
	t     testing.TB
	peg   []int // the number of each peg, left to right
	loops []int // how many loops each peg holds
	rows  [][]pattern.Cell
}

func newSimLoom(t testing.TB, pegs int, peg1 pattern.Side) *simLoom {
	l := &simLoom{t: t, loops: make([]int, pegs)}
	for i := range pegs {
		l.peg = append(l.peg, i+1)
	}
	if peg1 == pattern.Right {
		slices.Reverse(l.peg)
	}
	return l
}

// at finds where a peg stands by walking along the loom.
func (l *simLoom) at(peg int) int {
	i := slices.Index(l.peg, peg)
	require.GreaterOrEqual(l.t, i, 0, "there is no peg %d", peg)
	return i
}

func (l *simLoom) castOn(pegs []int) {
	for _, peg := range pegs {
		l.loops[l.at(peg)]++
	}
}

// move carries loops from peg to peg, all lifted before any is put down.
func (l *simLoom) move(from, to []int) {
	for _, peg := range from {
		l.loops[l.at(peg)]--
	}
	for _, peg := range to {
		l.loops[l.at(peg)]++
	}
}

func (l *simLoom) newRow() { l.rows = append(l.rows, make([]pattern.Cell, len(l.peg))) }

// work makes one stitch on a peg: it takes all loops that are there and leaves one.
func (l *simLoom) work(peg int, c pattern.Cell) {
	i := l.at(peg)
	require.Equal(l.t, c.Stitch.LoopsIn(), l.loops[i], "loops on peg %d for %v", peg, c.Stitch)
	l.loops[i] = 1
	l.rows[len(l.rows)-1][i] = c
}

// workOnLoom works a whole pattern the way o tells it and returns the fabric.
func workOnLoom(t testing.TB, o pattern.Order) [][]pattern.Cell {
	l := newSimLoom(t, o.Pattern.Pegs, o.Way.Peg1)
	var first []int
	for done := range o.Pattern.CastOnLoops() {
		first = append(first, o.Peg(o.Column(1, done)))
	}
	l.castOn(first)
	for row := 1; row <= o.Pattern.Grid.Rows(); row++ {
		l.newRow()
		var from, to []int
		for _, m := range o.Pattern.Moves(row) {
			from, to = append(from, o.Peg(m.From)), append(to, o.Peg(m.To))
		}
		l.move(from, to)
		for run := range o.Runs(row) {
			for done := run.From; done < run.To; done++ {
				s := run.Stitch
				if c, _, ok := s.Cross(); ok { // a cross is told as one run; seen from the left its parts follow each other
					part := done - run.From
					if o.Direction(row) == pattern.ToLeft {
						part = c.Width() - 1 - part
					}
					s = c.Parts()[part]
				}
				l.work(o.Peg(o.Column(row, done)), pattern.Cell{Stitch: s, Yarn: run.Yarn})
			}
		}
	}
	return l.rows
}

// picture is the fabric as the grid has it.
func picture(p *pattern.Pattern) [][]pattern.Cell {
	var rows [][]pattern.Cell
	for row := 1; row <= p.Grid.Rows(); row++ {
		rows = append(rows, slices.Clone(p.Grid.Row(row).Cells()))
	}
	return rows
}
