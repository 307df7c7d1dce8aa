package adopt_test

import (
	"errors"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"bypeg/pattern/adopt"
	"bypeg/pattern/rowtext"
)

var thousands = regexp.MustCompile(`[0-9]{4}`)

// FuzzAdopt: whatever the text and what it is said to be for, adopt ends and never panics;
// what it makes can be loaded and is the same fabric, and what it refuses has its place in
// the text.
func FuzzAdopt(f *testing.F) {
	for _, text := range []string{
		"Row 1: knit\nRow 2: purl\n",
		"Multiple of 4 plus 1\nRow 1 (RS): P1, *K3, P1*\nRow 2 (WS): K1, *P1, K1, P1, K1*",
		"Cast on 24\nRnd 1: *k3, p1; rep from * to end\nRnds 2-9: knit",
		"Cast on 20\nRow 1: k\nRow 2: ssk, k to last 2, k2tog\nRow 3: k1, yo, k to end",
		"Panel A (8 pegs):\nRow 1: k\nRow 2: p\nStrip 2, pegs 9-12:\nRows 1-3: k\nWork 12 rows.",
		"Cast on 12 (14, 16)\nRow 1: k3 (4, 5), p to end\nContinue as established for 9 rows.",
		"Panel A (999 pegs):\nRow 1: k", "Strip 1 (2 pegs)\nStrip 2 (3 pegs)", "Work 999 rows.", "Row 1: none 3, k2, none 1",
	} {
		for flags := range uint8(24) {
			f.Add(text, flags, uint8(12))
		}
	}
	f.Fuzz(func(t *testing.T, text string, flags, pegs uint8) {
		// Thousands of rows or pegs tell nothing that dozens do not, and are tried by the tests of limits.
		if len(text) > 2<<10 || thousands.MatchString(text) {
			return
		}
		o := adopt.Options{
			From: adopt.Source(flags % 3), Want: adopt.Wanted(flags / 3 % 3), Side: adopt.Side(flags / 9 % 3), Size: int(flags / 27 % 3), Pegs: int(pegs),
		}
		a, err := adopt.Text(text, o)
		var several rowtext.Errors
		if errors.As(err, &several) {
			for _, e := range several {
				require.True(t, 0 <= e.Start && e.Start <= e.End && e.End <= len(text), "%d to %d of %d: %s", e.Start, e.End, len(text), e.Msg)
			}
		}
		if err == nil && len(a.Rows)*a.Pattern.Pegs < 50_000 {
			a.Notes()
			sameAsFile(t, a)
		}
	})
}
