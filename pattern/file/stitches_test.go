package file

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
)

// seen is a row as it is seen, a sign a peg. The parts of a cross are a, b, c ... from the
// left where its front leans left, capitals where it leans right.
func seen(p *pattern.Pattern, row int) string {
	signs := map[pattern.Stitch]byte{
		pattern.Knit: '|', pattern.Purl: '-', pattern.Slip: 's', pattern.SlipFront: 'v', pattern.NoStitch: '.',
		pattern.EWrap: 'w', pattern.UWrap: 'u', pattern.FlatKnit: '=', pattern.TrueKnit: 't',
		pattern.TwistedKnit: 'x', pattern.TwistedPurl: 'X', pattern.YarnOver: 'o', pattern.MakeOne: 'm', pattern.IncreaseKnit: '+',
		pattern.RightTwo: '/', pattern.LeftTwo: '\\', pattern.PurlTwo: 'r', pattern.LeftPurlTwo: 'l', pattern.CentreThree: '3',
	}
	var b strings.Builder
	for _, c := range p.Grid.Row(row).Cells() {
		cross, part, ok := c.Stitch.Cross()
		switch {
		case ok && cross.Lean == pattern.Right:
			b.WriteByte('A' + byte(part))
		case ok:
			b.WriteByte('a' + byte(part))
		default:
			b.WriteByte(signs[c.Stitch])
		}
	}
	return b.String()
}

// steps are rows with each step that a row may name, and what is seen of them where the
// row runs to the right. What a decrease is, and that k2tog leans right and ssk left:
// craftyarncouncil.com/standards/knit-abbreviations. That a cross with its front loops
// held in front leans left is from memory; so is that kfb's new stitch lies behind its
// knit.
var steps = []struct{ row, seen string }{
	{"k2, p1, k7", "||-|||||||"},
	{"sl 1, sl 1 wyib, sl 1 wyif, k7", "ssv|||||||"},
	{"ew 2, uw 2, fk 2, tk 2, k1, p1", "wwuu==tt|-"},
	{"k1 tbl, p1 tbl, k8", "xX||||||||"},
	{"yo, k8, k2tog", "o||||||||/"},
	{"ssk, k8, yo", `\||||||||o`},
	{"skp, k8, m1", `\||||||||m`},
	{"p2tog, k8, yo", "r||||||||o"},
	{"ssp, k8, yo", "l||||||||o"},
	{"sk2p, k7, yo, m1", "3|||||||om"},
	{"kfb, k7, k2tog", "|+|||||||/"},
	{"kfb, p3, kfb, p1, k2tog, ssp", "|+---|+-/l"},
	{"k7, kfb, ssk", `||||||||+\`},
	{"c4f, k6", "abcd||||||"},
	{"k3, c6b, p1", "|||ABCDEF-"},
	{"c4b, c6f", "ABCDabcdef"},
	{"k1, c4f, c4f, p1", "|abcdabcd-"},
	{"k2tog, k8, none", "/||||||||."},
}

// together are what does not turn round with its row: crosses.
var together = regexp.MustCompile("a[b-h]*|A[B-H]*|.")

// mirrored is what is seen where the same row runs to the left.
func mirrored(s string) string {
	parts := together.FindAllString(s, -1)
	slices.Reverse(parts)
	return strings.Join(parts, "")
}

func TestEveryStepLiesAsItIsSeenWhicheverWayItsRowRuns(t *testing.T) {
	var named []rowtext.Stitch
	for _, c := range steps {
		runs, err := rowtext.Expand(c.row, 10)
		require.NoError(t, err, c.row)
		for _, r := range runs {
			named = append(named, r.Stitch)
		}
		for _, form := range []string{"panel", "tube"} {
			for _, hand := range []string{"right", "left"} {
				text := fmt.Sprintf("pattern = 1\npegs = 10\nform = %q\nwritten_for = %q\n[[zone]]\nname = 'a'\nrows = ['k', %q]\n", form, hand, c.row)
				p, found := mustLoad(t, text)
				assert.Empty(t, found.Of(safetext.Warning), "no doubt in %s", c.row)
				want := c.seen
				if (form == "panel") == (hand == "left") { // rounds run to the left for the right hand, second rows to the right
					want = mirrored(want)
				}
				assert.Equal(t, want, seen(p, 2), "%s in a %s for the %s hand", c.row, form, hand)
			}
		}
	}
	for _, s := range rowtext.Stitches() {
		assert.Contains(t, named, s, "%s is not tried", s.Name())
	}
}

// What a row of a pattern says comes back from its fabric, for either hand and form.
func TestEveryStepIsReadBackFromTheFabric(t *testing.T) {
	same := map[rowtext.Stitch]rowtext.Stitch{rowtext.SlipBack: rowtext.Slip, rowtext.SlipKnitPass: rowtext.SlipSlipKnit}
	for _, c := range steps {
		for _, form := range []string{"panel", "tube"} {
			p, _ := mustLoad(t, fmt.Sprintf("pattern = 1\npegs = 10\nform = %q\n[[zone]]\nname = 'a'\nrows = ['k', %q]\n", form, c.row))
			runs, err := rowtext.Expand(c.row, 10)
			require.NoError(t, err)
			var want []rowtext.Run
			for _, r := range runs {
				if made, ok := same[r.Stitch]; ok {
					r.Stitch = made
				}
				if n := len(want); n > 0 && want[n-1].Stitch == r.Stitch {
					want[n-1].Count += r.Count
					continue
				}
				want = append(want, r)
			}
			assert.Equal(t, want, rowtext.LineOf(pattern.Order{Pattern: p, Way: p.Way}, 2), c.row)
			// Who works it from the other end takes as many loops and leaves as many.
			other := rowtext.LineOf(pattern.Order{Pattern: p, Way: p.Way.Mirrored()}, 2)
			assert.Equal(t, [2]int{rowtext.In(want), rowtext.Out(want)}, [2]int{rowtext.In(other), rowtext.Out(other)}, c.row)
		}
	}
}

// Side rows are written from the outer edge and mirrored, but what leans right leans
// right on both sides: what is written is what is seen.
func TestCrossesOfASideKeepTheirLean(t *testing.T) {
	p, _ := mustLoad(t, "pattern = 1\npegs = 14\n[[zone]]\nname = 'a'\nsides = 5\nside_rows = ['k', 'p1, c4f']\nrows = ['k', 'k']\n")
	assert.Equal(t, "-abcd||||abcd-", seen(p, 2))
}

func TestARowForAllPegsIsToldWithoutItsBorders(t *testing.T) {
	const text = "pattern = 1\npegs = 12\n[[zone]]\nname = 'a'\nsides = 2\nrows = ['k', '%s']\n"
	for row, hint := range map[string]string{
		"p2, yo, k2tog, k4, yo, k2tog, p2": `the 2 side pegs at each edge are not part of the row: write what lies between them, 8 pegs: "yo, k2tog, k4, yo, k2tog"`,
		"p2, c4f, c4b, p2":                 `the 2 side pegs at each edge are not part of the row: write what lies between them, 8 pegs: "c4f, c4b"`,
		"p1, c4f, k5, p2":                  `the 2 side pegs at each edge are not part of the row: write what lies between them, 8 pegs`, // a cross lies across an edge
		"p1, c4f, k2, c4b, p1":             `the 2 side pegs at each edge are not part of the row: write what lies between them, 8 pegs`, // across both
		"p1, k1, ssk, k7, yo, p1":          `the 2 side pegs at each edge are not part of the row: write what lies between them, 8 pegs`, // the parts do not balance
	} {
		_, found := Load("f.toml", fmt.Appendf(nil, text, row))
		if assert.Len(t, found, 1, row) {
			assert.Equal(t, hint, found[0].Hint, row)
		}
	}
}
