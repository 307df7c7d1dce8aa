//go:build unix

package file

import (
	"os"
	"syscall"
)

// openQuick opens a file and never waits: a pipe without a writer would keep an
// ordinary open for ever.
func openQuick(path string) (*os.File, error) {
	return os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
}
