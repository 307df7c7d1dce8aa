package save

import (
	"fmt"
	"sync"
	"time"

	"bypeg/pattern"
)

// Writer saves steps in the background, in the order in which they are put. Putting
// never waits: a slow disk makes the queue longer and the batches larger. It is the
// only one to save to its piece while it lives.
type Writer struct {
	piece *Piece
	acks  chan Ack
	wake  chan struct{} // something to do; never more than one waiting
	done  chan struct{} // closed when the goroutine has ended

	mu      sync.Mutex
	queue   []Step // not yet saved
	put     uint64
	saved   uint64
	place   pattern.Place // the last one saved
	err     error         // of the last try
	closing bool
}

// Ack tells how far the steps are saved.
type Ack struct {
	Through uint64 // all steps up to this one are on disk
	Err     error  // why the next ones are not; nil while all is well
	Notice  string // something that went wrong and threatens no step; mostly ""
}

// NewWriter starts a writer for a piece that can be worked. It ends with Drain.
func NewWriter(p *Piece) *Writer {
	w := &Writer{
		piece: p,
		acks:  make(chan Ack, 1),
		wake:  make(chan struct{}, 1),
		done:  make(chan struct{}),
	}
	w.place, _ = p.Saved()
	go w.run()
	return w
}

// Put adds a step to the queue and returns its number, counted from 1. It never
// waits. A step without a time gets the present one.
func (w *Writer) Put(s Step) uint64 {
	if s.Time.IsZero() {
		s.Time = w.piece.env.Now()
	}
	w.mu.Lock()
	w.queue = append(w.queue, s)
	w.put++
	n := w.put
	w.mu.Unlock()
	w.Retry()
	return n
}

// Retry tries again to save what could not be saved. Putting a step does so too.
func (w *Writer) Retry() {
	select {
	case w.wake <- struct{}{}:
	default: // it is awake already
	}
}

// Acks delivers how far the steps are saved, the latest news only. It is closed when
// the writer has ended.
func (w *Writer) Acks() <-chan Ack { return w.acks }

// Drain saves what is still waiting, tries once more what had failed, and ends the
// writer. It waits for at most the timeout. It returns the last saved place, how
// many steps are not saved, and why.
func (w *Writer) Drain(timeout time.Duration) (saved pattern.Place, unsaved int, err error) {
	w.mu.Lock()
	w.closing = true
	w.mu.Unlock()
	w.Retry()
	timer := time.NewTimer(timeout)
	defer timer.Stop()
	select {
	case <-w.done:
	case <-timer.C:
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if len(w.queue) > 0 && w.err == nil {
		return w.place, len(w.queue), ErrBusy
	}
	return w.place, len(w.queue), w.err
}

// run saves until it is told to end.
func (w *Writer) run() {
	defer close(w.done)
	defer close(w.acks)
	for range w.wake {
		for w.saveBatch() {
			continue
		}
		w.mu.Lock()
		end := w.closing
		w.mu.Unlock()
		if end {
			return
		}
	}
}

// saveBatch saves the oldest steps and tells whether it is worth going on.
func (w *Writer) saveBatch() bool {
	w.mu.Lock()
	batch := w.queue[:min(len(w.queue), MaxBatch)]
	w.mu.Unlock()
	if len(batch) == 0 {
		return false
	}
	err := guarded(func() error { return w.piece.save(batch) })
	w.mu.Lock()
	w.err = err
	if err == nil {
		w.place = batch[len(batch)-1].Place
		w.saved += uint64(len(batch))
		w.queue = w.queue[len(batch):]
	}
	ack := Ack{Through: w.saved, Err: err}
	w.mu.Unlock()
	w.tell(ack)
	if err != nil {
		return false
	}
	if err := guarded(w.piece.copyDue); err != nil {
		ack.Notice = copyNotice(err)
		w.tell(ack)
	}
	return true
}

// tell puts the news where the old news was. A notice that nobody has read yet stays.
func (w *Writer) tell(a Ack) {
	select {
	case old := <-w.acks:
		if a.Notice == "" {
			a.Notice = old.Notice
		}
	default:
	}
	w.acks <- a // there is room: nobody else sends
}

// guarded makes an error of a panic. The program goes on, and nothing that failed
// counts as saved.
func guarded(f func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%w: a bug in this program: %v", ErrNotSaved, r)
		}
	}()
	return f()
}
