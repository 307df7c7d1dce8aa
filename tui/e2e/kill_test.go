//go:build unix

package e2e_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/tui/internal/term"
	"bypeg/tui/track"
)

// Twenty times: random steps, SIGKILL at a random moment, and a new start. The place
// is at least the last one seen in square brackets, and never one beyond what was
// pressed.
func TestNoKillLosesAPegThatWasSeenAsSaved(t *testing.T) {
	t.Parallel()
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	chance := rand.New(rand.NewPCG(seed, 0))
	home := t.TempDir()
	l := cloth(t, home)
	at, _ := l.look()
	for range 20 {
		pressed := walk{at.place}
		saved := 0 // the index in pressed of the last place seen in square brackets
		look := func() {
			s, ok := l.look()
			if !ok || !s.saved {
				return
			}
			if i := slices.Index(pressed[saved:], s.place); i >= 0 {
				saved += i
			} else {
				t.Fatalf("%v stands in square brackets; pressed were %v from %d on", s.place, pressed, saved)
			}
		}
		for range 1 + chance.IntN(12) {
			key := keysOfWalk[chance.IntN(len(keysOfWalk))]
			pressed = pressed.press(t, key.action)
			l.Keys(t, key.key)
			for range chance.IntN(3) {
				look()
			}
		}
		for range chance.IntN(60) {
			look()
		}
		l.Kill()
		l.Wait(t)
		look() // whatever came out before the kill was seen
		l = cloth(t, home)
		at, _ = l.look()
		require.Contains(t, pressed[saved:], at.place, "pressed were %v, seen as saved up to %v", pressed, pressed[saved])
	}
}

var keysOfWalk = []struct {
	key    term.Key
	action track.Action
}{
	{term.Space, track.OnePeg}, {term.Space, track.OnePeg}, {term.Space, track.OnePeg}, {term.Space, track.OnePeg},
	{term.Enter, track.OneRun}, {term.Up, track.OneRow}, {term.Backspace, track.PegBack},
}

// walk is the places that keys led to, the one it began with first.
type walk []place

// press adds where an action leads.
func (w walk) press(t testing.TB, a track.Action) walk {
	t.Helper()
	text, _ := examples.Text("sluice-cloth")
	p, _ := file.Load("sluice-cloth", text)
	require.NotNil(t, p)
	last := w[len(w)-1]
	at := pattern.Place{Phase: pattern.Working, Row: last.row, Done: last.done}
	if last.row == 0 {
		at.Phase = pattern.CastingOn
	}
	tracker := track.New(pattern.Order{Pattern: p, Way: p.Way}, at, track.DefaultLead)
	if e, ok := tracker.Do(a); ok {
		return append(w, place{e.Place.Row, e.Place.Done})
	}
	return w
}
