// Package plan is how a piece on the loom can be gone on with: what it measures by now,
// how far the yarn that is left reaches, and what becomes of it in each of the ways that
// are still open. It draws nothing and saves nothing.
package plan

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// Plan is a piece with what its maker has told of it. Telling more makes another Plan.
type Plan struct {
	Order         pattern.Order
	Done          int            // rows; one that is begun counts
	RowsDone      int            // those that are whole
	Width, Height measure.Length // of all pegs, and of the rows done; 0 where not told
	Stock         fit.Stock      // the yarn that is left; zero where not told
	Yarn          pattern.Yarn   // of which one
	Left          *fit.Left      // how far it reaches; nil where Stock is not told
	LeftWhy       string         // why that can't be said
	Ways          []fit.Ending   // as planned first
	Reached       int            // the way that the yarn left reaches for; -1 for none
	PlannedWidth  measure.Length // by the pattern; 0 where it has no gauge
	PlannedHeight measure.Length
	text          []byte
	at            pattern.Place
}

// New is the plan of a piece of which nothing is told yet. The text is its pattern's. An
// error says why nothing can be planned.
func New(text []byte, o pattern.Order, at pattern.Place) (Plan, error) {
	if text == nil {
		return Plan{}, errors.New("the pattern can't be laid on the pegs of this piece: plan with a file that says its peg count")
	}
	p := Plan{Order: o, text: text, at: at, Done: o.RowsDone(at), RowsDone: o.RowsDone(at)}
	if at.Phase == pattern.Working && at.Done > 0 {
		p.Done = at.Row
	}
	return p.reckoned()
}

// reckoned is the plan with all that follows from what is told.
func (p Plan) reckoned() (Plan, error) {
	now := fit.Progress{Rows: p.Done, Width: p.Width, Height: p.Height}
	now.Closed = p.at.Phase == pattern.Finishing || p.at.Phase == pattern.BindingOff && p.at.Done > 0
	r, err := fit.Replan(p.text, now)
	if err == nil {
		p = p.withLeft(r.Endings[0].Text)
	}
	if p.Left != nil && !p.Left.Past {
		now.YarnRow, _ = p.Left.StopRow()
		r, err = fit.Replan(p.text, now)
	}
	if err != nil {
		return p, errors.New(fit.Advice(err))
	}
	p.Ways, p.Reached = r.Endings, r.Reached
	p.PlannedWidth, p.PlannedHeight = r.Width, r.Height
	return p, nil
}

// withLeft is the plan with how far the yarn reaches, by the gauge that the piece has: the
// text is as planned, with what was measured. It may be nil.
func (p Plan) withLeft(text []byte) Plan {
	p.Left, p.LeftWhy = nil, ""
	if p.Stock == (fit.Stock{}) {
		return p
	}
	on, _ := file.Load("the plan", text)
	if on == nil {
		on = p.Order.Pattern
	}
	var err error
	if p.Left, err = fit.LeftOf(pattern.Order{Pattern: on, Way: p.Order.Way}, p.at, p.Yarn, p.Stock); err != nil {
		p.LeftWhy = err.Error()
	}
	return p
}

// WithWidth is the plan where the piece is so wide, or round; "" is not measured.
func (p Plan) WithWidth(text string) (Plan, error) {
	was := p
	var err error
	if p.Width, err = length(text); err == nil {
		p, err = p.reckoned()
	}
	return orAsItWas(p, was, err)
}

// WithHeight is the plan where the rows that are done are so high; "" is not measured.
func (p Plan) WithHeight(text string) (Plan, error) {
	was := p
	var err error
	if p.Height, err = length(text); err == nil {
		p, err = p.reckoned()
	}
	return orAsItWas(p, was, err)
}

// WithYarn is the plan where so much yarn is left: "18 g", or "18 g of NAME" of one of
// several; "" is not told.
func (p Plan) WithYarn(text string) (Plan, error) {
	was := p
	var err error
	amount, name, named := strings.Cut(text, " of ")
	p.Stock, p.Yarn = fit.Stock{}, 0
	if named {
		p.Yarn, err = p.yarnNamed(strings.TrimSpace(name))
	}
	if err == nil && text != "" {
		p.Stock, err = fit.ParseStock(amount)
	}
	if err == nil {
		p, err = p.reckoned()
	}
	return orAsItWas(p, was, err)
}

func orAsItWas(p, was Plan, err error) (Plan, error) {
	if err != nil {
		return was, err
	}
	return p, nil
}

func length(text string) (measure.Length, error) {
	if text == "" {
		return 0, nil
	}
	l, err := measure.ParseLength(text)
	if cm, bare := measure.ParseLength(text + " cm"); err != nil && bare == nil { // sizes are told in cm here
		return cm, nil
	}
	return l, err
}

// YarnNames are the names of the pattern's yarns, the main one first.
func (p Plan) YarnNames() []string {
	var names []string
	for i, y := range p.Order.Pattern.Yarns {
		main := ""
		if i == 0 {
			main = "the main one"
		}
		names = append(names, cmp.Or(y.Colour, y.Name, main))
	}
	return names
}

func (p Plan) yarnNamed(name string) (pattern.Yarn, error) {
	names := p.YarnNames()
	for i, y := range p.Order.Pattern.Yarns {
		if name == names[i] || name == y.Name {
			return pattern.Yarn(i), nil
		}
	}
	return 0, fmt.Errorf("the pattern has no yarn %s: it has %s", safetext.Clean(name), strings.Join(names, ", "))
}

// Short tells whether a way goes further than the yarn that is left is sure to reach.
func (p Plan) Short(i int) bool {
	if p.Left == nil || p.Left.Past || p.Left.Beside {
		return false
	}
	row, enough := p.Left.StopRow()
	e := p.Ways[i]
	last := e.Rows
	if e.Border > 0 {
		last = e.Border - 1
	}
	return !enough || last > row
}

// Changes tells whether a way makes anything else of the piece than what is planned.
func (p Plan) Changes(i int) bool { return i > 0 || p.Width > 0 || p.Height > 0 }

// Words tell a way as a change made on purpose.
func (p Plan) Words(i int) string {
	var says []string
	if i > 0 {
		says = append(says, p.sayRows(i))
	}
	if measured := p.SayMeasured(); measured != "" {
		says = append(says, "measured "+measured)
	}
	return "planned anew: " + strings.Join(says, "; ")
}

// Wide is the word for the width of a piece's form.
func (p Plan) Wide() string {
	if p.Order.Pattern.Form == pattern.Tube {
		return "round"
	}
	return "wide"
}
