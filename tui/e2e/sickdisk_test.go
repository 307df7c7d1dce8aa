//go:build unix

package e2e_test

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
	"bypeg/tui/internal/term"
)

// sick makes calls of the running program fail or wait, as strace(1) has it under
// "inject", until heal is called.
func (l *loom) sick(call, how string) (heal func()) {
	l.t.Helper()
	strace, err := exec.LookPath("strace")
	if err != nil {
		figures.Skip(l.t, "strace")
	}
	cmd := exec.Command(strace, "-f", "-o", os.DevNull, "-e", "trace="+call, "-e", "inject="+call+":"+how, "-p", strconv.Itoa(l.Pid()))
	says, err := cmd.StderrPipe()
	require.NoError(l.t, err)
	require.NoError(l.t, cmd.Start())
	heal = sync.OnceFunc(func() {
		_ = cmd.Process.Signal(os.Interrupt)
		_, _ = bufio.NewReader(says).WriteTo(new(strings.Builder))
		_ = cmd.Wait() // it ends by the signal
	})
	l.t.Cleanup(heal)
	if line, _ := bufio.NewReader(says).ReadString('\n'); !strings.Contains(line, "attached") {
		figures.Skip(l.t, "strace that may look into a program that runs: "+strings.TrimSpace(line))
	}
	return heal
}

func TestASyncThatFailsIsCuredByTheNextFile(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	p := sevenPegs(t, home, false)
	l := cloth(t, home)
	l.waitAt(2, 7)
	heal := l.sick("fsync", "error=EIO")
	l.steps(1)
	l.waitSays("▲ NOT SAVED: the disk reports an error. Saved: row 2 peg 23. s tries again")
	l.steps(1)
	l.WaitText(t, "9 of 30 worked")
	l.waitSays("▲ NOT SAVED: the disk reports an error. Saved: row 2 peg 23.")
	l.Keys(t, "q")
	l.waitSays("Not everything is saved NOT SAVED: the disk reports an error. Saved: row 2 peg 23. 2 steps would be lost. ▸ try again to save leave all the same")
	heal()
	l.Keys(t, term.Enter)
	l.waitAt(2, 9)
	assert.NotContains(t, l.Text(), "NOT SAVED")
	files, err := filepath.Glob(p.path("journal-*.txt"))
	require.NoError(t, err)
	assert.Greater(t, len(files), 1, "a file whose sync has failed is left")
	l.workOn(home, place{2, 9})
}

// A disk that takes 200 ms to answer. What is typed is drawn at once, in round
// brackets, in words after 150 ms, and in square brackets once it is on the disk.
func TestASlowDiskHoldsNobodyUp(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	sevenPegs(t, home, false)
	l := cloth(t, home)
	l.waitAt(2, 7)
	heal := l.sick("fsync", "delay_exit=200000")

	began := time.Now()
	l.Send(t, strings.Repeat(" ", 10))
	var drawn time.Duration
	words := false
	l.WaitFor(t, "ten pegs, saved", func(*term.Screen) bool {
		s, ok := l.look()
		if !ok || s.place == (place{2, 7}) {
			return false
		}
		if s.done == 17 && drawn == 0 {
			drawn = time.Since(began)
		}
		words = words || strings.Contains(l.Text(), "%  saving")
		if s.saved {
			require.Equal(t, place{2, 17}, s.place, "square brackets before all was drawn")
		}
		return s.saved
	})
	saved := time.Since(began)
	assert.GreaterOrEqual(t, saved, 400*time.Millisecond, "one write for the first peg, and one for those that came meanwhile")
	assert.Less(t, drawn, saved-200*time.Millisecond, "all were drawn before the disk had answered the first write")
	assert.True(t, words, "words tell that it is slow")
	assert.NotContains(t, l.Text(), "saving")

	heal()
	l.sick("fsync", "delay_exit=1000000")
	l.Send(t, "   q") // and to leave is to wait for the disk
	assert.Equal(t, term.Exit{}, l.Wait(t))
	assert.Equal(t, "Sluice Cloth: row 2 peg 10, saved", l.said())
	figures.Say(t, "fsync takes 200 ms: ten keys drawn after %d ms, saved after %d ms", drawn.Milliseconds(), saved.Milliseconds())
	cloth(t, home).waitAt(2, 20)
}

func TestAFolderWithoutLocksIsSaidAndStillWatched(t *testing.T) {
	t.Parallel()
	strace, err := exec.LookPath("strace")
	if err != nil {
		figures.Skip(t, "strace")
	}
	home := t.TempDir()
	sevenPegs(t, home, false)
	lockless := func() *loom {
		return launch(t, strace, term.Setup{Home: home}, "-f", "-o", os.DevNull, "-e", "trace=flock", "-e", "inject=flock:error=ENOLCK", bypeg, "work", "sluice-cloth")
	}
	first := lockless()
	first.waitAt(2, 7)
	first.waitSays("this folder can't be locked: do not open the piece in two terminals")
	second := lockless()
	second.waitAt(2, 7)
	second.waitSays("this folder can't be locked")
	second.steps(1)
	second.waitAt(2, 8)
	first.steps(2)
	first.sees(`which place is the right one\?`, `The saved file was changed by something else`,
		`▸ row 2 peg 23, as it was saved here, `+told, `row 2 peg 22, from the journal, `+told)
	first.rest()
	first.Keys(t, term.Down, term.Enter)
	first.waitAt(2, 8)
	first.workOn(home, place{2, 8})
}

// fullDisk runs a program twice on a small disk of its own, that is there for as long
// as both.
const fullDisk = `mkdir -p "$XDG_DATA_HOME" && mount -t tmpfs -o size=256k none "$XDG_DATA_HOME" || exit 99
"$0" work sluice-cloth; echo "code $?"; read -r go_on; "$0" work sluice-cloth`

func TestAFullDiskIsRedUntilThereIsRoom(t *testing.T) {
	t.Parallel()
	unshare, err := exec.LookPath("unshare")
	if err != nil || exec.Command(unshare, "-rm", "/bin/sh", "-c", "mount -t tmpfs -o size=256k none /mnt").Run() != nil {
		figures.Skip(t, "unshare and tmpfs")
	}
	home := t.TempDir()
	l := launch(t, unshare, term.Setup{Home: home}, "-rm", "/bin/sh", "-c", fullDisk, bypeg)
	l.waitAt(0, 0)
	l.toRow(2)
	disk := filepath.Join("/proc", strconv.Itoa(l.Pid()), "root", home, "data")

	fill(t, disk)
	l.fillsUp()
	l.Keys(t, "q")
	l.sees(`Not everything is saved NOT SAVED: disk full\. Saved: row \d+ peg \d+\. \d+ steps? would be lost\. ▸ try again to save leave all the same`)
	l.Keys(t, term.Enter)
	l.sees(`▲ NOT SAVED: disk full\. Saved: row \d+ peg \d+\. s tries again`)
	require.NoError(t, os.Remove(filepath.Join(disk, "filler")))
	l.Keys(t, "s")
	whole := l.waitSeen("all saved", func(sight) bool { return true })
	assert.NotContains(t, l.Text(), "NOT SAVED")

	fill(t, disk)
	saved := l.fillsUp()
	assert.GreaterOrEqual(t, saved.pegs(), whole.pegs())
	shown, ok := l.look()
	require.True(t, ok)
	l.Keys(t, "q")
	l.WaitText(t, "would be lost")
	l.Keys(t, term.Down, term.Enter)
	l.sees(fmt.Sprintf(`bypeg: error: \d+ steps? lost: NOT SAVED: disk full Sluice Cloth: saved is row %d peg %d; the screen was at row %d peg %d code 3`,
		saved.row, pegOf(saved), shown.row, pegOf(shown.place)))
	require.NoError(t, os.Remove(filepath.Join(disk, "filler")))
	l.Send(t, "\r")
	again := l.waitSeen("the place again", func(sight) bool { return true })
	assert.GreaterOrEqual(t, again.pegs(), saved.pegs(), "what was said to be saved is there")
	assert.LessOrEqual(t, again.pegs(), shown.pegs(), "and at most what a write that failed has left")
}

// pegs is how many pegs of the cloth were worked up to a place.
func (p place) pegs() int { return p.row*30 + p.done }

// fill writes to a disk until nothing more goes on it.
func fill(t testing.TB, disk string) {
	t.Helper()
	f, err := os.Create(filepath.Join(disk, "filler"))
	require.NoError(t, err)
	defer f.Close()
	for {
		if _, err := f.Write(make([]byte, 4096)); err != nil {
			return
		}
	}
}

// fillsUp works pegs until the disk is full. It returns the place that the screen says is
// saved.
func (l *loom) fillsUp() place {
	l.t.Helper()
	for range 80 { // more than a block of the disk holds
		if l.step(); strings.Contains(l.Text(), "NOT SAVED") {
			break
		}
	}
	l.sees(`▲ NOT SAVED: disk full\. Saved: row \d+ peg \d+\. s tries again`)
	_, says, _ := strings.Cut(l.said(), "Saved: row ")
	words := strings.Fields(strings.ReplaceAll(says, ".", " "))
	row, err1 := strconv.Atoi(words[0])
	peg, err2 := strconv.Atoi(words[2])
	require.NoError(l.t, err1)
	require.NoError(l.t, err2)
	l.step()
	l.step()
	l.sees(`▲ NOT SAVED: disk full\. Saved: row ` + words[0] + ` peg ` + words[2] + `\.`)
	at := place{row, peg - 1}
	if row%2 == 0 {
		at.done = 30 - peg
	}
	require.Equal(l.t, peg, pegOf(at))
	return at
}

// step works a peg, and waits until that is drawn and the disk has said its word.
func (l *loom) step() {
	l.t.Helper()
	var before sight
	l.WaitFor(l.t, "a whole frame", func(*term.Screen) (ok bool) {
		before, ok = l.look()
		return ok
	})
	l.steps(1)
	l.WaitFor(l.t, "a step more", func(*term.Screen) bool {
		s, ok := l.look()
		return ok && s.pegs() == before.pegs()+1 && (s.saved || strings.Contains(l.Text(), "NOT SAVED"))
	})
}
