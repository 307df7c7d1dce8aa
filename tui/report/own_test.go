package report_test

import (
	"fmt"
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
	lines := linesOf(r.WithOwns(owns), "your own")
	require.Len(t, lines, 2, "more would be in the way")
	assert.Regexp(t, `^Test Lock Panel, 24 Nov: 15 stitches in 10 cm, [0-9.]+ g in 1000 stitches \(--own\)$`, lines[0])
	assert.Regexp(t, `^Test Quay Panel, 24 Nov: 15 stitches in 10 cm, [0-9.]+ g in 1000 stitches$`, lines[1])

	r.By = &owns[2]
	assert.Equal(t, "your own", r.Parts()[0].Label, "it is said before anything else")
	assert.Regexp(t, `^all of this is by Test Skiff Panel, 24 Nov: 15 stitches`, r.Parts()[0].Lines[0])
	for _, part := range r.Parts()[1:] {
		assert.False(t, part.Label == "your own" && part.Lines != nil)
	}
}
