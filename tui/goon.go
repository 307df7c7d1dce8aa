package tui

import (
	"errors"
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
	"bypeg/tui/save"
)

// GoOn goes on with the piece on the desk after a pattern of its own, told in words: a
// change on purpose. What is worked must be the same in it. Where it can't be saved the
// piece goes on as it was, and says so.
func (d *Desk) GoOn(text []byte, words string) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.piece == nil || d.writer == nil {
		return nil, save.ErrNoPiece
	}
	at, unsaved, why := d.writer.Drain(drainFor)
	d.writer = nil
	if unsaved == 0 {
		why = d.changePlan(text, at, words)
	}
	id := d.piece.ID()
	if err := d.layAway(); err != nil {
		return nil, err
	}
	o, err := d.take(id, save.Open)
	if err == nil && why != nil {
		o.Opening.Notices = append([]string{"the plan stays as it was: " + whyRefused(why)}, o.Opening.Notices...)
	}
	return o, err
}

// changePlan makes a text the pattern of the piece.
func (d *Desk) changePlan(text []byte, at pattern.Place, words string) error {
	p, diags := file.LoadFor(d.piece.Source(), text, d.piece.Pegs())
	if p == nil {
		return fmt.Errorf("the pattern would be wrong: %s", safetext.Clean(diags.Err().Error()))
	}
	to, err := d.placeIn(p, at)
	if err != nil {
		return err
	}
	if err := d.piece.ChangePattern(text, to, p.Of(to), words); err != nil {
		return err
	}
	d.order.Pattern, d.text = p, string(text)
	return nil
}

// placeIn is where the work stands in another plan of the piece on the desk: after as many
// rows, none of which may be another one.
func (d *Desk) placeIn(p *pattern.Pattern, at pattern.Place) (pattern.Place, error) {
	was := d.order.Pattern
	worked, rows := d.order.RowsDone(at), p.Grid.Rows()
	if at.Phase == pattern.Working && at.Done > 0 {
		worked = at.Row
	}
	first, _, n := differing(was.Grid, p.Grid)
	switch {
	case was.Form != p.Form || was.Pegs != p.Pegs || worked > rows || n > 0 && first <= worked:
		return at, errors.New("some of what is worked would be different")
	case at.Phase == pattern.Finishing || at.Phase == pattern.BindingOff && at.Done > 0:
		if rows != was.Grid.Rows() {
			return at, errors.New("it is bound off already")
		}
		return at, nil
	case at.Phase == pattern.CastingOn || at.Done > 0:
		return at, nil
	case worked == rows:
		return pattern.Place{Phase: pattern.BindingOff}, nil
	}
	return pattern.Place{Phase: pattern.Working, Row: worked + 1}, nil
}

// onPegs is the text of the pattern on the desk with the peg count that the piece has.
func (d *Desk) onPegs() []byte {
	text := []byte(d.text)
	if d.order.Pattern.StatedPegs == 0 {
		return text
	}
	text, err := file.Rewrite(text, []file.Change{{In: file.Under(), Key: "pegs", Value: d.order.Pattern.Pegs}})
	if err != nil {
		return nil
	}
	return text
}
