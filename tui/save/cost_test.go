package save

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
)

// rounds is how often a comparison of times is tried at most. The best one counts:
// a law is one of the code, and what runs beside it can only make it look worse.
const rounds = 5

// timed skips a test of times where times tell nothing.
func timed(t *testing.T) {
	t.Helper()
	if testing.Short() || raceEnabled {
		t.Skip("times tell nothing here")
	}
}

// TestAStepCostsHardlyMoreThanItsBytes holds a saved step against the least that it
// can cost: its bytes, written to the end of an open file in the same folder, and one
// sync.
func TestAStepCostsHardlyMoreThanItsBytes(t *testing.T) {
	timed(t)
	const (
		pairs   = 300
		atMost  = 1.3
		noDisk  = 20 * time.Microsecond
		warming = 20
	)
	s := newStand(t)
	s.env.FS = OS{}
	s.root = filepath.Join(realFolder(t), "pieces")
	p := s.begun(t)
	bare := newBareFile(t, p.dir)
	done := 0
	step := func() {
		done++
		require.NoError(t, p.Append([]Step{rowTwelve(1000 + done%1000)})) // all lines are of one length
	}
	size := func() int64 { return p.journal.size }
	step()
	before := size()
	step()
	line := make([]byte, size()-before)

	best := 0.0
	for round := range rounds {
		steps, writes := make([]time.Duration, 0, pairs), make([]time.Duration, 0, pairs)
		for i := range warming + pairs {
			a, b := interleaved(i%2 == 0, step, func() { bare.append(t, line) })
			if i >= warming {
				steps, writes = append(steps, a), append(writes, b)
			}
		}
		a, b := median(steps), median(writes)
		if b < noDisk {
			figures.Skip(t, "a real file system: a sync here takes "+b.String())
		}
		ratio := float64(a) / float64(b)
		figures.Say(t, "round %d: a step %v, a bare write and sync of its %d bytes %v, ratio %.3f (medians of %d)",
			round+1, a, len(line), b, ratio, pairs)
		if best == 0 || ratio < best {
			best = ratio
		}
		if best <= atMost {
			break
		}
	}
	assert.LessOrEqual(t, best, atMost)
}

// interleaved times two things one after the other, the first one first or not.
func interleaved(first bool, a, b func()) (tookA, tookB time.Duration) {
	if first {
		tookA = took(a)
		return tookA, took(b)
	}
	tookB = took(b)
	return took(a), tookB
}

func took(f func()) time.Duration {
	start := time.Now()
	f()
	return time.Since(start)
}

func median(d []time.Duration) time.Duration {
	slices.Sort(d)
	return d[len(d)/2]
}

// bareFile is a file that is only appended to and synced.
type bareFile struct{ f *os.File }

func newBareFile(t *testing.T, dir string) bareFile {
	t.Helper()
	f, err := os.OpenFile(filepath.Join(dir, "bare"), os.O_CREATE|os.O_EXCL|os.O_WRONLY|os.O_APPEND, 0o600)
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	return bareFile{f}
}

func (b bareFile) append(t *testing.T, line []byte) {
	t.Helper()
	_, err := b.f.Write(line)
	require.NoError(t, err)
	require.NoError(t, b.f.Sync())
}

// realFolder is a folder on a file system that a disk stands behind.
func realFolder(t *testing.T) string {
	t.Helper()
	home, _ := os.UserCacheDir() // "" where there is none
	for _, above := range []string{os.TempDir(), home, "."} {
		if above == "" || inMemoryOnly(above) {
			continue
		}
		dir, err := os.MkdirTemp(above, "bypeg-cost-*")
		if err != nil {
			continue
		}
		t.Cleanup(func() { os.RemoveAll(dir) })
		return dir
	}
	figures.Skip(t, "a real file system")
	return ""
}

const lifeLong = 100_000

// longLife makes a piece of so many steps that nobody works more, of a program that was
// killed seven steps after it had last written the second copy.
func (s *stand) longLife(t *testing.T) (id string) {
	t.Helper()
	p := s.begun(t)
	p.letGo()
	b := s.journalOf(t, p.ID())
	step := func(n int) Record {
		return Record{Number: uint64(n), Prev: uint64(n - 1), Time: begin.Add(time.Duration(n) * time.Second), Kind: Forward,
			Place: at(n/100+1, n%100), Of: 100}
	}
	for n := 2; n <= lifeLong; n++ {
		b = step(n).appendLine(b, p.ID())
	}
	s.setJournal(t, p.ID(), b)
	r := step(lifeLong - 7)
	second := secondCopy{number: r.Number, time: r.Time, at: r.Place, of: r.Of, facts: p.facts}
	require.NoError(t, writeCopy(OS{}, p.dir, p.ID(), &second))
	return p.ID()
}

// TestTheListOfALongLifeReadsItsEndOnly: however long the journal, as many bytes are
// read of it.
func TestTheListOfALongLifeReadsItsEndOnly(t *testing.T) {
	s := newStand(t)
	counting := &countingFS{}
	s.env.FS = counting
	id := s.longLife(t)
	info, err := os.Stat(s.path(id, "journal-0001.txt"))
	require.NoError(t, err)
	best := time.Hour
	for range 20 {
		counting.bytes = 0
		best = min(best, took(func() {
			all, err := List(s.env, s.root)
			require.NoError(t, err)
			require.Len(t, all, 1)
			require.Empty(t, all[0].Err)
			require.Equal(t, at(1001, 0), all[0].Place)
		}))
	}
	figures.Say(t, "the place of %d steps found in %v, from %d of %d bytes (best of 20)", lifeLong, best, counting.bytes, info.Size())
	assert.Less(t, counting.bytes, int64(tailSize+1024), "the end of the journal, and a second copy of some hundred bytes")
	if !testing.Short() && !raceEnabled {
		assert.Less(t, best, 2*time.Millisecond)
	}
}

// countingFS counts the bytes that are read.
type countingFS struct {
	OS
	bytes int64
}

func (c *countingFS) Open(path string) (File, error) {
	f, err := c.OS.Open(path)
	if err != nil {
		return nil, err
	}
	return &countingFile{File: f, fs: c}, nil
}

type countingFile struct {
	File
	fs *countingFS
}

func (f *countingFile) Read(b []byte) (int, error) {
	n, err := f.File.Read(b)
	f.fs.bytes += int64(n)
	return n, err
}

func (f *countingFile) ReadAt(b []byte, off int64) (int, error) {
	n, err := f.File.ReadAt(b, off)
	f.fs.bytes += int64(n)
	return n, err
}
