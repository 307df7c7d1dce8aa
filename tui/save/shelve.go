package save

import (
	"errors"
	"fmt"
	"strconv"

	"bypeg/pattern/safetext"
)

// Shelf is where a piece lies. It is told by a record like any step: nothing on disk is
// moved, and nothing is ever taken away.
type Shelf uint8

// The places on the shelf.
const (
	OnLoom  Shelf = iota // in progress, or finished
	PutAway              // out of the way
	Deleted              // not shown any more
)

var shelfNames = [...]string{"loom", "away", "deleted"}

// String is the place as a journal writes it.
func (s Shelf) String() string {
	if int(s) >= len(shelfNames) {
		return "shelf " + strconv.Itoa(int(s))
	}
	return shelfNames[s]
}

// Rename gives a piece that is not open a name.
func Rename(env Env, root, id, title string) error {
	title = safetext.Clean(title)
	if title == "" || len(title) > nameLimit {
		return fmt.Errorf("a name has 1 to %d bytes: write another", nameLimit)
	}
	return amend(env, root, id, Named, title)
}

// Put puts a piece that is not open to another place on the shelf.
func Put(env Env, root, id string, s Shelf) error {
	return amend(env, root, id, Shelved, s.String())
}

// Measure puts down what a finished piece that is not open measures and weighs, in place of
// what was put down before; "" takes that away.
func Measure(env Env, root, id, made string) error {
	made = safetext.Clean(made)
	if len(made) > nameLimit {
		return fmt.Errorf("a size has at most %d bytes: write it shorter", nameLimit)
	}
	return amend(env, root, id, Measured, made)
}

// amend writes one record of a piece that is not open, at the place where it stands.
func amend(env Env, root, id string, kind Kind, text string) error {
	p, o, err := Open(env, root, id)
	if err != nil {
		return err
	}
	switch {
	case o.LookOnly != "":
		err = errors.New(o.LookOnly)
	case o.Question != nil:
		err = ErrUnanswered
	default:
		err = p.Append([]Step{{Kind: kind, Place: o.Place, Of: o.Of, Text: text, Time: o.Time}}) // nothing was worked: the time stays
	}
	if closing := p.Close(); err == nil && !errors.Is(closing, ErrCopyBehind) {
		err = closing
	}
	if notSaved := (*NotSavedError)(nil); errors.As(err, &notSaved) {
		err = fmt.Errorf("%w: %s", ErrNotSaved, notSaved.Reason())
	}
	return err
}
