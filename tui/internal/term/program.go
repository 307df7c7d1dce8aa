package term

import (
	"fmt"
	"io"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// Program is a model running in-process: keys come from a pipe, the output goes
// to the Screen. It ends with the test at the latest.
type Program struct {
	*Screen

	tea   *tea.Program
	keys  *io.PipeWriter
	ended chan struct{}
	final tea.Model // set before ended is closed
	err   error     // set before ended is closed
}

// InProcess runs model on a terminal of w columns and h lines, which it is told
// at once. Signals are left to the test binary; opts come last and win.
func InProcess(t testing.TB, model tea.Model, w, h int, opts ...tea.ProgramOption) *Program {
	t.Helper()
	in, keys := io.Pipe()
	p := &Program{
		Screen: NewScreen(t, w, h, io.Discard),
		keys:   keys,
		ended:  make(chan struct{}),
	}
	p.outlook = p.state
	opts = append([]tea.ProgramOption{
		tea.WithInput(in), tea.WithOutput(p.Screen), tea.WithoutSignalHandler(), tea.WithFPS(120),
	}, opts...)
	p.tea = tea.NewProgram(model, opts...)
	go func() {
		defer close(p.ended)
		p.final, p.err = p.tea.Run()
		_ = in.Close() // keys typed from now on fail instead of blocking
	}()
	t.Cleanup(func() {
		p.tea.Kill()
		_ = keys.Close()
		p.Wait(t)
	})
	p.send(t, tea.WindowSizeMsg{Width: w, Height: h})
	return p
}

// Type sends text as one write, so that the program reads it as one burst of
// keys. It returns when the model has got all of it, or the program has ended; a
// program that had ended before fails the test.
func (p *Program) Type(t testing.TB, text string) {
	t.Helper()
	p.within(t, fmt.Sprintf("the program to read %q", text), func() error {
		if _, err := io.WriteString(p.keys, text); err != nil {
			return err
		}
		// The program reads again only when it has handed on what it read before,
		// so an empty write keeps a later Resize or Quit from overtaking keys.
		_, _ = p.keys.Write(nil)
		return nil
	})
}

// Keys sends each key as a write of its own.
func (p *Program) Keys(t testing.TB, keys ...Key) {
	t.Helper()
	for _, k := range keys {
		p.Type(t, string(k))
	}
}

// Resize changes the terminal's size and tells the program, which also hears of
// a size of zero.
func (p *Program) Resize(t testing.TB, w, h int) {
	t.Helper()
	p.Screen.Resize(w, h)
	p.send(t, tea.WindowSizeMsg{Width: w, Height: h})
}

// Quit asks the program to end, from outside the model, and waits for it as Wait
// does.
func (p *Program) Quit(t testing.TB) (tea.Model, error) {
	t.Helper()
	p.send(t, tea.Quit())
	return p.Wait(t)
}

// Wait waits for the program's end and gives its last model and its error. After
// 15 seconds the test fails with the whole screen.
func (p *Program) Wait(t testing.TB) (tea.Model, error) {
	t.Helper()
	select {
	case <-p.ended:
	case <-time.After(p.patience):
		t.Fatalf("waited %v for the program to end\n%s", p.patience, p.report())
	}
	return p.final, p.err
}

func (p *Program) send(t testing.TB, msg tea.Msg) {
	t.Helper()
	p.within(t, fmt.Sprintf("the program to take %#v", msg), func() error {
		p.tea.Send(msg)
		return nil
	})
}

// within does what may block for ever when the program is stuck. On a failure the
// goroutine left behind ends with the program, which the test's cleanup kills.
func (p *Program) within(t testing.TB, what string, do func() error) {
	t.Helper()
	done := make(chan error, 1)
	go func() { done <- do() }()
	select {
	case err := <-done:
		if err != nil {
			t.Fatalf("waiting for %s: %v\n%s", what, err, p.report())
		}
	case <-time.After(p.patience):
		t.Fatalf("waited %v for %s\n%s", p.patience, what, p.report())
	}
}

func (p *Program) state() string {
	select {
	case <-p.ended:
		return fmt.Sprintf("the program has ended, error: %v\n", p.err)
	default:
		return "the program is still running\n"
	}
}
