// Package golden compares what a test made with a file that somebody has looked at, and holds
// screens to every size.
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

	"bypeg/pattern/safetext"
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

// Fits holds a screen to every size: never more lines than it has, none wider.
func Fits(t testing.TB, view func(width, height int) string) {
	t.Helper()
	for w := 1; w <= 120; w++ {
		for h := 1; h <= 40; h++ {
			lines := strings.Split(view(w, h), "\n")
			require.LessOrEqual(t, len(lines), h, "%d x %d", w, h)
			for _, line := range lines {
				require.LessOrEqual(t, safetext.Width(line), w, "%d x %d: %s", w, h, line)
			}
		}
	}
}
