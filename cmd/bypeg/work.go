package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"github.com/adrg/xdg"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/spf13/cobra"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
	"bypeg/tui"
	"bypeg/tui/look"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

func newWork(p *program) *cobra.Command {
	c := &cobra.Command{
		Use:   "work [FILE]",
		Short: "work a piece, row by row and peg by peg",
		Long: `work goes on with the piece that was begun from FILE, or begins one. Without
FILE it goes on with the piece worked last.

A new piece may have rows on the loom already (--on-loom), and another peg count
than its pattern (--pegs), whose rows are then laid on that many; the piece says
so whenever it is opened.

A finished piece is left alone, and FILE begins another then; with --finished the
last one is opened again: to be washed, dried and measured step by step.

With --plain it talks line by line, for screen readers, terminals that only
print, pipes and scripts: the same piece and the same steps, typed as words. On
a terminal with TERM=dumb it does so unasked. With --once it only says what is
to be done now.`,
		Example: `  bypeg work quay-mat
  bypeg work my-blanket.toml --hand left
  bypeg work my-blanket.toml --on-loom 30
  bypeg work my-blanket.toml --pegs 44
  bypeg work my-blanket.toml --finished
  bypeg work quay-mat --plain`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := p.checkFinished(args); err != nil {
				return err
			}
			switch {
			case p.flags.once:
				return p.sayOnce(args)
			case p.flags.finished:
				return p.workFinished(args[0])
			case len(args) == 0:
				return p.workLast()
			}
			return p.workOn(args[0])
		},
	}
	c.Flags().IntVar(&p.begin.onLoom, "on-loom", 0, "of a new piece: how many rows are on the loom already")
	c.Flags().IntVar(&p.begin.pegs, "pegs", 0, "of a new piece: take so many pegs in place of the pattern's")
	c.Flags().BoolVar(&p.begin.anew, "new", false, "begin another piece although one is in progress")
	c.Flags().BoolVar(&p.flags.finished, "finished", false, "open the last finished piece of FILE again, for its finishing")
	addPlain(p, c)
	c.Flags().BoolVar(&p.flags.once, "once", false, "say what is to be done now, change nothing, and end")
	return c
}

func addPlain(p *program, c *cobra.Command) {
	c.Flags().BoolVar(&p.flags.plain, "plain", false, "talk line by line, without a screen")
}

// begin is how a new piece is begun, where not as its pattern says.
type begin struct {
	onLoom, pegs int
	anew         bool
}

func (b begin) check() error {
	switch {
	case b.onLoom < 0:
		return usage("write --on-loom 30, or leave it out", "--on-loom cannot be %d", b.onLoom)
	case b.pegs < 0 || b.pegs > pattern.MaxPegs:
		return usage(fmt.Sprintf("write --pegs 44, %d at most, or leave it out", pattern.MaxPegs), "--pegs cannot be %d", b.pegs)
	}
	return nil
}

// workOn goes on with a pattern's piece, or begins one.
func (p *program) workOn(name string) error {
	if err := p.begin.check(); err != nil {
		return err
	}
	src, missing := source(name)
	src.OnLoom, src.Pegs, src.Anew = p.begin.onLoom, p.begin.pegs, p.begin.anew
	if missing != nil && !errors.Is(missing, fs.ErrNotExist) {
		return missing
	}
	if missing == nil {
		if err := p.canWork("bypeg work " + safetext.Clean(name) + " --plain works it line by line"); err != nil {
			return err
		}
	}
	return p.work(func(d *tui.Desk) (*tui.Opened, error) {
		if missing == nil {
			o, err := d.Work(src)
			if diags := (safetext.Diagnostics)(nil); errors.As(err, &diags) {
				err = cmp.Or(notWritten(src), err)
			}
			return o, err
		}
		return p.workKept(d, name, missing)
	})
}

// workKept goes on with a piece whose pattern's file is gone: it has a copy of its own.
func (p *program) workKept(d *tui.Desk, name string, missing error) (*tui.Opened, error) {
	path, err := filepath.Abs(name)
	if err != nil {
		return nil, missing
	}
	id, found, err := d.Find(path)
	switch {
	case err != nil:
		return nil, err
	case !found:
		return nil, missing
	}
	if err := p.canWork("bypeg work " + safetext.Clean(name) + " --plain works it line by line"); err != nil {
		return nil, err
	}
	return d.Open(id)
}

// workLast goes on with the piece worked last.
func (p *program) workLast() error {
	if err := p.canWork("bypeg work --plain works the piece line by line"); err != nil {
		return err
	}
	return p.work(func(d *tui.Desk) (*tui.Opened, error) {
		id, ok, err := d.Last()
		if err != nil {
			return nil, err
		}
		if !ok {
			return nil, usage("begin one: bypeg work "+examples.Names()[0], "no piece is in progress")
		}
		return d.Open(id)
	})
}

// shelf opens the list of pieces. A talk is about one piece: the one worked last.
func (p *program) shelf() error {
	if p.flags.plain {
		return p.workLast()
	}
	if err := p.needScreen("bypeg work FILE --plain works a piece line by line; bypeg chart FILE and bypeg rows FILE print"); err != nil {
		return err
	}
	return p.screen(nil)
}

// screen runs the program on the terminal, on the shelf or with one piece, and sees
// to it that the piece is laid away on every way out.
func (p *program) screen(first func(*tui.Desk) (*tui.Opened, error)) error {
	style, desk, options := p.style(), p.desk(), p.options()
	model := tui.New(desk, style, time.Now, options)
	if first != nil {
		o, err := first(desk)
		if err != nil {
			return p.unopened(err)
		}
		model = tui.NewWork(desk, o, style, time.Now, options)
	}
	end, err := runProgram(wrap(model), p.in, p.out, p.chosen.settings.Mouse)
	return p.farewell(desk, end, err)
}

// unopened tells why a piece could not be taken to the desk.
func (p *program) unopened(err error) error {
	var diags safetext.Diagnostics
	var f *failure
	switch {
	case errors.As(err, &diags):
		p.tell(diags)
		return &failure{code: exitWrong}
	case errors.As(err, &f):
		return err
	case errors.Is(err, tui.ErrPegs):
		return usage("write --pegs with a count that goes, or change the pattern's rows in a file of your own", "%s", safetext.Clean(err.Error()))
	case errors.Is(err, tui.ErrRows):
		return usage("write --on-loom with the number of rows that are done", "%s", safetext.Clean(err.Error()))
	}
	return &failure{exitIO, errors.New(safetext.Clean(err.Error())), "bypeg alone lists your pieces"}
}

// desk is where pieces are kept on this machine.
func (p *program) desk() *tui.Desk {
	s := p.chosen.settings
	return &tui.Desk{
		Env: save.System(p.holder()), Root: filepath.Join(p.dataDir(), "pieces"),
		Examples: examples.Names(), Example: exampleNamed, ReadFile: file.Read, Way: s.Way,
		WayAsked: p.chosen.wayAsked, Lead: s.Lead,
	}
}

// options are what the screens do as the maker has chosen.
func (p *program) options() tui.Options {
	s := p.chosen.settings
	o := tui.Options{Keys: s.Keys, Lists: s.Lists, Shelf: s.Shelf, Chart: s.Chart, Ways: s.Ways, Talk: look.NewTalkKeys(), DoublePress: s.DoublePress, Pause: s.Pause, Notice: p.chosen.trouble}
	o.WrapAhead = s.WrapAhead
	if s.Bell {
		o.Bell = func() { _, _ = p.out.Write([]byte("\a")) }
	}
	return o
}

// holder is who has a piece open, for whoever wants it in another terminal.
func (p *program) holder() string {
	holder := fmt.Sprintf("pid %d", os.Getpid())
	if tty := ttyName(p.in); tty != "" {
		holder += ", " + tty
	}
	return holder
}

func (p *program) dataDir() string {
	if p.flags.data != "" {
		return p.flags.data
	}
	return filepath.Join(xdg.DataHome, "bypeg")
}

// ending is how the screen was left.
type ending struct {
	crash       *tui.Crash
	interrupted bool           // by ctrl+c
	signal      syscall.Signal // 0 where there was none
}

// runProgram runs a model until it quits or a signal comes. Signals are taken here,
// since bubbletea knows only two of them.
func runProgram(model tea.Model, in, out *os.File, mouse bool) (ending, error) {
	ctx, done := untilSignal()
	defer done()
	options := []tea.ProgramOption{
		tea.WithContext(ctx), tea.WithoutSignalHandler(), tea.WithInput(in), tea.WithOutput(out), tea.WithAltScreen(),
	}
	if mouse {
		options = append(options, tea.WithMouseCellMotion())
	}
	prog := tea.NewProgram(tui.Guard{Model: model}, options...)
	last, err := prog.Run()
	var end ending
	if end.signal = signalOf(ctx); end.signal != 0 {
		err = nil
	}
	if err != nil {
		err = fmt.Errorf("the terminal: %w", err)
	}
	if g, ok := last.(tui.Guard); ok {
		end.crash = g.Crash
		if m, ok := g.Model.(tui.Model); ok {
			end.interrupted = m.Interrupted()
		}
	}
	return end, err
}

// untilSignal is a context that a signal ends; done gives the signals back.
func untilSignal() (ctx context.Context, done func()) {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT)
	ctx, cancel := context.WithCancelCause(context.Background())
	go func() {
		select {
		case s := <-signals:
			cancel(stopped{s})
		case <-ctx.Done():
		}
	}()
	return ctx, func() {
		signal.Stop(signals)
		cancel(nil)
	}
}

// signalOf is the signal that ended a context, 0 where none did.
func signalOf(ctx context.Context) syscall.Signal {
	if s, ok := context.Cause(ctx).(stopped); ok {
		sig, _ := s.Signal.(syscall.Signal)
		return sig
	}
	return 0
}

// stopped is the end by a signal.
type stopped struct{ os.Signal }

func (s stopped) Error() string { return s.String() }

// farewell lays the piece away, says where the work stands, and how the program ends. Of
// several pieces it tells of the last one.
func (p *program) farewell(desk *tui.Desk, end ending, err error) error {
	f, worked := desk.Close()
	if !worked { // it was laid away before, on the shelf
		f, worked = desk.Left()
	}
	if worked {
		p.sayFarewell(f)
	}
	switch {
	case errors.Is(err, tea.ErrProgramPanic):
		return &failure{exitBug, errors.New("a bug in this program ended it"), "your place is saved up to the line above"}
	case end.crash != nil:
		return p.crashed(end.crash)
	case err != nil:
		return &failure{exitIO, err, ""}
	case desk.Lost() > f.Unsaved:
		return &failure{exitIO, fmt.Errorf("%s of pieces that were laid away could not be saved", track.Plural(desk.Lost()-f.Unsaved, "step")), ""}
	case desk.Lost() > 0 || f.Gone != "":
		return &failure{code: exitIO}
	case end.signal != 0:
		return &failure{code: exitBreak + int(end.signal)}
	case end.interrupted:
		return &failure{code: exitBreak + int(syscall.SIGINT)}
	}
	return nil
}

// sayFarewell says where the work stands.
func (p *program) sayFarewell(f tui.Farewell) {
	switch steps := track.Plural(f.Unsaved, "step"); {
	case f.Gone != "" && f.Unsaved > 0:
		say(p.err, "error", fmt.Sprintf("%s lost, and all that was saved: the folder %s is gone", steps, f.Gone))
	case f.Gone != "":
		say(p.err, "error", fmt.Sprintf("all that was saved is lost: the folder %s is gone", f.Gone))
	case f.Unsaved > 0:
		say(p.err, "error", fmt.Sprintf("%s lost: %s", steps, notSaved(f.Err)))
	}
	if f.Doubt != "" {
		say(p.err, "warning", f.Doubt)
	}
	says := f.Title + ": "
	switch {
	case f.Gone != "":
		says += "it was at " + cmp.Or(f.Shown, f.Place)
	case len(f.Asked) > 0:
		says += "which place is the right one is not answered yet:\n  " + strings.Join(f.Asked, "\n  ")
	case f.Shown != "":
		says += "saved is " + f.Place + "; the screen was at " + f.Shown
	case f.Unsaved > 0:
		says += "saved is " + f.Place
	case f.Looked:
		says += f.Place + ", only looked at"
	default:
		says += f.Place + ", saved"
	}
	fmt.Fprintln(p.out, says)
	if f.Gone == "" && f.Unsaved == 0 && len(f.Asked) == 0 && len(f.Back) > 0 {
		for _, line := range look.Wrap(p.width()-2, f.Back...) {
			fmt.Fprintln(p.out, "  "+line)
		}
	}
}

// notSaved is why steps are lost; which place is saved is told beside it.
func notSaved(err error) string {
	if e := (*save.NotSavedError)(nil); errors.As(err, &e) {
		return "NOT SAVED: " + e.Reason()
	}
	return err.Error()
}

// crashed keeps what is known of a bug in a file, for whoever mends it.
func (p *program) crashed(c *tui.Crash) error {
	path := filepath.Join(p.dataDir(), "crash.txt")
	text := fmt.Sprintf("%s\n%s\n\n%s", version(), c.Reason, c.Stack)
	hint := "what is known of it is in " + path
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		hint = "and the report could not be written: " + err.Error()
	}
	return &failure{exitBug, fmt.Errorf("a bug in this program ended it: %s", safetext.Clean(c.Reason)), hint}
}
