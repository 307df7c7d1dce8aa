package plain

import (
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/mend"
)

// size puts down what the finished piece measures and weighs, or says it.
func (t *Talk) size(text string) {
	switch off := t.piece.Tracker.Place().Phase == pattern.Finishing; {
	case !off:
		t.Say("size is what a finished piece measures: bind it off first; plan wide 22 cm and plan high 14 cm tell of one on the loom")
		return
	case text == "" && t.piece.Made != "":
		t.Say(t.piece.Made)
		return
	case text == "":
		t.Say("nothing is put down yet: " + t.howToSize())
		return
	case t.piece.Saver == nil || t.piece.Size == nil:
		t.Say(t.lookingOnly())
		return
	}
	says, err := t.piece.Size(text)
	if err != nil {
		t.Say(fit.Advice(err))
		return
	}
	t.piece.Made = says
	t.saving.put(change{words: says})
	t.settle()
}

// howToSize says what to type, by the piece's form.
func (t *Talk) howToSize() string {
	return "size " + fit.ExampleOf(t.piece.Tracker.Order().Pattern.Form) + " puts it down, or only what you know of it"
}

// tellsSize cuts the size out of a line that is typed while a piece is finished.
func (t *Talk) tellsSize(line string) (told string, ok bool) {
	word, told, _ := strings.Cut(line, " ")
	_, finishing := t.mending.led.steps.(mend.Finish)
	return strings.TrimSpace(told), finishing && word == entries[verbSize].word
}

// sizes tells whether a step of the work led through is one after which a size or a weight is
// known.
func sizes(steps mend.Steps, i int) bool {
	f, ok := steps.(mend.Finish)
	return ok && (f[i].Task == mend.Measure || f[i].Task == mend.Weigh)
}
