package plain_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/plain"
	"bypeg/tui/track"
)

// A piece with every kind of stitch is worked and taken back in a talk, by either hand.
func TestALacePieceIsToldLineByLine(t *testing.T) {
	for _, form := range []pattern.Form{pattern.Panel, pattern.Tube} {
		p := patterntest.Build(t, patterntest.Lace(form))
		steps := p.CastOnLoops() + p.StitchesBefore(p.Grid.Rows()+1) + p.BindOffLoops()
		for _, hand := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
			o := pattern.Order{Pattern: p, Way: p.WayFor(hand)}
			tr := track.New(o, pattern.Start(), track.DefaultLead)
			typed := slices.Concat(slices.Repeat([]string{"peg"}, steps), slices.Repeat([]string{"back"}, steps))
			lines, _ := said(t, plain.Piece{Piece: track.Piece{Title: "Weir Lace", Tracker: tr, Saver: newDisk()}}, typed...)
			require.Equal(t, pattern.Start(), tr.Place(), "there and back")
			all := strings.Join(lines, "\n")
			for row := 1; row <= p.Grid.Rows(); row++ {
				for run := range o.Runs(row) {
					assert.Contains(t, all, run.Stitch.String())
				}
			}
		}
	}
}
