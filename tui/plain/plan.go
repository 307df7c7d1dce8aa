package plain

import (
	"fmt"
	"strconv"
	"strings"

	"bypeg/pattern"
	"bypeg/tui/plan"
)

// planning is what the maker has told of the piece, and the place at which the ways to go on
// were said last.
type planning struct {
	wide, high, left string
	said             bool
	at               pattern.Place
	warned           int // of the way of that number
}

// onward is a way to go on that was chosen.
type onward struct {
	text  []byte
	words string
}

// GoOn is the way to go on that ended the talk: the pattern's text, and words for it.
func (t *Talk) GoOn() (text []byte, words string) { return t.onward.text, t.onward.words }

// planOn says how the piece can be gone on with, takes a measure, or goes on in one of the
// ways, by its number.
func (t *Talk) planOn(text string) {
	if n, err := strconv.Atoi(text); err == nil {
		t.chooseWay(n)
		return
	}
	told := t.planning
	word, rest, _ := strings.Cut(text, " ")
	switch rest = strings.TrimSpace(rest); word {
	case "":
	case "wide", "round":
		told.wide = rest
	case "high":
		told.high = rest
	case "left":
		told.left = rest
	default:
		t.Say("plan alone says the ways to go on; plan wide 22 cm, plan high 14 cm and plan left 18 g tell what is; plan 2 goes on in the second way")
		return
	}
	p, err := t.plan(told)
	if err != nil {
		t.Say(err.Error())
		return
	}
	t.planning = told
	t.sayWays(p)
}

// plan is what can be made of the piece with what was told of it.
func (t *Talk) plan(told planning) (plan.Plan, error) {
	p, err := plan.New(t.piece.Text, t.piece.Tracker.Order(), t.piece.Tracker.Place())
	if err == nil {
		p, err = p.WithWidth(told.wide)
	}
	if err == nil {
		p, err = p.WithHeight(told.high)
	}
	if err == nil {
		p, err = p.WithYarn(told.left)
	}
	return p, err
}

// sayWays says what is planned, how far the yarn reaches, and the ways.
func (t *Talk) sayWays(p plan.Plan) {
	t.planning.said, t.planning.at = true, t.piece.Tracker.Place()
	if says := p.SayPlanned(); says != "" {
		t.Say("planned: " + says)
	}
	if says := p.SayYarn(); says != "" {
		t.Say("yarn left " + t.planning.left + ": " + says)
	}
	for i := range p.Ways {
		t.Say(strings.TrimSuffix(fmt.Sprintf("%d: %s; %s", i+1, p.SayShape(i), p.SayBriefly(i)), "; "))
	}
	t.Say("plan and a number goes on that way")
}

// chooseWay goes on in a way that was said.
func (t *Talk) chooseWay(n int) {
	p, err := t.plan(t.planning)
	switch {
	case err != nil:
		t.Say(err.Error())
	case !t.planning.said || t.planning.at != t.piece.Tracker.Place():
		t.sayWays(p) // the numbers may mean others by now
	case n < 1 || n > len(p.Ways):
		t.Say(fmt.Sprintf("there are ways 1 to %d", len(p.Ways)))
	case !p.Changes(n - 1):
		t.Say("the piece goes on as planned")
	case t.piece.Saver == nil:
		t.Say(t.lookingOnly())
	case t.saving.waiting() > 0:
		t.Say(t.notSaved())
	case p.Ways[n-1].Text == nil:
		t.Say(plan.CannotChange)
	case p.Short(n-1) && t.planning.warned != n:
		t.planning.warned = n
		t.Say(fmt.Sprintf("%s for that: plan %d again takes it all the same", plan.NotReached, n))
	case t.guarded(worksOn): // another pattern ends it
	default:
		if had := t.underWay(); had != nil {
			t.Say(sayWhichDropped(t.piece.Tracker.Order(), *had))
		}
		t.onward = onward{p.Ways[n-1].Text, p.Words(n - 1)}
		t.end(Replanned)
	}
}
