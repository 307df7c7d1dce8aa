package tui

import (
	"errors"
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/save"
)

// shelved is something that was done to a piece on the shelf, and how it is undone.
type shelved struct {
	id     string
	title  string                  // as it was before
	says   string                  // what was done
	undone string                  // what is so again once it is undone
	stands func(save.Summary) bool // nobody has done it otherwise since
	undo   func() error
}

// errNothingToUndo says that nothing was done on the shelf since the program began.
var errNothingToUndo = errors.New("nothing to undo here: what is put away or deleted is brought back one by one")

// Rename gives a piece another name. What was done comes back in words.
func (d *Desk) Rename(id, title string) (says string, err error) {
	s, err := d.summary(id)
	if err != nil {
		return "", err
	}
	title = safetext.Clean(title)
	return d.shelve(shelved{
		id: id, title: s.Title,
		says:   fmt.Sprintf("%s is now called %s", s.Title, title),
		undone: fmt.Sprintf("it is called %s again", s.Title),
		stands: func(now save.Summary) bool { return now.Title == title },
		undo:   func() error { return save.Rename(d.Env, d.Root, id, s.Title) },
	}, save.Rename(d.Env, d.Root, id, title))
}

// Put puts a piece to another place on the shelf. What was done comes back in words.
func (d *Desk) Put(id string, to save.Shelf) (says string, err error) {
	s, err := d.summary(id)
	if err != nil {
		return "", err
	}
	words := map[save.Shelf]string{save.OnLoom: broughtBack(s.Place), save.PutAway: "is put away", save.Deleted: "is deleted"}
	return d.shelve(shelved{
		id: id, title: s.Title,
		says:   s.Title + " " + words[to],
		undone: s.Title + " " + liesAgain(s),
		stands: func(now save.Summary) bool { return now.Shelf == to },
		undo:   func() error { return save.Put(d.Env, d.Root, id, s.Shelf) },
	}, save.Put(d.Env, d.Root, id, to))
}

// broughtBack says where a piece lies that is put away no more.
func broughtBack(at pattern.Place) string {
	if at.Phase == pattern.Finishing {
		return "is with the finished ones again"
	}
	return "is back on the loom"
}

// liesAgain says that a piece lies where it lay.
func liesAgain(s save.Summary) string {
	switch {
	case s.Shelf == save.PutAway:
		return "is put away again"
	case s.Shelf == save.Deleted:
		return "is deleted again"
	case s.Place.Phase == pattern.Finishing:
		return broughtBack(s.Place)
	}
	return "is on the loom again"
}

// summary is what the list tells of one piece.
func (d *Desk) summary(id string) (save.Summary, error) {
	all, err := save.List(d.Env, d.Root)
	if err != nil {
		return save.Summary{}, err
	}
	for _, s := range all {
		if s.ID == id && s.Err == "" {
			return s, nil
		}
	}
	return save.Summary{}, save.ErrNoPiece
}

// shelve takes note of what was done, unless it failed.
func (d *Desk) shelve(did shelved, err error) (says string, _ error) {
	if err != nil {
		return "", fmt.Errorf("not done: %w", err)
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.done = append(d.done, did)
	return did.says, nil
}

// TakeBack undoes the last thing that was done to a piece on the shelf. What can't be
// undone any more, since the piece is gone or somebody has done it otherwise since, is
// told once and then forgotten; what only fails may be tried again.
func (d *Desk) TakeBack() (says string, err error) {
	last, some := d.lastDone()
	if !some {
		return "", errNothingToUndo
	}
	switch now, err := d.summary(last.id); {
	case errors.Is(err, save.ErrNoPiece):
		d.forgetDone()
		return "", fmt.Errorf("not undone: %s is gone, or can't be read", last.title)
	case err != nil:
		return "", fmt.Errorf("not undone: %w", err)
	case !last.stands(now):
		d.forgetDone()
		return "", fmt.Errorf("not undone: %s, and was changed again in another terminal", last.says)
	}
	if err := last.undo(); err != nil {
		return "", fmt.Errorf("not undone: %w", err)
	}
	d.forgetDone()
	return "undone: " + last.undone, nil
}

func (d *Desk) lastDone() (shelved, bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.done) == 0 {
		return shelved{}, false
	}
	return d.done[len(d.done)-1], true
}

func (d *Desk) forgetDone() {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.done = d.done[:len(d.done)-1]
}
