package save

import (
	"bytes"
	"hash/crc32"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
)

// unsynced is the machine's file system without the syncs. How long the disk takes for
// one has nothing to do with how long a journal is.
type unsynced struct{ OS }

func (unsynced) SyncDir(string) error { return nil }

func (u unsynced) Append(path string) (File, error) {
	f, err := u.OS.Append(path)
	return unsyncedFile{f}, err
}

type unsyncedFile struct{ File }

func (unsyncedFile) Sync() error { return nil }

// holdTime holds that a takes at most so many times as long as b, the best of some tries
// of each.
func holdTime(t *testing.T, what string, atMost float64, a, b func()) {
	t.Helper()
	const tries = 15
	best := 0.0
	for round := range rounds {
		tookA, tookB := time.Hour, time.Hour
		for i := range tries {
			a, b := interleaved(i%2 == 0, a, b)
			tookA, tookB = min(tookA, a), min(tookB, b)
		}
		ratio := float64(tookA) / float64(tookB)
		figures.Say(t, "%s: round %d: %v against %v, ratio %.2f (best of %d)", what, round+1, tookA, tookB, ratio, tries)
		if best == 0 || ratio < best {
			best = ratio
		}
		if best <= atMost {
			break
		}
	}
	assert.LessOrEqual(t, best, atMost, what)
}

// closedLife makes a long life whose program was closed, and returns its journal.
func closedLife(t *testing.T) (s *stand, id string, journal []byte) {
	t.Helper()
	s = newStand(t)
	s.env.FS = OS{}
	id = s.longLife(t)
	p, _ := s.open(t, id) // what was not sure to be on disk is written once more
	require.NoError(t, p.Close())
	return s, id, s.journalOf(t, id)
}

// opening is what opens a piece and looks where it stands.
func (s *stand) opening(t *testing.T, id string) func() {
	return func() {
		p, o, err := Open(s.env, s.root, id)
		require.NoError(t, err)
		p.letGo()
		require.Nil(t, o.Question)
		require.GreaterOrEqual(t, o.History.Len(), lifeLong-1)
		require.Equal(t, at(1001, 0), o.Place)
	}
}

// TestALongLifeOpensQuickly holds opening a piece against the least that reading its
// journal can cost: the bytes read, parted into lines, and each line summed.
func TestALongLifeOpensQuickly(t *testing.T) {
	timed(t)
	s, id, _ := closedLife(t)
	least := func() {
		data, err := os.ReadFile(s.path(id, "journal-0001.txt"))
		require.NoError(t, err)
		sums, lines := uint32(0), 0
		for line := range bytes.Lines(data) {
			sums ^= crc32.Checksum(line, castagnoli)
			lines++
		}
		require.Equal(t, 1+lifeLong+7, lines)
		require.NotZero(t, sums)
	}
	open := s.opening(t, id)
	synced := time.Hour
	for range rounds {
		synced = min(synced, took(open))
	}
	figures.Say(t, "%d steps opened, with the syncs of this disk: %v (best of %d)", lifeLong, synced, rounds)
	s.env.FS = unsynced{}
	holdTime(t, "steps opened, against read, parted and summed", 3, open, least)
}

// TestWhatIsWrongInOnePlaceCostsALongLifeLittle: a journal is not searched all over for
// the sake of one line.
func TestWhatIsWrongInOnePlaceCostsALongLifeLittle(t *testing.T) {
	timed(t)
	const middle, aside = lifeLong / 2, "kept-aside"
	s, id, journal := closedLife(t)
	s.env.FS = unsynced{}
	require.NoError(t, os.CopyFS(s.path(aside, ""), os.DirFS(s.path(id, ""))))
	lines := bytes.SplitAfter(journal, []byte("\n"))
	before, after := bytes.Join(lines[:middle], nil), bytes.Join(lines[middle+1:], nil)
	line, next := lines[middle], lines[middle+1]
	// again is the next record as if the one in the middle had failed.
	again, _ := parseRecord(string(bytes.TrimSpace(next)), id)
	again.Prev--
	tried, _ := parseRecord(string(bytes.TrimSpace(line)), id)
	same := again
	same.Place, same.Time = tried.Place, tried.Time
	for _, c := range []struct {
		name   string
		middle []byte
		after  []byte
	}{
		{"a damaged line", bytes.Replace(line, []byte("step"), []byte("stop"), 1), after},
		{"a line that is gone", nil, after},
		{"a lost newline", bytes.TrimSpace(line), after},
		{"a line that is there twice", slices.Concat(line, lines[100]), after},
		{"a number that was burnt", nil, slices.Concat(again.appendLine(nil, id), after[len(next):])},
		{"a step that failed and was made again", line, slices.Concat(same.appendLine(nil, id), after[len(next):])},
	} {
		t.Run(c.name, func(t *testing.T) {
			data := slices.Concat(before, c.middle, c.after)
			require.NotEqual(t, journal, data)
			s.setJournal(t, aside, data)
			holdTime(t, "opened, against a journal with nothing wrong", 2, s.opening(t, aside), s.opening(t, id))
		})
	}
}

// TestALongWorkThatWasLeftIsReadSoon has all of a long life in a gap between the first
// record and the last. The limit is lax: once it took the square of its length.
func TestALongWorkThatWasLeftIsReadSoon(t *testing.T) {
	data := []byte(header("k7q2"))
	put := func(r Record) { data = r.appendLine(data, "k7q2") }
	put(Record{Number: 1, Time: begin, Kind: Begun, Of: 26, facts: facts{pattern: "0a1b2c3d"}})
	for n := 2; n < lifeLong; n++ {
		put(Record{Number: uint64(n), Prev: uint64(n - 1), Time: begin, Kind: Forward, Place: at(n/20+1, n%20), Of: 26})
	}
	put(Record{Number: 2 * lifeLong, Prev: 1, Time: begin, Kind: Forward, Place: at(maxRow, 3), Of: 26})
	start := time.Now()
	c := accountOf("k7q2", data).chain
	figures.Say(t, "%d steps that were left, read in %v", lifeLong, time.Since(start))
	assert.Less(t, time.Since(start), 10*time.Second)
	assert.Len(t, c.kept, 2)
	require.Len(t, c.tips, 1)
	assert.Equal(t, uint64(lifeLong-1), c.tips[0].Number)
}
