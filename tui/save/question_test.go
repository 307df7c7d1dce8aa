package save

import (
	"bytes"
	"os"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

func TestAPlaceInDoubtIsAskedAboutOnceAndForAll(t *testing.T) {
	type choices []Choice
	for _, c := range []struct {
		name    string
		doubt   func(t *testing.T, s *stand, id string)
		kind    QuestionKind
		choices choices
	}{
		{
			"the second copy is newer than the journal: an old backup",
			func(t *testing.T, s *stand, id string) {
				newer := secondCopy{number: 40, time: begin, at: at(30, 2), of: 26, facts: facts{pattern: "0a1b2c3d"}}
				require.NoError(t, writeCopy(OS{}, s.path(id, ""), id, &newer))
			},
			TwoPlaces,
			choices{{Origin: FromCopy, Place: at(30, 2)}, {Origin: FromJournal, Place: at(12, 5)}},
		},
		{
			"the second copy tells the same number otherwise",
			func(t *testing.T, s *stand, id string) {
				same := secondCopy{number: 6, time: begin, at: at(30, 2), of: 26, facts: facts{pattern: "0a1b2c3d"}}
				require.NoError(t, writeCopy(OS{}, s.path(id, ""), id, &same))
			},
			TwoPlaces,
			choices{{Origin: FromJournal, Place: at(12, 5)}, {Origin: FromCopy, Place: at(30, 2)}},
		},
		{
			"the journal is gone and the second copy is there",
			func(t *testing.T, s *stand, id string) {
				require.NoError(t, os.Remove(s.path(id, "journal-0001.txt")))
			},
			TwoPlaces,
			choices{{Origin: FromCopy, Place: pattern.Start()}},
		},
		{
			"two machines went on from one record",
			func(t *testing.T, s *stand, id string) {
				lines := bytes.SplitAfter(s.journalOf(t, id), []byte{'\n'})
				other := bytes.Join(lines[:5], nil) // a header and four records
				other = Record{Number: 5, Prev: 4, Time: begin, Kind: Forward, Place: at(14, 1), Of: 26}.appendLine(other, id)
				name := s.path(id, "journal-0001.sync-conflict-20260102.txt")
				require.NoError(t, os.WriteFile(name, other, 0o600))
			},
			TwoPlaces,
			choices{{Origin: FromJournal, Place: at(12, 5)}, {Origin: FromRival, Place: at(14, 1)}},
		},
		{
			"a failed try that says something else is none",
			func(t *testing.T, s *stand, id string) {
				data := s.journalOf(t, id)
				data = Record{Number: 7, Prev: 6, Time: begin, Kind: Forward, Place: at(14, 1), Of: 26}.appendLine(data, id)
				data = Record{Number: 8, Prev: 6, Time: begin, Kind: Forward, Place: at(15, 1), Of: 26}.appendLine(data, id)
				s.setJournal(t, id, data)
			},
			TwoPlaces,
			choices{{Origin: FromJournal, Place: at(15, 1)}, {Origin: FromRival, Place: at(14, 1)}},
		},
		{
			"the last full line does not check",
			func(t *testing.T, s *stand, id string) {
				data := s.journalOf(t, id)
				data[len(data)-4] ^= 1
				s.setJournal(t, id, data)
			},
			DamagedEnd,
			choices{{Origin: FromJournal, Place: at(12, 4)}, {Origin: FromDamaged, Place: at(12, 5)}},
		},
		{
			"a person wrote a place",
			func(t *testing.T, s *stand, id string) {
				s.setJournal(t, id, append(s.journalOf(t, id), "here row=20 done=3\nhere phase=bind-off row=0 done=3\n"...))
			},
			LineAdded,
			choices{{Origin: FromJournal, Place: at(12, 5)}, {Origin: FromAdded, Place: pattern.Place{Phase: pattern.BindingOff, Done: 3}}},
		},
	} {
		for answer := range c.choices {
			t.Run(c.name+", "+c.choices[answer].Origin.String(), func(t *testing.T) {
				s := newStand(t)
				id := s.worked(t, 5)
				c.doubt(t, s, id)
				before := filesOf(t, s, id)
				p, o := s.open(t, id)
				require.NotNil(t, o.Question)
				assert.Equal(t, c.kind, o.Question.Kind)
				var got choices
				for _, choice := range o.Question.Choices {
					got = append(got, Choice{Origin: choice.Origin, Place: choice.Place})
				}
				require.Equal(t, c.choices, got)
				assert.NotEmpty(t, o.Question.String())
				require.ErrorIs(t, p.Append([]Step{rowTwelve(6)}), ErrUnanswered)
				require.NoError(t, p.Close())
				assert.Equal(t, before, filesOf(t, s, id), "nothing is touched until it is answered")

				p, _ = s.open(t, id)
				o, err := p.Settle(Choice{Place: c.choices[answer].Place, Of: 26})
				require.NoError(t, err)
				assert.Equal(t, c.choices[answer].Place, o.Place)
				assert.Nil(t, o.Question)
				require.NoError(t, p.Append([]Step{rowTwelve(6)}))
				require.NoError(t, p.Close())
				_, o = s.open(t, id)
				assert.Equal(t, at(12, 6), o.Place)
				assert.Nil(t, o.Question)
				assert.Equal(t, Here, history(o)[len(history(o))-2].Kind)
			})
		}
	}
}

func TestADamagedEndIsShownWhateverElseIsInDoubt(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 5)
	data := s.journalOf(t, id)
	data[len(data)-4] ^= 1
	s.setJournal(t, id, data)
	newer := secondCopy{number: 40, time: begin, at: at(30, 2), of: 26, facts: facts{pattern: "0a1b2c3d"}}
	require.NoError(t, writeCopy(OS{}, s.path(id, ""), id, &newer))
	_, o := s.open(t, id)
	require.NotNil(t, o.Question)
	assert.Equal(t, TwoPlaces, o.Question.Kind)
	assert.Contains(t, o.Question.Line, "step phase=rows row=12 done=5 of=26 sum=")
}

// filesOf reads all files of a piece but the lock.
func filesOf(t *testing.T, s *stand, id string) map[string]string {
	t.Helper()
	files := map[string]string{}
	names, err := OS{}.ReadDir(s.path(id, ""))
	require.NoError(t, err)
	for _, name := range names {
		if name != "lock" {
			data, err := os.ReadFile(s.path(id, name))
			require.NoError(t, err)
			files[name] = string(data)
		}
	}
	return files
}

func TestTheHistoryFollowsTheAnswer(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 5)
	lines := bytes.SplitAfter(s.journalOf(t, id), []byte{'\n'})
	other := bytes.Join(lines[:5], nil)
	other = Record{Number: 5, Prev: 4, Time: begin, Kind: Forward, Place: at(14, 1), Of: 26}.appendLine(other, id)
	require.NoError(t, os.WriteFile(s.path(id, "journal-0001 (copy).txt"), other, 0o600))
	p, o := s.open(t, id)
	require.Len(t, history(o), 6)
	o, err := p.Settle(Choice{Place: at(14, 1), Of: 26})
	require.NoError(t, err)
	var places []pattern.Place
	for _, r := range history(o)[1:] {
		places = append(places, r.Place)
	}
	assert.Equal(t, []pattern.Place{at(12, 1), at(12, 2), at(12, 3), at(14, 1), at(14, 1)}, places)
}

func TestAnAnswerThatCannotBeSavedIsNoAnswer(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 5)
	s.setJournal(t, id, append(s.journalOf(t, id), "here row=20 done=3\n"...))
	p, _ := s.open(t, id)
	s.fs.failing(once("write", "journal", os.ErrPermission))
	o, err := p.Settle(Choice{Place: at(20, 3), Of: 26})
	require.ErrorIs(t, err, ErrNotSaved)
	require.NotNil(t, o.Question)
	require.ErrorIs(t, p.Append([]Step{rowTwelve(6)}), ErrUnanswered)
	o, err = p.Settle(Choice{Place: at(20, 3), Of: 26})
	require.NoError(t, err)
	assert.Equal(t, at(20, 3), o.Place)
}

func TestAnAnswerThatCouldNotBeSavedLeavesNoTrace(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 5)
	data := s.journalOf(t, id)
	data = Record{Number: 7, Prev: 6, Time: begin, Kind: Forward, Place: at(14, 1), Of: 26}.appendLine(data, id)
	data = Record{Number: 8, Prev: 6, Time: begin, Kind: Forward, Place: at(15, 1), Of: 26}.appendLine(data, id)
	s.setJournal(t, id, data)
	p, _ := s.open(t, id)
	s.fs.failing(once("write", "journal", syscall.ENOSPC))
	_, err := p.Settle(Choice{Place: at(14, 1), Of: 26})
	require.ErrorIs(t, err, ErrNotSaved)
	o, err := p.Settle(Choice{Place: at(20, 0), Of: 26})
	require.NoError(t, err)
	assert.Equal(t, at(15, 1), history(o)[len(history(o))-2].Place, "a place of one's own follows the journal's")
}

func TestOneWhoLooksIsNotAsked(t *testing.T) {
	s := newStand(t)
	first := s.begun(t)
	s.setJournal(t, first.ID(), append(s.journalOf(t, first.ID()), "here row=20 done=3\n"...))
	_, o := s.open(t, first.ID())
	assert.True(t, o.Held)
	assert.Nil(t, o.Question)
}

func TestAnAnswerWithoutAQuestionChangesNothing(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 5)
	p, _ := s.open(t, id)
	before := filesOf(t, s, id)
	o, err := p.Settle(Choice{Place: at(20, 3), Of: 26})
	require.NoError(t, err)
	assert.Equal(t, at(12, 5), o.Place)
	assert.Equal(t, before, filesOf(t, s, id))
}

func TestAJournalOfANewerVersionIsLookedAtOnly(t *testing.T) {
	for _, c := range []struct {
		name  string
		newer func(id string, data []byte) []byte
	}{
		{"by its header", func(id string, data []byte) []byte {
			text := bytes.Replace([]byte(header(id)), []byte("version 1"), []byte("version 2"), 1)
			text = text[:len(text)-1-sumLen]
			return append(appendSum(text, 0, id), bytes.TrimPrefix(data, []byte(header(id)))...)
		}},
		{"by a line that it does not know", func(id string, data []byte) []byte {
			return append(data, appendSum([]byte("7 6 2026-01-02T19:05:40Z leap far=1"), 0, id)...)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			id := s.worked(t, 5)
			s.setJournal(t, id, c.newer(id, s.journalOf(t, id)))
			before := filesOf(t, s, id)
			p, o := s.open(t, id)
			assert.Equal(t, "last worked with a newer version of the program", o.LookOnly)
			assert.Equal(t, at(12, 5), o.Place)
			require.ErrorIs(t, p.Append([]Step{rowTwelve(6)}), ErrLookOnly)
			require.NoError(t, p.Close())
			assert.Equal(t, before, filesOf(t, s, id))
		})
	}
}

func TestASecondTerminalLooksAndTakesOver(t *testing.T) {
	s := newStand(t)
	first := s.begun(t)
	require.NoError(t, first.Append([]Step{rowTwelve(1)}))

	second, o := s.open(t, first.ID())
	assert.Equal(t, "open in another terminal (pid 4711, /dev/pts/3, since 2026-01-02 19:01)", o.LookOnly)
	assert.True(t, o.Held)
	assert.Equal(t, at(12, 1), o.Place)
	require.ErrorIs(t, second.Append([]Step{rowTwelve(2)}), ErrLookOnly)

	require.NoError(t, first.Append([]Step{rowTwelve(2)}))
	o, took, err := second.TryTakeOver()
	require.NoError(t, err)
	assert.False(t, took)
	assert.Equal(t, at(12, 2), o.Place, "it follows what the first one does")
	s.fs.failing(nil)
	_, _, err = second.TryTakeOver()
	require.NoError(t, err)
	assert.Zero(t, s.fs.count("read"), "and reads nothing while nothing changes")

	require.NoError(t, first.Append([]Step{rowTwelve(3)}))
	require.NoError(t, first.Close())
	o, took, err = second.TryTakeOver()
	require.NoError(t, err)
	assert.True(t, took)
	assert.Empty(t, o.LookOnly)
	assert.Equal(t, at(12, 3), o.Place)
	require.NoError(t, second.Append([]Step{rowTwelve(4)}))
	_, err = os.Stat(s.path(first.ID(), "lock"))
	require.NoError(t, err, "the lock file stays")
}

func TestAHoldersWordsAreMadeSafe(t *testing.T) {
	s := newStand(t)
	s.env.Holder = "\x1b]0;gotcha\a pid 1\u202e"
	first := s.begun(t)
	_, o := s.open(t, first.ID())
	assert.Equal(t, "open in another terminal (]0;gotcha pid 1, since 2026-01-02 19:01)", o.LookOnly)
}

func TestAHolderWithoutWordsIsNotQuoted(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 1)
	s.fs.failing(always("lock", "lock", &HeldError{}))
	_, o := s.open(t, id)
	assert.Equal(t, "open in another terminal", o.LookOnly)
	assert.True(t, o.Held)
}

func TestALongJournalOpensQuickly(t *testing.T) {
	var b []byte
	b = append(b, header("k7q2")...)
	b = Record{Number: 1, Time: begin, Kind: Begun, facts: facts{pattern: "0a1b2c3d"}}.appendLine(b, "k7q2")
	const events = 100_000
	for n := uint64(2); n <= events; n++ {
		b = Record{Number: n, Prev: n - 1, Time: begin, Kind: Forward, Place: at(int(n)/100+1, int(n)%100), Of: 100}.appendLine(b, "k7q2")
	}
	start := time.Now()
	a := accountOf("k7q2", b)
	t.Logf("%d bytes, %d events read in %v", len(b), events, time.Since(start))
	assert.Len(t, a.chain.kept, events)
	assert.Less(t, time.Since(start), 5*time.Second)
}
