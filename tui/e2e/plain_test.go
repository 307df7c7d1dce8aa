//go:build unix

package e2e_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// dumb runs the program on a terminal that only prints.
func dumb(t testing.TB, home string, args ...string) *loom {
	t.Helper()
	return launch(t, bypeg, term.Setup{Home: home, W: 80, H: 200, Silent: true, Env: []string{"TERM=dumb"}}, args...)
}

// types types a line and waits for the answer, and for the next prompt.
func (l *loom) types(line, answer string) {
	l.t.Helper()
	before := strings.Count(l.Text(), "\n>")
	l.Send(l.t, line+"\n")
	l.WaitFor(l.t, fmt.Sprintf("an answer to %q", line), func(s *term.Screen) bool {
		return strings.Contains(s.Text(), answer) && strings.Count(s.Text(), "\n>") > before
	})
}

// printsOnly holds that nothing was written that a terminal obeys.
func (l *loom) printsOnly() {
	l.t.Helper()
	for _, b := range l.Raw() {
		if b < ' ' && b != '\n' && b != '\r' || b >= 0x7f {
			l.t.Fatalf("the byte %#x in %q", b, l.Raw())
		}
	}
}

func TestAWholeMatOnATerminalThatOnlyPrints(t *testing.T) {
	t.Parallel()
	l := dumb(t, t.TempDir(), "work", "quay-mat")
	l.WaitText(t, "then: chain cast-on, left to right; mark pegs 2, 11\n>")
	l.types("", "saved: cast on 1, peg 12")
	l.types("run", "saved: cast on 1, peg 11")
	l.types("row", "saved: cast on 10, pegs 10 to 1")
	for row := 1; row <= 15; row++ {
		l.types("row", fmt.Sprintf("saved: row %d, ", row))
		assert.Contains(t, l.Text(), fmt.Sprintf("\nturn: row %d done, yarn at the ", row))
	}
	l.types("row", "now: weave in the tails")
	cooked, err := l.Cooked()
	require.NoError(t, err)
	assert.True(t, cooked, "the line is the terminal's own to edit")
	l.Send(t, "\x04")
	assert.Equal(t, term.Exit{}, l.Wait(t))
	assert.Contains(t, l.Text(), "\n>\nQuay Mat: finished, saved", "the end stands on a line of its own")
	l.printsOnly()
	l.CheckRestored(t)
}

func TestATalkGoesOnInTheScreenAndBack(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := start(t, home, "work", "sluice-cloth", "--plain")
	l.WaitText(t, "\n>")
	l.types("row 10", "saved: row 9")
	l.types("peg 5", "saved: row 10, purl 3, pegs 30 to 28; knit 2, pegs 27, 26")
	l.types("note blue from here", "saved: note: blue from here")
	l.Keys(t, "q", term.Enter)
	assert.Equal(t, term.Exit{}, l.Wait(t))
	l.printsOnly()

	s := cloth(t, home)
	s.waitAt(10, 5)
	s.WaitText(t, "note: blue from here")
	s.Keys(t, "u") // the pegs were five steps
	s.waitAt(10, 4)
	s.Keys(t, "q")
	s.Wait(t)

	l = start(t, home, "work", "sluice-cloth", "--plain")
	l.WaitText(t, "Sluice Cloth: row 10 peg 26")
	l.WaitText(t, "note: blue from here\n>")
	l.types("redo", "saved: redone, at row 10 peg 25")
	l.Kill()
	l.Wait(t)
	cloth(t, home).waitAt(10, 5)
}

// stamped is what differs from one piece to another: its id, times and sums.
var stamped = regexp.MustCompile(`(?m)^# .*$|\d{4}-\d\d-\d\dT\S+| sum=\S+`)

func TestKeysAndWordsLeaveTheSameJournal(t *testing.T) {
	t.Parallel()
	journal := func(work func(home string)) string {
		home := t.TempDir()
		work(home)
		found, err := filepath.Glob(filepath.Join(home, "data", "bypeg", "pieces", "*", "journal-0001.txt"))
		require.NoError(t, err)
		require.Len(t, found, 1)
		text, err := os.ReadFile(found[0])
		require.NoError(t, err)
		return stamped.ReplaceAllString(string(text), "")
	}
	keys := journal(func(home string) {
		l := cloth(t, home)
		l.Keys(t, term.Up, term.Up, term.Up, term.Enter, term.Space, term.Space, term.Backspace, "u", "U", term.Down)
		l.waitAt(4, 0)
		l.Send(t, "g12\r")
		l.waitAt(12, 0)
		l.Keys(t, "n")
		l.WaitText(t, "note on row 12:")
		l.Send(t, "blue\r")
		l.WaitText(t, "note: blue")
		l.Keys(t, "t")
		l.WaitText(t, "a lifeline lies in row 11")
		l.Keys(t, "m")
		l.WaitText(t, "take rows back")
		l.Send(t, "6\r9\r")
		l.WaitText(t, "3 rungs")
		l.Keys(t, term.Down, term.Enter)
		l.WaitText(t, "step 1 of 5")
		l.Keys(t, term.Enter, term.Enter, term.Backspace)
		l.WaitText(t, "step 2 of 5")
		l.Keys(t, term.Esc)
		l.waitAt(12, 0)
		l.Keys(t, "q")
		l.Wait(t)
	})
	words := journal(func(home string) {
		l := start(t, home, "work", "sluice-cloth", "--plain")
		for _, line := range []string{"row 3", "run", "peg", "", "back", "undo", "redo", "back row", "go 12", "note blue", "line", "mend 6 from 9", "mend 2", "", "next", "back", "stop", "quit"} {
			l.Send(t, line+"\n")
		}
		l.Wait(t)
	})
	assert.Equal(t, keys, words)
	for _, text := range []string{"blue", "line at row 11", "column 24 from row 9, step 1"} {
		assert.Contains(t, keys, fmt.Sprintf("text=%q", text))
	}
}

// A column is mended by words; the talk is killed in the middle, gone on with on the screen,
// and done in another talk.
func TestARepairByWordsOutlivesAKillAndGoesOnOnTheScreen(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := dumb(t, home, "work", "sluice-cloth")
	l.WaitText(t, "\n>")
	l.types("go 12", "saved: at row 12 peg 30")
	l.types("mend 6 from 9", "2: let the column down and form it again: 3 rungs")
	l.types("mend 2", "step 1 of 5: lift the loop off peg 6 and let")
	l.types("", "saved: step 1 done")
	l.types("next", "step 3 of 5: row 10: ")
	l.Kill()
	l.Wait(t)

	s := cloth(t, home)
	s.waitAt(12, 0)
	s.WaitText(t, "a repair is under way")
	s.Send(t, "m")
	s.WaitText(t, "step 3 of 5")
	s.Keys(t, term.Enter)
	s.WaitText(t, "step 4 of 5")
	s.Keys(t, term.Esc)
	s.waitAt(12, 0)
	s.Keys(t, "q")
	s.Wait(t)

	l = dumb(t, home, "work", "sluice-cloth")
	l.WaitText(t, "a repair is under way: mend goes on with it\n")
	l.types("row", "mend goes on with it; the same once more")
	l.types("mend", "step 4 of 5: row 11: ")
	l.types("back", "saved: back to step 3")
	l.types("", "saved: step 3 done")
	l.types("", "step 5 of 5: put the loop back on peg 6")
	l.types("", "saved: all steps done")
	l.types("row", "saved: row 12, ")
	l.Keys(t, "q", term.Enter)
	assert.Equal(t, term.Exit{}, l.Wait(t))
	l.printsOnly()
	assert.Contains(t, l.Text(), "Sluice Cloth: row 13 peg 1, saved")
}

func TestAnInterruptedTalkIsSaved(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		end  func(*loom)
		code int // of the signal; 0 where the end of what is typed may come before it
	}{
		{"ctrl+c", func(l *loom) { l.Keys(t, "\x03") }, 130},
		{"a request to end", func(l *loom) { l.Signal(t, syscall.SIGTERM) }, 143},
		{"a lost line", func(l *loom) { l.HangUp() }, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			home := t.TempDir()
			l := start(t, home, "work", "quay-mat", "--plain")
			l.WaitText(t, "\n>")
			l.types("row", "count 12 loops")
			l.types("peg 5", "saved: row 1, knit 5, pegs 1 to 5")
			c.end(l)
			if e := l.Wait(t); c.code != 0 {
				assert.Equal(t, term.Exit{Code: c.code}, e)
			}
			again := start(t, home, "work", "quay-mat", "--plain", "--once")
			again.Wait(t)
			assert.Contains(t, again.Text(), "Quay Mat: row 1 peg 6\n")
		})
	}
}

func TestATalkLooksOnAndTakesOver(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	first := cloth(t, home)
	first.steps(4)
	first.waitAt(0, 4)
	second := start(t, home, "work", "sluice-cloth", "--plain")
	second.WaitText(t, "\n>")
	only := fmt.Sprintf("looking only: open in another terminal (pid %d, ", first.Pid())
	assert.Contains(t, second.Text(), "Sluice Cloth: cast-on, 4 of 30\n"+only)
	second.types("row", "")
	assert.Equal(t, 2, strings.Count(second.Text(), only))
	first.steps(1)
	first.waitAt(0, 5)
	second.types("where", "Sluice Cloth: cast-on, 5 of 30")
	once := start(t, home, "work", "sluice-cloth", "--once")
	assert.Equal(t, term.Exit{}, once.Wait(t))
	assert.NotContains(t, once.Text(), "looking only", "nobody asked to work it")
	first.Keys(t, "q")
	first.Wait(t)
	second.types("peg", "the other terminal left it: you work it now")
	assert.NotContains(t, second.Text(), "saved: ", "that peg was meant for what had been said before")
	second.types("peg", "saved: cast on 1, peg ")
	second.Keys(t, "q", term.Enter)
	second.Wait(t)
	assert.Contains(t, second.Text(), "Sluice Cloth: cast-on, 6 of 30, saved")
}

func TestATalkInAPipeEndsWithIt(t *testing.T) {
	t.Parallel()
	require.NoError(t, touched())
	cmd := exec.Command("/bin/sh", "-c", `yes peg | "$0" work sluice-cloth --plain | head -n 40 >/dev/null; "$0" work --once`, bypeg)
	cmd.Env = term.Environment(t.TempDir())
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
	assert.Regexp(t, `(?m)^Sluice Cloth: (cast-on, \d+ of 30|row \d+ peg \d+)$`, string(out))
}
