package report_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
	"bypeg/tui/report"
)

const collarText = `pattern = 1
title = "Test Weir Collar"
pegs = 26
[gauge]
stitches = 11
rows = 15
over = "10 cm"
[yarn]
metres = 55
grams = 50
[[zone]]
name = "%s"
rows = ["k"]
times = 30
[[zone]]
name = "field"
rows = ["k", "p"]
times = 3
`

func reportOf(t testing.TB, text string) *report.Report {
	t.Helper()
	p, found := file.Load("f", []byte(text))
	require.NoError(t, found.Err())
	return report.Of(pattern.Order{Pattern: p, Way: p.Way}, []byte(text))
}

// Whatever the width, and however long a word is, the lines have room and say all words of
// all parts in their order, each part behind its label.
func TestTheLinesOfAReportSayAllOfItInTheirWidth(t *testing.T) {
	for _, name := range []string{"border", strings.Repeat("unterbrochen", 10), strings.Repeat("水門", 30)} {
		r := reportOf(t, fmt.Sprintf(collarText, name))
		want := ""
		for _, part := range r.Parts() {
			if len(part.Lines) > 0 {
				want += part.Label + strings.Join(part.Lines, "")
			}
		}
		want = strings.ReplaceAll(want, " ", "")
		parts := r.Parts()
		for width := 22; width <= 200; width++ {
			said := ""
			for _, l := range report.Lay(parts, width) {
				require.LessOrEqual(t, safetext.Width(l.Label+l.Text), width, "%d wide: %s%s", width, l.Label, l.Text)
				said += l.Label + l.Text
			}
			require.Equal(t, want, strings.ReplaceAll(said, " ", ""), "%d wide", width)
		}
	}
}

func TestLabelsStandAsideOrAbove(t *testing.T) {
	r := reportOf(t, fmt.Sprintf(collarText, "border"))
	wide, small := report.Lay(r.Parts(), 80), report.Lay(r.Parts(), 40)
	assert.Equal(t, report.Line{Label: "size      ", Text: "23.5 cm wide, 22.5 cm high (9 1/4 in by 9 in)"}, wide[0])
	assert.Equal(t, []report.Line{{Label: "size"}, {Label: "  ", Text: "23.5 cm wide, 22.5 cm high (9 1/4 in"}, {Label: "  ", Text: "  by 9 in)"}}, small[:3])
}

func TestAPieceIsCalledByItsName(t *testing.T) {
	r := reportOf(t, fmt.Sprintf(collarText, "border"))
	assert.Equal(t, "Test Weir Collar: panel, 26 pegs, 36 rows", r.Title())
	r.Called = "Collar for \x1b[31mthe quay"
	assert.Equal(t, "Collar for [31mthe quay: panel, 26 pegs, 36 rows", r.Title())
}
