//go:build unix

package wild_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"bypeg/tui/save"
)

// What is never to be.
var (
	errLost     = errors.New("lost")
	errInvented = errors.New("invented")
)

// patience is how long a test waits for a word of a writer, or for its end.
const patience = 30 * time.Second

// run is a writer at work, from outside. It ends with the test at the latest.
type run struct {
	bounds
	t      testing.TB
	cmd    *exec.Cmd
	out    *os.File // what the writer says
	in     *os.File // what it is told
	unread []byte
	said   []string
	at     int // where it said that it found the work, -1 before
	ended  bool
}

// newID is the id of the pieces that tests begin.
const newID = "k7q2"

// newRoot is a folder for pieces, with one that a writer has begun.
func newRoot(t testing.TB) string {
	t.Helper()
	root := filepath.Join(t.TempDir(), "bypeg", "pieces")
	begin(t, ways{Root: root})
	return root
}

// begin begins a piece and leaves it.
func begin(t testing.TB, w ways) {
	t.Helper()
	w.ID, w.Begin, w.Steps = newID, true, 1
	r := start(t, bounds{}, w)
	require.Equal(t, endedWell, r.wait(), "%q", r.said)
}

// start starts a writer of a piece of which something is known already. The command
// stands before the writer's own.
func start(t testing.TB, known bounds, w ways, command ...string) *run {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	command = append(command, self)
	return startCommand(t, known, w, exec.Command(command[0], command[1:]...))
}

func startCommand(t testing.TB, known bounds, w ways, cmd *exec.Cmd) *run {
	t.Helper()
	if w.ID == "" {
		w.ID = newID
	}
	text, err := json.Marshal(w)
	require.NoError(t, err)
	r := &run{bounds: known, t: t, cmd: cmd, at: -1}
	theirOut, theirIn := r.pipes()
	defer theirOut.Close()
	defer theirIn.Close()
	cmd.Env = append(environment(), asWriter+"="+string(text))
	cmd.Stdin, cmd.Stdout, cmd.Stderr = theirIn, theirOut, theirOut
	require.NoError(t, cmd.Start())
	t.Cleanup(r.kill)
	return r
}

// environment is that of this process, in which a program with the race detector does
// not sleep for a second before it ends.
func environment() []string {
	return append(os.Environ(), "GORACE=atexit_sleep_ms=0 "+os.Getenv("GORACE"))
}

func (r *run) pipes() (theirOut, theirIn *os.File) {
	r.t.Helper()
	var err error
	r.out, theirOut, err = os.Pipe()
	require.NoError(r.t, err)
	theirIn, r.in, err = os.Pipe()
	require.NoError(r.t, err)
	return theirOut, theirIn
}

// kill ends the writer as nothing can forbid. What it had said by then can still be
// read.
func (r *run) kill() {
	if !r.ended {
		_ = r.cmd.Process.Kill()
		r.wait()
	}
}

// wait reads what the writer says to its end, and returns the code it ended with.
func (r *run) wait() int {
	r.t.Helper()
	if !r.ended {
		r.ended = true
		for end := time.Now().Add(patience); r.hear(time.Until(end)) == nil && time.Now().Before(end); {
			continue
		}
		_ = r.cmd.Process.Kill() // where it has not come to an end
		_ = r.cmd.Wait()
		_, _ = r.out.Close(), r.in.Close()
	}
	return r.cmd.ProcessState.ExitCode()
}

// hear reads one line. The error is io.EOF when there will be none any more and
// os.ErrDeadlineExceeded when none has come in time.
func (r *run) hear(within time.Duration) error {
	for !r.noteNext() {
		if err := r.out.SetReadDeadline(time.Now().Add(within)); err != nil {
			return err
		}
		more := make([]byte, 4096)
		n, err := r.out.Read(more)
		r.unread = append(r.unread, more[:n]...)
		if n == 0 && err != nil {
			return err
		}
	}
	return nil
}

// noteNext takes note of a line that has been read.
func (r *run) noteNext() bool {
	line, rest, ok := bytes.Cut(r.unread, []byte{'\n'})
	if ok {
		r.unread = rest
		r.note(string(line))
	}
	return ok
}

func (r *run) note(line string) {
	r.said = append(r.said, line)
	var n int
	switch word, _, _ := strings.Cut(line, " "); word {
	case "put":
		_, _ = fmt.Sscanf(line, "put %d", &n)
		r.put = max(r.put, n)
	case "ack":
		_, _ = fmt.Sscanf(line, "ack %d", &n)
		r.acked = max(r.acked, n)
	case "open":
		_, _ = fmt.Sscanf(line, "open %d", &r.at)
	case "look":
		_, _ = fmt.Sscanf(line, "look only at %d", &r.at)
	}
}

// until waits for a line that begins so, and returns the rest of it.
func (r *run) until(beginning string) string {
	r.t.Helper()
	for end := time.Now().Add(patience); ; {
		err := r.hear(time.Until(end))
		if err == nil && time.Now().After(end) {
			err = os.ErrDeadlineExceeded
		}
		if err != nil {
			said := r.said[max(0, len(r.said)-50):]
			r.t.Fatalf("waited for %q: %v; the writer said:\n%s", beginning, err, strings.Join(said, "\n"))
		}
		if rest, ok := strings.CutPrefix(r.said[len(r.said)-1], beginning); ok {
			return strings.TrimSpace(rest)
		}
	}
}

// acks waits until so many more steps were said to be saved.
func (r *run) acks(n int) {
	r.t.Helper()
	for from := r.acked; r.acked < from+n; {
		r.until("ack ")
	}
}

// catchUp reads all that a writer has said by now, and waits for nothing.
func (r *run) catchUp() {
	r.t.Helper()
	require.NoError(r.t, r.out.SetReadDeadline(time.Time{}))
	conn, err := r.out.SyscallConn()
	require.NoError(r.t, err)
	more := make([]byte, 64<<10)
	for n := 1; n > 0; {
		require.NoError(r.t, conn.Read(func(fd uintptr) bool {
			n, _ = syscall.Read(int(fd), more)
			return true
		}))
		r.unread = append(r.unread, more[:max(n, 0)]...)
	}
	for r.noteNext() {
		continue
	}
}

// tell gives a writer a word.
func (r *run) tell(word string) {
	r.t.Helper()
	_, err := r.in.WriteString(word + "\n")
	require.NoError(r.t, err)
}

// stop stops the writer between two calls to the system, and hears what it has said.
func (r *run) stop() {
	r.t.Helper()
	pid := r.cmd.Process.Pid
	require.NoError(r.t, syscall.Kill(pid, syscall.SIGSTOP))
	var s syscall.WaitStatus
	for {
		_, err := syscall.Wait4(pid, &s, syscall.WUNTRACED, nil)
		if !errors.Is(err, syscall.EINTR) {
			require.NoError(r.t, err)
			break
		}
	}
	require.True(r.t, s.Stopped(), "the writer ended: %q", r.said)
	r.catchUp()
}

// goOn lets a stopped writer go on.
func (r *run) goOn() {
	r.t.Helper()
	require.NoError(r.t, syscall.Kill(r.cmd.Process.Pid, syscall.SIGCONT))
}

// has tells whether the writer said something with these words.
func (r *run) has(words string) bool {
	for _, line := range r.said {
		if strings.Contains(line, words) {
			return true
		}
	}
	return false
}

// look opens the piece in this process, checks all that is known of it, and closes it.
func look(root string, known bounds) (save.Opening, error) {
	p, o, err := save.Open(save.System("the test"), root, newID)
	if err != nil {
		return o, err
	}
	steps, wrong := audit(o)
	for n := 1; n <= known.acked && wrong == nil; n++ {
		if !steps[n] {
			wrong = fmt.Errorf("%w: step %d is not in the history", errLost, n)
		}
	}
	return o, errors.Join(known.judge(stepOf(o.Place)), wrong, p.Close())
}

// goesOn checks that a writer finds the work where it must be, and can go on as if
// nothing had been. It tells whether the writer was asked which place is right.
func goesOn(t testing.TB, root string, known bounds) (asked bool) {
	t.Helper()
	r := start(t, known, ways{Root: root, Steps: 3, Ahead: 2})
	require.Equal(t, endedWell, r.wait(), "%q", r.said)
	require.NoError(t, known.judge(r.at), "%q", r.said)
	require.Equal(t, r.at+3, r.acked, "%q", r.said)
	o, err := look(root, r.bounds)
	require.NoError(t, err)
	require.Empty(t, o.LookOnly)
	require.Nil(t, o.Question)
	return r.has("asked ")
}
