package term

import (
	"image/color"
	"io"
	"strings"
	"sync"
	"testing"
	"time"

	uv "github.com/charmbracelet/ultraviolet"
	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
)

// The emulator is wrapped here with three habits, each because of a trap in it:
//
//   - One lock around every call but Read. Its own locked variant leaves String
//     and Close unlocked.
//   - Its answers to questions (cursor position, background colour) are always
//     read by somebody, since Write blocks until they are.
//   - It ends by closing the pipe its answers come from, never by Close, which
//     races with a Read under way.

const (
	// deadline is how long any wait may take before the test fails. A disk that many
	// tests sync may stand still for seconds.
	deadline = 15 * time.Second
	// pollEvery is how often a wait looks at the screen.
	pollEvery = 2 * time.Millisecond
)

// Screen is an emulated terminal. It is an io.Writer that never fails, and safe
// for use by several goroutines. Columns and lines count from 0.
type Screen struct {
	patience time.Duration
	// outlook says, on a failed wait, what became of the program that writes
	// here; nil where nothing is known.
	outlook func() string

	mu    sync.Mutex
	emu   *vt.Emulator
	modes map[ansi.Mode]bool
}

// Style is how one cell is drawn. A nil colour is the terminal's default.
type Style struct {
	Bold, Faint, Italic, Underline, Reverse bool
	Fg, Bg                                  color.Color
}

// NewScreen makes an empty terminal of w columns and h lines, both at least 1,
// whose answers to a program's questions go to replies (io.Discard for none).
// It lives until the test ends.
func NewScreen(t testing.TB, w, h int, replies io.Writer) *Screen {
	t.Helper()
	s := &Screen{
		patience: deadline,
		emu:      vt.NewEmulator(max(w, 1), max(h, 1)),
		modes:    map[ansi.Mode]bool{ansi.ModeTextCursorEnable: true},
	}
	s.emu.SetCallbacks(vt.Callbacks{
		EnableMode:  func(m ansi.Mode) { s.modes[m] = true },
		DisableMode: func(m ansi.Mode) { s.modes[m] = false },
	})
	drained := make(chan struct{})
	go func() {
		defer close(drained)
		// When nobody takes the answers any longer they are still drained.
		_, _ = io.Copy(replies, s.emu)
		_, _ = io.Copy(io.Discard, s.emu)
	}()
	t.Cleanup(func() {
		_ = s.emu.InputPipe().(io.Closer).Close()
		<-drained
	})
	return s
}

// Write draws p as a terminal would.
func (s *Screen) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.emu.Write(p)
}

// Resize makes the terminal w columns by h lines. A zero stands for "not known",
// as some terminals report it, and leaves that measure as it was.
func (s *Screen) Resize(w, h int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if w <= 0 {
		w = s.emu.Width()
	}
	if h <= 0 {
		h = s.emu.Height()
	}
	s.emu.Resize(w, h)
}

// Size is the number of columns and of lines.
func (s *Screen) Size() (w, h int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.emu.Width(), s.emu.Height()
}

// Line is line y as a reader sees it, trailing blanks removed.
func (s *Screen) Line(y int) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.line(y)
}

// Text is the whole screen: its lines joined by newlines, trailing blanks and
// trailing empty lines removed.
func (s *Screen) Text() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text()
}

// Frame is the text of a full screen, and whether all of its frame has come: a program
// that draws over the whole screen leaves the cursor at the start of the last line when it
// is done, and a frame may come in several pieces.
func (s *Screen) Frame() (text string, whole bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	at := s.emu.CursorPosition()
	return s.text(), at.X == 0 && at.Y == s.emu.Height()-1
}

func (s *Screen) text() string {
	lines := make([]string, s.emu.Height())
	for y := range lines {
		lines[y] = s.line(y)
	}
	return strings.TrimRight(strings.Join(lines, "\n"), "\n")
}

// line walks by the cells' widths, since a wide character fills two of them.
func (s *Screen) line(y int) string {
	var b strings.Builder
	for x := 0; x < s.emu.Width(); {
		cell := s.emu.CellAt(x, y)
		if cell == nil || cell.Content == "" {
			b.WriteByte(' ')
			x++
			continue
		}
		b.WriteString(cell.Content)
		x += max(cell.Width, 1)
	}
	return strings.TrimRight(b.String(), " ")
}

// Find is the cell at which text first begins, reading line by line; ok is false
// when it is nowhere on the screen.
func (s *Screen) Find(text string) (x, y int, ok bool) {
	_, h := s.Size()
	for y = range h {
		line := s.Line(y)
		if i := strings.Index(line, text); i >= 0 {
			return ansi.StringWidth(line[:i]), y, true
		}
	}
	return 0, 0, false
}

// Style is how the cell at column x, line y is drawn; the zero Style beyond the
// screen.
func (s *Screen) Style(x, y int) Style {
	s.mu.Lock()
	defer s.mu.Unlock()
	cell := s.emu.CellAt(x, y)
	if cell == nil {
		return Style{}
	}
	has := func(attr uint8) bool { return cell.Style.Attrs&attr != 0 }
	return Style{
		Bold:      has(uv.AttrBold),
		Faint:     has(uv.AttrFaint),
		Italic:    has(uv.AttrItalic),
		Reverse:   has(uv.AttrReverse),
		Underline: cell.Style.Underline != ansi.UnderlineNone,
		Fg:        cell.Style.Fg,
		Bg:        cell.Style.Bg,
	}
}

// Cursor is the cell the cursor stands on.
func (s *Screen) Cursor() (x, y int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	at := s.emu.CursorPosition()
	return at.X, at.Y
}

// CursorVisible tells whether the cursor is shown.
func (s *Screen) CursorVisible() bool { return s.mode(ansi.ModeTextCursorEnable) }

// AltScreen tells whether the alternate screen is in use.
func (s *Screen) AltScreen() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.emu.IsAltScreen()
}

// BracketedPaste tells whether pasted text would be announced as such.
func (s *Screen) BracketedPaste() bool { return s.mode(ansi.ModeBracketedPaste) }

// Mouse tells whether any form of mouse reporting is on.
func (s *Screen) Mouse() bool {
	return s.mode(ansi.ModeMouseX10) || s.mode(ansi.ModeMouseNormal) ||
		s.mode(ansi.ModeMouseButtonEvent) || s.mode(ansi.ModeMouseAnyEvent)
}

func (s *Screen) mode(m ansi.Mode) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.modes[m]
}

// WaitFor waits until cond holds of the screen. After 15 seconds the test fails
// with what was waited for and the whole screen.
func (s *Screen) WaitFor(t testing.TB, what string, cond func(*Screen) bool) {
	t.Helper()
	for end := time.Now().Add(s.patience); !cond(s); time.Sleep(pollEvery) {
		if time.Now().After(end) {
			t.Fatalf("waited %v for %s\n%s", s.patience, what, s.report())
		}
	}
}

// WaitText waits until text stands on the screen; a text of several lines must
// match whole line ends.
func (s *Screen) WaitText(t testing.TB, text string) {
	t.Helper()
	s.WaitFor(t, "the text "+text, func(s *Screen) bool { return strings.Contains(s.Text(), text) })
}

// report is the screen in a frame, for failure messages.
func (s *Screen) report() string {
	w, h := s.Size()
	rule := "+" + strings.Repeat("-", w) + "+\n"
	var b strings.Builder
	b.WriteString(rule)
	for y := range h {
		line := s.Line(y)
		b.WriteString("|" + line + strings.Repeat(" ", max(0, w-ansi.StringWidth(line))) + "|\n")
	}
	b.WriteString(rule)
	if s.outlook != nil {
		b.WriteString(s.outlook())
	}
	return b.String()
}
