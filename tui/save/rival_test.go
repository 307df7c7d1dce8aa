package save

import (
	"bytes"
	"os"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

// TestARivalThatBeganWithTheSameStepIsNoFailedTry: here seven steps were worked. On another
// machine a write of seven steps failed, their numbers were burnt, and the day after one
// step was saved. It is the same as the first one here, and was not made at the same time.
func TestARivalThatBeganWithTheSameStepIsNoFailedTry(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	old := s.journalOf(t, p.ID())
	for i := 2; i < 9; i++ {
		require.NoError(t, p.Append([]Step{rowTwelve(i)}))
	}
	ours := s.journalOf(t, p.ID())
	p.letGo()
	theirs := Record{Number: 10, Prev: 2, Time: begin.AddDate(0, 0, 1), Kind: Forward, Place: at(12, 2), Of: 26}
	s.setJournal(t, p.ID(), theirs.appendLine(old, p.ID()))
	require.NoError(t, os.WriteFile(s.path(p.ID(), "journal-0001 (conflict).txt"), ours, 0o600))
	require.NoError(t, os.Remove(s.path(p.ID(), copyName)))
	_, o := s.open(t, p.ID())
	require.NotNil(t, o.Question)
	assert.Equal(t, []pattern.Place{at(12, 2), at(12, 8)}, placesOf(o.Question))
}

// TestAStepThatIsMadeAgainKeepsItsTime: it is that which makes it the same step.
func TestAStepThatIsMadeAgainKeepsItsTime(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	s.fs.failing(once("sync", "journal", syscall.EIO))
	require.ErrorIs(t, p.Append([]Step{rowTwelve(1), rowTwelve(2)}), syscall.EIO)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	lines := strings.Split(allFiles(t, s, p.ID()), "\n")
	var stamps []string
	for _, line := range lines {
		if strings.Contains(line, " row=12 done=1 ") {
			stamps = append(stamps, strings.Fields(line)[2])
		}
	}
	require.Len(t, stamps, 2)
	assert.Equal(t, stamps[0], stamps[1])
	_, o := reopened(t, s, p)
	assert.Nil(t, o.Question)
	assert.Equal(t, at(12, 1), o.Place)
}

// TestNoStepIsTakenThatCouldNotBeReadBack: nobody comes so far but by damage or by hand.
func TestNoStepIsTakenThatCouldNotBeReadBack(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 1)
	s.setJournal(t, id, Record{Number: 1<<63 - 1, Prev: 2, Time: begin, Kind: Forward, Place: at(12, 2), Of: 26}.appendLine(s.journalOf(t, id), id))
	p, o := s.open(t, id)
	assert.Equal(t, at(12, 2), o.Place)
	assert.Equal(t, "its journal has no numbers left for a step", o.LookOnly)
	require.ErrorIs(t, p.Append([]Step{rowTwelve(3)}), ErrLookOnly)
}

// TestAFolderThatWasGivenAnotherNameIsReadBesideAStrayFile: the stray file is not taken for
// the piece.
func TestAFolderThatWasGivenAnotherNameIsReadBesideAStrayFile(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 3)
	other := s.begun(t)
	require.NoError(t, other.Append([]Step{{Kind: Forward, Place: at(40, 4), Of: 26}}))
	require.NoError(t, os.WriteFile(s.path(id, "journal-0001 (2).txt"), s.journalOf(t, other.ID()), 0o600))
	require.NoError(t, os.Rename(s.path(id, ""), s.path("backup", "")))
	_, o := s.open(t, "backup")
	assert.Equal(t, at(12, 3), o.Place)
}

// TestLeavingKeepsThePlaceWhereTheFileWasReplaced: lines are owed, and leaving finds out
// that the file which has them is gone.
func TestLeavingKeepsThePlaceWhereTheFileWasReplaced(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 3)
	s.fs.failing(once("write", "journal", syscall.EIO))
	p, _ := s.open(t, id)
	s.oldJournal(t, id, 2)
	require.NoError(t, p.Close())
	_, o := s.open(t, id)
	require.NotNil(t, o.Question)
	assert.Equal(t, []pattern.Place{at(12, 3), at(12, 1)}, placesOf(o.Question))
}

// TestAnAnswerWaitsForItsPattern: the pattern of the place that was chosen is there and
// cannot be read just then. The place must not be taken for one in another pattern.
func TestAnAnswerWaitsForItsPattern(t *testing.T) {
	s := newStand(t)
	id := s.changed(t)
	s.oldJournal(t, id, 3)
	p, o := s.open(t, id)
	require.NotNil(t, o.Question)
	before := filesOf(t, s, id)
	s.fs.failing(once("open", "pattern-", syscall.EMFILE))
	_, err := p.Settle(o.Question.Choices[0])
	require.EqualError(t, err, "NOT SAVED: too many files are open. Saved: row 12, 2 of 26 worked")
	assert.Equal(t, before, filesOf(t, s, id))
	o, err = p.Settle(o.Question.Choices[0])
	require.NoError(t, err)
	assert.Equal(t, at(12, 5), o.Place)
	assert.Equal(t, otherText, string(p.Pattern()))
}

// TestAnOldSecondCopyIsBroughtUpToDateAtEachReadingAnew: a tool puts both files back again
// while the question is open.
func TestAnOldSecondCopyIsBroughtUpToDateAtEachReadingAnew(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	old := filesOf(t, s, p.ID())
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	for range 2 {
		for _, name := range []string{"journal-0001.txt", copyName} {
			require.NoError(t, os.WriteFile(s.path(p.ID(), name), []byte(old[name]), 0o600))
		}
		_, err := p.Reread()
		require.NoError(t, err)
	}
	_, o := reopened(t, s, p)
	require.NotNil(t, o.Question)
	assert.Equal(t, []pattern.Place{at(12, 1), pattern.Start()}, placesOf(o.Question))
}

// TestNothingIsAnsweredUntilThePieceCouldBeReadAnew: the question is about files that are
// not there any more.
func TestNothingIsAnsweredUntilThePieceCouldBeReadAnew(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 5)
	s.setJournal(t, id, append(s.journalOf(t, id), "here row=20 done=3\n"...))
	p, o := s.open(t, id)
	require.NotNil(t, o.Question)
	s.setJournal(t, id, bytes.ReplaceAll(s.journalOf(t, id), []byte("row=20"), []byte("row=21")))
	s.fs.failing(once("read", "journal", syscall.EIO))
	_, err := p.Reread()
	require.ErrorIs(t, err, syscall.EIO)
	before := filesOf(t, s, id)
	_, err = p.Settle(o.Question.Choices[1])
	require.ErrorIs(t, err, ErrChangedUnderneath)
	assert.Equal(t, before, filesOf(t, s, id))
}
