package save

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

// journalOf reads the first segment of a piece, for a test to damage.
func (s *stand) journalOf(t testing.TB, id string) []byte {
	t.Helper()
	data, err := os.ReadFile(s.path(id, "journal-0001.txt"))
	require.NoError(t, err)
	return data
}

func (s *stand) setJournal(t testing.TB, id string, data []byte) {
	t.Helper()
	require.NoError(t, os.WriteFile(s.path(id, "journal-0001.txt"), data, 0o600))
}

// account reads a piece whose journal is data, with no second copy beside it.
func accountOf(id string, data []byte) *account {
	a := &account{scan: scanFiles(id, []string{"journal-0001.txt"}, [][]byte{data})}
	a.chain = follow(a.scan.ledger)
	return a
}

func TestAJournalCutAnywhereKeepsEveryWholeLine(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 4)
	whole := s.journalOf(t, id)
	require.NoError(t, os.Remove(s.path(id, copyName)))
	for n := range whole {
		data := whole[:n]
		lines := bytes.Count(data, []byte{'\n'})
		rest := data[bytes.LastIndexByte(data, '\n')+1:]
		// A line that lacks nothing but its newline is a whole line.
		if bytes.HasPrefix(whole[len(data):], []byte{'\n'}) {
			lines, rest = lines+1, nil
		}
		records := max(0, lines-1) // the header is none
		s.setJournal(t, id, data)
		p, o, err := Open(s.env, s.root, id)
		if records == 0 {
			require.ErrorIs(t, err, ErrNeverBegun, "cut after %d bytes", n)
			continue
		}
		require.NoError(t, err, "cut after %d bytes", n)
		require.Len(t, history(o), records, "cut after %d bytes", n)
		require.Nil(t, o.Question)
		if len(rest) > 0 {
			require.Equal(t, []string{"an interrupted line was skipped; nothing saved was lost"}, o.Notices)
		} else {
			require.Empty(t, o.Notices)
		}
		// The next step is whole, whatever it was put behind, and needs no word more.
		require.NoError(t, p.Append([]Step{rowTwelve(20)}))
		p, o = reopened(t, s, p)
		p.letGo()
		require.Equal(t, at(12, 20), o.Place)
		require.Len(t, history(o), records+1)
		require.Empty(t, o.Notices)
		require.Nil(t, o.Question)
	}
}

// TestAByteThatFlipsNeverInventsAPlace tries every bit of every byte, and for the
// last line and one in the middle every value a byte can take.
func TestAByteThatFlipsNeverInventsAPlace(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 6)
	whole := s.journalOf(t, id)
	sound := history(accountOf(id, whole).opening())
	lines := bytes.SplitAfter(whole, []byte{'\n'})
	offset := 0
	for i, line := range lines {
		for at := offset; at < offset+len(line); at++ {
			for flip := 1; flip < 256; flip++ {
				every := i == 4 || i == len(lines)-2 // SplitAfter ends with an empty one
				if !every && flip&(flip-1) != 0 {
					continue
				}
				data := bytes.Clone(whole)
				data[at] ^= byte(flip)
				checkDamaged(t, accountOf(id, data), sound, fmt.Sprintf("byte %d of line %d, flipped by %#02x", at-offset, i+1, flip))
			}
		}
		offset += len(line)
	}
}

// checkDamaged asserts what holds for a journal in which one line is damaged: the
// place is the last one or the one before it, all records are true ones, and a
// person is told.
func checkDamaged(t *testing.T, a *account, sound []Record, what string) {
	t.Helper()
	o := a.opening()
	require.GreaterOrEqual(t, o.History.Len(), len(sound)-1, what)
	last := sound[len(sound)-1]
	if o.Place != last.Place {
		require.Equal(t, sound[len(sound)-2].Place, o.Place, what)
		require.NotNil(t, o.Question, what)
		require.Equal(t, DamagedEnd, o.Question.Kind, what)
	}
	for _, r := range history(o) {
		require.True(t, r.sameStep(sound[r.Number-1]), what)
	}
	require.True(t, o.Question != nil || len(o.Notices) > 0, "%s: nothing was said", what)
}

func TestWhatIsSaidAboutDamage(t *testing.T) {
	flip := func(line int) func([]byte) []byte {
		return func(data []byte) []byte {
			lines := bytes.SplitAfter(bytes.Clone(data), []byte{'\n'})
			lines[line][30] ^= 1
			return bytes.Join(lines, nil)
		}
	}
	tail := func(s string) func([]byte) []byte {
		return func(data []byte) []byte { return append(bytes.Clone(data), s...) }
	}
	cut := func(lines int) func([]byte) []byte {
		return func(data []byte) []byte {
			all := bytes.SplitAfter(bytes.Clone(data), []byte{'\n'})
			return bytes.Join(all[:len(all)-1-lines], nil)
		}
	}
	const torn = "an interrupted line was skipped; nothing saved was lost"
	for _, c := range []struct {
		name     string
		damage   func([]byte) []byte
		place    pattern.Place
		notices  []string
		question string
	}{
		{"none", tail(""), at(12, 5), nil, ""},
		{"a blank line and a comment", tail("\n# my own words\n"), at(12, 5), nil, ""},
		{"half a line at the end", tail("7 6 2026-01-0"), at(12, 5), []string{torn}, ""},
		{"a tail of zeros as long as a batch", tail(strings.Repeat("\x00", mostTorn)), at(12, 5), []string{torn}, ""},
		{
			"a tail of zeros that no batch is as long as", tail(strings.Repeat("\x00", mostTorn+1)), at(12, 5), nil,
			"last sure place the journal: row 12, 5 of 26 worked, 2026-01-02 19:07; the damaged line after it has nothing that can be read",
		},
		{"a line in the middle", flip(3), at(12, 5), []string{"1 of 6 lines can't be read. Your place is not affected."}, ""},
		{"the header", flip(0), at(12, 5), []string{"1 of 7 lines can't be read. Your place is not affected."}, ""},
		{
			"the last line", flip(6), at(12, 4), nil,
			"last sure place the journal: row 12, 4 of 26 worked, 2026-01-02 19:06; the damaged line after it reads " +
				`"6 5 2026-01-02T19:07:00+01:00 rtep phase=rows row=12 done=5 of=26 sum=SUM": row 12, 5 of 26 worked?`,
		},
		{
			"the last line, beyond recognition", func(d []byte) []byte { return append(cut(1)(d), "\x1b]52;c;aGk=\a\n"...) }, at(12, 4), nil,
			`last sure place the journal: row 12, 4 of 26 worked, 2026-01-02 19:06; the damaged line after it reads "]52;c;aGk="`,
		},
		{"a line by hand", tail("here row=20 done=3\n"), at(12, 5), nil, `a line was added by hand: "here row=20 done=3"; use it?`},
		{"a line by hand without a newline", tail("here row=20 done=3"), at(12, 5), nil, `a line was added by hand: "here row=20 done=3"; use it?`},
		{
			"a line by hand that cannot be", tail("here row=x done=3\n"), at(12, 5), nil,
			`last sure place the journal: row 12, 5 of 26 worked, 2026-01-02 19:07; the damaged line after it reads "here row=x done=3"`,
		},
		{"windows newlines", func(d []byte) []byte { return bytes.ReplaceAll(d, []byte("\n"), []byte("\r\n")) }, at(12, 5), nil, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			id := s.worked(t, 5)
			whole := s.journalOf(t, id)
			sum := string(whole[len(whole)-9 : len(whole)-1])
			s.setJournal(t, id, c.damage(whole))
			_, o := s.open(t, id)
			assert.Equal(t, c.place, o.Place)
			assert.Equal(t, c.notices, o.Notices)
			if c.question == "" {
				assert.Nil(t, o.Question)
				return
			}
			require.NotNil(t, o.Question)
			assert.Equal(t, strings.ReplaceAll(c.question, "SUM", sum), o.Question.String())
		})
	}
}

func TestALostNewlineCostsNothing(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 5)
	lines := bytes.SplitAfter(s.journalOf(t, id), []byte{'\n'})
	for i := 1; i < len(lines)-1; i++ {
		for _, junk := range []string{"", "\x00", "9", "9 9 ", "# ", "x sum=01234567"} {
			data := bytes.Clone(bytes.Join(lines[:i], nil))
			data = append(data[:len(data)-1], junk...)
			data = append(data, bytes.Join(lines[i:], nil)...)
			a := accountOf(id, data)
			require.Len(t, a.chain.kept, 6, "line %d glued to the one before with %q", i, junk)
			require.Zero(t, a.chain.holes)
			require.NotEmpty(t, a.opening().Notices)
		}
	}
}

func TestNothingReadableIsNeverRowOne(t *testing.T) {
	for _, c := range []struct {
		name   string
		damage func(t *testing.T, s *stand, id string)
		want   error
	}{
		{"only noise", func(t *testing.T, s *stand, id string) {
			s.setJournal(t, id, bytes.Repeat([]byte("noise "), 20_000))
		}, ErrUnreadable},
		{"only zeros, more than one write leaves", func(t *testing.T, s *stand, id string) {
			s.setJournal(t, id, make([]byte, firstWrite+1))
		}, ErrUnreadable},
		{"whole lines of something else", func(t *testing.T, s *stand, id string) {
			s.setJournal(t, id, []byte("milk\neggs\n"))
		}, ErrUnreadable},
		{"no more than a cut beginning leaves", func(t *testing.T, s *stand, id string) {
			s.setJournal(t, id, make([]byte, 200))
		}, ErrNeverBegun},
		{"nothing at all", func(t *testing.T, s *stand, id string) {
			require.NoError(t, os.Remove(s.path(id, "journal-0001.txt")))
		}, ErrNeverBegun},
		{"a damaged second copy and no journal", func(t *testing.T, s *stand, id string) {
			require.NoError(t, os.Remove(s.path(id, "journal-0001.txt")))
			require.NoError(t, os.WriteFile(s.path(id, copyName), []byte("row = 12\n"), 0o600))
		}, ErrUnreadable},
		{"a second copy that is a folder", func(t *testing.T, s *stand, id string) {
			require.NoError(t, os.Remove(s.path(id, "journal-0001.txt")))
			require.NoError(t, os.Mkdir(s.path(id, copyName), 0o700))
		}, nil},
		{"a journal that is a folder", func(t *testing.T, s *stand, id string) {
			require.NoError(t, os.Remove(s.path(id, "journal-0001.txt")))
			require.NoError(t, os.Mkdir(s.path(id, "journal-0001.txt"), 0o700))
		}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			id := s.worked(t, 3)
			require.NoError(t, os.Remove(s.path(id, copyName)))
			c.damage(t, s, id)
			_, _, err := Open(s.env, s.root, id)
			require.Error(t, err)
			if c.want != nil {
				require.ErrorIs(t, err, c.want)
			}
		})
	}
}

func TestWithoutTheFirstLineTheSecondCopyTellsWhatThePieceIs(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 3)
	data := s.journalOf(t, id)
	data[bytes.Index(data, []byte("hand="))+5] ^= 1
	s.setJournal(t, id, data)
	p, o := s.open(t, id)
	assert.Equal(t, at(12, 3), o.Place)
	assert.Equal(t, pattern.LeftHand, p.Hand())
	assert.Len(t, o.Notices, 1)
	p.letGo()

	require.NoError(t, os.Remove(s.path(id, copyName)))
	_, _, err := Open(s.env, s.root, id)
	require.ErrorIs(t, err, ErrUnreadable)
	assert.ErrorContains(t, err, "row 12, 3 of 26 worked")
}

func TestAFolderWithAnotherNameIsStillThePiece(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 3)
	require.NoError(t, os.Rename(s.path(id, ""), s.path("kept-aside", "")))
	p, o := s.open(t, "kept-aside")
	assert.Equal(t, at(12, 3), o.Place)
	require.NoError(t, p.Append([]Step{rowTwelve(4)}))
	_, o = reopened(t, s, p)
	assert.Equal(t, at(12, 4), o.Place)
	assert.Empty(t, o.Notices)
}

// FuzzScan holds that no bytes make the reader panic or go on for ever, and that
// what it finds has been in the file.
func FuzzScan(f *testing.F) {
	var b []byte
	b = append(b, header("k7q2")...)
	b = Record{Number: 1, Time: begin, Kind: Begun, Of: 26, facts: facts{pattern: "0a1b2c3d"}}.appendLine(b, "k7q2")
	b = Record{Number: 2, Prev: 1, Time: begin, Kind: Forward, Place: at(1, 1), Of: 26}.appendLine(b, "k7q2")
	f.Add(b)
	f.Add([]byte("here row=1 done=2\n# x sum=00000000\n1 0 2026-01-02T19:05:40Z step phase=rows sum=00000000"))
	f.Fuzz(func(t *testing.T, data []byte) {
		a := accountOf("k7q2", data)
		for _, k := range a.scan.links {
			r := a.scan.record(k)
			line := strings.TrimSuffix(string(r.appendLine(nil, "k7q2")), "\n")
			_, sum, _ := strings.Cut(line, sumField)
			if !bytes.Contains(data, []byte(sum)) && r.Text == "" && r.Kind != Begun {
				t.Fatalf("%q is not in the file", line)
			}
		}
		if len(a.scan.links) > 0 {
			a.opening()
		}
	})
}

// TestALostBlockAtTheEndIsAskedAbout: a block of a long journal is zeros now, which no
// write that was cut off leaves behind. Steps that were saved are lost with it, and the
// words must not deny it, wherever in a line the block begins.
func TestALostBlockAtTheEndIsAskedAbout(t *testing.T) {
	s := newStand(t)
	id := s.worked(t, 90)
	whole := s.journalOf(t, id)
	for lost := range 200 {
		data := bytes.Clone(whole)
		clear(data[len(data)-3000+lost:])
		o := accountOf(id, data).opening()
		require.NotNil(t, o.Question)
		require.Equal(t, DamagedEnd, o.Question.Kind)
		require.NotContains(t, o.Notices, tornNotice)
		require.Equal(t, FromJournal, o.Question.Choices[0].Origin)
		require.Less(t, o.Place.Done, 90)
	}
}
