package save

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestThePieceIsItsOwnersAlone makes each file that there can be, also those that
// only faults bring about.
func TestThePieceIsItsOwnersAlone(t *testing.T) {
	const wider, longer = patternText + "# wider\n", patternText + "# longer\n"
	for _, umask := range []int{0, 0o022, 0o077, 0o277, 0o777} {
		t.Run(fmt.Sprintf("under the umask %03o", umask), func(t *testing.T) {
			s := newStand(t)
			withUmask(t, umask)
			p := s.begun(t)
			s.fs.failing(once("sync", "journal", syscall.EIO))
			require.ErrorIs(t, p.Append([]Step{rowTwelve(1)}), ErrNotSaved)
			require.NoError(t, p.Append([]Step{rowTwelve(1)}))
			require.NoError(t, p.ChangePattern([]byte(wider), at(13, 0), 26, ""))
			s.fs.failing(once("sync", "pattern.new", syscall.EIO))
			require.ErrorIs(t, p.ChangePattern([]byte(longer), at(13, 0), 26, ""), ErrNotSaved)
			require.NoError(t, p.Append([]Step{rowTwelve(2)}))
			require.NoError(t, p.Close())

			p, _ = s.open(t, p.ID())
			s.fs.failing(once("sync", "journal", syscall.EIO))
			require.ErrorIs(t, p.Append([]Step{rowTwelve(3)}), ErrNotSaved)
			require.NoError(t, p.Append([]Step{rowTwelve(3)}))
			s.fs.failing(once("rename", copyTemp, syscall.EIO))
			require.ErrorIs(t, p.Close(), ErrCopyBehind)
			assert.ElementsMatch(t, []string{
				".", "pieces", "pieces/k7q1",
				"pieces/k7q1/journal-0001.txt", "pieces/k7q1/journal-0002.txt", "pieces/k7q1/journal-0003.txt",
				"pieces/k7q1/lock", "pieces/k7q1/pattern.new", "pieces/k7q1/place.new", "pieces/k7q1/place.toml",
				"pieces/k7q1/" + patternName(patternMark([]byte(patternText))),
				"pieces/k7q1/" + patternName(patternMark([]byte(wider))),
			}, ownersAlone(t, filepath.Dir(s.root)))
		})
	}
}

// ownersAlone asserts that nobody but the owner can read or enter what is in a folder,
// and the folder itself, and returns what there is.
func ownersAlone(t *testing.T, root string) (paths []string) {
	t.Helper()
	require.NoError(t, fs.WalkDir(os.DirFS(root), ".", func(path string, d fs.DirEntry, err error) error {
		require.NoError(t, err)
		info, err := d.Info()
		require.NoError(t, err)
		want := fs.FileMode(0o600)
		if d.IsDir() {
			want = 0o700
		}
		assert.Equal(t, want, info.Mode().Perm(), path)
		paths = append(paths, path)
		return nil
	}))
	return paths
}
