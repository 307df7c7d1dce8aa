package ordeal_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/disk"
	"bypeg/tui/internal/figures"
	"bypeg/tui/save"
)

// aFortnight is a piece begun, worked in all the ways there are, laid away and taken
// up again, so long that each way comes more than once.
func aFortnight() []act {
	note := save.Step{Kind: save.Noted, Text: "blue \"B\" starts here\nsecond ball, 草"}
	evening := func() []act {
		return []act{
			steps(1), steps(1), stepsOf(1, save.Step{Kind: save.Back}), steps(2),
			stepsOf(1, save.Step{Kind: save.Undo}), stepsOf(1, save.Step{Kind: save.Redo}),
		}
	}
	days := []act{{"begin", begin}}
	for day := range 10 {
		days = append(days, evening()...)
		switch day {
		case 1, 7:
			days = append(days, changePattern(fmt.Sprintf("pegs = %d\n", 30+day)), steps(1))
		case 3:
			days = append(days, steps(16), steps(16), steps(16), steps(1)) // past the fifty steps of a second copy
		case 5:
			days = append(days, stepsOf(1, note), stepsOf(1, save.Step{Kind: save.Jump}))
		}
		days = append(days, leave, open)
	}
	return append(days, steps(1), leave)
}

// hasty tells whether to try few images with damage in them, and not to assert how many.
func hasty() bool { return testing.Short() }

// oneIn is how many images with damage in them there are to one that is tried: the lines
// written once more on opening make many of them.
func oneIn(n int) int {
	if hasty() {
		return 29 * n
	}
	return n
}

// atLeast asserts that no less was tried than there is to be.
func atLeast(t *testing.T, floor, count int) {
	t.Helper()
	if !hasty() {
		assert.GreaterOrEqual(t, count, floor)
	}
}

// workThrough does the acts, with the test looking on before each call that changes
// the disk, and once more at the end.
func (w *worker) workThrough(t testing.TB, acts []act, look func(op string)) {
	t.Helper()
	w.disk.Before = func(op disk.Op) *disk.Fault {
		if op.Call.Changes() {
			look(op.String())
		}
		return nil
	}
	for _, a := range acts {
		require.NoError(t, w.try(a, 1))
	}
	w.disk.Before = nil
	look("the end")
}

func TestNoPowerCutTakesBackWhatWasShown(t *testing.T) {
	t.Parallel()
	w := newWorker()
	points, images := 0, tally{}
	w.workThrough(t, aFortnight(), func(op string) {
		points++
		require.NoError(t, w.cutPower(&images, oneIn(1)), "before %s", op)
	})
	figures.Say(t, "%d points, %d images, 0 lost, 0 wrong", points, images.tried)
	atLeast(t, 240, points)
	atLeast(t, 20_000, images.tried)
}

// A program that was killed leaves what no sync vouches for, and the next one shows
// it. A power cut after that must not take it back.
func TestWhatIsShownAfterAKillOutlivesAPowerCut(t *testing.T) {
	t.Parallel()
	w := newWorker()
	kills, images := 0, tally{}
	w.workThrough(t, aFortnight(), func(op string) {
		kills++
		next := w.killed()
		if err := open.do(next); err != nil {
			require.Zero(t, w.shown, "killed before %s: %v", op, err)
			return
		}
		require.NoError(t, next.cutPower(&images, oneIn(1)), "killed before %s, opened", op)
	})
	figures.Say(t, "%d kills, %d images, 0 lost, 0 wrong", kills, images.tried)
	atLeast(t, 300, kills)
	atLeast(t, 1_000, images.tried)
}

// The power comes back and goes again while the piece is being opened.
func TestAPowerCutWhileRecoveringTakesNothingMore(t *testing.T) {
	t.Parallel()
	w := newWorker()
	points, images, met := 0, tally{}, 0
	w.workThrough(t, aFortnight(), func(op string) {
		for cut, image := range w.disk.Images() {
			if met++; met%151 != 0 && !cut.Whole() {
				continue
			}
			next := w.on(image())
			next.disk.Before = func(again disk.Op) *disk.Fault {
				if again.Call.Changes() {
					points++
					err := w.on(next.disk.Clone()).cutPower(&images, oneIn(37))
					require.NoError(t, err, "before %s: %s; opened, before %s", op, cut, again)
				}
				return nil
			}
			if err := open.do(next); err != nil {
				require.Zero(t, w.shown, "before %s: %s: %v", op, cut, err)
			}
		}
	})
	figures.Say(t, "%d points, %d images, 0 lost, 0 wrong", points, images.tried)
	atLeast(t, 1_600, points)
	atLeast(t, 1_800, images.tried)
}
