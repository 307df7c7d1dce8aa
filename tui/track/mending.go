package track

import (
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/mend"
)

// Repair is what is led through step by step.
type Repair uint8

// What can be.
const (
	LetDown  Repair = iota // a column is let down to below a row, and formed again
	TakeBack               // rows are taken back to the start of one
	Finish                 // a piece off the loom is finished
	CastOn                 // loops are put on the pegs
	BindOff                // loops are taken off, one over the next
	Gather                 // a tube is drawn shut
)

// repairs are what a journal writes of each, and what a person is told.
var repairs = [...]struct{ kept, says string }{
	LetDown:  {"column %d from row %d, step %d", "a repair is under way"},
	TakeBack: {"back to row %d, step %d", "a repair is under way"},
	Finish:   {"finish, step %d", "the finishing is under way"},
	CastOn:   {"cast on, step %d", "the cast-on goes step by step"},
	BindOff:  {"bind off, step %d", "the bind-off goes step by step"},
	Gather:   {"gather, step %d", "the bind-off goes step by step"},
}

// Mending is a repair under way, or other work that is led through step by step.
type Mending struct {
	What Repair
	Col  int // of the grid, of LetDown
	Row  int // of LetDown and TakeBack
	Step int // steps that are done
}

// String is the repair as a journal keeps it: "column 12 from row 31, step 4", "back to row
// 31, step 2", "finish, step 3".
func (m Mending) String() string {
	kept := repairs[min(m.What, Gather)].kept
	switch m.What {
	case LetDown:
		return fmt.Sprintf(kept, m.Col, m.Row, m.Step)
	case TakeBack:
		return fmt.Sprintf(kept, m.Row, m.Step)
	}
	return fmt.Sprintf(kept, m.Step)
}

// ParseMending reads what String writes.
func ParseMending(text string) (Mending, bool) {
	for what := range Repair(len(repairs)) {
		m := Mending{What: what}
		into := []any{&m.Step}
		switch what {
		case LetDown:
			into = []any{&m.Col, &m.Row, &m.Step}
		case TakeBack:
			into = []any{&m.Row, &m.Step}
		}
		if _, err := fmt.Sscanf(text, repairs[what].kept, into...); err == nil && m.String() == text {
			return m, true
		}
	}
	return Mending{}, false
}

// Words tell that it was left off: "a repair is under way".
func (m Mending) Words() string { return repairs[min(m.What, Gather)].says }

// DoneWords tell that it is done, where nothing else shows that.
func (m Mending) DoneWords(o pattern.Order) string {
	if m.What == Finish {
		return "the list is done"
	}
	return fmt.Sprintf("peg %d is mended: the work goes on where it stood", o.Peg(m.Col))
}

// Mending is the repair under way, nil for none.
func (t *Tracker) Mending() *Mending { return t.mending }

// Mend keeps how far a repair is; nil where it is over. Loops that its steps put on or took
// off count as those that were put on or taken off without them.
func (t *Tracker) Mend(now *Mending) Event {
	if to := now.place(t.order, t.at); to != t.at {
		t.leave(to, nil)
	}
	t.mending = now
	return Event{Act: Mended, Place: t.at, Mending: now}
}

// place is where the work stands once the steps before the one in hand are done, from where it
// stood: of the cast-on and the bind-off after so many pegs, else as before.
func (m *Mending) place(o pattern.Order, at pattern.Place) pattern.Place {
	if m == nil || at.Phase != onlyIn[m.What] {
		return at
	}
	loops := o.Pattern.Of(at)
	switch m.What {
	case CastOn:
		at.Done = m.Step - 1 - loops*max(0, o.Pattern.CastOn.Passes-1)
	case BindOff:
		at.Done = mend.PegsBy(m.Step)
	case Gather:
		at.Done = m.Step - 1 - loops
	}
	at.Done = max(0, min(at.Done, loops-1))
	return at
}
