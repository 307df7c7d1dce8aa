//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// ttyName is the terminal that a file is, as who and ps call it: "pts/3"; "" where that
// is not known. Every system has a call of its own for it, but each keeps its terminals
// in one of two folders, under the same device number.
func ttyName(f *os.File) string {
	held, ok := device(f.Stat())
	if !ok {
		return ""
	}
	for _, pattern := range []string{"/dev/pts/*", "/dev/tty*"} {
		names, _ := filepath.Glob(pattern) // no error: the patterns are sound
		for _, name := range names {
			if named, ok := device(os.Stat(name)); ok && named.Rdev == held.Rdev {
				return strings.TrimPrefix(name, "/dev/")
			}
		}
	}
	return ""
}

func device(info os.FileInfo, err error) (*syscall.Stat_t, bool) {
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil, false
	}
	st, ok := info.Sys().(*syscall.Stat_t)
	return st, ok
}
