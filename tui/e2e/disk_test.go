//go:build unix

package e2e_test

import (
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/tui/internal/term"
)

// limited runs the program where no file may grow past so many blocks, as on a disk
// that is full. POSIX, "ulimit": a block is 512 bytes; some shells take 1024.
func limited(t testing.TB, home, blocks string) *loom {
	t.Helper()
	return launch(t, "/bin/sh", term.Setup{Home: home}, "-c",
		"trap '' XFSZ; ulimit -f "+blocks+"; exec "+bypeg+" work sluice-cloth")
}

// However the program is left while the disk is full, what is saved and what is not is
// told, and the code is that of a disk that did not take everything.
func TestEveryWayOutWhileTheDiskIsFullSaysSo(t *testing.T) {
	cases := map[string]func(*loom){
		"q, and leave all the same": func(l *loom) {
			l.Keys(l.t, "q")
			l.waitSays("1 step would be lost")
			l.Keys(l.t, term.Down, term.Enter)
		},
		"ctrl+c twice": func(l *loom) {
			l.Keys(l.t, term.CtrlC)
			l.waitSays("Not everything is saved NOT SAVED: the file may not grow further. Saved: cast-on, 29 of 30. 1 step would be lost.")
			l.Keys(l.t, term.CtrlC)
		},
		"SIGTERM": func(l *loom) { l.Signal(l.t, syscall.SIGTERM) },
		"SIGHUP":  func(l *loom) { l.Signal(l.t, syscall.SIGHUP) },
	}
	for name, leave := range cases {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			home := t.TempDir()
			l := cloth(t, home)
			l.steps(29) // more than a block of history
			l.waitAt(0, 29)
			l.Keys(t, "q")
			l.Wait(t)
			l = limited(t, home, "1")
			l.waitAt(0, 29)
			l.steps(1)
			l.WaitText(t, "▲ NOT SAVED: ")
			leave(l)
			assert.Equal(t, term.Exit{Code: 3}, l.Wait(t))
			l.CheckRestored(t)
			assert.Equal(t, "bypeg: error: 1 step lost: NOT SAVED: the file may not grow further"+
				" Sluice Cloth: saved is cast-on, 29 of 30; the screen was at row 1 peg 1", l.said())
		})
	}
}

func TestWhatADiskDoesNotTakeIsNeverShownAsSaved(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := cloth(t, home)
	l.steps(29) // more than a block of history
	l.waitAt(0, 29)
	l.Keys(t, "q")
	l.Wait(t)

	l = limited(t, home, "1")
	l.waitAt(0, 29)
	l.steps(2)
	l.WaitText(t, "▲ NOT SAVED: ")
	l.WaitFor(t, "the peg in round brackets", func(*term.Screen) bool {
		s, ok := l.look()
		return ok && s.place == place{1, 1} && !s.saved
	})
	assert.Contains(t, l.Text(), "▲ NOT SAVED: the file may not grow further. Saved: cast-on, 29 of 30.\n  s tries again\n")

	l.Keys(t, "q")
	l.waitSays("2 steps would be lost")
	assert.Contains(t, l.Text(), "▸ try again to save")
	l.Keys(t, term.Enter)
	l.WaitText(t, "▲ NOT SAVED: ")
	l.steps(1)
	l.WaitText(t, "2 of 30 worked")
	l.Keys(t, "q")
	l.waitSays("3 steps would be lost")
	l.Keys(t, term.Down, term.Enter)
	assert.Equal(t, term.Exit{Code: 3}, l.Wait(t))
	l.CheckRestored(t)
	said := strings.ReplaceAll(string(l.Raw()), "\r\n", "\n")
	assert.Contains(t, said, "bypeg: error: 3 steps lost: NOT SAVED: ")
	assert.Contains(t, said, "Sluice Cloth: saved is cast-on, 29 of 30; the screen was at row 1 peg 3\n")

	l = cloth(t, home)
	l.waitAt(0, 29)
	l.steps(2)
	l.waitAt(1, 1)
}
