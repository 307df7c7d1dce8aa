package save

import (
	"errors"
	"os"
	"syscall"
	"time"
)

// Error numbers of Windows that package syscall does not name.
const (
	errorSharingViolation = syscall.Errno(32)
	errorHandleDiskFull   = syscall.Errno(39)
	errorDiskFull         = syscall.Errno(112)
)

// rename tries again for a moment, because search indexers and virus scanners hold
// new files open for an instant.
func rename(from, to string) error {
	wait := 10 * time.Millisecond
	for range 4 {
		err := os.Rename(from, to)
		if !errors.Is(err, syscall.ERROR_ACCESS_DENIED) && !errors.Is(err, errorSharingViolation) {
			return err
		}
		time.Sleep(wait)
		wait *= 2
	}
	return os.Rename(from, to)
}

// syncDir does nothing: Windows syncs no folders.
func syncDir(string) error { return nil }

// noLocks tells whether the file system has no locks to give.
func noLocks(err error) bool { return errors.Is(err, errors.ErrUnsupported) }

// diskFull tells whether an error of the system says so in a way of its own.
func diskFull(err error) bool {
	return errors.Is(err, errorDiskFull) || errors.Is(err, errorHandleDiskFull)
}
