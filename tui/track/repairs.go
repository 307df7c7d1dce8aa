package track

import (
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/mend"
)

// BackTo is the repair that takes rows back to the start of one.
func BackTo(row int) Mending { return Mending{What: TakeBack, Row: row} }

// MendingBy is the repair that a way to deal with a fault is; false where the way changes
// nothing on the loom.
func MendingBy(way mend.Repair, f mend.Fault) (Mending, bool) {
	switch way.Way {
	case mend.LetDown:
		return Mending{Col: f.Cols[0], Row: f.Row}, true
	case mend.RowsBack, mend.LineBack:
		return BackTo(way.Rows + 1), true
	}
	return Mending{}, false
}

// Steps are the steps of a repair at the place where the work stands, and where it stands
// once they are done; nil is where it stood. The error says why that can't be mended here.
func (m Mending) Steps(o pattern.Order, at pattern.Place) (mend.Steps, *pattern.Place, error) {
	switch m.What {
	case Finish:
		return mend.FinishOf(o.Pattern), nil, nil
	case TakeBack:
		to := pattern.Place{Phase: pattern.Working, Row: m.Row}
		back, err := mend.BackTo(o, at, to)
		if err != nil {
			return nil, nil, err
		}
		return back, &to, nil
	}
	ladder, err := mend.LadderOf(o, at, m.Col, m.Row)
	if err != nil {
		return nil, nil, err
	}
	return ladder, nil, nil
}

// Newest is the newest row that is worked at a place, be it in part: there rows can be taken
// back from. 0 is none.
func Newest(o pattern.Order, at pattern.Place) int {
	if at.Phase == pattern.Working && at.Done > 0 {
		return at.Row
	}
	return o.RowsDone(at)
}

// WhichWorked says which rows are worked, up to the newest one.
func WhichWorked(o pattern.Order, newest int) string {
	word := o.Pattern.Form.RowWord()
	if newest == 0 {
		return "no " + word + " is worked yet"
	}
	return fmt.Sprintf("%ss 1 to %d are worked", word, newest)
}

// WhichPegs says which pegs there are.
func WhichPegs(o pattern.Order) string {
	return fmt.Sprintf("a peg is a number from 1 to %d", o.Pattern.Pegs)
}

// SafeRows are the rows that notes tell to be safe: "line at row 40", or a note on a row that
// speaks of a line or a new ball, which then lies below that row.
func SafeRows(notes []Note) []mend.Safe {
	var all []mend.Safe
	for _, n := range notes {
		if s, ok := mend.ParseSafe(n.Text); ok {
			all = append(all, s)
		} else if kind, ok := mend.NotedSafe(n.Text); ok && n.Row > 0 {
			all = append(all, mend.Safe{Row: n.Row - 1, Kind: kind})
		}
	}
	return all
}
