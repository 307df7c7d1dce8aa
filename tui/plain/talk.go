package plain

import (
	"context"
	"fmt"
	"strings"
	"time"

	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/mend"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// Piece is a piece as it is opened for a talk.
type Piece struct {
	track.Piece
	// Moved tells, of a piece opened to look only, whether it is to be opened anew: it
	// may be worked now, or its place is another one. nil never is.
	Moved func() bool
	// Made is what was put down of a finished piece, in words; "" for nothing.
	Made string
	// Size puts down what a finished piece measures and weighs, as one change more on its way
	// to the disk, and says it as Made does. nil can't.
	Size func(text string) (says string, err error)
}

// Options are what a maker has chosen.
type Options struct {
	Now  func() time.Time // for the maker's pace; nil says nothing of it
	Slow time.Duration    // after which it is said that the disk has not answered; 0 never

	WrapAhead bool // tells which pegs may be wrapped ahead
}

// Ending is why a talk ended.
type Ending uint8

// The endings.
const (
	Left      Ending = iota // the maker left, or nothing more can be typed or printed
	Changed                 // the piece's file is not what was written: read it anew
	Moved                   // a piece opened to look only is to be opened anew
	Replanned               // the maker goes on after another plan: see GoOn
)

// Talk is one piece being worked, line by line.
type Talk struct {
	*Console
	piece    Piece
	options  Options
	pace     track.Pace
	saving   saving
	told     told
	planning planning
	onward   onward
	mending  mending
	seeking  *find.Talk // while the place is looked for in the fabric
	leaving  bool       // leaving was refused once, since not all is saved
	ending   Ending
	over     bool
	stop     context.CancelFunc
}

// told is what was said last, so that it is not said again at every peg.
type told struct {
	row    int // the row in hand
	then   string
	border track.WarningKind
}

// New begins the talk about a piece: it says where the work stands and what is to be
// done. Close must be called when it is over.
func New(p Piece, c *Console, o Options) *Talk {
	t := &Talk{Console: c, piece: p, options: o}
	for _, m := range p.Moments {
		t.pace = t.pace.Mark(m)
	}
	ctx, stop := context.WithCancel(c.ctx)
	t.stop = stop
	t.saving.heard = hearken(ctx, p.Saver)
	t.opening()
	return t
}

// Close ends the listening to the disk.
func (t *Talk) Close() { t.stop() }

// opening says all that a person should know before the first step.
func (t *Talk) opening() {
	at := t.piece.Tracker
	t.Say(t.piece.Title + ": " + track.SayPlace(at.Order(), at.Place()))
	if t.piece.Held != "" {
		t.Say(t.lookingOnly())
	}
	t.Say(t.piece.Notices...)
	t.sayPurpose()
	if now := t.underWay(); now != nil {
		t.Say(sayUnderWay(*now))
	}
	t.Say("at " + at.SayProgress() + t.timeLeft())
	t.sayNow(inFull)
}

// Run takes commands until the talk is over.
func (t *Talk) Run() Ending {
	t.over = false
	for !t.over && t.Err() == nil {
		t.showPrompt()
		select {
		case <-t.ctx.Done():
			return Left
		case w, ok := <-t.saving.heard:
			t.hear(w, ok)
		case l, ok := <-t.lines:
			t.asking = t.asking && !ok
			if !ok {
				return Left
			}
			t.take(l)
		}
	}
	return t.ending
}

// end ends the talk after this command.
func (t *Talk) end(e Ending) { t.ending, t.over = e, true }

// take does what a line says.
func (t *Talk) take(l line) {
	c, err := parse(l.text)
	mended := t.mending.done
	t.mending.done = false
	t.mending.hear(l.text)
	switch {
	case l.tooLong:
		t.Say("that line is too long: nothing was done")
		return
	case t.seeking != nil:
		t.hearAnswer(l.text)
		return
	case t.mending.led != nil:
		t.hearStep(l.text)
		return
	case err != nil:
		t.Say(err.Error())
		return
	case mended && safetext.Clean(strings.TrimSpace(l.text)) == "": // one step too many
		t.Say("no step is left: from here on an empty line is a peg again")
		return
	}
	t.leaving = t.leaving && c.verb == verbQuit
	if c.verb != verbQuit && c.verb != verbHelp && t.elsewhere() {
		return
	}
	t.obey(c)
}

// elsewhere ends the talk about a piece that is to be opened anew: what was typed was meant
// for what had been said before.
func (t *Talk) elsewhere() bool {
	if t.piece.Moved == nil || !t.piece.Moved() {
		return false
	}
	t.end(Moved)
	return true
}

// obey does a command.
func (t *Talk) obey(c command) {
	switch c.verb {
	case verbNowAgain:
		t.sayNow(inFull)
	case verbWhere:
		t.sayWhere()
	case verbChart:
		t.sayChart(c.n)
	case verbHelp:
		t.sayHelp(c.text)
	case verbQuit:
		t.leave()
	case verbNote, verbPurpose:
		t.write(c)
	case verbAsk:
		t.ask()
	case verbSize:
		t.size(c.text)
	case verbPlan:
		t.planOn(c.text)
	case verbMend:
		t.mendOn(c.text)
	default:
		if t.piece.Saver == nil {
			t.Say(t.lookingOnly())
			return
		}
		t.change(c)
	}
}

// change does what may change the piece.
func (t *Talk) change(c command) {
	switch c.verb {
	case verbGoTo:
		t.jump(c.n)
	case verbForget:
		t.forget()
	case verbLine:
		t.secure(mend.Lifeline, strings.Fields(strings.ToLower(c.text)))
	case verbBall:
		t.secure(mend.Join, strings.Fields(strings.ToLower(c.text)))
	case verbSave:
		t.retry()
	default:
		t.move(c.action(), c.n)
	}
}

// action is what a command does to the place.
func (c command) action() track.Action {
	switch c.verb {
	case verbRun:
		return track.OneRun
	case verbRow:
		return track.OneRow
	case verbLeft:
		return track.GoLeft
	case verbRight:
		return track.GoRight
	case verbUndo:
		return track.Undo
	case verbRedo:
		return track.Redo
	case verbBack:
		return map[verb]track.Action{verbRun: track.RunBack, verbRow: track.RowBack, verbPeg: track.PegBack}[c.unit]
	}
	return track.OnePeg
}

// move works on, or back, so many times, and says what was done once it is saved.
func (t *Talk) move(a track.Action, n int) {
	tr := t.piece.Tracker
	if tr.Can(a) && t.guarded(worksOn) {
		return
	}
	had, moved := t.underWay(), false
	for range n {
		from := tr.Place()
		e, ok := tr.Do(a)
		if !ok {
			t.settle()
			t.Say(tr.SayWhyNot(a, "peg", "back"))
			break
		}
		t.put(from, e)
		moved = true
	}
	if !moved {
		return
	}
	t.settle()
	t.sayNext()
	t.sayDropped(had, map[bool]string{true: "redo", false: "undo"}[a == track.Undo])
	if now := t.underWay(); now != nil && !t.over { // undo brought it back
		t.Say(sayUnderWay(*now))
	}
}

// jump goes to the start of a row.
func (t *Talk) jump(row int) {
	tr := t.piece.Tracker
	rows := tr.Order().Pattern.Grid.Rows()
	if row > rows {
		t.Say(t.whichRows())
		return
	}
	from, had := tr.Place(), t.underWay()
	to := pattern.Place{Phase: pattern.Working, Row: row}
	if to == from {
		t.Say(fmt.Sprintf("this is the start of %s %d", t.rowWord(), row))
		return
	}
	if t.guarded(worksOn) {
		return
	}
	if e, ok := tr.Jump(to); ok {
		t.put(from, e)
		t.settle()
		t.sayNext()
		t.sayDropped(had, "undo")
	}
}

// sayNext says what is to be done after a change, unless the place is to be read anew.
func (t *Talk) sayNext() {
	if !t.over {
		t.sayNow(whatIsNew)
	}
}

// put hands a change of place to the disk.
func (t *Talk) put(from pattern.Place, e track.Event) {
	t.piece.Saver.Put(e)
	t.saving.put(change{from: from, event: e})
	if t.options.Now == nil {
		return
	}
	t.pace = t.pace.Mark(track.Moment{
		Seconds: float64(t.options.Now().UnixMilli()) / 1000, Done: t.piece.Tracker.Progress().Done, Rest: e.Act != track.Stepped,
	})
}

// write writes a note or a change on purpose down, or says what there is.
func (t *Talk) write(c command) {
	switch {
	case c.text == "" && c.verb == verbNote:
		t.sayNote()
	case c.text == "":
		t.sayPurposeOrNone()
	case t.piece.Saver == nil:
		t.Say(t.lookingOnly())
	case c.verb == verbNote:
		t.annotate(c.text)
	default:
		t.piece.Purpose = append(t.piece.Purpose, c.text)
		t.piece.Saver.Purpose(t.piece.Tracker.Place(), c.text)
		t.saving.put(change{words: "on purpose: " + c.text})
		t.settle()
	}
}

func (t *Talk) annotate(text string) {
	tr := t.piece.Tracker
	t.piece.Notes = track.Annotate(t.piece.Notes, track.Note{Row: tr.RowInHand(), Text: text})
	t.piece.Saver.Note(tr.Place(), text)
	words := "note: " + text
	if text == "" {
		words = "no note on this " + t.rowWord() + " any more"
	}
	t.saving.put(change{words: words})
	t.settle()
}

// forget takes the note off the row in hand.
func (t *Talk) forget() {
	n, ok := t.noteHere()
	if !ok || n.Row != t.piece.Tracker.RowInHand() {
		t.Say("there is no note on this " + t.rowWord())
		return
	}
	t.annotate("")
}

// leave ends the talk, unless something would be lost that was not spoken of.
func (t *Talk) leave() {
	if lost := t.saving.waiting(); lost > 0 && !t.leaving {
		t.leaving = true
		t.Say(t.notSaved(), fmt.Sprintf("%s would be lost: save tries again, quit once more leaves all the same", track.Plural(lost, "step")))
		return
	}
	t.end(Left)
}
