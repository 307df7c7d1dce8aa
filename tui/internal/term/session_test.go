//go:build unix

package term

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var tallyprog string // the built program, set once by TestMain

func TestMain(m *testing.M) {
	binary, remove, err := Build("bypeg/tui/internal/term/testdata/tallyprog", "-buildvcs=false")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	tallyprog = binary
	code := m.Run()
	remove()
	os.Exit(code)
}

func sh(t testing.TB, script string, setup Setup) *Session {
	t.Helper()
	return Start(t, "/bin/sh", []string{"-c", script}, setup)
}

func TestBuildSaysWhatIsWrong(t *testing.T) {
	_, _, err := Build("bypeg/tui/internal/term/testdata/nowhere")
	assert.ErrorContains(t, err, "build bypeg/tui/internal/term/testdata/nowhere")
}

func TestShellRunsOnATerminalOfTheGivenSize(t *testing.T) {
	s := sh(t, `[ -t 0 ] && [ -t 1 ] && [ -t 2 ] && stty size < /dev/tty; exit 3`, Setup{W: 50, H: 12})
	assert.Equal(t, Exit{Code: 3}, s.Wait(t))
	assert.Equal(t, "12 50", s.Text())
	assert.Equal(t, "12 50\r\n", string(s.Raw()))
	s.CheckRestored(t)
}

func TestEnvironmentIsTheOneGivenAndNoOther(t *testing.T) {
	t.Setenv("CI", "true")
	t.Setenv("NO_COLOR", "1")
	t.Setenv("STRAY", "1")
	home := t.TempDir()
	s := sh(t, `echo "[$CI][$NO_COLOR][$STRAY][$TERM][$EXTRA]"; pwd; echo "$HOME $XDG_DATA_HOME"`,
		Setup{W: 200, H: 9, Home: home, Dir: home, Env: []string{"EXTRA=a b", "TERM=dumb"}})
	require.Equal(t, Exit{}, s.Wait(t))
	assert.Equal(t, "[][][][dumb][a b]", s.Line(0))
	resolved, err := filepath.EvalSymlinks(home)
	require.NoError(t, err)
	assert.Equal(t, resolved, s.Line(1))
	assert.Equal(t, home+" "+filepath.Join(home, "data"), s.Line(2))
}

func TestOutputLeftAtTheEndIsReadToTheLastByte(t *testing.T) {
	s := sh(t, `i=0; while [ $i -lt 3000 ]; do echo "line $i"; i=$((i+1)); done`, Setup{})
	require.Equal(t, Exit{}, s.Wait(t))
	assert.Equal(t, 3000, strings.Count(string(s.Raw()), "\r\n"))
	assert.Equal(t, "line 2999", s.Line(22))
}

func TestStandardInputAndOutputCanBeElsewhere(t *testing.T) {
	name := filepath.Join(t.TempDir(), "out")
	out, err := os.Create(name)
	require.NoError(t, err)
	defer out.Close()
	null, err := os.Open(os.DevNull)
	require.NoError(t, err)
	defer null.Close()
	s := sh(t, `[ -t 0 ] || echo no keys >&2; [ -t 1 ] || echo no screen`, Setup{Stdin: null, Stdout: out})
	require.Equal(t, Exit{}, s.Wait(t))
	assert.Equal(t, "no keys", s.Text())
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, "no screen\n", string(got))
}

func TestTypedTextReachesTheShell(t *testing.T) {
	s := sh(t, `read -r line; echo "got $line"; stty raw; dd bs=64 count=1 2>/dev/null | od -An -c`, Setup{})
	s.Send(t, "hello\n")
	s.WaitText(t, "got hello")
	s.WaitFor(t, "raw mode", func(*Screen) bool { ok, err := s.Cooked(); return err == nil && !ok })
	s.Send(t, "jjj")
	s.Wait(t)
	assert.Contains(t, s.Text(), "j   j   j", "one write is one read")
}

func TestEndIsToldApart(t *testing.T) {
	for _, c := range []struct {
		name string
		end  func(*Session)
		want Exit
	}{
		{"a code", func(s *Session) { s.Send(t, "\n") }, Exit{Code: 7}},
		{"a signal it handles", func(s *Session) { s.Signal(t, syscall.SIGTERM) }, Exit{Code: 9}},
		{"a signal it does not", func(s *Session) { s.Signal(t, syscall.SIGQUIT) }, Exit{Code: -1, Signal: syscall.SIGQUIT}},
		{"a kill", (*Session).Kill, Exit{Code: -1, Signal: syscall.SIGKILL}},
		{"a hang-up", (*Session).HangUp, Exit{Code: -1, Signal: syscall.SIGHUP}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sh(t, `ulimit -c 0; trap 'exit 9' TERM; echo ready; read -r line; exit 7`, Setup{})
			s.WaitText(t, "ready")
			c.end(s)
			assert.Equal(t, c.want, s.Wait(t))
			s.Signal(t, syscall.SIGTERM) // to nobody: no error
		})
	}
}

func TestEndDoesNotWaitForAChildLeftBehind(t *testing.T) {
	s := sh(t, `trap '' HUP; sleep 4 & echo parent done`, Setup{})
	start := time.Now()
	assert.Equal(t, Exit{}, s.Wait(t))
	assert.Less(t, time.Since(start), 3*time.Second)
	assert.Equal(t, "parent done", s.Text())
}

func TestEachThingLeftWrongIsNamed(t *testing.T) {
	for _, c := range []struct{ name, script, want string }{
		{"nothing", `printf '\033[?1049h\033[?25l\033[?2004h\033[?1000h\033[?1000l\033[?2004l\033[?25h\033[?1049l'`, ""},
		{"raw mode", `stty raw -echo`, "the terminal is left in raw mode\n"},
		{"no echo", `stty -echo`, "the terminal is left in raw mode\n"},
		{"the alternate screen", `printf '\033[?1049h'`, "the alternate screen is left on\n"},
		{"the cursor", `printf '\033[?25l'`, "the cursor is left hidden\n"},
		{"paste", `printf '\033[?2004h'`, "bracketed paste is left on\n"},
		{"the mouse", `printf '\033[?1003h'`, "mouse reporting is left on\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sh(t, c.script, Setup{})
			s.Wait(t)
			assert.Equal(t, c.want, failure(t, s.CheckRestored))
		})
	}
}

func TestQuestionsAreAnsweredUnlessSilent(t *testing.T) {
	const ask = `stty raw -echo min 0 time 20; printf '\033[6n'; dd bs=64 count=1 2>/dev/null | od -An -c; stty sane`
	s := sh(t, ask, Setup{})
	s.Wait(t)
	assert.Contains(t, s.Text(), `1   ;   1   R`)
	quiet := sh(t, strings.Replace(ask, "time 20", "time 1", 1), Setup{Silent: true})
	quiet.Wait(t)
	assert.Equal(t, "", quiet.Text())
}

func TestBuiltProgramIsUsedAndLeavesATidyTerminal(t *testing.T) {
	s := Start(t, tallyprog, nil, Setup{})
	s.WaitText(t, "count <0>\nlast \"\"\nsize 80x24")
	x, y, _ := s.Find("<0>")
	assert.True(t, s.Style(x, y).Reverse, "CI of the machine must not turn the styles off")
	assert.True(t, s.AltScreen())
	assert.False(t, s.CursorVisible())
	cooked, err := s.Cooked()
	require.NoError(t, err)
	assert.False(t, cooked)

	s.Keys(t, Space)
	s.WaitText(t, "count <1>")
	s.Send(t, "jjj")
	s.WaitText(t, "count <2>\nlast \"jjj\"")
	for _, size := range [][2]int{{20, 5}, {1, 1}, {0, 0}, {80, 24}} {
		s.Resize(t, size[0], size[1])
	}
	s.WaitText(t, "size 80x24")
	s.Keys(t, "q")
	assert.Equal(t, Exit{}, s.Wait(t))
	s.CheckRestored(t)
}

func TestBuiltProgramKilledLeavesItsMess(t *testing.T) {
	s := Start(t, tallyprog, nil, Setup{})
	s.WaitText(t, "count <0>")
	s.Kill()
	got := failure(t, s.CheckRestored)
	assert.Contains(t, got, "raw mode")
	assert.Contains(t, got, "alternate screen")
	assert.Contains(t, got, "cursor")
	assert.Contains(t, got, "paste")
}

func TestBuiltProgramThatPanicsEndsWithItsCode(t *testing.T) {
	s := Start(t, tallyprog, nil, Setup{})
	s.WaitText(t, "count <0>")
	s.Send(t, "!")
	assert.Equal(t, Exit{Code: 70}, s.Wait(t))
	s.CheckRestored(t)
	assert.Contains(t, string(s.Raw()), "asked to")
}

func TestFailedWaitSaysHowTheProgramEnded(t *testing.T) {
	s := sh(t, `echo oh; exit 3`, Setup{W: 10, H: 1})
	s.Wait(t)
	s.patience = 10 * time.Millisecond
	got := failure(t, func(t testing.TB) { s.WaitText(t, "row 12") })
	assert.True(t, strings.HasSuffix(got, "the program has ended: exit code 3\n"), got)
}
