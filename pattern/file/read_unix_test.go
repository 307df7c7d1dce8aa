//go:build unix

package file

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReadNeverWaits(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe.toml")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	done := make(chan error, 1)
	go func() {
		f, err := openQuick(pipe) // even where a pipe takes a file's place in between
		if err == nil {
			err = f.Close()
		}
		done <- err
		_, err = Read(pipe)
		done <- err
	}()
	for _, want := range []string{"", "is no ordinary file: save the pattern as a file and name that"} {
		select {
		case err := <-done:
			if want == "" {
				assert.NoError(t, err)
			} else {
				assert.ErrorContains(t, err, want)
			}
		case <-time.After(5 * time.Second):
			require.Fail(t, "reading waits for the other end of a pipe")
		}
	}
	_, err := Read("/dev/null")
	assert.ErrorContains(t, err, "is no ordinary file")
}

func TestReadTellsOfAFileThatMayNotBeRead(t *testing.T) {
	if os.Getuid() == 0 {
		t.Skip("root may read everything")
	}
	path := filepath.Join(t.TempDir(), "mine.toml")
	require.NoError(t, os.WriteFile(path, nil, 0o000))
	_, err := Read(path)
	assert.ErrorIs(t, err, fs.ErrPermission)
	assert.ErrorContains(t, err, "may not be read: ask its owner")
}

func TestReadFollowsLinks(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "mat.toml")
	require.NoError(t, os.WriteFile(path, []byte(smallPattern), 0o600))
	link := filepath.Join(dir, "link.toml")
	require.NoError(t, os.Symlink(path, link))
	text, err := Read(link)
	require.NoError(t, err)
	assert.Equal(t, smallPattern, string(text))

	loop := filepath.Join(dir, "loop.toml")
	require.NoError(t, os.Symlink(loop, loop))
	_, err = Read(loop)
	assert.ErrorContains(t, err, "could not be read")
}
