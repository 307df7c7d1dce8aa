// Package work is the work screen: it is the loom. The row being worked stands as the
// pegs on a fixed line of the screen, coming rows above it, the fabric hanging below,
// and words beside it that say the same. The keys move on the fabric.
package work

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/tui/look"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// overlay is what lies over the loom.
type overlay uint8

const (
	noOverlay overlay = iota
	helpOverlay
	goToOverlay    // a field of text asks for a row,
	noteOverlay    // for a note on the row in hand,
	purposeOverlay // for a change made on purpose
)

// Options are what a maker has chosen.
type Options struct {
	Now         func() time.Time
	Bell        func()        // rings; nil is silent
	DoublePress time.Duration // within which a second whole row asks first; 0 never asks
	Pause       time.Duration // of work, after which a rest is suggested; 0 never
	Large       bool          // begins in large print
	WrapAhead   bool          // tells which pegs may be wrapped ahead
}

// Model is the work screen.
type Model struct {
	piece   track.Piece
	chart   *chart.Chart
	style   *look.Style
	keys    look.WorkKeys
	width   int
	height  int
	parts   []chart.Window // the windows in which the fabric is shown
	saving  saving
	rhythm  rhythm
	large   bool     // large print
	notices []string // each is said until the next key
	overlay overlay
	page    int // of the help
	input   textinput.Model
	asked   int        // the row that was to be gone to while a repair is under way
	warned  *look.Move // said that a repair is under way; the same key again works on
	refused string     // why what was typed can't be taken; until the next key
}

// New is the work screen of a piece.
func New(p track.Piece, style *look.Style, keys look.WorkKeys, o Options) Model {
	notices := slices.Clone(p.Notices)
	for _, text := range p.Purpose {
		notices = append(notices, sayPurpose(text))
	}
	if p.Tracker.Mending() != nil {
		notices = append(notices, sayMending(p.Tracker, style.KeyName(keys.Mend)))
	}
	return Model{
		piece: p, style: style, keys: keys, large: o.Large, notices: notices, input: look.NewField(),
		chart: chart.New(p.Tracker.Order(), style.Chart()), rhythm: newRhythm(o, p),
	}
}

// Init begins to listen to the disk.
func (m Model) Init() tea.Cmd { return m.listen() }

// SetSize gives the screen its size.
func (m Model) SetSize(width, height int) Model {
	m.width, m.height = width, height
	m.parts = m.chart.Parts(chart.View{Width: width - m.gutter().width()})
	return m.fitted()
}

// Large tells whether large print is on.
func (m Model) Large() bool { return m.large }

// Piece is the piece being worked.
func (m Model) Piece() track.Piece { return m.piece }

// sayMending tells of a repair that was left off.
func sayMending(t *track.Tracker, key string) string {
	return t.Mending().Words() + ": " + key + " goes on with it"
}

// SayMending tells of the repair that was left off just now, if there is one.
func (m Model) SayMending() Model {
	if m.piece.Tracker.Mending() == nil {
		return m
	}
	return m.say(sayMending(m.piece.Tracker, m.style.KeyName(m.keys.Mend)))
}

// KeepMending keeps how far a repair is; nil is over.
func (m Model) KeepMending(now *track.Mending) (Model, tea.Cmd) {
	m.warned = nil
	if m.piece.Saver == nil { // who looks begins nothing
		return m, nil
	}
	return m.save(m.piece.Tracker.Mend(now))
}

// secure puts down that work can be taken back to the last row that is complete, or takes
// that off again.
func (m Model) secure(kind mend.SafeKind, k key.Binding) (Model, tea.Cmd) {
	t := m.piece.Tracker
	s, ok := t.SafeHere(kind)
	switch {
	case m.piece.Saver == nil:
		return m.say(m.lookingOnly()), nil
	case t.Place().Phase == pattern.Finishing:
		return m.say("the piece is off the loom"), nil
	case !ok:
		return m.say("no " + m.rowWord() + " on the loom is complete yet"), nil
	}
	m, cmd := m.save(t.Secure(s))
	says := t.SaySecured(s)
	if !s.Out {
		says += ": " + m.style.KeyName(m.keys.Mend) + " can take rows back to it; " + m.style.KeyName(k) + " again takes this off"
	}
	return m.say(says), cmd
}

// Tracker is the tracker of the piece.
func (m Model) Tracker() *track.Tracker { return m.piece.Tracker }

// Keys are the keys that mean something here, while no text is typed.
func (m Model) Keys() []key.Binding { return m.keys.All() }

// Typing tells whether keys go into a field of text.
func (m Model) Typing() bool { return m.overlay >= goToOverlay }

// Covered tells whether something lies over the loom.
func (m Model) Covered() bool { return m.overlay != noOverlay }

// Update takes one message, and tells the router what is wished.
func (m Model) Update(msg tea.Msg) (Model, look.Wish, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.KeyMsg:
		return m.press(msg)
	case savedMsg:
		if msg.from == m.piece.Saver {
			return m.hear(msg.Saved)
		}
	case lateMsg:
		m.saving = m.saving.late(int(msg))
	}
	return m, nil, nil
}

func (m Model) press(k tea.KeyMsg) (Model, look.Wish, tea.Cmd) {
	m = m.heard()
	switch {
	case m.Typing():
		m, cmd := m.typeInto(k)
		return m, nil, cmd
	case m.overlay == helpOverlay:
		if _, more := m.helpView(); more {
			m.page++
		} else {
			m.overlay = noOverlay
		}
		return m, nil, nil
	}
	if wish := m.wishOf(k); wish != nil {
		m.warned = nil
		return m, wish, nil
	}
	switch {
	case key.Matches(k, m.keys.Help):
		m.overlay, m.page = helpOverlay, 0
	case key.Matches(k, m.keys.Large):
		m.large = !m.large
	case key.Matches(k, m.keys.GoTo):
		return m.ask(goToOverlay), nil, nil
	case key.Matches(k, m.keys.Note):
		return m.ask(noteOverlay), nil, nil
	case key.Matches(k, m.keys.Purpose):
		return m.ask(purposeOverlay), nil, nil
	case key.Matches(k, m.keys.Retry):
		m = m.pressRetry()
	case key.Matches(k, m.keys.Lifeline):
		m, cmd := m.secure(mend.Lifeline, m.keys.Lifeline)
		return m, nil, cmd
	case key.Matches(k, m.keys.Ball):
		m, cmd := m.secure(mend.Join, m.keys.Ball)
		return m, nil, cmd
	default:
		m, cmd := m.pressMove(k)
		return m, nil, cmd
	}
	return m, nil, nil
}

// wishOf is what a key that leads away from the loom wishes; nil for any other key.
func (m Model) wishOf(k tea.KeyMsg) look.Wish {
	for _, leads := range []struct {
		key  key.Binding
		wish look.Wish
	}{
		{m.keys.Leave, look.Leave{}}, {m.keys.Freeze, look.Sleep{}}, {m.keys.Swap, look.Swap{}}, {m.keys.Chart, look.ShowChart{}},
		{m.keys.Fit, look.ShowWays{}}, {m.keys.Mend, look.ShowMend{}}, {m.keys.Where, look.ShowWhere{}},
	} {
		if key.Matches(k, leads.key) {
			return leads.wish
		}
	}
	return nil
}

// AskBurst splits a key that asks for text from the text typed right behind it in one go.
func (m Model) AskBurst(k tea.KeyMsg) (ask, text tea.KeyMsg, ok bool) {
	ask, text, ok = look.FirstRune(k)
	if !ok {
		return ask, text, false
	}
	if key.Matches(ask, m.keys.GoTo, m.keys.Mend) {
		return ask, text, !slices.ContainsFunc(text.Runes, look.NotDigit)
	}
	return ask, text, key.Matches(ask, m.keys.Note, m.keys.Purpose)
}

func (m Model) pressMove(k tea.KeyMsg) (Model, tea.Cmd) {
	if m.tooSmall() {
		return m, nil // nobody works what is not seen
	}
	for _, move := range m.keys.Moves() {
		if !key.Matches(k, move.Key) {
			continue
		}
		if m.piece.Saver == nil {
			return m.say(m.lookingOnly()), nil
		}
		return m.move(move)
	}
	return m, nil
}

// move works on, or back. Nothing else moves the place but a jump.
func (m Model) move(move look.Move) (Model, tea.Cmd) {
	t := m.piece.Tracker
	history := move.Action == track.Undo || move.Action == track.Redo // each brings back what the other took
	asked := m.warned != nil && m.warned.Action == move.Action
	if t.Mending() != nil && !asked && !history { // its loops may hang on a thread
		m.warned = &move
		return m.say(sayMending(t, m.style.KeyName(m.keys.Mend)) + "; " + m.style.KeyName(move.Key) + " again works on without it"), nil
	}
	var again bool
	if m.rhythm, again = m.rhythm.press(t.WholeRow(move.Action), t.EndsRow(move.Action)); again {
		return m.say(fmt.Sprintf("a second %s so soon? %s again works it", m.rowWord(), m.style.KeyName(move.Key))), nil
	}
	before, repair := m.urgency(), t.Mending()
	event, moved := t.Do(move.Action)
	if !moved {
		return m.say(t.SayWhyNot(move.Action, m.style.KeyName(m.keys.Peg), m.style.KeyName(m.keys.PegBack))), nil
	}
	m.warned = nil
	m, cmd := m.save(event)
	m = m.afterMove(event)
	switch {
	case !history:
		m = m.sayLeft(repair)
	case move.Action == track.Undo && t.Mending() == nil:
		m = m.sayPutOff(repair)
	}
	return m, tea.Batch(cmd, m.ring(before))
}

// sayPutOff says that undo took a repair back too.
func (m Model) sayPutOff(repair *track.Mending) Model {
	if repair == nil {
		return m
	}
	return m.say("that puts off what was led through too: " + m.style.KeyName(m.keys.Redo) + " brings both back")
}

// sayLeft says that a repair was left undone by going on without it.
func (m Model) sayLeft(repair *track.Mending) Model {
	if repair == nil || repair.What > track.TakeBack {
		return m
	}
	return m.say("the repair is left undone: " + m.style.KeyName(m.keys.Undo) + " brings it back")
}

// afterMove takes note of the time, and suggests a rest where one is due.
func (m Model) afterMove(e track.Event) Model {
	if m.piece.Tracker.Mending() != nil { // undo brought it back
		m = m.say(sayMending(m.piece.Tracker, m.style.KeyName(m.keys.Mend)))
	}
	var rest bool
	if m.rhythm, rest = m.rhythm.moved(e, m.piece.Tracker); rest {
		return m.say(fmt.Sprintf("%s without a pause: rest your hands, here at the %s's end", sayPause(m.rhythm.options.Pause), m.rowWord()))
	}
	return m
}

// urgency is the kind of what warns at the place.
func (m Model) urgency() track.WarningKind {
	w, _ := m.piece.Tracker.Warning()
	return w.Kind
}

// ring rings the bell where something warns that did not before.
func (m Model) ring(before track.WarningKind) tea.Cmd {
	bell, now := m.rhythm.options.Bell, m.urgency()
	if bell == nil || now == 0 || now == before {
		return nil
	}
	return func() tea.Msg { bell(); return nil }
}

// hear takes the disk's word.
func (m Model) hear(w track.Saved) (Model, look.Wish, tea.Cmd) {
	m.saving = m.saving.hear(w)
	if w.Notice != "" {
		m = m.say(w.Notice)
	}
	if errors.Is(w.Err, save.ErrChangedUnderneath) {
		return m, look.Reread{}, m.listen()
	}
	return m, nil, m.listen()
}

func (m Model) rowWord() string { return m.piece.Tracker.Order().Pattern.Form.RowWord() }

// save hands a change to the disk. It is drawn at once, in round brackets until the
// disk has it.
func (m Model) save(e track.Event) (Model, tea.Cmd) {
	m.piece.Saver.Put(e)
	return m.put()
}

// put takes note that something is on its way to the disk.
func (m Model) put() (Model, tea.Cmd) {
	m.saving.put++
	n := m.saving.put
	return m, tea.Tick(lateAfter, func(time.Time) tea.Msg { return lateMsg(n) })
}
