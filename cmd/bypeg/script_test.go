package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var updateScripts = flag.Bool("update", false, "write what the commands print now into the scripts that compare it")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"bypeg": main})
}

// TestScripts runs what stands in testdata/script: one behaviour each, which the
// first line names.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           filepath.Join("testdata", "script"),
		UpdateScripts: *updateScripts,
		Setup: func(e *testscript.Env) error {
			e.Setenv("LC_ALL", "C.UTF-8")
			e.Setenv("TERM", "xterm-256color")
			e.Setenv("XDG_CONFIG_HOME", filepath.Join(e.WorkDir, "config"))
			e.Setenv("XDG_DATA_HOME", filepath.Join(e.WorkDir, "data"))
			// With the race detector a program otherwise sleeps a second before it exits.
			e.Setenv("GORACE", "atexit_sleep_ms=0")
			return nil
		},
		Condition: func(name string) (bool, error) {
			return name == "root" && os.Geteuid() == 0, nil
		},
	})
}
