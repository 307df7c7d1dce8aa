//go:build unix

package e2e_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

func TestEveryWayOutSavesThePlaceAndGivesTheTerminalBack(t *testing.T) {
	signal := func(sig syscall.Signal) func(*loom) { return func(l *loom) { l.Signal(l.t, sig) } }
	keys := func(keys ...term.Key) func(*loom) { return func(l *loom) { l.Keys(l.t, keys...) } }
	cases := []struct {
		name string
		end  func(*loom)
		code int
	}{
		// Codes of signals are 128 and the signal's number, as shells have it: POSIX,
		// "Exit Status for Commands" (a status above 128).
		{"q", keys("q"), 0},
		{"ctrl+c", keys(term.CtrlC), 130},
		{"ctrl+c from the chart", keys("c", term.CtrlC), 130},
		{"ctrl+c from the list of keys", keys("?", term.CtrlC), 130},
		{"ctrl+c twice while a row is typed: the first only closes the field", keys("g", "4", term.CtrlC, term.CtrlC), 130},
		{"SIGINT", signal(syscall.SIGINT), 130},
		{"SIGTERM", signal(syscall.SIGTERM), 143},
		{"SIGHUP", signal(syscall.SIGHUP), 129},
		{"SIGQUIT", signal(syscall.SIGQUIT), 131},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			home := t.TempDir()
			l := cloth(t, home)
			l.toRow(2)
			l.steps(7)
			before := l.waitAt(2, 7)
			c.end(l)
			assert.Equal(t, term.Exit{Code: c.code}, l.Wait(t))
			l.CheckRestored(t)
			assert.Equal(t, "Sluice Cloth: row 2 peg 23, saved", l.said())
			again, _ := cloth(t, home).look()
			assert.Equal(t, before, again)
		})
	}
}

// Not side by side with others: it measures time.
func TestATerminalThatGoesAwayEndsTheProgramWithinASecond(t *testing.T) {
	home := t.TempDir()
	l := cloth(t, home)
	l.steps(7)
	before := l.waitAt(0, 7)
	began := time.Now()
	l.HangUp()
	l.Wait(t)
	assert.Less(t, time.Since(began), time.Second)
	again, _ := cloth(t, home).look()
	assert.Equal(t, before, again)
}

func TestToTheShellAndBack(t *testing.T) {
	t.Parallel()
	shell, args := "/bin/sh", []string{"-i"}
	if bash, err := exec.LookPath("bash"); err == nil {
		shell, args = bash, []string{"--norc", "--noprofile", "-i"}
	}
	l := launch(t, shell, term.Setup{Env: []string{"PS1=shell> ", "ENV=", "HISTFILE="}}, args...)
	l.WaitText(t, "shell>")
	l.Send(t, bypeg+" work sluice-cloth\r")
	l.waitAt(0, 0)
	l.steps(5)
	before := l.waitAt(0, 5)
	screen := l.Text()

	l.Keys(t, term.CtrlZ)
	l.WaitFor(t, "the shell", func(s *term.Screen) bool { return !s.AltScreen() && s.CursorVisible() })
	l.Send(t, "echo here I $((6*7)) am\r")
	l.WaitText(t, "here I 42 am")

	l.Send(t, "fg\r")
	l.WaitFor(t, "the loom", (*term.Screen).AltScreen)
	assert.Equal(t, before, l.waitAt(0, 5))
	l.WaitFor(t, "the same screen", func(s *term.Screen) bool { return s.Text() == screen })
	l.steps(1)
	l.waitAt(0, 6)
	l.Keys(t, "q")
	l.WaitText(t, "Sluice Cloth: cast-on, 6 of 30, saved")
	l.Send(t, "exit\r")
	l.Wait(t)
}

func TestABugGivesTheTerminalBackAndLosesNothing(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := launch(t, crashing, term.Setup{Home: home}, "work", "sluice-cloth")
	l.waitAt(0, 0)
	l.toRow(1)
	l.steps(7)
	before := l.waitAt(1, 7)
	l.Keys(t, "!")
	assert.Equal(t, term.Exit{Code: 70}, l.Wait(t)) // EX_SOFTWARE of sysexits(3)
	l.CheckRestored(t)
	report := filepath.Join(home, "data", "bypeg", "crash.txt")
	said := string(l.Raw())
	assert.Contains(t, said, "Sluice Cloth: row 1 peg 8, saved\r\n")
	assert.Contains(t, said, "bypeg: error: a bug in this program ended it: crashed on purpose\r\n")
	assert.Contains(t, said, report)
	text, err := os.ReadFile(report)
	require.NoError(t, err)
	assert.Contains(t, string(text), "crashed on purpose")
	assert.Contains(t, string(text), "Update(", "with the trace of calls")

	again, _ := cloth(t, home).look()
	assert.Equal(t, before, again)
}
