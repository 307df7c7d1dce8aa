package adopt_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/adopt"
)

// The stitch patterns that every book of them begins with (common practice, no source), each as needle
// texts have it flat and in the round, and its fabric by a formula of row and column: row
// 1 at the bottom, column 1 at the right, where a round and a right-side row begin. The
// formulas know nothing of rows or of swapping.
var stitchPatterns = []struct {
	name      string
	kind      adopt.Kind
	flat      []string
	flatPegs  []int
	round     []string
	roundPegs []int
	rows      int
	purl      func(row, col int) bool
	lead      int // stitches before the star of row 1: a tube begins behind them
}{
	{
		name: "plain", kind: adopt.Plain, rows: 2,
		flat: []string{"Row 1 (RS): knit", "Row 2 (WS): purl"}, flatPegs: []int{1, 7, 40},
		round: []string{"Rnd 1: knit", "Rnd 2: knit"}, roundPegs: []int{24},
		purl: func(int, int) bool { return false },
	},
	{
		name: "garter", kind: adopt.Garter, rows: 2,
		flat: []string{"Row 1 (RS): knit", "Row 2 (WS): knit"}, flatPegs: []int{2, 7, 40},
		round: []string{"Rnd 1: knit", "Rnd 2: purl"}, roundPegs: []int{24},
		purl: func(row, _ int) bool { return row%2 == 0 },
	},
	{
		name: "1x1 rib", kind: adopt.Rib, rows: 2,
		flat:     []string{"Row 1 (RS): k1, *p1, k1; rep from * to end", "Row 2 (WS): p1, *k1, p1; rep from * to end"},
		flatPegs: []int{5, 7, 41},
		round:    []string{"Rnds 1-2: *k1, p1; rep from * around"}, roundPegs: []int{4, 36},
		purl: func(_, col int) bool { return col%2 == 0 }, lead: 1,
	},
	{
		name: "2x2 rib", kind: adopt.Rib, rows: 2,
		flat:     []string{"Row 1 (RS): *k2, p2; rep from * to last 2 sts, k2", "Row 2 (WS): p2, *k2, p2; rep from * to end"},
		flatPegs: []int{6, 10, 42},
		round:    []string{"Rnds 1-2: *k2, p2; rep from * around"}, roundPegs: []int{8, 36},
		purl: func(_, col int) bool { return (col-1)/2%2 == 1 },
	},
	{
		name: "seed", kind: adopt.Seed, rows: 2,
		flat:     []string{"Row 1 (RS): k1, *p1, k1; rep from * to end", "Row 2 (WS): k1, *p1, k1; rep from * to end"},
		flatPegs: []int{5, 7, 41},
		round:    []string{"Rnd 1: *k1, p1; rep from * around", "Rnd 2: *p1, k1; rep from * around"}, roundPegs: []int{4, 36},
		purl: func(row, col int) bool { return (row+col)%2 == 1 }, lead: 1,
	},
	{
		name: "double seed", kind: adopt.DoubleSeed, rows: 4,
		flat: []string{"Row 1 (RS): k1, *p1, k1; rep from * to end", "Row 2: p1, *k1, p1; rep from * to end",
			"Row 3: p1, *k1, p1; rep from * to end", "Row 4: k1, *p1, k1; rep from * to end"},
		flatPegs: []int{5, 7, 41},
		round:    []string{"Rnds 1-2: *k1, p1; rep from * around", "Rnds 3-4: *p1, k1; rep from * around"}, roundPegs: []int{4, 36},
		purl: func(row, col int) bool { return ((row-1)/2+col)%2 == 0 }, lead: 1,
	},
	{
		name: "basket of 4 by 4", kind: adopt.Basket, rows: 8,
		flat: []string{"Row 1 (RS): *k4, p4; rep from * to last 4, k4", "Row 2 (WS): *p4, k4; rep from * to last 4, p4",
			"Rows 3-4: rep rows 1-2", "Row 5 (RS): *p4, k4; rep from * to last 4, p4", "Row 6 (WS): *k4, p4; rep from * to last 4, k4", "Rows 7-8: rep rows 5-6"},
		flatPegs: []int{12, 20, 44},
		round:    []string{"Rnds 1-4: *k4, p4; rep from * around", "Rnds 5-8: *p4, k4; rep from * around"}, roundPegs: []int{16, 40},
		purl: func(row, col int) bool { return ((row-1)/4+(col-1)/4)%2 == 1 },
	},
	{
		name: "welt of 3 and 3", kind: adopt.Welt, rows: 6,
		flat:     []string{"Row 1 (RS): knit", "Row 2 (WS): purl", "Row 3: knit", "Row 4: knit", "Row 5: purl", "Row 6: knit"},
		flatPegs: []int{5, 30},
		round:    []string{"Rnds 1-3: knit", "Rnds 4-6: purl"}, roundPegs: []int{30},
		purl: func(row, _ int) bool { return (row-1)/3%2 == 1 },
	},
}

func TestStitchPatternsOfNeedlesComeOutOnTheLoom(t *testing.T) {
	for _, s := range stitchPatterns {
		t.Run(s.name, func(t *testing.T) {
			for _, pegs := range s.flatPegs {
				again := append(append([]string{}, s.flat...), fmt.Sprintf("Rep rows 1-%d 2 more times", s.rows))
				a := must(t, adopt.Options{From: adopt.Needles, Pegs: pegs}, again...)
				assert.Equal(t, 3*s.rows, len(a.Rows))
				cellByCell(t, a, s.purl)
				assert.Equal(t, s.kind, a.Fabric.Kind, "%s on %d pegs", a.Fabric, pegs)
			}
			for _, pegs := range s.roundPegs {
				a := must(t, adopt.Options{From: adopt.Round, Pegs: pegs}, s.round...)
				assert.Equal(t, pattern.Tube, a.Pattern.Form)
				cellByCell(t, a, s.purl)
				assert.Equal(t, s.kind, a.Fabric.Kind, "%s on %d pegs", a.Fabric, pegs)
			}
		})
	}
}

func TestStitchPatternsGoFromPanelToTubeAndBack(t *testing.T) {
	for _, s := range stitchPatterns {
		pegs := s.roundPegs[len(s.roundPegs)-1]
		t.Run(s.name, func(t *testing.T) {
			tube := must(t, adopt.Options{From: adopt.Needles, Want: adopt.WantTube, Pegs: pegs}, s.flat...)
			assert.Equal(t, pegs, tube.Pattern.Pegs)
			cellByCell(t, tube, func(row, col int) bool { return s.purl(row, col+s.lead) })
			panel := must(t, adopt.Options{From: adopt.Round, Want: adopt.WantPanel}, append([]string{fmt.Sprintf("Cast on %d", pegs)}, s.round...)...)
			for _, row := range []int{1, len(panel.Rows)} {
				assert.Equal(t, seen(panel, row), reversed(seen(panel, row)), "both edges are alike")
			}
			assert.Equal(t, s.kind, panel.Fabric.Kind)
		})
	}
}

func reversed(s string) string {
	var b strings.Builder
	for i := len(s) - 1; i >= 0; i-- {
		b.WriteByte(s[i])
	}
	return b.String()
}

// cellByCell holds a fabric against a formula of row and column.
func cellByCell(t *testing.T, a *adopt.Adopted, purl func(row, col int) bool) {
	t.Helper()
	for row := 1; row <= len(a.Rows); row++ {
		cells := a.Pattern.Grid.Row(row).Cells()
		for col := 1; col <= len(cells); col++ {
			want := pattern.Knit
			if purl(row, col) {
				want = pattern.Purl
			}
			require.Equal(t, want, cells[len(cells)-col].Stitch, "row %d, column %d from the right", row, col)
		}
	}
}
