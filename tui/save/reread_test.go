package save

import (
	"bytes"
	"os"
	"slices"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

// rivalOf is a journal in which somebody else went on from the record number 2 of the
// one in data, as far as the given number.
func rivalOf(id string, data []byte, last uint64) []byte {
	lines := bytes.SplitAfter(data, []byte{'\n'})
	rival := bytes.Join(lines[:3], nil) // a header and two records
	for n := uint64(3); n <= last; n++ {
		rival = Record{Number: n, Prev: n - 1, Time: begin, Kind: Forward, Place: at(20, int(n)), Of: 26}.appendLine(rival, id)
	}
	return rival
}

// TestThePlaceSavedHereOutlivesAQuestionLeftUnanswered changes the journal under a
// program that has saved three stitches of row 12, and kills it at the question.
func TestThePlaceSavedHereOutlivesAQuestionLeftUnanswered(t *testing.T) {
	for _, c := range []struct {
		name    string
		journal func(id string, data []byte) []byte
		theirs  pattern.Place
		from    Origin // where the next opening has the place from that was saved here
		older   bool   // the journal is sound and ends before it
	}{
		{"an older journal came back", func(_ string, data []byte) []byte {
			return bytes.Join(bytes.SplitAfter(data, []byte{'\n'})[:4], nil)
		}, at(12, 2), FromCopy, true},
		{"another history of the same length", func(id string, data []byte) []byte { return rivalOf(id, data, 4) }, at(20, 4), FromCopy, false},
		{"another history that went further", func(id string, data []byte) []byte { return rivalOf(id, data, 40) }, at(20, 40), FromCopy, false},
		{"another history that never had the number", func(id string, data []byte) []byte {
			data = rivalOf(id, data, 3)
			return Record{Number: 5, Prev: 3, Time: begin, Kind: Forward, Place: at(20, 5), Of: 26}.appendLine(data, id)
		}, at(20, 5), FromCopy, false},
		{"another history came in beside", func(id string, data []byte) []byte {
			return append(data, rivalOf(id, data, 40)...)
		}, at(20, 40), FromRival, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			for i := range 3 {
				require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
			}
			s.setJournal(t, p.ID(), c.journal(p.ID(), s.journalOf(t, p.ID())))
			o, err := p.Reread()
			require.NoError(t, err)
			for range 2 {
				require.NotNil(t, o.Question)
				assert.Equal(t, TwoPlaces, o.Question.Kind)
				assert.Equal(t, []Origin{FromMemory, FromJournal}, originsOf(o.Question), "the surest is first")
				assert.Equal(t, []pattern.Place{at(12, 3), c.theirs}, placesOf(o.Question))
				o, err = p.Reread() // again, before anybody has answered
				require.NoError(t, err)
			}

			p, o = reopened(t, s, p)
			require.NotNil(t, o.Question, "it is asked again")
			origins, places := []Origin{FromJournal, c.from}, []pattern.Place{c.theirs, at(12, 3)}
			if c.older { // the second copy is ahead of a sound journal
				slices.Reverse(origins)
				slices.Reverse(places)
			}
			assert.Equal(t, origins, originsOf(o.Question))
			assert.Equal(t, places, placesOf(o.Question))
			_, err = p.Settle(Choice{Place: at(12, 3), Of: 26})
			require.NoError(t, err)
			_, o = reopened(t, s, p)
			assert.Equal(t, at(12, 3), o.Place)
			assert.Nil(t, o.Question, "an answer is for good")
		})
	}
}

func originsOf(q *Question) []Origin {
	var all []Origin
	for _, c := range q.Choices {
		all = append(all, c.Origin)
	}
	return all
}

func placesOf(q *Question) []pattern.Place {
	var all []pattern.Place
	for _, c := range q.Choices {
		all = append(all, c.Place)
	}
	return all
}

func TestThePlaceSavedHereIsOnDiskBeforeAnythingElseIsDone(t *testing.T) {
	second := []string{"create place.new", "write place.new", "sync place.new", "rename place.new", "syncdir k7q1"}
	for _, c := range []struct {
		name string
		do   func(t *testing.T, p *Piece)
	}{
		{"on reading anew", func(t *testing.T, p *Piece) {
			_, err := p.Reread()
			require.NoError(t, err)
		}},
		{"already when a step finds the change", func(t *testing.T, p *Piece) {
			require.ErrorIs(t, p.Append([]Step{rowTwelve(2)}), ErrChangedUnderneath)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			require.NoError(t, p.Append([]Step{rowTwelve(1)}))
			s.setJournal(t, p.ID(), rivalOf(p.ID(), s.journalOf(t, p.ID()), 3))
			var calls []string
			s.fs.failing(func(call, name string) error {
				if call != "read" && call != "open" && call != "fstat" {
					calls = append(calls, call+" "+name)
				}
				return nil
			})
			c.do(t, p)
			require.GreaterOrEqual(t, len(calls), len(second))
			assert.Equal(t, second, calls[:len(second)])
		})
	}
}

func TestASecondCopyThatCameBackOldIsBroughtUpToDateOnReadingAnew(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	old, err := os.ReadFile(s.path(p.ID(), copyName))
	require.NoError(t, err)
	oldJournal := s.journalOf(t, p.ID())
	for i := range copyEvery {
		require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
	}
	require.NoError(t, os.WriteFile(s.path(p.ID(), copyName), old, 0o600))
	s.setJournal(t, p.ID(), oldJournal)
	_, err = p.Reread()
	require.NoError(t, err)
	_, o := reopened(t, s, p)
	require.NotNil(t, o.Question)
	assert.Equal(t, []pattern.Place{at(12, copyEvery), pattern.Start()}, placesOf(o.Question), "the later place is first")
}

func TestWhereThePlaceSavedHereCannotBeKeptANoticeSaysSo(t *testing.T) {
	for _, c := range []struct {
		name   string
		spoil  func(t *testing.T, s *stand, p *Piece)
		notice string
	}{
		{"the disk is full", func(_ *testing.T, s *stand, _ *Piece) {
			s.fs.failing(always("create", "place.new", syscall.ENOSPC))
		}, "the second copy of the place is behind: disk full"},
		{"the one on disk is newer", func(t *testing.T, _ *stand, p *Piece) {
			newer := secondCopy{number: 900, time: begin, at: at(30, 1), of: 26, facts: p.facts}
			require.NoError(t, writeCopy(OS{}, p.dir, p.ID(), &newer))
		}, "the second copy of the place is behind: the one on disk is newer"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			require.NoError(t, p.Append([]Step{rowTwelve(1)}))
			s.setJournal(t, p.ID(), rivalOf(p.ID(), s.journalOf(t, p.ID()), 9))
			c.spoil(t, s, p)
			o, err := p.Reread()
			require.NoError(t, err)
			require.NotNil(t, o.Question)
			assert.Equal(t, FromMemory, o.Question.Choices[0].Origin)
			assert.Contains(t, o.Notices, c.notice)
		})
	}
}

// TestASecondCopyThatIsOnlyBehindIsNotAskedAbout: it is behind at almost every kill.
func TestASecondCopyThatIsOnlyBehindIsNotAskedAbout(t *testing.T) {
	for _, c := range []struct {
		name   string
		damage func(data []byte) []byte
	}{
		{"and the journal is whole", func(data []byte) []byte { return data }},
		{"and the line of its number is damaged", func(data []byte) []byte {
			return bytes.Replace(data, []byte("\n3 2 "), []byte("\n3 1 "), 1)
		}},
		{"and that line and the next are damaged", func(data []byte) []byte {
			data = bytes.Replace(data, []byte("\n3 2 "), []byte("\n3 1 "), 1)
			return bytes.Replace(data, []byte("\n4 3 "), []byte("\n4 1 "), 1)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			require.NoError(t, p.Append([]Step{rowTwelve(1)}))
			require.NoError(t, p.Append([]Step{rowTwelve(2)}))
			require.NoError(t, p.Close())
			p, _ = s.open(t, p.ID())
			for i := range 4 {
				require.NoError(t, p.Append([]Step{rowTwelve(i + 3)}))
			}
			s.setJournal(t, p.ID(), c.damage(s.journalOf(t, p.ID())))
			_, o := reopened(t, s, p)
			assert.Nil(t, o.Question)
			assert.Equal(t, at(12, 6), o.Place)
		})
	}
	t.Run("and its record was written again under another number", func(t *testing.T) {
		s := newStand(t)
		p := s.begun(t)
		require.NoError(t, p.Append([]Step{rowTwelve(1)}))
		require.NoError(t, p.Close())
		s.fs.failing(once("sync", "journal", syscall.EIO))
		p, _ = s.open(t, p.ID())
		require.NoError(t, p.Append([]Step{rowTwelve(2)}))
		s.setJournal(t, p.ID(), bytes.Replace(s.journalOf(t, p.ID()), []byte("\n2 1 "), []byte("\n2 0 "), 1))
		_, o := reopened(t, s, p)
		assert.Nil(t, o.Question)
		assert.Equal(t, at(12, 2), o.Place)
	})
}

// TestAPlaceThatWasSavedAndNotChosenIsKept: the person says that the old journal is right,
// at once or after a restart. What this program had saved is then in the answer's line,
// and nowhere else.
func TestAPlaceThatWasSavedAndNotChosenIsKept(t *testing.T) {
	for _, restart := range []bool{false, true} {
		s := newStand(t)
		p := s.begun(t)
		for i := range 3 {
			require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
		}
		s.setJournal(t, p.ID(), bytes.Join(bytes.SplitAfter(s.journalOf(t, p.ID()), []byte{'\n'})[:4], nil))
		o, err := p.Reread()
		require.NoError(t, err)
		if restart {
			p, o = reopened(t, s, p)
		}
		require.NotNil(t, o.Question)
		_, err = p.Settle(Choice{Place: at(12, 2), Of: 26})
		require.NoError(t, err)
		_, o = reopened(t, s, p)
		assert.Equal(t, at(12, 2), o.Place)
		var last Record
		for r := range o.History.All() {
			last = r
		}
		require.Len(t, last.Instead, 1)
		assert.Equal(t, at(12, 3), last.Instead[0])
	}
}
