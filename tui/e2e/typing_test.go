//go:build unix

package e2e_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/tui/internal/term"
)

func TestFastTypingIsAsManySteps(t *testing.T) {
	t.Parallel()
	l := cloth(t, t.TempDir())
	l.Send(t, strings.Repeat(" ", 12))
	l.waitAt(0, 12)
	l.Send(t, "uuu")
	l.waitAt(0, 9)
	l.Send(t, "UU")
	l.waitAt(0, 11)
	l.Send(t, "\x7f\x7f\x7f ")
	l.waitAt(0, 9)
	l.Send(t, "\r\x1b[A") // up to the first marked peg, and to the cast-on's end
	l.waitAt(1, 0)
}

func TestWhatIsNoTypingIsNothing(t *testing.T) {
	t.Parallel()
	l := cloth(t, t.TempDir())
	l.steps(6)
	l.waitAt(0, 6)
	// A step after each shows that what came before it was read, and did nothing.
	for i, text := range []string{
		"u§u",                          // one rune that is no key
		"11;rgb:0000/0000/0000",        // what is left of a late answer
		term.Pasted("uuu"),             // pasted, not typed
		term.Pasted("   "),             // keys one by one, were they typed
		"\x1b]11;rgb:0000/0000/0000\a", // a late answer whole
	} {
		l.Send(t, text)
		l.steps(1)
		l.waitAt(0, 7+i)
	}
}

func TestThePlaceOutlivesEverySizeOfTheTerminal(t *testing.T) {
	t.Parallel()
	l := cloth(t, t.TempDir())
	l.toRow(8)
	l.steps(4)
	before := l.waitAt(8, 4)

	l.Resize(t, 40, 12)
	l.WaitText(t, "row 8/49")
	l.WaitFor(t, "a small screen, full", func(s *term.Screen) bool { return strings.Contains(s.Line(11), "? help") })
	assert.Contains(t, l.Text(), "knit 3")
	pointer, y, ok := l.Find("▼")
	assert.True(t, ok, "the peg in hand is seen")
	edge, _, ok := l.Find("▾")
	assert.True(t, ok, "and the markers")
	assert.Equal(t, 2, pointer-edge, "peg 26 is two pegs right of the marked peg 28")
	assert.True(t, strings.HasPrefix(l.Line(y+1), "▸"), "it points at the row in hand")

	l.Resize(t, 20, 5)
	l.waitOnly("needs 40 x 12")
	l.Resize(t, 1, 1)
	l.waitOnly("")
	l.Resize(t, 80, 24)
	assert.Equal(t, before, l.waitAt(8, 4))

	l.Resize(t, 0, 0)
	l.steps(1)
	l.waitAt(8, 5)
	l.Resize(t, 80, 24)
	l.Keys(t, term.Backspace)
	assert.Equal(t, before, l.waitAt(8, 4))
}

// waitOnly waits until text is all that stands on the screen.
func (l *loom) waitOnly(text string) {
	l.t.Helper()
	l.WaitFor(l.t, "nothing but "+text, func(s *term.Screen) bool { return s.Text() == text })
}
