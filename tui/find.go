package tui

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/save"
)

// hasNameless tells whether there is a piece of which nothing can be read, not even
// what it was begun from.
func (d *Desk) hasNameless() bool {
	all, _ := save.List(d.Env, d.Root)
	return slices.ContainsFunc(all, func(s save.Summary) bool { return s.Err != "" && s.Source == "" })
}

// Find is the piece that was begun from a source and is not finished, the last worked
// of several. One that can't be read is an error: it must not be passed over as if
// nothing had been worked.
func (d *Desk) Find(source string) (id string, found bool, err error) {
	all, err := save.List(d.Env, d.Root)
	if err != nil {
		return "", false, err
	}
	for _, s := range all {
		switch {
		case s.Source != safetext.Clean(source), s.Shelf != save.OnLoom:
		case s.Err != "":
			return "", false, fmt.Errorf("the piece begun from %s can't be read: %s: mend its folder %s, or move it away to begin anew",
				s.Source, s.Err, filepath.Join(d.Root, s.ID))
		case s.Place.Phase != pattern.Finishing:
			return s.ID, true, nil
		}
	}
	return "", false, nil
}

// Last is the id of the piece that was worked last and is not finished; false where
// there is none. Where there is but one that can't be read, that is an error.
func (d *Desk) Last() (string, bool, error) {
	all, err := save.List(d.Env, d.Root)
	for _, s := range all {
		switch {
		case s.Err != "": // such come behind all others
			return "", false, errors.New("a piece can't be read, and no other is in progress: bypeg alone shows it and says why")
		case s.Place.Phase != pattern.Finishing && s.Shelf == save.OnLoom:
			return s.ID, true, nil
		}
	}
	return "", false, err
}

// errNoOther says that there is no second piece to work in turn.
var errNoOther = errors.New("no other piece is on the loom")

// Swap goes on with the piece that was worked before the one on the desk, or before the
// last one where none is on it.
func (d *Desk) Swap() (*Opened, error) {
	all, err := save.List(d.Env, d.Root)
	if err != nil {
		return nil, err
	}
	d.mu.Lock()
	hand := ""
	if d.piece != nil {
		hand = d.piece.ID()
	}
	d.mu.Unlock()
	for _, s := range all {
		switch {
		case s.Err != "" || s.Shelf != save.OnLoom || s.Place.Phase == pattern.Finishing:
		case hand == "":
			hand = s.ID // the last one
		case s.ID != hand:
			return d.Open(s.ID)
		}
	}
	return nil, errNoOther
}
