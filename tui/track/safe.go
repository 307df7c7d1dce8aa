package track

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern/mend"
)

// Safe is a row that a lifeline lies in or at whose end a new ball was joined; Out, that it
// is not there after all.
type Safe struct {
	mend.Safe
	Out bool
}

// out is how a journal tells that a safe row is none any more.
const out = "no "

// String is the safe row as a journal keeps it: "line at row 40", "no ball at row 22".
func (s Safe) String() string {
	text := fmt.Sprintf("line at row %d", s.Row)
	if s.Kind == mend.Join {
		text = fmt.Sprintf("ball at row %d", s.Row)
	}
	if s.Out {
		text = out + text
	}
	return text
}

// ParseSafe reads what String writes.
func ParseSafe(text string) (Safe, bool) {
	rest, isOut := strings.CutPrefix(text, out)
	row, ok := mend.ParseSafe(rest)
	s := Safe{row, isOut}
	return s, ok && s.String() == text
}

// between stands between the safe rows that one change took along.
const between = "; "

// SayAlso is them as a journal keeps them: "no line at row 30; no ball at row 31".
func SayAlso(also []Safe) string {
	says := make([]string, len(also))
	for i, s := range also {
		says[i] = s.String()
	}
	return strings.Join(says, between)
}

// ParseAlso reads what SayAlso writes, and passes over what it does not know.
func ParseAlso(text string) []Safe {
	var also []Safe
	for part := range strings.SplitSeq(text, between) {
		if s, ok := ParseSafe(part); ok {
			also = append(also, s)
		}
	}
	return also
}

// SafeRows are those that notes tell of: "line at row 40", or a note on a row that speaks of a
// line or a new ball, which then lies below that row.
func SafeRows(notes []Note) []mend.Safe {
	var all []mend.Safe
	for _, n := range notes {
		if s, ok := mend.ParseSafe(n.Text); ok {
			all = append(all, s)
		} else if kind, ok := mend.NotedSafe(n.Text); ok && n.Row > 1 {
			all = append(all, mend.Safe{Row: n.Row - 1, Kind: kind})
		}
	}
	return all
}

// SafeRows are all that is known of a piece: those put down, and those its notes tell of.
func (p Piece) SafeRows() []mend.Safe { return append(SafeRows(p.Notes), p.Tracker.Safe()...) }

// Safe are the rows that work can be taken back to without losing a loop, the lowest first.
func (t *Tracker) Safe() []mend.Safe { return t.safe }

// SafeHere is the row that a line put in now lies in: the last that is complete. It is false
// where there is none yet, or the piece is off the loom.
func (t *Tracker) SafeHere(k mend.SafeKind) (Safe, bool) {
	row := t.order.RowsDone(t.at)
	_, on := t.Loops()
	s := Safe{Safe: mend.Safe{Row: row, Kind: k}}
	s.Out = slices.Contains(t.safe, s.Safe)
	_, working := t.Now()
	return s, row > 0 && (on || working)
}

// Secure puts a safe row down, or takes it off.
func (t *Tracker) Secure(s Safe) Event {
	t.safe = slices.DeleteFunc(slices.Clone(t.safe), func(old mend.Safe) bool { return old == s.Safe })
	if !s.Out {
		t.safe = append(t.safe, s.Safe)
		slices.SortStableFunc(t.safe, func(a, b mend.Safe) int { return a.Row - b.Row })
	}
	return Event{Act: Secured, Place: t.at, Safe: &s}
}

// SafeBelow are the safe rows that are worked: those that work can be taken back to.
func (t *Tracker) SafeBelow() []mend.Safe {
	done := t.order.RowsDone(t.at)
	return slices.DeleteFunc(slices.Clone(t.safe), func(s mend.Safe) bool { return s.Row > done })
}

// from are the safe rows from one on, never nil.
func (t *Tracker) from(row int) []mend.Safe {
	return slices.DeleteFunc(append([]mend.Safe{}, t.safe...), func(s mend.Safe) bool { return s.Row < row })
}

// withSafe takes safe rows off with a change of place, or puts them back.
func (t *Tracker) withSafe(e Event, rows []mend.Safe, off bool) Event {
	for _, row := range rows {
		s := Safe{row, off}
		t.Secure(s)
		e.Also = append(e.Also, s)
	}
	return e
}

// pulledBy are the safe rows that a change took off.
func pulledBy(also []Safe) []mend.Safe {
	var pulled []mend.Safe
	for _, s := range also {
		if s.Out {
			pulled = append(pulled, s.Safe)
		}
	}
	return pulled
}

// SaySafe says one: "a lifeline lies in row 40", "a new ball was joined after row 22".
func (t *Tracker) SaySafe(s mend.Safe) string {
	if s.Kind == mend.Join {
		return fmt.Sprintf("a new ball was joined after %s %d", t.rowWord(), s.Row)
	}
	return fmt.Sprintf("a lifeline lies in %s %d", t.rowWord(), s.Row)
}

// SaySecured says what became of a safe row.
func (t *Tracker) SaySecured(s Safe) string {
	if !s.Out {
		return t.SaySafe(s.Safe)
	}
	if s.Kind == mend.Join {
		return fmt.Sprintf("taken off: the new ball after %s %d", t.rowWord(), s.Row)
	}
	return fmt.Sprintf("taken off: the lifeline in %s %d", t.rowWord(), s.Row)
}
