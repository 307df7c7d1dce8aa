package plain

import (
	"fmt"
	"slices"

	"bypeg/pattern/mend"
	"bypeg/tui/track"
)

// secure puts down that a line was put into a row, or a ball joined at its end, or takes that
// off again: "", "40", "out", "40 out".
func (t *Talk) secure(k mend.SafeKind, fields []string) {
	tr := t.piece.Tracker
	s, on := tr.SafeHere(k)
	out := slices.Contains(fields, "out")
	n, ok := numbersIn(slices.DeleteFunc(fields, func(f string) bool { return f == "out" || f == "at" || f == "in" }))
	switch {
	case !ok || len(n) > 1:
		t.Say(fmt.Sprintf("say the %s, or nothing for the last one done: line 18, line 18 out, ball 18", t.rowWord()))
		return
	case !on:
		t.Say("no " + t.rowWord() + " on the loom is complete yet")
		return
	case len(n) == 1 && !out && (n[0] < 1 || n[0] > s.Row):
		t.Say(fmt.Sprintf("%ss 1 to %d are complete", t.rowWord(), s.Row))
		return
	case len(n) == 1:
		s.Row = n[0]
	}
	there := slices.Contains(tr.Safe(), s.Safe)
	if s.Out = out; there != out {
		t.Say(tr.SaySecured(track.Safe{Safe: s.Safe, Out: !there})) // as it is already
		return
	}
	t.piece.Saver.Put(tr.Secure(s))
	t.saving.put(change{words: tr.SaySecured(s)})
	t.settle()
}
