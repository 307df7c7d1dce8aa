package tui

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"time"

	"bypeg/pattern/safetext"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// drainFor is how long the desk waits for the disk when a piece is laid away.
const drainFor = 10 * time.Second

// Farewell is how a piece was left.
type Farewell struct {
	Title   string
	Place   string   // "row 12 peg 7": the last one saved
	Back    []string // what to look for when coming back, a remark each
	Shown   string   // the place that was on the screen, where it is not the one saved
	Asked   []string // the places of which one is the right one, where that is still to be answered
	Looked  bool     // it was only looked at
	Gone    string   // the folder with all that was saved, where that is no longer there
	Doubt   string   // why what was saved may not be there the next time all the same; mostly ""
	Unsaved int      // changes that never reached the disk
	Err     error    // why
}

// Close lays away the piece on the desk, if there is one, and tells how. It may be
// called again.
func (d *Desk) Close() (Farewell, bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.close()
}

func (d *Desk) close() (Farewell, bool) {
	if d.piece == nil {
		return Farewell{}, false
	}
	f := Farewell{Title: d.piece.Title(), Looked: d.piece.LookOnly(), Asked: d.choices()}
	at, _ := d.piece.Saved()
	if d.writer != nil {
		at, f.Unsaved, f.Err = d.writer.Drain(drainFor)
		d.writer = nil
	}
	if d.dropped > 0 {
		f.Unsaved, f.Err = f.Unsaved+d.dropped, save.ErrChangedUnderneath
		d.dropped = 0
	}
	d.lost += f.Unsaved
	f.Place = track.SayPlace(d.order, at)
	f.Back = track.SayBack(d.order, at)
	if d.inHand != nil && !f.Looked { // who looks may turn over steps, and keeps none
		f.Back = append(f.Back, d.inHand.SayKept()...)
	}
	if f.Unsaved > 0 && d.inHand != nil && d.inHand.Place() != at {
		f.Shown = track.SayPlace(d.order, d.inHand.Place())
	}
	if d.folderGone() {
		f.Gone = d.folder()
	}
	id := d.piece.ID()
	f.Doubt = d.leavePiece()
	d.left = &left{id, f}
	return f, true
}

// left is the piece that was laid away last.
type left struct {
	id       string
	farewell Farewell
}

// Left tells how the piece that was laid away last was left, under the name that it has
// now; false where there is none, or it was put away or deleted since.
func (d *Desk) Left() (Farewell, bool) {
	d.mu.Lock()
	last := d.left
	d.mu.Unlock()
	if last == nil {
		return Farewell{}, false
	}
	f := last.farewell
	s, err := d.summary(last.id)
	if err != nil || s.Shelf != save.OnLoom {
		return f, f.Gone != "" || f.Unsaved > 0
	}
	f.Title = s.Title
	return f, true
}

// choices are the places of the question that is still to be answered.
func (d *Desk) choices() []string {
	if d.asked == nil {
		return nil
	}
	words := make([]string, len(d.asked.Choices))
	orders := d.ordersOf(d.asked)
	for i, c := range d.asked.Choices {
		words[i] = sayChoice(orders[i], d.asked.Kind, c, d.Env.Now())
	}
	return words
}

// folder is where the piece on the desk is kept.
func (d *Desk) folder() string { return filepath.Join(d.Root, d.piece.ID()) }

// folderGone tells whether that folder is no longer there.
func (d *Desk) folderGone() bool {
	_, err := d.Env.FS.Stat(d.folder())
	return errors.Is(err, fs.ErrNotExist)
}

// Lost is how many changes never reached the disk, of all pieces that were laid away.
func (d *Desk) Lost() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.lost
}

// layAway closes the piece on the desk to make room for another. It is an error when
// something of it could not be saved.
func (d *Desk) layAway() error {
	f, ok := d.close()
	if ok {
		return f.loss()
	}
	return nil
}

// loss is what could not be saved; nil where all is.
func (f Farewell) loss() error {
	switch {
	case f.Gone != "":
		return fmt.Errorf("%s: its folder %s is gone; it was at %s", f.Title, f.Gone, f.Place)
	case f.Unsaved > 0:
		return fmt.Errorf("%s, %s lost: %w", f.Title, track.Plural(f.Unsaved, "step"), f.Err)
	}
	return nil
}

// leavePiece closes the piece and tells what is in doubt then. That the second copy is
// behind is no doubt, unless a question is open: the journal has every step.
func (d *Desk) leavePiece() (doubt string) {
	err := d.piece.Close()
	if errors.Is(err, save.ErrNotSure) || d.asked != nil && errors.Is(err, save.ErrCopyBehind) {
		doubt = safetext.Clean(err.Error())
	}
	d.piece, d.order.Pattern, d.asked, d.inHand = nil, nil, nil, nil
	return doubt
}
