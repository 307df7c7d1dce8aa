package tui_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern/fit"
)

// What is told in a talk is what the shelf and the command tell afterwards. By hand: 32 pegs
// over 25 cm are 12.8 stitches in 10 cm, 48 rows over 20 cm are 24.
func TestASizeToldInATalkIsKept(t *testing.T) {
	r := newRoom(t)
	d, id := r.finished()
	open := func(typed ...string) string {
		o, err := d.Open(id)
		require.NoError(t, err)
		return r.talk(d, o, typed...)
	}
	said := open("size 250 x 20 cm", "size 25 x 20 cm, 80 g", "undo", "size", "size 62 g")
	assert.Contains(t, said, "\n250 cm wide was to be 20 cm: that is no slip of the gauge: measure again")
	assert.Contains(t, said, "\nsaved: measured: 25 x 20 cm, 80 g (136 m): 12.8 stitches and 24 rows in 10 cm")
	assert.Equal(t, 1, strings.Count(said, "saved: measured"))
	assert.Contains(t, said, "\nsize is what a finished piece measures", "undo brought it back on the loom")
	open("redo")
	off, err := d.Finished("weir-mat")
	require.NoError(t, err)
	require.NotNil(t, off)
	assert.Contains(t, off.Says, "measured: 25 x 20 cm, 80 g")
	assert.Len(t, d.AllOwns(), 1)
	assert.Contains(t, open("size"), off.Says, "and the next talk tells it")
	text, _ := r.journal()
	assert.Contains(t, text, "25 x 20 cm, 80 g")

	says, err := d.PutDown(id, fit.Finished{Grams: 62})
	require.NoError(t, err)
	assert.Contains(t, says, "62 g")
	assert.Contains(t, open("where"), "\nmeasured: 62 g", "the last one stands")
	_, err = d.Size("62 g")
	assert.EqualError(t, err, "the piece is only looked at: nothing is put down")
}
