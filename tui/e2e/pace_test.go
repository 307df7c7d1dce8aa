//go:build linux

package e2e_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
	"bypeg/tui/internal/term"
)

// These tests hold the program against the least that a program on a terminal can be:
// testdata/still. Both run in turns, so that what else the machine does slows both. The
// best round of a few counts: a law is one of the code, and what runs beside it can only
// make it look worse.
const paceRounds = 8

// timed leaves out what takes long, or tells nothing beside other tests.
func timed(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("times tell nothing here")
	}
}

// screen is a program on a pseudo-terminal whose output is only looked at for when it
// comes.
type screen struct {
	t    testing.TB
	cmd  *exec.Cmd
	pty  *os.File
	came chan []byte
}

// show starts a program and returns how long it takes until its first frame, which
// begins with some words.
func show(t testing.TB, home string, words string, binary string, args ...string) (*screen, time.Duration) {
	t.Helper()
	cmd := exec.Command(binary, args...)
	cmd.Env = term.Environment(home)
	began := time.Now()
	master, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	require.NoError(t, err)
	s := &screen{t, cmd, master, make(chan []byte, 1000)}
	go func() {
		defer close(s.came)
		for {
			b := make([]byte, 64<<10)
			n, err := master.Read(b)
			if n > 0 {
				s.came <- b[:n]
			}
			if err != nil {
				return
			}
		}
	}()
	var seen []byte
	for !bytes.Contains(seen, []byte(words)) {
		select {
		case b, ok := <-s.came:
			require.True(t, ok, "it ended:\n%s", seen)
			seen = append(seen, b...)
		case <-time.After(20 * time.Second):
			t.Fatalf("%s: no %q:\n%s", binary, words, seen)
		}
	}
	return s, time.Since(began)
}

// answer is how long a key takes until something is drawn.
func (s *screen) answer(key string) time.Duration {
	s.quiet()
	began := time.Now()
	_, err := s.pty.WriteString(key)
	require.NoError(s.t, err)
	select {
	case <-s.came:
	case <-time.After(20 * time.Second):
		s.t.Fatal("no answer")
	}
	return time.Since(began)
}

// quiet waits until nothing has been drawn for a moment of no fixed length, so that
// keys do not keep step with the frames.
func (s *screen) quiet() {
	for {
		select {
		case <-s.came:
		case <-time.After(40*time.Millisecond + rand.N(17*time.Millisecond)):
			return
		}
	}
}

// leave ends the program.
func (s *screen) leave() {
	_, _ = s.pty.WriteString("q")
	ended := time.AfterFunc(20*time.Second, func() { _ = s.cmd.Process.Kill() })
	defer ended.Stop()
	for range s.came {
		continue
	}
	require.NoError(s.t, s.cmd.Wait())
	_ = s.pty.Close()
}

// buildStill is the least program.
func buildStill(t testing.TB) string {
	t.Helper()
	path, remove, err := term.Build("./testdata/still", "-buildvcs=false")
	require.NoError(t, err)
	t.Cleanup(remove)
	return path
}

// tall is a piece of so many rows, by repeats, which has been begun.
func tall(t testing.TB, rows int) (home, path string) {
	t.Helper()
	home = t.TempDir()
	path = filepath.Join(home, "tall.toml")
	text := fmt.Sprintf(`pattern = 1
title = "Tall"
pegs = 30

[[zone]]
name = "field"
sides = 3
rows = ["k", "*k2, p2; rep from * to end", "k", "*p2, k2; rep from * to end"]
times = %d
`, rows/4)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	s, _ := show(t, home, "casting on", bypeg, "work", path)
	s.answer("\x1b[A") // to row 1
	s.quiet()
	s.leave()
	return home, path
}

// Not side by side with others: it measures time.
func TestTheFirstFrameComesHardlyLaterThanTheLeastProgramsOwn(t *testing.T) {
	timed(t)
	const runs, atMost = 15, 1.3
	still := buildStill(t)
	for _, rows := range []int{20, 5000} {
		home, path := tall(t, rows)
		best, ours, least := 0.0, time.Duration(0), time.Duration(0)
		for range paceRounds {
			var a, b []time.Duration
			for range runs {
				s, took := show(t, home, "Tall", bypeg, "work", path)
				s.quiet()
				s.leave()
				a = append(a, took)
				s, took = show(t, home, "still", still)
				s.quiet()
				s.leave()
				b = append(b, took)
			}
			if r := float64(median(a)) / float64(median(b)); best == 0 || r < best {
				best, ours, least = r, median(a), median(b)
			}
			if best <= atMost {
				break
			}
		}
		assert.LessOrEqual(t, best, atMost, "a piece of %d rows", rows)
		figures.Say(t, "a piece of %d rows: %.2f of the least program's time (limit %.1f): %s, %s", rows, best, atMost, ours.Round(time.Millisecond), least.Round(time.Millisecond))
	}
}

// Not side by side with others: it measures time.
func TestAKeyIsAnsweredHardlyLaterThanByTheLeastProgram(t *testing.T) {
	timed(t)
	const keys, atMost = 100, 1.2
	still := buildStill(t)
	home, path := tall(t, 5000)
	best, ours, least := 0.0, time.Duration(0), time.Duration(0)
	for range paceRounds {
		one, _ := show(t, home, "Tall", bypeg, "work", path)
		two, _ := show(t, home, "still", still)
		var a, b []time.Duration
		for range keys {
			a = append(a, one.answer(" "))
			b = append(b, two.answer(" "))
		}
		one.leave()
		two.leave()
		if r := float64(median(a)) / float64(median(b)); best == 0 || r < best {
			best, ours, least = r, median(a), median(b)
		}
		if best <= atMost {
			break
		}
	}
	assert.LessOrEqual(t, best, atMost)
	figures.Say(t, "%.2f of the least program's time (limit %.1f): %s, %s", best, atMost, ours.Round(100*time.Microsecond), least.Round(100*time.Microsecond))
}

// TestAnIdleProgramCostsNothing counts how often the kernel switches to the program in a
// minute without a key, beside the least program in the same minute.
func TestAnIdleProgramCostsNothing(t *testing.T) {
	timed(t)
	t.Parallel()
	const atMost = 1.1
	still := buildStill(t)
	home, path := tall(t, 5000)
	one, _ := show(t, home, "Tall", bypeg, "work", path)
	two, _ := show(t, home, "still", still)
	one.answer(" ") // a step saved, and all that follows it
	time.Sleep(2 * time.Second)
	one.quiet()
	two.quiet()
	a, b := switches(t, one), switches(t, two)
	time.Sleep(time.Minute)
	a, b = switches(t, one)-a, switches(t, two)-b
	drawn := len(one.came)
	one.leave()
	two.leave()
	assert.Zero(t, drawn, "nothing was drawn")
	assert.LessOrEqual(t, float64(a)/float64(b), atMost, "%d switches, %d of the least program", a, b)
	figures.Say(t, "%d switches in 60 s idle, the least program %d: %.2f (limit %.1f)", a, b, float64(a)/float64(b), atMost)
}

var switched = regexp.MustCompile(`(?m)^(?:non)?voluntary_ctxt_switches:\s+(\d+)$`)

// switches is how often the kernel has switched to any thread of a program.
func switches(t testing.TB, s *screen) int {
	t.Helper()
	tasks, err := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/status", s.cmd.Process.Pid))
	require.NoError(t, err)
	require.NotEmpty(t, tasks)
	all := 0
	for _, task := range tasks {
		text, err := os.ReadFile(task)
		if err != nil {
			continue // that thread has ended
		}
		for _, m := range switched.FindAllSubmatch(text, -1) {
			n, err := strconv.Atoi(string(m[1]))
			require.NoError(t, err)
			all += n
		}
	}
	return all
}

func median(all []time.Duration) time.Duration {
	slices.Sort(all)
	return all[len(all)/2]
}
