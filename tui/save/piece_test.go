package save

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

func TestAPieceIsThereAgainAfterTheProgramWasKilled(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	require.NoError(t, p.Append([]Step{{Kind: Noted, Place: at(12, 1), Of: 26, Text: "blue \"B\"\nhere"}}))
	p.letGo()

	q, o := s.open(t, p.ID())
	assert.Equal(t, at(12, 1), o.Place)
	assert.Equal(t, 26, o.Of)
	assert.Empty(t, o.Notices)
	assert.Nil(t, o.Question)
	assert.Empty(t, o.LookOnly)
	assert.Equal(t, []Kind{Begun, Forward, Noted}, kinds(history(o)))
	assert.Equal(t, `blue "B" here`, history(o)[2].Text, "a note is shown as one safe line")
	assert.Equal(t, pieceTitle, q.Title())
	assert.Equal(t, sourceName, q.Source())
	assert.Equal(t, pattern.LeftHand, q.Hand())
	assert.Equal(t, pattern.Way{Peg1: pattern.Left, Row1: pattern.ToRight}, q.Way())
	assert.Equal(t, patternText, string(q.Pattern()))
	assert.False(t, q.LookOnly())
}

// history is all that an opening says has led to the place.
func history(o Opening) []Record { return slices.Collect(o.History.All()) }

func kinds(records []Record) []Kind {
	var all []Kind
	for _, r := range records {
		all = append(all, r.Kind)
	}
	return all
}

func TestAPieceIsOnDiskBeforeBeginReturns(t *testing.T) {
	s := newStand(t)
	var calls []string
	s.fs.fault = func(call, name string) error {
		if call != "read" && call != "open" && call != "fstat" {
			calls = append(calls, call+" "+name)
		}
		return nil
	}
	s.begun(t)
	home := filepath.Dir(filepath.Dir(s.root))
	var above []string // a name made by a run that was killed may not be on disk yet
	for dir := home; dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		above = append([]string{"syncdir " + filepath.Base(filepath.Dir(dir))}, above...)
	}
	assert.Equal(t, append(above,
		"mkdir bypeg", "syncdir "+filepath.Base(home),
		"mkdir pieces", "syncdir bypeg",
		"mkdir k7q1", "syncdir pieces",
		"lock lock",
		"create pattern.new", "write pattern.new", "sync pattern.new", "rename pattern.new", "syncdir k7q1",
		"create journal-0001.txt", "write journal-0001.txt", "sync journal-0001.txt", "syncdir k7q1",
		"write journal-0001.txt", "sync journal-0001.txt",
		"create place.new", "write place.new", "sync place.new", "rename place.new", "syncdir k7q1",
	), calls)
}

func TestAPieceThatCannotBeBegunIsAnErrorAndLeavesNothing(t *testing.T) {
	for _, c := range []struct{ name, call, file string }{
		{"the folder above cannot be made", "mkdir", "pieces"},
		{"the folder cannot be made", "mkdir", "k7q"},
		{"the folder's name cannot be synced", "syncdir", "pieces"},
		{"the lock cannot be taken", "lock", "lock"},
		{"the pattern's file cannot be made", "create", "pattern.new"},
		{"the pattern cannot be written", "write", "pattern.new"},
		{"the pattern cannot be synced", "sync", "pattern.new"},
		{"the pattern cannot get its name", "rename", "pattern.new"},
		{"the pattern's name cannot be synced", "syncdir", "k7q"},
		{"the journal cannot be made", "create", "journal"},
		{"the journal cannot be written", "write", "journal"},
		{"the journal cannot be synced", "sync", "journal"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			s.fs.fault = once(c.call, c.file, &fs.PathError{Op: c.call, Path: "/a/path", Err: syscall.ENOSPC})
			_, err := Begin(s.env, s.root, New{Title: pieceTitle, PatternText: []byte(patternText)})
			require.ErrorIs(t, err, ErrNotSaved)
			require.ErrorIs(t, err, syscall.ENOSPC)
			require.EqualError(t, err, "not saved: the piece could not be begun: disk full")
			left, _ := filepath.Glob(filepath.Join(s.root, "*"))
			assert.Empty(t, left)
			_, _, err = Open(s.env, s.root, "k7q1")
			require.ErrorIs(t, err, ErrNoPiece)
			s.fs.fault = nil
			s.begun(t)
		})
	}
}

// TestABeginningThatIsCutAtItsRecordLeavesNothing: that record may have reached the
// disk, and nobody has been told that it did.
func TestABeginningThatIsCutAtItsRecordLeavesNothing(t *testing.T) {
	s := newStand(t)
	syncs := 0
	s.fs.fault = func(call, name string) error {
		if call == "sync" && strings.HasPrefix(name, "journal") {
			if syncs++; syncs == 2 {
				return syscall.EIO
			}
		}
		return nil
	}
	_, err := Begin(s.env, s.root, New{Title: pieceTitle, PatternText: []byte(patternText)})
	require.EqualError(t, err, "not saved: the piece could not be begun: the disk reports an error")
	left, err := filepath.Glob(filepath.Join(s.root, "*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestABeginningThatFailsTakesAwayOnlyWhatItMade(t *testing.T) {
	mine := func(s *stand) string { return s.path("k7q1", "journal-0001.txt") }
	for _, c := range []struct {
		name   string
		before func(t *testing.T, s *stand)
		stays  func(s *stand) string
		want   string
	}{
		{"the folder was there already", func(t *testing.T, s *stand) {
			require.NoError(t, os.MkdirAll(s.path("k7q1", ""), 0o700))
			require.NoError(t, os.WriteFile(mine(s), nil, 0o600))
		}, mine, "its name is taken"},
		{"somebody put a file into it", func(t *testing.T, s *stand) {
			s.fs.failing(once("write", "journal", syscall.ENOSPC))
			s.fs.after = func(string, string) { _ = os.WriteFile(s.path("k7q1", "notes.txt"), nil, 0o600) }
		}, func(s *stand) string { return s.path("k7q1", "notes.txt") }, "disk full"},
		{"somebody put a journal into it", func(t *testing.T, s *stand) {
			s.fs.after = func(string, string) { _ = os.WriteFile(mine(s), nil, 0o600) }
		}, mine, "the saved file was changed by something else"},
		{"its journal cannot be taken away for good", func(t *testing.T, s *stand) {
			failed := false
			s.fs.failing(func(call, name string) error {
				failed = failed || call == "write" && strings.HasPrefix(name, "journal")
				if failed && (call == "syncdir" || call == "write") {
					return syscall.EIO
				}
				return nil
			})
		}, func(s *stand) string { return s.path("k7q1", patternName(patternMark([]byte(patternText)))) }, "the disk reports an error"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			c.before(t, s)
			_, err := Begin(s.env, s.root, New{Title: pieceTitle, PatternText: []byte(patternText)})
			require.EqualError(t, err, "not saved: the piece could not be begun: "+c.want)
			_, err = os.Stat(c.stays(s))
			require.NoError(t, err)
		})
	}
}

func TestTheSecondCopyIsNoConditionOfBeginning(t *testing.T) {
	s := newStand(t)
	s.fs.fault = always("create", "place.new", syscall.ENOSPC)
	p := s.begun(t)
	require.ErrorIs(t, p.Close(), ErrCopyBehind)
	_, o := s.open(t, p.ID())
	assert.Equal(t, pattern.Start(), o.Place)
	assert.Equal(t, 26, o.Of)
}

func TestOneStepIsOneWriteAndOneSync(t *testing.T) {
	reopen := func(t *testing.T, s *stand, p *Piece) *Piece {
		p, _ = reopened(t, s, p)
		return p
	}
	for _, c := range []struct {
		name   string
		before func(t *testing.T, s *stand, p *Piece) *Piece
	}{
		{"of a piece just begun", func(_ *testing.T, _ *stand, p *Piece) *Piece { return p }},
		{"after another step", func(t *testing.T, _ *stand, p *Piece) *Piece {
			require.NoError(t, p.Append([]Step{rowTwelve(1)}))
			return p
		}},
		{"of a piece just opened", reopen},
		{"behind half a line", func(t *testing.T, s *stand, p *Piece) *Piece {
			s.setJournal(t, p.ID(), append(s.journalOf(t, p.ID()), "2 1 2026-01-0"...))
			return reopen(t, s, p)
		}},
		{"after a write that failed", func(t *testing.T, s *stand, p *Piece) *Piece {
			s.fs.short = 9
			s.fs.failing(always("write", "journal", syscall.ENOSPC))
			require.ErrorIs(t, p.Append([]Step{rowTwelve(1)}), ErrNotSaved)
			return p
		}},
	} {
		for _, steps := range []int{1, MaxBatch} {
			t.Run(fmt.Sprintf("%s, %d at once", c.name, steps), func(t *testing.T) {
				s := newStand(t)
				p := c.before(t, s, s.begun(t))
				s.fs.failing(nil)
				var batch []Step
				for i := range steps {
					batch = append(batch, rowTwelve(i+1))
				}
				require.NoError(t, p.Append(batch))
				assert.Equal(t, map[string]int{"fstat": 2, "write": 1, "sync": 1}, s.fs.counts)
				where, of := p.Saved()
				assert.Equal(t, at(12, steps), where)
				assert.Equal(t, 26, of)
			})
		}
	}
}

func TestABatchThatIsNoneIsRefused(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	for _, batch := range [][]Step{
		nil,
		make([]Step, MaxBatch+1),
		{{Kind: Begun}},
		{{Kind: PatternChanged}},
		{{Kind: Here}},
	} {
		require.Error(t, p.Append(batch))
	}
	_, o := reopened(t, s, p)
	assert.Len(t, history(o), 1)
}

// reopened lets a piece go without a word and opens it again.
func reopened(t *testing.T, s *stand, p *Piece) (*Piece, Opening) {
	t.Helper()
	p.letGo()
	return s.open(t, p.ID())
}

func TestTheSecondCopyComesOnClosingAndEveryFiftySteps(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	placeIn := func() *secondCopy {
		c, err := readCopy(OS{}, p.dir, p.ID())
		require.NoError(t, err)
		return c
	}
	for i := range copyEvery - 1 {
		require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
	}
	assert.EqualValues(t, 1, placeIn().number)
	require.NoError(t, p.Append([]Step{rowTwelve(copyEvery)}))
	assert.Equal(t, at(12, copyEvery), placeIn().at)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	require.NoError(t, p.Close())
	assert.Equal(t, at(12, 1), placeIn().at)
	assert.Equal(t, pieceTitle, placeIn().facts.title)
}

func TestTheSecondCopyNeverGoesBack(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	newer := secondCopy{number: 900, time: begin, at: at(30, 1), of: 26, facts: p.facts}
	require.NoError(t, writeCopy(OS{}, p.dir, p.ID(), &newer))
	require.ErrorIs(t, p.Close(), ErrCopyBehind)
	c, err := readCopy(OS{}, p.dir, p.ID())
	require.NoError(t, err)
	assert.EqualValues(t, 900, c.number)
}

func TestASecondCopyThatCannotBeReadIsNotReplaced(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	s.fs.failing(always("read", copyName, syscall.EIO))
	require.ErrorIs(t, p.Close(), ErrCopyBehind)
	assert.Zero(t, s.fs.count("create"))
}

func TestAnotherPatternTextIsKeptBesideTheOldOne(t *testing.T) {
	s := newStand(t)
	p := s.begun(t)
	require.NoError(t, p.Append([]Step{rowTwelve(1)}))
	other := patternText + "# wider\n"
	require.NoError(t, p.ChangePattern([]byte(other), at(13, 0), 30, ""))
	assert.Equal(t, other, string(p.Pattern()))

	q, o := reopened(t, s, p)
	assert.Equal(t, at(13, 0), o.Place)
	assert.Equal(t, 30, o.Of)
	assert.Equal(t, other, string(q.Pattern()))
	assert.Equal(t, []Kind{Begun, Forward, PatternChanged}, kinds(history(o)))
	old, err := os.ReadFile(s.path(p.ID(), patternName(patternMark([]byte(patternText)))))
	require.NoError(t, err)
	assert.Equal(t, patternText, string(old))
}

// A piece that goes on with a pattern of its own knows what that was made of, whatever is
// lost of the files.
func TestAChangeOnPurposeKnowsWhatItWasMadeOf(t *testing.T) {
	shorter, shortest, edited := patternText+"# shorter\n", patternText+"# shortest\n", patternText+"# edited\n"
	type change struct{ text, words string }
	for _, c := range []struct {
		name    string
		changes []change
		source  string
	}{
		{"as it was begun", nil, patternText},
		{"once", []change{{shorter, "one repeat fewer"}}, patternText},
		{"twice", []change{{shorter, "one repeat fewer"}, {shortest, "the border now"}}, patternText},
		{"there and back", []change{{shorter, "one repeat fewer"}, {patternText, "one repeat more"}}, patternText},
		{"the source was taken anew", []change{{shorter, "one repeat fewer"}, {edited, ""}}, edited},
		{"and changed again", []change{{edited, ""}, {shorter, "one repeat fewer"}}, edited},
	} {
		for _, lost := range []string{"nothing", copyName, segmentName(1)} {
			t.Run(c.name+", lost: "+lost, func(t *testing.T) {
				s := newStand(t)
				p := s.begun(t)
				knows := func(p *Piece) {
					for _, text := range []string{patternText, shorter, shortest, edited} {
						assert.Equal(t, text == c.source, p.FromSource([]byte(text)), "%q", text)
					}
				}
				for _, change := range c.changes {
					require.NoError(t, p.ChangePattern([]byte(change.text), at(2, 0), 30, change.words))
				}
				knows(p)
				require.NoError(t, p.Close())
				if lost != "nothing" {
					require.NoError(t, os.Remove(s.path(p.ID(), lost)))
				}
				q, _, err := Open(s.env, s.root, p.ID())
				require.NoError(t, err)
				knows(q)
				if n := len(c.changes); n > 0 {
					assert.Equal(t, c.changes[n-1].text, string(q.Pattern()))
				}
				require.NoError(t, q.Close())
			})
		}
	}
}

func TestAPatternThatCannotBeWrittenChangesNothing(t *testing.T) {
	for _, c := range []struct{ name, call, file string }{
		{"its text cannot be written", "write", "pattern.new"},
		{"its text cannot be synced", "sync", "pattern.new"},
		{"its record cannot be written", "write", "journal"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			s.fs.failing(once(c.call, c.file, syscall.ENOSPC))
			require.ErrorIs(t, p.ChangePattern([]byte("pattern = 1\n"), at(1, 0), 26, ""), ErrNotSaved)
			assert.Equal(t, patternText, string(p.Pattern()))
			q, o := reopened(t, s, p)
			assert.Equal(t, patternText, string(q.Pattern()))
			assert.Equal(t, pattern.Start(), o.Place)
		})
	}
}

func TestAKeptPatternThatWasChangedIsTold(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 1)
	path := s.path(id, patternName(patternMark([]byte(patternText))))
	require.NoError(t, os.WriteFile(path, []byte("pattern = 1\n"), 0o600))
	_, o := s.open(t, id)
	assert.Equal(t, []string{patternNotice}, o.Notices)

	require.NoError(t, os.Remove(path))
	_, _, err := Open(s.env, s.root, id)
	require.ErrorIs(t, err, fs.ErrNotExist)
	assert.ErrorContains(t, err, "The place is row 12, 1 of 26 worked", "the place is told all the same")
}

func TestTheMachinesIDsAreIDsAndDiffer(t *testing.T) {
	env := System("pid 1")
	a, b := env.NewID(), env.NewID()
	assert.True(t, validID(a), a)
	assert.NotEqual(t, a, b)
	p, err := Begin(env, t.TempDir(), New{Title: pieceTitle, PatternText: []byte(patternText)})
	require.NoError(t, err)
	require.NoError(t, p.Close())
}

func TestAnIDIsNeverAPath(t *testing.T) {
	s := newStand(t)
	s.worked(t, 1)
	for _, id := range []string{"", ".", "..", "../pieces/k7q1", "k7q1/", `k7q1\`, "nothere", strings.Repeat("a", 65), "k7q1\x1b"} {
		_, _, err := Open(s.env, s.root, id)
		require.ErrorIs(t, err, ErrNoPiece, "%q", id)
	}
}

func TestATitleOrSourceHasABound(t *testing.T) {
	s := newStand(t)
	_, err := Begin(s.env, s.root, New{Title: strings.Repeat("x", nameLimit+1)})
	require.Error(t, err)
	_, err = os.Stat(s.root)
	require.ErrorIs(t, err, fs.ErrNotExist)
}
