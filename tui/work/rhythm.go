package work

import (
	"time"

	"bypeg/tui/track"
)

// rhythm is what the clock tells of the work: how fast it goes, how long it has gone on,
// and whether two keys came so close that the second may be a slip of the hand.
type rhythm struct {
	options Options
	pace    track.Pace
	left    string    // "1 h 20", of the time left, as of the row's start
	begun   time.Time // when the hands began after the last pause
	last    time.Time // the last step
	told    bool      // that a rest is due
	whole   time.Time // when a key that ended a row came last
	asked   bool      // that key was taken for a slip, and a second one counts
	hurried bool      // the maker has said that they mean it
}

// tooQuick is less than a hand takes between two presses: a key that is held down repeats
// like that, and answers nothing.
const tooQuick = 120 * time.Millisecond

// pauseAfter is how long the hands must lie still for a pause.
const pauseAfter = 5 * time.Minute

func newRhythm(o Options, p track.Piece) rhythm {
	r := rhythm{options: o}
	for _, m := range p.Moments {
		r.pace = r.pace.Mark(m)
	}
	r.left = p.Tracker.SayLeft(r.pace)
	return r
}

// now is the time by the clock on the wall: the other that Go's times carry may
// stand still while a laptop sleeps, and a sleep is a pause.
func (r rhythm) now() time.Time { return r.options.Now().Round(0) }

// press tells whether a key that works a whole row came so soon after one that ended a
// row that the maker should be asked. The next one counts, and so do those right behind
// it: somebody is catching up.
func (r rhythm) press(wholeRow, endsRow bool) (next rhythm, again bool) {
	if !endsRow || r.options.DoublePress == 0 {
		return r, false
	}
	now := r.now()
	gap := now.Sub(r.whole)
	r.whole = now
	switch {
	case !wholeRow, gap >= r.options.DoublePress:
		r.asked, r.hurried = false, false
	case gap < tooQuick, !r.asked && !r.hurried:
		r.asked = true
		return r, true
	case r.asked:
		r.asked, r.hurried = false, true
	}
	return r, false
}

// moved takes note of a change of place, and tells whether a rest is due: at the end of
// a row, and once.
func (r rhythm) moved(e track.Event, t *track.Tracker) (next rhythm, rest bool) {
	now := r.now()
	r.pace = r.pace.Mark(track.Moment{
		Seconds: float64(now.UnixMilli()) / 1000, Done: t.Progress().Done, Rest: e.Act != track.Stepped,
	})
	if now.Sub(r.last) >= pauseAfter {
		r.begun, r.told = now, false
	}
	r.last = now
	_, turn := t.Turn()
	if t.Place().Done == 0 {
		r.left = t.SayLeft(r.pace)
	}
	if turn && r.options.Pause > 0 && !r.told && now.Sub(r.begun) >= r.options.Pause {
		r.told, rest = true, true
	}
	return r, rest
}

func sayPause(d time.Duration) string {
	return track.Plural(int(d.Minutes()), "minute")
}
