package save

import (
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

const patience = 10 * time.Second

// gate lets calls of one kind wait until it is opened.
type gate struct {
	arrived chan struct{}
	open    chan struct{}
}

// gated makes each write to a journal announce itself and wait.
func (s *stand) gated() gate {
	g := gate{arrived: make(chan struct{}, 1000), open: make(chan struct{})}
	s.fs.mu.Lock()
	defer s.fs.mu.Unlock()
	s.fs.after = func(call, name string) {
		if call == "write" && strings.HasPrefix(name, "journal") {
			g.arrived <- struct{}{}
			<-g.open
		}
	}
	s.fs.counts = map[string]int{}
	return g
}

// await reads news until it is what is waited for.
func await(t *testing.T, w *Writer, done func(Ack) bool) Ack {
	t.Helper()
	limit := time.After(patience)
	for {
		select {
		case a, open := <-w.Acks():
			require.True(t, open, "the writer has ended")
			if done(a) {
				return a
			}
		case <-limit:
			require.Fail(t, "no news came")
		}
	}
}

func through(n uint64) func(Ack) bool {
	return func(a Ack) bool { return a.Through == n && a.Err == nil }
}

func failed(a Ack) bool { return a.Err != nil }

func TestStepsAreSavedInOrderAndAcknowledged(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	w := NewWriter(p)
	assert.EqualValues(t, 1, w.Put(rowTwelve(1)))
	await(t, w, through(1))
	where, _ := p.Saved()
	assert.Equal(t, at(12, 1), where, "what is acknowledged is saved")
	for i := 1; i < 200; i++ {
		w.Put(rowTwelve(i + 1))
	}
	await(t, w, through(200))
	saved, unsaved, err := w.Drain(patience)
	require.NoError(t, err)
	assert.Zero(t, unsaved)
	assert.Equal(t, at(12, 200), saved)
	_, open := <-w.Acks()
	assert.False(t, open, "the news end with the writer")
	_, o := reopened(t, s, p)
	require.Len(t, history(o), 201)
	for i, r := range history(o)[1:] {
		require.Equal(t, at(12, i+1), r.Place)
	}
}

func TestKeysTypedWhileTheDiskIsBusyGoAsOneBatch(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	g := s.gated()
	w := NewWriter(p)
	w.Put(rowTwelve(1))
	<-g.arrived // the first write is under way
	for i := range MaxBatch + 4 {
		w.Put(rowTwelve(i + 2))
	}
	close(g.open)
	await(t, w, through(MaxBatch+5))
	assert.Equal(t, 3, s.fs.count("sync"), "one, sixteen, four")
	assert.Equal(t, 3, s.fs.count("write"))
	_, _, err := w.Drain(patience)
	require.NoError(t, err)
}

func TestNobodyNeedsToListen(t *testing.T) {
	s := newStand(t)
	w := NewWriter(s.begun(t))
	for i := range 500 {
		w.Put(rowTwelve(i + 1))
	}
	saved, unsaved, err := w.Drain(patience)
	require.NoError(t, err)
	assert.Zero(t, unsaved)
	assert.Equal(t, at(12, 500), saved)
	a := <-w.Acks()
	assert.EqualValues(t, 500, a.Through, "the latest news are there")
}

func TestWhatCouldNotBeSavedIsKeptAndTriedAgain(t *testing.T) {
	for _, c := range []struct {
		name  string
		again func(w *Writer) (all uint64)
	}{
		{"when told to", func(w *Writer) uint64 { w.Retry(); return 2 }},
		{"with the next step", func(w *Writer) uint64 { return w.Put(rowTwelve(3)) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			s.fs.failing(always("write", "journal", syscall.ENOSPC))
			w := NewWriter(p)
			w.Put(rowTwelve(1))
			a := await(t, w, failed)
			assert.Zero(t, a.Through)
			require.ErrorIs(t, a.Err, syscall.ENOSPC)
			w.Put(rowTwelve(2))
			await(t, w, failed)

			s.fs.failing(nil)
			all := c.again(w)
			await(t, w, through(all))
			_, unsaved, err := w.Drain(patience)
			require.NoError(t, err)
			assert.Zero(t, unsaved)
			_, o := reopened(t, s, p)
			assert.Equal(t, at(12, int(all)), o.Place)
			assert.Len(t, history(o), int(all)+1)
		})
	}
}

func TestDrainTriesOnceMoreAndSaysWhatIsLeft(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	w := NewWriter(p)
	w.Put(rowTwelve(1))
	await(t, w, through(1))
	s.fs.failing(always("sync", "journal", syscall.EIO))
	w.Put(rowTwelve(2))
	w.Put(rowTwelve(3))
	await(t, w, failed)
	saved, unsaved, err := w.Drain(patience)
	require.ErrorIs(t, err, syscall.EIO)
	assert.Equal(t, at(12, 1), saved)
	assert.Equal(t, 2, unsaved)
	assert.EqualError(t, err, "NOT SAVED: the disk reports an error. Saved: row 12, 1 of 26 worked")
}

func TestDrainDoesNotWaitForADiskThatIsStuck(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	g := s.gated()
	w := NewWriter(p)
	w.Put(rowTwelve(1))
	<-g.arrived
	saved, unsaved, err := w.Drain(time.Millisecond)
	require.ErrorIs(t, err, ErrBusy)
	assert.Equal(t, pattern.Start(), saved)
	assert.Equal(t, 1, unsaved)
	require.ErrorIs(t, p.Close(), ErrBusy)
	close(g.open)
	_, unsaved, err = w.Drain(patience)
	require.NoError(t, err)
	assert.Zero(t, unsaved)
}

func TestABugInTheWriterIsAnErrorAndLosesNothing(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	p.journal.file = panicky{p.journal.file}
	w := NewWriter(p)
	w.Put(rowTwelve(1))
	a := await(t, w, failed)
	require.ErrorIs(t, a.Err, ErrNotSaved)
	w.Retry()
	await(t, w, through(1))
	_, _, err := w.Drain(patience)
	require.NoError(t, err)
}

func TestASecondCopyThatFailsIsANotice(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	s.fs.failing(always("create", "place.new", syscall.ENOSPC))
	w := NewWriter(p)
	for i := range copyEvery {
		w.Put(rowTwelve(i + 1))
	}
	a := await(t, w, func(a Ack) bool { return a.Notice != "" })
	assert.Equal(t, "the second copy of the place is behind: disk full", a.Notice)
	assert.EqualValues(t, copyEvery, a.Through)
	_, unsaved, err := w.Drain(patience)
	require.NoError(t, err)
	assert.Zero(t, unsaved)
}

func TestAStepHasTheTimeAtWhichItWasMade(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	g := s.gated()
	w := NewWriter(p)
	made := begin.Add(5 * time.Hour)
	w.Put(Step{Kind: Forward, Place: at(1, 1), Of: 26, Time: made})
	<-g.arrived
	close(g.open)
	_, _, err := w.Drain(patience)
	require.NoError(t, err)
	_, o := reopened(t, s, p)
	assert.True(t, made.Equal(o.Time))
}

func TestManyMayPutAtOnce(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	w := NewWriter(p)
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for i := range 50 {
				w.Put(rowTwelve(i))
				p.Saved()
			}
		})
	}
	wg.Wait()
	_, unsaved, err := w.Drain(patience)
	require.NoError(t, err)
	assert.Zero(t, unsaved)
	_, o := reopened(t, s, p)
	assert.Len(t, history(o), 401)
}
