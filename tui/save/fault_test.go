package save

import (
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

// faultFS is the real file system with somebody listening: every call that changes
// or syncs something is counted, and may be made to fail.
type faultFS struct {
	OS
	mu     sync.Mutex
	counts map[string]int

	// fault is asked before each call, with its name and the last part of its path.
	// An error is given back instead of making the call.
	fault func(call, name string) error
	// short makes writes take only so many bytes before their fault is given back;
	// liar makes them say that they took none.
	short int
	liar  bool
	// after is told of each call that has been made.
	after func(call, name string)
}

func newFaultFS() *faultFS { return &faultFS{counts: map[string]int{}} }

// call counts a call and lets it fail.
func (f *faultFS) call(name, path string) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.counts[name]++
	if f.fault == nil {
		return nil
	}
	return f.fault(name, filepath.Base(path))
}

func (f *faultFS) made(name, path string) {
	f.mu.Lock()
	after := f.after
	f.mu.Unlock()
	if after != nil {
		after(name, filepath.Base(path))
	}
}

// failing sets the fault and resets the counts.
func (f *faultFS) failing(fault func(call, name string) error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.fault = fault
	f.counts = map[string]int{}
}

func (f *faultFS) count(name string) int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.counts[name]
}

func (f *faultFS) Mkdir(dir string) error {
	if err := f.call("mkdir", dir); err != nil {
		return err
	}
	return f.OS.Mkdir(dir)
}

func (f *faultFS) Create(path string) (File, error) {
	if err := f.call("create", path); err != nil {
		return nil, err
	}
	return f.wrap(path)(f.OS.Create(path))
}

func (f *faultFS) Append(path string) (File, error) {
	if err := f.call("append", path); err != nil {
		return nil, err
	}
	return f.wrap(path)(f.OS.Append(path))
}

func (f *faultFS) Open(path string) (File, error) {
	if err := f.call("open", path); err != nil {
		return nil, err
	}
	return f.wrap(path)(f.OS.Open(path))
}

func (f *faultFS) Rename(from, to string) error {
	if err := f.call("rename", from); err != nil {
		return err
	}
	return f.OS.Rename(from, to)
}

func (f *faultFS) SyncDir(dir string) error {
	if err := f.call("syncdir", dir); err != nil {
		return err
	}
	return f.OS.SyncDir(dir)
}

func (f *faultFS) Lock(path, holder string) (io.Closer, error) {
	if err := f.call("lock", path); err != nil {
		return nil, err
	}
	return f.OS.Lock(path, holder)
}

func (f *faultFS) wrap(path string) func(File, error) (File, error) {
	return func(file File, err error) (File, error) {
		if err != nil {
			return nil, err
		}
		return &faultFile{File: file, fs: f, path: path}, nil
	}
}

type faultFile struct {
	File
	fs   *faultFS
	path string
}

func (f *faultFile) Read(b []byte) (int, error) {
	if err := f.fs.call("read", f.path); err != nil {
		return 0, err
	}
	return f.File.Read(b)
}

func (f *faultFile) ReadAt(b []byte, off int64) (int, error) {
	if err := f.fs.call("read", f.path); err != nil {
		return 0, err
	}
	return f.File.ReadAt(b, off)
}

func (f *faultFile) Write(b []byte) (int, error) {
	if err := f.fs.call("write", f.path); err != nil {
		n, _ := f.File.Write(b[:min(f.fs.short, len(b))])
		if f.fs.liar {
			n = 0
		}
		return n, err
	}
	n, err := f.File.Write(b)
	f.fs.made("write", f.path)
	return n, err
}

func (f *faultFile) Stat() (fs.FileInfo, error) {
	if err := f.fs.call("fstat", f.path); err != nil {
		return nil, err
	}
	info, err := f.File.Stat()
	f.fs.made("fstat", f.path)
	return info, err
}

func (f *faultFile) Sync() error {
	if err := f.fs.call("sync", f.path); err != nil {
		return err
	}
	err := f.File.Sync()
	f.fs.made("sync", f.path)
	return err
}

// once makes a fault of one kind of call on files whose name begins with prefix, and
// of its first occurrence only.
func once(call, prefix string, err error) func(string, string) error {
	done := false
	return func(c, name string) error {
		if done || c != call || !strings.HasPrefix(name, prefix) {
			return nil
		}
		done = true
		return err
	}
}

// always is once without an end.
func always(call, prefix string, err error) func(string, string) error {
	return func(c, name string) error {
		if c != call || !strings.HasPrefix(name, prefix) {
			return nil
		}
		return err
	}
}

// stand is a place to try pieces at: a root of its own, a clock that goes on a
// minute at each look, ids in order.
type stand struct {
	env  Env
	fs   *faultFS
	root string
}

var begin = time.Date(2026, 1, 2, 19, 0, 0, 0, time.FixedZone("", 3600))

func newStand(t testing.TB) *stand {
	t.Helper()
	s := &stand{fs: newFaultFS(), root: filepath.Join(t.TempDir(), "bypeg", "pieces")}
	var mu sync.Mutex
	looks, ids := 0, 0
	s.env = Env{
		FS: s.fs,
		Now: func() time.Time {
			mu.Lock()
			defer mu.Unlock()
			looks++
			return begin.Add(time.Duration(looks) * time.Minute)
		},
		NewID: func() string {
			ids++
			return fmt.Sprintf("k7q%d", ids)
		},
		Holder: "pid 4711, /dev/pts/3",
	}
	return s
}

const (
	patternText = "pattern = 1\ntitle = \"Sluice Lane Mat\"\npegs = 26\n"
	sourceName  = "mats/sluice lane.toml"
	pieceTitle  = "Sluice Lane Mat"
)

// begun begins a piece with a left-hander's way.
func (s *stand) begun(t testing.TB) *Piece {
	t.Helper()
	p, err := Begin(s.env, s.root, New{
		Title:       pieceTitle,
		Source:      sourceName,
		PatternText: []byte(patternText),
		Hand:        pattern.LeftHand,
		Way:         pattern.DefaultWay(pattern.LeftHand),
		Of:          26,
	})
	require.NoError(t, err)
	t.Cleanup(func() { p.letGo() })
	return p
}

// worked begins a piece, works n stitches of row 12 one by one, and ends as a killed
// program does: without a word.
func (s *stand) worked(t testing.TB, n int) (id string) {
	t.Helper()
	p := s.begun(t)
	for i := range n {
		require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
	}
	p.letGo()
	return p.ID()
}

func rowTwelve(done int) Step {
	return Step{Kind: Forward, Place: at(12, done), Of: 26}
}

func at(row, done int) pattern.Place {
	return pattern.Place{Phase: pattern.Working, Row: row, Done: done}
}

// open opens a piece and closes it at the end of the test, without place.toml.
func (s *stand) open(t testing.TB, id string) (*Piece, Opening) {
	t.Helper()
	p, o, err := Open(s.env, s.root, id)
	require.NoError(t, err)
	t.Cleanup(func() { p.letGo() })
	return p, o
}

func (s *stand) path(id, name string) string { return filepath.Join(s.root, id, name) }
