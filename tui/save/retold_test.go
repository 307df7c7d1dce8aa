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

// oldJournal puts back a journal that has so many records only.
func (s *stand) oldJournal(t *testing.T, id string, records int) {
	t.Helper()
	s.setJournal(t, id, bytes.Join(bytes.SplitAfter(s.journalOf(t, id), []byte{'\n'})[:1+records], nil))
}

// allFiles is all that lies in the piece's folder.
func allFiles(t *testing.T, s *stand, id string) string {
	t.Helper()
	var all strings.Builder
	for _, text := range filesOf(t, s, id) {
		all.WriteString(text)
	}
	return all.String()
}

// TestWhatIsOwedDoesNotKeepThePlaceFromTheSecondCopy: a killed program left lines in doubt,
// they could not be written once more, and then the file is replaced by an old one.
func TestWhatIsOwedDoesNotKeepThePlaceFromTheSecondCopy(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 3)
	s.fs.failing(once("write", "journal", syscall.EIO))
	p, o := s.open(t, id)
	require.Equal(t, []string{"the disk reports an error: what was saved last may not outlive a power cut"}, o.Notices)
	s.fs.failing(nil)
	s.oldJournal(t, id, 2)
	require.ErrorIs(t, p.Append([]Step{rowTwelve(4)}), ErrChangedUnderneath)
	o, err := p.Reread()
	require.NoError(t, err)
	require.NotNil(t, o.Question)
	_, o = reopened(t, s, p)
	require.NotNil(t, o.Question)
	assert.Equal(t, []pattern.Place{at(12, 3), at(12, 1)}, placesOf(o.Question))
}

// TestASecondCopyWrittenBesideWhatIsOwedVouchesForLess: the lines that are owed are
// written once more all the same.
func TestASecondCopyWrittenBesideWhatIsOwedVouchesForLess(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 3)
	s.fs.failing(once("write", "journal", syscall.EIO))
	p, _ := s.open(t, id)
	whole := s.journalOf(t, id)
	s.setJournal(t, id, append(bytes.Clone(whole), "# words\n"...))
	require.ErrorIs(t, p.Append([]Step{rowTwelve(4)}), ErrChangedUnderneath)
	c, err := readCopy(OS{}, p.dir, id)
	require.NoError(t, err)
	assert.EqualValues(t, 4, c.number)
	assert.EqualValues(t, 1, c.vouched())
	p, _ = reopened(t, s, p)
	assert.Equal(t, 2, strings.Count(string(s.journalOf(t, id)), "\n4 3 "))
	require.NoError(t, p.Close())
	c, err = readCopy(OS{}, p.dir, id)
	require.NoError(t, err)
	assert.EqualValues(t, 4, c.vouched(), "all are on disk now")
}

func TestNothingIsSavedUntilThePieceCouldBeReadAnew(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	for i := range 3 {
		require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
	}
	s.setJournal(t, p.ID(), rivalOf(p.ID(), s.journalOf(t, p.ID()), 40))
	require.ErrorIs(t, p.Append([]Step{rowTwelve(4)}), ErrChangedUnderneath)
	s.fs.failing(once("read", "journal", syscall.EIO))
	_, err := p.Reread()
	require.ErrorIs(t, err, syscall.EIO)
	before := filesOf(t, s, p.ID())
	require.ErrorIs(t, p.Append([]Step{rowTwelve(4)}), ErrChangedUnderneath)
	require.ErrorIs(t, p.ChangePattern([]byte("pegs = 30\n"), at(12, 3), 30, ""), ErrChangedUnderneath)
	assert.Equal(t, before, filesOf(t, s, p.ID()))
	o, err := p.Reread()
	require.NoError(t, err)
	require.NotNil(t, o.Question)
	assert.Equal(t, at(12, 3), o.Question.Choices[0].Place)
	_, err = p.Settle(o.Question.Choices[0])
	require.NoError(t, err)
	require.NoError(t, p.Append([]Step{rowTwelve(4)}))
}

// TestThePlaceSavedHereIsRememberedUntilThePieceCanBeWorked: the second copy cannot be
// written, and another program holds the lock just when the piece is read anew.
func TestThePlaceSavedHereIsRememberedUntilThePieceCanBeWorked(t *testing.T) {
	for _, c := range []struct {
		name string
		held error
		goOn func(p *Piece) (Opening, error)
	}{
		{"read anew once more", syscall.EMFILE, (*Piece).Reread},
		{"taken over", &HeldError{}, func(p *Piece) (Opening, error) {
			o, _, err := p.TryTakeOver()
			return o, err
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			require.NoError(t, p.Append([]Step{rowTwelve(1)}))
			require.NoError(t, p.Append([]Step{rowTwelve(2)}))
			s.setJournal(t, p.ID(), rivalOf(p.ID(), s.journalOf(t, p.ID()), 9))
			s.fs.failing(func(call, name string) error {
				switch {
				case call == "create" && name == copyTemp:
					return syscall.ENOSPC
				case call == "lock":
					return c.held
				}
				return nil
			})
			o, err := p.Reread()
			require.NoError(t, err)
			require.NotEmpty(t, o.LookOnly)
			assert.Contains(t, strings.Join(o.Notices, " "), ErrCopyBehind.Error())
			s.fs.failing(nil)
			o, err = c.goOn(p)
			require.NoError(t, err)
			require.Empty(t, o.LookOnly)
			require.NotNil(t, o.Question)
			assert.Equal(t, at(12, 2), o.Question.Choices[0].Place)
			_, o = reopened(t, s, p)
			require.NotNil(t, o.Question, "it is in the second copy now")
			assert.Contains(t, placesOf(o.Question), at(12, 2))
		})
	}
}

// TestWhoLeavesAQuestionHasThePlaceKept: the second copy could not be written when the
// file was found changed, and can when the person leaves without an answer.
func TestWhoLeavesAQuestionHasThePlaceKept(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	require.NoError(t, p.Append([]Step{rowTwelve(2)}))
	s.setJournal(t, p.ID(), rivalOf(p.ID(), s.journalOf(t, p.ID()), 9))
	s.fs.failing(always("create", copyTemp, syscall.ENOSPC))
	_, err := p.Reread()
	require.NoError(t, err)
	s.fs.failing(nil)
	require.NoError(t, p.Close())
	_, o := s.open(t, p.ID())
	require.NotNil(t, o.Question)
	assert.Contains(t, placesOf(o.Question), at(12, 2))
}

// TestBothFilesPutBackUnderTheProgram: a tool puts yesterday's journal and second copy
// back, the next step finds it out, and the program is killed.
func TestBothFilesPutBackUnderTheProgram(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	require.NoError(t, p.Close())
	yesterday := filesOf(t, s, p.ID())
	p, _ = s.open(t, p.ID())
	require.NoError(t, p.Append([]Step{rowTwelve(2)}))
	require.NoError(t, p.Close()) // the second copy has it
	p, _ = s.open(t, p.ID())
	for _, name := range []string{"journal-0001.txt", copyName} {
		require.NoError(t, os.WriteFile(s.path(p.ID(), name), []byte(yesterday[name]), 0o600))
	}
	require.ErrorIs(t, p.Append([]Step{rowTwelve(3)}), ErrChangedUnderneath)
	_, o := reopened(t, s, p)
	require.NotNil(t, o.Question)
	assert.Equal(t, []pattern.Place{at(12, 2), at(12, 1)}, placesOf(o.Question))
}

// TestATakeOverThatFailsIsTriedAgain lets one call fail while the piece is still held, or
// when it has just become free.
func TestATakeOverThatFailsIsTriedAgain(t *testing.T) {
	for _, c := range []struct {
		name  string
		fault func(string, string) error
	}{
		{"the lock cannot be asked for", once("lock", "lock", syscall.EMFILE)},
		{"the journal cannot be read", once("read", "journal", syscall.EIO)},
		{"the second copy cannot be read", once("read", copyName, syscall.EIO)},
		{"the folder cannot be synced", once("syncdir", "k7q", syscall.EIO)},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			first := s.begun(t)
			require.NoError(t, first.Append([]Step{rowTwelve(1)}))
			second, o := s.open(t, first.ID())
			require.True(t, o.Held)
			require.NoError(t, first.Close())
			s.fs.failing(c.fault)
			o, took, _ := second.TryTakeOver()
			require.False(t, took)
			assert.True(t, o.Held)
			assert.NotEmpty(t, o.LookOnly)
			o, took, err := second.TryTakeOver()
			require.NoError(t, err)
			assert.True(t, took)
			assert.Empty(t, o.LookOnly)
			assert.False(t, o.Held)
		})
	}
}

// TestWhatFailedAndWasGivenUpIsNoRival: a change fails at its sync, so that the disk has
// it all the same; then something else is done.
func TestWhatFailedAndWasGivenUpIsNoRival(t *testing.T) {
	for _, c := range []struct {
		name string
		fail func(p *Piece) error
	}{
		{"a change of the pattern", func(p *Piece) error { return p.ChangePattern([]byte("pegs = 30\n"), at(12, 1), 30, "") }},
		{"a name", func(p *Piece) error {
			return p.Append([]Step{{Kind: Named, Place: at(12, 1), Of: 26, Text: "Weir"}})
		}},
		{"a batch of steps", func(p *Piece) error { return p.Append([]Step{rowTwelve(5), rowTwelve(6)}) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			require.NoError(t, p.Append([]Step{rowTwelve(1)}))
			s.fs.failing(always("sync", "journal-0001", syscall.EIO))
			require.ErrorIs(t, c.fail(p), syscall.EIO)
			require.NoError(t, p.Append([]Step{rowTwelve(2)}))
			require.NoError(t, p.Append([]Step{rowTwelve(3)}))
			require.NoError(t, p.Close())
			s.fs.failing(nil)
			p, o := s.open(t, p.ID())
			assert.Nil(t, o.Question, "nobody but one program has worked")
			assert.Empty(t, o.Notices)
			assert.Equal(t, at(12, 3), o.Place)
			assert.Equal(t, patternText, string(p.Pattern()))
			assert.Equal(t, pieceTitle, p.Title())
		})
	}
}

// TestOnePlaceInTwoPatternsIsTwoChoices: here the pattern was changed at a place, and on
// another machine notes were made there.
func TestOnePlaceInTwoPatternsIsTwoChoices(t *testing.T) {
	const wider = "pegs = 30\n"
	for _, c := range []struct {
		origin Origin
		text   string
		words  string
	}{
		{FromJournal, patternText, "the journal: row 12, 1 of 26 worked, 2026-01-02 19:00"},
		{FromRival, wider, "another history in the journal: row 12, 1 of 30 worked in another pattern, 2026-01-02 19:04"},
	} {
		t.Run(c.origin.String(), func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			require.NoError(t, p.Append([]Step{rowTwelve(1)}))
			other := s.journalOf(t, p.ID())
			require.NoError(t, p.ChangePattern([]byte(wider), at(12, 1), 30, ""))
			ours := s.journalOf(t, p.ID())
			require.NoError(t, p.Close())
			for n := uint64(3); n < 5; n++ {
				other = Record{Number: n, Prev: n - 1, Time: begin, Kind: Noted, Text: "x", Place: at(12, 1), Of: 26}.appendLine(other, p.ID())
			}
			s.setJournal(t, p.ID(), other)
			require.NoError(t, os.WriteFile(s.path(p.ID(), "journal-0001 (conflict).txt"), ours, 0o600))
			require.NoError(t, os.Remove(s.path(p.ID(), copyName)))

			p, o := s.open(t, p.ID())
			require.NotNil(t, o.Question)
			require.Equal(t, []Origin{FromJournal, FromRival}, originsOf(o.Question))
			i := 0
			if c.origin == FromRival {
				i = 1
			}
			choice := o.Question.Choices[i]
			assert.Equal(t, c.words, choice.String())
			text, err := p.PatternOf(choice)
			require.NoError(t, err)
			assert.Equal(t, c.text, string(text))
			o, err = p.Settle(choice)
			require.NoError(t, err)
			assert.Nil(t, o.Question)
			assert.Equal(t, c.text, string(p.Pattern()))
			p, o = reopened(t, s, p)
			assert.Nil(t, o.Question)
			assert.Equal(t, c.text, string(p.Pattern()))
		})
	}
}

// TestEveryPlaceThatWasSavedAndNotChosenIsKept: the journal came back old, and the second
// copy is another machine's, in the same pattern or in another.
func TestEveryPlaceThatWasSavedAndNotChosenIsKept(t *testing.T) {
	for _, other := range []bool{false, true} {
		s := newStand(t)
		p := s.begun(t)
		for i := range 3 {
			require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
		}
		s.oldJournal(t, p.ID(), 2)
		newer := secondCopy{number: 900, time: begin, at: at(30, 1), of: 26, facts: p.facts}
		want := []pattern.Place{at(12, 3), at(30, 1)}
		if other {
			mark, err := keepPattern(OS{}, p.dir, []byte("pegs = 30\n"))
			require.NoError(t, err)
			newer.facts.pattern = mark
			want = want[:1]
		}
		require.NoError(t, writeCopy(OS{}, p.dir, p.ID(), &newer))
		_, err := p.Reread()
		require.NoError(t, err)
		o, err := p.Settle(p.opening.Question.Choices[2])
		require.NoError(t, err)
		require.Equal(t, at(12, 1), o.Place)
		assert.Contains(t, allFiles(t, s, p.ID()), "=rows:30:1")
		_, o = reopened(t, s, p)
		all := history(o)
		assert.Equal(t, want, all[len(all)-1].Instead)
	}
}

// TestAPatternThatIsPutBackIsUsedAgain: meanwhile the piece went on with the one before.
func TestAPatternThatIsPutBackIsUsedAgain(t *testing.T) {
	const wider = "pegs = 30\n"
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	require.NoError(t, p.ChangePattern([]byte(wider), at(12, 1), 30, ""))
	require.NoError(t, p.Close())
	require.NoError(t, os.Remove(s.path(p.ID(), patternName(patternMark([]byte(wider))))))
	p, o := s.open(t, p.ID())
	assert.Equal(t, patternText, string(p.Pattern()))
	assert.Equal(t, []string{patternNotice}, o.Notices)
	require.NoError(t, p.Append([]Step{rowTwelve(2)}))
	require.NoError(t, p.Close())
	restored, err := RestorePattern(s.env, s.root, p.ID(), []byte(wider))
	require.NoError(t, err)
	assert.True(t, restored)
	p, o = s.open(t, p.ID())
	assert.Equal(t, wider, string(p.Pattern()))
	assert.Empty(t, o.Notices)
}

func TestAPatternIsNotPutBackBesideOneWhoWorksThePiece(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	mark := patternName(patternMark([]byte(patternText)))
	require.NoError(t, os.Remove(s.path(p.ID(), mark)))
	restored, err := RestorePattern(s.env, s.root, p.ID(), []byte(patternText))
	require.ErrorAs(t, err, new(*HeldError))
	assert.False(t, restored)
	assert.NotContains(t, filesOf(t, s, p.ID()), mark)
	p.letGo()
	restored, err = RestorePattern(s.env, s.root, p.ID(), []byte(patternText))
	require.NoError(t, err)
	assert.True(t, restored)
}

// TestANumberWhoseWriteFailedIsNotUsedAfterReadingAnew: what that write did may come to
// light later.
func TestANumberWhoseWriteFailedIsNotUsedAfterReadingAnew(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	s.fs.failing(once("write", "journal", syscall.ENOSPC))
	require.ErrorIs(t, p.Append([]Step{rowTwelve(1)}), syscall.ENOSPC)
	_, err := p.Reread()
	require.NoError(t, err)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	assert.EqualValues(t, 3, p.saved.Number)
}

// TestLeavingPaysWhatIsOwed: opening could not write the lines once more, and leaving can.
func TestLeavingPaysWhatIsOwed(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 2)
	s.fs.failing(once("write", "journal", syscall.EIO))
	p, _ := s.open(t, id)
	require.NoError(t, p.Close())
	assert.Equal(t, 2, strings.Count(string(s.journalOf(t, id)), "\n3 2 "))
	c, err := readCopy(OS{}, p.dir, id)
	require.NoError(t, err)
	assert.EqualValues(t, 3, c.vouched())
}
