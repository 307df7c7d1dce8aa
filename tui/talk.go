package tui

import (
	"errors"

	"bypeg/tui/ask"
	"bypeg/tui/plain"
	"bypeg/tui/save"
)

// Talk works a piece on the desk line by line, as Model does it screen by screen: first
// it asks what must be asked, then the piece is worked. It returns when the maker leaves,
// or with what went wrong; the piece still lies on the desk then.
func Talk(d *Desk, o *Opened, c *plain.Console, options plain.Options) error {
	defer c.Say() // no prompt is left standing there
	t := talk{d, c, options}
	var err error
	for err == nil && o != nil {
		if o, err = t.settle(o); err == nil && o != nil {
			o, err = t.work(o)
		}
	}
	return errors.Join(err, c.Err())
}

// Look says what is to be done now, and no more. The piece was opened to look only.
func Look(d *Desk, o *Opened, c *plain.Console, options plain.Options) error {
	p := plain.Piece{Piece: d.Start(o)}
	p.Held = "" // nobody asked to work it
	plain.New(p, c, options).Close()
	return c.Err()
}

// talk is the router over what is said.
type talk struct {
	desk    *Desk
	console *plain.Console
	options plain.Options
}

// inWords is how a question is put in a talk.
var inWords = manner{anyRow: "go and a number goes to any row"}

// settle asks all that must be answered before the piece is worked. It returns nil where
// the maker leaves without an answer.
func (t talk) settle(o *Opened) (*Opened, error) {
	for o != nil && (o.asksPlace() || o.Change != nil) {
		next, err := t.answer(o)
		switch {
		case errors.Is(err, save.ErrChangedUnderneath):
			if next, err = t.desk.Reread(); err != nil {
				return nil, err
			}
		case err != nil && !o.asksPlace() && o.Change.Same(): // nobody was asked
			next = kept(o, "the file's new words are not taken: "+whyRefused(err))
		case err != nil:
			t.console.Say("your answer is not saved: " + whyRefused(err) + "; if you leave you are asked next time")
			next = o
		}
		o = next
	}
	return o, nil
}

// asksPlace tells whether it must be asked which place is the right one.
func (o *Opened) asksPlace() bool { return o.Opening.Question != nil && o.Opening.LookOnly == "" }

// answer asks what comes first and acts on the answer; nil is none.
func (t talk) answer(o *Opened) (*Opened, error) {
	switch {
	case o.asksPlace():
		if n, ok := t.choose(placeQuestion(o, t.desk.Env.Now(), inWords)); ok {
			return t.desk.Settle(o.Opening.Question.Choices[n])
		}
		return nil, nil
	case o.Change.Same():
		return t.desk.Adopt(o)
	}
	switch n, ok := t.choose(patternQuestion(o)); {
	case !ok:
		return nil, nil
	case n == 0:
		return kept(o), nil
	}
	return t.desk.Adopt(o)
}

func (t talk) choose(q ask.Question) (int, bool) {
	return t.console.Choose(q.Title, q.Lines, q.Answers)
}

// work works a piece until it must be opened anew, and returns it as it then is; nil
// where the maker leaves.
func (t talk) work(o *Opened) (*Opened, error) {
	var moved *Opened
	var failed error
	p := plain.Piece{Piece: t.desk.Start(o), Made: o.sayMade(), Size: t.desk.Size}
	if o.Opening.Held {
		p.Moved = func() bool {
			now, mine, err := t.desk.TakeOver(o)
			if err == nil && now != nil && (mine || now.Opening.Place != o.Opening.Place) {
				moved = now
			}
			failed = err
			return moved != nil || err != nil
		}
	}
	talk := plain.New(p, t.console, t.options)
	defer talk.Close()
	for {
		switch talk.Run() {
		case plain.Left:
			return nil, nil
		case plain.Moved:
			return moved, failed
		case plain.Replanned:
			return t.desk.GoOn(talk.GoOn())
		}
		again, err := t.desk.Reread()
		if !errors.Is(err, errFolderGone) {
			return again, err
		}
		talk.FolderGone()
	}
}

// Look opens a piece to look only, without its lock: it changes nothing.
func (d *Desk) Look(id string) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if err := d.layAway(); err != nil {
		return nil, err
	}
	return d.take(id, save.Look)
}
