//go:build unix

package save

import (
	"errors"
	"os"
	"syscall"
)

func rename(from, to string) error { return os.Rename(from, to) }

// syncDir opens the folder anew each time, so that an error of an earlier sync is
// not kept by an old handle. Some file systems have no such thing as syncing a folder,
// and say EINVAL.
func syncDir(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	err = f.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, f.Close())
}

// noLocks tells whether the file system has no locks to give.
func noLocks(err error) bool {
	return errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.ENOLCK)
}

// diskFull tells whether an error of the system says so in a way of its own.
func diskFull(error) bool { return false }
