// Package track is the tracker: it keeps the row and the peg and says what comes
// next. It is a pure state machine over a pattern and a place: it reads no file, no
// clock and no terminal, and draws nothing. Screens turn its answers into pictures,
// tui/save its events into records.
package track

import (
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/mend"
)

// DefaultLead is how many pegs before a border a warning comes unless set.
const DefaultLead = 2

// Action is a way to move along the work.
type Action uint8

// The actions.
const (
	OnePeg  Action = iota // work one peg
	OneRun                // work to the end of the run
	OneRow                // work to the end of the row
	PegBack               // take one peg back, across rows too
	RunBack               // back to the run's start, or to the start of the run before
	RowBack               // back to the row's start, or to the start of the row before
	GoLeft                // along the row to the left: on or back, as the row runs
	GoRight               // along the row to the right
	Undo                  // take the last change back
	Redo                  // bring it again
)

// Act says what an event was, for the piece's history.
type Act uint8

// The acts.
const (
	Stepped Act = iota
	SteppedBack
	Jumped
	Undone
	Redone
	Mended  // nothing moved: a repair went on, or is over
	Secured // nothing moved: a line was put in or a ball joined, or not after all
)

// Event is one change of where the work stands, or of what is kept beside it.
type Event struct {
	Act     Act
	Place   pattern.Place
	Mending *Mending // of Mended: the repair under way, nil where it is over
	Safe    *Safe    // of Secured
	Also    []Safe   // safe rows that a change of place took along, or brought back
}

// stand is where the work stood before a change: its place, the repair that was under way
// there, and the safe rows that the change took with it.
type stand struct {
	place   pattern.Place
	mending *Mending
	pulled  []mend.Safe // nil where none were
}

// Tracker keeps the place in a piece.
type Tracker struct {
	order   pattern.Order
	at      pattern.Place
	mending *Mending // the repair under way, nil for none
	safe    []mend.Safe
	past    []stand // to undo to, the last on top
	future  []stand // to redo to, the last on top
	lead    int

	bindOff *float64 // the yarn it takes, in metres, once it was asked for
}

// New is a tracker at a place that the pattern holds. Warnings of a border come lead
// pegs ahead.
func New(o pattern.Order, at pattern.Place, lead int) *Tracker {
	return &Tracker{order: o, at: at, lead: lead}
}

// Resume is a tracker that goes on at a place after what happened since the first one. Where
// that does not lead there, it can't be undone.
func Resume(o pattern.Order, first pattern.Place, events []Event, at pattern.Place, lead int) *Tracker {
	t := New(o, first, lead)
	if t.Replay(events); t.at != at {
		t = New(o, at, lead)
		t.Replay(OnlySafe(events))
	}
	return t
}

// OnlySafe are the changes of safe rows among events: what stays where nothing can be undone
// any more, for lines lie in the fabric.
func OnlySafe(events []Event) []Event {
	var stay []Event
	for _, e := range events {
		if e.Act == Secured {
			stay = append(stay, e)
		}
		for _, s := range e.Also {
			stay = append(stay, Event{Act: Secured, Place: e.Place, Safe: &s})
		}
	}
	return stay
}

// Replay brings back the undo history of events that happened before, in order. The
// tracker then stands where the last of them put it; events whose place the pattern
// does not hold are passed over, but for safe rows.
func (t *Tracker) Replay(events []Event) {
	for _, e := range events {
		if t.order.Pattern.Holds(e.Place) {
			t.again(e)
		}
		if e.Act == Secured {
			t.Secure(*e.Safe)
		}
		for _, s := range e.Also {
			t.Secure(s)
		}
	}
}

// again does what an event did, but for safe rows.
func (t *Tracker) again(e Event) {
	switch {
	case e.Act == Secured:
	case e.Act == Mended && e.Place == e.Mending.place(t.order, t.at):
		t.Mend(e.Mending)
	case e.Act == Mended: // it was of another place
		t.mending = nil
	case e.Act == Undone && top(t.past) == e.Place:
		t.shift(&t.past, &t.future)
	case e.Act == Redone && top(t.future) == e.Place:
		t.shift(&t.future, &t.past)
		t.past[len(t.past)-1].pulled = pulledBy(e.Also)
	case e.Place != t.at: // an answer may name the place where the work stood already
		t.leave(e.Place, pulledBy(e.Also))
	}
}

// top is the last place of a stack, or one that no pattern holds.
func top(stack []stand) pattern.Place {
	if len(stack) == 0 {
		return pattern.Place{Row: -1}
	}
	return stack[len(stack)-1].place
}

// Order is the pattern as it is worked.
func (t *Tracker) Order() pattern.Order { return t.order }

// Place is where the work stands.
func (t *Tracker) Place() pattern.Place { return t.at }

// Do moves along the work. It returns false, and changes nothing, where the action
// leads nowhere: at either end of the work, along the row past its start, or with
// nothing to undo or redo.
func (t *Tracker) Do(a Action) (Event, bool) {
	switch a {
	case Undo:
		return t.undo()
	case Redo:
		return t.redo()
	case OnePeg:
		return t.move(Stepped, t.order.Next(t.at))
	case OneRun:
		return t.move(Stepped, t.order.Ahead(t.at, t.runEnd()-t.at.Done))
	case OneRow:
		return t.move(Stepped, t.order.Ahead(t.at, t.order.Pattern.Of(t.at)-t.at.Done))
	case PegBack:
		return t.move(SteppedBack, t.order.Back(t.at))
	case RunBack:
		return t.move(SteppedBack, t.runStart())
	case RowBack:
		return t.move(SteppedBack, t.rowStart())
	case GoLeft:
		return t.along(pattern.Left)
	case GoRight:
		return t.along(pattern.Right)
	}
	return Event{}, false
}

// Can tells whether an action leads anywhere now.
func (t *Tracker) Can(a Action) bool {
	try := *t
	try.past, try.future = slices.Clip(t.past), slices.Clip(t.future)
	_, moved := try.Do(a)
	return moved
}

// EndsRow tells whether an action that works more than a peg works to the end of a row, of
// the cast-on or of the bind-off.
func (t *Tracker) EndsRow(a Action) bool {
	if t.at.Phase == pattern.Finishing {
		return false
	}
	return a == OneRow || a == OneRun && t.runEnd() == t.order.Pattern.Of(t.at)
}

// WholeRow tells whether an action works a row, or the bind-off, from its start to its end.
func (t *Tracker) WholeRow(a Action) bool {
	return t.at.Done == 0 && t.at.Phase != pattern.CastingOn && t.EndsRow(a)
}

// Jump goes to any place that the pattern holds.
func (t *Tracker) Jump(to pattern.Place) (Event, bool) {
	if !t.order.Pattern.Holds(to) {
		return Event{}, false
	}
	return t.move(Jumped, to)
}

func (t *Tracker) move(act Act, to pattern.Place) (Event, bool) {
	if to == t.at {
		return Event{}, false
	}
	t.leave(to, nil)
	return Event{Act: act, Place: to}, true
}

// Complete goes to where the work stands once the repair under way is done. Rows that were
// taken back take their lines with them.
func (t *Tracker) Complete(to pattern.Place) (Event, bool) {
	if to == t.at || !t.order.Pattern.Holds(to) {
		return Event{}, false
	}
	var pulled []mend.Safe
	if t.mending != nil && t.mending.What == TakeBack {
		pulled = t.from(t.mending.Row)
	}
	t.leave(to, pulled)
	return t.withSafe(Event{Act: Jumped, Place: to}, pulled, true), true
}

// leave leaves the place for another. A repair that was under way is not of the work any
// more then: undo brings it back, with the safe rows that were pulled.
func (t *Tracker) leave(to pattern.Place, pulled []mend.Safe) {
	t.past = append(t.past, stand{t.at, t.mending, pulled})
	t.future = t.future[:0]
	t.at, t.mending = to, nil
}

func (t *Tracker) undo() (Event, bool) {
	if len(t.past) == 0 {
		return Event{}, false
	}
	pulled := t.past[len(t.past)-1].pulled
	t.shift(&t.past, &t.future)
	return t.withSafe(Event{Act: Undone, Place: t.at}, pulled, false), true
}

func (t *Tracker) redo() (Event, bool) {
	if len(t.future) == 0 {
		return Event{}, false
	}
	back := t.future[len(t.future)-1]
	t.shift(&t.future, &t.past)
	var pulled []mend.Safe
	if back.pulled != nil { // lines may lie elsewhere by now
		pulled = t.from(back.place.Row)
	}
	t.past[len(t.past)-1].pulled = pulled
	return t.withSafe(Event{Act: Redone, Place: t.at}, pulled, true), true
}

// shift goes to the last stand of one stack, and leaves the one it goes from on the other.
func (t *Tracker) shift(from, to *[]stand) {
	last := (*from)[len(*from)-1]
	*from = (*from)[:len(*from)-1]
	*to = append(*to, stand{t.at, t.mending, last.pulled})
	t.at, t.mending = last.place, last.mending
}

// along moves one peg to a side. A row that runs there is worked on; one that runs
// the other way is taken back, but never past its start.
func (t *Tracker) along(side pattern.Side) (Event, bool) {
	switch {
	case t.Direction().To() == side:
		return t.Do(OnePeg)
	case t.at.Done == 0:
		return Event{}, false
	}
	return t.Do(PegBack)
}

// RowInHand is the row being worked: 0 in the cast-on, one above the last row when
// all are done.
func (t *Tracker) RowInHand() int { return RowOf(t.order.Pattern, t.at) }

// RowOf is the row of a place, be it one that the pattern does not hold any more: 0 in the
// cast-on, one above the last row when all are done.
func RowOf(p *pattern.Pattern, at pattern.Place) int {
	switch at.Phase {
	case pattern.Working:
		return at.Row
	case pattern.CastingOn:
		return 0
	}
	return p.Grid.Rows() + 1
}

// Direction is the way the work runs at the place.
func (t *Tracker) Direction() pattern.Direction {
	switch t.at.Phase {
	case pattern.CastingOn:
		return t.order.CastOnDirection()
	case pattern.Working:
		return t.order.Direction(t.at.Row)
	}
	return t.order.Direction(t.order.Pattern.Grid.Rows() + 1)
}

// runEnd is how many stitches of the row are done at the end of the run in hand. In
// the cast-on and the bind-off a run ends with a marked peg.
func (t *Tracker) runEnd() int {
	if t.at.Phase == pattern.Working {
		return t.order.RunAt(t.at.Row, t.at.Done).To
	}
	at, of := t.at, t.order.Pattern.Of(t.at)
	for ; at.Done < of; at.Done++ {
		if t.order.Pattern.Marked(t.order.ColumnAt(at)) {
			return at.Done + 1
		}
	}
	return of
}

// rowStart is the start of the row in hand, or of the one before when none of it is
// done.
func (t *Tracker) rowStart() pattern.Place {
	at := t.at
	if at.Done == 0 {
		at = t.order.Back(at)
	}
	at.Done = 0
	return at
}

// runStart is the start of the run in hand, or of the one before when none of it is
// done. Only rows have runs: elsewhere it is one peg back.
func (t *Tracker) runStart() pattern.Place {
	at := t.order.Back(t.at)
	if at.Phase == pattern.Working {
		at.Done = t.order.RunAt(at.Row, at.Done).From
	}
	return at
}
