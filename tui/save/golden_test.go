package save

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

// # The format, for life
//
// testdata/v1 has a piece as the program wrote it when version 1 of the journal and of
// place.toml was all there was. Every program that comes after must open it as these
// tests say. So its files are never written anew, not even for one letter: they stand
// for the pieces that people have. A program that writes anything else gets a folder
// v2 beside it, with a table of its own, and TestTheProgramWritesWhatItWrote compares
// with the newest one.
//
// testdata/v2 is the same life with the same table: since then, once somebody has said
// which place is right, the lines that led to it are written once more where nothing
// vouches for them.
const (
	goldenDir = "testdata/v1"
	newestDir = "testdata/v2"
	goldenID  = "k7q1"
)

const (
	firstPattern = "pattern = 1\ntitle = \"Sluice Lane Mat\"\nform = \"panel\"\npegs = 26\n\n[[zone]]\nname = \"ridges\"\nrows = [\"k\", \"p\"]\ntimes = 20\n"
	widerPattern = "pattern = 1\ntitle = \"Sluice Lane Mat\"\nform = \"panel\"\npegs = 30\n\n[[zone]]\nname = \"ridges\"\nrows = [\"k\", \"p\"]\ntimes = 20\n"
	goldenTitle  = `Sluice Lane "Mat" \ Żółta mata 草垫`
	goldenSource = `C:\mats\sluice lane.toml`
)

// goldenTimes: a winter evening at home, a morning in another zone, one by the
// prime meridian.
var (
	home   = time.FixedZone("", 3600)
	away   = time.FixedZone("", -(3*3600 + 1800))
	goldAt = func(zone *time.Location, day, hour, minute int) time.Time {
		return time.Date(2026, 1, day, hour, minute, 5, 0, zone)
	}
)

// goldenHistory is every record that leads to the place, as an opening tells it.
var goldenHistory = []Record{
	{Number: 1, Prev: 0, Kind: Begun, Time: goldAt(home, 2, 19, 0), Place: pattern.Start(), Of: 26},
	{Number: 2, Prev: 1, Kind: Forward, Time: goldAt(home, 2, 19, 1), Place: pattern.Place{Phase: pattern.CastingOn, Done: 13}, Of: 26},
	{Number: 3, Prev: 2, Kind: Forward, Time: goldAt(home, 2, 19, 2), Place: at(1, 0), Of: 26},
	{Number: 4, Prev: 3, Kind: Forward, Time: goldAt(home, 2, 19, 3), Place: at(1, 25), Of: 26},
	{Number: 5, Prev: 4, Kind: Back, Time: goldAt(home, 2, 19, 4), Place: at(1, 24), Of: 26},
	{Number: 6, Prev: 5, Kind: Undo, Time: goldAt(home, 2, 19, 5), Place: at(1, 25), Of: 26},
	{Number: 7, Prev: 6, Kind: Redo, Time: goldAt(home, 2, 19, 6), Place: at(1, 24), Of: 26},
	{Number: 8, Prev: 7, Kind: Noted, Time: goldAt(home, 2, 19, 7), Place: at(1, 24), Of: 26, Text: `blue "B" here, sum=01234567 \n`},
	{Number: 9, Prev: 8, Kind: Noted, Time: goldAt(home, 2, 19, 8), Place: at(1, 24), Of: 26, Text: "żółta nić, 红线 🧶"},
	{Number: 10, Prev: 9, Kind: Noted, Time: goldAt(home, 2, 19, 9), Place: at(1, 24), Of: 26, Text: "two lines, ]0;x, \ufffd"},
	// 11 is burnt: the disk was full and took nothing. 12 is half a line: it took a part.
	{Number: 13, Prev: 10, Kind: Jump, Time: goldAt(home, 2, 19, 10), Place: at(12, 9), Of: 26},
	// 14 could not be synced. It was made again in the second segment.
	{Number: 15, Prev: 13, Kind: Forward, Time: goldAt(home, 2, 19, 11), Place: at(12, 10), Of: 26},
	{Number: 16, Prev: 15, Kind: PatternChanged, Time: goldAt(away, 3, 8, 0), Place: at(13, 0), Of: 30},
	{Number: 17, Prev: 16, Kind: Forward, Time: goldAt(away, 3, 8, 1), Place: at(13, 29), Of: 30},
	{Number: 18, Prev: 17, Kind: Here, Time: goldAt(away, 3, 8, 2), Place: at(20, 3), Of: 0},
	// 19 was made on two machines. The one of the other machine was said to be right.
	{Number: 19, Prev: 18, Kind: Forward, Time: goldAt(away, 3, 8, 4), Place: at(20, 25), Of: 30},
	{Number: 20, Prev: 19, Kind: Here, Time: goldAt(away, 3, 8, 5), Place: at(20, 25), Of: 30},
	{Number: 21, Prev: 20, Kind: Forward, Time: goldAt(time.UTC, 4, 23, 59), Place: pattern.Place{Phase: pattern.BindingOff, Done: 4}, Of: 30},
	// 22 could not be synced either.
	{Number: 23, Prev: 21, Kind: Forward, Time: goldAt(time.UTC, 5, 0, 0), Place: pattern.Place{Phase: pattern.Finishing}, Of: 0},
}

// said are the words of the notes as they were typed, where an opening does not tell
// them so: it makes them safe.
var said = map[uint64]string{10: "two\nlines,\t\x1b]0;x\a, \xff"}

func TestAPieceOfVersionOneOpensAsItWasLeft(t *testing.T) {
	for _, dir := range []string{goldenDir, newestDir} {
		t.Run(filepath.Base(dir), func(t *testing.T) { opensAsItWasLeft(t, dir) })
	}
}

func opensAsItWasLeft(t *testing.T, dir string) {
	t.Helper()
	s := newStand(t)
	s.takeGolden(t, dir)
	p, o := s.open(t, goldenID)
	require.Len(t, history(o), len(goldenHistory))
	for i, want := range goldenHistory {
		have := history(o)[i]
		assert.Equal(t, want.Time.Format(time.RFC3339), have.Time.Format(time.RFC3339), "number %d", want.Number)
		want.Time, want.facts, want.follows, want.sum, want.line = have.Time, have.facts, have.follows, have.sum, have.line
		assert.Equal(t, want, have)
	}
	last := goldenHistory[len(goldenHistory)-1]
	assert.Equal(t, last.Place, o.Place)
	assert.Equal(t, last.Of, o.Of)
	assert.True(t, last.Time.Equal(o.Time))
	assert.Empty(t, o.Notices)
	assert.Nil(t, o.Question)
	assert.Empty(t, o.LookOnly)
	isGolden(t, p)
	assert.Equal(t, widerPattern, string(p.Pattern()))
}

// isGolden holds the facts of the piece, apart from its place.
func isGolden(t *testing.T, p *Piece) {
	t.Helper()
	assert.Equal(t, goldenTitle, p.Title())
	assert.Equal(t, goldenSource, p.Source())
	assert.Equal(t, pattern.LeftHand, p.Hand())
	assert.Equal(t, pattern.Way{Peg1: pattern.Right, Row1: pattern.ToRight}, p.Way(), "no usual way")
}

func TestAPieceOfVersionOneIsListed(t *testing.T) {
	s := newStand(t)
	s.takeGolden(t, goldenDir)
	last := goldenHistory[len(goldenHistory)-1]
	all, err := List(s.env, s.root)
	require.NoError(t, err)
	require.Len(t, all, 1)
	text, err := all[0].Pattern(s.env, s.root)
	require.NoError(t, err)
	assert.Equal(t, widerPattern, string(text))
	assert.True(t, last.Time.Equal(all[0].Time))
	all[0].Time, all[0].pattern = time.Time{}, ""
	assert.Equal(t, Summary{ID: goldenID, Title: goldenTitle, Source: goldenSource, Place: last.Place, Of: last.Of}, all[0])
}

func TestAPieceOfVersionOneIsGoneOnWith(t *testing.T) {
	s := newStand(t)
	s.takeGolden(t, goldenDir)
	before := filesOf(t, s, goldenID)
	p, _ := s.open(t, goldenID)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	require.NoError(t, p.Close())
	_, o := s.open(t, goldenID)
	assert.Equal(t, at(12, 1), o.Place)
	assert.Len(t, history(o), len(goldenHistory)+1)
	assert.Empty(t, o.Notices)
	assert.Nil(t, o.Question)
	after := filesOf(t, s, goldenID)
	for name, text := range before {
		if name != copyName {
			assert.Equal(t, text, after[name][:len(text)], "%s is added to at most", name)
		}
	}
}

// TestTheSecondCopyOfVersionOneIsRead: it was written two steps before the end.
func TestTheSecondCopyOfVersionOneIsRead(t *testing.T) {
	s := newStand(t)
	s.takeGolden(t, goldenDir)
	for name := range filesOf(t, s, goldenID) {
		if len(journalNames([]string{name})) > 0 {
			require.NoError(t, os.Remove(s.path(goldenID, name)))
		}
	}
	p, o := s.open(t, goldenID)
	require.NotNil(t, o.Question)
	require.Len(t, o.Question.Choices, 1)
	c := o.Question.Choices[0]
	assert.Equal(t, "the second copy: row 20, 25 of 30 worked, 2026-01-03 08:05", c.String())
	assert.Equal(t, at(20, 25), c.Place)
	isGolden(t, p)
	assert.Equal(t, widerPattern, string(p.Pattern()))
}

// takeGolden puts a copy of the piece into the stand.
func (s *stand) takeGolden(t *testing.T, dir string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(s.path(goldenID, ""), 0o700))
	for name, text := range goldenFiles(t, dir) {
		require.NoError(t, os.WriteFile(s.path(goldenID, name), []byte(text), 0o600))
	}
}

func goldenFiles(t *testing.T, dir string) map[string]string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(dir, goldenID, "*"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	files := make(map[string]string)
	for _, path := range paths {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		files[filepath.Base(path)] = string(text)
	}
	return files
}

// TestTheProgramWritesWhatItWrote lives the life of the golden piece again. Whoever
// changes what is written finds out here: see the note above.
func TestTheProgramWritesWhatItWrote(t *testing.T) {
	s := newStand(t)
	s.liveGolden(t)
	files := filesOf(t, s, goldenID)
	delete(files, lockName) // nobody reads it but for a message
	want := goldenFiles(t, newestDir)
	for name, text := range files {
		assert.Equal(t, want[name], text, name)
	}
	assert.Len(t, files, len(want))
}

// liveGolden makes the piece: its steps are those of goldenHistory, and between them
// goes wrong what can.
func (s *stand) liveGolden(t *testing.T) {
	t.Helper()
	step := func(number uint64) (m Step) {
		for _, r := range goldenHistory {
			if r.Number == number {
				m = Step{Kind: r.Kind, Place: r.Place, Of: r.Of, Text: r.Text, Time: r.Time}
			}
		}
		if text, ok := said[number]; ok {
			m.Text = text
		}
		return m
	}
	var now time.Time
	s.env.Now = func() time.Time { return now }
	clockOf := func(number uint64) { now = step(number).Time }

	clockOf(1)
	p, err := Begin(s.env, s.root, New{
		Title: goldenTitle, Source: goldenSource, PatternText: []byte(firstPattern),
		Hand: pattern.LeftHand, Way: pattern.Way{Peg1: pattern.Right, Row1: pattern.ToRight}, Of: 26,
	})
	require.NoError(t, err)
	require.NoError(t, p.Append([]Step{step(2)}))
	require.NoError(t, p.Append([]Step{step(3), step(4), step(5), step(6), step(7), step(8), step(9), step(10)}))
	s.failGolden(t, p, step(13), once("write", "journal", syscall.ENOSPC), 0)
	s.failGolden(t, p, step(13), once("write", "journal", syscall.ENOSPC), 40)
	require.NoError(t, p.Append([]Step{step(13)}))
	s.failGolden(t, p, step(15), once("sync", "journal", syscall.EIO), 0)
	require.NoError(t, p.Append([]Step{step(15)}))
	clockOf(16)
	require.NoError(t, p.ChangePattern([]byte(widerPattern), step(16).Place, step(16).Of, ""))
	require.NoError(t, p.Append([]Step{step(17)}))
	require.NoError(t, p.Close())

	s.addGolden(t, "journal-0002.txt", "# I went on by hand:\nhere row=20 done=3\n")
	clockOf(18)
	p, _ = s.open(t, goldenID)
	_, err = p.Settle(Choice{Place: step(18).Place, Of: step(18).Of})
	require.NoError(t, err)
	require.NoError(t, p.Close())

	s.rivalGolden(t, step(19))
	p, o := s.open(t, goldenID)
	require.NotNil(t, o.Question)
	clockOf(20)
	_, err = p.Settle(Choice{Place: step(20).Place, Of: step(20).Of})
	require.NoError(t, err)
	require.NoError(t, p.Close())

	p, _ = s.open(t, goldenID)
	require.NoError(t, p.Append([]Step{step(21)}))
	s.failGolden(t, p, step(23), once("sync", "journal", syscall.EIO), 0)
	require.NoError(t, p.Append([]Step{step(23)}))
	p.letGo() // the program is killed
}

// failGolden tries a step that fails, after the disk has taken some bytes of it.
func (s *stand) failGolden(t *testing.T, p *Piece, m Step, fault func(string, string) error, short int) {
	t.Helper()
	s.fs.short = short
	s.fs.failing(fault)
	require.ErrorIs(t, p.Append([]Step{m}), ErrNotSaved)
	s.fs.failing(nil)
}

func (s *stand) addGolden(t *testing.T, name, text string) {
	t.Helper()
	f, err := os.OpenFile(s.path(goldenID, name), os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = f.WriteString(text)
	require.NoError(t, err)
	require.NoError(t, f.Close())
}

// rivalGolden has another machine make a step in a copy of the piece and this one
// make another. Then a tool that syncs folders brings the other machine's journal.
func (s *stand) rivalGolden(t *testing.T, theirs Step) {
	t.Helper()
	other := &stand{env: s.env, fs: s.fs, root: filepath.Join(filepath.Dir(s.root), "other-machine")}
	require.NoError(t, os.CopyFS(other.path(goldenID, ""), os.DirFS(s.path(goldenID, ""))))
	for _, at := range []struct {
		stand *stand
		step  Step
	}{
		{other, theirs},
		{s, Step{Kind: Forward, Place: at(20, 4), Of: 30, Time: goldAt(away, 3, 8, 3)}},
	} {
		p, _ := at.stand.open(t, goldenID)
		require.NoError(t, p.Append([]Step{at.step}))
		p.letGo()
	}
	const name = "journal-0002.txt"
	text, err := fs.ReadFile(os.DirFS(other.path(goldenID, "")), name)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(s.path(goldenID, "journal-0002-other-machine.txt"), text, 0o600))
}
