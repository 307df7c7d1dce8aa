package mend

import (
	"cmp"
	"fmt"
	"slices"

	"bypeg/pattern"
)

// Way is one way to deal with a mistake.
type Way uint8

// The ways.
const (
	LetDown  Way = iota // the columns are let down and formed again
	RowsBack            // rows are taken back to below the mistake
	LineBack            // rows are taken back to a safe row
	Cover               // duplicate stitches are sewn over the wrong ones
	Leave               // it is left as it is
)

// Fault is what went wrong: the columns, and the lowest row that is wrong in them.
type Fault struct {
	Cols []int
	Row  int
}

// Repair is one way with its cost.
type Repair struct {
	Way     Way
	Work    int    // rungs to form again, stitches to rework, or stitches to sew
	Rows    int    // that are left standing; of the ways that take rows back
	Safe    Safe   // of LineBack
	Refused string // why it can't be done; empty where it can
	Doubt   string // why it is not the first to try; empty where it may be
}

// mostRungs is how deep a column is let down sensibly. Our own choice, no source: a ladder
// of 145 rungs is taken to be out of question.
const mostRungs = 50

// Repairs are the ways to deal with a fault at the place where the work stands: those that
// can be done first, in doubt later, the cheaper first; to leave it comes after them, and
// what can't be done is last. Safe rows above the fault are passed over.
func Repairs(o pattern.Order, at pattern.Place, f Fault, safe []Safe) []Repair {
	ways := []Repair{letDown(o, at, f), backTo(o, at, f.Row-1, RowsBack), cover(o, f), {Way: Leave}}
	if s, ok := lastSafe(safe, f.Row-1); ok {
		line := backTo(o, at, s.Row, LineBack)
		line.Safe = s
		if line.Rows == f.Row-1 { // the same rows, and better held
			ways = slices.DeleteFunc(ways, func(r Repair) bool { return r.Way == RowsBack })
		}
		ways = append(ways, line)
	}
	rank := func(r Repair) int {
		switch {
		case r.Refused != "":
			return 3
		case r.Way == Leave:
			return 2
		case r.Doubt != "":
			return 1
		}
		return 0
	}
	slices.SortStableFunc(ways, func(a, b Repair) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a.Work, b.Work))
	})
	return ways
}

// letDown is the cost of ladders down to the fault.
func letDown(o pattern.Order, at pattern.Place, f Fault) Repair {
	r := Repair{Way: LetDown}
	for _, col := range f.Cols {
		l, err := LadderOf(o, at, col, f.Row)
		if err != nil {
			return Repair{Way: LetDown, Refused: err.Error()}
		}
		if r.Work += len(l.Rungs); len(l.Rungs) > mostRungs {
			r.Doubt = "so deep a ladder seldom comes out even"
		}
	}
	return r
}

// backTo is the cost of taking work back until so many rows are left: every stitch above is
// worked once more.
func backTo(o pattern.Order, at pattern.Place, rows int, w Way) Repair {
	p := o.Pattern
	r := Repair{Way: w, Rows: rows}
	switch {
	case at.Phase == pattern.Finishing:
		r.Refused = ErrOffLoom.Error()
	case rows >= o.RowsDone(at) && at.Done == 0 || at.Phase == pattern.CastingOn:
		r.Refused = "no row above it is worked yet"
	case at.Phase == pattern.Working:
		r.Work = p.StitchesBefore(at.Row) + at.Done - p.StitchesBefore(rows+1)
	default:
		r.Work = p.StitchesBefore(p.Grid.Rows()+1) + at.Done - p.StitchesBefore(rows+1)
	}
	return r
}

// cover is the cost of duplicate stitches over the wrong ones: one a column. They hide a
// stitch where the fabric round it is plain.
func cover(o pattern.Order, f Fault) Repair {
	r := Repair{Way: Cover, Work: len(f.Cols)}
	for _, col := range f.Cols {
		for row := max(1, f.Row-1); row <= min(f.Row+1, o.Pattern.Grid.Rows()); row++ {
			if o.Pattern.Grid.Row(row).Cells()[col].Stitch.Face() != pattern.FaceKnit {
				r.Doubt = "it hides a stitch in plain fabric only"
			}
		}
	}
	return r
}

// Words say the way and its cost.
func (r Repair) Words(p *pattern.Pattern) string {
	word := p.Form.RowWord()
	var text string
	switch r.Way {
	case LetDown:
		text = "let the column down and form it again: " + count(r.Work, "rung")
	case RowsBack:
		text = fmt.Sprintf("take %ss back, %d left: %s to rework", word, r.Rows, count(r.Work, "stitch"))
	case LineBack:
		gain := "no loop is lost"
		if r.Safe.Kind == Join {
			gain = "no yarn is cut"
		}
		text = fmt.Sprintf("take %ss back to %s %d, %s: %s to rework, and %s", word, word, r.Rows, r.Safe.Kind, count(r.Work, "stitch"), gain)
	case Cover:
		text = "cover it with " + count(r.Work, "duplicate stitch")
	case Leave:
		text = "leave it: few will ever see it"
	}
	switch {
	case r.Refused != "":
		return text[:cutAt(text)] + ": not here: " + r.Refused
	case r.Doubt != "":
		return text + "; " + r.Doubt
	}
	return text
}

// cutAt is where the cost begins in a way's words.
func cutAt(text string) int {
	for i := range text {
		if text[i] == ':' {
			return i
		}
	}
	return len(text)
}

// String is the way as programs read it.
func (w Way) String() string {
	return [...]string{"let down", "rows back", "back to safe row", "cover", "leave"}[min(w, Leave)]
}
