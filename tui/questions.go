package tui

import (
	"fmt"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"bypeg/tui/ask"
	"bypeg/tui/look"
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
	case o.Opening.Question != nil && o.Opening.LookOnly == "":
		return m.inquire(whichPlace).calm()
	case o.Change != nil && o.Change.Same():
		return m.adopt()
	case o.Change != nil:
		return m.inquire(whichPattern), nil
	}
	m.work = work.New(m.desk.Start(o), m.style, look.NewWorkKeys())
	m.screen, m.working = onWork, true
	return m.sized(), tea.Batch(m.work.Init(), m.watchLock())
}

// inquire puts a question on the screen.
func (m Model) inquire(q question) Model {
	m.asked = q
	m.ask = ask.New(m.wording(q), m.style, look.NewListKeys())
	m.screen = onAsk
	return m.sized()
}

func (m Model) wording(q question) ask.Question {
	switch q {
	case whichPlace:
		return m.placeQuestion(m.opened.Opening.Question)
	case whichPattern:
		return m.patternQuestion(m.opened.Change)
	}
	return ask.Question{
		Title:   "Not everything is saved",
		Lines:   []string{m.work.Trouble()},
		Answers: []string{"try again to save", "leave all the same"},
	}
}

func (m Model) placeQuestion(q *save.Question) ask.Question {
	o := m.opened.Order
	w := ask.Question{Title: o.Pattern.Title + ": which place is the right one?", Lines: m.opened.Opening.Notices}
	switch q.Kind {
	case save.DamagedEnd:
		w.Lines = append(w.Lines, "The last saved line is damaged: "+q.Line)
	case save.LineAdded:
		w.Lines = append(w.Lines, "A line was added by hand: "+q.Line)
	case save.TwoPlaces:
		if slices.ContainsFunc(q.Choices, func(c save.Choice) bool { return c.Origin == save.FromMemory }) {
			break // the notice has told it
		}
		w.Lines = append(w.Lines, "Two accounts of the work do not agree. An old copy may have come back, or the piece was worked on two machines.")
	}
	if n := m.opened.Dropped; n > 0 {
		w.Lines = append(w.Lines, fmt.Sprintf("%s after that, in round brackets, could not be saved.", track.Plural(n, "step")))
	}
	w.Lines = append(w.Lines, "The fabric knows best: count its rows if you are not sure. Nothing is thrown away.")
	for _, c := range q.Choices {
		says := c.Origin.String()
		if o.Pattern.Holds(c.Place) {
			says = track.SayPlace(o, c.Place) + ", from " + says
		} else {
			says += ": a place that is not in the pattern"
		}
		if !c.Time.IsZero() {
			says += ", " + c.Time.Format("2 Jan 15:04")
		}
		w.Answers = append(w.Answers, says)
	}
	return w
}

func (m Model) patternQuestion(c *Change) ask.Question {
	o, at := m.opened.Order, m.opened.Opening.Place
	w := ask.Question{Title: "The pattern of " + o.Pattern.Title + " has changed", Lines: slices.Concat(m.opened.Opening.Notices, c.Says)}
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
	return w
}

// answer acts on the answer to the question on the screen.
func (m Model) answer(n int) (Model, tea.Cmd) {
	switch m.asked {
	case whichPlace:
		o := m.opened
		return m.open(func() (*Opened, error) { return m.desk.Settle(o, o.Opening.Question.Choices[n]) })
	case whichPattern:
		if n == 1 {
			return m.adopt()
		}
		kept := *m.opened
		kept.Change = nil
		return m.take(&kept)
	}
	m.screen = onWork
	m = m.sized()
	switch {
	case n == 0:
		m.work.Retry()
		return m, nil
	case m.fromHome:
		return m.layAway()
	}
	return m, tea.Quit
}

// adopt goes on with the pattern as its file is now.
func (m Model) adopt() (Model, tea.Cmd) {
	o := m.opened
	return m.open(func() (*Opened, error) { return m.desk.Adopt(o) })
}

// lockEvery is how often a piece that is open elsewhere is looked after.
const lockEvery = 500 * time.Millisecond

// lockMsg brings a piece that is open elsewhere as it is now.
type lockMsg struct {
	opened *Opened
	mine   bool // it can be worked from now on
}

// watchLock looks again, after a while, at a piece that is open in another terminal:
// it may have become free, and its place moves. It runs for no other piece.
func (m Model) watchLock() tea.Cmd {
	if m.opened == nil || !m.opened.Opening.Held {
		return nil
	}
	return tea.Tick(lockEvery, func(time.Time) tea.Msg {
		o, mine, err := m.desk.TakeOver()
		if err != nil {
			return failedMsg{err}
		}
		return lockMsg{o, mine}
	})
}

func (m Model) lookedAgain(msg lockMsg) (tea.Model, tea.Cmd) {
	switch {
	case msg.opened == nil || m.screen == onShelf:
		return m, nil // it was laid away meanwhile
	case msg.mine:
		return m.take(msg.opened)
	case m.screen == onWork && !m.work.Covered() && msg.opened.Opening.Place != m.opened.Opening.Place:
		return m.take(msg.opened)
	}
	return m, m.watchLock()
}
