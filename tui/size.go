package tui

import (
	"errors"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/tui/save"
)

// Size puts down what the piece in hand measures and weighs, once it is off the loom, as one
// change more on its way to the disk, and says what follows from it.
func (d *Desk) Size(text string) (says string, err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.writer == nil || d.inHand == nil {
		return "", errors.New("the piece is only looked at: nothing is put down")
	}
	at, p := d.inHand.Place(), d.order.Pattern
	if at.Phase != pattern.Finishing {
		return "", errors.New("the piece is on the loom: bind it off first")
	}
	f, err := fit.ParseFinished(text, p.Form)
	if err != nil {
		return "", err
	}
	own, err := fit.OwnOf(p, f)
	if err != nil {
		return "", err
	}
	d.writer.Put(save.Step{Kind: save.Measured, Place: at, Of: p.Of(at), Text: f.Of(p.Form)})
	return sayOwn(own), nil
}

// sayMade is what was put down of an opened piece; "" for nothing.
func (o *Opened) sayMade() string {
	made := ""
	for r := range o.Opening.History.All() {
		if r.Kind == save.Measured {
			made = r.Text
		}
	}
	_, says := saysMade(o.Order.Pattern, made)
	return says
}
