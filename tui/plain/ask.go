package plain

import (
	"fmt"
	"strconv"
	"strings"

	"bypeg/pattern/find"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// While the place is looked for, what is typed answers questions about the fabric. Some words
// are none: back takes an answer back, stop leaves it, quit leaves the talk too, and yes goes to
// the one place that was found.
const (
	wordBack = "back"
	wordStop = "stop"
	wordQuit = "quit"
	wordYes  = "yes"
)

// ask begins to look for the place in the fabric.
func (t *Talk) ask() {
	tr := t.piece.Tracker
	talk := find.Begin(tr.Order(), tr.Place())
	if talk.Off() {
		t.Say(find.OffLoom)
		return
	}
	t.seeking = &talk
	t.Say("the place from the fabric: type an answer; an empty line passes a question over, back takes an answer back, stop leaves it")
	t.sayQuestion()
}

// sayQuestion says what is asked, or the places that were found.
func (t *Talk) sayQuestion() {
	talk := t.seeking
	word := t.rowWord()
	answered := len(talk.Said) > 0 && talk.Said[len(talk.Said)-1].Answer != ""
	if n := talk.Rows(); talk.Answer.Asks && answered && n > 1 {
		t.Say(fmt.Sprintf("%d %ss agree with that", n, word))
	}
	if talk.Answer.Asks {
		t.Say(talk.Answer.Ask.Words(talk.Order) + " (" + talk.Answer.Ask.Hint(talk.Order) + ")")
		return
	}
	t.sayGuesses()
}

// sayGuesses says the places that were found, and how to go there.
func (t *Talk) sayGuesses() {
	talk := t.seeking
	guesses, _ := talk.Guesses()
	if len(guesses) == 0 {
		t.Say("nothing in the pattern agrees with that: back takes an answer back, stop leaves it")
		for _, says := range find.Beyond(talk.Order, talk.Evidence) {
			t.Say(says)
		}
		return
	}
	if over := talk.Over(); over != "" {
		t.Say(over)
	}
	for i, g := range guesses {
		says := fmt.Sprintf("%d: %s", i+1, g.Says)
		beside := track.SayBeside(talk.Order, g.Place, talk.Evidence.Noted)
		if beside != "" && (i == 0 || !talk.Alone()) { // the near place is told in few words
			says += "; " + beside
		}
		t.Say(says)
	}
	if more := talk.More(); more != "" {
		t.Say(more)
	}
	switch {
	case len(guesses) == 1:
		t.Say("yes goes there; stop stays where you were")
	case talk.Alone():
		t.Say("yes goes to the first, 2 to the other; stop stays where you were")
	default:
		t.Say("a number goes there; stop stays where you were")
	}
}

// hearAnswer takes a line while the place is looked for.
func (t *Talk) hearAnswer(text string) {
	text = strings.ToLower(strings.TrimSpace(safetext.Clean(text)))
	talk := *t.seeking
	quit := beginsWord(text, wordQuit)
	t.leaving = t.leaving && quit
	switch {
	case quit:
		t.seeking = nil
		t.leave()
		return
	case t.elsewhere():
		return
	case text == wordStop:
		t.seeking = nil
		t.sayNow(inFull)
		return
	case text == wordBack:
		talk = talk.Back()
	case talk.Answer.Asks:
		next, err := talk.Reply(text)
		if err != nil {
			t.Say(err.Error())
			return
		}
		talk = next
	default:
		t.goToGuess(text)
		return
	}
	t.seeking = &talk
	t.sayQuestion()
}

// beginsWord tells whether a word, or its first letters, was typed.
func beginsWord(text, word string) bool { return text != "" && strings.HasPrefix(word, text) }

// goToGuess goes to one of the places that were found, by its number.
func (t *Talk) goToGuess(text string) {
	guesses, _ := t.seeking.Guesses()
	n, err := strconv.Atoi(text)
	alone := t.seeking.Alone()
	if (len(guesses) == 1 || alone) && beginsWord(text, wordYes) {
		n, err = 1, nil
	}
	switch {
	case len(guesses) == 0:
		t.Say("there is nowhere to go: type back or stop")
		return
	case len(guesses) == 1 && (err != nil || n != 1):
		t.Say("type yes, back or stop")
		return
	case alone && (err != nil || n < 1 || n > len(guesses)):
		t.Say("type yes, 2, back or stop")
		return
	case err != nil || n < 1 || n > len(guesses):
		t.Say(fmt.Sprintf("type a number from 1 to %d, back or stop", len(guesses)))
		return
	case t.piece.Saver == nil:
		t.Say(t.lookingOnly())
		return
	}
	t.seeking = nil
	tr := t.piece.Tracker
	from, had := tr.Place(), t.underWay()
	if e, moved := tr.Jump(guesses[n-1].Place); moved {
		t.put(from, e)
		t.settle()
	}
	if !t.over {
		t.sayNow(inFull)
		t.sayDropped(had, "undo")
	}
}
