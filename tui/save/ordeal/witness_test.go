package ordeal_test

import (
	"errors"
	"slices"

	"bypeg/tui/internal/disk"
	"bypeg/tui/save"
)

// witness opens what is left of the worker's piece on another disk, and works on.
func (w *worker) witness(left *disk.Disk) error {
	return w.on(left).goOn()
}

// glance opens what is left of the worker's piece, and works on only where thorough.
func (w *worker) glance(left *disk.Disk, thorough bool) error {
	if thorough {
		return w.witness(left)
	}
	if err := open.do(w.on(left)); err != nil && !(w.shown == 0 && nothing(err)) {
		return asBroken("open", err)
	}
	return nil
}

// goOn opens the piece, works a step, leaves, and opens it again.
func (w *worker) goOn() error {
	err := open.do(w)
	if w.shown == 0 && nothing(err) {
		return nil // nobody had been told that there is a piece
	}
	if err != nil {
		return asBroken("open", err)
	}
	w.put = w.put[:w.shown:w.shown] // what has not come through is not there any more
	w.texts = slices.DeleteFunc(slices.Clone(w.texts), func(x text) bool { return !slices.Contains(w.put, x.at) })
	for _, a := range []act{steps(1), leave, open} {
		if err := a.do(w); err != nil {
			return asBroken(a.name, err)
		}
	}
	return asBroken("leave", w.piece.Close())
}

// nothing tells whether an error says that there is no place, which is true before the
// piece was begun. Of junk it may say that it cannot be read.
func nothing(err error) bool {
	for _, e := range []error{save.ErrNoPiece, save.ErrNeverBegun, save.ErrUnreadable} {
		if errors.Is(err, e) {
			return true
		}
	}
	return false
}

// asBroken makes an error of the store one that fails the test: nothing excuses it on
// a disk that does as it is told.
func asBroken(what string, err error) error {
	if err == nil || errors.As(err, new(broken)) {
		return err
	}
	return brokenf("%s: %v", what, err)
}
