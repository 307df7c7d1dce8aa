package find

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
)

// Talk is a talk about the place, one question at a time. What is said makes another Talk.
type Talk struct {
	Order    pattern.Order
	Evidence Evidence
	Answer   Answer // what is known by now, and what to ask next
	Said     []Said
}

// Said is a question that was answered; empty where it was passed over.
type Said struct {
	Question Question
	Answer   string
	before   Evidence
}

// Begin is the talk about a piece that was left at a place.
func Begin(o pattern.Order, noted pattern.Place) Talk {
	return Talk{Order: o}.knowing(Evidence{Noted: noted})
}

func (t Talk) knowing(e Evidence) Talk {
	t.Evidence, t.Answer = e, Search(t.Order, e)
	return t
}

// OffLoom is said where there is no place to talk about.
const OffLoom = "this piece is off the loom: there is no place on it to look for"

// Off tells whether the piece is off the loom, so that there is nothing to talk about.
func (t Talk) Off() bool { return t.Evidence.Noted.Phase == pattern.Finishing }

// Reply answers the question that is asked; an empty answer passes it over. The error says
// what to write instead, and the talk stays as it is.
func (t Talk) Reply(text string) (Talk, error) {
	text = strings.TrimSpace(text)
	q, was := t.Answer.Ask, t.Evidence
	next := was.Skip(q)
	if text != "" {
		c, err := q.Read(t.Order, text)
		if err != nil {
			return t, err
		}
		next = was.With(c)
	}
	t.Said = append(slices.Clip(t.Said), Said{q, text, was})
	return t.knowing(next), nil
}

// Back takes the last answer back, if there is one.
func (t Talk) Back() Talk {
	n := len(t.Said)
	if n == 0 {
		return t
	}
	last := t.Said[n-1]
	t.Said = t.Said[:n-1]
	return t.knowing(last.before)
}

// Rows is how many rows agree with what was said, the one above the last among them.
func (t Talk) Rows() int {
	n, last := 0, -1
	rows := make([]int, 0, len(t.Answer.Fits))
	for _, f := range t.Answer.Fits {
		rows = append(rows, f.Row)
	}
	slices.Sort(rows)
	for _, row := range rows {
		if row != last {
			n, last = n+1, row
		}
	}
	return n
}

// Guess is a place that may be the one.
type Guess struct {
	Place pattern.Place
	Says  string // where the work stands there, and what disagrees with it
}

// How many places are named where nothing more can tell them apart, and where none agrees.
const (
	mostGuesses = 6
	mostDoubts  = 3
)

// Over says over several guesses, or over those of which none agrees, what they have in common;
// it is empty over the only place that agrees.
func (t Talk) Over() string {
	guesses, agree := t.Guesses()
	switch {
	case len(guesses) == 0:
		return ""
	case len(t.Answer.Two) > 0:
		return "no place agrees with all of it, nor with all but one thing; these agree but for two, the likeliest first:"
	case !agree:
		return "no place agrees with all of it; these agree but for one thing, the likeliest first:"
	case t.Alone():
		return ""
	case len(t.Evidence.Skipped) > 0:
		return "these agree with what was answered, the likeliest first:"
	}
	return "nothing more can tell these apart; the likeliest first:"
}

// Alone tells whether there is but one guess that agrees with all that was said; a near one may
// stand beside it.
func (t Talk) Alone() bool { return len(t.Answer.Fits) == 1 }

// Guesses are the likeliest places, the likeliest first: those that agree with all that was
// said, or else, as agree tells, with all but one thing or two. Beside the only place that agrees
// stands the near one, see Answer.Near.
func (t Talk) Guesses() (all []Guess, agree bool) {
	for _, f := range t.Answer.Fits[:min(len(t.Answer.Fits), mostGuesses)] {
		if n := t.Evidence.Noted; n.Phase == pattern.Working && n.Row == f.Row && f.From <= n.Done && n.Done <= f.To {
			f.From = n.Done // of places side by side rather the one that is noted than the first
		}
		all = append(all, Guess{f.Place(t.Order.Pattern), f.Where(t.Order)})
	}
	if near, ok := t.Answer.Near(t.Order, t.Evidence); ok {
		all = append(all, Guess{near.Place(t.Order.Pattern), near.Instead(t.Order, t.Evidence)})
	}
	if len(all) > 0 {
		return all, true
	}
	for _, b := range t.Answer.But[:min(len(t.Answer.But), mostDoubts)] {
		all = append(all, Guess{b.Place(t.Order.Pattern), b.Where(t.Order) + "; it agrees but for " + b.Doubt(t.Order, t.Evidence)})
	}
	for _, two := range t.Answer.Two {
		all = append(all, Guess{two.Place(t.Order.Pattern), two.Where(t.Order) + "; " + two.Agrees(t.Order, t.Evidence)})
	}
	return all, false
}

// More says how many rows more agree than Guesses names; it is empty where none does.
func (t Talk) More() string {
	named, word := map[int]bool{}, t.Order.Pattern.Form.RowWord()
	guesses, agree := t.Guesses()
	if len(t.Answer.Two) > 0 {
		return ""
	}
	for _, f := range t.Answer.Fits[:min(len(t.Answer.Fits), mostGuesses)] {
		named[f.Row] = true
	}
	if agree {
		return moreRows(t.Rows()-len(named), word)
	}
	rows := map[int]bool{}
	for i, b := range t.Answer.But {
		rows[b.Row] = true
		if i < len(guesses) {
			named[b.Row] = true
		}
	}
	return moreRows(len(rows)-len(named), word)
}

func moreRows(n int, word string) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("and %s more", counted(n, word))
}
