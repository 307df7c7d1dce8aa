package file

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// What people at the pegs ask of directions, charts and edges, with the right answers. Common practice, no source; the
// counts are arithmetic.

func orderOf(t *testing.T, text string, hand pattern.Hand) pattern.Order {
	t.Helper()
	p, found := Load("asked.toml", []byte(text))
	require.NotNil(t, p, "%v", found)
	return pattern.Order{Pattern: p, Way: p.WayFor(hand)}
}

func workedRow(o pattern.Order, row int) string { return rowtext.Print(rowtext.RunsOf(o, row)) }

func TestAChartsReturningRowIsReadTheOtherWay(t *testing.T) {
	// K3, P6, K1 as seen from the right, on row 2, which runs left to right: worked K1, P6, K3.
	o := orderOf(t, "pattern = 1\npegs = 10\n[[zone]]\nname = 'motif'\nchart = '''\n|------|||\n||||||||||'''\n", pattern.RightHand)
	assert.Equal(t, pattern.ToRight, o.Direction(2))
	assert.Equal(t, "k1, p6, k3", workedRow(o, 2))
}

func TestTheLowestLineOfAChartIsWorkedFirst(t *testing.T) {
	// A heart 6 wide and 5 high with its point on the last line: row 1 has the point.
	const heart = "pattern = 1\npegs = %d\n[[zone]]\nname = 'heart'\nchart = '''\n|-||-|\n------\n------\n|----|\n||--||'''\n"
	o := orderOf(t, strings.Replace(heart, "%d", "6", 1), pattern.RightHand)
	assert.Equal(t, "||--||", seen(o.Pattern, 1))
	assert.Equal(t, "|-||-|", seen(o.Pattern, 5))
	// Used for another width it is refused, not turned.
	p, found := Load("asked.toml", []byte(strings.Replace(heart, "%d", "5", 1)))
	assert.Nil(t, p)
	assert.ErrorContains(t, found.Err(), "5")
}

func TestASlippedEdgePegIsOneOfThosePegs(t *testing.T) {
	// 30 pegs, the first of each row skipped: 30 are cast on; odd rows skip peg 1, even rows peg 30, and 29 are worked.
	o := orderOf(t, "pattern = 1\npegs = 30\n[[zone]]\nname = 'field'\nrows = ['k']\ntimes = 6\nedge = 'slip'\n", pattern.RightHand)
	assert.Equal(t, 30, o.Pattern.CastOnLoops())
	for row := 1; row <= 6; row++ {
		assert.Equal(t, "sl1, k29", workedRow(o, row), "row %d", row)
		peg := 1
		if row%2 == 0 {
			peg = 30
		}
		for col, c := range o.Pattern.Grid.Row(row).Cells() {
			assert.Equal(t, o.Peg(col) == peg, c.Stitch == pattern.Slip, "row %d peg %d", row, o.Peg(col))
		}
	}
}

func TestTurningPegsStandBesideTheChart(t *testing.T) {
	// A chart 34 wide with a turning peg at each end, which is knit at the end of every row, purl rows too: 36 are cast
	// on, 35 worked, and the chart's first stitch is peg 2.
	text := "pattern = 1\npegs = 36\n[[zone]]\nname = 'field'\nedge = 'slip'\nsides = 1\nside_rows = ['k']\nchart = '''\n" +
		strings.Repeat("-", 34) + "\n" + strings.Repeat("|", 33) + "-'''\n"
	o := orderOf(t, text, pattern.RightHand)
	assert.Equal(t, 36, o.Pattern.CastOnLoops())
	assert.Equal(t, "sl1, p1, k34", workedRow(o, 1), "the purl at the right of the chart is peg 2")
	assert.Equal(t, 2, o.Peg(o.Column(1, 1)))
	assert.Equal(t, "sl1, p34, k1", workedRow(o, 2))
	for row := 1; row <= 2; row++ {
		assert.Equal(t, 35, o.Pattern.Grid.Row(row).Stitches()-1, "one of them is skipped")
	}
}

func TestTheOtherHandReadsTheSameWordFromItsOwnEnd(t *testing.T) {
	// Row 5 of a word: K4, P2, K10, P4, K4 on 24 pegs; the left-hander's is K4, P4, K10, P2, K4.
	text := "pattern = 1\npegs = 24\n[[zone]]\nname = 'word'\nrows = ['k', 'k', 'k', 'k', 'k4, p2, k10, p4, k4', 'k']\n"
	right, left := orderOf(t, text, pattern.RightHand), orderOf(t, text, pattern.LeftHand)
	assert.Equal(t, "k4, p2, k10, p4, k4", workedRow(right, 5))
	assert.Equal(t, "k4, p4, k10, p2, k4", workedRow(left, 5))
	assert.Equal(t, seen(right.Pattern, 5), seen(left.Pattern, 5))
}

func TestACrossGoesByWhatIsSeenForEitherHand(t *testing.T) {
	// One strand in front of two, leaning right: for the right hand pegs 3, 2, 1 from the left. The strand that starts at
	// the left ends at the right, in front; for a right-hander peg 3 goes to peg 1, pegs 1 and 2 move to 2 and 3.
	text := "pattern = 1\npegs = 3\n[[zone]]\nname = 'cross'\nrows = ['k', '1/2rc']\n"
	for _, hand := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
		o := orderOf(t, text, hand)
		moves := map[int]int{}
		for _, m := range o.Pattern.Moves(2) {
			moves[o.Peg(m.From)] = o.Peg(m.To)
			assert.Equal(t, m.From == 0, m.Front, "the strand from the left lies in front")
		}
		want := map[int]int{3: 1, 1: 2, 2: 3}
		if hand == pattern.LeftHand {
			want = map[int]int{1: 3, 2: 1, 3: 2}
		}
		assert.Equal(t, want, moves, "%s hand", hand)
	}
}
