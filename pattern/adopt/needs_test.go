package adopt_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/adopt"
	"bypeg/pattern/file"
	"bypeg/pattern/rowtext"
)

// What people struggle with when they read and convert rows, each with its numbers. All of
// this is arithmetic on what a row says; where a fact of the trade stands behind it, its
// source stands beside it.

// must adopts a text, and holds the file that comes of it against the rows.
func must(t *testing.T, o adopt.Options, lines ...string) *adopt.Adopted {
	t.Helper()
	a, err := adopt.Text(strings.Join(lines, "\n"), o)
	require.NoError(t, err)
	sameAsFile(t, a)
	return a
}

// sameAsFile loads the file of adopted rows and compares the fabrics, cell by cell.
func sameAsFile(t require.TestingT, a *adopt.Adopted) {
	text := a.File("Rows")
	p, diags := file.Load("rows.toml", []byte(text))
	require.NotNil(t, p, "%v\n%s", diags, text)
	require.NoError(t, diags.Err())
	require.Equal(t, a.Pattern.Form, p.Form)
	require.Equal(t, a.Pattern.Way.Row1, p.Way.Row1)
	require.Equal(t, a.Pattern.Way.Peg1, p.Way.Peg1)
	require.Equal(t, len(a.Rows), p.Grid.Rows(), text)
	require.Equal(t, a.Pattern.Grid.Pegs(), p.Grid.Pegs())
	for row := 1; row <= p.Grid.Rows(); row++ {
		require.Equal(t, a.Pattern.Grid.Row(row).Cells(), p.Grid.Row(row).Cells(), "row %d of\n%s", row, text)
	}
}

// refused is what a text that can't be adopted is told, and where: the piece of it.
func refused(t *testing.T, o adopt.Options, lines ...string) (msg, at string) {
	t.Helper()
	text := strings.Join(lines, "\n")
	_, err := adopt.Text(text, o)
	var several rowtext.Errors
	require.ErrorAs(t, err, &several)
	return several[0].Error(), text[several[0].Start:several[0].End]
}

// worked is what the pegs take on a row, in the order of work.
func worked(a *adopt.Adopted, row int) string { return rowtext.Print(a.Rows[row-1].Runs) }

// seen is a row of the fabric as it is seen: a letter a column, left to right.
func seen(a *adopt.Adopted, row int) string {
	var b strings.Builder
	for _, c := range a.Pattern.Grid.Row(row).Cells() {
		switch {
		case c.Stitch == pattern.NoStitch:
			b.WriteByte('.')
		case c.Stitch.Face() == pattern.FacePurl:
			b.WriteByte('p')
		case c.Stitch.Face() == pattern.FaceOpen:
			b.WriteByte('o')
		default:
			b.WriteByte('k')
		}
	}
	return b.String()
}

func TestARowThatComesBackIsNotMirrored(t *testing.T) {
	// A motif row is k3, p6, k1 from the right; as row 2 it is worked k1, p6, k3.
	a := must(t, adopt.Options{}, "Row 1: k10", "Row 2: k1, p6, k3")
	assert.Equal(t, "kppppppkkk", seen(a, 2), "seen from the left: the k1 is leftmost")
	b := must(t, adopt.Options{}, "Row 1: k3, p6, k1")
	assert.Equal(t, seen(b, 1), seen(a, 2), "the same picture")
}

func TestKnitARowPurlARowFromNeedlesIsPlainFabric(t *testing.T) {
	text := []string{"Row 1: knit", "Row 2: purl"}
	plain := must(t, adopt.Options{From: adopt.Needles, Side: adopt.RightSide, Pegs: 24}, text...)
	assert.Equal(t, adopt.Plain, plain.Fabric.Kind)
	assert.Equal(t, "k24", worked(plain, 1))
	assert.Equal(t, "k24", worked(plain, 2))
	assert.Contains(t, strings.Join(plain.Notes(), "\n"), "would make garter instead")
	garter := must(t, adopt.Options{Pegs: 24}, text...)
	assert.Equal(t, adopt.Garter, garter.Fabric.Kind)
	assert.Contains(t, strings.Join(garter.Notes(), "\n"), "add --from needles: there they are plain fabric")
	wrong := must(t, adopt.Options{From: adopt.Needles, Side: adopt.WrongSide, Pegs: 24}, text...)
	assert.Equal(t, adopt.ReversePlain, wrong.Fabric.Kind, "begun on the other side")
	assert.Equal(t, pattern.ToRight, wrong.Rows[0].Direction, "a wrong-side row runs left to right as it is seen")
}

func TestAGarterBorderOnNeedlesWantsPurlsOnEverySecondRowOfALoom(t *testing.T) {
	a := must(t, adopt.Options{From: adopt.Needles},
		"Cast on 40", "Row 1 (RS): knit", "Row 2 (WS): k4, p to last 4, k4", "Rows 3-20: rep rows 1-2")
	for row := 1; row <= 20; row += 2 {
		assert.Equal(t, "k40", worked(a, row))
		assert.Equal(t, "p4, k32, p4", worked(a, row+1))
	}
	assert.Equal(t, adopt.Plain, a.Fabric.Kind)
	assert.Equal(t, adopt.Frame{Sides: 4}, a.Fabric.Frame)
	assert.Contains(t, a.File(""), "sides  = 4\nrows   = [\"k\"]\ntimes  = 20\n")
}

func TestPlusStitchesStayInAPanelAndLeaveATube(t *testing.T) {
	text := []string{"Multiple of 8 plus 3", "Row 1: *k3, p5; rep from * to last 3, k3", "Row 2: p3, *k1, p1, k1, p1, k1, p3; rep from * to end"}
	assert.Equal(t, 43, must(t, adopt.Options{Pegs: 43}, text...).Pattern.Pegs, "5 x 8 + 3")
	_, err := adopt.Text(strings.Join(text, "\n"), adopt.Options{Pegs: 55})
	require.Error(t, err, "5 x 11 is a misreading: 55 is no multiple of 8 plus 3")
	tube := must(t, adopt.Options{Pegs: 40, Want: adopt.WantTube}, text...)
	assert.Equal(t, 40, tube.Pattern.Pegs)
	assert.Equal(t, "(k3, p5) x 5", fiveTimes(worked(tube, 1), "k3, p5"))
	assert.Contains(t, tube.Changes[0], "left out the 3 edge stitches")
	one := must(t, adopt.Options{Pegs: 8, Want: adopt.WantTube}, text...)
	assert.Equal(t, seen(tube, 1)[:8], seen(one, 1), "one repeat is enough where the text says which it is")
	panel := must(t, adopt.Options{From: adopt.Round, Want: adopt.WantPanel}, "Cast on 40", "Multiple of 8", "Rnd 1: *k3, p5; rep from * to end")
	assert.Equal(t, 43, panel.Pattern.Pegs, "the closing stitches come back")
	assert.Equal(t, "k3, *p5, k3; rep from * to end", rowtext.Shortest(panel.Rows[0].Runs))
}

// fiveTimes is a short form of a row that is one unit five times.
func fiveTimes(row, unit string) string {
	if row == strings.TrimSuffix(strings.Repeat(unit+", ", 5), ", ") {
		return "(" + unit + ") x 5"
	}
	return row
}

func TestAPanelBecomesATubeAndATubeAPanel(t *testing.T) {
	flat := []string{"Row 1 (RS): P1, *K3, P1*", "Row 2 (WS): K1, *P1, K1, P1, K1*"}
	tube := must(t, adopt.Options{From: adopt.Needles, Want: adopt.WantTube, Pegs: 36}, flat...)
	assert.Equal(t, pattern.Tube, tube.Pattern.Form)
	assert.Equal(t, "*k3, p1; rep from * to end", rowtext.Shortest(tube.Rows[0].Runs))
	assert.Equal(t, "*k1, p1; rep from * to end", rowtext.Shortest(tube.Rows[1].Runs))
	for _, r := range tube.Rows {
		assert.Equal(t, pattern.ToLeft, r.Direction, "all rounds go the same way")
		assert.Equal(t, 36, rowtext.Out(r.Runs))
	}
	panel := must(t, adopt.Options{From: adopt.Round, Want: adopt.WantPanel, Pegs: 37},
		"Rnd 1: *K3, P1; rep from * to end", "Rnd 2: *K1, P1, K1, P1; rep from * to end")
	back := must(t, adopt.Options{From: adopt.Needles, Pegs: 37}, flat...)
	for row := 1; row <= 2; row++ {
		assert.Equal(t, seen(back, row), seen(panel, row), "the same panel comes of both")
	}
	assert.Contains(t, panel.Changes[0], "added the edge stitch before the repeats")
}

func TestEdgesAreThoseOfAllRowsAtOnce(t *testing.T) {
	// Written alike, rows 1 and 2 have their edge at opposite sides.
	a := must(t, adopt.Options{Want: adopt.WantTube}, "Cast on 25", "Rows 1-2: p3, *k1, p1; rep from * to end")
	assert.Equal(t, 20, a.Pattern.Pegs, "25 less 2 at both sides, for the third purl goes with the repeat, in whole repeats")
	for row := 1; row <= 2; row++ {
		assert.Equal(t, strings.Repeat(seen(a, row)[:2], 10), seen(a, row))
	}
}

func TestStepsStayInOrderAsARowBecomesARound(t *testing.T) {
	a := must(t, adopt.Options{Want: adopt.WantTube}, "Cast on 12", "Row 1: k", "Row 2: k", "Row 3: *kfb, k2tog, p1; rep from * to end")
	assert.Equal(t, "kfb, k2tog, p1, kfb, k2tog, p1, kfb, k2tog, p1", worked(a, 3))
}

func TestALeanIsSeenInTheMirror(t *testing.T) {
	text := []string{"Cast on 20", "Rnd 1: k", "Rnd 2: *ssk, yo, p1, yo, k2tog; rep from * to end"}
	a := must(t, adopt.Options{From: adopt.Round, Want: adopt.WantPanel}, text...)
	assert.Equal(t, 20, a.Pattern.Pegs, "it is its own mirror already")
	text[2] = "Rnd 2: *k2tog, yo, p1, yo, k2tog; rep from * to end"
	msg, _ := refused(t, adopt.Options{From: adopt.Round, Want: adopt.WantPanel}, text...)
	assert.Contains(t, msg, "does not look alike from both sides")
}

func TestKnitTheKnitsOfAWrongSideRow(t *testing.T) {
	a := must(t, adopt.Options{From: adopt.Needles}, "Row 1 (WS): p4, k4", "Row 2: knit the knits and purl the purls")
	assert.Equal(t, []string{"kkkkpppp", "kkkkpppp"}, []string{seen(a, 1), seen(a, 2)})
	b := must(t, adopt.Options{From: adopt.Needles, Side: adopt.WrongSide}, "Row 1: p4, k4", "Row 2: knit the knits and purl the purls")
	assert.Equal(t, seen(a, 2), seen(b, 2))
}

func TestSidesMayBeginWithAPurlRowAndMustBeGarter(t *testing.T) {
	a := must(t, adopt.Options{}, "Cast on 12", "Row 1: p3, k6, p3", "Row 2: k", "Rows 3-8: rep rows 1-2")
	assert.Contains(t, a.File(""), "sides  = 3\nside_rows = [\"p\", \"k\"]\n")
	slips := must(t, adopt.Options{}, "Cast on 12", "Row 1: p3, k6, p3", "Row 2: sl3, k6, sl3", "Rows 3-8: rep rows 1-2")
	assert.NotContains(t, slips.File(""), "sides", "slips look the same and are none")
}

func TestARepeatThatIsLopsidedGetsNoEdges(t *testing.T) {
	msg, _ := refused(t, adopt.Options{From: adopt.Round, Want: adopt.WantPanel, Pegs: 0},
		"Cast on 24", "Rnd 1: *k3, p1, k1, p1; rep from * to end", "Rnd 2: *p1, k2, p3; rep from * to end")
	assert.Contains(t, msg, "the repeat of 6 stitches does not look alike from both sides")
	msg, _ = refused(t, adopt.Options{Want: adopt.WantTube}, "Row 1: k1, p2, k3, p4", "Row 2: k10")
	assert.Contains(t, msg, "no part of the rows repeats side by side")
}

func TestALetterIsNotMirroredForTheOtherHand(t *testing.T) {
	a := must(t, adopt.Options{}, "Cast on 24", "Rows 1-4: knit", "Row 5: K4, P2, K10, P4, K4")
	p, _ := file.Load("rows.toml", []byte(a.File("")))
	left := pattern.Order{Pattern: p, Way: p.WayFor(pattern.LeftHand)}
	assert.Equal(t, "k4, p4, k10, p2, k4", rowtext.Print(rowtext.RunsOf(left, 5)))
	assert.Equal(t, pattern.ToRight, left.Direction(5))
}

func TestACrossIsNamedByWhatIsSeen(t *testing.T) {
	// 1 strand behind 2 that lean right: the moves are those of whoever works it.
	a := must(t, adopt.Options{}, "Cast on 4", "Row 1: k", "Row 2: k", "Row 3: c4b")
	p, _ := file.Load("rows.toml", []byte(a.File("")))
	require.NotNil(t, p)
	c, _, ok := p.Grid.Row(3).Cells()[0].Stitch.Cross()
	require.True(t, ok)
	assert.Equal(t, pattern.Right, c.Lean)
	assert.Equal(t, rowtext.RunsOf(pattern.Order{Pattern: p, Way: p.WayFor(pattern.RightHand)}, 3),
		rowtext.RunsOf(pattern.Order{Pattern: p, Way: p.WayFor(pattern.LeftHand)}, 3), "the same cross for both hands")
}

func TestACrossIsToldWithItsMovesForEachHand(t *testing.T) {
	// 3 pegs, the front strands lean right: peg 1 from the right goes behind to peg 3, pegs 2
	// and 3 move to 1 and 2, in front. The moves are of columns: the hand does not change them.
	cross := rowtext.CrossStitch(pattern.Cross{Front: 2, Back: 1, Lean: pattern.Right})
	rows := &rowtext.Reading{Pegs: 3, Rows: []rowtext.Row{
		{Number: 1, In: 3, Out: 3, Runs: []rowtext.Run{{Stitch: rowtext.Knit, Count: 3}}},
		{Number: 2, Back: true, In: 3, Out: 3, Runs: []rowtext.Run{{Stitch: cross, Count: 1}}},
	}}
	a, err := adopt.Of("", rows, adopt.Options{})
	require.NoError(t, err)
	peg := func(col int) int { return 3 - col }
	got := map[int]string{}
	for _, m := range a.Pattern.Moves(2) {
		got[peg(m.From)] = fmt.Sprint(peg(m.To), " front ", m.Front)
	}
	assert.Equal(t, map[int]string{1: "3 front false", 2: "1 front true", 3: "2 front true"}, got)
}

func TestShapingReversedIsTheMirrorOfTheFabric(t *testing.T) {
	// A left piece takes one off at the end of row 2, worked from the left; the right piece at the
	// start of it. Slants swap.
	left := must(t, adopt.Options{}, "Cast on 12", "Row 1: k", "Row 2: k to last 3, k2tog, k1", "Row 3: k")
	right := must(t, adopt.Options{}, "Cast on 12", "Row 1: k", "Row 2: k1, ssk, k to end", "Row 3: k")
	for row := 1; row <= 3; row++ {
		assert.Equal(t, seen(left, row), reversed(seen(right, row)))
	}
	assert.Equal(t, "kkkkkkkkkkk.", seen(left, 2))
	assert.Equal(t, pattern.RightTwo, left.Pattern.Grid.Row(2).Cells()[9].Stitch)
	assert.Equal(t, pattern.LeftTwo, right.Pattern.Grid.Row(2).Cells()[2].Stitch)
}

func TestASkippedPegCounts(t *testing.T) {
	a := must(t, adopt.Options{}, "Cast on 30", "Row 1: sl1, k to end", "Row 2: sl1, p to end")
	assert.Equal(t, 30, a.Pattern.Pegs)
	assert.Equal(t, pattern.Slip, a.Pattern.Grid.Row(1).Cells()[29].Stitch, "odd rows skip peg 1, at the right")
	assert.Equal(t, pattern.Slip, a.Pattern.Grid.Row(2).Cells()[0].Stitch, "even rows skip peg 30")
	assert.Equal(t, "sl1, k29", worked(a, 1))
}

func TestTurningPegsAreColumnsOfTheirOwn(t *testing.T) {
	// 34 pegs of a chart and a turning peg at each end: cast on 36, each row skips one.
	a := must(t, adopt.Options{}, "Cast on 36", "Row 1: sl1, p34, k1", "Row 2: sl1, k34, k1")
	assert.Equal(t, 36, a.Pattern.Pegs)
	for row, want := range map[int]string{1: "k" + strings.Repeat("p", 34) + "k", 2: strings.Repeat("k", 36)} {
		assert.Equal(t, want, seen(a, row))
	}
	assert.Equal(t, pattern.Knit, a.Pattern.Grid.Row(1).Cells()[0].Stitch, "the far turning peg is knit")
}

func TestMossIsToldByItsGrid(t *testing.T) {
	single := must(t, adopt.Options{}, "Cast on 8", "Row 1: *k1, p1; rep from * to end", "Row 2: *k1, p1; rep from * to end")
	assert.Equal(t, adopt.Seed, single.Fabric.Kind)
	assert.Equal(t, "kpkpkpkp", seen(single, 2))
	assert.Equal(t, "pkpkpkpk", seen(single, 1))
	double := must(t, adopt.Options{}, "Cast on 9",
		"Rows 1 and 2: k1, *p1, k1; rep from * to end", "Rows 3 and 4: p1, *k1, p1; rep from * to end")
	assert.Equal(t, adopt.DoubleSeed, double.Fabric.Kind)
	assert.Contains(t, double.Fabric.String(), "some call moss")
	assert.Contains(t, double.Fabric.String(), "every 2 rows")
}

func TestWrapsAreKeptApart(t *testing.T) {
	a := must(t, adopt.Options{}, "Cast on 30", "Row 1: EW30", "Row 2: FK30")
	assert.Equal(t, pattern.EWrap, a.Pattern.Grid.Row(1).Cells()[0].Stitch)
	assert.Equal(t, pattern.FlatKnit, a.Pattern.Grid.Row(2).Cells()[0].Stitch)
	assert.Equal(t, adopt.Plain, a.Fabric.Kind, "one fabric all the same")
}

func TestTheNeedleRuleForSeedMakesRibOnALoom(t *testing.T) {
	rule := []string{"Cast on 31", "Row 1: k1, *p1, k1; rep from * to end", "Rows 2-6: as row 1"}
	assert.Equal(t, adopt.Fabric{Kind: adopt.Rib, Knit: 1, Purl: 1}, must(t, adopt.Options{}, rule...).Fabric)
	a := must(t, adopt.Options{From: adopt.Needles, Side: adopt.RightSide}, rule...)
	assert.Equal(t, adopt.Seed, a.Fabric.Kind)
	assert.Equal(t, "k1, *p1, k1; rep from * to end", rowtext.Shortest(a.Rows[0].Runs))
	assert.Equal(t, "p1, *k1, p1; rep from * to end", rowtext.Shortest(a.Rows[1].Runs))
	even := must(t, adopt.Options{}, "Cast on 32", "Rows 1-6: *k1, p1; rep from * to end")
	assert.Equal(t, adopt.Seed, even.Fabric.Kind, "an even count starts every row alike")
}

func TestRepeatsThatDoNotLineUpBecomeOneListOfRows(t *testing.T) {
	a := must(t, adopt.Options{}, sampler("Work 100 rows.")...)
	require.Len(t, a.Rows, 100)
	assert.Equal(t, []int{4, 4, 10}, a.Rows[99].Of)
	assert.Equal(t, []int{1, 1, 1}, a.Rows[60].Of, "row 61")
	assert.Equal(t, 60, a.Meets)
	assert.Equal(t, "Panel A on pegs 1 to 8, Panel B on pegs 9 to 18, Strip 3 on pegs 19 to 38: all begin together every 60 rows: at rows 1, 61, 121 and so on", a.Together())
	assert.Contains(t, a.File(""), "[[zone.strip]]\npegs = 20\n")
	whole := must(t, adopt.Options{}, sampler("")...)
	assert.Len(t, whole.Rows, 60, "without a number they go on until all begin together again")
	for row := 1; row <= 60; row++ {
		assert.Equal(t, seen(a, row), seen(whole, row))
	}
}

// sampler is three parts side by side with repeats of 4, 6 and 10 rows.
func sampler(last string) []string {
	lines := []string{"Sampler", "Cast on 38 pegs"}
	for _, part := range []struct {
		head string
		rows int
		pegs int
	}{{"Panel A (8 pegs):", 4, 8}, {"Panel B, pegs 9-18:", 6, 10}, {"Strip 3, pegs 19 to 38", 10, 20}} {
		lines = append(lines, "", part.head)
		for row := 1; row <= part.rows; row++ {
			lines = append(lines, fmt.Sprintf("Row %d: p%d, k to end", row, 1+row%part.pegs))
		}
	}
	return append(lines, "", last)
}

func TestPartsLieAsTheirRowsRun(t *testing.T) {
	a := must(t, adopt.Options{}, sampler("")...)
	slow := func(row int) string { // part by part, from the right; an even row is worked from the left
		s := ""
		for _, part := range []struct{ rows, pegs int }{{4, 8}, {6, 10}, {10, 20}} {
			of := (row-1)%part.rows + 1
			purls := 1 + of%part.pegs
			cells := strings.Repeat("k", part.pegs-purls) + strings.Repeat("p", purls) // begun at the right
			if row%2 == 0 {
				cells = strings.Repeat("p", purls) + strings.Repeat("k", part.pegs-purls)
			}
			s = cells + s
		}
		return s
	}
	for row := 1; row <= 60; row++ {
		assert.Equal(t, slow(row), seen(a, row), "row %d", row)
	}
}

func TestASectionSaysWhereItEnds(t *testing.T) {
	first := []string{"Cast on 12", "Rows 1-8: knit"}
	six := []string{"Row 9: p", "Row 10: k6, p6", "Row 11: k2, p10", "Row 12: p3, k9", "Row 13: k5, p7", "Row 14: p8, k4"}
	more := must(t, adopt.Options{}, append(append(first, six...), "Repeat rows 9-14 4 more times.")...)
	inAll := must(t, adopt.Options{}, append(append(first, six...), "Repeat rows 9-14 4 times in all.")...)
	assert.Len(t, more.Rows, 38, "5 x 6 rows, from row 9")
	assert.Len(t, inAll.Rows, 32, "4 x 6 rows, from row 9")
	assert.Equal(t, "rows 9 to 38: 6 rows, 5 times; it ends at row 38", more.Zones[1].Told("row"))
	assert.Equal(t, "rows 9 to 32: 6 rows, 4 times; it ends at row 32", inAll.Zones[1].Told("row"))
}

func TestAsEstablishedIsWrittenOut(t *testing.T) {
	// An edge of 4 and a repeat of 8 rows; 13 rows are written, 20 more follow.
	lines := []string{"Cast on 20"}
	for row := 1; row <= 8; row++ {
		lines = append(lines, fmt.Sprintf("Row %d: k4, p%d, k to end", row, row))
	}
	lines = append(lines, "Rows 9-13: rep rows 1-5", "Continue as established for 20 rows.")
	a := must(t, adopt.Options{}, lines...)
	require.Len(t, a.Rows, 33)
	assert.Equal(t, []int{6}, a.Rows[13].Of, "row 14 is repeat row 6")
	assert.Equal(t, []int{1}, a.Rows[32].Of, "row 33 is repeat row 1, of the 5th repeat")
	assert.Equal(t, "k4, p6, k10", worked(a, 14))
	assert.Equal(t, "k4, p1, k15", worked(a, 33))
}

func TestShapingKeepsThePatternOnItsColumns(t *testing.T) {
	// A repeat of 6 and one stitch off at each side on every 2nd row: after n such rows a row
	// begins n pegs further into the repeat.
	const pegs, unit = 36, "kkkppp"
	column := func(i int) byte { return unit[i%6] }
	var lines []string
	lines = append(lines, "Cast on 36")
	for row, off := 1, 0; row <= 8; row++ {
		shaped := row%2 == 0
		if shaped {
			off++
		}
		var steps []string
		for i := off; i < pegs-off; i++ { // by columns, from the side where the row starts
			col := i
			if row%2 == 1 {
				col = pegs - 1 - i
			}
			switch {
			case shaped && i == off:
				steps = append(steps, "ssk")
			case shaped && i == pegs-off-1:
				steps = append(steps, "k2tog")
			default:
				steps = append(steps, string(column(col))+"1")
			}
		}
		lines = append(lines, fmt.Sprintf("Row %d: %s", row, strings.Join(steps, ", ")))
	}
	a := must(t, adopt.Options{}, lines...)
	require.Equal(t, pegs, a.Pattern.Pegs)
	for row := 1; row <= 8; row++ {
		off := row / 2
		got := seen(a, row)
		assert.Equal(t, strings.Repeat(".", off), got[:off], "row %d", row)
		assert.Equal(t, strings.Repeat(".", off), got[pegs-off:], "row %d", row)
		for col := off + 1; col < pegs-off-1; col++ {
			assert.Equal(t, column(col), got[col], "row %d column %d", row, col)
		}
	}
}

func TestOneSizeIsChosenOnce(t *testing.T) {
	text := []string{"Cast on 32 (40, 48)", "Row 1: k4, p to last 4, k4", "Row 2: k3 (5, 7), p to end"}
	second := must(t, adopt.Options{Size: 2}, text...)
	assert.Equal(t, 40, second.Pattern.Pegs)
	assert.Equal(t, "k4, p32, k4", worked(second, 1))
	assert.Equal(t, "k5, p35", worked(second, 2))
	_, err := adopt.Text(strings.Join(text, "\n"), adopt.Options{})
	require.Error(t, err, "no size is guessed")
}
