package tui_test

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
	"bypeg/pattern/safetext"
	"bypeg/tui"
	"bypeg/tui/look"
	"bypeg/tui/save"
)

// gaugedText is a plain panel of 32 pegs and 48 rows, 20 by 20 cm by its gauge.
const gaugedText = `pattern = 1
title = "Test Weir Mat"
pegs = 32
[gauge]
stitches = 16
rows = 24
over = "10 cm"
[loom]
spacing = "3/8 in"
[yarn]
weight = 4
fibre = "cotton"
metres = 85
grams = 50
[[zone]]
name = "field"
rows = ["k"]
times = 48
`

// finished is a desk with a finished piece of an example that has a gauge, and its id.
func (r *room) finished() (*tui.Desk, string) {
	r.t.Helper()
	d := r.gauged()
	o, err := d.BeginExample("weir-mat", 48)
	require.NoError(r.t, err)
	p := r.onWork(d, o)
	p.press("up")
	p.sees("finished")
	d.Close()
	r.now = r.now.Add(time.Minute)
	return d, filepath.Base(filepath.Dir(second(r.journal())))
}

func (r *room) gauged() *tui.Desk {
	d := r.desk()
	d.Example = func(name string) ([]byte, bool) { return []byte(gaugedText), name == "weir-mat" }
	return d
}

// A piece is finished, put down, and what it tells is offered for the next one. By hand:
// 32 pegs over 25 cm are 12.8 stitches in 10 cm, 48 rows over 20 cm are 24.
func TestAFinishedPieceTellsTheNextOne(t *testing.T) {
	r := newRoom(t)
	_, id := r.finished()
	p := r.onShelf(r.gauged())
	p.sees("Off the loom")
	p.seesNot("On the loom")
	p.sees("i put down its size")
	p.seesNot("measured")
	p.press("i")
	p.sees("size and weight: ")
	p.sees("like 21.5 x 30 cm, 62 g")
	p.press("2", "5")
	p.press("enter")
	p.sees(`"25" does not say of what: write it like 21.5 x 30 cm, 62 g`)
	p.press("0", " ", "x", " ", "2", "0", "enter")
	p.sees("250 cm wide was to be 20 cm: that is no slip of the gauge: measure again")
	for range 6 {
		p.press("backspace")
	}
	p.press(" ", "x", " ", "2", "0", ",", " ", "3", "0", "g", "enter")
	p.sees("Test Weir Mat is 25 x 20 cm, 30 g (51 m): 12.8 stitches and 24 rows in 10 cm")
	p.sees("u undoes it")
	p.press("end") // onto the example
	p.press("f")
	p.sees("20 cm wide, 20 cm high")
	p.sees("your own  Test Weir Mat, 3 Feb: 12.8 stitches and 24 rows in 10 cm")
	p.sees("→ by your own figures")
	p.press("l")
	p.sees("25 cm wide, 20 cm high")
	p.sees("all of this is by Test Weir Mat, 3 Feb")
	p.sees("by the piece that was weighed")
	p.sees("← by the pattern's figures")
	p.press("h")
	p.sees("20 cm wide, 20 cm high")
	p.press("q", "up")
	p.sees("measured: 25 x 20 cm, 30 g (51 m): 12.8")
	p.press("i")
	p.sees("size and weight: 25 x 20 cm, 30 g")
	p.press("esc", "u")
	p.sees("undone: nothing is put down of Test Weir Mat")
	p.press("end", "f")
	p.seesNot("by your own figures")

	d := r.gauged()
	says, err := d.PutDown(id, fit.Finished{Width: 210})
	require.NoError(t, err)
	assert.Equal(t, "Test Weir Mat is 21 cm wide: 15.2 stitches in 10 cm", says)
	says, err = d.PutDown(id, fit.Finished{})
	require.NoError(t, err)
	assert.Equal(t, "nothing is put down of Test Weir Mat", says)
	says, err = d.TakeBack()
	require.NoError(t, err)
	assert.Equal(t, "undone: Test Weir Mat is 21 cm wide again", says)
}

// A tube is told both ways, and one that was kept before a tube was measured flat reads as it
// did then: the way round.
func TestATubeIsToldFlatAndRound(t *testing.T) {
	r := newRoom(t)
	d := r.gauged()
	o, err := d.Begin(tui.Source{Name: "/collar", Shown: "collar", Text: []byte(strings.Replace(gaugedText, "pegs = 32", "form = \"tube\"\npegs = 32", 1)), OnLoom: 48})
	require.NoError(t, err)
	r.onWork(d, o).press("up")
	d.Close()
	piece, err := d.Finished("/collar")
	require.NoError(t, err)
	assert.Equal(t, pattern.Tube, piece.Form)
	assert.Empty(t, piece.Says)

	require.NoError(t, save.Measure(d.Env, d.Root, piece.ID, "25 x 20 cm"))
	piece, err = d.Finished("/collar")
	require.NoError(t, err)
	assert.Equal(t, "measured: 12.5 cm flat, that is 25 cm round, 20 cm high: 12.8 stitches and 24 rounds in 10 cm", piece.Says)
	says, err := d.PutDown(piece.ID, fit.Finished{Width: 200, Height: 200})
	require.NoError(t, err)
	assert.Equal(t, "Test Weir Mat is 10 cm flat, that is 20 cm round, 20 cm high: 16 stitches and 24 rounds in 10 cm", says)
	all, err := save.List(d.Env, d.Root)
	require.NoError(t, err)
	assert.Equal(t, "20 cm round, 20 cm high", all[0].Made)
	says, err = d.TakeBack()
	require.NoError(t, err)
	assert.Equal(t, "undone: Test Weir Mat is 12.5 cm flat, that is 25 cm round, 20 cm high again", says)
	p := r.onShelf(r.gauged())
	p.sees("measured: 12.5 cm flat, that is 25 cm round, 20 cm")
	p.press("i")
	p.sees("size and weight: 25 cm round, 20 cm high")
}

func TestOnlyWhatIsOffTheLoomIsMeasured(t *testing.T) {
	r := newRoom(t)
	d := r.desk()
	_, err := d.BeginExample("weir-mat", 0)
	require.NoError(t, err)
	d.Close()
	_, err = d.PutDown(filepath.Base(filepath.Dir(second(r.journal()))), fit.Finished{Width: 200})
	require.EqualError(t, err, "Test Weir Mat is on the loom: bind it off first")
	p := r.onShelf(r.desk())
	p.press("i")
	p.sees("put down its size: not off the loom")
	p.press("end", "i")
	p.sees("put down its size: an example")
}

// Of the maker's pieces those made after the pattern come first, then those that are like it;
// what is not measured, not finished, deleted or unlike is not offered.
func TestWhichPiecesAreOffered(t *testing.T) {
	r := newRoom(t)
	finish := func(title, text string, made fit.Finished) (id string) {
		d := r.gauged()
		r.now = r.now.Add(time.Hour)
		o, err := d.Begin(tui.Source{Name: "/" + title, Shown: title, Text: []byte(strings.Replace(text, "Test Weir Mat", title, 1)), OnLoom: 48})
		require.NoError(t, err)
		p := r.onWork(d, o)
		p.press("up")
		d.Close()
		all, err := d.Stock()
		require.NoError(t, err)
		for _, piece := range all.Pieces {
			if piece.Title == safetext.Clean(title) {
				id = piece.ID
			}
		}
		if made != (fit.Finished{}) {
			_, err = d.PutDown(id, made)
			require.NoError(t, err)
		}
		return id
	}
	size := fit.Finished{Width: 210, Height: 205}
	finish("Like It", gaugedText, size)
	finish("Unlike It", strings.Replace(gaugedText, "3/8", "5/8", 1), size)
	finish("Of Wool", strings.Replace(gaugedText, "cotton", "wool", 1), size)
	finish("Not Measured", gaugedText, fit.Finished{})
	finish("Later and Like", gaugedText, size)
	gone := finish("Deleted", gaugedText, size)
	d := r.gauged()
	_, err := d.Put(gone, save.Deleted)
	require.NoError(t, err)

	finish("Odd\u202e Name", strings.Replace(gaugedText, "3/8", "5/8", 1), size)
	p, _ := file.Load("f", []byte(gaugedText))
	titles := func(source string) (all []string) {
		for _, own := range d.Owns(source, &p.Design) {
			all = append(all, own.Title)
		}
		return all
	}
	assert.Equal(t, []string{"Later and Like", "Like It"}, titles("weir-mat"))
	assert.Equal(t, []string{"Of Wool", "Later and Like", "Like It"}, titles("/Of Wool"), "its own pattern's first")
	assert.Equal(t, []string{"Odd Name", "Later and Like", "Like It"}, titles("/Odd\u202e Name"))
	assert.Len(t, d.AllOwns(), 5)

	told, own, err := d.Report(look.ShowFit{Example: "weir-mat"})
	require.NoError(t, err)
	require.Len(t, told.Owns, 2)
	assert.Equal(t, "Later and Like", own.By.Title)
	assert.InDelta(t, 210, float64(own.Size.Width.Likely), 0.1)
	assert.InDelta(t, 200, float64(told.Size.Width.Likely), 0.1)
	assert.Equal(t, "2026-02-04", told.Owns[0].Date)
}
