package save

import (
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAStepThatIsNotSavedSaysWhyAndWhatIs(t *testing.T) {
	for _, c := range []struct {
		name  string
		err   error
		words string
	}{
		{"the disk is full", syscall.ENOSPC, "NOT SAVED: disk full. Saved: row 12, 1 of 26 worked"},
		{"the quota is used up", syscall.EDQUOT, "NOT SAVED: disk quota used up. Saved: row 12, 1 of 26 worked"},
		{"the disk can only be read", syscall.EROFS, "NOT SAVED: the disk can only be read. Saved: row 12, 1 of 26 worked"},
		{"the disk is broken", syscall.EIO, "NOT SAVED: the disk reports an error. Saved: row 12, 1 of 26 worked"},
		{"nobody knows", io.ErrClosedPipe, "NOT SAVED: io: read/write on closed pipe. Saved: row 12, 1 of 26 worked"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			require.NoError(t, p.Append([]Step{rowTwelve(1)}))
			s.fs.failing(once("write", "journal", &fs.PathError{Op: "write", Path: "\x1b[2J", Err: c.err}))
			err := p.Append([]Step{rowTwelve(2)})
			require.ErrorIs(t, err, ErrNotSaved)
			require.ErrorIs(t, err, c.err)
			if c.err != io.ErrClosedPipe {
				assert.EqualError(t, err, c.words)
			} else {
				assert.NotContains(t, err.Error(), "\x1b")
			}
		})
	}
}

// TestADiskThatFillsUpAndIsFreed lets a write take any number of bytes before it
// fails, and goes on.
func TestADiskThatFillsUpAndIsFreed(t *testing.T) {
	batch := []Step{rowTwelve(2), rowTwelve(3)}
	for n := range 2 * 140 {
		short := n / 2
		s := newStand(t)
		s.fs.liar = n%2 == 1
		p := s.begun(t)
		require.NoError(t, p.Append([]Step{rowTwelve(1)}))
		s.fs.short = short
		s.fs.failing(once("write", "journal", syscall.ENOSPC))
		require.ErrorIs(t, p.Append(batch), ErrNotSaved)
		where, _ := p.Saved()
		require.Equal(t, at(12, 1), where)

		s.fs.failing(nil)
		require.NoError(t, p.Append(append(batch, rowTwelve(4))))
		require.Zero(t, s.fs.count("create"), "the same file stays usable")
		_, o := reopened(t, s, p)
		require.Equal(t, at(12, 4), o.Place, "after %d bytes", short)
		require.Equal(t, []Kind{Begun, Forward, Forward, Forward, Forward}, kinds(history(o)), "no step counts twice")
		require.Empty(t, o.Notices)
		require.Nil(t, o.Question)
		last := history(o)[len(history(o))-1]
		require.EqualValues(t, 7, last.Number, "numbers whose write failed are not used again")
	}
}

func TestAFileWhoseSyncFailedIsNeverSyncedAgain(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	s.fs.failing(once("sync", "journal", syscall.EIO))
	require.ErrorIs(t, p.Append([]Step{rowTwelve(2)}), syscall.EIO)

	var touched []string
	s.fs.failing(func(call, name string) error {
		if call != "fstat" {
			touched = append(touched, call+" "+name)
		}
		return nil
	})
	require.NoError(t, p.Append([]Step{rowTwelve(2), rowTwelve(3)}))
	assert.Equal(t, []string{
		"create journal-0002.txt", "write journal-0002.txt", "sync journal-0002.txt", "syncdir k7q1",
		"write journal-0002.txt", "sync journal-0002.txt",
	}, touched)

	touched = nil
	_, o := reopened(t, s, p)
	assert.Equal(t, at(12, 3), o.Place)
	assert.Len(t, history(o), 4, "the failed try reached the disk and counts once")
	assert.Nil(t, o.Question)
	assert.Empty(t, o.Notices)
	assert.NotContains(t, touched, "sync journal-0001.txt")
}

func TestANewSegmentThatCannotBeMadeIsTriedAgain(t *testing.T) {
	for _, c := range []struct {
		name, call, file string
		segments         int
	}{
		{"its file", "create", "journal-0002", 2},
		{"its header", "write", "journal-0002", 2},
		{"the sync of its header", "sync", "journal-0002", 3},
		{"the sync of its name", "syncdir", "k7q1", 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			s.fs.short = 40
			p := s.begun(t)
			s.fs.failing(once("sync", "journal", syscall.EIO))
			require.Error(t, p.Append([]Step{rowTwelve(1)}))
			s.fs.failing(once(c.call, c.file, syscall.EIO))
			require.ErrorIs(t, p.Append([]Step{rowTwelve(1)}), ErrNotSaved)
			s.fs.failing(nil)
			require.NoError(t, p.Append([]Step{rowTwelve(1)}))
			names, err := filepath.Glob(s.path(p.ID(), "journal-*"))
			require.NoError(t, err)
			assert.Len(t, names, c.segments)
			_, o := reopened(t, s, p)
			assert.Equal(t, at(12, 1), o.Place)
			assert.Len(t, history(o), 2)
			assert.Empty(t, o.Notices)
		})
	}
}

func TestAFileThatCannotBeToldApartAnyMoreIsLeft(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	failed := false
	s.fs.short = 10
	s.fs.failing(func(call, name string) error {
		switch {
		case call == "write" && name == "journal-0001.txt":
			failed = true
			return syscall.EIO
		case call == "fstat" && failed:
			return syscall.EIO
		}
		return nil
	})
	require.ErrorIs(t, p.Append([]Step{rowTwelve(1)}), ErrNotSaved)
	s.fs.failing(nil)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	assert.Equal(t, 1, s.fs.count("create"))
	_, o := reopened(t, s, p)
	assert.Equal(t, at(12, 1), o.Place)
	assert.Empty(t, o.Notices)
}

// TestAPlaceIsMadeSureOfBeforeItIsShown: a program killed between write and sync
// leaves a place that only memory has.
func TestAPlaceIsMadeSureOfBeforeItIsShown(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 2)
	s.fs.failing(nil)
	p, _ := s.open(t, id)
	assert.Equal(t, 2, s.fs.count("sync"), "of what was there, and of what was written once more")
	assert.Equal(t, 1, s.fs.count("syncdir"))
	assert.Equal(t, 1, s.fs.count("write"))
	require.NoError(t, p.Close())

	s.fs.failing(nil)
	s.open(t, id)
	assert.Equal(t, 1, s.fs.count("sync"))
	assert.Equal(t, 0, s.fs.count("write"), "the second copy vouches for the last line")
}

// TestAPieceIsReadAfterItIsLocked: another program saves its last step and ends just
// before the lock is taken.
func TestAPieceIsReadAfterItIsLocked(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 2)
	s.fs.failing(func(call, name string) error {
		if call == "lock" {
			line := Record{Number: 4, Prev: 3, Time: begin, Kind: Forward, Place: at(12, 3), Of: 26}.appendLine(nil, id)
			s.setJournal(t, id, append(s.journalOf(t, id), line...))
		}
		return nil
	})
	_, o := s.open(t, id)
	assert.Equal(t, at(12, 3), o.Place)
}

func TestAPlaceThatNoSyncVouchesForIsWrittenAgain(t *testing.T) {
	t.Run("because the sync on opening fails", func(t *testing.T) {
		s := newStand(t)
		id := s.worked(t, 2)
		s.fs.failing(once("sync", "journal", syscall.EIO))
		p, o := s.open(t, id)
		assert.Empty(t, o.LookOnly)
		assert.Equal(t, at(12, 2), o.Place)
		p.letGo()
		data, err := os.ReadFile(s.path(id, "journal-0002.txt"))
		require.NoError(t, err)
		assert.Contains(t, string(data), "\n2 1 ")
		assert.Contains(t, string(data), "\n3 2 ")
		_, o = s.open(t, id)
		assert.Equal(t, at(12, 2), o.Place)
		assert.Len(t, history(o), 3)
		assert.Nil(t, o.Question)
	})
	t.Run("because it lies in a file that was left", func(t *testing.T) {
		s := newStand(t)
		p := s.begun(t)
		s.fs.failing(once("sync", "journal", syscall.EIO))
		require.Error(t, p.Append([]Step{rowTwelve(1)}))
		s.fs.failing(once("write", "journal-0002", nil))
		require.NoError(t, p.journal.ready()) // and then it is killed
		_, o := reopened(t, s, p)
		assert.Equal(t, at(12, 1), o.Place)
		// That the second segment's header is on disk nothing tells.
		data, err := os.ReadFile(s.path(p.ID(), "journal-0003.txt"))
		require.NoError(t, err)
		assert.Contains(t, string(data), "done=1")
	})
}

func TestAPieceThatCannotBeWrittenOpensToLookOnly(t *testing.T) {
	for _, c := range []struct {
		name  string
		fault func(string, string) error
		words string
	}{
		{"its lock cannot be taken", once("lock", "lock", syscall.EROFS), "the disk can only be read"},
		{"its journal cannot be opened to write", once("append", "journal", syscall.EACCES), "no permission to write"},
		{"its folder cannot be synced", once("syncdir", "k7q", syscall.EIO), "the disk reports an error"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			id := s.worked(t, 2)
			s.fs.failing(c.fault)
			p, o := s.open(t, id)
			assert.Equal(t, c.words, o.LookOnly)
			assert.False(t, o.Held)
			assert.True(t, p.LookOnly())
			assert.Equal(t, at(12, 2), o.Place)
			require.ErrorIs(t, p.Append([]Step{rowTwelve(3)}), ErrLookOnly)
			require.ErrorIs(t, p.ChangePattern(nil, at(1, 0), 1, ""), ErrLookOnly)
			require.NoError(t, p.Close())
			_, took, err := p.TryTakeOver()
			require.NoError(t, err)
			assert.False(t, took, "it is not waited for")
		})
	}
}

func TestAReadThatFailsIsNeverAnEmptyJournal(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 2)
	for _, file := range []string{"journal", "pattern"} {
		s.fs.failing(always("read", file, syscall.EIO))
		_, _, err := Open(s.env, s.root, id)
		require.ErrorIs(t, err, syscall.EIO)
	}
	s.fs.failing(always("read", copyName, syscall.EIO))
	_, o := s.open(t, id)
	assert.Equal(t, at(12, 2), o.Place)
	assert.Equal(t, []string{copyUnreadNotice}, o.Notices)
	assert.Equal(t, "its second copy can't be read: the disk reports an error", o.LookOnly)
}

func TestAFolderWithoutLocksIsWorkedWithAWarning(t *testing.T) {
	s := newStand(t)
	s.fs.fault = always("lock", "lock", syscall.ENOTSUP)
	id := s.worked(t, 2)
	p, o := s.open(t, id)
	assert.Equal(t, []string{noLocksNotice}, o.Notices)
	require.NoError(t, p.Append([]Step{rowTwelve(3)}))
}

func TestAFileThatSomethingElseChangedIsLeftAlone(t *testing.T) {
	elsewhere := func(t *testing.T, s *stand, id string, data []byte) {
		temp := s.path(id, "incoming")
		require.NoError(t, os.WriteFile(temp, data, 0o600))
		require.NoError(t, os.Rename(temp, s.path(id, "journal-0001.txt")))
	}
	for _, c := range []struct {
		name    string
		change  func(t *testing.T, s *stand, id string)
		place   int // stitches of row 12 on rereading
		choices int
	}{
		{"replaced by the same", func(t *testing.T, s *stand, id string) {
			elsewhere(t, s, id, s.journalOf(t, id))
		}, 3, 0},
		{"replaced by an older one", func(t *testing.T, s *stand, id string) {
			whole := s.journalOf(t, id)
			elsewhere(t, s, id, whole[:len(whole)-80])
		}, 2, 2},
		{"shortened", func(t *testing.T, s *stand, id string) {
			whole := s.journalOf(t, id)
			require.NoError(t, os.Truncate(s.path(id, "journal-0001.txt"), int64(len(whole)-80)))
		}, 2, 2},
		{"written to by another", func(t *testing.T, s *stand, id string) {
			line := Record{Number: 5, Prev: 4, Time: begin, Kind: Forward, Place: at(12, 9), Of: 26}.appendLine(nil, id)
			s.setJournal(t, id, append(s.journalOf(t, id), line...))
		}, 9, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			for i := range 3 {
				require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
			}
			c.change(t, s, p.ID())
			before := s.journalOf(t, p.ID())
			for range 2 {
				err := p.Append([]Step{rowTwelve(4)})
				require.ErrorIs(t, err, ErrChangedUnderneath)
				require.ErrorIs(t, err, ErrNotSaved)
			}
			assert.Equal(t, before, s.journalOf(t, p.ID()))

			o, err := p.Reread()
			require.NoError(t, err)
			assert.Equal(t, at(12, c.place), o.Place)
			if c.choices == 0 {
				require.Nil(t, o.Question)
				require.NoError(t, p.Append([]Step{rowTwelve(4)}))
				return
			}
			require.NotNil(t, o.Question)
			require.Len(t, o.Question.Choices, c.choices)
			require.ErrorIs(t, p.Append([]Step{rowTwelve(4)}), ErrUnanswered)
			o, err = p.Settle(Choice{Place: at(12, 3), Of: 26})
			require.NoError(t, err)
			require.Nil(t, o.Question)
			require.NoError(t, p.Append([]Step{rowTwelve(4)}))
			_, o = reopened(t, s, p)
			assert.Equal(t, at(12, 4), o.Place)
			assert.Nil(t, o.Question)
		})
	}
}

func TestAChangeDuringTheWriteIsNotTakenForSaved(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	s.fs.after = func(call, name string) {
		if call == "sync" && name == "journal-0001.txt" {
			require.NoError(t, os.Remove(s.path("k7q1", name)))
		}
	}
	require.ErrorIs(t, p.Append([]Step{rowTwelve(1)}), ErrChangedUnderneath)
	where, _ := p.Saved()
	assert.Equal(t, 0, where.Done)
}

func TestAFolderThatIsGoneIsAnError(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, os.RemoveAll(s.root))
	require.ErrorIs(t, p.Append([]Step{rowTwelve(1)}), ErrChangedUnderneath)
	_, err := p.Reread()
	require.ErrorIs(t, err, fs.ErrNotExist)
	require.Error(t, p.Append([]Step{rowTwelve(1)}))
	require.NoError(t, p.Close())
}

// panicky is a file that shows a bug.
type panicky struct{ File }

func (panicky) Write([]byte) (int, error) { panic("a bug") }

func TestABugInTheMiddleOfAWriteLosesNothing(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	p.journal.file = panicky{p.journal.file}
	require.Panics(t, func() { _ = p.Append([]Step{rowTwelve(1)}) })
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	_, o := reopened(t, s, p)
	assert.Equal(t, at(12, 1), o.Place)
	assert.Nil(t, o.Question)
}

// TestAFullDiskKeepsNobodyFromWorking: a killed program left lines that should be written
// once more, and there is no room for them.
func TestAFullDiskKeepsNobodyFromWorking(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 2)
	s.fs.failing(always("write", "", syscall.ENOSPC))
	p, o := s.open(t, id)
	assert.Empty(t, o.LookOnly)
	assert.Equal(t, at(12, 2), o.Place)
	assert.Equal(t, []string{"disk full: what was saved last may not outlive a power cut"}, o.Notices)
	require.EqualError(t, p.Append([]Step{rowTwelve(3)}), "NOT SAVED: disk full. Saved: row 12, 2 of 26 worked")

	s.fs.failing(nil)
	before := s.journalOf(t, id)
	require.NoError(t, p.Append([]Step{rowTwelve(3)}))
	assert.Equal(t, 1, s.fs.count("write"), "the lines owed go with the step")
	assert.Equal(t, 1, s.fs.count("sync"))
	added := string(s.journalOf(t, id)[len(before):])
	assert.Regexp(t, `^\n2 1 .*\n3 2 .*\n5 3 .*done=3.*\n$`, added)
	require.NoError(t, p.Append([]Step{rowTwelve(4)}))
	assert.Equal(t, 2, strings.Count(string(s.journalOf(t, id)), "\n3 2 "), "and only once")
	_, o = reopened(t, s, p)
	assert.Equal(t, at(12, 4), o.Place)
	assert.Equal(t, 5, o.History.Len())
	assert.Empty(t, o.Notices)
}

func TestTheSecondCopyDoesNotVouchForWhatIsOwed(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 2)
	before := filesOf(t, s, id)[copyName]
	s.fs.failing(always("write", "journal", syscall.ENOSPC))
	p, _ := s.open(t, id)
	require.EqualError(t, p.Close(), "disk full: what was saved last may not outlive a power cut")
	assert.Equal(t, before, filesOf(t, s, id)[copyName])
}
