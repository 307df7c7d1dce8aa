package term

import (
	"fmt"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"runtime"
)

// Build compiles the main package with import path pkg into a new temporary
// directory, for TestMain: once for all tests of a package. Flags go to go build.
// Call remove when the tests are done.
func Build(pkg string, flags ...string) (binary string, remove func(), err error) {
	dir, err := os.MkdirTemp("", "built-for-tests-")
	if err != nil {
		return "", nil, fmt.Errorf("make a directory for the binary: %w", err)
	}
	remove = func() { _ = os.RemoveAll(dir) }
	binary = filepath.Join(dir, path.Base(pkg))
	if runtime.GOOS == "windows" {
		binary += ".exe"
	}
	args := append([]string{"build", "-o", binary}, flags...)
	if out, err := exec.Command("go", append(args, pkg)...).CombinedOutput(); err != nil {
		remove()
		return "", nil, fmt.Errorf("build %s: %w\n%s", pkg, err, out)
	}
	return binary, remove, nil
}
