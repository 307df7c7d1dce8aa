//go:build unix

package e2e_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/tui/internal/term"
)

// sizes are those that every screen is tried at.
var sizes = []struct{ w, h int }{{80, 24}, {40, 12}, {120, 50}}

// at is a run of the program on a terminal of a size.
func at(t testing.TB, home string, w, h int, args ...string) *loom {
	t.Helper()
	return launch(t, bypeg, term.Setup{Home: home, W: w, H: h}, args...)
}

func TestWhatIsKeptWithAPieceForReal(t *testing.T) {
	for _, size := range sizes {
		t.Run("", func(t *testing.T) {
			t.Parallel()
			home := t.TempDir()
			l := at(t, home, size.w, size.h, "work", "quay-mat", "--on-loom", "4")
			l.waitSays("THEN row 5 ←")
			l.Send(t, "n")
			l.waitSays("note on row 5:")
			l.Send(t, "blue\r")
			l.waitSays("note: blue")
			l.Send(t, "N")
			l.waitSays("on purpose:")
			l.Send(t, "a ridge less\r")
			l.waitSays("told whenever the piece is opened: a ridge less")
			l.Send(t, "l")
			l.WaitText(t, "peg")
			l.Send(t, "l")
			l.WaitText(t, "▸")
			l.Keys(t, "q")
			assert.Equal(t, term.Exit{}, l.Wait(t))
			l.waitSays("Quay Mat: row 5 peg 1, saved")
			l.waitSays("4 rows done: 2 ridges. The yarn hangs at the right, away from the tail. Next: row 5, right to left, from peg 1.")

			l = at(t, home, size.w, size.h)
			l.WaitText(t, "On the loom")
			l.Send(t, "r")
			l.WaitText(t, "another name")
			l.Send(t, " II\r")
			l.waitSays("Quay Mat is now called Quay Mat II")
			l.Send(t, "a")
			l.waitSays("Quay Mat II is put away: u undoes it")
			l.Send(t, "u")
			l.waitSays("undone: Quay Mat II is on the loom again")
			l.Send(t, "d")
			l.waitSays("Quay Mat II is deleted: u undoes it")
			l.Send(t, "u")
			l.waitSays("undone: Quay Mat II is on the loom again")
			l.Keys(t, term.Enter)
			l.waitSays("NOW turn")
			l.waitSays("on purpose: a ridge less")
			l.Send(t, "?")
			l.WaitText(t, "keys")
			l.closesHelp()
			l.Keys(t, "q")
			l.WaitText(t, "On the loom")
			l.Send(t, "\x1b[F") // end: the last example
			l.waitSays("24 pegs, 49 rows")
			l.Keys(t, term.Up) // the scarf
			l.Send(t, "m")
			l.waitSays("on the loom already, of 253:")
			l.Send(t, "30\r")
			l.waitSays("THEN row 31 ←")
			l.Keys(t, term.Tab)
			l.waitSays("THEN row 5 ←")
			l.Keys(t, term.Tab)
			l.waitSays("THEN row 31 ←")
			l.Keys(t, "q")
			l.WaitText(t, "On the loom")
			l.Keys(t, "q")
			assert.Equal(t, term.Exit{}, l.Wait(t))
			l.CheckRestored(t)
			l.waitSays("row 31 peg 1, saved") // from the shelf too
			l.waitSays("Next: row 31, right to left, from peg 1.")
		})
	}
}

func TestTheWholeSmallExampleByTheSpaceKeyAlone(t *testing.T) {
	for _, size := range sizes {
		t.Run("", func(t *testing.T) {
			t.Parallel()
			l := at(t, t.TempDir(), size.w, size.h, "work", "quay-mat")
			l.waitSays("cast on")
			for range 12 + 15*12 + 12 { // loops, stitches, loops
				l.Keys(t, term.Space)
			}
			l.waitSays("weave in the tails")
			l.WaitText(t, "100%")
			l.Keys(t, "q")
			assert.Equal(t, term.Exit{}, l.Wait(t))
			l.waitSays("Quay Mat: finished, saved")
		})
	}
}

func TestAnotherPegCountForReal(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := start(t, home, "work", "quay-mat", "--pegs", "16")
	l.waitSays("16 pegs, pattern 12: on purpose")
	l.waitSays("0 of 16 loops")
	l.Keys(t, "q")
	l.Wait(t)
	l = start(t, home, "work", "quay-mat")
	l.waitSays("16 pegs, pattern 12: on purpose")
	l.Keys(t, "q")
	l.Wait(t)
}
