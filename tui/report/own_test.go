package report_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern/fit"
	"bypeg/tui/report"
)

func TestTheMakersOwnFiguresAreOffered(t *testing.T) {
	text := fmt.Sprintf(panelText, "100", "50", 3, "k", 3)
	r := reportOf(t, text)
	assert.Nil(t, linesOf(r, "your own"))
	figures, err := fit.OwnOf(r.Order.Pattern, fit.Finished{Width: 200, Grams: 60})
	require.NoError(t, err)
	var owns []report.Own
	for _, title := range []string{"Test Lock Panel", "Test Quay Panel", "Test Skiff Panel"} {
		owns = append(owns, report.Own{Title: title, Day: "24 Nov", Figures: figures})
	}
	place := func() int {
		return slices.IndexFunc(r.Parts(), func(p report.Part) bool { return p.Label == "your own" && p.Lines != nil })
	}
	lines := linesOf(r.WithOwns(owns), "your own")
	require.Len(t, lines, 2, "more would be in the way")
	assert.Regexp(t, `in 1000 stitches$`, lines[0], "a screen has no flags")
	assert.Equal(t, 1, place())
	r.Typed = true
	lines = linesOf(r, "your own")
	assert.Regexp(t, `^Test Lock Panel, 24 Nov: 15 stitches in 10 cm, [0-9.]+ g in 1000 stitches \(--own\)$`, lines[0])
	assert.Regexp(t, `^Test Quay Panel, 24 Nov: 15 stitches in 10 cm, [0-9.]+ g in 1000 stitches$`, lines[1])

	r.By = &owns[2]
	assert.Equal(t, 1, place(), "turned over, it is where it was")
	lines = linesOf(r, "your own")
	require.Len(t, lines, 1)
	assert.Regexp(t, `^all of this is by Test Skiff Panel, 24 Nov: 15 stitches`, lines[0])
}

// What a screen says names no flag: there is no line to type it in.
func TestOnlyACommandIsToldOfFlags(t *testing.T) {
	for name, text := range map[string]string{
		"gauged": fmt.Sprintf(panelText, "100", "50", 3, "k", 3),
		"bare":   "pattern = 1\npegs = 24\n[[zone]]\nname = 'field'\nrows = ['k']\ntimes = 40\n",
		"spaced": "pattern = 1\npegs = 24\n[loom]\npegs = 20\nspacing = '1/2 in'\n[[zone]]\nname = 'field'\nrows = ['k']\ntimes = 40\n",
	} {
		r := reportOf(t, text)
		flags := func() (n int) {
			for _, part := range r.Parts() {
				n += strings.Count(strings.Join(part.Lines, "\n"), "--")
			}
			return n
		}
		assert.Zero(t, flags(), name)
		r.Typed = true
		assert.NotZero(t, flags(), name)
	}
}
