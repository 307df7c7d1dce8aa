package track

import (
	"errors"
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

// LedThrough is work that is led through where the work stands: from its first step, or from
// where the pegs are by now.
func LedThrough(what Repair, o pattern.Order, at pattern.Place) Mending {
	m := Mending{What: what}
	switch {
	case what == CastOn && at.Done > 0:
		m.Step = 1 + o.Pattern.CastOnLoops()*max(0, o.Pattern.CastOn.Passes-1) + at.Done
	case what == BindOff:
		m.Step = mend.StepsFor(at.Done)
	}
	return m
}

// onlyIn are the phases of what means nothing in another.
var onlyIn = map[Repair]pattern.Phase{
	CastOn: pattern.CastingOn, BindOff: pattern.BindingOff, Gather: pattern.BindingOff, Finish: pattern.Finishing,
}

// errNotNow says when what is led through has its time.
func errNotNow(what Repair, o pattern.Order, at pattern.Place) error {
	word := o.Pattern.Form.RowWord()
	switch {
	case at.Phase == pattern.Finishing:
		return mend.ErrOffLoom
	case what == CastOn:
		return errors.New("all loops are on by now: go on with the " + word + "s")
	case what == Finish:
		return errors.New("the finishing comes once the piece is off the loom")
	}
	return fmt.Errorf("the bind-off comes after %s %d", word, o.Pattern.Grid.Rows())
}

// Steps are the steps of a repair at the place where the work stands, and where it stands
// once they are done; nil is where it stood. Lifelines among the safe rows hold the loops. The
// error says why there is no such repair there.
func (m Mending) Steps(o pattern.Order, at pattern.Place, safe ...mend.Safe) (mend.Steps, *pattern.Place, error) {
	if phase, only := onlyIn[m.What]; only && phase != at.Phase {
		return nil, nil, errNotNow(m.What, o, at)
	}
	first, off := pattern.Place{Phase: pattern.Working, Row: 1}, pattern.Place{Phase: pattern.Finishing}
	switch m.What {
	case Finish:
		return mend.FinishOf(o.Pattern), nil, nil
	case CastOn:
		return mend.CastOnOf(o), &first, nil
	case BindOff:
		b, err := mend.BindOffOf(o, mend.BasicBindOff)
		return b, &off, err
	case Gather:
		b, err := mend.BindOffOf(o, mend.GatheredBindOff)
		return b, &off, err
	case TakeBack:
		to := pattern.Place{Phase: pattern.Working, Row: m.Row}
		b, err := mend.BackTo(o, at, to)
		if err != nil {
			return nil, nil, err
		}
		return b.HeldBy(safe), &to, nil
	}
	l, err := mend.LadderOf(o, at, m.Col, m.Row)
	return l, nil, err
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
