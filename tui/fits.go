package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/tui/fitted"
	"bypeg/tui/look"
	"bypeg/tui/report"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// fittedMsg brings the report of a pattern on the shelf.
type fittedMsg struct {
	report *report.Report
	of     look.ShowFit
}

// fetchFit reckons what a pattern on the shelf comes to.
func (m Model) fetchFit(of look.ShowFit) (Model, tea.Cmd) {
	m.busy = true
	return m, safely(func() tea.Msg {
		r, err := m.desk.Report(of)
		if err != nil {
			return failedMsg{err}
		}
		return fittedMsg{r, of}
	})
}

// showFit shows the report, from which the piece is begun or gone on with.
func (m Model) showFit(msg fittedMsg) Model {
	m.busy = false
	var chosen look.Wish = look.BeginPattern{Example: msg.of.Example}
	does := "begin"
	if msg.of.ID != "" {
		chosen, does = look.OpenPiece{ID: msg.of.ID}, "go on"
	}
	m.fitted = fitted.New(msg.report, does, chosen, m.style, m.options.Shelf)
	m.screen = onFitted
	return m.sized()
}

// Report is what a pattern on the shelf comes to, at the maker's own pace where that is
// known.
func (d *Desk) Report(of look.ShowFit) (*report.Report, error) {
	name, pegs := of.Example, 0
	text, _ := d.Example(name)
	if of.ID != "" {
		sum, err := d.summary(of.ID)
		if err == nil {
			text, err = sum.Pattern(d.Env, d.Root)
		}
		if err != nil {
			return nil, err
		}
		name, pegs = sum.Source, sum.Pegs
	}
	p, diags := file.LoadFor(name, text, pegs)
	if p == nil {
		return nil, diags
	}
	r := report.Of(pattern.Order{Pattern: p, Way: d.way(p)}, text)
	r.Pace = d.Pace()
	r.OwnPace = r.Pace > 0
	return r, nil
}

// Pace is how many stitches a minute the maker works, by the piece worked last; 0 where
// that tells too little. It looks only: no lock is taken and nothing is written.
func (d *Desk) Pace() float64 {
	id, ok, err := d.Last()
	if err != nil || !ok {
		return 0
	}
	sum, err := d.summary(id)
	if err != nil {
		return 0
	}
	text, err := sum.Pattern(d.Env, d.Root)
	if err != nil {
		return 0
	}
	p, _ := file.LoadFor(sum.Source, text, sum.Pegs)
	_, o, err := save.Look(d.Env, d.Root, id)
	if p == nil || err != nil {
		return 0
	}
	var pace track.Pace
	for _, m := range retell(o.History, p).moments {
		pace = pace.Mark(m)
	}
	const stitches = 1000
	seconds, ok := pace.Left(stitches)
	if !ok || seconds <= 0 {
		return 0
	}
	return stitches / seconds * 60
}
