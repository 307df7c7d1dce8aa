package file

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReadGivesTheBytesOfAFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "mat.toml")
	require.NoError(t, os.WriteFile(path, []byte(smallPattern), 0o600))
	text, err := Read(path)
	require.NoError(t, err)
	assert.Equal(t, smallPattern, string(text))
}

func TestReadSaysWhatToDoInstead(t *testing.T) {
	dir := t.TempDir()
	_, err := Read(filepath.Join(dir, "no\x1b.toml"))
	assert.ErrorIs(t, err, fs.ErrNotExist)
	assert.ErrorContains(t, err, "no.toml\": check the name and the folder")
	assert.NotContains(t, err.Error(), "\x1b")

	_, err = Read(dir)
	assert.ErrorContains(t, err, "is a folder: name a pattern file in it")

	large := filepath.Join(dir, "large.toml")
	require.NoError(t, os.WriteFile(large, make([]byte, MaxBytes+1), 0o600))
	_, err = Read(large)
	assert.ErrorContains(t, err, "is larger than the 4 MiB a pattern may have")

	full := filepath.Join(dir, "full.toml")
	require.NoError(t, os.WriteFile(full, []byte(strings.Repeat("#", MaxBytes)), 0o600))
	text, err := Read(full)
	require.NoError(t, err)
	assert.Len(t, text, MaxBytes)
}
