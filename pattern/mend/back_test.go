package mend_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/pattern/patterntest"
)

// TestWorkTakenBackAndWorkedAgainIsTheFabric undoes stitches of the model as the plan lists
// them: each must be the newest there is.
func TestWorkTakenBackAndWorkedAgainIsTheFabric(t *testing.T) {
	whole, pegwise := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		o := drawn(rt, t)
		p := o.Pattern
		n := rapid.IntRange(1, p.Grid.Rows()*p.Pegs).Draw(rt, "done")
		m := rapid.IntRange(0, n-1).Draw(rt, "back to")
		if rapid.Bool().Draw(rt, "to a row's start") {
			m -= m % p.Pegs
		}
		f, want := newFabric(o), newFabric(o)
		f.workTo(n/p.Pegs, n%p.Pegs)
		want.workTo(m/p.Pegs, m%p.Pegs)
		full := f.copy()
		b, err := mend.BackTo(o, placeAfter(p, n), placeAfter(p, m))
		require.NoError(rt, err)
		require.Equal(rt, n-m, b.Stitches)
		for _, u := range b.Undo {
			first, last := b.Pegs(u)
			for i := range u.Len() {
				s := f.unknit()
				require.Equal(rt, u.Row, s.row)
				require.Equal(rt, u.To-1-i, slices.Index(f.order(s.row), s.col))
				if i == 0 {
					require.Equal(rt, f.peg(s.col), first)
				}
				if i == u.Len()-1 {
					require.Equal(rt, f.peg(s.col), last)
				}
			}
		}
		require.Equal(rt, want, f)
		require.Equal(rt, m/p.Pegs, b.RowsLeft)
		require.Equal(rt, loopsOf(want, m), b.Loops)
		require.Equal(rt, b.Line, b.RowsLeft, "nothing crosses here")
		for i := range b.Len() {
			require.NotEmpty(rt, b.Words(i))
		}
		f.workTo(n/p.Pegs, n%p.Pegs)
		require.Equal(rt, full, f, "worked again")
		if b.OffTheLoom {
			whole++
			require.Zero(rt, m%p.Pegs)
			return
		}
		pegwise++
		require.Equal(rt, b.Stitches+1, b.Len())
	})
	t.Logf("%d times off the loom, %d times peg by peg", whole, pegwise)
	enough(t, whole, pegwise)
}

// loopsOf is what is on the model's pegs, from where the yarn comes out: when a row is under
// way, back over its stitches and then on over the others; else as the next row goes.
func loopsOf(f *fabric, done int) []mend.Loop {
	var loops []mend.Loop
	cols := f.order(done/f.o.Pattern.Pegs + 1)
	more := done % f.o.Pattern.Pegs
	slices.Reverse(cols[:more])
	for _, col := range cols {
		loops = append(loops, mend.Loop{Col: col, Row: f.top(col)})
	}
	return loops
}

// TestLoopsOfLaceGoBackWhereTheyWere holds the loops on the pegs, at every row of a piece with
// cables, lace and shaping, against loops that are handed on stitch by stitch.
func TestLoopsOfLaceGoBackWhereTheyWere(t *testing.T) {
	for _, form := range []pattern.Form{pattern.Panel, pattern.Tube} {
		p := patterntest.Build(t, patterntest.Lace(form))
		o := pattern.Order{Pattern: p, Way: p.Way}
		end := pattern.Place{Phase: pattern.BindingOff}
		var loops []mend.Loop // left to right
		for col, c := range p.Grid.Row(1).Cells() {
			if c.Stitch != pattern.NoStitch {
				loops = append(loops, mend.Loop{Col: col})
			}
		}
		for row := 1; row <= p.Grid.Rows(); row++ {
			b, err := mend.BackTo(o, end, pattern.Place{Phase: pattern.Working, Row: row})
			require.NoError(t, err)
			assert.ElementsMatch(t, loops, b.Loops, "before row %d", row)
			loops = workRow(p, row, loops)
		}
		_, err := mend.BackTo(o, end, pattern.Place{Phase: pattern.Working, Row: 4, Done: 5})
		assert.ErrorContains(t, err, form.RowWord()+" 4 moves loops")
	}
}

// workRow hands loops on through a row.
func workRow(p *pattern.Pattern, row int, loops []mend.Loop) []mend.Loop {
	var now []mend.Loop
	for col, c := range p.Grid.Row(row).Cells() {
		n := c.Stitch.LoopsIn()
		if cross, part, ok := c.Stitch.Cross(); ok && part == 0 {
			// as many strands as lie in front start at the side away from where they lean to
			k := cross.Back
			if cross.Lean == pattern.Right {
				k = cross.Front
			}
			w := cross.Width()
			loops = slices.Concat(loops[k:w], loops[:k], loops[w:])
		}
		made := mend.Loop{Col: col, Row: row}
		if c.Stitch == pattern.Slip || c.Stitch == pattern.SlipFront {
			made.Row = loops[0].Row
		}
		if loops = loops[n:]; c.Stitch != pattern.NoStitch {
			now = append(now, made)
		}
	}
	return now
}

func TestAPlaceThatIsNoEarlierOneIsRefused(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(12, 3, 2, 6))
	o := pattern.Order{Pattern: p, Way: p.Way}
	at := pattern.Place{Phase: pattern.Working, Row: 5, Done: 3}
	for _, c := range []struct {
		from, to pattern.Place
		want     error
	}{
		{at, at, mend.ErrNotBack},
		{at, pattern.Place{Phase: pattern.Working, Row: 6}, mend.ErrNotBack},
		{at, pattern.Place{Phase: pattern.Working, Row: 99}, mend.ErrNoPlace},
		{at, pattern.Start(), mend.ErrNoPlace},
		{pattern.Place{Phase: pattern.Finishing}, at, mend.ErrOffLoom},
	} {
		_, err := mend.BackTo(o, c.from, c.to)
		assert.ErrorIs(t, err, c.want)
	}
}

// TestABindOffIsTakenBackLoopByLoop goes from the middle of a bind-off into the rows.
func TestABindOffIsTakenBackLoopByLoop(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(6, 1, 2, 4))
	o := pattern.Order{Pattern: p, Way: p.Way}
	last := p.Grid.Rows()
	b, err := mend.BackTo(o, pattern.Place{Phase: pattern.BindingOff, Done: 2}, pattern.Place{Phase: pattern.Working, Row: last, Done: 5})
	require.NoError(t, err)
	assert.Equal(t, []mend.Undone{
		{Phase: pattern.BindingOff, From: 0, To: 2},
		{Phase: pattern.Working, Row: last, From: 5, To: 6},
	}, b.Undo)
	assert.Equal(t, "bind-off: lift its last loop, pull the yarn back out of it and hang the loop on peg 5 again", b.Words(0))
}
