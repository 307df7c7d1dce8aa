package work_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
)

// A piece with every kind of stitch is worked to its end and taken back on both sizes, in
// both prints, by either hand; wherever it stands, the screen fits and names the stitch.
func TestALacePieceIsWorkedOnTheScreen(t *testing.T) {
	for _, form := range []pattern.Form{pattern.Panel, pattern.Tube} {
		p := patterntest.Build(t, patterntest.Lace(form))
		for _, hand := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
			o := pattern.Order{Pattern: p, Way: p.WayFor(hand)}
			for _, size := range [][2]int{{80, 24}, {40, 12}} {
				for _, large := range []bool{false, true} {
					d := openPiece(t, o, pattern.Start(), style(termenv.Ascii, size[0] == 40), size[0], size[1])
					if large {
						d.press(rune_('l'))
					}
					there := walk(t, d, space, size, large)
					require.Equal(t, pattern.Finishing, d.model.Tracker().Place().Phase)
					require.Equal(t, there, walk(t, d, back, size, large), "as many places back")
					require.Equal(t, pattern.Start(), d.model.Tracker().Place())
				}
			}
		}
	}
}

// walk presses a key until it leads nowhere, and returns how often it led on.
func walk(t *testing.T, d *desk, key tea.KeyMsg, size [2]int, large bool) int {
	for n := 0; ; n++ {
		place := d.model.Tracker().Place()
		fits(t, d, size[0], size[1])
		if place.Phase == pattern.Working && place.Done > 0 && !large {
			name := d.model.Tracker().Order().RunAt(place.Row, place.Done).Stitch.String()
			if room := size[0] - len("NOW   cross "); len(name) > room {
				name = name[:room] // a long name is cut on a narrow screen
			}
			require.Contains(t, strings.Join(strings.Fields(d.model.View()), " "), name, "row %d, %d worked", place.Row, place.Done)
		}
		d.now = d.now.Add(3e9)
		d.press(key)
		if d.model.Tracker().Place() == place {
			return n
		}
	}
}
