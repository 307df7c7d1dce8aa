// Package figures lets tests say what they have measured and counted, where it can be
// read although the tests pass: in the test's log, which go test -v prints, and as a
// line of the file that the variable BYPEG_FIGURES names.
package figures

import (
	"fmt"
	"os"
	"testing"
)

// file is the variable that names the file to add lines to.
const file = "BYPEG_FIGURES"

// Say tells of a figure, unless the test has failed: then it may not be true.
func Say(t testing.TB, format string, args ...any) {
	t.Helper()
	if t.Failed() {
		return
	}
	say(t, t.Name()+": "+fmt.Sprintf(format, args...))
}

// Skip skips a test for want of something that not every machine has.
func Skip(t testing.TB, want string) {
	t.Helper()
	line := "SKIPPED " + t.Name() + ": needs " + want
	say(t, line)
	t.Skip(line)
}

func say(t testing.TB, line string) {
	t.Helper()
	t.Log(line)
	path := os.Getenv(file)
	if path == "" {
		return
	}
	f, err := os.OpenFile(path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		t.Errorf("%s: %v", file, err)
		return
	}
	defer f.Close()
	if _, err := f.WriteString(line + "\n"); err != nil {
		t.Errorf("%s: %v", file, err)
	}
}
