package save

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"strings"

	"github.com/gofrs/flock"
)

// OS is the file system of the machine.
type OS struct{}

// Mkdir implements FS.
func (OS) Mkdir(dir string) error {
	if err := os.Mkdir(dir, 0o700); err != nil {
		return err
	}
	return os.Chmod(dir, 0o700)
}

// ReadDir implements FS.
func (OS) ReadDir(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	names := make([]string, len(entries))
	for i, e := range entries {
		names[i] = e.Name()
	}
	return names, nil
}

// Stat implements FS.
func (OS) Stat(path string) (fs.FileInfo, error) { return os.Stat(path) }

// SameFile implements FS.
func (OS) SameFile(a, b fs.FileInfo) bool { return os.SameFile(a, b) }

// Open implements FS.
func (OS) Open(path string) (File, error) { return open(path, os.O_RDONLY) }

// Append implements FS.
func (OS) Append(path string) (File, error) { return open(path, os.O_RDWR|os.O_APPEND) }

// open keeps a nil *os.File from hiding in a File.
func open(path string, flag int) (File, error) {
	f, err := os.OpenFile(path, flag, 0)
	if err != nil {
		return nil, err
	}
	return f, nil
}

// Create implements FS.
func (OS) Create(path string) (File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_APPEND|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return nil, err
	}
	if err := f.Chmod(0o600); err != nil && !errors.Is(err, errors.ErrUnsupported) {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}

// Rename implements FS.
func (OS) Rename(from, to string) error { return rename(from, to) }

// Remove implements FS.
func (OS) Remove(path string) error { return os.Remove(path) }

// SyncDir implements FS.
func (OS) SyncDir(dir string) error { return syncDir(dir) }

// lockText is where the holder's words begin in a lock file: some systems keep
// others from reading the locked byte, which is the first.
const lockText = 1

// Lock implements FS.
func (o OS) Lock(path, holder string) (io.Closer, error) {
	if f, err := o.Create(path); err == nil {
		_, err = f.Write([]byte("\n"))
		if err = errors.Join(err, f.Close()); err != nil {
			return nil, err
		}
	} else if !errors.Is(err, fs.ErrExist) {
		return nil, err
	}
	lock := flock.New(path, flock.SetFlag(os.O_RDWR), flock.SetPermissions(0o600))
	got, err := lock.TryLock()
	switch {
	case err != nil && noLocks(err):
		return nil, errors.ErrUnsupported
	case err != nil:
		return nil, err
	case !got:
		return nil, &HeldError{Holder: readHolder(path)}
	}
	// The words are for a message only, so that failing to leave them is no failure.
	_ = writeHolder(path, holder)
	return lock, nil
}

func writeHolder(path, holder string) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	n, err := f.WriteAt([]byte(holder+"\n"), lockText)
	if err == nil {
		err = f.Truncate(int64(lockText + n))
	}
	return errors.Join(err, f.Close())
}

func readHolder(path string) string {
	f, err := os.Open(path)
	if err != nil {
		return ""
	}
	defer f.Close()
	text := make([]byte, 200)
	n, _ := f.ReadAt(text, lockText) // less than asked for is the rule
	return strings.TrimSpace(string(text[:n]))
}
