package mend_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/pattern/patterntest"
)

// wrongly is a slip in the model: rows as they were worked on a peg, one of them with the
// other face on some of the pegs.
type wrongly struct {
	slip mend.Slip
	row  int
	cols []int
}

// hangs is what a column shows, bottom first, when rows up to top were worked with a slip.
func (w wrongly) hangs(p *pattern.Pattern, col, top int) []mend.Seen {
	var seen []mend.Seen
	for row := 1; row <= top; row++ {
		s := p.Grid.Row(row).Cells()[col].Stitch
		if s == pattern.Slip || w.slip == mend.SkippedRow && row == w.row ||
			w.slip == mend.MissedPeg && row == w.row && slices.Contains(w.cols, col) {
			continue
		}
		look := mend.V
		if (s == pattern.Purl) != (w.slip == mend.WrongStitch && row == w.row && slices.Contains(w.cols, col)) {
			look = mend.Bump
		}
		if seen = append(seen, look); w.slip == mend.DoubledRow && row == w.row {
			seen = append(seen, look)
		}
	}
	return seen
}

// counts is what a person counts of it: all, or so many from one end.
func counts(seen []mend.Seen, n int, top bool) []mend.Seen {
	if n > len(seen) {
		return nil
	}
	if top {
		return seen[len(seen)-n:]
	}
	return seen[:n]
}

// every is every slip that there can be, a wrong or a missed stitch in any of the columns looked at.
func every(cols, tops []int, complete int) []wrongly {
	all := []wrongly{{}}
	var late []wrongly // every peg that is counted was missed
	for _, s := range []mend.Slip{mend.WrongStitch, mend.MissedPeg} {
		for row := 1; row <= slices.Max(tops); row++ {
			for set := 1; set < 1<<len(cols); set++ {
				w := wrongly{slip: s, row: row}
				for i, col := range cols {
					if set>>i&1 == 1 {
						w.cols = append(w.cols, col)
					}
				}
				if s == mend.MissedPeg && len(w.cols) > 1 && len(w.cols) == len(cols) {
					late = append(late, w)
				} else {
					all = append(all, w)
				}
			}
		}
	}
	for _, s := range []mend.Slip{mend.SkippedRow, mend.DoubledRow} {
		for row := 1; row <= complete; row++ {
			all = append(all, wrongly{slip: s, row: row})
		}
	}
	return append(all, late...)
}

// TestCompareFindsAllThatCannotBeToldApart slips at random and holds the answer against every
// slip that would show the same.
func TestCompareFindsAllThatCannotBeToldApart(t *testing.T) {
	tried := map[mend.Slip]int{}
	rapid.Check(t, func(rt *rapid.T) {
		o := drawn(rt, t)
		at, rows, more := drawnPlace(rt, o.Pattern, "done")
		f := newFabric(o)
		f.workTo(rows, more)
		cols := rapid.SliceOfNDistinct(rapid.IntRange(0, o.Pattern.Pegs-1), 1, min(3, o.Pattern.Pegs), rapid.ID[int]).Draw(rt, "cols")
		tops := make([]int, len(cols))
		for i, col := range cols {
			tops[i] = rows
			if slices.Contains(f.order(rows + 1)[:more], col) {
				tops[i]++
			}
		}
		fromTop := rapid.Bool().Draw(rt, "from the top")
		hypotheses := every(cols, tops, rows)
		if slices.Max(tops) == 0 {
			return
		}
		slip := rapid.IntRange(int(mend.Nothing), int(mend.DoubledRow)).Draw(rt, "slip")
		slipped := slices.DeleteFunc(slices.Clone(hypotheses), func(w wrongly) bool { return int(w.slip) != slip })
		if len(slipped) == 0 {
			return // no row is complete yet
		}
		truth := rapid.SampledFrom(slipped).Draw(rt, "truth")
		var looks []mend.Looks
		parts := make([]int, len(cols))
		for i, col := range cols {
			seen := truth.hangs(o.Pattern, col, tops[i])
			if len(seen) == 0 {
				return
			}
			parts[i] = -1
			if rapid.Bool().Draw(rt, "part") {
				parts[i] = rapid.IntRange(1, len(seen)).Draw(rt, "counted")
				seen = counts(seen, parts[i], fromTop)
			}
			looks = append(looks, mend.Looks{Peg: f.peg(col), Seen: seen, FromTop: fromTop, Part: parts[i] >= 0})
		}
		got, err := mend.Compare(o, at, looks)
		require.NoError(rt, err)

		shows := func(w wrongly) (all [][]mend.Seen) {
			for i, col := range cols {
				seen := w.hangs(o.Pattern, col, tops[i])
				if parts[i] >= 0 {
					seen = counts(seen, parts[i], fromTop)
				}
				all = append(all, seen)
			}
			return all
		}
		saw, right := fmt.Sprint(shows(truth)), shows(wrongly{})
		var want []mend.Found
		for _, w := range hypotheses {
			is := shows(w)
			if fmt.Sprint(is) != saw {
				continue
			}
			if (w.slip == mend.WrongStitch || w.slip == mend.MissedPeg) && !slices.EqualFunc(w.cols, w.cols, func(col, _ int) bool {
				i := slices.Index(cols, col)
				return !slices.Equal(is[i], right[i]) // what can't be seen to be wrong is not told as wrong
			}) {
				continue
			}
			want = append(want, mend.Found{Slip: w.slip, Row: w.row, Cols: w.cols})
		}
		require.Equal(rt, want, got.Fits)
		tried[truth.slip]++
	})
	t.Log("slips tried:", tried)
	enough(t, tried[mend.Nothing], tried[mend.WrongStitch], tried[mend.MissedPeg], tried[mend.SkippedRow], tried[mend.DoubledRow])
}

// TestTheFirstDifferenceIsTheFirstCounted counts a column of garter with a skipped row from
// either end.
func TestTheFirstDifferenceIsTheFirstCounted(t *testing.T) {
	o := garter(t, 5, 12)
	at := pattern.Place{Phase: pattern.Working, Row: 11}
	missed := func(row int) mend.Found { return mend.Found{Slip: mend.MissedPeg, Row: row, Cols: []int{3}} }
	for _, c := range []struct {
		text    string
		fromTop bool
		first   int
		fits    []mend.Found
	}{
		{"2=vbvbvbvbvb", false, 0, []mend.Found{{Slip: mend.Nothing}}},
		{"2=vbvbvvbvb", false, 6, []mend.Found{missed(6), {Slip: mend.SkippedRow, Row: 6}}},
		{"2=bvbvvbvbv", true, 6, []mend.Found{missed(6), {Slip: mend.SkippedRow, Row: 6}}},
		{"2=vbvbvvbvbvb", false, 6, []mend.Found{{Slip: mend.DoubledRow, Row: 5}}},
		{"2=vbvbvvvbvb", false, 6, []mend.Found{{Slip: mend.WrongStitch, Row: 6, Cols: []int{3}}}},
		{"2=vbvbvbvbv", false, 10, []mend.Found{missed(10), {Slip: mend.SkippedRow, Row: 10}}},
		{"2=bvbvbvbvb", true, 1, []mend.Found{missed(1), {Slip: mend.SkippedRow, Row: 1}}},
		{"2=vvbb", false, 2, nil},
		{"2=vbvv..", false, 4, []mend.Found{{Slip: mend.WrongStitch, Row: 4, Cols: []int{3}}, missed(4), {Slip: mend.SkippedRow, Row: 4}, {Slip: mend.DoubledRow, Row: 3}}},
	} {
		l, err := mend.ParseLooks(c.text, c.fromTop)
		require.NoError(t, err)
		got, err := mend.Compare(o, at, []mend.Looks{l})
		require.NoError(t, err)
		assert.Equal(t, c.fits, got.Fits, c.text)
		assert.Equal(t, c.first, got.First, c.text)
	}
}

func TestColumnsThatAreNotThereAreRefused(t *testing.T) {
	o := garter(t, 5, 12)
	at := pattern.Place{Phase: pattern.Working, Row: 3}
	for text, says := range map[string]string{
		"9=vb":   "there is no peg 9: the pattern has 5",
		"1=vbvb": "more stitches are counted than hang from that peg",
	} {
		l, err := mend.ParseLooks(text, false)
		require.NoError(t, err)
		for _, side := range []pattern.Side{pattern.Left, pattern.Right} {
			o.Way.Peg1 = side
			_, err = mend.Compare(o, at, []mend.Looks{l})
			assert.ErrorContains(t, err, says)
		}
	}
}

// TestAColumnBeginsAnewWhereThePegComesBackIntoUse: peg 2 of 3 rests in row 2.
func TestAColumnBeginsAnewWhereThePegComesBackIntoUse(t *testing.T) {
	p := patterntest.Build(t, patterntest.Drawn("|||", "|o|", `\.|`, "|||"))
	l, err := mend.ParseLooks("2=vv", false)
	require.NoError(t, err)
	c, err := mend.Compare(pattern.Order{Pattern: p, Way: p.Way}, pattern.Place{Phase: pattern.BindingOff}, []mend.Looks{l})
	require.NoError(t, err)
	assert.Contains(t, c.Fits, mend.Found{Slip: mend.Nothing})
}

// Of several missed pegs the words keep each row that they alone explain: a row under way can't
// have been skipped.
func TestEveryRowThatExplainsItIsSaid(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(12, 3, 3, 30))
	o := pattern.Order{Pattern: p, Way: p.Way}
	for rows := 8; rows <= 12; rows++ {
		at := pattern.Place{Phase: pattern.Working, Row: rows + 1, Done: 8}
		var looks []mend.Looks
		for _, peg := range []int{5, 6} { // missed in the row under way
			var seen []mend.Seen
			for row := 1; row <= rows; row++ {
				look := mend.V
				if p.Grid.Row(row).Cells()[o.ColumnOfPeg(peg)].Stitch == pattern.Purl {
					look = mend.Bump
				}
				seen = append(seen, look)
			}
			looks = append(looks, mend.Looks{Peg: peg, Seen: seen})
		}
		c, err := mend.Compare(o, at, looks)
		require.NoError(t, err)
		assert.Contains(t, strings.Join(c.Lines(o), "\n"), fmt.Sprintf("pegs 5 and 6 were not worked in row %d", rows+1))
		_, err = mend.Compare(o, at, append(looks, looks[0]))
		assert.ErrorContains(t, err, "peg 5 is told twice")
	}
}
