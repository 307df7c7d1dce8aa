package tui

import (
	"errors"
	"fmt"

	"bypeg/pattern/safetext"
	"bypeg/tui/save"
)

// shelved is something that was done to a piece on the shelf, and how it is undone.
type shelved struct {
	says string // what was done
	undo func() error
}

// errNothingToUndo says that nothing was done on the shelf since the program began.
var errNothingToUndo = errors.New("nothing to undo here: what is put away or deleted is brought back one by one")

// Rename gives a piece another name. What was done comes back in words.
func (d *Desk) Rename(id, title string) (says string, err error) {
	s, err := d.summary(id)
	if err != nil {
		return "", err
	}
	was, title := s.Title, safetext.Clean(title)
	return d.shelve(shelved{
		fmt.Sprintf("%s is now called %s", was, title),
		func() error { return save.Rename(d.Env, d.Root, id, was) },
	}, save.Rename(d.Env, d.Root, id, title))
}

// Put puts a piece to another place on the shelf. What was done comes back in words.
func (d *Desk) Put(id string, to save.Shelf) (says string, err error) {
	s, err := d.summary(id)
	if err != nil {
		return "", err
	}
	words := map[save.Shelf]string{save.OnLoom: "is back on the loom", save.PutAway: "is put away", save.Deleted: "is deleted"}
	return d.shelve(shelved{
		s.Title + " " + words[to],
		func() error { return save.Put(d.Env, d.Root, id, s.Shelf) },
	}, save.Put(d.Env, d.Root, id, to))
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

// TakeBack undoes the last thing that was done to a piece on the shelf.
func (d *Desk) TakeBack() (says string, err error) {
	d.mu.Lock()
	n := len(d.done)
	if n == 0 {
		d.mu.Unlock()
		return "", errNothingToUndo
	}
	last := d.done[n-1]
	d.mu.Unlock()
	if err := last.undo(); err != nil {
		return "", fmt.Errorf("not undone: %w", err)
	}
	d.mu.Lock()
	d.done = d.done[:n-1]
	d.mu.Unlock()
	return "undone: " + last.says, nil
}
