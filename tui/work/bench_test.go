package work_test

import (
	"fmt"
	"testing"

	"github.com/muesli/termenv"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/track"
)

// BenchmarkStepAndView is a key pressed, saved and drawn at 80 x 24. It must take at
// most 1 ms, for a small piece and for two million cells alike.
func BenchmarkStepAndView(b *testing.B) {
	for _, c := range []struct{ pegs, rows int }{{26, 20}, {200, 10_000}} {
		b.Run(fmt.Sprintf("%d cells", c.pegs*c.rows), func(b *testing.B) {
			p := patterntest.Build(b, patterntest.Frame(c.pegs, 3, 3, c.rows-13))
			d := openPiece(b, pattern.Order{Pattern: p, Way: p.Way}, at(8, 0), style(termenv.ANSI, false), 80, 24)
			n, drawn := 0, 0
			for b.Loop() {
				d.press(space)
				n++
				d.says(track.Saved{Through: n})
				drawn += len(d.model.View())
				if n%100 == 0 {
					d.press(rune_('u'))
					n++
				}
			}
		})
	}
}
