package plain

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"bypeg/pattern"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// saving is what is known of the way to the disk.
type saving struct {
	heard   chan track.Saved
	puts    int
	through int
	queue   []change // not yet on the disk
	done    []change // on the disk, and not yet said to be
	err     error    // why changes are not saved, of what was put last
	last    error    // what the disk said last
	ended   bool     // no more is heard from the disk
	gone    bool     // the piece's folder is no longer there
	failed  string   // what was said of it last
}

// change is one that was put: of the place, or in words.
type change struct {
	from  pattern.Place
	event track.Event
	words string
}

func (s *saving) put(c change) {
	s.puts++
	s.queue = append(s.queue, c)
}

// waiting is how many changes could not be saved.
func (s *saving) waiting() int { return s.puts - s.through }

// hearken brings the disk's words into a channel. A panic on the way becomes a word too.
func hearken(ctx context.Context, from track.Saver) chan track.Saved {
	heard := make(chan track.Saved)
	if from == nil {
		return heard
	}
	tell := func(w track.Saved) {
		select {
		case heard <- w:
		case <-ctx.Done():
		}
	}
	go func() {
		defer close(heard)
		defer func() {
			if r := recover(); r != nil {
				tell(track.Saved{Err: fmt.Errorf("saving stopped: %v", r)})
			}
		}()
		for ctx.Err() == nil {
			w, ok := from.Next()
			if !ok {
				return
			}
			tell(w)
		}
	}()
	return heard
}

// settle waits until the disk has all that was put, or says why not.
func (t *Talk) settle() {
	t.saving.failed = "" // what fails now is said, be it what failed before
	if t.saving.ended {
		t.fail()
		return
	}
	t.saving.err = nil
	var slow <-chan time.Time
	if t.options.Slow > 0 {
		timer := time.NewTimer(t.options.Slow)
		defer timer.Stop()
		slow = timer.C
	}
	for t.saving.waiting() > 0 && t.saving.err == nil && !t.saving.ended {
		select {
		case w, ok := <-t.saving.heard:
			t.hear(w, ok)
		case <-slow:
			t.saySaved()
			t.Say("saving: the disk has not answered yet")
		case <-t.ctx.Done():
			t.saySaved()
			return
		}
	}
}

// hear takes the disk's word, or that there are no more of them.
func (t *Talk) hear(w track.Saved, ok bool) {
	s := &t.saving
	if !ok {
		s.ended, s.heard, s.err = true, nil, s.last
		t.fail()
		return
	}
	if n := w.Through - s.through; n > 0 {
		s.done = append(s.done, s.queue[:n]...)
		s.queue = s.queue[n:]
		s.through = w.Through
	}
	s.err, s.last, s.gone = w.Err, w.Err, s.gone && w.Err != nil
	if s.waiting() == 0 || s.err != nil {
		t.saySaved()
	}
	if w.Notice != "" {
		t.Say(w.Notice)
	}
	switch {
	case w.Err == nil:
		s.failed = ""
	case errors.Is(w.Err, save.ErrChangedUnderneath):
		t.end(Changed)
	default:
		t.fail()
	}
}

// fail says that what is put is not saved, and why, unless that was said last.
func (t *Talk) fail() {
	if says := t.notSaved(); t.saving.waiting() > 0 && says != t.saving.failed {
		t.saving.failed = says
		t.Say(says + " save tries again")
	}
}

// FolderGone says that the folder with all that was saved is no longer there. Whatever
// is put goes on being tried.
func (t *Talk) FolderGone() {
	t.saving.gone = true
	if says := t.notSaved(); says != t.saving.failed {
		t.saving.failed = says
		t.Say(says)
	}
}

// notSaved says why changes are not saved, and which place is.
func (t *Talk) notSaved() string {
	if t.saving.err == nil {
		return "NOT SAVED: the disk has not answered yet."
	}
	why, saved := save.SayNotSaved(t.saving.err, t.piece.Tracker.Order(), t.saving.gone)
	return strings.TrimSpace(why + " " + saved)
}

// retry tries again, or says that there is nothing to try.
func (t *Talk) retry() {
	if t.saving.waiting() == 0 {
		t.Say("all is saved")
		return
	}
	t.piece.Saver.Retry()
	t.settle()
}

// saySaved tells changes that are on the disk by now: as one what was asked for as one,
// however the disk took it.
func (t *Talk) saySaved() {
	o, changes := t.piece.Tracker.Order(), t.saving.done
	t.saving.done = nil
	for i := 0; i < len(changes); i++ {
		c := changes[i]
		for i+1 < len(changes) && c.goesOn(changes[i+1]) {
			i++
			c.event = changes[i].event
		}
		t.Say("saved: " + c.say(o))
	}
}

// goesOn tells whether two changes are told as one: steps of one row, steps back, and
// the like.
func (c change) goesOn(next change) bool {
	switch to := c.event.Place; {
	case c.words != "" || next.words != "" || c.event.Act != next.event.Act:
		return false
	case c.event.Act == track.Stepped:
		return to.Phase == c.from.Phase && to.Row == c.from.Row
	}
	return c.event.Act != track.Jumped
}

// say says a change.
func (c change) say(o pattern.Order) string {
	at := track.SayPlace(o, c.event.Place)
	switch {
	case c.words != "":
		return c.words
	case c.event.Act == track.Stepped:
		return track.SayWorked(o, c.from, c.event.Place)
	case c.event.Act == track.SteppedBack:
		return "back to " + at
	case c.event.Act == track.Undone:
		return "undone, at " + at
	case c.event.Act == track.Redone:
		return "redone, at " + at
	}
	return "at " + at
}
