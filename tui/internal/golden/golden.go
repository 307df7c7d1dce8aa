// Package golden compares what a test made with a file that somebody has looked at.
// Run the tests with -update to write the files anew, and look at them.
package golden

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden files anew")

// Check compares got with testdata/name.golden. Escape bytes are made visible.
func Check(t testing.TB, name, got string) {
	t.Helper()
	got = strings.ReplaceAll(got, "\x1b", "␛") + "\n"
	path := filepath.Join("testdata", name+".golden")
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run the test with -update, and look at the file")
	assert.Equal(t, string(want), got, path)
}
