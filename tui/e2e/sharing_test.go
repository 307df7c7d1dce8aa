//go:build unix

package e2e_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"bypeg/tui/internal/term"
)

func TestASecondTerminalLooksOnAndTakesOver(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	first := cloth(t, home)
	first.steps(4)
	first.waitAt(0, 4)

	second := cloth(t, home)
	second.sees(fmt.Sprintf(`looking only: open in another terminal \(pid %d, (pts/|tty)\w+, since \d{4}-\d\d-\d\d \d\d:\d\d\)`, first.Pid()))
	second.waitAt(0, 4)
	second.steps(2)
	second.Keys(t, term.Up, term.Backspace, "u")
	second.Send(t, "g5\r")
	second.Keys(t, "?")
	second.WaitText(t, "keys")
	second.closesHelp()
	second.waitAt(0, 4)
	first.steps(1)
	first.waitAt(0, 5) // and the first is not disturbed
	// It works on while the second looks more than once whether it may take over, which
	// it does twice a second.
	for began := time.Now(); time.Since(began) < 1200*time.Millisecond; {
		first.steps(1)
		first.waitAt(0, 6)
		first.Keys(t, term.Backspace)
		first.waitAt(0, 5)
	}

	first.Keys(t, "q")
	assert.Equal(t, term.Exit{}, first.Wait(t))
	second.waitAt(0, 5) // where the first one left, not where the second came in
	second.WaitText(t, "the other terminal left it: you work it now")
	second.WaitFor(t, "the words to go", func(s *term.Screen) bool { return !strings.Contains(s.Text(), "another terminal") })
	second.steps(1)
	second.waitAt(0, 6)
	second.Keys(t, "q")
	second.CheckRestored(t)
	assert.Equal(t, "Sluice Cloth: cast-on, 6 of 30, saved", second.said())
}

func TestASecondTerminalTakesOverFromAKilledOne(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	first := cloth(t, home)
	first.toRow(2)
	first.steps(7)
	first.waitAt(2, 7)
	second := cloth(t, home)
	second.WaitText(t, "open in another terminal")
	first.Kill()
	second.WaitText(t, "the other terminal left it: you work it now")
	second.workOn(home, place{2, 7})
}

func TestWhoOnlyLookedSavesNothing(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	first := cloth(t, home)
	first.steps(4)
	first.waitAt(0, 4)
	second := cloth(t, home)
	second.WaitText(t, "open in another terminal")
	second.Keys(t, "q")
	assert.Equal(t, term.Exit{}, second.Wait(t))
	second.CheckRestored(t)
	assert.Equal(t, "Sluice Cloth: cast-on, 4 of 30, only looked at", second.said())
	first.steps(1)
	first.waitAt(0, 5)
}

func TestAChangedPatternIsAskedAboutAndThePlaceStays(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	text := exampleText(t, "sluice-cloth")
	file := write(t, filepath.Join(t.TempDir(), "my cloth.toml"), text)
	l := start(t, home, "work", file)
	l.waitAt(0, 0)
	l.toRow(10)
	l.steps(5)
	before := l.waitAt(10, 5)
	l.WaitText(t, "row 10 of 49")
	l.Kill()
	l.Wait(t)

	write(t, file, strings.Replace(text, "times = 6", "times = 7", 1))
	l = start(t, home, "work", file)
	l.WaitText(t, "It had 49 rows and has 55")
	l.waitSays("You are at row 10 peg 25: all you have worked is the same in both.")
	l.waitSays("If you keep it you are asked again at each start. ▸ keep the pattern as the piece was begun go on with the changed pattern at row 10 peg 25")
	l.Keys(t, term.Enter)
	assert.Equal(t, before, l.waitAt(10, 5))
	l.WaitText(t, "row 10 of 49")
	l.Keys(t, "q")
	l.Wait(t)

	l = start(t, home, "work", file)
	l.WaitText(t, "It had 49 rows and has 55")
	l.Keys(t, term.Down)
	l.WaitText(t, "▸ go on")
	l.Keys(t, term.Enter)
	assert.Equal(t, before, l.waitAt(10, 5))
	l.WaitText(t, "row 10 of 55")
	l.Kill()
	l.Wait(t)

	l = start(t, home, "work", file)
	assert.Equal(t, before, l.waitAt(10, 5)) // asked once, and not again
	l.WaitText(t, "row 10 of 55")
}

func TestAPatternsNewWordsAreTakenWithoutAQuestion(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	text := exampleText(t, "sluice-cloth")
	file := write(t, filepath.Join(t.TempDir(), "cloth.toml"), text)
	l := start(t, home, "work", file)
	l.waitAt(0, 0)
	l.steps(5)
	before := l.waitAt(0, 5)
	l.Keys(t, "q")
	l.Wait(t)
	write(t, file, strings.Replace(text, "Sluice Cloth", "Weir Cloth", 1))
	l = start(t, home, "work", file)
	l.WaitText(t, "Weir Cloth")
	assert.Equal(t, before, l.waitAt(0, 5))
}
