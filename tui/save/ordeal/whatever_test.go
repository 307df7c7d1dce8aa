package ordeal_test

import (
	"errors"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"bypeg/tui/internal/disk"
	"bypeg/tui/save"
)

// lives is how often a law is tried a hundred times, each life another one.
func lives() int {
	if hasty() {
		return 2
	}
	return 60
}

// life is what happens to a worker, drawn by chance.
type life struct {
	t      *rapid.T
	w      *worker
	faults int // how many calls are still to fail
	calls  int // how many go well before the next one that fails
}

func newLife(t *rapid.T) *life {
	l := &life{t: t, w: newWorker()}
	must(begin(l.w))
	l.faults = rapid.IntRange(0, 9).Draw(t, "faults")
	l.goOnAs(l.w)
	return l
}

// upTo draws a number from 0 up to below n.
func (l *life) upTo(n int, what string) int { return rapid.IntRange(0, n-1).Draw(l.t, what) }

// goOnAs makes the worker's calls fail by chance.
func (l *life) goOnAs(w *worker) {
	l.w = w
	w.disk.Before = l.before
	l.wait()
}

func (l *life) wait() {
	if l.faults > 0 {
		l.calls = l.upTo(40, "calls before a fault")
	}
}

func (l *life) before(op disk.Op) *disk.Fault {
	if l.faults == 0 {
		return nil
	}
	if l.calls > 0 {
		l.calls--
		return nil
	}
	l.faults--
	l.wait()
	f := &disk.Fault{Err: rapid.SampledFrom(errnos).Draw(l.t, "fault of "+op.String())}
	switch op.Call {
	case disk.Write:
		f.Taken = l.upTo(op.Bytes+1, "taken")
		if rapid.Bool().Draw(l.t, "and it says so") {
			f.Said = f.Taken
		}
	case disk.Create, disk.Rename, disk.Remove, disk.Mkdir, disk.SyncDir, disk.Close:
		f.Done = rapid.Bool().Draw(l.t, "done all the same")
	}
	return f
}

// calmly does something while no call fails.
func (l *life) calmly(do func() error) error {
	faults := l.faults
	l.faults = 0
	defer func() { l.faults = faults }()
	return do()
}

// open opens the piece, which must work where no call fails.
func (l *life) open() error {
	for range 3 {
		if err := open.do(l.w); err == nil || errors.As(err, new(broken)) {
			return err
		}
	}
	return l.calmly(func() error { return asBroken("open", open.do(l.w)) })
}

// kill kills the program and opens the piece again.
func (l *life) kill() error {
	l.goOnAs(l.w.killed())
	return l.open()
}

// powerCut leaves one of the images that a power cut can leave, unless the person was
// told that the place may not outlive it.
func (l *life) powerCut() error {
	if l.w.unsure {
		return nil
	}
	n := l.upTo(60, "image")
	if l.upTo(3, "a late one") == 0 {
		n = l.upTo(2_000, "late image")
	}
	var left func() *disk.Disk
	for _, image := range l.w.disk.Images() {
		left = image
		if n--; n < 0 {
			break
		}
	}
	l.goOnAs(l.w.on(left()))
	return l.open()
}

// try does an act up to three times; what still fails then is given up by a kill.
func (l *life) try(a act) error {
	for range 3 {
		err := a.do(l.w)
		if err == nil {
			l.w.unsure = false // what was owed went along
			return nil
		}
		if errors.As(err, new(broken)) {
			return err
		}
	}
	return l.kill()
}

// work is one thing that happens.
func (l *life) work(texts int) error {
	switch l.upTo(12, "what happens") {
	case 0, 1, 2, 3, 4:
		return l.try(steps(1 + l.upTo(3, "steps")))
	case 5:
		return l.try(steps(1 + l.upTo(save.MaxBatch, "many steps")))
	case 6:
		return l.try(changePattern(fmt.Sprintf("pegs = %d\n", 30+texts)))
	case 7, 8:
		return l.kill()
	case 9:
		_ = l.w.piece.Close()
		return l.open()
	}
	return l.powerCut()
}

// Whatever calls fail, whenever the program is killed, left, and the power is cut: what
// was shown is there again, in order and with its pattern, and nobody is asked.
func TestWhateverFailsNothingThatWasShownIsLost(t *testing.T) {
	for range lives() {
		rapid.Check(t, func(t *rapid.T) {
			l := newLife(t)
			for n := range rapid.IntRange(4, 20).Draw(t, "how much happens") {
				if err := l.work(n); err != nil {
					t.Fatal(err)
				}
			}
			l.faults = 0
			if err := l.powerCut(); err != nil {
				t.Fatal(err)
			}
		})
	}
}
