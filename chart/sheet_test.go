package chart_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/pattern/safetext"
)

func TestTheRowInHandIsMarkedAndWhatIsToComeIsFaint(t *testing.T) {
	at := chart.At{Active: true, Row: 4, Done: 3}
	s, ok := build(t, frame(), chart.Style{}).Sheet(60, at)
	require.True(t, ok)
	leaf := s.Leaf(s.Parts()[0], 2, 6)
	assert.Equal(t, picture(`
		      9               1     ridge
		        ▾           ▾
		  6 → ━ ━ ━ ━ ━ ━ ━ ━ ━         3 ╮ top border
		      ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ← 5       ╯
		▸ 4 → ━ ━┆─[│]─ │ ─┆━ ━         2 ╮ field
		      ┃ ┃┆│ ─ │ ─ │┆┃ ┃ ← 3       ╯
		  2 → ━ ━ ━ ━ ━ ━ ━ ━ ━         1 ╴ bottom border
		        ▴           ▴
		      9               1
	`), append(append(leaf.Head, leaf.Rows...), leaf.Foot...))

	s, _ = build(t, frame(), chart.Style{Painter: tagged{}}).Sheet(60, at)
	rows := s.Leaf(s.Parts()[0], 3, 5).Rows
	assert.Contains(t, rows[0], "border coming{┃}")
	assert.NotContains(t, rows[0], "border{")
	assert.Contains(t, rows[1], "in hand{▸} in hand{4 →} border{━} border{━}faint{┆}field{─}in hand{[}in hand{│}in hand{]}field coming{─}")
	assert.NotContains(t, rows[2], "coming")
}

// At pitch 1 there is no room for brackets: the column in hand is pointed at from above.
func TestANarrowSheetPointsAtThePegInHand(t *testing.T) {
	at := chart.At{Active: true, Row: 4, Done: 3}
	s, ok := build(t, frame(), chart.Style{}).Sheet(24, at)
	require.True(t, ok)
	leaf := s.Leaf(s.Parts()[0], 3, 5)
	assert.Equal(t, picture(`
		      9       1
		       ▾ ▼   ▾
		      ┃┃┃┃┃┃┃┃┃ ← 5
		▸ 4 → ━━─│─│─━━
		      ┃┃│─│─│┃┃ ← 3
	`), append(leaf.Head, leaf.Rows...))
	assert.Contains(t, s.Leaf(s.Parts()[0], 4, 7).Head[1], "▼")
	assert.Contains(t, s.Leaf(s.Parts()[0], 1, 4).Head[1], "▼")
	assert.NotContains(t, s.Leaf(s.Parts()[0], 5, 7).Head[1], "▼", "the row in hand is not seen")
}

func TestNothingMovesSidewaysWhileRowsAreScrolled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := fabric(t)
		rows := o.Pattern.Grid.Rows()
		width := rapid.IntRange(1, 90).Draw(t, "width")
		s, ok := chart.New(o, chart.Style{}).Sheet(width, place(t, o.Pattern))
		if !ok {
			return
		}
		part := rapid.SampledFrom(s.Parts()).Draw(t, "part")
		all := s.Leaf(part, 1, rows)
		require.Len(t, all.Rows, rows)
		first := rapid.IntRange(1, rows).Draw(t, "first")
		last := rapid.IntRange(first, rows).Draw(t, "last")
		some := s.Leaf(part, first, last)
		assert.Len(t, some.Head, s.Rulers())
		assert.Len(t, some.Foot, s.Rulers())
		assert.Equal(t, all.Head[0], some.Head[0])
		for i, line := range some.Rows {
			row := last - i
			// Beyond the stitches stand the names of zones, which lie where they are seen.
			n := strings.LastIndexAny(line, "╮│╯╴") // may be a stitch: then all of the line is compared up to it
			n = max(n, 0)
			assert.True(t, strings.HasPrefix(all.Rows[rows-row], line[:n]), "row %d", row)
		}
		for _, lines := range [][]string{some.Head, some.Rows, some.Foot, some.Key} {
			for _, line := range lines {
				assert.LessOrEqual(t, safetext.Width(line), width)
			}
		}
	})
}

func TestALeafReadsWhatItShowsOnce(t *testing.T) {
	for _, rows := range []int{200, 20_000} {
		p := blanket(t, rows)
		c, n := counted(p, chart.Style{})
		s, ok := c.Sheet(80, chart.At{Active: true, Row: 100})
		require.True(t, ok)
		assert.Zero(t, *n)
		part := s.Parts()[0]
		s.Leaf(part, 90, 104)
		assert.Equal(t, 15*(part.To-part.From), *n)
	}
	p := patterntest.Build(t, patterntest.Frame(4000, 3, 3, 87))
	c, n := counted(p, chart.Style{})
	s, _ := c.Sheet(80, chart.At{Active: true, Row: 50})
	for _, part := range s.Parts() {
		*n = 0
		s.Leaf(part, 40, 54)
		assert.LessOrEqual(t, *n, 15*80)
	}
}

func TestASheetThatHasNoRoomSaysSo(t *testing.T) {
	p := patterntest.Build(t, frame())
	for _, width := range []int{-3, 0, 1, 2} {
		_, ok := chart.New(pattern.Order{Pattern: p, Way: p.Way}, chart.Style{}).Sheet(width, chart.At{})
		assert.False(t, ok, "%d", width)
	}
}
