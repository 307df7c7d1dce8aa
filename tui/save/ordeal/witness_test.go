package ordeal_test

import (
	"errors"
	"fmt"

	"bypeg/tui/internal/disk"
	"bypeg/tui/save"
)

// tally counts what a power cut could leave: the images that were met, and those of them
// that were tried.
type tally struct{ met, tried int }

// cutPower opens the worker's piece on what a power cut could leave of its disk: on every
// image in which no bytes are damaged, and on one in so many of the others. On some it
// works on.
func (w *worker) cutPower(n *tally, oneIn int) error {
	for cut, image := range w.disk.Images() {
		if n.met++; n.met%oneIn != 0 && !cut.Whole() {
			continue
		}
		n.tried++
		if err := w.witness(image(), n.tried%thoroughly == 0); err != nil {
			return fmt.Errorf("%s: %w", cut, err)
		}
	}
	return nil
}

// thoroughly is how many images there are to one on which the work goes on.
const thoroughly = 5

// witness opens what is left of the worker's piece, and works on where thorough.
func (w *worker) witness(left *disk.Disk, thorough bool) error {
	if thorough {
		return w.on(left).goOn()
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
