//go:build !unix

package file

import "os"

// openQuick opens a file.
func openQuick(path string) (*os.File, error) { return os.Open(path) }
