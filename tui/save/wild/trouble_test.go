//go:build unix

package wild_test

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
)

const journalName = "journal-0001.txt"

func TestAFileThatMayNotGrowIsToldAndGoneOnWithLater(t *testing.T) {
	t.Parallel()
	root := newRoot(t)
	r := start(t, bounds{1, 1}, ways{Root: root, Ahead: 5, Limited: true, Patient: true, Tries: 100})
	assert.Regexp(t, `^\d the file may not grow further$`, r.until("unsaved "))
	full := r.acked
	assert.Positive(t, full)
	r.tell("you may")
	r.acks(30)
	r.kill()
	figures.Say(t, "%d steps saved below the limit, %d after it was lifted", full, r.acked-full)
	goesOn(t, root, r.bounds)
}

func TestAKillWhereAFileMayNotGrowLosesNothing(t *testing.T) {
	t.Parallel()
	root := newRoot(t)
	r := start(t, bounds{1, 1}, ways{Root: root, Ahead: 5, Limited: true, Patient: true})
	r.until("unsaved ")
	r.kill()
	goesOn(t, root, r.bounds)
}

// Whoever leaves while steps cannot be saved is told how many.
func TestWhatIsLeftUnsavedIsToldAtTheEnd(t *testing.T) {
	t.Parallel()
	root := newRoot(t)
	r := start(t, bounds{1, 1}, ways{Root: root, Ahead: 5, Limited: true, Tries: 2})
	assert.Equal(t, leftUnsaved, r.wait(), "%q", r.said)
	unsaved := r.put - r.acked // it may give up before it has put all that it puts ahead
	assert.Contains(t, []int{1, 2, 3, 4, 5}, unsaved)
	assert.True(t, r.has(fmt.Sprintf("unsaved %d the file may not grow further", unsaved)), "%q", r.said)
	goesOn(t, root, r.bounds)
}

func TestNothingIsSaidToBeSavedInAFolderThatIsGone(t *testing.T) {
	t.Parallel()
	root := newRoot(t)
	r := start(t, bounds{1, 1}, ways{Root: root, Ahead: 4, Rest: 4})
	assert.Equal(t, "5", r.until("rest "))
	require.NoError(t, os.RemoveAll(filepath.Join(root, newID)))
	r.tell("go on")
	assert.Equal(t, leftUnsaved, r.wait(), "%q", r.said)
	assert.Equal(t, 5, r.acked)
	assert.True(t, r.has("changed"))
	assert.True(t, r.has(fmt.Sprintf("unsaved %d the saved file was changed by something else", r.put-5)), "%q", r.said)
	assert.NoDirExists(t, filepath.Join(root, newID), "nothing is made in its place")
}

// While a laptop sleeps, a tool that syncs folders puts another file in the place of
// the journal, with the same content.
func TestAJournalSwappedInTheWritersSleepIsFoundOut(t *testing.T) {
	t.Parallel()
	chance := rand.New(rand.NewPCG(rand.Uint64(), 0))
	root := newRoot(t)
	r := start(t, bounds{1, 1}, ways{Root: root, Ahead: 3})
	want := rounds(20, 200)
	for range want {
		r.acks(1 + chance.IntN(5))
		time.Sleep(time.Duration(chance.IntN(1000)) * time.Microsecond)
		r.stop()
		before := len(r.said)
		swap(t, root, func(text string) string { return text })
		r.goOn()
		r.until("changed")
		// What was saved before the sleep may be said after it, and nothing else.
		said := strings.Join(r.said[before:], "\n")
		assert.LessOrEqual(t, strings.Count(said, "ack "), 1, said)
	}
	r.kill()
	figures.Say(t, "%d swaps found out, %d steps saved beside them", want, r.acked-1)
	goesOn(t, root, r.bounds)
}

// The same with an old backup of the journal: the steps that it lacks are not lost.
func TestAnOldJournalSwappedInIsFoundOutAndAskedAbout(t *testing.T) {
	t.Parallel()
	root := newRoot(t)
	r := start(t, bounds{1, 1}, ways{Root: root, Ahead: 3, Rest: 9})
	r.until("rest ")
	r.stop()
	swap(t, root, func(text string) string {
		lines := strings.SplitAfter(text, "\n")
		return strings.Join(lines[:len(lines)-1-4], "")
	})
	r.goOn()
	r.tell("go on")
	asked := r.until("asked ")
	assert.Contains(t, asked, "what was saved here: row 1, 10 of 26 worked")
	assert.Contains(t, asked, "the journal: row 1, 6 of 26 worked")
	assert.Equal(t, 10, r.acked)
	r.until("rest ")
	r.kill()
	next := start(t, r.bounds, ways{Root: root, Steps: 2})
	require.Equal(t, endedWell, next.wait(), "%q", next.said)
	assert.NoError(t, r.judge(next.at))
	assert.Equal(t, next.at+2, next.acked)
}

// swap puts another file in the place of the journal, with what made makes of it.
func swap(t testing.TB, root string, made func(string) string) {
	t.Helper()
	path := filepath.Join(root, newID, journalName)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path+".sync", []byte(made(string(text))), 0o600))
	require.NoError(t, os.Rename(path+".sync", path))
}

func TestNobodyElseCanReadAPieceWhateverTheUmask(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		mask int
	}{{"0000", 0}, {"0277", 0o277}, {"0777", 0o777}} {
		t.Run(c.name, func(t *testing.T) {
			home := t.TempDir()
			root := filepath.Join(home, "data", "bypeg", "pieces")
			begin(t, ways{Root: root, Masked: true, Umask: c.mask})
			r := start(t, bounds{1, 1}, ways{Root: root, Masked: true, Umask: c.mask, Steps: 60, Ahead: 8})
			require.Equal(t, endedWell, r.wait(), "%q", r.said)
			modes(t, filepath.Join(home, "data"))
			goesOn(t, root, r.bounds)
		})
	}
}

// modes checks that all of a folder is for its owner alone.
func modes(t testing.TB, dir string) {
	t.Helper()
	names := 0
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		want := fs.FileMode(0o600)
		if d.IsDir() {
			want = fs.ModeDir | 0o700
		}
		assert.Equal(t, want, info.Mode(), path)
		names++
		return nil
	}))
	assert.GreaterOrEqual(t, names, 7, "two folders, the piece's, and four files in it")
}
