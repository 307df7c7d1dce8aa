package ordeal_test

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/disk"
	"bypeg/tui/save"
)

// # Lines adrift
//
// A sync fails and the program is killed: lines are left that can be read, that never
// reach the disk, and that another sync does not bring there. What is done next must not
// forget them, whatever goes wrong then. On every image that a power cut can leave, all
// that was shown is there.

// journalFails makes the first such call on the journal fail.
func journalFails(c disk.Call, err error) func(disk.Op) *disk.Fault {
	done := false
	return func(op disk.Op) *disk.Fault {
		if done || op.Call != c || !strings.HasPrefix(filepath.Base(op.Path), "journal") {
			return nil
		}
		done = true
		return &disk.Fault{Err: err}
	}
}

// adrift is a worker whose act was left adrift when the program was killed.
func adrift(t *testing.T, a act) *worker {
	t.Helper()
	w := newWorker()
	require.NoError(t, begin(w))
	require.NoError(t, steps(1).do(w))
	w.disk.Before = journalFails(disk.Sync, syscall.EIO)
	require.ErrorIs(t, a.do(w), syscall.EIO)
	return w.killed()
}

// outlives holds that all that was shown is there on every image.
func outlives(t *testing.T, w *worker) {
	t.Helper()
	w.disk.Before = nil
	n := tally{}
	require.NoError(t, w.cutPower(&n, 1))
	require.NotZero(t, n.tried)
}

func TestAWholeBatchAdriftIsWrittenOnceMore(t *testing.T) {
	w := adrift(t, steps(save.MaxBatch))
	require.NoError(t, open.do(w))
	outlives(t, w)
}

// There is no room on opening, and then a whole batch is adrift as well.
func TestLinesOwedAreNotLeftBehindAWholeBatch(t *testing.T) {
	for name, a := range map[string]act{
		"a note":                stepsOf(1, save.Step{Kind: save.Noted, Text: "second ball here"}),
		"a change of pattern":   changePattern("pegs = 30\n"),
		"a batch of its own":    steps(save.MaxBatch),
		"a little less than it": steps(save.MaxBatch - 1),
	} {
		t.Run(name, func(t *testing.T) {
			w := adrift(t, a)
			w.disk.Before = journalFails(disk.Write, syscall.ENOSPC)
			require.NoError(t, open.do(w))
			w.disk.Before = journalFails(disk.Sync, syscall.EIO)
			batch := steps(save.MaxBatch)
			for range 2 { // where the lines owed are written by themselves their sync fails, and all is well then
				if err := batch.do(w); err != nil {
					require.ErrorIs(t, err, syscall.EIO)
					break
				}
			}
			w = w.killed()
			require.NoError(t, open.do(w))
			outlives(t, w)
		})
	}
}

// A person has written a line by hand besides, so that a question is asked first.
func TestAnAnswerDoesNotVouchForWhatIsAdrift(t *testing.T) {
	for _, n := range []int{3, save.MaxBatch} {
		for _, killed := range []bool{false, true} {
			w := adrift(t, steps(n))
			w.disk.WriteFile(filepath.Join(root, w.id, "journal-0002.txt"), []byte("here row=1 done=2\n"))
			p, o, err := save.Open(w.env, root, w.id)
			require.NoError(t, err)
			require.NotNil(t, o.Question)
			if killed { // between the answer and what is done about the lines
				syncs := 0
				w.disk.Before = func(op disk.Op) *disk.Fault {
					if op.Call == disk.Sync {
						syncs++
					}
					if syncs > 2 || syncs == 2 && op.Call != disk.Sync { // the header's and the answer's
						return &disk.Fault{Err: syscall.EIO}
					}
					return nil
				}
			}
			settled, err := p.Settle(o.Question.Choices[0])
			if killed {
				w = w.killed()
				require.NoError(t, open.do(w))
			} else {
				require.NoError(t, err)
				require.Nil(t, settled.Question)
				require.NoError(t, w.see(p, settled))
			}
			outlives(t, w)
		}
	}
}

// Opening cannot write the lines once more, and the person leaves on a sound disk.
func TestLeavingWritesWhatIsAdrift(t *testing.T) {
	w := adrift(t, steps(1))
	w.disk.Before = journalFails(disk.Write, syscall.EIO)
	require.NoError(t, open.do(w))
	w.disk.Before = nil
	require.NoError(t, w.piece.Close())
	outlives(t, w)
}

// A sync fails, the next try takes one line of two, and the program is killed. What is
// left of both tries is made sure of together: of the first one the end alone must not be
// left, which nobody could tell from another history.
func TestTwoFailedTriesAreNoRivals(t *testing.T) {
	w := newWorker()
	require.NoError(t, begin(w))
	two := steps(2)
	w.disk.Before = journalFails(disk.Sync, syscall.EIO)
	require.Error(t, two.do(w))
	writes := 0
	w.disk.Before = func(op disk.Op) *disk.Fault {
		if op.Call == disk.Write {
			if writes++; writes == 2 { // the first one is the header's
				return &disk.Fault{Err: syscall.ENOSPC, Taken: op.Bytes * 6 / 10}
			}
		}
		return nil
	}
	require.Error(t, two.do(w))
	w = w.killed()
	require.NoError(t, open.do(w))
	outlives(t, w)
}
