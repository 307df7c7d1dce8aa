package file

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern/safetext"
)

// FuzzLoad: whatever the text, Load ends, never panics, and each diagnostic is clean
// and lies inside the file; a pattern comes exactly where no error does.
func FuzzLoad(f *testing.F) {
	addSeeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		p, found := Load("f.toml", []byte(text))
		assert.Equal(t, p != nil, found.Err() == nil)
		src := safetext.NewSource("f.toml", strings.TrimPrefix(text, "\ufeff"))
		lastLine, _ := src.Position(len(text))
		for _, d := range found {
			require.True(t, d.Line >= 1 && d.Line <= lastLine, "line %d of %d", d.Line, lastLine)
			require.True(t, d.Col >= 1 && d.Col <= safetext.Width(src.Line(d.Line))+1, "column %d", d.Col)
			assertClean(t, d)
			d.Picture()
		}
	})
}

// FuzzGuard: the guard and the decoder see the same keys and lists. Where they did
// not, a text could show the guard one thing and the decoder another.
func FuzzGuard(f *testing.F) {
	addSeeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		root, fault := scan(text, patterns)
		if fault != nil {
			require.True(t, 0 <= fault.at.start && fault.at.start <= fault.at.end && fault.at.end <= len(text))
			return
		}
		values, fault := decode(text)
		if fault == nil {
			assertSame(t, values, root)
		}
	})
}

func addSeeds(f *testing.F) {
	paths, err := filepath.Glob("testdata/*/*.toml")
	require.NoError(f, err)
	require.NotEmpty(f, paths)
	for _, path := range paths {
		text, err := os.ReadFile(path)
		require.NoError(f, err)
		f.Add(string(text))
	}
	f.Add("a.b = [{c = 1}, {d.e = \"\"\"x\\\n  y\"\"\"}]\n[f.g]\n'h' = 0x1F\n[[i]]\n[[i.j]]\n")
}

// assertSame holds what the decoder read against where the guard saw it.
func assertSame(t *testing.T, value any, at *spot) {
	t.Helper()
	require.NotNil(t, at)
	switch v := value.(type) {
	case map[string]any:
		require.Len(t, at.keys, len(v))
		for key, inner := range v {
			assertSame(t, inner, at.keys[key])
		}
	case []map[string]any:
		require.Len(t, at.items, len(v))
		for i, inner := range v {
			assertSame(t, inner, at.items[i])
		}
	case []any:
		require.Len(t, at.items, len(v))
		for i, inner := range v {
			assertSame(t, inner, at.items[i])
		}
	case string:
		require.NotEqual(t, unquoted, at.quoted)
	}
}
