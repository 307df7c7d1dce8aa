package tui_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/tui/save"
)

// Another machine took a longer pattern and went on to a row that the one here does not
// have. The place there is said in that pattern's words and can be chosen.
func TestAPlaceInTheOtherMachinesPatternCanBeChosen(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "up", "up", "up", "space")
	d.Close()
	dirs, _ := filepath.Glob(filepath.Join(r.root, "*"))
	id := filepath.Base(dirs[0])
	name := filepath.Join(dirs[0], "journal-0001.txt")
	old, err := os.ReadFile(name)
	require.NoError(t, err)
	env := save.System("x")
	big := strings.Replace(matText, `rows = ["k", "k1, p2, k1"]`, `rows = ["k", "k1, p2, k1", "k", "k1, p2, k1", "k", "k1, p2, k1", "k", "k1, p2, k1"]`, 1)
	q, _, err := save.Open(env, r.root, id) // the other machine takes the longer pattern and goes on to row 10
	require.NoError(t, err)
	require.NoError(t, q.ChangePattern([]byte(big), pattern.Place{Phase: pattern.Working, Row: 4, Done: 1}, 8, ""))
	far := pattern.Place{Phase: pattern.Working, Row: 10, Done: 2}
	require.NoError(t, q.Append([]save.Step{{Kind: save.Forward, Place: far, Of: 8}}))
	require.NoError(t, q.Close())
	theirs, err := os.ReadFile(name)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(name, old, 0o600))
	require.NoError(t, os.Remove(filepath.Join(dirs[0], "place.toml")))
	q, _, err = save.Open(env, r.root, id) // here the work goes on with the old one
	require.NoError(t, err)
	for n := 2; n < 6; n++ {
		require.NoError(t, q.Append([]save.Step{{Kind: save.Forward, Place: pattern.Place{Phase: pattern.Working, Row: 4, Done: n}, Of: 8}}))
	}
	require.NoError(t, q.Close())
	require.NoError(t, os.WriteFile(filepath.Join(dirs[0], "journal-0001 (conflict).txt"), theirs, 0o600))

	d = r.desk()
	o, err := d.Work(r.source())
	require.NoError(t, err)
	require.NotNil(t, o.Opening.Question)
	require.Len(t, o.Opening.Question.Choices, 2)
	c := o.Opening.Question.Choices[1]
	require.Equal(t, far, c.Place)
	f, _ := d.Close()
	require.Len(t, f.Asked, 2)
	require.Regexp(t, "^row 10 peg [0-9]+, from another history, with another pattern, ", f.Asked[1])

	_, err = d.Work(r.source())
	require.NoError(t, err)
	o, err = d.Settle(c)
	require.NoError(t, err)
	require.Equal(t, far, o.Opening.Place)
	require.Equal(t, 8, o.Order.Pattern.Of(far))
	require.Equal(t, 8, o.Opening.Of)
}

// The second copy is gone, so that nothing vouches for the last lines, and there is no room
// to write them once more: neither on opening nor on leaving.
func TestWhatMayNotOutliveAPowerCutIsSaidOnLeaving(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("space")
	d.Close()
	copies, err := filepath.Glob(filepath.Join(r.root, "*", "place.toml"))
	require.NoError(t, err)
	require.Len(t, copies, 1)
	require.NoError(t, os.Remove(copies[0]))
	r.full.Store(true)
	d = r.desk()
	_, err = d.Work(r.source())
	require.NoError(t, err)
	f, _ := d.Close()
	require.Equal(t, "disk full: what was saved last may not outlive a power cut", f.Doubt)

	r.full.Store(false)
	d = r.desk()
	_, err = d.Work(r.source())
	require.NoError(t, err)
	f, _ = d.Close()
	require.Empty(t, f.Doubt)
}
