package find_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/find"
)

func TestPlacesNearTheNotesComeFirst(t *testing.T) {
	o := garter(t, 10, 20)
	first := func(n pattern.Place, clues ...find.Clue) []at {
		var all []at
		for _, f := range find.Search(o, find.Evidence{Noted: n, Clues: clues}).Fits[:5] {
			all = append(all, at{f.Row, f.From})
		}
		return all
	}
	assert.Equal(t, []at{{1, 0}, {2, 0}, {3, 0}, {4, 0}, {5, 0}}, first(pattern.Place{}), "without notes the ends of rows come first, from the bottom")
	assert.Equal(t, []at{{21, 0}, {22, 0}, {23, 0}, {20, 0}, {21, 1}}, first(noted(20)),
		"rather a row that was not noted than one that was not worked, and rather the end of a row than within one")
	assert.Equal(t, []at{{1, 0}, {2, 0}}, first(noted(90))[:2], "notes of a place that the piece has not are none")
	right := find.Clue{Kind: find.Yarn, Hangs: find.AtRight}
	assert.Equal(t, []at{{23, 0}, {21, 0}, {25, 0}, {27, 0}, {19, 0}}, first(noted(21), right))
	within := pattern.Place{Phase: pattern.Working, Row: 21, Done: 5}
	assert.Equal(t, []at{{22, 0}, {21, 0}}, first(within)[:2])
	for _, n := range []pattern.Place{noted(20), within, {Phase: pattern.BindingOff}} {
		for _, clues := range [][]find.Clue{nil, {right}, {{Kind: find.FromPeg, Peg: 4}}, {{Kind: find.Ridges, Count: 9}}} {
			all := find.Search(o, find.Evidence{Noted: n, Clues: clues}).Fits
			for i := 1; i < len(all); i++ {
				require.LessOrEqual(t, find.Unlikely(o, n, all[i-1]), find.Unlikely(o, n, all[i]))
			}
		}
	}
	assert.Equal(t, []at{{41, 0}, {40, 0}}, first(pattern.Place{Phase: pattern.BindingOff})[:2])
	assert.Equal(t, []at{{1, 0}, {2, 0}}, first(pattern.Place{Phase: pattern.CastingOn, Done: 3}, find.Clue{Kind: find.Yarn, Hangs: find.AtEnd})[:2])
}

func TestALengthNarrowsThePlace(t *testing.T) {
	// 10 rows of 5 mm, which a tape may find 4 mm less or more.
	o := garter(t, 4, 5)
	var heights []find.Reach
	for rows := range 11 {
		heights = append(heights, find.Reach{Low: 5*float64(rows) - 4, High: 5*float64(rows) + 4})
	}
	c := find.Clue{Kind: find.Length, Length: 22}
	a := find.Search(o, find.Evidence{Heights: heights, Clues: []find.Clue{c, {Kind: find.Yarn, Hangs: find.AtEnd}}})
	assert.Equal(t, []int{5, 6}, rowsOf(a), "4 or 5 rows are 20 or 25 mm")
	within := find.Search(o, find.Evidence{Heights: heights, Clues: []find.Clue{c, {Kind: find.Yarn, Hangs: find.Between}}})
	assert.Equal(t, []find.Fit{{Row: 4, From: 1, To: 3}, {Row: 5, From: 1, To: 3}, {Row: 6, From: 1, To: 3}}, within.Fits, "a row under way is as high as the row below, or as itself")
	unknown := find.Search(o, find.Evidence{Clues: []find.Clue{c}})
	assert.Len(t, places(unknown.Fits), 10*4+1, "without heights a length tells nothing")
	assert.Error(t, find.Check(o, find.Clue{Kind: find.Length}))
}

func TestALengthThatIsOffIsNamed(t *testing.T) {
	o := garter(t, 4, 5)
	heights := make([]find.Reach, 11)
	for rows := range heights {
		heights[rows] = find.Reach{Low: 5*float64(rows) - 4, High: 5*float64(rows) + 4}
	}
	e := find.Evidence{Heights: heights, Clues: []find.Clue{{Kind: find.Length, Length: 40}, {Kind: find.Ridges, Count: 3}, {Kind: find.Yarn, Hangs: find.AtRight}}}
	a := find.Search(o, e)
	require.Empty(t, a.Fits)
	assert.Equal(t, find.But{Fit: find.Fit{Row: 9}, Clue: 1, Off: 1}, a.But[0], "a ridge was passed over")
	assert.Equal(t, 7, a.But[1].Row)
	assert.Equal(t, 0, a.But[1].Clue, "or the length is wrong")
	assert.InDelta(t, 6/5.4, a.But[1].Off, 0.01, "by a little more than a row")
}

func TestHowFarAClueIsOff(t *testing.T) {
	o := garter(t, 46, 20)
	// Row 24 is under way, left to right, but at its end the yarn comes from peg 1 no more.
	a := find.Search(o, find.Evidence{Clues: []find.Clue{
		{Kind: find.Bumps, Peg: 46, Count: 12}, {Kind: find.Bumps, Peg: 1, Count: 11}, {Kind: find.Yarn, Hangs: find.Between}, {Kind: find.FromPeg, Peg: 1},
	}})
	assert.Empty(t, a.Fits)
	assert.Contains(t, a.But, find.But{Fit: find.Fit{Row: 24, From: 45, To: 45}, Clue: 3, Off: 1})
	for off, seen := range map[float64][]find.Seen{1.5: {find.V, find.V, find.Bump}, 2.5: {find.V, find.V, find.V}, 3.5: {find.V, find.Bump, find.V}} {
		a := find.Search(o, find.Evidence{Clues: []find.Clue{
			{Kind: find.Ridges, Count: 5}, {Kind: find.Yarn, Hangs: find.AtRight}, {Kind: find.Look, Peg: 3, Seen: seen}, {Kind: find.LastRow, Row: find.Purled},
		}})
		assert.Contains(t, a.But, find.But{Fit: find.Fit{Row: 11}, Clue: 2, Off: off})
	}
}

// A place that disagrees with one clue has no more than that against it.
func TestWhatIsNamedForOneClueAgreesWithAllOthers(t *testing.T) {
	m := exampleModel(t, "weir-cloth", pattern.RightHand)
	sights := map[at]*sight{}
	for _, s := range m.sights {
		sights[at{s.row, s.done}] = s
	}
	tried := 0
	for i := 0; i < len(m.sights); i += 37 {
		clues := m.four(m.sights[i], 1+i%m.o.Pattern.Pegs)
		clues[0].Count++
		a := find.Search(m.o, find.Evidence{Clues: clues})
		fits := map[int]bool{}
		for _, f := range a.Fits {
			fits[f.Row] = true
		}
		rows := map[[2]int]bool{}
		for _, b := range a.But {
			require.False(t, fits[b.Row], "a row that agrees wholly is not doubted")
			require.False(t, rows[[2]int{b.Row, b.Clue}], "a row is named once for a clue")
			rows[[2]int{b.Row, b.Clue}] = true
			for j, c := range clues {
				require.Equal(t, j != b.Clue, m.fits(sights[at{b.Row, b.From}], c), "%+v", b)
			}
			tried++
		}
		// No row is left out.
		for _, s := range m.sights {
			against := -1
			for j, c := range clues {
				if !m.fits(s, c) {
					if against >= 0 {
						against = -2
						break
					}
					against = j
				}
			}
			if against >= 0 && !fits[s.row] {
				require.True(t, rows[[2]int{s.row, against}], "row %d agrees with all but %s", s.row, clues[against].Kind)
			}
		}
	}
	assert.Greater(t, tried, 100)
}

func TestEvidenceIsAValue(t *testing.T) {
	e := find.Evidence{}.With(find.Clue{Kind: find.Ridges, Count: 1})
	a, b := e.With(find.Clue{Kind: find.Yarn}), e.With(find.Clue{Kind: find.LastRow})
	assert.Len(t, e.Clues, 1)
	assert.Equal(t, find.Yarn, a.Clues[1].Kind)
	assert.Equal(t, find.LastRow, b.Clues[1].Kind)
	s := e.Skip(find.Question{Kind: find.Yarn})
	assert.Empty(t, e.Skipped)
	assert.Len(t, s.Skipped, 1)
}
