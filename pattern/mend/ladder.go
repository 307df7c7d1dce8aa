package mend

import (
	"fmt"

	"bypeg/pattern"
)

// Ladder is one column that is let down and formed again, rung by rung from the lowest.
type Ladder struct {
	Peg   int
	Col   int
	Loop  int    // the row whose loop is caught at the bottom; 0 is the cast-on's
	Rungs []Rung // from the lowest
	order pattern.Order
}

// Rung is one strand of a ladder and the stitch that it becomes.
type Rung struct {
	Row     int
	Stitch  pattern.Stitch
	Yarn    pattern.Yarn
	Purl    bool // it shows a bump from the front, else a V
	Twisted bool // the loop below is turned before the rung is drawn through
}

// Refusal says why a column can't be let down, and where.
type Refusal struct {
	Peg    int
	Row    int // 0 where no row of the column is to blame
	Reason string
	word   string // "row" or "round"
}

// Error is the refusal in words.
func (r *Refusal) Error() string {
	if r.Row == 0 {
		return fmt.Sprintf("peg %d can't be let down: %s", r.Peg, r.Reason)
	}
	return fmt.Sprintf("peg %d can't be let down past %s %d: %s", r.Peg, r.word, r.Row, r.Reason)
}

// LadderOf lets the peg of a column down to below a row, at the place where the work stands,
// and forms it again up to the peg. The error is a *Refusal.
func LadderOf(o pattern.Order, at pattern.Place, col, from int) (*Ladder, error) {
	word := o.Pattern.Form.RowWord()
	refuse := func(row int, reason string) (*Ladder, error) {
		return nil, &Refusal{o.Peg(col), row, reason, word}
	}
	if reason := noLoop(o, at, col); reason != "" {
		return refuse(0, reason)
	}
	top := Top(o, at, col)
	if from < 1 || from > top {
		return refuse(0, fmt.Sprintf("%s %d is not worked on it yet: the last one there is %d", word, from, top))
	}
	moved := movesOf(o.Pattern)
	l := &Ladder{Peg: o.Peg(col), Col: col, Loop: LoopRow(o.Pattern, from-1, col), order: o}
	for row := from; row <= top; row++ {
		if reason := noRung(o, row, col, moved); reason != "" {
			return refuse(row, reason+"; take whole "+word+"s back instead")
		}
		l.Rungs = append(l.Rungs, rungAt(o.Pattern, row, col))
	}
	return l, nil
}

// Top is the newest row that has been worked on a column's peg; 0 where none has.
func Top(o pattern.Order, at pattern.Place, col int) int {
	done := o.RowsDone(at)
	if at.Phase == pattern.Working && passed(o, at, col) {
		done++
	}
	return done
}

// passed tells whether the row under way has been worked on a column's peg.
func passed(o pattern.Order, at pattern.Place, col int) bool {
	cell := o.Pattern.Grid.Row(at.Row).Cells()[col]
	return cell.Stitch != pattern.NoStitch && o.DoneAt(at.Row, col) < at.Done
}

// noLoop says why a column's peg holds nothing to let down.
func noLoop(o pattern.Order, at pattern.Place, col int) string {
	grid := o.Pattern.Grid
	switch {
	case at.Phase == pattern.CastingOn:
		return "nothing is worked on it yet"
	case at.Phase == pattern.Finishing:
		return "the piece is off the loom"
	case at.Phase == pattern.BindingOff && BoundOff(o, at, col):
		return "its loop is bound off"
	}
	if top := Top(o, at, col); top > 0 && grid.Row(top).Cells()[col].Stitch == pattern.NoStitch {
		return "it is not in use"
	}
	return ""
}

// BoundOff tells whether a column's loop has been bound off at a place.
func BoundOff(o pattern.Order, at pattern.Place, col int) bool {
	for i := range at.Done {
		if o.ColumnAt(pattern.Place{Phase: pattern.BindingOff, Done: i}) == col {
			return true
		}
	}
	return false
}

// LoopRow is the row in which the loop was made that a column's peg holds when so many rows
// are done: a slip hands the loop below on. 0 is the cast-on.
func LoopRow(p *pattern.Pattern, row, col int) int {
	for ; row > 0; row-- {
		if s := p.Grid.Row(row).Cells()[col].Stitch; s != pattern.Slip && s != pattern.SlipFront {
			return row
		}
		for _, m := range p.Moves(row) {
			if m.To == col {
				col = m.From
				break
			}
		}
	}
	return 0
}

// rungAt is the stitch of a row that a rung becomes.
func rungAt(p *pattern.Pattern, row, col int) Rung {
	c := p.Grid.Row(row).Cells()[col]
	r := Rung{Row: row, Stitch: c.Stitch, Yarn: c.Yarn, Purl: c.Stitch.Face() == pattern.FacePurl}
	switch c.Stitch {
	case pattern.EWrap, pattern.TwistedKnit, pattern.TwistedPurl:
		r.Twisted = true
	case pattern.Knit:
		r.Twisted = p.ZoneAt(row).KnitAs == pattern.WrapE
	}
	return r
}

// movesOf tells whether a row moves the loop of a column. Equal rows above equal ones move the
// same, and are asked once.
func movesOf(p *pattern.Pattern) func(row, col int) bool {
	type pair struct{ row, below *pattern.Row }
	known := map[pair]map[int]bool{}
	return func(row, col int) bool {
		key := pair{p.Grid.Row(row), p.Grid.Row(max(1, row-1))}
		cols, ok := known[key]
		if !ok {
			cols = map[int]bool{}
			for _, m := range p.Moves(row) {
				cols[m.From], cols[m.To] = true, true
			}
			known[key] = cols
		}
		return cols[col]
	}
}

// noRung says why a row's stitch can't be formed from a rung; empty where it can.
func noRung(o pattern.Order, row, col int, moved func(row, col int) bool) string {
	cells := o.Pattern.Grid.Row(row).Cells()
	s := cells[col].Stitch
	if _, _, crosses := s.Cross(); crosses {
		return "its loop crosses those of its neighbours there"
	}
	switch s {
	case pattern.NoStitch:
		return "the peg is not in use there"
	case pattern.Slip, pattern.SlipFront:
		return "it is slipped there, and the strand that passes it is no rung"
	case pattern.Knit, pattern.Purl, pattern.EWrap, pattern.UWrap, pattern.FlatKnit, pattern.TrueKnit, pattern.TwistedKnit, pattern.TwistedPurl:
	default:
		return fmt.Sprintf("the stitch there, %s, is no plain one", s)
	}
	for _, beside := range []int{col - 1, col + 1} {
		if beside >= 0 && beside < len(cells) && (cells[beside].Stitch == pattern.IncreaseKnit || cells[beside].Stitch == pattern.MakeOne) {
			return fmt.Sprintf("the new stitch on peg %d hangs from it", o.Peg(beside))
		}
	}
	if moved(row, col) {
		return "its loop goes to or comes from another peg there"
	}
	return ""
}

// Len is one step to let the loop down, one for each rung, and one to put the loop back.
func (l *Ladder) Len() int { return len(l.Rungs) + 2 }

// Words says one of the steps.
func (l *Ladder) Words(i int) string {
	word := l.order.Pattern.Form.RowWord()
	switch {
	case i == 0:
		loop := fmt.Sprintf("the loop of %s %d", word, l.Loop)
		if l.Loop == 0 {
			loop = "the cast-on's loop"
		}
		text := fmt.Sprintf("lift the loop off peg %d and let it run down %s, no further: catch %s on the hook", l.Peg, count(len(l.Rungs), "rung"), loop)
		if l.edge() {
			text += "; at the edge the yarn hangs in arcs, one for two " + word + "s: form the lower " + word + " of each from the strand at its bottom, the upper from the one at its top"
		}
		return text
	case i == l.Len()-1:
		return fmt.Sprintf("put the loop back on peg %d, not twisted, and pull the column gently even", l.Peg)
	}
	r := l.Rungs[i-1]
	return fmt.Sprintf("%s %d: %s%s", word, r.Row, colourOf(l.order.Pattern, r.Yarn), r.words())
}

// edge tells whether the column is one at which rows of a panel turn: the yarn goes up there
// from row to row, and what comes loose are no rungs. From memory.
func (l *Ladder) edge() bool {
	p := l.order.Pattern
	return p.Form == pattern.Panel && len(l.Rungs) > 1 && (l.Col == 0 || l.Col == p.Pegs-1)
}

// Short is the rung as rows are written, by what it shows: "k", "p".
func (r Rung) Short() string {
	if r.Purl {
		return pattern.Purl.Short()
	}
	return pattern.Knit.Short()
}
