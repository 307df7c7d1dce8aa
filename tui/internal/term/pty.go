//go:build unix

package term

import (
	"fmt"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"
)

// open makes a pseudo-terminal, or skips the test. The library leaves the master
// in blocking mode, in which it can't be closed while it is being read; so a
// second handle, in the runtime's poller, takes its place.
func open(t testing.TB) (master, tty *os.File) {
	t.Helper()
	blocking, tty, err := pty.Open()
	if err != nil {
		t.Skipf("no pseudo-terminal to be had here: %v", err)
	}
	defer func() { _ = blocking.Close() }()
	// Under the lock, so that no child started meanwhile keeps the master open.
	syscall.ForkLock.RLock()
	fd, err := syscall.Dup(int(blocking.Fd()))
	if err == nil {
		syscall.CloseOnExec(fd)
	}
	syscall.ForkLock.RUnlock()
	if err != nil {
		t.Fatalf("take over the terminal: %v", err)
	}
	_ = syscall.SetNonblock(fd, true)
	master = os.NewFile(uintptr(fd), blocking.Name())
	if master.SetDeadline(time.Time{}) != nil {
		_ = syscall.SetNonblock(fd, false) // a system that can't poll terminals
	}
	return master, tty
}

// Environment is all a program is told, so that neither the machine nor the
// build service the tests run on (which sets CI, and so turns colour off) shows.
func Environment(home string) []string {
	env := []string{
		"PATH=" + os.Getenv("PATH"),
		"TERM=xterm-256color", "COLORTERM=", "NO_COLOR=", "CI=", "LC_ALL=C.UTF-8",
		"HOME=" + home,
		"XDG_CONFIG_HOME=" + filepath.Join(home, "config"),
		"XDG_DATA_HOME=" + filepath.Join(home, "data"),
		"XDG_STATE_HOME=" + filepath.Join(home, "state"),
		"XDG_CACHE_HOME=" + filepath.Join(home, "cache"),
		"XDG_RUNTIME_DIR=" + filepath.Join(home, "run"),
	}
	if dir := os.Getenv("GOCOVERDIR"); dir != "" {
		env = append(env, "GOCOVERDIR="+dir)
	}
	return env
}

func orTTY(f, tty *os.File) *os.File {
	if f != nil {
		return f
	}
	return tty
}

// cooked asks without taking the descriptor out of the runtime's hands, as Fd
// would.
func cooked(tty *os.File) (bool, error) {
	conn, err := tty.SyscallConn()
	if err != nil {
		return false, fmt.Errorf("reach the terminal: %w", err)
	}
	var state *term.State
	var stateErr error
	if err := conn.Control(func(fd uintptr) { state, stateErr = term.GetState(fd) }); err != nil {
		return false, fmt.Errorf("reach the terminal: %w", err)
	}
	if stateErr != nil {
		return false, fmt.Errorf("read the terminal's modes: %w", stateErr)
	}
	return state.Lflag&syscall.ECHO != 0 && state.Lflag&syscall.ICANON != 0, nil
}
