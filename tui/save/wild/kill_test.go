//go:build unix

package wild_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
)

// tally is what came of killing writers.
type tally struct {
	mu                          sync.Mutex
	loops, acks, lost, invented int
}

func (c *tally) add(acks int, err error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.loops++
	c.acks += acks
	if errors.Is(err, errLost) {
		c.lost++
	}
	if errors.Is(err, errInvented) {
		c.invented++
	}
}

// killOnce lets a writer work and kills it: at a random moment of its work, or of its
// opening the piece. The error is what speaks against where it found the work.
func killOnce(t testing.TB, chance *rand.Rand, known bounds, w ways) (bounds, error) {
	t.Helper()
	r := start(t, known, w)
	if chance.IntN(5) > 0 {
		r.until("open ")
	}
	moment := time.AfterFunc(time.Duration(chance.IntN(12_000))*time.Microsecond, func() { _ = r.cmd.Process.Kill() })
	defer moment.Stop()
	r.wait()
	if r.at >= 0 {
		require.False(t, r.has("wrong "), "%q", r.said)
		return r.bounds, known.judge(r.at)
	}
	return r.bounds, nil
}

// Many pieces at once, each killed again and again. A writer says where it finds the
// work: at least at the last step that was said to be saved, and never beyond what was
// worked.
func TestNoKillLosesAStepThatWasSaidToBeSaved(t *testing.T) {
	t.Parallel()
	const pieces = 8
	want := rounds(200, 2000)
	c := &tally{}
	t.Run("pieces", func(t *testing.T) {
		for i := range pieces {
			t.Run(fmt.Sprint(i+1), func(t *testing.T) {
				t.Parallel()
				seed := rand.Uint64()
				t.Logf("seed %d", seed)
				chance := rand.New(rand.NewPCG(seed, 0))
				root := newRoot(t)
				known := bounds{1, 1}
				for range (want + pieces - 1) / pieces {
					before := known.acked
					var err error
					known, err = killOnce(t, chance, known, ways{Root: root, Ahead: 1 + chance.IntN(20)})
					c.add(known.acked-before, err)
					require.NoError(t, err)
				}
				goesOn(t, root, known)
			})
		}
	})
	figures.Say(t, "%d kills, %d steps saved, %d lost, %d invented", c.loops, c.acks, c.lost, c.invented)
	assert.GreaterOrEqual(t, c.loops, want)
	assert.Positive(t, c.acks)
	assert.Zero(t, c.lost+c.invented)
}

// The control: a writer that calls a step saved when it is put must be caught.
func TestKillsCatchAWriterThatSpeaksTooSoon(t *testing.T) {
	t.Parallel()
	chance := rand.New(rand.NewPCG(1, 2))
	root := newRoot(t)
	lost, loops := 0, 0
	for known := (bounds{1, 1}); loops < 50 && lost < 3; loops++ {
		var err error
		if known, err = killOnce(t, chance, known, ways{Root: root, Ahead: 20, Hasty: true}); errors.Is(err, errLost) {
			lost++
			o, _ := look(root, bounds{})
			known = bounds{stepOf(o.Place), stepOf(o.Place)}
		}
	}
	figures.Say(t, "the control: %d of %d kills lost steps", lost, loops)
	assert.Positive(t, lost)
}
