package tui

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"bypeg/pattern"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// Start begins the work on what was opened: from now on every change is saved.
func (d *Desk) Start(o *Opened) track.Piece {
	d.mu.Lock()
	defer d.mu.Unlock()
	h := retell(o.Opening.History, o.Order.Pattern)
	if o.Fresh {
		h.first, h.events = o.Opening.Place, track.OnlySafe(h.events)
	}
	d.inHand = track.Resume(o.Order, h.first, h.events, o.Opening.Place, d.Lead)
	w := track.Piece{
		Title: d.piece.Title(), Text: d.onPegs(), Tracker: d.inHand, Held: o.Opening.LookOnly,
		Notes: h.notes, Purpose: h.purpose, Moments: h.moments, Notices: slices.Clone(o.Opening.Notices),
	}
	w.Notices = append(w.Notices, strays(h.notes)...)
	if says := otherCount(o.Order.Pattern); says != "" {
		w.Notices = append(w.Notices, says)
	}
	if _, asked := d.Way(&o.Order.Pattern.Design); d.WayAsked && asked != o.Order.Way {
		w.Notices = append(w.Notices, fmt.Sprintf("this piece keeps its way: peg 1 at the %s, row 1 %s", o.Order.Way.Peg1, o.Order.Way.Row1))
	}
	if at := o.Opening.Time; !at.IsZero() && d.Env.Now().Sub(at) > longAgo {
		w.Notices = append(w.Notices, "last worked "+at.Format(dayAndTime))
	}
	if o.Opening.LookOnly == "" {
		d.writer = save.NewWriter(d.piece)
		w.Saver = saver{d.writer, o.Order}
	}
	return w
}

// TakeOver tries to work a piece that is open elsewhere. It returns the piece as it is
// now and whether it can be worked; nil where that piece is not on the desk any more.
func (d *Desk) TakeOver(looked *Opened) (*Opened, bool, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.piece == nil || d.piece != looked.piece || d.writer != nil {
		return nil, false, nil
	}
	opening, ok, err := d.piece.TryTakeOver()
	if err != nil {
		return nil, false, err
	}
	o, err := d.laid(opening)
	if err == nil && ok {
		o.Opening.Notices = append([]string{"the other terminal left it: you work it now"}, o.Opening.Notices...)
		d.compareSource(o)
	}
	return o, ok, err
}

// changedNotice is told when the piece's file was not what was written last.
const changedNotice = "the saved file was changed by something else: compare with the fabric"

// errFolderGone says that there is nothing to read anew: the piece stays as it is on
// the screen, and what is put is tried again.
var errFolderGone = errors.New("the piece's folder is gone")

// Reread reads a piece anew whose file was changed by something else. Where it tells
// another place than was saved here, both are offered.
func (d *Desk) Reread() (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.piece == nil {
		return nil, save.ErrNoPiece
	}
	if d.folderGone() {
		return nil, errFolderGone
	}
	if d.writer != nil {
		_, d.dropped, _ = d.writer.Drain(drainFor) // what it still holds cannot be written there
		d.writer = nil
	}
	dropped := d.dropped
	opening, err := d.piece.Reread()
	if err != nil {
		return nil, err
	}
	notice := changedNotice
	if dropped > 0 && opening.Question == nil {
		notice = fmt.Sprintf("not saved and to be worked again: %s. The saved file was changed by something else", track.Plural(dropped, "step"))
	}
	opening.Notices = append([]string{notice}, opening.Notices...)
	o, err := d.laid(opening)
	if err == nil {
		o.Dropped, d.dropped = dropped, 0 // from now on they are told
	}
	return o, err
}

// longAgo is after how long it is told when a piece was last worked.
const longAgo = 2 * time.Hour

// dayAndTime is how such a time is told.
const dayAndTime = "Mon 2 Jan 2006, 15:04"

// otherCount tells that a piece has another peg count than its pattern states.
func otherCount(p *pattern.Pattern) string {
	if p.StatedPegs == 0 {
		return ""
	}
	return fmt.Sprintf("%s, pattern %d: on purpose", track.Plural(p.Pegs, "peg"), p.StatedPegs)
}
