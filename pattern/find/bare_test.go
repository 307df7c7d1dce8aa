package find_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/patterntest"
)

// bareRows are the rows of the model's stitches under which a column, cut there, shows a look.
func (m *model) bareRows(s *sight, c find.Clue) []find.Bare {
	col := m.col(c.Peg)
	p := s.pegs[col]
	if !p.loop {
		return nil
	}
	lowest := 1
	if m.bareFromCastOn(s, c.Peg) {
		lowest = 0
	}
	var bare []find.Bare
	for left := len(p.column); left >= lowest; left-- {
		if fitsColumn(peg{loop: true, column: p.column[:left]}, c) {
			row := 0
			if left > 0 {
				row = p.column[left-1].row
			}
			bare = append(bare, find.Bare{Row: row, Rungs: len(p.column) - left})
		}
	}
	return bare
}

// bareFromCastOn tells whether a column goes down to the cast-on: one that began on the way
// has no loop there.
func (m *model) bareFromCastOn(s *sight, number int) bool {
	for row := 1; row < s.row; row++ {
		if m.o.Pattern.Grid.Row(row).Cells()[m.col(number)].Stitch == pattern.NoStitch {
			return false
		}
	}
	return true
}

// Pegs lose their loops, and those run down by up to three rows. What is read below each names
// just the rows at which the column would show it, and the true one is among them.
func TestEachBarePegIsReadOnItsOwn(t *testing.T) {
	tried, alone := 0, 0
	try := func(t require.TestingT, m *model, rnd *rand.Rand) {
		s := m.sights[rnd.IntN(len(m.sights))]
		at := find.Fit{Row: s.row, From: s.done}.Place(m.o.Pattern)
		for range 4 {
			number := 1 + rnd.IntN(m.o.Pattern.Pegs)
			p := s.pegs[m.col(number)]
			down := min(rnd.IntN(4), len(p.column))
			fallen := peg{loop: p.loop, column: p.column[:len(p.column)-down]}
			c, ok := m.toldColumn(fallen, find.Clue{Kind: find.Look, Peg: number}, rnd.IntN)
			if !ok {
				continue
			}
			want := m.bareRows(s, c)
			got := find.BareAt(m.o, at, c)
			require.Equal(t, want, got, "row %d, %d done, peg %d let down %d: %v", s.row, s.done, number, down, c.Seen)
			if len(fallen.column) > 0 || m.bareFromCastOn(s, number) {
				rungs := []int{}
				for _, b := range got {
					rungs = append(rungs, b.Rungs)
				}
				require.Contains(t, rungs, down)
			}
			tried++
			if len(got) == 1 {
				alone++
			}
		}
	}
	rnd := rand.New(rand.NewPCG(8, 6))
	for _, name := range examples.Names() {
		m := exampleModel(t, name, pattern.RightHand)
		for range 40 {
			try(t, m, rnd)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		p, errs := pattern.Build(patterntest.Plans().Draw(t, "plan"))
		if len(errs) > 0 {
			t.Skip("not a pattern")
		}
		m := newModel(pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(t, "way")})
		try(t, m, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1)))
	})
	t.Logf("%d bare pegs read, %d of them name one row", tried, alone)
	assert.Greater(t, tried, 500)
}

// Twenty of sixty pegs have lost their loops, some a row or two lower (a case told by people who
// knit; common practice, no source). In a repeat of four rows each peg says by three stitches
// how far it has run, up to a whole repeat; in garter only the rungs tell.
func TestTwentyOfSixtyPegsHaveLostTheirLoops(t *testing.T) {
	plan := patterntest.Drawn("|", "-", "-", "|")
	plan.Pegs, plan.Zones[0].Rows = 60, 40
	for i, l := range plan.Zones[0].Strips[0].Lines {
		cells := make([]pattern.Cell, 60)
		for j := range cells {
			cells[j] = l.Cells[0]
		}
		plan.Zones[0].Strips[0].Lines[i].Cells = cells
	}
	plan.Zones[0].Strips[0].Pegs = 60
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	m := newModel(o)
	at := noted(31)
	for peg := 21; peg <= 40; peg++ {
		down := peg % 3
		column := m.sights[31*60].pegs[m.col(peg)].column
		c, _ := m.toldColumn(fell(column, down), find.Clue{Kind: find.Look, Peg: peg}, func(n int) int { return min(2, n-1) })
		require.Len(t, c.Seen, 3)
		got := find.BareAt(o, at, c)
		assert.Equal(t, find.Bare{Row: 31 - down, Rungs: down}, got[0])
		assert.Equal(t, 27-down, got[1].Row, "a whole repeat lower it looks the same")
	}
	garter := garter(t, 60, 20)
	seen := []find.Seen{find.V, find.Bump, find.V}
	got := find.BareAt(garter, at, find.Clue{Kind: find.Look, Peg: 30, Seen: seen})
	assert.Equal(t, []find.Bare{{31, 0}, {29, 2}, {27, 4}}, got[:3], "an even number of rungs")
	assert.Equal(t, seen, find.Shown(garter, at, 30, 3))
	assert.Len(t, find.Shown(garter, noted(1), 30, 3), 1)
}

func fell(column []knot, down int) peg {
	return peg{loop: true, column: column[:len(column)-down]}
}
