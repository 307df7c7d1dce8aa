package ordeal_test

import (
	"errors"
	"fmt"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"

	"bypeg/tui/internal/disk"
	"bypeg/tui/internal/figures"
)

// anEvening is short, and has each way of working once.
func anEvening() []act {
	return []act{
		{"begin", begin},
		steps(1), steps(2), changePattern("pegs = 30\n"), steps(1), leave,
		open, steps(1), leave,
	}
}

// callsOf are the calls that the acts make where nothing goes wrong.
func callsOf(acts []act) []disk.Op { return callsAt(newWorker(), acts) }

// callsAt are those of a worker that has worked before.
func callsAt(w *worker, acts []act) []disk.Op {
	var ops []disk.Op
	w.disk.Before = func(op disk.Op) *disk.Fault {
		ops = append(ops, op)
		return nil
	}
	for _, a := range acts {
		must(a.do(w))
	}
	return ops
}

// trouble is one call going wrong, and what is tried on the store with it.
type trouble struct {
	op      disk.Op
	fault   disk.Fault
	forGood bool // from then on, and with all other calls that change the disk
}

func (t trouble) String() string {
	often := "once"
	if t.forGood {
		often = "for good"
	}
	return fmt.Sprintf("%s: %+v, %s", t.op, t.fault, often)
}

// before makes the call go wrong.
func (t trouble) before(op disk.Op) *disk.Fault {
	hit := op.N == t.op.N
	if t.forGood && op.N > t.op.N {
		hit = op.Call == t.op.Call || t.op.Call.Changes() && op.Call.Changes()
	}
	if !hit || t.fault.Err == nil && op.Call != disk.Write { // only a write can go wrong without an error
		return nil
	}
	fault := t.fault
	return &fault
}

var errnos = []error{syscall.EIO, syscall.ENOSPC, syscall.EDQUOT, syscall.EROFS, syscall.EMFILE}

// troubles are all the ways in which the calls may go wrong.
func troubles(ops []disk.Op) []trouble {
	var all []trouble
	for _, op := range ops {
		for _, err := range errnos {
			for _, forGood := range []bool{false, true} {
				all = append(all, trouble{op, disk.Fault{Err: err}, forGood})
			}
		}
		switch op.Call {
		case disk.Write:
			all = append(all, shortWrites(op)...)
		case disk.Create, disk.Rename, disk.Remove, disk.Mkdir, disk.SyncDir, disk.Close:
			all = append(all, trouble{op, disk.Fault{Err: syscall.EIO, Done: true}, false})
		}
	}
	return all
}

// shortWrites take a part, and say so, or say that they took nothing, or that they took
// all.
func shortWrites(op disk.Op) []trouble {
	var all []trouble
	for taken := 1; taken < op.Bytes; taken += 1 + op.Bytes/3 {
		for _, forGood := range []bool{false, true} {
			all = append(all,
				trouble{op, disk.Fault{Err: syscall.ENOSPC, Taken: taken, Said: taken}, forGood},
				trouble{op, disk.Fault{Err: syscall.ENOSPC, Taken: taken}, forGood},
				trouble{op, disk.Fault{Taken: taken, Said: taken}, forGood},
				trouble{op, disk.Fault{Taken: taken, Said: op.Bytes}, forGood})
		}
	}
	return append(all, trouble{op, disk.Fault{Err: syscall.EIO, Taken: op.Bytes}, false})
}

// work does the acts as a person would: what fails is tried again, and after the third
// time they leave. Each failure is told to failed. An error is one of the store's own.
func (w *worker) work(acts []act, failed func() error) error {
	for _, a := range acts {
		err := w.try(a, 1)
		for n := 0; err != nil; n++ {
			if errors.As(err, new(broken)) {
				return err
			}
			if err := failed(); err != nil {
				return err
			}
			if n == 2 {
				if w.piece != nil {
					_ = w.piece.Close() // there is nobody to tell any more
				}
				return nil
			}
			err = w.try(a, 1)
		}
	}
	return nil
}

// inAll does something with each of many, on all processors, until one fails.
func inAll[T any](t *testing.T, all []T, do func(T) error) {
	t.Helper()
	var next atomic.Int64
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for !t.Failed() {
				i := int(next.Add(1)) - 1
				if i >= len(all) {
					return
				}
				if err := do(all[i]); err != nil {
					t.Errorf("%v: %v", all[i], err)
				}
			}
		})
	}
	wait.Wait()
}

// Every call fails in every way, once and for good; the person tries again, or leaves
// with their work not saved; and the power goes.
func TestNoFailureThenAPowerCutTakesBackWhatWasShown(t *testing.T) {
	t.Parallel()
	all := troubles(callsOf(anEvening()))
	var images atomic.Int64
	inAll(t, all, func(tr trouble) error {
		w := newWorker()
		w.disk.Before = tr.before
		n := tally{}
		defer func() { images.Add(int64(n.tried)) }()
		look := func() error { return w.cutPower(&n, oneIn(1)) }
		if err := w.work(anEvening(), look); err != nil {
			return err
		}
		return look()
	})
	figures.Say(t, "%d faults, %d images, 0 lost, 0 wrong", len(all), images.Load())
	atLeast(t, 1_700, len(all))
	atLeast(t, 300_000, int(images.Load()))
}

// One call fails, the person works on, and the power goes some calls later.
func TestAFailureThenWorkThenAPowerCut(t *testing.T) {
	afterAFailure(t, func(w *worker, n *tally) error { return w.cutPower(n, oneIn(7)) })
}

// One call fails, the program is killed some calls later, another one shows the place,
// and the power goes.
func TestAFailureThenAKillThenAPowerCut(t *testing.T) {
	afterAFailure(t, func(w *worker, n *tally) error {
		next := w.killed()
		if err := open.do(next); err != nil {
			if w.shown == 0 && nothing(err) {
				return nil
			}
			return asBroken("open", err)
		}
		return next.cutPower(n, oneIn(7))
	})
}

// reach is how many calls after a failure the test looks on.
const reach = 20

// afterAFailure makes each call fail once, and at each change of the disk soon after it
// something else happens.
func afterAFailure(t *testing.T, then func(*worker, *tally) error) {
	t.Helper()
	t.Parallel()
	all := onceEach(callsOf(anEvening()))
	var cuts, images atomic.Int64
	inAll(t, all, func(tr trouble) error {
		w := newWorker()
		n := tally{met: tr.op.N} // so that not the same ones of its images are tried each time
		defer func() { images.Add(int64(n.tried)) }()
		var seen error
		w.disk.Before = func(op disk.Op) *disk.Fault {
			if after := op.N - tr.op.N; seen == nil && after > 0 && after <= reach && op.Call.Changes() {
				cuts.Add(1)
				if err := then(w, &n); err != nil {
					seen = brokenf("%d calls later, before %s: %v", after, op, err)
				}
			}
			return tr.before(op)
		}
		if err := w.work(anEvening(), func() error { return seen }); err != nil {
			return err
		}
		return seen
	})
	figures.Say(t, "%d faults, %d cuts, %d images, 0 lost, 0 wrong", len(all), cuts.Load(), images.Load())
	atLeast(t, 1_200, int(cuts.Load()))
	atLeast(t, 11_000, int(images.Load()))
}

// onceEach makes each call fail with one error, and each write fall short, once.
func onceEach(ops []disk.Op) []trouble {
	return slices.DeleteFunc(troubles(ops), func(tr trouble) bool {
		return tr.forGood || tr.fault.Err != syscall.EIO && tr.fault.Err != nil
	})
}

// The program is killed; a call fails while the next one opens the piece; the person
// tries again and works on; and the power goes.
func TestAKillThenAFailureWhileRecoveringThenAPowerCut(t *testing.T) {
	t.Parallel()
	var killed []*worker
	w := newWorker()
	w.workThrough(t, anEvening(), func(string) { killed = append(killed, w.killed()) })
	var faults, images atomic.Int64
	inAll(t, killed, func(k *worker) error {
		morning := func() []act { return []act{open, steps(2), leave} }
		if err := open.do(k.killed()); err != nil && k.shown == 0 && nothing(err) {
			return nil // there is nothing to open
		}
		n := tally{}
		defer func() { images.Add(int64(n.tried)) }()
		for _, tr := range onceEach(callsAt(k.killed(), morning())) {
			faults.Add(1)
			next := k.killed()
			next.disk.Before = tr.before
			look := func() error { return next.cutPower(&n, oneIn(7)) }
			if err := next.work(morning(), look); err != nil {
				return fmt.Errorf("%v: %w", tr, err)
			}
			if err := look(); err != nil {
				return fmt.Errorf("%v, at the end: %w", tr, err)
			}
		}
		return nil
	})
	figures.Say(t, "%d kills, %d faults, %d images, 0 lost, 0 wrong", len(killed), faults.Load(), images.Load())
	atLeast(t, 60, len(killed))
	atLeast(t, 2_000, int(faults.Load()))
}
