package track

import (
	"fmt"

	"bypeg/pattern"
)

// SayBack says what shows where the work stands, for whoever comes back to the loom after
// weeks: what is done, where the yarn is, and what comes. Each remark is a sentence. There
// are none for a piece that is off the loom.
func SayBack(o pattern.Order, at pattern.Place) []string {
	switch {
	case at.Phase == pattern.Finishing, at == pattern.Start():
		return nil
	case at.Phase == pattern.CastingOn:
		return []string{fmt.Sprintf("%s on the pegs; the next goes on peg %d.", Plural(at.Done, "loop"), o.Peg(o.ColumnAt(at)))}
	case at.Phase == pattern.BindingOff && at.Done > 0:
		return []string{fmt.Sprintf("All rows are done, and %s bound off: next is peg %d.", Plural(at.Done, "loop"), o.Peg(o.ColumnAt(at)))}
	case at.Done > 0:
		return []string{sayDone(o, at.Row-1), sayMidRow(o, at)}
	}
	done := o.RowsDone(at)
	return []string{sayDone(o, done), sayYarn(o, done), sayNext(o, at)}
}

// SayKept says what else is to be known of the work for whoever comes back: the repair under
// way, and the safe row that is nearest below. Each remark is a sentence.
func (t *Tracker) SayKept() []string {
	var says []string
	if t.mending != nil {
		says = append(says, capital(t.mending.Words())+".")
	}
	below := t.SafeBelow()
	for i, s := range below { // all of the highest row
		if s.Row == below[len(below)-1].Row && t.at.Phase != pattern.Finishing {
			says = append(says, capital(t.SaySafe(below[i]))+".")
		}
	}
	return says
}

// sayDone says which rows are done, and what can be counted of them.
func sayDone(o pattern.Order, rows int) string {
	p := o.Pattern
	word := p.Form.RowWord()
	if rows == 0 {
		return fmt.Sprintf("The cast-on is done: %s, and no %s yet.", Plural(p.CastOnLoops(), "loop"), word)
	}
	says := Plural(rows, word) + " done"
	ridges := p.Ridges(rows)
	if ridges == 0 || !p.HasRidges(p.ZoneIndex(rows)) {
		return says + "."
	}
	says += ": " + Plural(ridges, "ridge")
	if p.Ridges(rows) == p.Ridges(rows-1) {
		says += fmt.Sprintf(", and a %s above the last", word)
	}
	return says + "."
}

// sayYarn says where the yarn hangs between two rows. In a tube it is at the start of the
// round, above the tail.
func sayYarn(o pattern.Order, rows int) string {
	if o.Pattern.Form == pattern.Tube {
		return "The yarn is at the start of the round: follow the column above the cast-on's tail up."
	}
	t := Turn{Yarn: o.YarnSide(rows), AtTail: o.YarnSide(rows) == o.TailSide()}
	return fmt.Sprintf("The yarn hangs at the %s, %s.", t.Yarn, t.tail())
}

// sayMidRow says which pegs of a row are worked, and where the yarn leaves.
func sayMidRow(o pattern.Order, at pattern.Place) string {
	last := at
	last.Done--
	return fmt.Sprintf("%s %d, %s, has %s worked: the yarn leaves peg %d, next is peg %d.",
		capital(o.Pattern.Form.RowWord()), at.Row, o.Direction(at.Row), Plural(at.Done, "peg"), o.Peg(o.ColumnAt(last)), o.Peg(o.ColumnAt(at)))
}

// sayNext says which row comes, and the way it runs.
func sayNext(o pattern.Order, at pattern.Place) string {
	if at.Phase == pattern.BindingOff {
		return fmt.Sprintf("Next: bind off, from peg %d.", o.Peg(o.ColumnAt(at)))
	}
	return fmt.Sprintf("Next: %s %d, %s, from peg %d.", o.Pattern.Form.RowWord(), at.Row, o.Direction(at.Row), o.Peg(o.ColumnAt(at)))
}

func capital(word string) string { return string(word[0]-'a'+'A') + word[1:] }
