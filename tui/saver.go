package tui

import (
	"bypeg/pattern"
	"bypeg/tui/save"
	"bypeg/tui/track"
	"bypeg/tui/work"
)

// acts are the records that are changes of place, as the tracker knows them.
var acts = map[save.Kind]track.Act{
	save.Forward: track.Stepped, save.Back: track.SteppedBack, save.Jump: track.Jumped,
	save.Undo: track.Undone, save.Redo: track.Redone, save.Here: track.Jumped,
}

// replayable is where the piece was begun, or where it went on with another pattern, and
// the changes of place since: rows of a former pattern cannot be undone in this one. Of a
// history whose beginning is gone nothing is known but the first place left of it.
func replayable(history save.History) (first pattern.Place, es []track.Event) {
	es = make([]track.Event, 0, history.Len())
	begun := false
	for r := range history.All() {
		act, changed := acts[r.Kind]
		switch {
		case !begun || r.Kind == save.PatternChanged:
			first, es = r.Place, es[:0]
			begun = true
		case changed:
			if r.Instead != nil { // undone, the answer leads to what it put aside
				es = append(es, track.Event{Act: track.Jumped, Place: *r.Instead})
			}
			es = append(es, track.Event{Act: act, Place: r.Place})
		}
	}
	if !begun {
		first = pattern.Start()
	}
	return first, es
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
	s.writer.Put(save.Step{Kind: kinds[e.Act], Place: e.Place, Of: s.order.Pattern.Of(e.Place)})
}

func (s saver) Note(at pattern.Place, text string) { s.words(save.Noted, at, text) }

func (s saver) Purpose(at pattern.Place, text string) { s.words(save.Purposed, at, text) }

func (s saver) words(kind save.Kind, at pattern.Place, text string) {
	s.writer.Put(save.Step{Kind: kind, Place: at, Of: s.order.Pattern.Of(at), Text: text})
}

func (s saver) Retry() { s.writer.Retry() }

func (s saver) Next() (work.Saved, bool) {
	ack, ok := <-s.writer.Acks()
	return work.Saved{Through: int(ack.Through), Err: ack.Err, Notice: ack.Notice}, ok
}
