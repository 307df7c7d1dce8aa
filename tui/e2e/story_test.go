//go:build unix

package e2e_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

func TestAKilledProgramComesBackAtTheVerySamePeg(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := cloth(t, home)
	l.toRow(10)
	l.steps(25)
	l.waitAt(10, 25)
	l.WaitText(t, "border in 2 pegs: purl 3")
	l.steps(2)
	l.waitAt(10, 27)
	l.WaitText(t, "border: purl 3, then turn")
	l.steps(1)
	before := l.waitAt(10, 28)
	assert.Equal(t, 2, before.peg, "row 10 runs left to right, and peg 1 is at the right")
	l.Kill()
	l.Wait(t)

	again := cloth(t, home)
	after, ok := again.look()
	require.True(t, ok)
	assert.Equal(t, before, after)
}

func TestEveryPegOfARowIsTold(t *testing.T) {
	t.Parallel()
	l := cloth(t, t.TempDir())
	l.toRow(10)
	for done := range 30 {
		s := l.waitAt(10, done)
		assert.Equal(t, 30-done, s.peg)
		switch text := l.Text(); {
		case done < 3:
			assert.Contains(t, text, fmt.Sprintf("border: purl %d, then the field", 3-done))
		case done < 25:
			assert.NotContains(t, text, "border", "in the field, peg %d", s.peg)
		case done < 27:
			assert.Regexp(t, fmt.Sprintf(`▲ +border in %d pegs?: purl 3\n`, 27-done), text)
		default:
			assert.Contains(t, text, fmt.Sprintf("▲     border: purl %d, then turn", 30-done))
		}
		l.steps(1)
	}
	// Row 1 and every odd row run to the left here, so an even row ends at the right.
	s := l.waitAt(11, 0)
	assert.Equal(t, 1, s.peg)
	assert.Contains(t, s.now, "turn: row 10 done, yarn at the right")
}

func TestAWholeMatByTheRowKeyAlone(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := start(t, home, "work", "quay-mat")
	l.waitAt(0, 0)
	l.WaitText(t, "0 of 12 loops")
	l.toRow(15)
	assert.Contains(t, l.Text(), "after this row: bind off")
	l.Keys(t, term.Up)
	l.WaitText(t, "binding off")
	l.WaitText(t, "row 15 done")
	l.Keys(t, term.Space)
	l.WaitText(t, "1 of 12 loops")
	l.Keys(t, term.Up)
	l.WaitText(t, "weave in the tails")
	l.WaitText(t, "100%")
	l.Keys(t, "q")
	l.CheckRestored(t)
	assert.Equal(t, term.Exit{}, l.Wait(t))
	assert.Equal(t, "Quay Mat: finished, saved", l.Text())

	l = start(t, home, "work", "quay-mat")
	l.waitAt(0, 0) // the next mat, not the finished one
	l.WaitText(t, "casting on")
}

func TestTheShelf(t *testing.T) {
	t.Parallel()
	l := start(t, t.TempDir())
	l.WaitText(t, "Begin something new")
	assert.NotContains(t, l.Text(), "On the loom", "nothing is on it yet")
	title := chosen(t, l)
	l.Keys(t, term.Enter)
	l.WaitText(t, "casting on")
	assert.Contains(t, l.Line(0), title)
	l.steps(3)
	l.WaitText(t, "3 of ")
	l.Keys(t, "q")
	l.WaitText(t, "On the loom")
	assert.Equal(t, title, chosen(t, l), "what was worked last lies on top")
	l.Keys(t, term.Enter)
	l.WaitText(t, "casting on")
	l.WaitText(t, "3 of ")
	l.Keys(t, "q")
	l.WaitText(t, "On the loom")
	l.Keys(t, "q")
	assert.Equal(t, term.Exit{}, l.Wait(t))
	l.CheckRestored(t)
}

// chosen is the title under the hand.
func chosen(t testing.TB, l *loom) string {
	t.Helper()
	for line := range strings.Lines(l.Text()) {
		if title, ok := strings.CutPrefix(line, "▸ "); ok {
			title, _, _ = strings.Cut(title, "  ")
			return strings.TrimSpace(title)
		}
	}
	t.Fatalf("nothing is chosen:\n%s", l.Text())
	return ""
}
