package tui_test

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/require"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/tui"
	"bypeg/tui/look"
	"bypeg/tui/save"
)

// matText is a pattern file of 8 pegs: a garter frame of one ridge around two field
// rows, and a set-up row.
const matText = `pattern = 1
title = "Test Weir Mat"
pegs = 8
[[zone]]
name = "bottom border"
border = true
rows = ["k", "p"]
[[zone]]
name = "field"
sides = 2
rows = ["k", "k1, p2, k1"]
[[zone]]
name = "top border"
like = "bottom border"
[[zone]]
name = "set-up"
border = true
rows = ["k"]
`

// room is a place to test in: a folder of pieces, a shelf of texts, a disk that can
// be made to fail.
type room struct {
	t     testing.TB
	root  string
	files map[string]string
	full  atomic.Bool // the disk is full
	shut  atomic.Bool // no file may be written to
	now   time.Time
}

func newRoom(t testing.TB) *room {
	return &room{
		t: t, root: filepath.Join(t.TempDir(), "pieces"), files: map[string]string{"mat.toml": matText},
		now: time.Date(2026, 2, 3, 19, 4, 5, 0, time.UTC),
	}
}

func (r *room) desk() *tui.Desk {
	env := save.System("pid 4711")
	env.FS = fillingFS{env.FS, &r.full, &r.shut}
	env.Now = func() time.Time { return r.now }
	d := &tui.Desk{
		Env: env, Root: r.root, Examples: []string{"weir-mat"},
		Example: func(name string) ([]byte, bool) { return []byte(matText), name == "weir-mat" },
		ReadFile: func(path string) ([]byte, error) {
			text, ok := r.files[path]
			if !ok {
				return nil, fmt.Errorf("there is no file %q (%w)", path, os.ErrNotExist)
			}
			return []byte(text), nil
		},
		Way:  func(d *pattern.Design) (pattern.Hand, pattern.Way) { return pattern.RightHand, d.Way },
		Lead: 2,
	}
	r.t.Cleanup(func() { d.Close() })
	return d
}

func (r *room) source() tui.Source {
	return tui.Source{Name: "mat.toml", Shown: "mat.toml", Text: []byte(r.files["mat.toml"])}
}

// fillingFS is a file system whose writes fail while the disk is full, and where no
// file is opened to be written to while it is shut.
type fillingFS struct {
	save.FS
	full, shut *atomic.Bool
}

func (f fillingFS) Append(path string) (save.File, error) {
	if f.shut.Load() {
		return nil, &fs.PathError{Op: "open", Err: syscall.EACCES}
	}
	file, err := f.FS.Append(path)
	return fillingFile{file, f.full}, err
}

func (f fillingFS) Create(path string) (save.File, error) {
	file, err := f.FS.Create(path)
	return fillingFile{file, f.full}, err
}

type fillingFile struct {
	save.File
	full *atomic.Bool
}

func (f fillingFile) Write(p []byte) (int, error) {
	if f.full.Load() {
		return 0, &fs.PathError{Op: "write", Err: syscall.ENOSPC}
	}
	return f.File.Write(p)
}

// program runs a router by hand. Commands run beside it, and their messages are given
// to it when the test waits.
type program struct {
	t     testing.TB
	model tea.Model
	msgs  chan tea.Msg
	quit  bool
	slept int // how often it gave the terminal to the shell
}

func style() *look.Style {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.Ascii)
	return look.NewStyle(r, look.Dark, chart.Bars, false)
}

// chosen is what a maker has chosen who works fast and wants no question.
func chosen() tui.Options {
	return tui.Options{Keys: look.NewWorkKeys(), Lists: look.NewListKeys(), Shelf: look.NewShelfKeys(), Chart: look.NewChartKeys(), Ways: look.NewWayKeys(), Talk: look.NewTalkKeys()}
}

func (r *room) clock() time.Time { return r.now }

func (r *room) start(m tea.Model) *program {
	p := &program{t: r.t, model: m, msgs: make(chan tea.Msg, 1000)}
	p.do(m.Init())
	p.until("the first screen", func() bool { return p.view() != "" })
	return p
}

// onShelf starts the program on the shelf.
func (r *room) onShelf(d *tui.Desk) *program {
	return r.start(tui.New(d, style(), r.clock, chosen()))
}

// work begins a piece of the pattern file, or goes on with it.
func (r *room) work() (*tui.Desk, *program) {
	r.t.Helper()
	d := r.desk()
	o, err := d.Work(r.source())
	require.NoError(r.t, err)
	return d, r.onWork(d, o)
}

// onWork starts the program with a piece.
func (r *room) onWork(d *tui.Desk, o *tui.Opened) *program {
	return r.start(tui.NewWork(d, o, style(), r.clock, chosen()))
}

// do starts a command. The commands of a sequence run one after the other, and so do
// those of a batch: no test depends on their order.
func (p *program) do(cmd tea.Cmd) {
	if cmd != nil {
		go func() { p.msgs <- cmd() }()
	}
}

func (p *program) give(msg tea.Msg) {
	switch msg := msg.(type) {
	case nil:
	case tea.QuitMsg:
		p.quit = true
	case tea.SuspendMsg:
		p.slept++
	case tea.BatchMsg:
		for _, c := range msg {
			p.do(c)
		}
	default:
		if cmds, ok := sequence(msg); ok {
			go func() {
				for _, c := range cmds {
					if c != nil {
						p.msgs <- c()
					}
				}
			}()
			return
		}
		var cmd tea.Cmd
		p.model, cmd = p.model.Update(msg)
		p.do(cmd)
	}
}

// until gives messages to the model until something holds, or for 5 seconds.
func (p *program) until(what string, holds func() bool) {
	p.t.Helper()
	deadline := time.After(5 * time.Second)
	for !holds() {
		select {
		case msg := <-p.msgs:
			p.give(msg)
		case <-time.After(20 * time.Millisecond):
		case <-deadline:
			p.t.Fatalf("waited in vain: %s\n%s", what, p.view())
		}
	}
}

// press sends keys. Before each, what the keys before it led to is waited for.
func (p *program) press(keys ...string) {
	p.t.Helper()
	for _, k := range keys {
		p.settle()
		p.give(key(k))
	}
	p.settle()
}

// burst sends keys and waits for nothing: what the disk says is heard later.
func (p *program) burst(keys ...string) {
	for _, k := range keys {
		p.give(key(k))
	}
}

// rest takes the hand off the keys for a second, so that keys are taken again.
func (p *program) rest() {
	p.t.Helper()
	begun := time.Now()
	p.until("a second", func() bool { return time.Since(begun) > time.Second })
}

// settle gives the model all messages that come without a pause.
func (p *program) settle() {
	for {
		select {
		case msg := <-p.msgs:
			p.give(msg)
		case <-time.After(15 * time.Millisecond):
			return
		}
	}
}

// key is a key by its name, or the letters it stands for.
func key(k string) tea.KeyMsg {
	if t, ok := named[k]; ok {
		return tea.KeyMsg{Type: t}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)}
}

var named = map[string]tea.KeyType{
	"enter": tea.KeyEnter, "space": tea.KeySpace, "up": tea.KeyUp, "down": tea.KeyDown, "ctrl+c": tea.KeyCtrlC,
	"tab": tea.KeyTab, "esc": tea.KeyEsc, "end": tea.KeyEnd, "backspace": tea.KeyBackspace, "ctrl+z": tea.KeyCtrlZ,
}

func (p *program) view() string { return p.model.View() }

func (p *program) sees(text string) {
	p.t.Helper()
	p.until("to see "+text, func() bool { return strings.Contains(p.view(), text) })
}

func (p *program) ends() {
	p.t.Helper()
	p.until("the end", func() bool { return p.quit })
}

func (p *program) seesNot(text string) {
	p.t.Helper()
	require.NotContains(p.t, p.view(), text)
}

// heard gives messages to the model up to the first of a type, and returns the command
// that this one led to, not run yet.
func (p *program) heard(of string) tea.Cmd {
	p.t.Helper()
	deadline := time.After(5 * time.Second)
	for {
		select {
		case msg := <-p.msgs:
			if fmt.Sprintf("%T", msg) != of {
				p.give(msg)
				continue
			}
			var cmd tea.Cmd
			p.model, cmd = p.model.Update(msg)
			return cmd
		case <-deadline:
			p.t.Fatalf("waited in vain: a %s\n%s", of, p.view())
		}
	}
}

// replaceJournal puts an equal file in the place of the only piece's journal, as a tool
// does that brings files from machine to machine.
func (r *room) replaceJournal() {
	r.t.Helper()
	text, path := r.journal()
	require.NoError(r.t, os.WriteFile(path+".new", []byte(text), 0o600))
	require.NoError(r.t, os.Rename(path+".new", path))
}

// journal is the text of the only piece's journal, and its path.
func (r *room) journal() (text, path string) {
	r.t.Helper()
	found, err := filepath.Glob(filepath.Join(r.root, "*", "journal-0001.txt"))
	require.NoError(r.t, err)
	require.Len(r.t, found, 1)
	data, err := os.ReadFile(found[0])
	require.NoError(r.t, err)
	return string(data), found[0]
}

func (r *room) setJournal(text string) {
	_, path := r.journal()
	require.NoError(r.t, os.WriteFile(path, []byte(text), 0o600))
}

// changed is the pattern file with one text in place of another.
func (r *room) change(was, now string) {
	require.Contains(r.t, r.files["mat.toml"], was)
	r.files["mat.toml"] = strings.Replace(r.files["mat.toml"], was, now, 1)
}

// placeOf is a farewell without the words for whoever comes back: see track.SayBack.
func placeOf(f tui.Farewell) tui.Farewell {
	f.Back = nil
	return f
}
