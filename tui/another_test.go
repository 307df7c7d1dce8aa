package tui_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/tui/save"
)

// finishes works a planned piece to its end.
func (p *program) finishes() {
	p.t.Helper()
	p.until("the end of the work", func() bool {
		p.press("up")
		return strings.Contains(p.view(), "weave in the tails")
	})
}

// A first sleeve was planned anew and has 9 rows, not the 11 of the file: its pair is begun by
// the very same rows, and is asked nothing about the file.
func TestAPairIsMadeByTheSameRows(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.fewer()
	p.sees("row 5 of 9")
	p.rest()
	p.finishes()
	d.Close()

	d = r.desk()
	p = r.onShelf(d)
	p.sees("Off the loom")
	p.press("f")
	p.sees("enter make another")
	p.press("enter")
	p.sees("made like Test Weir Mat: 9 rows")
	p.press("up", "up")
	p.sees("row 2 of 9")
	d.Close()

	d = r.desk()
	p = r.onShelf(d)
	p.press("enter")
	p.sees("row 2 of 9")
	p.sees("on purpose: made like Test Weir Mat: 9 rows")
	p.seesNot("has changed")
	d.Close()
}

func TestAnotherIsMadeWhereTheFileIsAsItWasOrGone(t *testing.T) {
	for name, gone := range map[string]bool{"as it was": false, "gone": true} {
		r := newRoom(t)
		d, p := r.work()
		p.finishes()
		d.Close()
		if gone {
			delete(r.files, "mat.toml")
		}
		d = r.desk()
		p = r.onShelf(d)
		p.press("f", "enter")
		p.sees("casting on")
		assert.NotContains(t, p.view(), "made like", name)
		p.press("up")
		p.sees("row 1 of 7")
		d.Close()
	}
}

// The file has the very same rows, and a remark more: nothing is changed on purpose.
func TestAPairByTheFilesOwnRowsIsNoChange(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.finishes()
	d.Close()
	r.files["mat.toml"] = "# washed twice\n" + matText
	all, err := save.List(d.Env, d.Root)
	require.NoError(t, err)
	d = r.desk()
	o, err := d.BeginAnother(all[0].ID)
	require.NoError(t, err)
	assert.Empty(t, d.Start(o).Purpose, "its rows are those of the file")
}

// Where the file is another pattern by now, or none, the rows that were made are made again.
func TestAPairOfAFileThatIsAnotherByNow(t *testing.T) {
	for name, now := range map[string]string{"other pegs": strings.Replace(matText, "pegs = 8", "pegs = 10", 1), "wrong": "pattern = 1\n"} {
		r := newRoom(t)
		d, p := r.work()
		p.finishes()
		d.Close()
		r.files["mat.toml"] = now
		all, err := save.List(d.Env, d.Root)
		require.NoError(t, err)
		d = r.desk()
		o, err := d.BeginAnother(all[0].ID)
		require.NoError(t, err, name)
		assert.Equal(t, 8, o.Order.Pattern.Pegs, name)
		assert.Equal(t, 7, o.Order.Pattern.Grid.Rows(), name)
		assert.Equal(t, pattern.Start(), o.Opening.Place, name)
		d.Close()
	}
}
