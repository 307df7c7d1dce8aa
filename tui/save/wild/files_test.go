//go:build unix

package wild_test

import (
	"errors"
	"io"
	"io/fs"
	"runtime"

	"bypeg/tui/save"
)

// files is the file system that a writer is given.
type files string

const (
	sound     files = ""          // that of the machine
	lockless  files = "lockless"  // one that knows no locks
	syncless  files = "syncless"  // one whose syncs do nothing: the control
	threadful files = "threadful" // that of the machine, each goroutine on one thread
)

func (f files) open() save.FS {
	switch f {
	case lockless:
		return withoutLocks{}
	case syncless:
		return withoutSyncs{}
	case threadful:
		return onOneThread{}
	}
	return save.OS{}
}

type withoutLocks struct{ save.OS }

func (withoutLocks) Lock(string, string) (io.Closer, error) { return nil, errors.ErrUnsupported }

type withoutSyncs struct{ save.OS }

func (w withoutSyncs) Append(path string) (save.File, error) { return unsynced(w.OS.Append(path)) }
func (w withoutSyncs) Create(path string) (save.File, error) { return unsynced(w.OS.Create(path)) }
func (withoutSyncs) SyncDir(string) error                    { return nil }

func unsynced(f save.File, err error) (save.File, error) {
	if err != nil {
		return nil, err
	}
	return unsyncedFile{f}, nil
}

type unsyncedFile struct{ save.File }

func (unsyncedFile) Sync() error { return nil }

// onOneThread keeps a goroutine on the thread it is on, from the first time that it
// looks at a file: a tracer counts the calls of each thread for itself.
type onOneThread struct{ save.OS }

func (o onOneThread) Stat(path string) (fs.FileInfo, error) {
	runtime.LockOSThread()
	return o.OS.Stat(path)
}
