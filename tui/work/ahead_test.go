package work_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/look"
	"bypeg/tui/track"
	"bypeg/tui/work"

	"github.com/muesli/termenv"
)

// In garter of e-wraps the wraps of a knit row may be laid ahead, up to the marker; who does
// not ask for that is not told (common practice, no source).
func TestWrappingAheadIsToldWhereItIsAskedFor(t *testing.T) {
	plan := patterntest.Frame(12, 3, 3, 6)
	for i := range plan.Zones {
		plan.Zones[i].KnitAs = pattern.WrapE
	}
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	view := func(ahead bool, place pattern.Place) string {
		chosen := options
		chosen.WrapAhead = ahead
		piece := track.Piece{Title: p.Title, Tracker: track.New(o, place, track.DefaultLead), Saver: newDisk()}
		return work.New(piece, style(termenv.Ascii, false), look.NewWorkKeys(), chosen).SetSize(80, 24).View()
	}
	assert.Contains(t, view(true, at(3, 0)), "wrap ahead pegs 1 to 3 and stop at the marker")
	assert.Contains(t, view(true, at(3, 1)), "wrap ahead pegs 2 to 3 and stop at the marker")
	assert.NotContains(t, view(true, at(2, 0)), "wrap ahead", "a purl row takes no wraps")
	assert.NotContains(t, view(false, at(3, 0)), "wrap ahead")
}
