package plain

import (
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/tui/track"
)

// manner is how much is said of what is to be done.
type manner uint8

const (
	whatIsNew manner = iota // since it was said last
	inFull
)

// sayNow says what the hands do, what comes after it, and what to know of the row.
func (t *Talk) sayNow(m manner) {
	tr := t.piece.Tracker
	newRow := tr.RowInHand() != t.told.row
	if m == inFull || newRow {
		t.told = told{row: tr.RowInHand()}
	}
	now := tr.SayNow(track.Aloud())
	_, turn := tr.Turn()
	if m == whatIsNew {
		now.Remark = "" // how much of the row is done is told when it is asked for
	}
	if turn {
		t.Say(now.String())
	} else {
		t.Say("now: " + now.String())
	}
	t.sayThen()
	if m == inFull || newRow {
		t.sayRow()
		if turn && m == whatIsNew {
			t.Say("at " + tr.SayProgress() + t.timeLeft())
		}
	}
}

// sayThen says what comes next where that is not known yet: the next run, or the border
// before which it warns.
func (t *Talk) sayThen() {
	tr := t.piece.Tracker
	w, warned := tr.BorderWarning()
	before := t.told.border
	t.told.border = w.Kind
	then := tr.SayThen(track.Aloud()).String()
	if (!warned || t.turned()) && then != t.told.then {
		t.told.then = then
		t.Say("then: " + then)
		if tr.Place().Phase == pattern.Finishing && tr.Mending() == nil {
			t.Say("mend leads through the finishing, step by step")
		}
	}
	if warned && (w.Kind == track.BorderSoon || w.Kind != before) {
		says := tr.SayWarning(w)
		if field, ok := tr.Field(); ok {
			says += ": " + tr.Say(field)
		}
		t.Say(says)
	}
}

func (t *Talk) turned() bool {
	_, ok := t.piece.Tracker.Turn()
	return ok
}

// sayRow says what to know of the row in hand: the note on it, the zone that comes, what
// to count.
func (t *Talk) sayRow() {
	tr := t.piece.Tracker
	if n, ok := t.noteHere(); ok {
		t.Say(tr.SayNote(n))
	}
	if w, ok := tr.ZoneWarning(); ok {
		t.Say(tr.SayWarning(w))
	} else if c, ok := tr.Check(); ok {
		t.Say(tr.SayCheck(c))
	}
	if says := tr.SayLoosely(); says != "" {
		t.Say(says)
	}
	if says := tr.SayWrapAhead(); says != "" && t.options.WrapAhead {
		t.Say(says)
	}
}

// noteHere is the note for the row in hand.
func (t *Talk) noteHere() (track.Note, bool) {
	tr := t.piece.Tracker
	return track.NoteAt(tr.Order().Pattern, t.piece.Notes, tr.RowInHand())
}

func (t *Talk) sayNote() {
	if n, ok := t.noteHere(); ok {
		t.Say(t.piece.Tracker.SayNote(n))
		return
	}
	t.Say("there is no note on this " + t.rowWord() + ": note and words make one")
}

func (t *Talk) sayPurpose() {
	for _, text := range t.piece.Purpose {
		t.Say("on purpose: " + text)
	}
}

func (t *Talk) sayPurposeOrNone() {
	if len(t.piece.Purpose) == 0 {
		t.Say("nothing was changed on purpose: purpose and words write it down")
		return
	}
	t.sayPurpose()
}

// sayWhere says where the work stands and how far it is.
func (t *Talk) sayWhere() {
	tr := t.piece.Tracker
	says := track.SayPlace(tr.Order(), tr.Place())
	if c := tr.InRow(); tr.Place().Phase == pattern.Working {
		says += fmt.Sprintf(", %d of %d worked", c.Done, c.Of)
	}
	t.Say(says, "at "+tr.SayProgress()+t.timeLeft())
	if t.saving.waiting() > 0 {
		t.Say(t.notSaved())
	}
	if turn, ok := tr.Turn(); ok {
		t.Say(tr.SayTurn(turn))
	}
	if now := t.underWay(); now != nil {
		t.Say(sayUnderWay(*now))
	}
	t.sayAllSafe()
	if at := tr.Place(); at.Phase == pattern.Finishing && t.piece.Made != "" {
		t.Say(t.piece.Made)
	}
}

// timeLeft is the time that the rest takes at the maker's pace, as the end of a line.
func (t *Talk) timeLeft() string {
	left := t.piece.Tracker.SayLeft(t.pace)
	if t.options.Now == nil || left == "" {
		return ""
	}
	return "; about " + left + " left at your pace"
}

// sayChart says a row and the one below in the order of work; 0 is the row in hand.
func (t *Talk) sayChart(row int) {
	o := t.piece.Tracker.Order()
	rows := o.Pattern.Grid.Rows()
	if row > rows {
		t.Say(t.whichRows())
		return
	}
	if row == 0 {
		row = min(max(1, t.piece.Tracker.RowInHand()), rows)
	}
	t.Say(track.SayRow(o, row))
	if row > 1 {
		t.Say("below it " + track.SayRow(o, row-1))
	} else {
		t.Say("below it the cast-on")
	}
}

// sayHelp lists the commands, or says all of one.
func (t *Talk) sayHelp(word string) {
	if word == "" {
		for _, e := range entries {
			t.Say(e.help())
		}
		return
	}
	e, err := entryFor(word)
	if err != nil {
		t.Say(err.Error())
		return
	}
	t.Say(e.help())
	if e.verb == verbMend {
		t.sayHowToMend()
	}
}

func (e entry) help() string { return strings.TrimSpace(e.word+" "+e.shown) + ": " + e.does }

func (t *Talk) lookingOnly() string { return "looking only: " + t.piece.Held }

func (t *Talk) rowWord() string { return t.piece.Tracker.Order().Pattern.Form.RowWord() }

func (t *Talk) whichRows() string {
	return fmt.Sprintf("there are %ss 1 to %d", t.rowWord(), t.piece.Tracker.Order().Pattern.Grid.Rows())
}
