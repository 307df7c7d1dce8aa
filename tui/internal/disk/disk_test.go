package disk

import (
	"errors"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/tui/save"
)

var top = string(filepath.Separator)

// written makes a file of a text, and its name is on disk.
func written(t *testing.T, d *Disk, text string) save.File {
	t.Helper()
	f, err := d.Create(top + "mat")
	require.NoError(t, err)
	write(t, f, text)
	require.NoError(t, d.SyncDir(top))
	return f
}

func write(t *testing.T, f save.File, text string) {
	t.Helper()
	n, err := f.Write([]byte(text))
	require.NoError(t, err)
	require.Equal(t, len(text), n)
}

// left are the texts that a power cut may leave of the file, "none" where it may be gone.
func left(t *testing.T, d *Disk) []string {
	t.Helper()
	var texts []string
	for _, image := range d.Images() {
		data, err := image().ReadFile(top + "mat")
		if errors.Is(err, fs.ErrNotExist) {
			data, err = []byte("none"), nil
		}
		require.NoError(t, err)
		texts = append(texts, string(data))
	}
	slices.Sort(texts)
	return slices.Compact(texts)
}

func TestWhatAPowerCutLeaves(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(t *testing.T, d *Disk)
		want []string // without those that have junk in them
	}{
		{"all that was synced", func(t *testing.T, d *Disk) {
			require.NoError(t, written(t, d, "ab").Sync())
		}, []string{"ab"}},
		{"nothing, all or a part of what was not, zeros at either end", func(t *testing.T, d *Disk) {
			written(t, d, "ab")
		}, []string{"", "\x00\x00", "\x00b", "a", "a\x00", "ab"}},
		{"a name by itself", func(t *testing.T, d *Disk) {
			f, err := d.Create(top + "mat")
			require.NoError(t, err)
			write(t, f, "ab")
			require.NoError(t, f.Sync())
		}, []string{"ab", "none"}},
		{"what came before, with what was added", func(t *testing.T, d *Disk) {
			f := written(t, d, "ab")
			require.NoError(t, f.Sync())
			write(t, f, "c")
		}, []string{"ab", "ab\x00", "abc"}},
		{"zeros for what a failed sync lost, whatever comes after", func(t *testing.T, d *Disk) {
			f := written(t, d, "a")
			fail(d, Sync, syscall.EIO)
			require.ErrorIs(t, f.Sync(), syscall.EIO)
			write(t, f, "b")
			require.NoError(t, f.Sync())
		}, []string{"\x00b", "ab"}},
		{"either of two files for a name", func(t *testing.T, d *Disk) {
			require.NoError(t, written(t, d, "old").Sync())
			f, err := d.Create(top + "new")
			require.NoError(t, err)
			write(t, f, "n")
			require.NoError(t, f.Sync())
			require.NoError(t, d.Rename(top+"new", top+"mat"))
		}, []string{"n", "old"}},
		{"a file that was removed, perhaps", func(t *testing.T, d *Disk) {
			require.NoError(t, written(t, d, "a").Sync())
			require.NoError(t, d.Remove(top+"mat"))
		}, []string{"a", "none"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := New()
			c.do(t, d)
			var plain []string
			for _, text := range left(t, d) {
				if strings.Trim(text, "abcdelonw\x00") == "" {
					plain = append(plain, text)
				}
			}
			assert.Subset(t, plain, c.want)
			assert.Subset(t, append(c.want, junk(t, d)...), plain, "and nothing else")
		})
	}
}

// junk are the texts of those cuts that leave junk.
func junk(t *testing.T, d *Disk) []string {
	t.Helper()
	var texts []string
	for cut, image := range d.Images() {
		if slices.ContainsFunc(cut.Parts, func(l Left) bool { return l.Kind == Junk }) {
			data, err := image().ReadFile(top + "mat")
			require.NoError(t, err)
			texts = append(texts, string(data))
		}
	}
	return texts
}

// fail makes the next call of a kind fail.
func fail(d *Disk, c Call, err error) {
	d.Before = func(op Op) *Fault {
		if op.Call != c {
			return nil
		}
		d.Before = nil
		return &Fault{Err: err}
	}
}

func TestACloneIsADiskOfItsOwn(t *testing.T) {
	d := New()
	f := written(t, d, "ab")
	c := d.Clone()
	write(t, f, "c")
	g, err := c.Append(top + "mat")
	require.NoError(t, err)
	write(t, g, "d")
	require.NoError(t, c.Mkdir(top+"folder"))
	mine, _ := d.ReadFile(top + "mat")
	theirs, _ := c.ReadFile(top + "mat")
	assert.Equal(t, "abc", string(mine))
	assert.Equal(t, "abd", string(theirs))
	names, err := d.ReadDir(top)
	require.NoError(t, err)
	assert.Equal(t, []string{"mat"}, names)
}

func TestALockIsHeldByOne(t *testing.T) {
	d := New()
	lock, err := d.Lock(top+"lock", "me")
	require.NoError(t, err)
	_, err = d.Lock(top+"lock", "you")
	require.ErrorAs(t, err, new(*save.HeldError))
	require.NoError(t, lock.Close())
	_, err = d.Lock(top+"lock", "you")
	require.NoError(t, err)
	_, err = d.Clone().Lock(top+"lock", "another, once the first was killed")
	require.NoError(t, err)
}

// TestItDoesAsTheMachineDoes makes the same calls on the simulated disk and on the
// machine's file system: as long as nothing fails they cannot be told apart.
func TestItDoesAsTheMachineDoes(t *testing.T) {
	dir, tries := t.TempDir(), 0
	rapid.Check(t, func(t *rapid.T) {
		real := save.OS{}
		tries++
		base := filepath.Join(dir, strconv.Itoa(tries))
		require.NoError(t, real.Mkdir(base))
		d := New()
		for at, rest := "", base; rest != ""; { // the folders above are there on both
			var name string
			name, rest, _ = strings.Cut(strings.TrimPrefix(rest, top), top)
			at = at + top + name
			require.NoError(t, d.Mkdir(at))
		}
		for range rapid.IntRange(1, 30).Draw(t, "calls") {
			call := rapid.SampledFrom(calls).Draw(t, "call")
			a := filepath.Join(base, rapid.SampledFrom(paths).Draw(t, "path"))
			b := filepath.Join(filepath.Dir(a), rapid.SampledFrom([]string{"x", "y", "z"}).Draw(t, "to"))
			require.Equal(t, answer(call(real, a, b)), answer(call(d, a, b)))
		}
	})
}

var paths = []string{"x", "y", "f", "f/x", "f/y"}

// calls do something with a path, and perhaps another in its folder.
var calls = []func(fsys save.FS, a, b string) (string, error){
	func(fsys save.FS, a, _ string) (string, error) { return "", fsys.Mkdir(a) },
	func(fsys save.FS, a, _ string) (string, error) { return "", fsys.Remove(a) },
	func(fsys save.FS, a, _ string) (string, error) { return "", fsys.SyncDir(filepath.Dir(a)) },
	func(fsys save.FS, a, _ string) (string, error) {
		names, err := fsys.ReadDir(filepath.Dir(a))
		return strings.Join(names, " "), err
	},
	func(fsys save.FS, a, b string) (string, error) {
		// What becomes of a folder that gets another's name the store never asks.
		for _, path := range []string{a, b} {
			if info, err := fsys.Stat(path); err == nil && info.IsDir() {
				return "", nil
			}
		}
		return "", fsys.Rename(a, b)
	},
	func(fsys save.FS, a, _ string) (string, error) {
		f, err := fsys.Create(a)
		return wrote(f, err, "new ")
	},
	func(fsys save.FS, a, _ string) (string, error) {
		if info, err := fsys.Stat(a); err == nil && info.IsDir() {
			return "", nil
		}
		f, err := fsys.Append(a)
		return wrote(f, err, "more ")
	},
	func(fsys save.FS, a, _ string) (string, error) {
		info, err := fsys.Stat(a)
		if err != nil || info.IsDir() {
			return "", err
		}
		f, err := fsys.Open(a)
		if err != nil {
			return "", err
		}
		text, err := io.ReadAll(f)
		return string(text), errors.Join(err, f.Close())
	},
}

func wrote(f save.File, err error, text string) (string, error) {
	if err != nil {
		return "", err
	}
	n, err := f.Write([]byte(text))
	info, err2 := f.Stat()
	return text[:n] + info.Name(), errors.Join(err, err2, f.Sync(), f.Close())
}

// answer is what of an answer the store looks at.
func answer(said string, err error) [4]any {
	return [4]any{said, err == nil, errors.Is(err, fs.ErrNotExist), errors.Is(err, fs.ErrExist)}
}
