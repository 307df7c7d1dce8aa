package adopt_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/adopt"
	"bypeg/pattern/rowtext"
)

// fabric is the rows of a pattern as they are worked, in short.
func fabric(a *adopt.Adopted) string {
	var b strings.Builder
	for row := range a.Rows {
		b.WriteString(seen(a, row+1)[:1])
	}
	return b.String()
}

// said is what a pattern is warned of, in one line.
func said(a *adopt.Adopted) string {
	var all []string
	for _, w := range a.Warnings {
		all = append(all, w.Msg)
	}
	return strings.Join(all, "; ")
}

func TestARepeatIsAllRowsUnlessItIsShownTwice(t *testing.T) {
	cases := []struct{ rows, says, want, warned string }{
		{"kppk", "Work 12 rows.", "kppkkppkkppk", ""},
		{"kpkp", "Work 8 rows.", "kpkpkpkp", ""},
		{"kkpkkp", "Work 9 rows.", "kkpkkpkkp", ""},
		{"kpkpk", "Work 8 rows.", "kpkpkpkp", ""},
		{"kp", "Work 7 rows.", "kpkpkpk", "ends in the middle of the repeat, which is rows 1 to 2: 1 row of 2"},
		{"kppk", "Continue as established for 4 rows.", "kppkkppk", "read as rows 1 to 4 again and again: if only some of them are meant, write rep rows and their numbers"},
		{"kppkp", "Continue as established for 4 rows.", "kppkppkpp", "read as rows 1 to 3 again and again"},
		{"kpkpkp", "Continue as established for 2 rows.", "kpkpkpkp", ""},
		{"kpkppp", "Continue as established for 6 rows.", "kpkpppkpkppp", "read as rows 1 to 6 again and again: if only some of them are meant"},
	}
	for _, c := range cases {
		t.Run(c.rows+" "+c.says, func(t *testing.T) {
			lines := []string{"Cast on 8."}
			for i, st := range c.rows {
				lines = append(lines, fmt.Sprintf("Row %d: %c", i+1, st))
			}
			a := must(t, adopt.Options{}, append(lines, c.says)...)
			assert.Equal(t, c.want, fabric(a))
			if c.warned == "" {
				assert.Empty(t, said(a))
			} else {
				assert.Contains(t, said(a), c.warned)
			}
		})
	}
}

// Double seed for needles over an even count (common practice, no source): rows 1 and 4 alike, and
// rows 2 and 3.
func TestDoubleSeedForNeedlesGoesOn(t *testing.T) {
	a := must(t, adopt.Options{From: adopt.Needles}, "Cast on 8", "Row 1 (RS): *k1, p1; rep from * to end", "Row 2: *k1, p1; rep from * to end",
		"Row 3: *p1, k1; rep from * to end", "Row 4: *p1, k1; rep from * to end", "Work 12 rows.")
	assert.Equal(t, adopt.DoubleSeed, a.Fabric.Kind)
	a = must(t, adopt.Options{From: adopt.Needles}, "Cast on 8", "Row 1 (RS): k", "Row 2: p", "Row 3: p", "Row 4: k", "Work 12 rows.")
	assert.Equal(t, "kkppkkppkkpp", fabric(a))
	odd := must(t, adopt.Options{From: adopt.Needles}, "Cast on 8", "Row 1 (RS): k", "Row 2: k", "Row 3: p", "Row 4: k", "Row 5: k", "Row 6: p", "Work 12 rows.")
	assert.Equal(t, "kpppkkkpppkk", fabric(odd), "three rows from the right side, then the same three from behind")
}

func TestTheRowsThatATextRepeatsAreThoseThatGoOn(t *testing.T) {
	a := must(t, adopt.Options{}, "Cast on 8", "Row 1: k", "Row 2: k", "Row 3: k", "Row 4: p", "Repeat rows 3-4 until length 60 in.", "Work 8 rows.")
	assert.Equal(t, "kkkpkpkp", fabric(a))
	assert.Empty(t, said(a))
	for _, rows := range []string{"rows 1-2", "row 2 and row 1"} {
		msg, at := refused(t, adopt.Options{}, "Cast on 8", "Row 1: k", "Row 2: p", "Repeat "+rows+" until length 60 in.", "Row 3: k", "Row 4: k", "Work 8 rows.")
		assert.Contains(t, msg, "it can't be told which rows this means")
		assert.Equal(t, "Work 8 rows.", at)
	}
}

func TestALengthStandsBehindAllRows(t *testing.T) {
	for _, behind := range []string{"Row 3: k\nRow 4: k", "Repeat rows 1-2 3 more times."} {
		msg, at := refused(t, adopt.Options{}, "Cast on 8", "Row 1: k", "Row 2: p", "Work 8 rows.", behind)
		assert.Contains(t, msg, "rows follow this", behind)
		assert.Equal(t, "Work 8 rows.", at, behind)
	}
	msg, at := refused(t, adopt.Options{}, "Row 1: k8", "Row 2: p8", "Continue as established for 4 rows.", "Row 7: p8")
	assert.Contains(t, msg, "rows follow this")
	assert.Equal(t, "Continue as established for 4 rows.", at)
	a := must(t, adopt.Options{}, "Cast on 8", "Row 1: k", "Row 2: p", "Work 8 rows.", "", "Bind off loosely.")
	assert.Len(t, a.Rows, 8)
}

func TestPartsHoldTheirPegsWhicheverWayRow1Runs(t *testing.T) {
	parts := func(row1 string) []string {
		return []string{"Panel A, pegs 1-4:", row1 + ": p4", "Row 2: p4", "Panel B, pegs 5-10:", "Row 1: k6", "Row 2: k6"}
	}
	cases := []struct {
		row1  string
		o     adopt.Options
		peg1  pattern.Side
		first pattern.Stitch
	}{
		{"Row 1", adopt.Options{}, pattern.Right, pattern.Purl},
		{"Row 1 (left to right)", adopt.Options{}, pattern.Left, pattern.Purl},
		{"Row 1", adopt.Options{Row1: pattern.ToRight, Row1Said: true}, pattern.Left, pattern.Purl},
		{"Row 1 (RS)", adopt.Options{From: adopt.Needles}, pattern.Right, pattern.Purl},
		{"Row 1 (WS)", adopt.Options{From: adopt.Needles}, pattern.Left, pattern.Knit},
	}
	for _, c := range cases {
		a := must(t, c.o, parts(c.row1)...)
		assert.Equal(t, c.peg1, a.Pattern.Way.Peg1, c.row1)
		assert.Contains(t, a.File(""), fmt.Sprintf("peg_1   = %q\n", c.peg1.String()))
		cells := a.Pattern.Grid.Row(1).Cells()
		for peg := 1; peg <= 10; peg++ {
			col := peg - 1
			if c.peg1 == pattern.Right {
				col = 10 - peg
			}
			assert.Equal(t, peg <= 4, cells[col].Stitch == c.first, "%s %v: peg %d", c.row1, c.o, peg)
		}
	}
}

// What one part's headers say holds for all parts, and is not said otherwise by another.
func TestPartsAgreeOnWhatTheirRowsAre(t *testing.T) {
	needles := adopt.Options{From: adopt.Needles}
	b := must(t, needles, "Panel A (4 pegs):", "Row 1: k", "Row 2: p", "Panel B (4 pegs):", "Row 1 (WS): k", "Row 2: p")
	assert.Equal(t, "pppppppp", seen(b, 1), "the side that part B alone names")
	known := must(t, needles, "Panel A (2 pegs):", "Row 1 (WS): k1, p1", "Row 2: p1, k1", "Panel B (4 pegs):", "Row 1: k1, p3", "Row 2: knit the knits and purl the purls")
	alone := must(t, needles, "Cast on 4", "Row 1 (WS): k1, p3", "Row 2: knit the knits and purl the purls")
	assert.Equal(t, seen(alone, 2), seen(known, 2)[2:])

	part := "Panel A (4 pegs):\nRow 1%s: k\nRow 2: p\nPanel B (6 pegs):\n%s"
	cases := []struct {
		o              adopt.Options
		a, b, says, at string
	}{
		{needles, " (RS)", "Row 1 (WS): k\nRow 2: p", "row 1 shows another side here than Panel A has it show", "Row 1 (WS): "},
		{needles, " (RS)", "Row 1: k\nRow 2 (RS): p", "row 2 shows another side here than Panel A has it show", "Row 2 (RS): "},
		{adopt.Options{}, " (RS)", "Row 1 (WS): k", "shows another side", "Row 1 (WS): "},
		{adopt.Options{}, " (left to right)", "Row 1 (right to left): k", "row 1 runs another way here than Panel A has it run", "Row 1 (right to left): "},
		{adopt.Options{Want: adopt.WantTube}, "", "Row 1: k\nRow 2: p", "another form would move their pegs", ""},
		{adopt.Options{}, "", "Rnd 1: k", "some parts have rows and others rounds", "Panel B (6 pegs):"},
		{adopt.Options{}, "", "Set-up row: p\nRow 1: k", "a set-up row is worked once", "Set-up row: p"},
		{adopt.Options{}, "", "Row 3: p\nRow 4: k", "this part begins at row 3", "Row 3: p"},
		{adopt.Options{}, "", "Row 1: k\nRow 2: p\nTop border:\nRow 3: k", "write them in a file of their own", "Top border"},
		{adopt.Options{}, "", "Row 1: k\nRow 2: p\nTop border (10 pegs):\nRow 3: k", "write them in a file of their own", "Top border"},
		{adopt.Options{}, "", "Row 1: k\nRow 2: p\nTOP BORDER\nRow 3: k", "write them in a file of their own", "TOP BORDER"},
		{adopt.Options{}, "", "Row 1: k\nRow 2: p\nRow 3 (top border): k", "write them in a file of their own", "Row 3 (top border):"},
		{adopt.Options{}, "", "Row 1: k\nRow 2: p\nPanel C:\nRow 3: k", "no panel or strip with its pegs", "Panel C"},
		{adopt.Options{}, "", "Row 1: k\nRow 2: p\nAcross all panels:\nRow 3: k", "write them in a file of their own", ""},
		{adopt.Options{}, "", "Row 1: k\nRow 2: p\n\nRow 3: k\nRow 4: k", "row 3 stands apart", "Row 3: k"},
		{adopt.Options{}, "", "Row 1: k\nRow 2: p\nWork 8 rows.\nRow 3: k", "rows follow this", "Work 8 rows."},
		{adopt.Options{}, "", "Row 1: k\nWork 8 rows.\nStrip C (2 pegs)\nRow 1: k", "before the rows of another part", "Work 8 rows."},
		{adopt.Options{}, "", "Row 1: k\nContinue as established for 8 rows.", "the parts have different numbers of rows", "Continue as established for 8 rows."},
	}
	for _, c := range cases {
		text := fmt.Sprintf(part, c.a, c.b)
		_, err := adopt.Text(text, c.o)
		var several rowtext.Errors
		if !assert.ErrorAs(t, err, &several, text) {
			continue
		}
		assert.Contains(t, several[0].Error(), c.says)
		if c.at != "" {
			assert.Equal(t, c.at, text[several[0].Start:several[0].End])
		}
	}
}

func TestRowsOfAPartMayStandApartAndBelow(t *testing.T) {
	for _, body := range []string{
		"Row 1: k\n\nRow 2: p\n\nRow 3: k\n\nRow 4: k", "Row 1 (left to right):\nk\nRow 2:\np\nRow 3: k\nRow 4: k",
		"Row 1: k\nRow 2: p\nNext row: k\nRow 4: k", "All odd rows: k\nRow 2: p\nRow 4: k", "Row 1: k\nRow 2: p\nRow 3: k\nRow 4: knit all pegs",
	} {
		text := "Panel A (4 pegs):\nRow 1: k\nRow 2: p\nPanel B (6 pegs):\n" + body + "\n\nWork 8 rows.\n"
		a, err := adopt.Text(text, adopt.Options{})
		require.NoError(t, err, body)
		sameAsFile(t, a)
		assert.Equal(t, 4, a.Parts[1].Rows, body)
	}
}
