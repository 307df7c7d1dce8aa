//go:build unix

package e2e_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// answer types an answer on a screen that asks.
func (l *loom) answer(text string) {
	l.t.Helper()
	l.Keys(l.t, term.Key(text))
	l.waitSays("> " + text)
	l.Keys(l.t, term.Enter)
}

// Somebody's elbow was on the keys: the place is lost within a row. That the yarn leaves a
// peg, and three looks, find it: which peg, a count of bumps, and one stitch. A wrong guess is
// one undo away.
func TestALostPlaceIsFoundByThreeLooks(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := cloth(t, home)
	l.toRow(24)
	l.steps(7)
	before := l.waitAt(24, 7)
	l.Keys(t, "g", "9", term.Enter)
	l.waitAt(9, 0)

	l.Keys(t, "w")
	l.waitSays("Where does the working yarn hang")
	l.answer("between")
	l.waitSays("Which peg does the working yarn come from?")
	l.answer("24")
	l.waitSays("How many") // bumps of peg 30: twelve purl rows are worked there
	l.answer("12")
	l.waitSays("What does peg 5 show") // not reached: it shows row 23
	l.answer("b")
	l.waitSays("▸ ")
	l.Keys(t, term.Enter)
	found := l.waitAt(24, 7)
	l.rest()
	assert.Equal(t, before.place, found.place)
	l.Keys(t, "u")
	l.waitAt(9, 0)
	l.Keys(t, "U")
	l.waitAt(24, 7)
	l.steps(1)
	l.waitAt(24, 8)
	l.leaves("Sluice Cloth: row 24 peg 22, saved")
}

// Of garter, with rows 1 to 20 done, row 14 is wrong on peg 2 of a side: seven rungs of
// 14 to 20 are formed again. The program is killed in the middle, and goes on at that step.
func TestAColumnIsMendedAndAKillLosesNoStep(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := cloth(t, home)
	l.toRow(21)
	l.Keys(t, "m")
	l.waitSays("What is to be done?")
	l.answer("2")
	l.waitSays("From which row on is it wrong on peg 2? The newest one there is 20.")
	l.answer("14")
	l.waitSays("Ways to put peg 2 right from row 14 on:")
	l.waitSays("▸ let the column down and form it again: 7 rungs")
	l.Keys(t, term.Enter)
	l.waitSays("step 1 of 9")
	l.Keys(t, term.Enter, term.Enter, term.Enter)
	l.waitSays("step 4 of 9")
	assert.Regexp(t, `▸ 4 +.*row 16.*purl`, oneLine(l.Text()), "row 16 runs left to right; it is formed as it looks")
	p := pieceOf(t, home)
	l.WaitFor(t, "the step on the disk", func(*term.Screen) bool {
		return strings.Contains(p.read(firstJournal), `text="column 28 from row 14, step 3"`)
	})
	l.Kill()
	l.Wait(t)

	l = cloth(t, home)
	l.waitSays("a repair is under way: m goes on with it")
	l.Keys(t, "m")
	l.waitSays("step 4 of 9")
	for range 6 {
		l.Keys(t, term.Enter)
	}
	l.waitAt(21, 0)
	l.rest()
	l.leaves("Sluice Cloth: row 21 peg 1, saved")
	assert.NotContains(t, l.Text(), "repair")
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// The rows of a mat are done; it is bound off peg by peg, twelve loops with eleven lifted over
// the next (common practice, no source), and lies with the finished ones then. Its list is
// left in the middle, and goes on there.
func TestAMatIsBoundOffFinishedAndOnTheShelf(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := start(t, home, "work", "quay-mat")
	l.waitAt(0, 0)
	l.toRow(15)
	l.Keys(t, term.Up)
	l.waitSays("binding off")
	l.waitSays("2 ridges at both ends?")
	l.Keys(t, "m")
	l.waitSays("bind off, step by step; it needs about")
	for !regexp.MustCompile(`▸ bind off, step by step`).MatchString(l.Text()) {
		l.Keys(t, term.Down)
		l.waitSays("▸")
	}
	l.Keys(t, term.Enter)
	l.waitSays("step 1 of 49")
	over := 0
	for step := 1; step <= 49; step++ {
		l.waitSays(fmt.Sprintf("step %d of 49", step))
		if regexp.MustCompile(`▸ \d+ +on peg \d+ lift the lower loop`).MatchString(l.Text()) {
			over++
		}
		l.Keys(t, term.Enter)
	}
	assert.Equal(t, 11, over)
	l.waitSays("weave in the tails")
	l.waitSays("m finish it")
	l.rest()
	l.Keys(t, "m")
	l.waitSays("step 1 of ")
	l.Keys(t, term.Enter, term.Enter)
	l.waitSays("step 3 of ")
	l.Keys(t, term.Esc)
	l.waitSays("weave in the tails")
	l.Keys(t, "q")
	require.Equal(t, term.Exit{}, l.Wait(t))

	l = start(t, home)
	l.WaitText(t, "Off the loom")
	assert.Contains(t, oneLine(l.Text()), "Off the loom ▸ Quay Mat")
	assert.Contains(t, l.Text(), "The finishing is under way.")
	l.Keys(t, term.Enter)
	l.waitSays("the finishing is under way: m goes on with it")
	l.Keys(t, "m")
	l.waitSays("step 3 of ")
}
