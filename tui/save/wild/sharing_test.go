//go:build unix

package wild_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
	"bypeg/tui/save"
)

func TestTheSecondWriterLooksOnlyAndTakesOverFromOneThatWasKilled(t *testing.T) {
	t.Parallel()
	root := newRoot(t)
	known := bounds{1, 1}
	for range rounds(10, 100) {
		first := start(t, known, ways{Root: root, Ahead: 4})
		first.until("open ")
		second := start(t, bounds{}, ways{Root: root, Steps: 5})
		assert.Contains(t, second.until("held "), fmt.Sprintf("open in another terminal (pid %d, since ", first.cmd.Process.Pid))
		first.acks(5)
		require.Equal(t, -1, second.at, "it must not work while the first one does")
		first.kill()
		second.bounds = first.bounds
		require.Equal(t, endedWell, second.wait(), "%q", second.said)
		require.NoError(t, first.judge(second.at))
		require.Equal(t, second.at+5, second.acked)
		known = second.bounds
	}
	goesOn(t, root, known)
}

func TestALockFileLeftByACrashKeepsNobodyOut(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, left string }{
		{"by a process that is gone", "\npid 4711, since 2026-01-02 19:04\n"},
		{"by this very process, before the machine was started anew", fmt.Sprintf("\npid %d, since 2026-01-02 19:04\n", os.Getpid())},
		{"empty", ""},
		{"all NUL, after a cut of the power", string(make([]byte, 4096))},
	} {
		t.Run(c.name, func(t *testing.T) {
			root := newRoot(t)
			require.NoError(t, os.WriteFile(filepath.Join(root, newID, "lock"), []byte(c.left), 0o600))
			goesOn(t, root, bounds{1, 1})
		})
	}
}

// The second writer's steps are counted from here, so that every place tells whose it
// is.
const second = 1000 * pegs

func TestWithoutLocksAnotherWriterIsFoundOut(t *testing.T) {
	t.Parallel()
	root := newRoot(t)
	a := start(t, bounds{1, 1}, ways{Root: root, Files: lockless, Ahead: 3, Rest: 3, Leave: true})
	assert.Equal(t, "4", a.until("rest "))
	assert.True(t, a.has("notice this folder can't be locked"), "%q", a.said)
	b := start(t, bounds{}, ways{Root: root, Files: lockless, From: second, Steps: 3})
	require.Equal(t, endedWell, b.wait(), "%q", b.said)
	require.Equal(t, 4, b.at)
	a.tell("go on")
	require.Equal(t, leftUnsaved, a.wait(), "%q", a.said)
	assert.True(t, a.has("changed"))
	assert.Equal(t, 4, a.acked, "nothing more is said to be saved")
	holds(t, root, a, b)
	o, _ := look(root, bounds{})
	assert.Equal(t, second+3, stepOf(o.Place))
}

// Both write at the same time, as fast as they can.
func TestWithoutLocksTwoWritersAtOnceLoseNoStep(t *testing.T) {
	t.Parallel()
	found, asked, acks := 0, 0, 0
	for range rounds(20, 200) {
		root := newRoot(t)
		w := ways{Root: root, Files: lockless, Steps: 40, Ahead: 4, Wait: true, Leave: true}
		a := start(t, bounds{1, 1}, w)
		w.From = second
		b := start(t, bounds{}, w)
		for _, r := range []*run{a, b} {
			r.until("open ")
		}
		for _, r := range []*run{a, b} {
			r.tell("go on")
		}
		for _, r := range []*run{a, b} {
			r.wait()
		}
		if a.has("changed") || b.has("changed") {
			found++
		}
		if holds(t, root, a, b) {
			asked++
		}
		acks += len(a.ackedSteps()) + len(b.ackedSteps())
	}
	figures.Say(t, "%d steps saved, the other writer found out %d times, asked which place is right %d times, 0 lost", acks, found, asked)
	assert.Positive(t, found)
}

// holds checks that every step that either writer said to be saved is in the piece:
// in the history, or in another one that is asked about.
func holds(t testing.TB, root string, writers ...*run) (asked bool) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, newID, journalName))
	require.NoError(t, err)
	p, o, err := save.Open(save.System("the test"), root, newID)
	require.NoError(t, err)
	defer func() { assert.NoError(t, p.Close()) }()
	var places []int
	for r := range o.History.All() {
		places = append(places, stepOf(r.Place))
	}
	if o.Question != nil {
		for _, c := range o.Question.Choices {
			places = append(places, stepOf(c.Place))
		}
	}
	for _, r := range writers {
		for _, n := range r.ackedSteps() {
			at := placeOf(n)
			assert.Contains(t, string(text), fmt.Sprintf("row=%d done=%d ", at.Row, at.Done))
		}
		assert.Contains(t, places, r.acked, "%s", o.Question)
	}
	return o.Question != nil
}

// ackedSteps are the steps that a writer has put and said to be saved.
func (r *run) ackedSteps() []int {
	var steps []int
	for _, line := range r.said {
		var n int
		if _, err := fmt.Sscanf(line, "put %d", &n); err == nil && n <= r.acked {
			steps = append(steps, n)
		}
	}
	return steps
}
