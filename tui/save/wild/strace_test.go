//go:build linux

package wild_test

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
	"bypeg/tui/save"
)

// calls are the calls to the system that may go wrong, and mayGoWrong is how.
var (
	calls = []string{
		"write", "fsync", "openat", "newfstatat", "fstat", "renameat", "unlinkat", "mkdirat", "fchmod",
		"fchmodat", "getdents64", "read", "flock", "pwrite64", "ftruncate", "close",
	}
	mayGoWrong = []string{"signal=KILL", "error=EIO", "error=ENOSPC", "error=EROFS"}
)

// fault is one call of a run that goes wrong, or that one and all after it.
type fault struct {
	begins  bool   // the run begins a piece; otherwise it goes on with one
	call    string // its name
	when    int    // counted for each thread
	forGood bool
	how     string
}

func (f fault) String() string {
	s := fmt.Sprintf("%s:%s:when=%d", f.call, f.how, f.when)
	if f.forGood {
		s += "+"
	}
	return s
}

// traced is a folder with a piece and the paths in it that a run may touch.
type traced struct {
	root, log string
	begins    bool
}

// newTraced is a folder that holds what a template holds.
func newTraced(t testing.TB, template string, begins bool) traced {
	t.Helper()
	dir := t.TempDir()
	w := traced{root: filepath.Join(dir, "bypeg", "pieces"), log: filepath.Join(dir, "log"), begins: begins}
	if !begins {
		require.NoError(t, os.CopyFS(w.root, os.DirFS(template)))
	}
	return w
}

// start starts a writer whose calls strace writes down, and lets fail where it is told
// to. Only calls that have to do with the piece count.
func (w traced) start(t testing.TB, known bounds, faults ...string) *run {
	t.Helper()
	piece := filepath.Join(w.root, newID)
	command := w.strace(faults...)
	for _, dir := range []string{filepath.Dir(w.root), w.root, piece} {
		command = append(command, "-P", dir)
	}
	for _, name := range []string{
		"journal-0002.txt", "journal-0003.txt", "place.toml", "place.new", "lock",
		"pattern.new", fmt.Sprintf("pattern-%.4x.toml", sha256.Sum256([]byte(patternText))),
	} {
		command = append(command, "-P", filepath.Join(piece, name))
	}
	command = append(command, "-e", "trace=?"+strings.Join(calls, ",?"))
	way := ways{Root: w.root, Files: threadful, Begin: w.begins, Steps: 7, Ahead: 3, Tries: 3}
	return start(t, known, way, command...)
}

// strace makes the command that lets calls fail which have to do with the journal.
func (w traced) strace(faults ...string) []string {
	command := []string{"strace", "-f", "-qq", "-y", "-o", w.log, "-P", filepath.Join(w.root, newID, "journal-0001.txt")}
	quick := "--seccomp-bpf" // calls that are not traced cost nothing then; signals do not come through
	for _, f := range faults {
		command = append(command, "-e", "inject="+f)
		if strings.Contains(f, "signal=") {
			quick = ""
		}
	}
	if quick != "" {
		command = append(command, quick)
	}
	return command
}

func (w traced) lines(t testing.TB) []string {
	t.Helper()
	text, err := os.ReadFile(w.log)
	require.NoError(t, err)
	return strings.Split(string(text), "\n")
}

var calledBy = regexp.MustCompile(`^(\d+) +(\w+)\(`)

// counted is how many of each call a run makes, the most of any thread.
func (w traced) counted(t testing.TB) map[string]int {
	t.Helper()
	byThread := make(map[string]int)
	most := make(map[string]int)
	for _, line := range w.lines(t) {
		if m := calledBy.FindStringSubmatch(line); m != nil {
			byThread[m[0]]++
			most[m[2]] = max(most[m[2]], byThread[m[0]])
		}
	}
	return most
}

// faultsOf are all the faults that a run can meet.
func faultsOf(begins bool, most map[string]int) []fault {
	var all []fault
	for _, call := range calls {
		for k := 1; k <= most[call]; k++ {
			for _, how := range mayGoWrong {
				all = append(all, fault{begins, call, k, false, how})
			}
			all = append(all, fault{begins, call, k, true, "error=EIO"})
			if call == "newfstatat" {
				all = append(all, fault{begins, call, k, false, "error=ENOENT"})
			}
		}
	}
	return all
}

// needStrace skips a test where calls cannot be made to fail.
func needStrace(t testing.TB) {
	t.Helper()
	if out, err := exec.Command("strace", "-f", "--seccomp-bpf", "-o", os.DevNull, "-e", "inject=fsync:error=EIO", "true").CombinedOutput(); err != nil {
		t.Logf("%v: %s", err, out)
		figures.Skip(t, "strace")
	}
}

// met is what came of the faults.
type met struct {
	mu                                  sync.Mutex
	runs, injected, killed, asked, acks int
}

func TestNoCallThatGoesWrongLosesAStep(t *testing.T) {
	t.Parallel()
	needStrace(t)
	template := newRoot(t)
	known := bounds{1, 1}
	var all []fault
	for _, begins := range []bool{false, true} {
		w := newTraced(t, template, begins)
		r := w.start(t, known)
		require.Equal(t, endedWell, r.wait(), "%q", r.said)
		all = append(all, faultsOf(begins, w.counted(t))...)
	}
	possible := len(all)
	rand.New(rand.NewPCG(3, 4)).Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	all = all[:min(len(all), rounds(280, len(all)))]
	c := &met{}
	ok := t.Run("lanes", func(t *testing.T) {
		const lanes = 4
		for lane := range lanes {
			t.Run(fmt.Sprint(lane+1), func(t *testing.T) {
				t.Parallel()
				for i := lane; i < len(all); i += lanes {
					meet(t, c, template, all[i])
				}
			})
		}
	})
	require.True(t, ok, "some steps were lost or invented")
	figures.Say(t, "%d runs of %d possible, %d calls went wrong, %d of them killed, %d steps saved all the same, %d asked, 0 lost, 0 invented",
		c.runs, possible, c.injected, c.killed, c.acks, c.asked)
	if !testing.Short() {
		assert.GreaterOrEqual(t, c.injected, 220)
	}
	assert.Positive(t, c.acks)
	assert.Positive(t, c.killed)
}

// meet lets a run meet a fault and checks what is left.
func meet(t *testing.T, c *met, template string, f fault) {
	t.Helper()
	known := bounds{1, 1}
	if f.begins {
		known = bounds{}
	}
	w := newTraced(t, template, f.begins)
	r := w.start(t, known, f.String())
	killed := r.wait() < 0
	log := w.lines(t)
	defer func() {
		if t.Failed() {
			t.Logf("begins %t, %s: the writer said\n%s\nand called\n%s", f.begins, f, strings.Join(r.said, "\n"), strings.Join(log, "\n"))
		}
	}()
	hit := slices.ContainsFunc(log, func(s string) bool { return strings.Contains(s, "INJECTED") })
	if f.call == "fsync" && !killed {
		assertNoSecondSync(t, log)
	}
	asked := w.check(t, r)
	if t.Failed() {
		t.FailNow()
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.runs++
	c.acks += r.acked - known.acked
	for n, b := range map[*int]bool{&c.injected: hit || killed, &c.killed: killed, &c.asked: asked} {
		if b {
			*n++
		}
	}
}

// check looks at what a run has left.
func (w traced) check(t *testing.T, r *run) (asked bool) {
	t.Helper()
	if r.at < 0 && w.begins {
		_, err := look(w.root, r.bounds)
		if errors.Is(err, save.ErrNoPiece) || errors.Is(err, save.ErrNeverBegun) {
			all, err := save.List(save.System("the test"), w.root)
			assert.NoError(t, err)
			assert.Empty(t, all)
			return false
		}
		assert.NoError(t, err)
	}
	return goesOn(t, w.root, r.bounds)
}

var syncFailed = regexp.MustCompile(`fsync\(\d+<(.*/journal-\d+\.txt)>\) += -1`)

// assertNoSecondSync checks that a journal file whose sync has failed is left alone:
// to sync it again would be answered with a lie.
func assertNoSecondSync(t *testing.T, log []string) {
	t.Helper()
	failed := ""
	for _, line := range log {
		if failed != "" && strings.Contains(line, "<"+failed+">") {
			assert.NotRegexp(t, `^\d+ +(fsync|write)\(`, line, "after a sync of this file has failed")
		}
		if m := syncFailed.FindStringSubmatch(line); m != nil {
			failed = m[1]
		}
	}
}

// A system that says that it has written the first byte of a step, and has not.
func TestAWriteThatLiesIsFoundOut(t *testing.T) {
	t.Parallel()
	needStrace(t)
	w := newTraced(t, newRoot(t), false)
	r := start(t, bounds{1, 1}, ways{Root: w.root, Files: threadful, Steps: 4},
		w.strace("write:retval=1:when=3")...)
	require.Equal(t, endedWell, r.wait(), "%q", r.said)
	said := strings.Join(r.said, "\n")
	assert.Contains(t, said, "ack 3 1 3\nput 4\nchanged\nasked ", "step 4 was never said to be saved before it was put again")
	assert.Contains(t, said, "put 4\nack 4 1 4\n", "and then it was")
	assert.Equal(t, 5, r.acked)
	goesOn(t, w.root, r.bounds)
}

// The control: a writer that calls steps saved although they are not must be caught by
// the same faults.
func TestFaultsCatchAWriterThatSpeaksTooSoon(t *testing.T) {
	t.Parallel()
	needStrace(t)
	w := newTraced(t, newRoot(t), false)
	r := start(t, bounds{1, 1}, ways{Root: w.root, Steps: 7, Ahead: 3, Hasty: true}, w.strace("write:error=EIO:when=1+")...)
	require.Equal(t, leftUnsaved, r.wait(), "%q", r.said)
	_, err := look(w.root, r.bounds)
	assert.ErrorIs(t, err, errLost)
}

// A disk that takes 200 ms for each sync.
func TestASlowDiskNeverMakesThePegsWait(t *testing.T) {
	t.Parallel()
	needStrace(t)
	const steps = 100
	w := newTraced(t, newRoot(t), false)
	r := start(t, bounds{1, 1}, ways{Root: w.root, Steps: steps, Ahead: steps, Pace: time.Millisecond},
		append(w.strace("fsync:delay_exit=200000"), "-e", "trace=fsync")...)
	var longest int
	_, err := fmt.Sscan(r.until("longest"), &longest)
	require.NoError(t, err)
	require.Equal(t, endedWell, r.wait(), "%q", r.said)
	syncs := strings.Count(strings.Join(w.lines(t), "\n"), " fsync(")
	figures.Say(t, "%d steps, %d syncs of 200 ms; putting a step took %d µs at most", steps, syncs, longest)
	assert.Less(t, longest, 50_000, "putting a step must not wait for a sync")
	assert.GreaterOrEqual(t, syncs, steps/save.MaxBatch)
	assert.Less(t, syncs, steps/4, "what waits goes as one batch")
	assert.Equal(t, 1+steps, r.acked)
	goesOn(t, w.root, r.bounds)
}
