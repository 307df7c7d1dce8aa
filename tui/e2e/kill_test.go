//go:build unix

package e2e_test

import (
	"math/rand/v2"
	"os"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/tui/internal/figures"
	"bypeg/tui/internal/term"
	"bypeg/tui/track"
)

// kills is how often the program is killed: by this many, on each of killedPieces.
func kills() int {
	switch {
	case os.Getenv("BYPEG_LONG") == "1":
		return 100
	case testing.Short():
		return 2
	}
	return 10
}

const killedPieces = 5

// On five pieces side by side, ten times each: random steps, SIGKILL at a random
// moment, and a new start. The place is at least the last one seen in square brackets,
// and never one beyond what was pressed. What the killed program held is free at once,
// and nobody is asked anything.
func TestNoKillLosesAPegThatWasSeenAsSaved(t *testing.T) {
	var killed, seen atomic.Int64
	t.Run("pieces", func(t *testing.T) {
		for range killedPieces {
			t.Run("piece", func(t *testing.T) {
				t.Parallel()
				seed := rand.Uint64()
				t.Logf("seed %d", seed)
				v := &victim{t: t, chance: rand.New(rand.NewPCG(seed, 0)), home: t.TempDir()}
				v.loom = cloth(t, v.home)
				at, _ := v.look()
				for range kills() {
					at = v.live(at)
					killed.Add(1)
				}
				seen.Add(int64(v.seen))
			})
		}
	})
	figures.Say(t, "%d kills, %d places seen in square brackets, 0 lost", killed.Load(), seen.Load())
	assert.EqualValues(t, killedPieces*kills(), killed.Load())
	assert.Greater(t, seen.Load(), killed.Load(), "the screen was looked at while it told of saved places")
}

// victim is a program that is killed again and again.
type victim struct {
	*loom
	t      testing.TB
	chance *rand.Rand
	home   string
	seen   int // places seen in square brackets
}

// live works from a place until the program is killed, and comes back.
func (v *victim) live(at sight) sight {
	v.t.Helper()
	if at.row > 30 { // a life has twelve keys, and the cloth 49 rows
		v.Send(v.t, "g1\r")
		at = v.waitAt(1, 0)
	}
	pressed := walk{at.place}
	saved := 0 // the index in pressed of the last place seen in square brackets
	look := func() {
		s, ok := v.look()
		if !ok || !s.saved {
			return
		}
		i := slices.Index(pressed[saved:], s.place)
		require.GreaterOrEqual(v.t, i, 0, "%v stands in square brackets; pressed were %v from %d on", s.place, pressed, saved)
		if i > 0 {
			v.seen++
		}
		saved += i
	}
	for range 1 + v.chance.IntN(12) {
		key := keysOfWalk[v.chance.IntN(len(keysOfWalk))]
		pressed = pressed.press(v.t, key.action)
		v.Keys(v.t, key.key)
		v.watch(v.chance.IntN(20), look)
	}
	v.watch(v.chance.IntN(60), look)
	v.Kill()
	v.Wait(v.t)
	look() // whatever came out before the kill was seen
	v.loom = cloth(v.t, v.home)
	again, _ := v.look()
	require.Contains(v.t, pressed[saved:], again.place, "pressed were %v, seen as saved up to %v", pressed, pressed[saved])
	for _, never := range []string{"another terminal", "right one", "can't be read"} {
		require.NotContains(v.t, v.Text(), never)
	}
	return again
}

// watch looks at the screen every millisecond. The screen is drawn sixty times a second.
func (v *victim) watch(milliseconds int, look func()) {
	for range milliseconds {
		time.Sleep(time.Millisecond)
		look()
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
