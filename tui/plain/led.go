package plain

import (
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// led is a repair while it is led through step by step. What is typed then are the words
// below.
type led struct {
	steps mend.Steps
	to    *pattern.Place // where the work stands once rows are taken back
}

// steering are the words while a repair is led through; of two that begin alike the first is
// meant. An empty line is next.
var steering = [...]string{wordNext, wordBack, wordStop, "now", wordQuit}

const wordNext = "next"

const saySteering = "an empty line or next goes on, back goes a step back, stop leaves it for later, now says the step again"

// underWay is the repair under way; nil is none.
func (t *Talk) underWay() *track.Mending { return t.piece.Tracker.Mending() }

// sayUnderWay tells of a repair that was left off.
func sayUnderWay(m track.Mending) string { return m.Words() + ": mend goes on with it" }

// hear takes note of a line: only the same once more, straight after a warning, is meant in
// spite of it.
func (m *mending) hear(text string) {
	line := strings.Join(strings.Fields(strings.ToLower(safetext.Clean(text))), " ")
	m.warned = m.warned && line == m.typed
	m.typed = line
}

const worksOn = "the same once more works on without it"

// guarded says that a repair is under way when something else is begun, until the same is
// typed once more: loops may hang on a thread.
func (t *Talk) guarded(again string) bool {
	now := t.underWay()
	if now == nil || t.mending.warned {
		return false
	}
	t.mending.warned = true
	t.Say(sayUnderWay(*now) + "; " + again)
	return true
}

// sayDropped says that the repair which was under way is none any more, and which word brings
// it back; "" where none does.
func (t *Talk) sayDropped(had *track.Mending, back string) {
	if had == nil || had == t.underWay() || t.over {
		return
	}
	says := sayWhichDropped(t.piece.Tracker.Order(), *had)
	if back != "" {
		says += ": " + back + " brings it back"
	}
	t.Say(says)
}

// sayWhichDropped says which repair is none any more.
func sayWhichDropped(o pattern.Order, r track.Mending) string {
	switch r.What {
	case track.Finish:
		return "the finishing is dropped"
	case track.CastOn:
		return "the cast-on step by step is dropped"
	case track.BindOff, track.Gather:
		return "the bind-off step by step is dropped"
	case track.TakeBack:
		return fmt.Sprintf("the way back to %s %d is dropped", o.Pattern.Form.RowWord(), r.Row)
	}
	return fmt.Sprintf("the repair of peg %d is dropped", o.Peg(r.Col))
}

// begin begins a repair.
func (t *Talk) begin(r track.Mending) {
	if t.guarded("the same once more begins this one instead") {
		return
	}
	had := t.underWay()
	if !t.lead(r) {
		return
	}
	if b, ok := t.mending.led.steps.(*mend.BindOff); ok && b.NeedWords() != "" {
		t.Say(b.NeedWords())
	}
	t.keep(&r, "begun")
	t.sayDropped(had, "")
	t.sayStep()
}

// goOn goes on with a repair that was left off.
func (t *Talk) goOn(r track.Mending) {
	if t.lead(r) {
		t.sayStep()
	}
}

// lead leads through a repair from now on, or says why it can't be.
func (t *Talk) lead(r track.Mending) bool {
	o := t.piece.Tracker.Order()
	steps, to, err := r.Steps(o, t.piece.Tracker.Place(), t.piece.SafeRows()...)
	if err != nil {
		t.Say(err.Error())
		return false
	}
	t.mending.led = &led{steps, to}
	t.Say(sayRepair(o, r) + ": " + saySteering)
	return true
}

// sayRepair says what is repaired.
func sayRepair(o pattern.Order, r track.Mending) string {
	word := o.Pattern.Form.RowWord()
	switch r.What {
	case track.Finish:
		return "finish the piece"
	case track.CastOn:
		return "cast on, step by step"
	case track.BindOff:
		return "bind off, step by step"
	case track.Gather:
		return "draw the tube shut, step by step"
	case track.TakeBack:
		return fmt.Sprintf("take %ss back to the start of %[1]s %d", word, r.Row)
	}
	return fmt.Sprintf("let the column of peg %d down from %s %d on and form it again", o.Peg(r.Col), word, r.Row)
}

// hearStep takes a line while a repair is led through.
func (t *Talk) hearStep(text string) {
	if t.elsewhere() {
		return
	}
	text = strings.ToLower(strings.TrimSpace(safetext.Clean(text)))
	word := ""
	for _, w := range steering {
		if strings.HasPrefix(w, text) {
			word = w
			break
		}
	}
	t.leaving = t.leaving && word == wordQuit
	if told, ok := t.tellsSize(text); ok {
		t.size(told)
		return
	}
	switch word {
	case wordNext:
		t.nextStep()
	case wordBack:
		t.stepBack()
	case wordStop:
		t.stopMending()
	case "now":
		t.sayStep()
	case wordQuit:
		t.leave()
	default:
		t.Say(short(text) + " is not done while a repair is led through: " + saySteering)
	}
}

// sayStep says the step in hand, unless the place is to be read anew.
func (t *Talk) sayStep() {
	if t.over {
		return
	}
	steps := t.mending.led.steps
	i := t.stepInHand()
	t.Say(fmt.Sprintf("step %d of %d: %s", i+1, steps.Len(), steps.Words(i)))
	if sizes(steps, i) {
		t.Say(t.howToSize())
	}
}

// stepInHand is the step to be done next, from 0.
func (t *Talk) stepInHand() int {
	return min(t.underWay().Step, t.mending.led.steps.Len()-1)
}

// nextStep takes the step in hand as done. After the last one the tracker follows.
func (t *Talk) nextStep() {
	i := t.stepInHand()
	if i == t.mending.led.steps.Len()-1 {
		t.endMending()
		return
	}
	t.stepTo(i+1, fmt.Sprintf("step %d done", i+1))
}

// stepBack goes one step back. Before its first step nothing is under way any more, but for
// the finishing, which there is no way to give up.
func (t *Talk) stepBack() {
	i := t.stepInHand()
	switch {
	case i > 0:
		t.stepTo(i-1, fmt.Sprintf("back to step %d", i))
	case t.underWay().What == track.Finish:
		t.Say("this is the first step")
	default:
		t.mending.led = nil
		t.keep(nil, "the repair is given up")
		t.sayWork()
	}
}

// stepTo keeps a step as the one in hand, and says it.
func (t *Talk) stepTo(i int, says string) {
	r := *t.underWay()
	r.Step = i
	t.keep(&r, says)
	t.sayStep()
}

// stopMending leaves the repair for later.
func (t *Talk) stopMending() {
	i, of := t.stepInHand(), t.mending.led.steps.Len()
	t.mending.led = nil
	t.Say(fmt.Sprintf("left at step %d of %d: mend goes on with it", i+1, of))
	t.sayWork()
}

// endMending ends a repair whose last step is done.
func (t *Talk) endMending() {
	to := t.mending.led.to
	if to != nil && t.piece.Saver == nil {
		t.Say(t.lookingOnly())
		return
	}
	t.mending.led, t.mending.done = nil, true
	if to == nil {
		t.keep(nil, "all steps done")
		t.sayWork()
		return
	}
	tr := t.piece.Tracker
	from := tr.Place()
	if e, moved := tr.Complete(*to); moved { // which ends the repair too
		t.put(from, e)
		t.settle()
		t.sayNext()
	}
}

// sayWork says what is to be done on the loom once no repair is led through any more.
func (t *Talk) sayWork() {
	if !t.over && t.piece.Tracker.Place().Phase != pattern.Finishing {
		t.sayNow(inFull)
	}
}

// keep keeps how far a repair is; nil is over. A piece that is only looked at keeps nothing.
func (t *Talk) keep(now *track.Mending, says string) {
	e := t.piece.Tracker.Mend(now)
	if t.piece.Saver == nil {
		return
	}
	t.piece.Saver.Put(e)
	t.saving.put(change{words: says})
	t.settle()
}
