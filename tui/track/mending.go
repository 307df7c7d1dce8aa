package track

import "fmt"

// Repair is what is led through step by step.
type Repair uint8

// What can be.
const (
	LetDown  Repair = iota // a column is let down to below a row, and formed again
	TakeBack               // rows are taken back to the start of one
	Finish                 // a piece off the loom is finished
)

// Mending is a repair under way, or the finishing of a piece.
type Mending struct {
	What Repair
	Col  int // of the grid, of LetDown
	Row  int // of LetDown and TakeBack
	Step int // steps that are done
}

// String is the repair as a journal keeps it: "column 12 from row 31, step 4", "back to row
// 31, step 2", "finish, step 3".
func (m Mending) String() string {
	switch m.What {
	case TakeBack:
		return fmt.Sprintf("back to row %d, step %d", m.Row, m.Step)
	case Finish:
		return fmt.Sprintf("finish, step %d", m.Step)
	}
	return fmt.Sprintf("column %d from row %d, step %d", m.Col, m.Row, m.Step)
}

// ParseMending reads what String writes.
func ParseMending(text string) (Mending, bool) {
	for _, what := range []Repair{LetDown, TakeBack, Finish} {
		m := Mending{What: what}
		var err error
		switch what {
		case LetDown:
			_, err = fmt.Sscanf(text, "column %d from row %d, step %d", &m.Col, &m.Row, &m.Step)
		case TakeBack:
			_, err = fmt.Sscanf(text, "back to row %d, step %d", &m.Row, &m.Step)
		case Finish:
			_, err = fmt.Sscanf(text, "finish, step %d", &m.Step)
		}
		if err == nil && m.String() == text {
			return m, true
		}
	}
	return Mending{}, false
}

// Mending is the repair under way, nil for none.
func (t *Tracker) Mending() *Mending { return t.mending }

// Mend keeps how far a repair is; nil where it is over.
func (t *Tracker) Mend(now *Mending) Event {
	t.mending = now
	return Event{Act: Mended, Place: t.at, Mending: now}
}
