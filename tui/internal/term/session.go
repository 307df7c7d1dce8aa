//go:build unix

package term

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
)

// Setup is where and how a Session runs its program.
type Setup struct {
	// W and H are the terminal's size; 80 by 24 where both are 0.
	W, H int
	// Dir is the working directory; the test's own where empty.
	Dir string
	// Home is the home directory, with all XDG directories below it; a new empty
	// one where empty. Sessions that follow one another share it by naming it.
	Home string
	// Env adds to the environment, or overrides it, as "NAME=value". Nothing is
	// inherited but PATH and GOCOVERDIR.
	Env []string
	// Silent terminals never answer a program's questions.
	Silent bool
	// Stdin and Stdout take the terminal's place where they are set.
	Stdin, Stdout *os.File
}

func (u Setup) filled(t testing.TB) Setup {
	if u.W == 0 && u.H == 0 {
		u.W, u.H = 80, 24
	}
	if u.Home == "" {
		u.Home = t.TempDir()
	}
	return u
}

// Exit is how a program ended: by a code, or by a signal and then Code is -1.
type Exit struct {
	Code   int
	Signal syscall.Signal
}

func (e Exit) String() string {
	if e.Signal != 0 {
		return "ended by signal: " + e.Signal.String()
	}
	return fmt.Sprintf("exit code %d", e.Code)
}

// Session is a program running on a pseudo-terminal, with the Screen as its
// emulator. Its process ends with the test at the latest.
type Session struct {
	*Screen

	cmd    *exec.Cmd
	master *os.File
	read   chan struct{} // closed when all output has been read
	ended  chan struct{} // closed when the process has ended and read is closed

	mu      sync.Mutex
	tty     *os.File // our own handle on the program's side; nil once it ended
	raw     []byte
	exit    Exit
	cooked  bool
	modeErr error
}

// Start runs binary with args. The test is skipped where the system gives no
// pseudo-terminal.
func Start(t testing.TB, binary string, args []string, setup Setup) *Session {
	t.Helper()
	master, tty := open(t)
	setup = setup.filled(t)
	replies := io.Writer(master)
	if setup.Silent {
		replies = io.Discard
	}
	s := &Session{
		Screen: NewScreen(t, setup.W, setup.H, replies),
		cmd:    exec.Command(binary, args...),
		master: master,
		tty:    tty,
		read:   make(chan struct{}),
		ended:  make(chan struct{}),
	}
	s.outlook = s.state
	s.setSize(t, setup.W, setup.H)
	s.cmd.Dir = setup.Dir
	s.cmd.Env = append(Environment(setup.Home), setup.Env...)
	s.cmd.Stdin, s.cmd.Stdout, s.cmd.Stderr = orTTY(setup.Stdin, tty), orTTY(setup.Stdout, tty), tty
	// The standard error is always the terminal, so it can be the controlling one.
	s.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true, Ctty: 2}
	if err := s.cmd.Start(); err != nil {
		_, _ = master.Close(), tty.Close()
		t.Fatalf("start %s: %v", binary, err)
	}
	go s.readAll()
	go s.watch()
	t.Cleanup(func() {
		s.Kill()
		<-s.ended
		_ = master.Close()
	})
	return s
}

// readAll feeds the log and the screen until the terminal's other side is closed.
func (s *Session) readAll() {
	defer close(s.read)
	buf := make([]byte, 1<<16)
	for {
		n, err := s.master.Read(buf)
		s.mu.Lock()
		s.raw = append(s.raw, buf[:n]...)
		s.mu.Unlock()
		_, _ = s.Write(buf[:n])
		if err != nil {
			return
		}
	}
}

// watch keeps how the process ended and how it left the terminal, then waits for
// the rest of its output: a second, in case some child of it stays behind.
func (s *Session) watch() {
	defer close(s.ended)
	_ = s.cmd.Wait()
	s.mu.Lock()
	status := s.cmd.ProcessState
	s.exit = Exit{Code: status.ExitCode()}
	if ws, ok := status.Sys().(syscall.WaitStatus); ok && ws.Signaled() {
		s.exit.Signal = ws.Signal()
	}
	s.cooked, s.modeErr = cooked(s.tty)
	_ = s.tty.Close()
	s.tty = nil
	s.mu.Unlock()
	select {
	case <-s.read:
	case <-time.After(time.Second):
		_ = s.master.Close()
		<-s.read
	}
}

// Send types text as one write.
func (s *Session) Send(t testing.TB, text string) {
	t.Helper()
	// Not every system has deadlines on terminals; there the test's own must do.
	_ = s.master.SetWriteDeadline(time.Now().Add(s.patience))
	if _, err := io.WriteString(s.master, text); err != nil {
		t.Fatalf("typing %q: %v\n%s", text, err, s.report())
	}
}

// Keys sends each key as a write of its own. The program may still read several
// as one burst, as on any terminal.
func (s *Session) Keys(t testing.TB, keys ...Key) {
	t.Helper()
	for _, k := range keys {
		s.Send(t, string(k))
	}
}

// Resize changes the terminal's size, of which the system tells the program. A
// program may be told of zero columns and lines.
func (s *Session) Resize(t testing.TB, w, h int) {
	t.Helper()
	s.setSize(t, w, h)
	s.Screen.Resize(w, h)
}

// setSize works on the program's side of the terminal, to leave the master in the
// poller. Once the program has ended there is nobody to tell.
func (s *Session) setSize(t testing.TB, w, h int) {
	t.Helper()
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.tty == nil {
		return
	}
	if err := pty.Setsize(s.tty, &pty.Winsize{Cols: uint16(w), Rows: uint16(h)}); err != nil {
		t.Fatalf("set the terminal's size to %dx%d: %v", w, h, err)
	}
}

// Signal sends sig to the program; it is no error that it has ended.
func (s *Session) Signal(t testing.TB, sig syscall.Signal) {
	t.Helper()
	if err := s.cmd.Process.Signal(sig); err != nil && !errors.Is(err, os.ErrProcessDone) {
		t.Fatalf("send %v: %v", sig, err)
	}
}

// Pid is the program's process.
func (s *Session) Pid() int { return s.cmd.Process.Pid }

// Kill ends the program without giving it a chance to act.
func (s *Session) Kill() { _ = s.cmd.Process.Kill() }

// HangUp takes the terminal away, as a closed window or a lost line does.
func (s *Session) HangUp() { _ = s.master.Close() }

// Wait waits for the program's end and all its output. After 15 seconds the test
// fails with the whole screen.
func (s *Session) Wait(t testing.TB) Exit {
	t.Helper()
	select {
	case <-s.ended:
	case <-time.After(s.patience):
		t.Fatalf("waited %v for the program to end\n%s", s.patience, s.report())
	}
	return s.exit
}

// Raw is every byte that the program has written so far.
func (s *Session) Raw() []byte {
	s.mu.Lock()
	defer s.mu.Unlock()
	return bytes.Clone(s.raw)
}

// Cooked tells whether the terminal echoes and reads by lines, as a shell needs
// it: now, or as the program left it when it ended.
func (s *Session) Cooked() (bool, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.tty == nil {
		return s.cooked, s.modeErr
	}
	return cooked(s.tty)
}

// CheckRestored waits for the program's end and marks the test as failed for each
// thing it left otherwise than a shell needs it.
func (s *Session) CheckRestored(t testing.TB) {
	t.Helper()
	s.Wait(t)
	cooked, err := s.Cooked()
	if err != nil {
		t.Errorf("the terminal's state is unknown: %v", err)
	} else if !cooked {
		t.Errorf("the terminal is left in raw mode")
	}
	if s.AltScreen() {
		t.Errorf("the alternate screen is left on")
	}
	if !s.CursorVisible() {
		t.Errorf("the cursor is left hidden")
	}
	if s.BracketedPaste() {
		t.Errorf("bracketed paste is left on")
	}
	if s.Mouse() {
		t.Errorf("mouse reporting is left on")
	}
}

func (s *Session) state() string {
	select {
	case <-s.ended:
		return fmt.Sprintf("the program has ended: %v\n", s.exit)
	default:
		return "the program is still running\n"
	}
}
