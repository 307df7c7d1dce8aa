package work_test

import (
	"fmt"
	"io"
	"syscall"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/look"
	"bypeg/tui/save"
	"bypeg/tui/track"
	"bypeg/tui/work"
)

// noon is when the tests are, and options what their maker has chosen: nothing.
var noon = time.Date(2026, 1, 2, 12, 0, 0, 0, time.UTC)

var options = work.Options{Now: func() time.Time { return noon }}

// disk is a Saver whose word comes when the test wants it.
type disk struct {
	put     []track.Event
	notes   []string
	retries int
	words   chan track.Saved
}

func newDisk() *disk { return &disk{words: make(chan track.Saved, 1)} }

func (d *disk) Put(e track.Event) { d.put = append(d.put, e) }
func (d *disk) Note(at pattern.Place, text string) {
	d.notes = append(d.notes, fmt.Sprintf("%d: %s", at.Row, text))
}
func (d *disk) Purpose(_ pattern.Place, text string) { d.notes = append(d.notes, "on purpose: "+text) }
func (d *disk) Retry()                               { d.retries++ }
func (d *disk) Next() (track.Saved, bool) {
	w, ok := <-d.words
	return w, ok
}

// style is how the tests look: no colour, or the sixteen.
func style(profile termenv.Profile, ascii bool) *look.Style {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(profile)
	r.SetHasDarkBackground(true)
	return look.NewStyle(r, look.Dark, chart.Bars, ascii)
}

// desk is a piece of textured cloth on a work screen.
type desk struct {
	t     testing.TB
	disk  *disk
	model work.Model
	cmd   tea.Cmd // the last one
	now   time.Time
}

// cloth is 26 pegs with sides of 3 and a field of blocks: 3 ridges, 36 field rows, 3
// ridges and a set-up row.
func cloth(t testing.TB) *pattern.Pattern {
	plan := patterntest.Frame(26, 3, 3, 36)
	plan.Title = "Towpath Cloth"
	plan.Zones[1].Strips[0].Lines = []pattern.Line{
		{Cells: patterntest.Rows("||||||||||||||||||||")[0]},
		{Cells: patterntest.Rows("||--||--||--||--||--")[0]},
		{Cells: patterntest.Rows("||||||||||||||||||||")[0]},
		{Cells: patterntest.Rows("--||--||--||--||--||")[0]},
	}
	return patterntest.Build(t, plan)
}

func open(t testing.TB, at pattern.Place, s *look.Style, width, height int) *desk {
	p := cloth(t)
	return openPiece(t, pattern.Order{Pattern: p, Way: p.Way}, at, s, width, height)
}

func openPiece(t testing.TB, o pattern.Order, at pattern.Place, s *look.Style, width, height int) *desk {
	d := newDisk()
	k := &desk{t: t, disk: d, now: noon}
	chosen := options
	chosen.Now = func() time.Time { return k.now }
	m := work.New(track.Piece{Title: o.Pattern.Title, Tracker: track.New(o, at, track.DefaultLead), Saver: d}, s, look.NewWorkKeys(), chosen)
	k.model = m.SetSize(width, height)
	return k
}

// press sends keys and returns what the last one wished.
func (d *desk) press(keys ...tea.KeyMsg) look.Wish {
	var wish look.Wish
	for _, k := range keys {
		d.model, wish, d.cmd = d.model.Update(k)
	}
	return wish
}

// types types into a field.
func (d *desk) types(text string) {
	for _, r := range text {
		d.press(rune_(r))
	}
}

// knit works so many pegs, one every three seconds, and all are saved.
func (d *desk) knit(pegs int) {
	for range pegs {
		d.now = d.now.Add(3 * time.Second)
		d.press(space)
	}
	d.says(track.Saved{Through: len(d.disk.put)})
}

// says lets the disk say its word.
func (d *desk) says(w track.Saved) look.Wish {
	d.disk.words <- w
	var wish look.Wish
	d.model, wish, d.cmd = d.model.Update(d.model.Init()())
	return wish
}

func at(row, done int) pattern.Place {
	return pattern.Place{Phase: pattern.Working, Row: row, Done: done}
}

// full is the disk's word that it is full, and which place it has.
func full(saved pattern.Place) error {
	return &save.NotSavedError{Saved: saved, Of: 26, Err: syscall.ENOSPC}
}

func rune_(r rune) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}} }

var (
	space = tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	enter = tea.KeyMsg{Type: tea.KeyEnter}
	up    = tea.KeyMsg{Type: tea.KeyUp}
	down  = tea.KeyMsg{Type: tea.KeyDown}
	left  = tea.KeyMsg{Type: tea.KeyLeft}
	right = tea.KeyMsg{Type: tea.KeyRight}
	back  = tea.KeyMsg{Type: tea.KeyBackspace}
)
