package save

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
)

// FS is all that the package asks of a file system. Paths are those of the host.
// Errors are those of package os, so that errors.Is finds fs.ErrNotExist,
// fs.ErrExist and the system's error numbers in them.
type FS interface {
	// Mkdir makes one folder that its owner alone can enter, whatever the umask.
	Mkdir(dir string) error
	// ReadDir lists the names in a folder, sorted.
	ReadDir(dir string) ([]string, error)
	// Stat describes what path names, following links.
	Stat(path string) (fs.FileInfo, error)
	// SameFile tells whether two descriptions are of one file.
	SameFile(a, b fs.FileInfo) bool
	// Open opens a file for reading.
	Open(path string) (File, error)
	// Append opens an existing file; writes go to its end. It never creates and
	// never truncates.
	Append(path string) (File, error)
	// Create makes a new file that its owner alone can read, whatever the umask.
	// It fails where the path is taken.
	Create(path string) (File, error)
	// Rename gives a file another name in its folder and replaces what has that name.
	Rename(from, to string) error
	// Remove takes a file away, or a folder that is empty.
	Remove(path string) error
	// SyncDir returns when the names in a folder are on disk.
	SyncDir(dir string) error
	// Lock takes the lock file at path, making it where it is missing, and leaves
	// the holder's words in it. Closing lets go and keeps the file. Where somebody
	// else holds it the error is a *HeldError; where the file system knows no locks
	// it is errors.ErrUnsupported.
	Lock(path, holder string) (io.Closer, error)
}

// File is an open file of an FS.
type File interface {
	io.Reader
	io.ReaderAt
	io.Writer
	io.Closer
	// Sync returns when all that was written is on disk.
	Sync() error
	// Stat describes the open file, whatever its name has come to mean since.
	Stat() (fs.FileInfo, error)
}

// HeldError says that a lock is held by somebody else.
type HeldError struct {
	Holder string // what the holder wrote, as found: not yet safe to show
}

// Error implements error.
func (e *HeldError) Error() string { return "held by another" }

// errTooLarge refuses a file that no run of this program can have made.
var errTooLarge = errors.New("file too large")

// mustBeRegular refuses what would block or surprise when opened: a pipe, a device,
// a folder. It returns the size of what it lets pass.
func mustBeRegular(fsys FS, path string) (size int64, err error) {
	info, err := fsys.Stat(path)
	if err != nil {
		return 0, err
	}
	if !info.Mode().IsRegular() {
		return 0, fmt.Errorf("%s is not a regular file: move it away", path)
	}
	return info.Size(), nil
}

// readFile reads a regular file of at most limit bytes.
func readFile(fsys FS, path string, limit int64) (data []byte, err error) {
	size, err := mustBeRegular(fsys, path)
	if err != nil {
		return nil, err
	}
	f, err := fsys.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	b := bytes.NewBuffer(make([]byte, 0, min(size, limit)+bytes.MinRead)) // it grows only if the file does
	if _, err := b.ReadFrom(io.LimitReader(f, limit+1)); err != nil {
		return nil, fmt.Errorf("read %s: %w", path, err)
	}
	if int64(b.Len()) > limit {
		return nil, fmt.Errorf("read %s: %w", path, errTooLarge)
	}
	return b.Bytes(), nil
}

// replaceFile puts data under name in dir so that after a cut either the old file
// or the new one is there, whole. The one temporary name is fixed: what an earlier
// cut left of it is taken away first, so that leftovers cannot pile up.
func replaceFile(fsys FS, dir, name, temp string, data []byte) error {
	from := filepath.Join(dir, temp)
	if err := fsys.Remove(from); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err := createFile(fsys, from, data); err != nil {
		return err
	}
	if err := fsys.Rename(from, filepath.Join(dir, name)); err != nil {
		return err
	}
	return fsys.SyncDir(dir)
}

// createFile writes a new file and returns when its bytes are on disk. A disk that took
// fewer than it says is found out by the file's size.
func createFile(fsys FS, path string, data []byte) (err error) {
	f, err := fsys.Create(path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if _, err := f.Write(data); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	info, err := f.Stat()
	if err == nil && info.Size() != int64(len(data)) {
		err = io.ErrShortWrite
	}
	return err
}

// makeDirs makes dir and the folders above it that are missing, each on disk before
// the next. One that is there may have been made by a run that was killed before its
// name was on disk, so that each name is brought there, but for those in folders that
// only others may read.
func makeDirs(fsys FS, dir string) error {
	parent := filepath.Dir(dir)
	if parent == dir {
		return nil
	}
	if err := makeDirs(fsys, parent); err != nil {
		return err
	}
	_, err := fsys.Stat(dir)
	there := err == nil
	if errors.Is(err, fs.ErrNotExist) {
		err = fsys.Mkdir(dir)
	}
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	err = fsys.SyncDir(parent)
	if there && errors.Is(err, fs.ErrPermission) {
		return nil
	}
	return err
}
