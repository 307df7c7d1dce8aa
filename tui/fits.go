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
	m.fitted = fitted.New(msg.report, does, chosen, m.style, m.options.Shelf.Over())
	m.screen = onFitted
	return m.sized()
}

// Report is what a pattern on the shelf comes to, at the maker's own pace where that is
// known.
func (d *Desk) Report(of look.ShowFit) (*report.Report, error) {
	var r *report.Report
	if of.ID == "" {
		text, _ := d.Example(of.Example)
		p, found := file.Load(of.Example, text)
		if p == nil {
			return nil, found
		}
		r = report.Of(pattern.Order{Pattern: p, Way: d.way(p)}, text)
	} else {
		o, piece, _, err := d.lookAt(of.ID)
		if err != nil {
			return nil, err
		}
		r = report.Of(o, piece.Pattern())
		r.Called = piece.Title()
	}
	r.Pace = d.Pace()
	r.OwnPace = r.Pace > 0
	return r, nil
}

// lookAt is a piece with its pattern, worked the way it was begun, and its history. It is
// not taken to the desk.
func (d *Desk) lookAt(id string) (pattern.Order, *save.Piece, save.History, error) {
	piece, opening, err := save.Look(d.Env, d.Root, id)
	if err != nil {
		return pattern.Order{}, nil, save.History{}, err
	}
	p, found := file.LoadFor(piece.Source(), piece.Pattern(), piece.Pegs())
	if p == nil {
		return pattern.Order{}, nil, save.History{}, found
	}
	return pattern.Order{Pattern: p, Way: piece.Way()}, piece, opening.History, nil
}

// Pace is how many stitches a minute the maker works, by the piece worked last; 0 where
// that tells too little. It looks only: no lock is taken and nothing is written.
func (d *Desk) Pace() float64 {
	id, ok, err := d.Last()
	if err != nil || !ok {
		return 0
	}
	o, _, history, err := d.lookAt(id)
	if err != nil {
		return 0
	}
	var pace track.Pace
	for _, m := range retell(history, o.Pattern).moments {
		pace = pace.Mark(m)
	}
	const stitches = 1000
	seconds, ok := pace.Left(stitches)
	if !ok || seconds <= 0 {
		return 0
	}
	return stitches / seconds * 60
}
