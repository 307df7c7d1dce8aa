package term

import (
	"fmt"
	"io"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The control sequences' meaning: ECMA-48 and the DEC private modes as terminals
// commonly implement them; from memory.
func TestScreenShowsWhatATerminalWould(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"plain lines", "one\r\ntwo", "one\ntwo"},
		{"trailing blanks and empty lines go", "one   \r\n\r\n", "one"},
		{"an empty line between stays", "one\r\n\r\ntwo", "one\n\ntwo"},
		{"the cursor can be placed", "\x1b[2;3Hx", "\n  x"},
		{"a line can be erased", "abc\x1b[2K", ""},
		{"a wide character fills two cells", "织x", "织x"},
		{"a mark joins its letter", "e\u0301x", "e\u0301x"},
		{"long text wraps", "0123456789ab", "0123456789\nab"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := NewScreen(t, 10, 4, io.Discard)
			fmt.Fprint(s, c.in)
			assert.Equal(t, c.want, s.Text())
		})
	}
}

func TestScreenTellsItsModes(t *testing.T) {
	for _, c := range []struct {
		name, on, off string
		is            func(*Screen) bool
	}{
		{"the alternate screen", "\x1b[?1049h", "\x1b[?1049l", (*Screen).AltScreen},
		{"the visible cursor", "\x1b[?25h", "\x1b[?25l", (*Screen).CursorVisible},
		{"bracketed paste", "\x1b[?2004h", "\x1b[?2004l", (*Screen).BracketedPaste},
		{"mouse presses", "\x1b[?1000h", "\x1b[?1000l", (*Screen).Mouse},
		{"mouse drags", "\x1b[?1002h", "\x1b[?1002l", (*Screen).Mouse},
		{"mouse moves", "\x1b[?1003h", "\x1b[?1003l", (*Screen).Mouse},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := NewScreen(t, 10, 4, io.Discard)
			fmt.Fprint(s, c.off)
			require.False(t, c.is(s))
			fmt.Fprint(s, c.on)
			require.True(t, c.is(s))
			fmt.Fprint(s, c.off)
			require.False(t, c.is(s))
		})
	}
}

func TestScreenAtFirstIsAsAShellHasIt(t *testing.T) {
	s := NewScreen(t, 10, 4, io.Discard)
	assert.False(t, s.AltScreen())
	assert.True(t, s.CursorVisible())
	assert.False(t, s.BracketedPaste())
	assert.False(t, s.Mouse())
	assert.Empty(t, s.Text())
}

func TestCursorIsOneForBothScreens(t *testing.T) {
	s := NewScreen(t, 10, 4, io.Discard)
	fmt.Fprint(s, "\x1b[?25l\x1b[?1049h\x1b[?25h\x1b[?1049l")
	assert.True(t, s.CursorVisible(), "shown on the alternate screen, it stays shown after it")
	fmt.Fprint(s, "\x1b[3;5H")
	x, y := s.Cursor()
	assert.Equal(t, [2]int{4, 2}, [2]int{x, y})
}

func TestStyleBelongsToTheCell(t *testing.T) {
	s := NewScreen(t, 10, 4, io.Discard)
	fmt.Fprint(s, "织 \x1b[7mr\x1b[0m\x1b[1;2;3;4mb\x1b[0m\x1b[38;2;1;2;3;48;2;4;5;6mc")
	x, y, ok := s.Find("rbc")
	require.True(t, ok)
	require.Equal(t, [2]int{3, 0}, [2]int{x, y}, "columns are cells, not letters")
	assert.Equal(t, Style{}, s.Style(0, 0))
	assert.Equal(t, Style{Reverse: true}, s.Style(3, 0))
	assert.Equal(t, Style{Bold: true, Faint: true, Italic: true, Underline: true}, s.Style(4, 0))
	r, g, b, _ := s.Style(5, 0).Fg.RGBA()
	assert.Equal(t, [3]uint32{1, 2, 3}, [3]uint32{r >> 8, g >> 8, b >> 8})
	r, g, b, _ = s.Style(5, 0).Bg.RGBA()
	assert.Equal(t, [3]uint32{4, 5, 6}, [3]uint32{r >> 8, g >> 8, b >> 8})
	assert.Equal(t, Style{}, s.Style(99, 99), "beyond the screen there is no style")
	_, _, ok = s.Find("absent")
	assert.False(t, ok)
}

func TestResizeKeepsWhatIsNotKnown(t *testing.T) {
	s := NewScreen(t, 10, 4, io.Discard)
	for _, c := range []struct{ w, h, wantW, wantH int }{
		{20, 5, 20, 5}, {1, 1, 1, 1}, {0, 0, 1, 1}, {80, 0, 80, 1}, {80, 24, 80, 24},
	} {
		s.Resize(c.w, c.h)
		w, h := s.Size()
		assert.Equal(t, [2]int{c.wantW, c.wantH}, [2]int{w, h}, "resized to %dx%d", c.w, c.h)
	}
}

func TestQuestionsAreAnsweredAndNeverBlock(t *testing.T) {
	answers := &asked{}
	s := NewScreen(t, 10, 4, answers)
	fmt.Fprint(s, strings.Repeat("\x1b[6n\x1b]11;?\a", 100))
	s.WaitFor(t, "the answers", func(*Screen) bool {
		return strings.Count(answers.String(), "\x1b[1;1R") == 100
	})
	assert.Contains(t, answers.String(), "\x1b]11;rgb:")

	deaf := NewScreen(t, 10, 4, refuses{})
	fmt.Fprint(deaf, strings.Repeat("\x1b[6n", 100)+"ok")
	assert.Equal(t, "ok", deaf.Text(), "a reply nobody takes is dropped")
}

// No output, at any size, may bring the harness down: it would hide the defect of
// the program that wrote it.
func TestScreenTakesAnyBytesAtAnySize(t *testing.T) {
	piece := rapid.OneOf(rapid.SampledFrom([]string{
		"\x1b[?1049h", "\x1b[?1049l", "\x1b[2J", "\x1b[H", "\x1b[99;99H", "\x1b[3L", "\x1b[2M", "\x1b[4P",
		"\r\n", "\n\n\n", "织织", "e\u0301", "\t", "\b", "\x1b[7m", "\x1b[0K", "\x1b[1;1r", "\x1b[6n", "0123456789",
	}), rapid.String())
	rapid.Check(t, func(rt *rapid.T) {
		s := NewScreen(t, rapid.IntRange(-1, 90).Draw(rt, "w"), rapid.IntRange(-1, 30).Draw(rt, "h"), io.Discard)
		for range rapid.IntRange(1, 20).Draw(rt, "steps") {
			fmt.Fprint(s, piece.Draw(rt, "output"))
			if rapid.Bool().Draw(rt, "resize") {
				s.Resize(rapid.IntRange(-1, 90).Draw(rt, "w"), rapid.IntRange(-1, 30).Draw(rt, "h"))
			}
			_, h := s.Size()
			if lines := strings.Count(s.Text(), "\n") + 1; lines > h {
				rt.Fatalf("%d lines on a screen of %d", lines, h)
			}
		}
	})
}

func TestWaitEndsAsSoonAsTheTextStands(t *testing.T) {
	s := NewScreen(t, 10, 4, io.Discard)
	go fmt.Fprint(s, "row 12")
	s.WaitText(t, "row 12")
}

func TestFailedWaitShowsTheWholeScreen(t *testing.T) {
	s := NewScreen(t, 10, 2, io.Discard)
	s.patience = 10 * time.Millisecond
	s.outlook = func() string { return "the program sleeps\n" }
	fmt.Fprint(s, "row 11\r\n织")
	got := failure(t, func(t testing.TB) { s.WaitText(t, "row 12") })
	assert.Equal(t, strings.Join([]string{
		"waited 10ms for the text row 12",
		"+----------+",
		"|row 11    |",
		"|织        |",
		"+----------+",
		"the program sleeps",
		"",
	}, "\n"), got)
}

// asked is a place for answers that may be read while they come in.
type asked struct {
	mu   sync.Mutex
	text strings.Builder
}

func (a *asked) Write(p []byte) (int, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.text.Write(p)
}

func (a *asked) String() string {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.text.String()
}

type refuses struct{}

func (refuses) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

// failing is a test that only remembers how it failed.
type failing struct {
	testing.TB
	said string
}

func (f *failing) Helper() {}

func (f *failing) Errorf(format string, args ...any) {
	f.said += fmt.Sprintf(format, args...) + "\n"
}

func (f *failing) Fatalf(format string, args ...any) {
	f.said += fmt.Sprintf(format, args...)
	runtime.Goexit()
}

// failure is what check says when it fails, and "" when it does not.
func failure(t testing.TB, check func(testing.TB)) string {
	f := &failing{TB: t}
	done := make(chan struct{})
	go func() {
		defer close(done)
		check(f)
	}()
	<-done
	return f.said
}
