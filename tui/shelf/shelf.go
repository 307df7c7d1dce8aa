// Package shelf is the screen of what is on the loom: the pieces in progress, those that
// are finished or put away, and examples to begin something new.
package shelf

import (
	"time"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// Stock is what lies on the shelf.
type Stock struct {
	Pieces   []Piece // in the order in which they are shown within their place
	Examples []Example
	Notice   string // what is to be told, or empty
}

// Lies is where on the shelf a piece lies.
type Lies uint8

// The places, in the order in which they are shown.
const (
	OnLoom   Lies = iota
	OffLoom       // finished
	Away          // put away
	Deleted       // shown with what is put away, so that it can be had again
	Unopened      // it can't be read
)

// Piece is a piece that was begun.
type Piece struct {
	ID       string
	Title    string
	Lies     Lies
	Where    string // "field, row 18 of 49"
	Progress track.Count
	Worked   time.Time
	Details  []string // what else is known of it, a line each
	Trouble  string   // why it cannot be opened, or empty
	// Order is the pattern as the piece is made from it, for its picture; no Pattern
	// where it can't be read.
	Order    pattern.Order
	At       pattern.Place
	Finished fit.Finished // what it measures and weighs, where that was put down
}

// Example is a pattern that ships with the program.
type Example struct {
	Name    string
	Title   string
	Size    string // "12 pegs, 15 rows"
	Details []string
	Order   pattern.Order
}

// overlay is what lies over the shelf.
type overlay uint8

const (
	noOverlay overlay = iota
	helpOverlay
	nameOverlay   // a field of text asks for a name,
	middleOverlay // for the rows that are on the loom already
	sizeOverlay   // for what a finished piece measures and weighs
)

// Model is the shelf.
type Model struct {
	stock         Stock
	style         *look.Style
	keys          look.ShelfKeys
	now           time.Time
	chosen        int  // of the items
	away          bool // what is put away is shown too
	overlay       overlay
	page          int // of the help
	input         textinput.Model
	width, height int
}

// New is the shelf with its stock, as it is at that time.
func New(stock Stock, style *look.Style, keys look.ShelfKeys, now time.Time) Model {
	return Model{stock: stock, style: style, keys: keys, now: now, input: look.NewField()}
}

// Restock lays other things on the shelf. The hand stays where it was.
func (m Model) Restock(stock Stock) Model {
	onPiece := m.hand().piece != nil
	m.stock = stock
	all := m.items()
	m.chosen = max(0, min(m.chosen, len(all)-1))
	for onPiece && m.chosen > 0 && all[m.chosen].piece == nil {
		m.chosen-- // what goes away must not leave the hand on an example, which enter begins
	}
	return m
}

// Tell says something until the next key.
func (m Model) Tell(notice string) Model {
	m.stock.Notice = notice
	return m
}

// SetSize gives the screen its size.
func (m Model) SetSize(width, height int) Model {
	m.width, m.height = width, height
	return m
}

// Keys are the keys that mean something here, while no text is typed.
func (m Model) Keys() []key.Binding { return m.keys.All() }

// Typing tells whether keys go into a field of text.
func (m Model) Typing() bool { return m.overlay >= nameOverlay }

// item is one line that can be chosen: a piece, or an example.
type item struct {
	piece   *Piece
	example *Example
}

// items are the lines in the order in which they are shown.
func (m Model) items() []item {
	var all []item
	for _, lies := range m.shown() {
		for i := range m.stock.Pieces {
			if p := &m.stock.Pieces[i]; p.Lies == lies {
				all = append(all, item{piece: p})
			}
		}
	}
	for i := range m.stock.Examples {
		all = append(all, item{example: &m.stock.Examples[i]})
	}
	return all
}

// shown are the places that are shown.
func (m Model) shown() []Lies {
	if m.away {
		return []Lies{OnLoom, OffLoom, Unopened, Away, Deleted}
	}
	return []Lies{OnLoom, OffLoom, Unopened}
}

// hand is what is under the hand; the zero item where nothing is there.
func (m Model) hand() item {
	if all := m.items(); m.chosen < len(all) {
		return all[m.chosen]
	}
	return item{}
}

// Update takes one message, and tells the router what is wished.
func (m Model) Update(msg tea.Msg) (Model, look.Wish) {
	switch msg := msg.(type) {
	case tea.MouseMsg:
		return m.wheel(msg), nil
	case tea.KeyMsg:
		m.stock.Notice = ""
		switch {
		case m.Typing():
			return m.typeInto(msg)
		case m.overlay == helpOverlay:
			return m.turnHelp(), nil
		}
		return m.press(msg)
	}
	return m, nil
}

// wheel moves the hand over the lines. It opens nothing.
func (m Model) wheel(msg tea.MouseMsg) Model {
	switch {
	case msg.Action != tea.MouseActionPress || m.overlay != noOverlay:
	case msg.Button == tea.MouseButtonWheelUp:
		return m.move(-1)
	case msg.Button == tea.MouseButtonWheelDown:
		return m.move(1)
	}
	return m
}

func (m Model) move(by int) Model {
	m.chosen = max(0, min(m.chosen+by, len(m.items())-1))
	return m
}

func (m Model) press(k tea.KeyMsg) (Model, look.Wish) {
	switch {
	case key.Matches(k, m.keys.Leave):
		return m, look.Leave{}
	case key.Matches(k, m.keys.Freeze):
		return m, look.Sleep{}
	case key.Matches(k, m.keys.Up):
		return m.move(-1), nil
	case key.Matches(k, m.keys.Down):
		return m.move(1), nil
	case key.Matches(k, m.keys.PageUp):
		return m.move(-m.room()), nil
	case key.Matches(k, m.keys.PageDown):
		return m.move(m.room()), nil
	case key.Matches(k, m.keys.First):
		return m.move(-len(m.items())), nil
	case key.Matches(k, m.keys.Last):
		return m.move(len(m.items())), nil
	case key.Matches(k, m.keys.Help):
		m.overlay, m.page = helpOverlay, 0
	case key.Matches(k, m.keys.Away):
		m.away = !m.away
		return m.move(0), nil
	default:
		return m.act(k)
	}
	return m, nil
}

// act does something with what is under the hand, or says why that can't be done.
func (m Model) act(k tea.KeyMsg) (Model, look.Wish) {
	for _, b := range []key.Binding{m.keys.Choose, m.keys.Swap, m.keys.Middle, m.keys.Fit, m.keys.Rename, m.keys.Size, m.keys.PutAway, m.keys.Delete, m.keys.Undo} {
		if !key.Matches(k, b) {
			continue
		}
		if why := m.why(b); why != "" {
			m.stock.Notice = b.Help().Desc + ": " + why
			return m, nil
		}
	}
	p, e := m.hand().piece, m.hand().example
	switch {
	case key.Matches(k, m.keys.Swap):
		return m, look.Swap{}
	case key.Matches(k, m.keys.Undo):
		return m, look.TakeBack{}
	case key.Matches(k, m.keys.Choose) && p != nil:
		return m, look.OpenPiece{ID: p.ID}
	case key.Matches(k, m.keys.Choose) && e != nil:
		return m, look.BeginPattern{Example: e.Name}
	case key.Matches(k, m.keys.Fit) && p != nil:
		return m, look.ShowFit{ID: p.ID}
	case key.Matches(k, m.keys.Fit):
		return m, look.ShowFit{Example: e.Name}
	case key.Matches(k, m.keys.Middle):
		return m.ask(middleOverlay, ""), nil
	case key.Matches(k, m.keys.Rename):
		return m.ask(nameOverlay, p.Title), nil
	case key.Matches(k, m.keys.Size):
		return m.ask(sizeOverlay, p.Finished.Of(p.Order.Pattern.Form)), nil
	case key.Matches(k, m.keys.PutAway):
		return m, look.PutAway{ID: p.ID, Back: p.Lies == Away || p.Lies == Deleted}
	case key.Matches(k, m.keys.Delete):
		return m, look.Delete{ID: p.ID}
	}
	return m, nil
}

// why is the reason why a key does nothing now; "" where it does something.
func (m Model) why(k key.Binding) string {
	is := func(o key.Binding) bool { return k.Help() == o.Help() }
	p, e := m.hand().piece, m.hand().example
	onPiece := is(m.keys.Rename) || is(m.keys.Size) || is(m.keys.PutAway) || is(m.keys.Delete)
	switch {
	case onPiece && p == nil:
		return "an example"
	case onPiece && p.Trouble != "":
		return "it can't be read"
	case is(m.keys.Delete) && p.Lies == Deleted:
		return "it is deleted"
	case is(m.keys.Size) && p.At.Phase != pattern.Finishing:
		return "not off the loom"
	case is(m.keys.Size) && p.Order.Pattern == nil:
		return "its pattern can't be read"
	case is(m.keys.Middle) && e == nil:
		return "for examples"
	case is(m.keys.Middle) && e.Order.Pattern == nil:
		return "its pattern can't be read"
	case is(m.keys.Fit) && p != nil && p.Order.Pattern == nil, is(m.keys.Fit) && e != nil && e.Order.Pattern == nil:
		return "its pattern can't be read"
	case (is(m.keys.Choose) || is(m.keys.Fit)) && p == nil && e == nil:
		return "nothing is here"
	case is(m.keys.Away) && !m.away && m.count(Away)+m.count(Deleted) == 0:
		return "nothing"
	}
	return ""
}

// count is how many pieces lie at a place.
func (m Model) count(lies Lies) int {
	n := 0
	for _, p := range m.stock.Pieces {
		if p.Lies == lies {
			n++
		}
	}
	return n
}

// turnHelp shows the next page of the help, or closes it.
func (m Model) turnHelp() Model {
	if _, more := m.helpView(); more {
		m.page++
	} else {
		m.overlay = noOverlay
	}
	return m
}

func (m Model) helpView() (view string, more bool) {
	return look.KeysView(m.style, "The shelf", look.Reasons(m.keys.All(), m.why), nil, m.page, m.width, m.height)
}
