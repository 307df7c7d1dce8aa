package tui

import (
	"fmt"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
	"bypeg/pattern/safetext"
	"bypeg/tui/report"
	"bypeg/tui/save"
)

// PutDown keeps what a finished piece measures and weighs; nothing takes that away. What was
// done comes back in words.
func (d *Desk) PutDown(id string, f fit.Finished) (says string, err error) {
	s, err := d.summary(id)
	if err != nil {
		return "", err
	}
	if s.Place.Phase != pattern.Finishing { // it was gone on with in another terminal
		return "", fmt.Errorf("%s is on the loom: bind it off first", s.Title)
	}
	p, err := d.patternListed(s)
	if err != nil {
		return "", err
	}
	says = "nothing is put down of " + s.Title
	if f != (fit.Finished{}) {
		own, err := fit.OwnOf(p, f)
		if err != nil {
			return "", err
		}
		says = s.Title + " is " + own.Say()
	}
	undone := "nothing is put down of " + s.Title
	if s.Made != "" {
		undone = s.Title + " is " + sayKept(p, s.Made) + " again"
	}
	kept := f.Of(p.Form)
	return d.shelve(shelved{
		id: id, title: s.Title, says: says, undone: undone,
		stands: func(now save.Summary) bool { return now.Made == kept },
		undo:   func() error { return save.Measure(d.Env, d.Root, id, s.Made) },
	}, save.Measure(d.Env, d.Root, id, kept))
}

// OffLoom is a finished piece.
type OffLoom struct {
	ID   string
	Form pattern.Form
	Says string // what was put down of it; "" is nothing yet
}

// Finished is the last finished piece of a source; nil where there is none.
func (d *Desk) Finished(source string) (*OffLoom, error) {
	all, err := save.List(d.Env, d.Root)
	if err != nil {
		return nil, err
	}
	for _, s := range all {
		if s.Source != safetext.Clean(source) || !finished(s) {
			continue
		}
		p, err := d.patternListed(s)
		if err != nil {
			return nil, err
		}
		_, says := saysMade(p, s.Made)
		return &OffLoom{s.ID, p.Form, says}, nil
	}
	return nil, nil
}

// finished tells whether a listed piece is off the loom, be it put away or not.
func finished(s save.Summary) bool {
	return s.Err == "" && s.Shelf != save.Deleted && s.Place.Phase == pattern.Finishing
}

// patternListed is the pattern that a listed piece is made after.
func (d *Desk) patternListed(s save.Summary) (*pattern.Pattern, error) {
	text, err := s.Pattern(d.Env, d.Root)
	if err != nil {
		return nil, err
	}
	p, found := file.LoadFor(s.Source, text, s.Pegs)
	if p == nil {
		return nil, found
	}
	return p, nil
}

// owned is a finished piece with its figures and what it was made after.
type owned struct {
	report.Own
	source  string
	pattern *pattern.Pattern
}

// owned are the maker's finished pieces that tell figures, the one worked last first.
func (d *Desk) owned() []owned {
	all, _ := save.List(d.Env, d.Root) // without a list nothing is offered
	var pieces []owned
	for _, s := range all {
		if s.Made == "" || !finished(s) {
			continue
		}
		p, err := d.patternListed(s)
		if err != nil {
			continue
		}
		f, err := fit.ParseKept(s.Made)
		if err != nil {
			continue
		}
		if own, err := fit.OwnOf(p, f); err == nil && own.SayFigures() != "" {
			pieces = append(pieces, owned{report.Own{Title: s.Title, Day: d.day(s), Date: s.Time.Format("2006-01-02"), Figures: own}, s.Source, p})
		}
	}
	return pieces
}

// day is when a piece was worked last, without the year where it is this one.
func (d *Desk) day(s save.Summary) string {
	if s.Time.Year() == d.Env.Now().Year() {
		return s.Time.Format("2 Jan")
	}
	return s.Time.Format("2 Jan 2006")
}

// Owns are the maker's finished pieces by whose figures a pattern could be reckoned: first
// those that were made after it, then those on such pegs in such yarn.
func (d *Desk) Owns(source string, design *pattern.Design) []report.Own {
	var same, like []report.Own
	for _, piece := range d.owned() {
		switch {
		case piece.source == safetext.Clean(source): // as a list has it
			same = append(same, piece.Own)
		case fit.Like(&piece.pattern.Design, design):
			like = append(like, piece.Own)
		}
	}
	return slices.Concat(same, like)
}

// AllOwns are all finished pieces of the maker's that tell figures.
func (d *Desk) AllOwns() []report.Own {
	var all []report.Own
	for _, piece := range d.owned() {
		all = append(all, piece.Own)
	}
	return all
}

// saysMade is what was put down of a finished piece, with what follows from it; "" for none.
func saysMade(p *pattern.Pattern, made string) (f fit.Finished, says string) {
	if made == "" {
		return f, ""
	}
	f, err := fit.ParseKept(made)
	if err == nil {
		var own *fit.Own
		if own, err = fit.OwnOf(p, f); err == nil {
			return f, sayOwn(own)
		}
	}
	return f, "measured: " + sayKept(p, made)
}

func sayOwn(own *fit.Own) string { return "measured: " + own.Say() }

// sayKept is a size and a weight as they are kept, for people.
func sayKept(p *pattern.Pattern, made string) string {
	if f, err := fit.ParseKept(made); err == nil {
		return f.Say(p.Form)
	}
	return safetext.Clean(made)
}
