package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern/safetext"
	"bypeg/tui/browse"
	"bypeg/tui/look"
	"bypeg/tui/mending"
	"bypeg/tui/plan"
	"bypeg/tui/save"
	"bypeg/tui/ways"
	"bypeg/tui/where"
)

// press passes keys on to the screen in hand, one by one where fast typing brought
// several at once. While another screen is on its way they are dropped: a key pressed
// twice must not do two things.
func (m Model) press(k tea.KeyMsg) (tea.Model, tea.Cmd) {
	if k.String() == m.spent && k.Type != tea.KeyCtrlC {
		return m.passOver(letGoAfter)
	}
	m.spent, m.pressed = "", k.String()
	if m.typing() && !m.deaf {
		if m.busy && k.Type != tea.KeyCtrlC {
			m.held = append(m.held, k)
			return m, nil
		}
		return m.pass(k)
	}
	if k.Type == tea.KeyCtrlC {
		return m.breakOff()
	}
	if m.deaf {
		return m.waitForCalm()
	}
	var cmds []tea.Cmd
	for _, one := range m.single(k) {
		if m.busy || m.waits != nil {
			break
		}
		var cmd tea.Cmd
		m, cmd = m.pass(one)
		cmds = append(cmds, cmd)
	}
	return m, tea.Batch(cmds...)
}

// typing tells whether keys go into a field of text.
func (m Model) typing() bool {
	h := m.hand()
	return h != nil && h.typing()
}

// single splits fast typing into single keys. Text typed right behind the key that asks
// for it goes with it.
func (m Model) single(k tea.KeyMsg) []tea.KeyMsg {
	h := m.hand()
	if h == nil {
		return look.Burst(k, nil)
	}
	if first, rest, ok := h.askBurst(k); ok {
		return []tea.KeyMsg{first, rest}
	}
	return look.Burst(k, h.keys())
}

// pass gives a message to the screen in hand and acts on what that wishes.
func (m Model) pass(msg tea.Msg) (Model, tea.Cmd) {
	h := m.hand()
	if h == nil {
		return m, nil
	}
	wish, ok := h.update(msg)
	if !ok {
		return m.passToWork(msg)
	}
	return m.act(wish)
}

// passToWork gives a message to the work screen, be it in hand or not: the disk's
// word comes at any time.
func (m Model) passToWork(msg tea.Msg) (Model, tea.Cmd) {
	var wish look.Wish
	var cmd tea.Cmd
	m.work, wish, cmd = m.work.Update(msg)
	m, acted := m.act(wish)
	m, done := m.doWaiting()
	return m, tea.Batch(cmd, acted, done)
}

// act does what a screen wishes.
func (m Model) act(wish look.Wish) (Model, tea.Cmd) {
	switch wish := wish.(type) {
	case look.OpenPiece:
		return m.open(func() (*Opened, error) { return m.desk.Open(wish.ID) })
	case look.BeginPattern:
		return m.open(func() (*Opened, error) { return m.desk.BeginExample(wish.Example, wish.OnLoom) })
	case look.MakeAnother:
		return m.open(func() (*Opened, error) { return m.desk.BeginAnother(wish.ID) })
	case look.Swap, look.Sleep:
		return m.onceSaved(wish)
	case look.ShowFit:
		return m.fetchFit(wish)
	case look.Rename, look.PutDown, look.PutAway, look.Delete, look.TakeBack:
		return m.shelve(wish)
	case look.ShowChart:
		return m.showChart(), nil
	case look.ShowWays:
		return m.showWays(), nil
	case look.ShowMend:
		return m.showMend(), nil
	case look.Mended:
		return m.mended(wish)
	case look.ShowWhere:
		return m.showWhere(), nil
	case look.GoTo:
		m.screen = onWork
		m = m.sized()
		var cmd tea.Cmd
		m.work, cmd = m.work.Jump(wish.Place)
		m, spent := m.spend()
		return m, tea.Batch(cmd, spent)
	case look.GoOn:
		m.screen = onWork
		return m.sized().onceSaved(wish)
	case look.Reread:
		if m.busy || !m.working {
			return m, nil // it is being read, and the old writer's last words came late
		}
		return m.reread()
	case look.Answer:
		return m.answer(wish.N)
	case look.Leave:
		return m.leave()
	}
	return m, nil
}

// shelve does what is wished with a piece on the shelf, and tells.
func (m Model) shelve(wish look.Wish) (Model, tea.Cmd) {
	do := m.desk.TakeBack
	more := ""
	switch wish := wish.(type) {
	case look.Rename:
		do = func() (string, error) { return m.desk.Rename(wish.ID, wish.Title) }
	case look.PutDown:
		do = func() (string, error) { return m.desk.PutDown(wish.ID, wish.Finished) }
	case look.PutAway:
		to := save.PutAway
		if wish.Back {
			to = save.OnLoom
		}
		do = func() (string, error) { return m.desk.Put(wish.ID, to) }
	case look.Delete:
		do = func() (string, error) { return m.desk.Put(wish.ID, save.Deleted) }
	}
	if _, back := wish.(look.TakeBack); !back {
		more = ": " + m.style.KeyName(m.options.Shelf.Undo) + " undoes it"
	}
	m.busy = true
	return m, safely(func() tea.Msg {
		says, err := do()
		if err != nil {
			says, more = safetext.Clean(err.Error()), ""
		}
		stock, err := m.desk.Stock()
		if err != nil {
			says, more = safetext.Clean(err.Error()), ""
		}
		stock.Notice = says + more
		return stockMsg{stock}
	})
}

func (m Model) showChart() Model {
	t := m.work.Tracker()
	m.browse = browse.New(t.Order(), t.Place(), m.style, m.options.Chart)
	m.screen = onChart
	return m.sized()
}

// showWays asks how the piece in hand is to be gone on with.
func (m Model) showWays() Model {
	piece := m.work.Piece()
	p, err := plan.New(piece.Text, piece.Tracker.Order(), piece.Tracker.Place())
	if err != nil {
		return m.stay(err)
	}
	m.ways = ways.New(piece.Title, p, piece.Saver == nil, m.style, m.options.Ways).Recall(m.ways)
	m.screen = onWays
	return m.sized()
}

// showWhere asks the fabric where the work stands.
func (m Model) showWhere() Model {
	piece := m.work.Piece()
	m.where = where.New(piece.Title, piece.Tracker.Order(), piece.Tracker.Place(), piece.Saver == nil, m.style, m.options.Talk)
	m.screen = onWhere
	return m.sized()
}

// showMend asks what went wrong in the piece in hand, or goes on with a repair.
func (m Model) showMend() Model {
	piece := m.work.Piece()
	m.mend = mending.New(piece, m.style, m.options.Talk)
	m.screen = onMend
	return m.sized()
}

// mended keeps how far a repair is, and goes back to the work where it is over.
func (m Model) mended(wish look.Mended) (Model, tea.Cmd) {
	var kept, moved tea.Cmd
	was := m.work.Tracker().Mending()
	if wish.To == nil { // the jump ends a repair too, and what is one change is one record
		m.work, kept = m.work.KeepMending(wish.Now)
	}
	if !wish.Done {
		return m, kept
	}
	m.screen = onWork
	m = m.sized()
	if was != nil && wish.To == nil {
		m.work = m.work.Say(was.DoneWords(m.work.Tracker().Order()))
	}
	if wish.To != nil {
		m.work, moved = m.work.Complete(*wish.To)
	}
	m, spent := m.spend()
	return m, tea.Batch(kept, moved, spent)
}

// overWork tells whether a screen lies over the work, which goes on below it.
func (m Model) overWork() bool {
	return m.screen == onChart || m.screen == onWays || m.screen == onWhere || m.screen == onMend
}

// leave goes back to where the screen in hand was reached from.
func (m Model) leave() (Model, tea.Cmd) {
	m.waits = nil
	switch {
	case m.screen == onFitted && !m.broken:
		m.screen = onShelf
		return m.sized(), nil
	case m.overWork():
		if m.screen == onMend {
			m.work = m.work.SayMending()
		}
		m.screen = onWork
		return m.sized(), nil
	case m.screen == onWork && m.work.Unsaved():
		return m.inquire(leavingUnsaved), nil
	case m.screen == onAsk && m.asked == leavingUnsaved && !m.broken:
		m.screen = onWork // only the answer leaves
		return m.sized(), nil
	case (m.screen == onWork || m.screen == onAsk) && m.toShelf():
		return m.layAway()
	}
	return m.end()
}

// end ends the program. A key typed right behind the one that leaves comes too late: what
// it did would be saved, and nobody would have seen it.
func (m Model) end() (Model, tea.Cmd) {
	m.busy = true
	return m, tea.Quit
}

// toShelf tells whether leaving the work leads to the shelf.
func (m Model) toShelf() bool { return m.fromHome && !m.broken }

// breakOff leaves the program from wherever it is.
func (m Model) breakOff() (Model, tea.Cmd) {
	m.broken = true
	if m.overWork() {
		m.screen = onWork
	}
	return m.leave()
}

// layAway closes the piece and goes back to the shelf.
func (m Model) layAway() (Model, tea.Cmd) {
	m.working = false
	m.watch++
	m, load := m.loadShelf("")
	return m, safely(func() tea.Msg {
		f, ok := m.desk.Close()
		if err := f.loss(); ok && err != nil {
			return failedMsg{err}
		}
		return load()
	})
}
