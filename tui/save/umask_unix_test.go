//go:build unix

package save

import (
	"syscall"
	"testing"
)

// withUmask sets the process's umask for one test, which must not run beside others.
func withUmask(t *testing.T, mask int) {
	t.Helper()
	old := syscall.Umask(mask)
	t.Cleanup(func() { syscall.Umask(old) })
}
