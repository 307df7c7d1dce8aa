package tui

import (
	"fmt"
	"slices"

	"bypeg/pattern"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// acts are the records that are changes of place, as the tracker knows them.
var acts = map[save.Kind]track.Act{
	save.Forward: track.Stepped, save.Back: track.SteppedBack, save.Jump: track.Jumped,
	save.Undo: track.Undone, save.Redo: track.Redone, save.Here: track.Jumped,
}

// told is what a history tells of a piece.
type told struct {
	first   pattern.Place // where it was begun, or went on with another pattern
	events  []track.Event // the changes of place since
	notes   []track.Note
	purpose []string
	planned string // of those, the plan that the piece goes by; "" where it is the file's
	moments []track.Moment
}

// lastMoments is how many of the last steps are looked at for the pace.
const lastMoments = 500

// retell reads a history. Rows of a former pattern cannot be undone in this one, but for
// one that was changed on purpose: what was worked of it is the same in both. Of a
// history whose beginning is gone nothing is known but the first place left of it.
func retell(history save.History, p *pattern.Pattern) told {
	h := told{events: make([]track.Event, 0, history.Len()), first: pattern.Start()}
	begun, n := false, 0
	for r := range history.All() {
		n++
		switch r.Kind {
		case save.Noted:
			h.notes = track.Annotate(h.notes, track.Note{Row: noteRow(p, r.Place), Text: r.Text})
		case save.Mending:
			h.events = append(h.events, track.Event{Act: track.Mended, Place: r.Place, Mending: mendingOf(r, p)})
		case save.Safe:
			if s, ok := track.ParseSafe(r.Text); ok {
				h.events = append(h.events, track.Event{Act: track.Secured, Place: r.Place, Safe: &s})
			}
		case save.Purposed:
			h.purpose = append(h.purpose, r.Text)
		case save.PatternChanged:
			h.plan(r)
		}
		act, changed := acts[r.Kind]
		if history.Len()-n < lastMoments && (changed || r.Kind == save.Begun) && p.Holds(r.Place) {
			h.moments = append(h.moments, track.Moment{
				Seconds: float64(r.Time.Unix()), Done: track.Progress(p, r.Place).Done, Rest: act != track.Stepped || !changed,
			})
		}
		switch {
		case !begun || r.Kind == save.PatternChanged && r.Text == "":
			h.first, h.events = r.Place, track.OnlySafe(h.events)
			begun = true
		case changed:
			for _, at := range r.Instead { // undone, the answer leads to what it put aside
				h.events = append(h.events, track.Event{Act: track.Jumped, Place: at})
			}
			h.events = append(h.events, track.Event{Act: act, Place: r.Place, Also: track.ParseAlso(r.Text)})
		}
	}
	return h
}

// plan takes note of a plan of the piece's own, in place of the one before; without words the
// pattern is the file's again. What was done beyond the place cannot be undone: those rows
// may be others now.
func (h *told) plan(r save.Record) {
	h.purpose = slices.DeleteFunc(h.purpose, func(text string) bool { return text == h.planned })
	if h.planned = r.Text; r.Text == "" {
		return
	}
	h.purpose = append(h.purpose, r.Text)
	beyond := func(at pattern.Place) bool { return r.Place.Before(at) }
	var events []track.Event
	for i, e := range h.events {
		if beyond(e.Place) {
			events = append(events, track.OnlySafe(h.events[i:i+1])...)
		} else {
			events = append(events, e)
		}
	}
	h.events = events
	if beyond(h.first) {
		h.first = r.Place
	}
	h.events = append(h.events, track.Event{Act: track.Jumped, Place: r.Place}, track.Event{Act: track.Mended, Place: r.Place})
}

// mendingOf is the repair of a record, where it is one of the pattern.
func mendingOf(r save.Record, p *pattern.Pattern) *track.Mending {
	m, ok := track.ParseMending(r.Text)
	if !ok || m.Row < 0 || m.Row > p.Grid.Rows() || m.Col < 0 || m.Col >= p.Pegs || m.Step < 0 {
		return nil
	}
	return &m
}

// noteRow is the row of a note. A row that the pattern has no more of is told below zero,
// so that it is taken for no other.
func noteRow(p *pattern.Pattern, at pattern.Place) int {
	if at.Phase == pattern.Working && at.Row > p.Grid.Rows() {
		return -at.Row
	}
	return track.RowOf(p, at)
}

// strays are the notes whose rows the pattern does not have any more, as they are told.
func strays(notes []track.Note) []string {
	var says []string
	for _, n := range notes {
		if n.Row < 0 {
			says = append(says, fmt.Sprintf("a note on row %d, which the pattern has no more: %s", -n.Row, n.Text))
		}
	}
	return says
}

// saver is the writer as the work screen knows it.
type saver struct {
	writer *save.Writer
	order  pattern.Order
}

var kinds = map[track.Act]save.Kind{
	track.Stepped: save.Forward, track.SteppedBack: save.Back, track.Jumped: save.Jump,
	track.Undone: save.Undo, track.Redone: save.Redo,
}

func (s saver) Put(e track.Event) {
	switch {
	case e.Act == track.Mended && e.Mending == nil:
		s.words(save.Mending, e.Place, "")
	case e.Act == track.Mended:
		s.words(save.Mending, e.Place, e.Mending.String())
	case e.Act == track.Secured:
		s.words(save.Safe, e.Place, e.Safe.String())
	default:
		s.step(e)
	}
}

func (s saver) step(e track.Event) {
	s.words(kinds[e.Act], e.Place, track.SayAlso(e.Also))
}

func (s saver) Note(at pattern.Place, text string) { s.words(save.Noted, at, text) }

func (s saver) Purpose(at pattern.Place, text string) { s.words(save.Purposed, at, text) }

func (s saver) words(kind save.Kind, at pattern.Place, text string) {
	s.writer.Put(save.Step{Kind: kind, Place: at, Of: s.order.Pattern.Of(at), Text: text})
}

func (s saver) Retry() { s.writer.Retry() }

func (s saver) Next() (track.Saved, bool) {
	ack, ok := <-s.writer.Acks()
	return track.Saved{Through: int(ack.Through), Err: ack.Err, Notice: ack.Notice}, ok
}
