//go:build unix

package e2e_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/tui/internal/term"
)

// The chart, from the work and back, with each of its keys pressed once for real.
func TestTheChartIsLookedAtAndTheWorkGoesOn(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {40, 12}, {120, 50}} {
		t.Run(fmt.Sprintf("%d by %d", size[0], size[1]), func(t *testing.T) {
			t.Parallel()
			l := cloth(t, t.TempDir())
			l.toRow(9)
			l.steps(4)
			l.waitAt(9, 4)
			l.Keys(t, "c")
			l.waitSays("o cloth")
			l.Resize(t, size[0], size[1])
			l.WaitFor(t, "the chart in its size", func(s *term.Screen) bool {
				lines := strings.Split(strings.TrimRight(s.Text(), " \n"), "\n")
				return len(lines) == size[1] && strings.HasPrefix(lines[0], "Sluice Cloth") && strings.HasSuffix(lines[size[1]-1], "q back")
			})
			marked := func() string {
				for _, line := range strings.Split(l.Text(), "\n") {
					if strings.Contains(line, "▸") {
						return line
					}
				}
				return ""
			}
			assert.Contains(t, marked(), "← 9", "the row in hand is marked")
			there := l.Text()
			l.Keys(t, term.Up)
			l.WaitFor(t, "a row further up", func(s *term.Screen) bool { return s.Text() != there || size[1] == 50 })
			l.Keys(t, " ", "o")
			l.waitSays("row 9 of 49")
			l.WaitFor(t, "the row in hand beside the cloth", func(*term.Screen) bool { return strings.Contains(marked(), "9 ▸") })
			l.Keys(t, "o", "s", "s", "s", "Z", "z", "?")
			l.waitSays("any key")
			l.closesHelp()
			l.Keys(t, " ")
			l.WaitFor(t, "what was there at first", func(s *term.Screen) bool { return s.Text() == there })
			l.Resize(t, 80, 24)
			l.Keys(t, "c")
			l.waitAt(9, 4)
			l.steps(1)
			l.waitAt(9, 5)
			l.Keys(t, "q")
			assert.Equal(t, 0, l.Wait(t).Code)
		})
	}
}
