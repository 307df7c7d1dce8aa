package save

import (
	"bytes"
	"os"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAShelfThatIsNotThereIsEmpty(t *testing.T) {
	s := newStand(t)
	all, err := List(s.env, s.root)
	require.NoError(t, err)
	assert.Empty(t, all)
}

func TestTheListTellsOfEveryPieceAndBlocksOnNone(t *testing.T) {
	s := newStand(t)
	older := s.worked(t, 3)
	newer := s.begun(t)
	for i := range 120 {
		require.NoError(t, newer.Append([]Step{rowTwelve(i + 1)}))
	}
	ruined := s.worked(t, 3)
	s.setJournal(t, ruined, []byte("milk\neggs\n"))
	require.NoError(t, os.Remove(s.path(ruined, copyName)))
	require.NoError(t, os.Mkdir(s.path("a name\x1b[2J", ""), 0o700))
	require.NoError(t, os.Mkdir(s.path("cut-short", ""), 0o700))
	require.NoError(t, os.WriteFile(s.path("a-file", ""), nil, 0o600))

	all, err := List(s.env, s.root)
	require.NoError(t, err)
	require.Len(t, all, 4)
	assert.Equal(t, newer.ID(), all[0].ID)
	assert.Equal(t, pieceTitle, all[0].Title)
	assert.Equal(t, sourceName, all[0].Source)
	assert.Equal(t, at(12, 120), all[0].Place)
	assert.Equal(t, 26, all[0].Of)
	assert.Empty(t, all[0].Err)
	assert.Equal(t, older, all[1].ID)
	assert.Equal(t, at(12, 3), all[1].Place)
	assert.True(t, all[0].Time.After(all[1].Time))
	for _, broken := range all[2:] {
		assert.NotEmpty(t, broken.Err)
		assert.NotContains(t, broken.ID+broken.Err, "\x1b")
	}
}

func TestTheListKnowsThePatternThatAPieceIsMadeWith(t *testing.T) {
	other := patternText + "# wider\n"
	for _, c := range []struct {
		name  string
		fault func(string, string) error
	}{
		{"the second copy is up to date", nil},
		{"the second copy is behind", always("create", "place.new", syscall.ENOSPC)},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			s.fs.failing(c.fault)
			require.NoError(t, p.ChangePattern([]byte(other), at(1, 0), 30, ""))
			all, err := List(s.env, s.root)
			require.NoError(t, err)
			text, err := all[0].Pattern(s.env, s.root)
			require.NoError(t, err)
			assert.Equal(t, other, string(text))
		})
	}
}

func TestTitlesAndSourcesAreMadeSafe(t *testing.T) {
	s := newStand(t)
	p, err := Begin(s.env, s.root, New{Title: "Mat\x1b]52;c;aGk=\a", Source: "a\u202eb\x9b", PatternText: []byte(patternText)})
	require.NoError(t, err)
	check := func(title, source string) {
		t.Helper()
		assert.Equal(t, "Mat]52;c;aGk=", title)
		assert.Equal(t, "ab\ufffd", source)
	}
	check(p.Title(), p.Source())
	require.NoError(t, p.Close())
	all, err := List(s.env, s.root)
	require.NoError(t, err)
	check(all[0].Title, all[0].Source)
	q, _ := s.open(t, p.ID())
	check(q.Title(), q.Source())
}

func TestTheListReadsAJournalsEndOnly(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	for i := range 200 {
		require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
	}
	require.NoError(t, p.Close())
	data := s.journalOf(t, p.ID())
	require.Greater(t, len(data), tailSize)
	s.setJournal(t, p.ID(), append(bytes.Repeat([]byte{'x'}, len(data)-tailSize), data[len(data)-tailSize:]...))
	all, err := List(s.env, s.root)
	require.NoError(t, err)
	assert.Equal(t, at(12, 200), all[0].Place)
	assert.Equal(t, pieceTitle, all[0].Title)
}

func TestTheListManagesWithoutASecondCopyAndWithoutAJournal(t *testing.T) {
	s := newStand(t)
	bare := s.worked(t, 3)
	require.NoError(t, os.Remove(s.path(bare, copyName)))
	copied := s.begun(t)
	require.NoError(t, copied.Append([]Step{rowTwelve(7)}))
	require.NoError(t, copied.Close())
	require.NoError(t, os.Remove(s.path(copied.ID(), "journal-0001.txt")))
	all, err := List(s.env, s.root)
	require.NoError(t, err)
	require.Len(t, all, 2)
	assert.Equal(t, at(12, 7), all[0].Place)
	assert.Equal(t, at(12, 3), all[1].Place)
	assert.Equal(t, pieceTitle, all[1].Title)
}

func TestAPieceThatCannotBeReadIsListedWithTheReason(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, p.Append([]Step{rowTwelve(3)}))
	require.NoError(t, p.Close())
	second, err := readCopy(OS{}, p.dir, p.ID())
	require.NoError(t, err)
	for _, c := range []struct {
		name  string
		fault func(call, name string) error
		want  Summary
	}{
		{
			"its second copy tells which it is", always("read", "journal", syscall.EIO),
			Summary{Title: pieceTitle, Source: sourceName, Time: second.time},
		},
		{"nothing of it can be read", always("read", "", syscall.EIO), Summary{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s.fs.failing(c.fault)
			all, err := List(s.env, s.root)
			require.NoError(t, err)
			require.Len(t, all, 1)
			assert.Contains(t, all[0].Err, "input/output error")
			c.want.ID, c.want.Err = p.ID(), all[0].Err
			assert.Equal(t, c.want, all[0])
		})
	}
}

func TestTheListHasThePieceLastWorkedFirst(t *testing.T) {
	s := newStand(t)
	var clock time.Time
	s.env.Now = func() time.Time { return clock }
	workedAt := func(when time.Time) (id string) {
		clock = when
		p := s.begun(t)
		require.NoError(t, p.Close())
		return p.ID()
	}
	now := begin.AddDate(0, 1, 0)
	unread := workedAt(now.Add(-time.Minute))
	require.NoError(t, os.Remove(s.path(unread, "journal-0001.txt")))
	require.NoError(t, os.Mkdir(s.path(unread, "journal-0001.txt"), 0o700))
	want := []string{
		workedAt(now),
		workedAt(now.Add(-time.Hour)),
		workedAt(now.AddDate(-1, 0, 0)),
		workedAt(now.AddDate(20, 0, 0)), // the clock was wrong
		workedAt(now.Add(time.Second)),
		unread,
	}
	clock = now
	all, err := List(s.env, s.root)
	require.NoError(t, err)
	var got []string
	for _, sum := range all {
		got = append(got, sum.ID)
	}
	assert.Equal(t, want, got)
}
