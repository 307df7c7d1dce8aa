// Package tui leads from screen to screen. Each screen is a small model in a package
// of its own and knows no other; the router here passes messages on to the one in
// hand and acts on what it asks for.
package tui

import (
	"errors"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern/safetext"
	"bypeg/tui/ask"
	"bypeg/tui/browse"
	"bypeg/tui/fitted"
	"bypeg/tui/look"
	"bypeg/tui/mending"
	"bypeg/tui/shelf"
	"bypeg/tui/ways"
	"bypeg/tui/where"
	"bypeg/tui/work"
)

// screen is one of the screens.
type screen uint8

const (
	onNothing screen = iota // until there is something to show
	onShelf
	onWork
	onChart
	onAsk
	onWays
	onWhere
	onFitted
	onMend
)

// Model is the router.
type Model struct {
	desk     *Desk
	style    *look.Style
	now      func() time.Time
	options  Options
	screen   screen
	fromHome bool         // leaving the work leads to the shelf, not out of the program
	broken   bool         // ctrl+c was pressed
	busy     bool         // another screen, or the end, is on its way: keys are not for this one any more
	deaf     bool         // a screen came unasked: keys on their way were for the one before
	passed   int          // keys passed over
	pressed  string       // the last key
	spent    string       // the key that led back to the loom, until it is let go; "" for none
	waits    look.Wish    // what is done once nothing is on its way to the disk; nil for nothing
	waited   int          // how often that was waited for
	held     []tea.KeyMsg // typed while the piece is read anew
	watch    int          // of which piece the watch at its lock may still speak
	working  bool         // a piece is being worked, be its screen in hand or not
	opened   *Opened
	asked    question
	size     tea.WindowSizeMsg

	shelf  shelf.Model
	work   work.Model
	browse browse.Model
	ask    ask.Model
	ways   ways.Model
	where  where.Model
	fitted fitted.Model
	mend   mending.Model
}

// unknownSize is taken until the terminal says better; some first say 0 by 0.
var unknownSize = tea.WindowSizeMsg{Width: 80, Height: 24}

// New starts on the shelf.
func New(desk *Desk, style *look.Style, now func() time.Time, o Options) Model {
	return Model{desk: desk, style: style, now: now, options: o, fromHome: true, size: unknownSize}
}

// NewWork starts with a piece that is on the desk already; leaving it ends the
// program.
func NewWork(desk *Desk, o *Opened, style *look.Style, now func() time.Time, options Options) Model {
	m := New(desk, style, now, options)
	first := *o
	if options.Notice != "" {
		first.Opening.Notices = append(slices.Clone(first.Opening.Notices), options.Notice)
	}
	m.fromHome = false
	m.opened = &first
	return m
}

// Interrupted tells whether the program was left by ctrl+c.
func (m Model) Interrupted() bool { return m.broken }

// Init loads the shelf, or goes on with the piece on the desk.
func (m Model) Init() tea.Cmd {
	if o := m.opened; o != nil {
		return func() tea.Msg { return openedMsg{opened: o} }
	}
	_, cmd := m.loadShelf(m.options.Notice)
	return cmd
}

// stockMsg brings what lies on the shelf.
type stockMsg struct{ stock shelf.Stock }

// openedMsg brings a piece that was taken to the desk.
type openedMsg struct {
	opened  *Opened
	unasked bool // it was being worked, and nobody asked for it
}

// failedMsg tells of something that did not work.
type failedMsg struct{ err error }

// loadShelf goes to the shelf, with a notice if there is one.
func (m Model) loadShelf(notice string) (Model, tea.Cmd) {
	m.busy = true
	return m, safely(func() tea.Msg {
		stock, err := m.desk.Stock()
		if err != nil {
			stock.Notice = safetext.Clean(err.Error())
		}
		if notice != "" {
			stock.Notice = strings.TrimSuffix(notice+"; "+stock.Notice, "; ")
		}
		return stockMsg{stock}
	})
}

// open takes a piece to the desk.
func (m Model) open(how func() (*Opened, error)) (Model, tea.Cmd) { return m.fetch(how, false) }

// reread reads the piece in hand anew.
func (m Model) reread() (Model, tea.Cmd) { return m.fetch(m.desk.Reread, true) }

func (m Model) fetch(how func() (*Opened, error), unasked bool) (Model, tea.Cmd) {
	m.busy, m.waits = true, nil
	m.watch++ // what is in hand may be another piece by the time its watch speaks
	return m, safely(func() tea.Msg {
		o, err := how()
		if err != nil {
			return failedMsg{err}
		}
		return openedMsg{o, unasked}
	})
}

// calmAfter is how long keys are passed over when a screen comes that nobody asked
// for: a hand that works blindly must not answer it.
const calmAfter = 800 * time.Millisecond

// calmMsg comes when no key was pressed for that while; it carries how many had been
// passed over when it was sent.
type calmMsg int

// calm passes keys over for a moment where a piece was being worked.
func (m Model) calm() (Model, tea.Cmd) {
	if !m.working {
		return m, nil
	}
	m.deaf = true
	return m.waitForCalm()
}

// waitForCalm begins the while anew: a hand that goes on pressing has not looked yet.
func (m Model) waitForCalm() (Model, tea.Cmd) { return m.passOver(calmAfter) }

// passOver passes keys over until none has come for a while.
func (m Model) passOver(while time.Duration) (Model, tea.Cmd) {
	m.passed++
	n := m.passed
	return m, tea.Tick(while, func(time.Time) tea.Msg { return calmMsg(n) })
}

// spend lets the key that was pressed last do no more until it is let go: a hand that answered,
// or went through steps, must not work a run by it. Any other key is meant for the loom.
func (m Model) spend() (Model, tea.Cmd) {
	m.spent = m.pressed
	return m.passOver(letGoAfter)
}

// letGoAfter is longer than a key that is held takes to come again, and shorter than a hand
// takes to press it anew.
const letGoAfter = 300 * time.Millisecond

// fail tells of something that did not work: on the shelf, unless there is a piece to
// stay with.
func (m Model) fail(err error) (Model, tea.Cmd) {
	m.busy = false
	if errors.Is(err, errNoOther) {
		return m.stay(err), m.watchLock()
	}
	if errors.Is(err, errFolderGone) {
		return m.folderGone(), nil
	}
	m, calm := m.calm()
	m.working = false
	m, load := m.loadShelf(safetext.Clean(err.Error()))
	return m, tea.Batch(calm, load)
}

// stay says on the screen in hand why nothing has changed.
func (m Model) stay(why error) Model {
	if m.screen == onWork {
		m.work = m.work.Say(safetext.Clean(why.Error()))
	} else {
		m.shelf = m.shelf.Tell(safetext.Clean(why.Error()))
	}
	return m
}

// folderGone says, where it stands, that the piece's folder is gone. Whatever is put
// goes on being tried.
func (m Model) folderGone() Model {
	if m.screen == onAsk && m.asked != leavingUnsaved {
		m.ask = m.ask.Tell("The piece's folder is gone: put it back, then choose again.")
		return m
	}
	m.work = m.work.FolderGone()
	return m
}

func (m Model) showShelf(stock shelf.Stock) Model {
	if m.screen == onShelf || m.screen == onFitted {
		m.shelf = m.shelf.Restock(stock)
	} else {
		m.shelf = shelf.New(stock, m.style, m.options.Shelf, m.now())
	}
	m.screen, m.busy, m.held = onShelf, false, nil
	return m.sized()
}

// Update acts on what is for the router and passes everything else on.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		return m.resize(msg)
	case tea.KeyMsg:
		return m.press(msg)
	case tea.MouseMsg:
		return m.roll(msg)
	case stockMsg:
		return m.showShelf(msg.stock), nil
	case openedMsg:
		return m.opening(msg)
	case lockMsg:
		return m.lookedAgain(msg)
	case calmMsg:
		if int(msg) == m.passed {
			m.deaf, m.spent = false, ""
		}
		return m, nil
	case fittedMsg:
		return m.showFit(msg), nil
	case refusedMsg:
		return m.refused(msg.err)
	case waitedMsg:
		return m.waitedLong(int(msg)), nil
	case failedMsg:
		m, failed := m.fail(msg.err)
		m, typed := m.typeHeld()
		return m, tea.Batch(failed, typed)
	}
	return m.passToWork(msg)
}

// resize pushes the size down. The screen is wiped, since terminals reflow what was
// there.
func (m Model) resize(size tea.WindowSizeMsg) (tea.Model, tea.Cmd) {
	if size.Width == 0 || size.Height == 0 {
		size = unknownSize
	}
	if size == m.size {
		return m, nil
	}
	m.size = size
	return m.sized(), tea.ClearScreen
}

func (m Model) sized() Model {
	if h := m.hand(); h != nil {
		h.setSize(m.size.Width, m.size.Height)
	}
	return m
}

// View draws the screen in hand. Over the work it tells too where changes are not saved, in
// place of the keys.
func (m Model) View() string {
	h := m.hand()
	if h == nil {
		return ""
	}
	view := h.view()
	if !m.overWork() || !m.work.Unsaved() {
		return view
	}
	lines := strings.Split(view, "\n")
	lines[len(lines)-1] = m.style.Danger(safetext.Cut(m.style.Alert+" "+strings.Join(m.work.Trouble(), " "), m.size.Width))
	return strings.Join(lines, "\n")
}
