//go:build unix

package save

import (
	"os"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A pipe would keep whoever opens it waiting for ever.
func TestAPipeIsRefusedAndNotWaitedFor(t *testing.T) {
	for _, name := range []string{"journal-0001.txt", "journal-0002.txt", patternName(patternMark([]byte(patternText)))} {
		t.Run(name, func(t *testing.T) {
			s := newStand(t)
			id := s.worked(t, 1)
			path := s.path(id, name)
			_ = os.Remove(path)
			require.NoError(t, syscall.Mkfifo(path, 0o600))
			_, _, err := Open(s.env, s.root, id)
			require.ErrorContains(t, err, "is not a regular file: move it away")
		})
	}
	t.Run("lock", func(t *testing.T) {
		s := newStand(t)
		id := s.worked(t, 1)
		require.NoError(t, os.Remove(s.path(id, "lock")))
		require.NoError(t, syscall.Mkfifo(s.path(id, "lock"), 0o600))
		_, o := s.open(t, id)
		assert.Contains(t, o.LookOnly, "is not a regular file")
		assert.Equal(t, at(12, 1), o.Place)
	})
	t.Run(copyName, func(t *testing.T) {
		s := newStand(t)
		id := s.worked(t, 1)
		require.NoError(t, os.Remove(s.path(id, copyName)))
		require.NoError(t, syscall.Mkfifo(s.path(id, copyName), 0o600))
		p, o := s.open(t, id)
		assert.Equal(t, []string{copyUnreadNotice}, o.Notices)
		assert.Contains(t, o.LookOnly, "is not a regular file: move it away")
		assert.Equal(t, at(12, 1), o.Place)
		require.ErrorIs(t, p.Append([]Step{rowTwelve(2)}), ErrLookOnly)
	})
}
