package plain

import (
	"cmp"
	"fmt"
	"slices"

	"bypeg/pattern"
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
	case tr.Place().Phase == pattern.Finishing:
		t.Say(fmt.Sprintf("the piece is off the loom: no %s is taken back to a line or a ball any more", t.rowWord()))
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
	if s.Out = out; slices.Contains(tr.Safe(), s.Safe) != out {
		t.Say(t.sayAlready(s))
		return
	}
	t.piece.Saver.Put(tr.Secure(s))
	t.saving.put(change{words: tr.SaySecured(s)})
	t.settle()
}

// sayAlready says that a safe row is what it is to become: there, or none.
func (t *Talk) sayAlready(s track.Safe) string {
	switch {
	case s.Out && s.Kind == mend.Join:
		return fmt.Sprintf("no new ball is put down after %s %d", t.rowWord(), s.Row)
	case s.Out:
		return fmt.Sprintf("no lifeline is put down in %s %d", t.rowWord(), s.Row)
	}
	word := map[mend.SafeKind]verb{mend.Lifeline: verbLine, mend.Join: verbBall}[s.Kind]
	return fmt.Sprintf("%s: %s %d out takes it off", t.piece.Tracker.SaySafe(s.Safe), entries[word].word, s.Row)
}

// sayAllSafe says each row that work can be taken back to, the lowest first: those put down and
// those that notes tell of. Off the loom there is none.
func (t *Talk) sayAllSafe() {
	tr := t.piece.Tracker
	if tr.Place().Phase == pattern.Finishing {
		return
	}
	done := tr.Order().RowsDone(tr.Place())
	all := slices.DeleteFunc(t.piece.SafeRows(), func(s mend.Safe) bool { return s.Row > done })
	slices.SortFunc(all, func(a, b mend.Safe) int { return cmp.Or(a.Row-b.Row, int(a.Kind)-int(b.Kind)) })
	for _, s := range slices.Compact(all) {
		t.Say(tr.SaySafe(s))
	}
}
