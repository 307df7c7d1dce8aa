package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/ask"
	"bypeg/tui/save"
	"bypeg/tui/track"
	"bypeg/tui/work"
)

// question is what a person is being asked.
type question uint8

const (
	whichPlace     question = iota // two accounts of the place do not agree
	whichPattern                   // the pattern's file has changed
	leavingUnsaved                 // changes are not on the disk
)

// take goes on with a piece on the desk: first what must be asked, then the work.
func (m Model) take(o *Opened) (Model, tea.Cmd) {
	m.opened = o
	switch {
	case o.asksPlace():
		m, calm := m.inquire(whichPlace).calm()
		m.working = false
		return m, calm
	case o.Change != nil && o.Change.Same():
		return m.adopt()
	case o.Change != nil:
		return m.inquire(whichPattern), nil
	}
	m.work = work.New(m.desk.Start(o), m.style, m.options.Keys, m.forWork())
	m.screen, m.working = onWork, true
	return m.sized(), tea.Batch(m.work.Init(), m.watchLock())
}

// inquire puts a question on the screen.
func (m Model) inquire(q question) Model {
	m.asked = q
	m.ask = ask.New(m.wording(q), m.style, m.options.Lists)
	m.screen = onAsk
	return m.sized()
}

func (m Model) wording(q question) ask.Question {
	switch q {
	case whichPlace:
		return placeQuestion(m.opened, m.now(), manner{
			unsaved: ", in round brackets,", anyRow: m.style.KeyName(m.options.Keys.GoTo) + " goes to any row",
		})
	case whichPattern:
		return patternQuestion(m.opened)
	}
	return ask.Question{
		Title:   "Not everything is saved",
		Lines:   m.work.Trouble(),
		Answers: []string{"try again to save", "leave all the same"},
	}
}

// manner is what only one way of working has words for.
type manner struct{ unsaved, anyRow string }

func placeQuestion(o *Opened, now time.Time, in manner) ask.Question {
	q, title := o.Opening.Question, o.Order.Pattern.Title
	w := ask.Question{Title: title + ": which place is the right one?", Lines: sentences(o.Opening.Notices)}
	if len(q.Choices) == 1 {
		w.Title = title + ": go on from here?"
	}
	if why := whyAsked(q, o.Opening.History.Len() == 0); why != "" {
		w.Lines = append(w.Lines, why)
	}
	if n := o.Dropped; n > 0 {
		w.Lines = append(w.Lines, fmt.Sprintf("%s after that%s could not be saved.", track.Plural(n, "step"), in.unsaved))
	}
	w.Lines = append(w.Lines, "The fabric knows best: count its rows. Nothing is thrown away, and "+in.anyRow+" afterwards.")
	for i, c := range q.Choices {
		w.Answers = append(w.Answers, sayChoice(o.orders[i], q.Kind, c, now))
	}
	return w
}

// sentences are notices as they stand in a text.
func sentences(notices []string) []string {
	says := make([]string, len(notices))
	for i, n := range notices {
		says[i] = strings.ToUpper(n[:1]) + strings.TrimSuffix(n[1:], ".") + "."
	}
	return says
}

// whyAsked is what makes the place doubtful; "" where the notices have told it.
func whyAsked(q *save.Question, journalGone bool) string {
	switch {
	case q.Kind == save.LineAdded:
		return "A line was added by hand: " + q.Line
	case q.Line != "":
		return "The last saved line is damaged: " + q.Line
	case q.Kind == save.DamagedEnd:
		return "The lines saved last are damaged: nothing can be read of them."
	case journalGone:
		return "The journal is gone: only the place is left, and the steps before it can't be undone."
	case q.Choices[0].Origin == save.FromMemory:
		return ""
	case len(q.Choices) == 1:
		return "The journal lacks the last steps: an old copy may have come back. It tells the same place all the same."
	}
	return "Two accounts of the work do not agree. An old copy may have come back, or the piece was worked on two machines."
}

// sayChoice is one place, in the order it is worked in, that may be the right one: "row
// 12 peg 6, from the journal, 2 Jan 19:04".
func sayChoice(o pattern.Order, kind save.QuestionKind, c save.Choice, now time.Time) string {
	says := "from " + c.Origin.String()
	switch {
	case c.Origin == save.FromMemory:
		says = "as it was saved here"
	case c.Origin == save.FromRival:
		says = "from another history"
	case c.Origin == save.FromJournal && kind == save.DamagedEnd:
		says = "the last sure place"
	}
	if c.Another {
		says += ", with another pattern"
	}
	if o.Pattern.Holds(c.Place) {
		says = track.SayPlace(o, c.Place) + ", " + says
	} else {
		says += ": a place that is not in the pattern"
	}
	switch {
	case c.Time.IsZero():
		return says
	case c.Time.Year() == now.Year():
		return says + ", " + c.Time.Format("2 Jan 15:04")
	}
	return says + ", " + c.Time.Format("2 Jan 2006 15:04")
}

func patternQuestion(opened *Opened) ask.Question {
	o, at, c := opened.Order, opened.Opening.Place, opened.Change
	w := ask.Question{Title: "The pattern of " + o.Pattern.Title + " has changed", Lines: sentences(slices.Concat(opened.Opening.Notices, c.Says))}
	w.Answers = []string{"keep the pattern as the piece was begun"}
	place := track.SayPlace(o, at)
	switch {
	case !c.Holds:
		w.Lines = append(w.Lines, fmt.Sprintf("You are at %s, which the changed pattern does not have in this form.", place))
	case c.Worked:
		w.Lines = append(w.Lines, fmt.Sprintf("You are at %s: some of what you have worked would be different now.", place))
		w.Answers = append(w.Answers, "go on with the changed pattern at "+place+" all the same")
	default:
		w.Lines = append(w.Lines, fmt.Sprintf("You are at %s: all you have worked is the same in both.", place))
		w.Answers = append(w.Answers, "go on with the changed pattern at "+place)
	}
	if c.Planned {
		w.Lines = append(w.Lines, "You changed the plan of this piece on purpose: the file knows nothing of that.")
	}
	w.Lines = append(w.Lines, "If you keep it you are asked again at each start.")
	return w
}

// answer acts on the answer to the question on the screen.
func (m Model) answer(n int) (Model, tea.Cmd) {
	switch m.asked {
	case whichPlace:
		c := m.opened.Opening.Question.Choices[n]
		return m.reply(func() (*Opened, error) { return m.desk.Settle(c) })
	case whichPattern:
		if n == 1 {
			return m.adopt()
		}
		return m.take(kept(m.opened))
	}
	m.screen = onWork
	m = m.sized()
	switch {
	case n == 0:
		m.broken = false // it goes on
		m.work.Retry()
		return m, nil
	case m.toShelf():
		return m.layAway()
	}
	return m.end()
}

// adopt goes on with the pattern as its file is now.
func (m Model) adopt() (Model, tea.Cmd) {
	o := m.opened
	return m.reply(func() (*Opened, error) { return m.desk.Adopt(o) })
}

// kept is a piece that goes on with the pattern it has.
func kept(o *Opened, notices ...string) *Opened {
	k := *o
	k.Change = nil
	k.Opening.Notices = append(slices.Clone(k.Opening.Notices), notices...)
	return &k
}

// refusedMsg tells of an answer that could not be saved.
type refusedMsg struct{ err error }

// reply acts on an answer, which goes to the disk first.
func (m Model) reply(how func() (*Opened, error)) (Model, tea.Cmd) {
	m.busy = true
	return m, safely(func() tea.Msg {
		o, err := how()
		if err != nil {
			return refusedMsg{err}
		}
		return openedMsg{opened: o}
	})
}

// refused tells why an answer could not be saved, and asks again. Where nobody was
// asked the piece goes on as it was.
func (m Model) refused(err error) (Model, tea.Cmd) {
	m.busy = false
	if errors.Is(err, save.ErrChangedUnderneath) {
		return m.reread()
	}
	why := whyRefused(err)
	if c := m.opened.Change; c != nil && c.Same() {
		return m.take(kept(m.opened, "the file's new words are not taken: "+why))
	}
	m.ask = m.ask.Tell("Your answer is not saved: " + why + ". Choose again; if you leave you are asked next time.")
	return m, nil
}

// whyRefused is why an answer could not be saved, in a few words that are safe to show.
func whyRefused(err error) string {
	if e := (*save.NotSavedError)(nil); errors.As(err, &e) {
		return e.Reason()
	}
	return safetext.Clean(err.Error())
}
