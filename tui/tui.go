// Package tui leads from screen to screen. Each screen is a small model in a package
// of its own and knows no other; the router here passes messages on to the one in
// hand and acts on what it asks for.
package tui

import (
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern/safetext"
	"bypeg/tui/ask"
	"bypeg/tui/browse"
	"bypeg/tui/look"
	"bypeg/tui/shelf"
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
)

// Model is the router.
type Model struct {
	desk     *Desk
	style    *look.Style
	now      func() time.Time
	screen   screen
	fromHome bool // leaving the work leads to the shelf, not out of the program
	broken   bool // ctrl+c was pressed
	opened   *Opened
	asked    question
	size     tea.WindowSizeMsg

	shelf  shelf.Model
	work   work.Model
	browse browse.Model
	ask    ask.Model
}

// unknownSize is taken until the terminal says better; some first say 0 by 0.
var unknownSize = tea.WindowSizeMsg{Width: 80, Height: 24}

// New starts on the shelf.
func New(desk *Desk, style *look.Style, now func() time.Time) Model {
	return Model{desk: desk, style: style, now: now, fromHome: true, size: unknownSize}
}

// NewWork starts with a piece that is on the desk already; leaving it ends the
// program.
func NewWork(desk *Desk, o *Opened, style *look.Style, now func() time.Time) Model {
	m := New(desk, style, now)
	m.fromHome = false
	m.opened = o
	return m
}

// Interrupted tells whether the program was left by ctrl+c.
func (m Model) Interrupted() bool { return m.broken }

// Init loads the shelf, or goes on with the piece on the desk.
func (m Model) Init() tea.Cmd {
	if m.opened != nil {
		return look.Send(openedMsg{m.opened})
	}
	return m.loadShelf("")
}

// stockMsg brings what lies on the shelf.
type stockMsg struct{ stock shelf.Stock }

// openedMsg brings a piece that was taken to the desk.
type openedMsg struct{ opened *Opened }

func (m Model) loadShelf(notice string) tea.Cmd {
	return safely(func() tea.Msg {
		stock, err := m.desk.Stock()
		if err != nil {
			return look.Failed{Err: err}
		}
		if notice != "" {
			stock.Notice = notice
		}
		return stockMsg{stock}
	})
}

func (m Model) open(how func() (*Opened, error)) tea.Cmd {
	return safely(func() tea.Msg {
		o, err := how()
		if err != nil {
			return look.Failed{Err: err}
		}
		return openedMsg{o}
	})
}

// Update acts on what screens ask for and passes everything else on.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		return m.resize(msg)
	case tea.KeyMsg:
		return m.press(msg)
	case stockMsg:
		m.shelf = shelf.New(msg.stock, m.style, look.NewListKeys(), m.now())
		m.screen = onShelf
		return m.sized(), nil
	case openedMsg:
		return m.take(msg.opened)
	case lockMsg:
		return m.tookOver(msg)
	case ask.Answered:
		return m.answer(msg.Answer)
	case look.OpenPiece:
		return m, m.open(func() (*Opened, error) { return m.desk.Open(msg.ID) })
	case look.BeginPattern:
		return m, m.open(func() (*Opened, error) { return m.desk.BeginExample(msg.Example) })
	case look.ShowChart:
		return m.showChart(), nil
	case look.Reread:
		return m, m.open(m.desk.Reread)
	case look.Leave:
		return m.leave()
	case look.Failed:
		return m, m.loadShelf(safetext.Clean(msg.Err.Error()))
	}
	var cmd tea.Cmd
	m.work, cmd = m.work.Update(msg)
	return m, cmd
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
	w, h := m.size.Width, m.size.Height
	switch m.screen {
	case onShelf:
		m.shelf = m.shelf.SetSize(w, h)
	case onWork:
		m.work = m.work.SetSize(w, h)
	case onChart:
		m.browse = m.browse.SetSize(w, h)
	case onAsk:
		m.ask = m.ask.SetSize(w, h)
	}
	return m
}

// press passes keys on to the screen in hand, one by one where fast typing brought
// several at once.
func (m Model) press(k tea.KeyMsg) (tea.Model, tea.Cmd) {
	if m.screen == onWork && m.work.Typing() {
		return m.pass(k)
	}
	if k.Type == tea.KeyCtrlC {
		m.broken, m.fromHome = true, false
		if m.screen == onChart {
			m.screen = onWork
		}
		return m.leave()
	}
	var cmds []tea.Cmd
	for _, one := range look.Burst(k, m.keys()) {
		var cmd tea.Cmd
		m, cmd = m.pass(one)
		cmds = append(cmds, cmd)
	}
	return m, tea.Sequence(cmds...)
}

// pass gives a message to the screen in hand.
func (m Model) pass(msg tea.Msg) (Model, tea.Cmd) {
	var cmd tea.Cmd
	switch m.screen {
	case onShelf:
		m.shelf, cmd = m.shelf.Update(msg)
	case onWork:
		m.work, cmd = m.work.Update(msg)
	case onChart:
		m.browse, cmd = m.browse.Update(msg)
	case onAsk:
		m.ask, cmd = m.ask.Update(msg)
	}
	return m, cmd
}

// keys are the keys of the screen in hand.
func (m Model) keys() []key.Binding {
	switch m.screen {
	case onWork:
		return m.work.Keys()
	case onChart:
		return m.browse.Keys()
	case onAsk:
		return m.ask.Keys()
	case onShelf:
		return m.shelf.Keys()
	}
	return nil
}

// View draws the screen in hand.
func (m Model) View() string {
	switch m.screen {
	case onWork:
		return m.work.View()
	case onChart:
		return m.browse.View()
	case onAsk:
		return m.ask.View()
	case onShelf:
		return m.shelf.View()
	}
	return ""
}

func (m Model) showChart() Model {
	t := m.work.Tracker()
	m.browse = browse.New(t.Order(), t.Place().Row, m.style, look.NewListKeys())
	m.screen = onChart
	return m.sized()
}

// leave goes back to where the screen in hand was reached from.
func (m Model) leave() (tea.Model, tea.Cmd) {
	switch {
	case m.screen == onChart:
		m.screen = onWork
		return m.sized(), nil
	case m.screen == onWork && m.work.Unsaved():
		return m.inquire(leavingUnsaved), nil
	case m.screen == onWork && m.fromHome:
		return m, m.layAway()
	}
	return m, tea.Quit
}

// layAway closes the piece and goes back to the shelf.
func (m Model) layAway() tea.Cmd {
	return tea.Sequence(safely(func() tea.Msg {
		f, ok := m.desk.Close()
		if ok && f.Unsaved > 0 {
			return look.Failed{Err: f.Err}
		}
		return nil
	}), m.loadShelf(""))
}
