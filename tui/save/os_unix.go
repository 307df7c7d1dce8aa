//go:build unix

package save

import (
	"errors"
	"os"
	"syscall"
)

func rename(from, to string) error { return os.Rename(from, to) }

// syncDir opens the folder anew each time, so that an error of an earlier sync is
// not kept by an old handle.
func syncDir(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// noLocks tells whether the file system has no locks to give.
func noLocks(err error) bool {
	return errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.ENOLCK)
}

// diskFull tells whether an error of the system says so in a way of its own.
func diskFull(error) bool { return false }
