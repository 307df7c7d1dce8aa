package track_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/tui/track"
)

// However moves, undo, redo, lines, repairs and the steps of cast-on and bind-off follow one
// another: a tracker that replays what happened stands the same.
func TestReplayStandsWhereTheWorkStood(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		o := frame(t, rapid.SampledFrom([]pattern.Hand{pattern.RightHand, pattern.LeftHand}).Draw(rt, "hand"))
		first := rapid.SampledFrom([]pattern.Place{pattern.Start(), at(7, 3), {Phase: pattern.BindingOff}}).Draw(rt, "first")
		tr := track.New(o, first, 2)
		var events []track.Event
		keep := func(e track.Event, ok bool) {
			if ok {
				events = append(events, e)
			}
		}
		for range rapid.IntRange(1, 40).Draw(rt, "changes") {
			switch rapid.IntRange(0, 6).Draw(rt, "what") {
			case 0:
				keep(tr.Do(track.Undo))
			case 1:
				keep(tr.Do(track.Redo))
			case 2:
				s, ok := tr.SafeHere(0)
				if ok {
					keep(tr.Secure(s), true)
				}
			case 3:
				keep(tr.Mend(nil), true)
			case 4:
				row := max(1, track.Newest(o, tr.Place()))
				m := track.BackTo(rapid.IntRange(1, row).Draw(rt, "row"))
				keep(tr.Mend(&m), true)
				if rapid.Bool().Draw(rt, "completed") {
					keep(tr.Complete(at(m.Row, 0)))
				}
			case 5:
				m := track.LedThrough(rapid.SampledFrom([]track.Repair{track.CastOn, track.BindOff}).Draw(rt, "led"), o, tr.Place())
				if steps, _, err := m.Steps(o, tr.Place()); err == nil {
					m.Step = rapid.IntRange(0, steps.Len()-1).Draw(rt, "step")
					keep(tr.Mend(&m), true)
				}
			default:
				keep(tr.Do(track.Action(rapid.IntRange(0, int(track.GoRight)).Draw(rt, "action"))))
			}
			again := track.Resume(o, first, events, tr.Place(), 2)
			assert.Equal(rt, tr.Place(), again.Place())
			assert.Equal(rt, tr.Mending(), again.Mending())
			assert.ElementsMatch(rt, tr.Safe(), again.Safe())
			assert.Equal(rt, tr.Can(track.Undo), again.Can(track.Undo))
			assert.Equal(rt, tr.Can(track.Redo), again.Can(track.Redo))
		}
	})
}
