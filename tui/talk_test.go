package tui_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui"
	"bypeg/tui/plain"
)

// talk works a piece that is on the desk with these lines, lays it away, and gives all
// that was said.
func (r *room) talk(d *tui.Desk, o *tui.Opened, typed ...string) string {
	r.t.Helper()
	text, err := r.talkTo(d, o, typed...)
	require.NoError(r.t, err)
	return text
}

func (r *room) talkTo(d *tui.Desk, o *tui.Opened, typed ...string) (string, error) {
	r.t.Helper()
	var out strings.Builder
	in := strings.NewReader(strings.Join(append(typed, ""), "\n"))
	err := tui.Talk(d, o, plain.NewConsole(r.t.Context(), in, &out, plain.Terminal{}), plain.Options{})
	d.Close()
	return out.String(), err
}

// again opens the piece of the pattern file once more and talks about it.
func (r *room) again(typed ...string) string {
	r.t.Helper()
	d := r.desk()
	o, err := d.Work(r.source())
	require.NoError(r.t, err)
	return r.talk(d, o, typed...)
}

func TestATalkAsksWhichPlaceIsTheRightOne(t *testing.T) {
	r := newRoom(t)
	r.again("row 2", "peg 3")
	text, _ := r.journal()
	r.setJournal(text + "here row=1 done=4\n")
	asked := r.again("peg", "q")
	assert.Contains(t, asked, "Test Weir Mat: which place is the right one?\nA line was added by hand: here row=1 done=4\n")
	assert.Contains(t, asked, "Nothing is thrown away, and go and a number goes to any row afterwards.\n1: row 2 peg 5, from the journal, 3 Feb 19:04\n2: row 1 peg 5, from the line added by hand\n")
	assert.NotContains(t, asked, "saved: ", "a step is no answer")
	chosen := r.again("2", "peg")
	assert.Contains(t, chosen, "\nTest Weir Mat: row 1 peg 5\n")
	assert.Contains(t, chosen, "\nsaved: row 1, knit 1, peg 5\n")
	assert.True(t, strings.HasPrefix(r.again(), "Test Weir Mat: row 1 peg 6\n"), "it is asked once")
}

func TestATalkAsksAboutAChangedPattern(t *testing.T) {
	r := newRoom(t)
	r.again("row 2", "peg 3")
	r.change(`rows = ["k", "k1, p2, k1"]`, `rows = ["k", "k2, p2"]`)
	assert.Contains(t, r.again("1", "where"), "row 2 peg 5, 3 of 8 worked")
	r.full.Store(true)
	d := r.desk()
	o, err := d.Work(r.source())
	require.NoError(t, err)
	said := r.talk(d, o, "2", "q")
	assert.Contains(t, said, "\nyour answer is not saved: disk full; if you leave you are asked next time\nThe pattern of Test Weir Mat has changed\n")
	r.full.Store(false)
	changed := r.again("2", "chart 4")
	assert.Contains(t, changed, "\nrow 4, left to right: purl 2, knit 2, purl 4\n")
	assert.NotContains(t, r.again(), "has changed")
}

func TestATalkTakesNewWordsUnasked(t *testing.T) {
	r := newRoom(t)
	r.again("row 2")
	r.change(`name = "field"`, `name = "middle"`)
	r.full.Store(true)
	assert.Contains(t, r.again(), "the file's new words are not taken: disk full\n")
	r.full.Store(false)
	assert.Contains(t, r.again("row"), "after this row: middle, 2 rows\n")
}

func TestATalkReadsAnewWhatWasChangedUnderneath(t *testing.T) {
	r := newRoom(t)
	r.again("row 2", "peg 2")
	d := r.desk()
	o, err := d.Work(r.source())
	require.NoError(t, err)
	text, _ := r.journal()
	lines := strings.SplitAfter(text, "\n")
	r.setJournal(strings.Join(lines[:len(lines)-2], "")) // an old copy comes back
	said := r.talk(d, o, "peg", "1", "peg")
	assert.Contains(t, said, "The saved file was changed by something else: compare with the fabric.\n")
	assert.Contains(t, said, "1 step after that could not be saved.\n")
	assert.Contains(t, said, "1: row 2 peg 6, as it was saved here")
	assert.Contains(t, said, "\nTest Weir Mat: row 2 peg 6\n")
	assert.Contains(t, said, "\nsaved: row 2, purl 1, peg 6\n")
}

func TestATalkGoesOnWithoutItsFolder(t *testing.T) {
	r := newRoom(t)
	d := r.desk()
	o, err := d.Work(r.source())
	require.NoError(t, err)
	_, path := r.journal()
	require.NoError(t, os.Rename(filepath.Dir(path), filepath.Dir(path)+"-away"))
	said := r.talk(d, o, "peg", "quit", "quit")
	const gone = "NOT SAVED: the piece's folder is gone. It was at cast-on, 0 of 8.\n"
	assert.Contains(t, said, gone)
	assert.Contains(t, said, gone+"1 step would be lost: ")
	assert.NotContains(t, said, "\nsaved: ")
	assert.Equal(t, 1, d.Lost())
}

func TestLookingOnceChangesNothing(t *testing.T) {
	r := newRoom(t)
	r.again("row 2", "peg 3", "note blue")
	before := r.contents()
	d := r.desk()
	id, found, err := d.Find("mat.toml")
	require.NoError(t, err)
	require.True(t, found)
	o, err := d.Look(id)
	require.NoError(t, err)
	var out strings.Builder
	require.NoError(t, tui.Look(d, o, plain.NewConsole(t.Context(), strings.NewReader(""), &out, plain.Terminal{}), plain.Options{}))
	assert.Equal(t, "Test Weir Mat: row 2 peg 5\n", out.String()[:27])
	assert.Contains(t, out.String(), "now: purl 5, pegs 5 to 1; 3 of 8 worked\n")
	assert.Contains(t, out.String(), "note: blue\n")
	// It took no lock: somebody else works it meanwhile.
	e := r.desk()
	other, err := e.Open(id)
	require.NoError(t, err)
	assert.Empty(t, other.Opening.LookOnly)
	e.Close()
	d.Close()
	assert.Equal(t, before, r.contents())
}

// contents are all files of all pieces but the lock's, which nothing is kept in.
func (r *room) contents() map[string]string {
	r.t.Helper()
	all := map[string]string{}
	found, err := filepath.Glob(filepath.Join(r.root, "*", "*"))
	require.NoError(r.t, err)
	for _, path := range found {
		text, err := os.ReadFile(path)
		require.NoError(r.t, err)
		if filepath.Base(path) != "lock" {
			all[path] = string(text)
		}
	}
	return all
}
