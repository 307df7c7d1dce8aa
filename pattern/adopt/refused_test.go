package adopt_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/adopt"
	"bypeg/pattern/rowtext"
)

// What can't be told is refused, with the piece of the text that it is about.
func TestWhatCannotBeToldIsRefusedWithItsPlace(t *testing.T) {
	needles := adopt.Options{From: adopt.Needles}
	cases := []struct {
		name     string
		o        adopt.Options
		text     string
		says, at string
	}{
		{"rows that name their sides twice over", needles, "Row 1 (RS): k8\nRow 2: p8\nRow 3 (WS): k8",
			"row 3 is called a wrong-side row, which row 1 rules out", "Row 3 (WS): "},
		{"the flag against the text", adopt.Options{From: adopt.Needles, Side: adopt.RightSide}, "Row 1 (WS): p8", "the text makes row 1 a wrong-side row, not a right-side one", "Row 1 (WS): "},
		{"rounds for needles that go back", needles, "Rnd 1: k8", "write --from round", "Rnd 1: k8"},
		{"a cross from behind", needles, "Row 1 (RS): k8\nRow 2 (WS): c4f, k4", "row 2: c4f has no counterpart on the wrong side", "c4f"},
		{"a step from behind that has another word", needles, "Row 1 (RS): k8\nRow 2 (WS): p3, u-wrap 1, p4", "row 2: uw has no counterpart on the wrong side", "p3, u-wrap 1, p4"},
		{"a step from behind", needles, "Row 1 (RS): k8\nRow 2 (WS): p3, KFB, p4", "row 2: kfb has no counterpart on the wrong side", "KFB"},
		{"shaping in row 1", adopt.Options{}, "Cast on 8\nRow 1: k2tog, k to end", "shaping begins in row 2", "k2tog, k to end"},
		{"shaping in a tube", adopt.Options{From: adopt.Round}, "Rnd 1: k8\nRnd 2: k2tog, k6", "a tube has no pegs to spare", "k2tog, k6"},
		{"loops that would move too far", adopt.Options{}, "Cast on 24\nRow 1: k\nRow 2: *k2tog; rep from * to end", "a loop would move over 5 pegs", "*k2tog; rep from * to end"},
		{"a tube of shaped rows", adopt.Options{Want: adopt.WantTube}, "Cast on 12\nRow 1: k\nRow 2: k2tog, k to end", "row 2 leaves pegs out of use", "k2tog, k to end"},
		{"ways that can't both be", adopt.Options{}, "Row 1 (left to right): k8\nRow 2: p8\nRow 3, right to left: k8", "row 3 is said to run right to left, which row 1 rules out", "Row 3, right to left: "},
		{"a way against the flag", adopt.Options{Row1: pattern.ToLeft, Row1Said: true}, "Row 1 (left to right): k8", "the text has row 1 run left to right, not right to left", ""},
		{"no rows at all", adopt.Options{}, "Cast on 8.", "there are no rows here", "Cast on 8."},
		{"parts that leave pegs out", adopt.Options{}, "Panel A (8 pegs):\nRow 1: k\nStrip B, pegs 10-12:\nRow 1: k", "do not follow on", "Strip B, pegs 10-12:"},
		{"a part with another cast-on", adopt.Options{}, "Cast on 9\nPanel A (8 pegs):\nRow 1: k", "the parts have 8 pegs, not 9", "Cast on 9"},
		{"rows above the parts", adopt.Options{}, "Row 1: k8\nPanel A (8 pegs):\nRow 1: k", "rows stand above the first part", "Row 1: k8\n"},
		{"a fault inside a part", adopt.Options{}, "Panel A (8 pegs):\nRow 1: k\nPanel B (4 pegs)\nRow 1: k3, q1", "", "q1"},
		{"a part that grows", adopt.Options{}, "Panel A (8 pegs):\nRow 1: k\nRow 2: k7, yo, k1", "would have to move", "Panel A (8 pegs):\nRow 1: k\nRow 2: k7, yo, k1"},
		{"an odd part for needles", adopt.Options{From: adopt.Needles, Side: adopt.RightSide}, "Panel A (8 pegs):\nRows 1-3: k\nPanel B (2 pegs):\nRows 1-2: k", "the second time begins on the other side", "Panel A (8 pegs):"},
		{"fewer rows than there are", adopt.Options{}, "Row 1: k8\nRow 2: k8\nRow 3: p8\nWork 2 rows.", "the text has 3 rows already", "Work 2 rows."},
		{"more rows than a pattern has", adopt.Options{}, "Row 1: k8\nWork 100001 rows.", "at most 100000 rows", "Work 100001 rows."},
		{"a multiple that the rows don't have", adopt.Options{Want: adopt.WantTube, Pegs: 24}, "Multiple of 5\nRow 1: *k2, p2; rep from * to end", "", ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := adopt.Text(c.text, c.o)
			var several rowtext.Errors
			require.ErrorAs(t, err, &several)
			assert.Contains(t, several[0].Error(), c.says)
			if c.at != "" {
				assert.Equal(t, c.at, c.text[several[0].Start:several[0].End])
			}
		})
	}
}

func TestTheSideOfRow1IsAskedForWhereNothingTellsIt(t *testing.T) {
	_, err := adopt.Text("Row 1: k8\nRow 2: p8", adopt.Options{From: adopt.Needles})
	var ask *adopt.AskSide
	require.True(t, errors.As(err, &ask))
	for _, said := range []string{"Row 1 (RS): k8\nRow 2: p8", "Row 1: k8\nRow 2 [WS]: p8", "Rows 1 and 3 (RS): k8\nRows 2 and 4: p8", "Row 1 (right side): k8\nRow 2: p8"} {
		a, err := adopt.Text(said, adopt.Options{From: adopt.Needles})
		require.NoError(t, err, said)
		assert.Equal(t, adopt.Plain, a.Fabric.Kind, said)
	}
}

// A needle text that begins with a row 0 counts its sides from row 1.
func TestASetUpRowIsRow1OfThePattern(t *testing.T) {
	a := must(t, adopt.Options{From: adopt.Needles}, "Cast on 8", "Set-up row (WS): p", "Row 1 (RS): k4, p4", "Row 2 (WS): k4, p4")
	require.Len(t, a.Rows, 3)
	assert.Equal(t, "k8", worked(a, 1))
	assert.Equal(t, "p4, k4", worked(a, 3))
	assert.Equal(t, []string{"ppppkkkk", "ppppkkkk"}, []string{seen(a, 2), seen(a, 3)})
	assert.Contains(t, strings.Join(a.Notes(), "\n"), "row 0 of the text is row 1 of the pattern")
	loom := must(t, adopt.Options{Row1: pattern.ToRight, Row1Said: true}, "Cast on 8", "Set-up row: p", "Row 1: k4, p4")
	assert.Equal(t, pattern.ToRight, loom.Rows[1].Direction, "it is the text's row 1 that runs so")
	assert.Equal(t, "kkkkpppp", seen(loom, 2))
}

func TestTheWayThatTheRowsSayIsTaken(t *testing.T) {
	for _, text := range []string{
		"Row 1 (left to right): k4, p4\nRow 2 (right to left): k4, p4",
		"Row 1: k4, p4\nRow 2: working from right to left, k4, p4",
		"Row 1 (L to R): k4, p4\nRow 2: k4, p4",
	} {
		a := must(t, adopt.Options{}, text)
		assert.Equal(t, pattern.ToRight, a.Pattern.Way.Row1, text)
		assert.Equal(t, []string{"kkkkpppp", "ppppkkkk"}, []string{seen(a, 1), seen(a, 2)}, text)
	}
	rounds := must(t, adopt.Options{}, "Rnd 1 (left to right): k4, p4")
	assert.Equal(t, "kkkkpppp", seen(rounds, 1))
}
