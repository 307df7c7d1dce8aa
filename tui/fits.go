package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/tui/fitted"
	"bypeg/tui/look"
	"bypeg/tui/report"
	"bypeg/tui/save"
	"bypeg/tui/shelf"
	"bypeg/tui/track"
)

// fittedMsg brings the report of a pattern on the shelf, and the one by the maker's own
// figures, or nil.
type fittedMsg struct {
	report, own *report.Report
	of          look.ShowFit
	finished    bool // it is a piece off the loom
}

// fetchFit reckons what a pattern on the shelf comes to.
func (m Model) fetchFit(of look.ShowFit) (Model, tea.Cmd) {
	m.busy = true
	return m, safely(func() tea.Msg {
		r, own, err := m.desk.Report(of)
		if err != nil {
			return failedMsg{err}
		}
		s, err := m.desk.summary(of.ID)
		return fittedMsg{r, own, of, err == nil && lies(s) == shelf.OffLoom}
	})
}

// showFit shows the report, from which the piece is begun or gone on with.
func (m Model) showFit(msg fittedMsg) Model {
	m.busy = false
	var chosen look.Wish = look.BeginPattern{Example: msg.of.Example}
	does := "begin"
	switch {
	case msg.finished:
		chosen, does = look.MakeAnother{ID: msg.of.ID}, "make another"
	case msg.of.ID != "":
		chosen, does = look.OpenPiece{ID: msg.of.ID}, "go on"
	}
	m.fitted = fitted.New(msg.report, msg.own, does, chosen, m.style, m.options.Shelf.Over())
	m.screen = onFitted
	return m.sized()
}

// Report is what a pattern on the shelf comes to, at the maker's own pace where that is
// known, and the same by the figures of the finished piece that fits best; nil where none
// does.
func (d *Desk) Report(of look.ShowFit) (r, own *report.Report, err error) {
	source, called, pegs := of.Example, "", 0
	var text []byte
	var o pattern.Order
	if of.ID == "" {
		text, _ = d.Example(of.Example)
		p, found := file.Load(of.Example, text)
		if p == nil {
			return nil, nil, found
		}
		o = pattern.Order{Pattern: p, Way: d.way(p)}
	} else {
		var piece *save.Piece
		if o, piece, _, err = d.lookAt(of.ID); err != nil {
			return nil, nil, err
		}
		text, source, called, pegs = piece.Pattern(), piece.Source(), piece.Title(), piece.Pegs()
	}
	owns := d.Owns(source, &o.Pattern.Design)
	r = report.Of(o, text).WithOwns(owns)
	if len(owns) > 0 {
		own = byFigures(o.Way, text, pegs, &owns[0])
	}
	pace := d.Pace()
	for _, told := range []*report.Report{r, own} {
		if told != nil {
			told.Called, told.Pace, told.OwnPace = called, pace, pace > 0
		}
	}
	return r, own, nil
}

// byFigures is the report of a pattern by those of a finished piece; nil where they can't be
// written into it.
func byFigures(way pattern.Way, text []byte, pegs int, by *report.Own) *report.Report {
	changed, carried, err := by.Figures.In(text)
	if err != nil {
		return nil
	}
	p, _ := file.LoadFor(by.Title, changed, pegs)
	if p == nil {
		return nil
	}
	r := report.Of(pattern.Order{Pattern: p, Way: way}, changed)
	r.By, r.Heights = by, append(carried, r.Heights...)
	return r
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
