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
	if c := compare(d.order.Pattern, p, text, at); c.Worked || !c.Holds {
		return errors.New("some of what is worked would be different")
	}
	return d.piece.ChangePattern(text, at, p.Of(at), words)
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
