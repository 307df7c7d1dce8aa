package tui_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui"
	"bypeg/tui/save"
)

func TestNotesAndChangesOnPurposeAreThereAgain(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "up", "n", "t", "i", "g", "h", "t", "enter")
	p.sees("note: tight")
	p.press("N", "n", "o", " ", "e", "d", "g", "e", "enter")
	p.sees("told whenever the piece is opened: no edge")
	p.press("up", "space")
	p.seesNot("note: tight")
	f, _ := d.Close()
	assert.Equal(t, "row 3 peg 2", f.Place, "notes move nothing")

	d, p = r.work()
	p.sees("on purpose: no edge")
	p.press("u", "u")
	p.sees("note: tight")
	p.press("n", "backspace", "backspace", "backspace", "backspace", "backspace", "enter")
	p.seesNot("tight")
	d.Close()

	d, p = r.work()
	p.seesNot("tight")
	d.Close()

	// A change of the pattern takes no note away.
	d, p = r.work()
	p.press("n", "x", "enter")
	p.sees("note: x")
	d.Close()
	r.change(`rows = ["k", "k1, p2, k1"]`, `rows = ["k", "p1, k2, p1"]`)
	_, p = r.work()
	p.sees("has changed")
	p.press("down", "enter")
	p.sees("note: x")
}

func TestTheShelfIsPutInOrderAndItCanBeUndone(t *testing.T) {
	r := newRoom(t)
	for range 2 {
		d := r.desk()
		_, err := d.BeginExample("weir-mat", 0)
		require.NoError(t, err)
		d.Close()
		r.now = r.now.Add(time.Hour)
	}
	d := r.desk()
	p := r.onShelf(d)
	p.sees("On the loom")
	p.press("r", "!", "enter")
	p.sees("Test Weir Mat is now called Test Weir Mat!: u undoes it")
	p.press("down", "a")
	p.sees("Test Weir Mat is put away: u undoes it")
	p.sees("1 put away")
	p.press("up", "d")
	p.sees("Test Weir Mat! is deleted: u undoes it")
	p.seesNot("On the loom")
	p.press("u")
	p.sees("undone: Test Weir Mat! is on the loom again")
	p.sees("▸ Test Weir Mat!")
	p.press("u")
	p.sees("undone: Test Weir Mat is on the loom again")
	p.press("u")
	p.sees("undone: it is called Test Weir Mat again")
	p.press("u")
	p.sees("nothing to undo here")
	p.press("r", "?", "enter")
	p.sees("is now called Test Weir Mat?")
	p.press("enter")
	p.sees("casting on")
	p.sees("Test Weir Mat?")
	p.press("space", "q")
	p.sees("On the loom")
	p.press("d")
	p.sees("is deleted")
	p.press("q")
	p.ends()

	// What was deleted can be had again later, and whoever goes on with a piece has it
	// back on the loom.
	p = r.onShelf(r.desk())
	p.sees("On the loom")
	p.seesNot("Test Weir Mat?")
	p.press("v")
	p.sees("Deleted")
	p.press("down", "enter")
	p.sees("it had been put away, and is back on the loom")
	p.sees("1 of 8 loops")
	p.press("q")
	p.sees("▸ Test Weir Mat?")
}

// A finished piece is on no loom, wherever it comes back from.
func TestAFinishedPieceComesBackToTheFinishedOnes(t *testing.T) {
	r := newRoom(t)
	d, id := r.finished()
	_, err := d.Put(id, save.PutAway)
	require.NoError(t, err)
	says, err := d.Put(id, save.OnLoom)
	require.NoError(t, err)
	assert.Equal(t, "Test Weir Mat is with the finished ones again", says)
	_, err = d.Put(id, save.PutAway)
	require.NoError(t, err)
	o, err := d.Open(id)
	require.NoError(t, err)
	assert.Contains(t, o.Opening.Notices, "it had been put away, and is with the finished ones again")
	d.Close()
}

func TestWhatIsUndoneOnTheShelfIsSaidAsItIsThen(t *testing.T) {
	r := newRoom(t)
	d := r.desk()
	_, err := d.BeginExample("weir-mat", 0)
	require.NoError(t, err)
	d.Close()
	id := filepath.Base(filepath.Dir(second(r.journal())))
	takeBack := func(says string) {
		t.Helper()
		said, err := d.TakeBack()
		require.NoError(t, err)
		assert.Equal(t, says, said)
	}
	do := func(_ string, err error) {
		t.Helper()
		require.NoError(t, err)
	}
	do(d.Put(id, save.PutAway))
	do(d.Put(id, save.Deleted))
	do(d.Put(id, save.OnLoom))
	do(d.Rename(id, "River\tRug"))
	takeBack("undone: it is called Test Weir Mat again")
	takeBack("undone: Test Weir Mat is deleted again")
	takeBack("undone: Test Weir Mat is put away again")
	takeBack("undone: Test Weir Mat is on the loom again")
	o, err := d.Open(id)
	require.NoError(t, err)
	p := r.onWork(d, o)
	for range 9 {
		p.press("up")
	}
	d.Close()
	do(d.Put(id, save.PutAway))
	takeBack("undone: Test Weir Mat is with the finished ones again")
}

func second(_, b string) string { return b }

func TestWhatCannotBeUndoneOnTheShelfIsToldAndForgotten(t *testing.T) {
	setUp := func(t *testing.T) (r *room, d *tui.Desk, ids []string) {
		r = newRoom(t)
		d = r.desk()
		for range 2 {
			_, err := d.BeginExample("weir-mat", 0)
			require.NoError(t, err)
			d.Close()
			r.now = r.now.Add(time.Hour)
		}
		all, err := save.List(d.Env, d.Root)
		require.NoError(t, err)
		_, err = d.Rename(all[1].ID, "Kept Mat")
		require.NoError(t, err)
		return r, d, []string{all[0].ID, all[1].ID}
	}
	for name, c := range map[string]struct {
		do, otherwise func(d *tui.Desk, id string) (string, error)
		says          string
		then          func(save.Summary) bool
	}{
		"the piece is gone": {
			func(d *tui.Desk, id string) (string, error) { return d.Put(id, save.Deleted) },
			func(d *tui.Desk, id string) (string, error) { return "", os.RemoveAll(filepath.Join(d.Root, id)) },
			"not undone: Test Weir Mat is gone, or can't be read", nil,
		},
		"another terminal gave it another name": {
			func(d *tui.Desk, id string) (string, error) { return d.Rename(id, "Mine") },
			func(d *tui.Desk, id string) (string, error) { return d.Rename(id, "Theirs") },
			"not undone: Test Weir Mat is now called Mine, and was changed again in another terminal",
			func(s save.Summary) bool { return s.Title == "Theirs" },
		},
		"another terminal put it elsewhere": {
			func(d *tui.Desk, id string) (string, error) { return d.Put(id, save.PutAway) },
			func(d *tui.Desk, id string) (string, error) { return d.Put(id, save.Deleted) },
			"not undone: Test Weir Mat is put away, and was changed again in another terminal",
			func(s save.Summary) bool { return s.Shelf == save.Deleted },
		},
	} {
		t.Run(name, func(t *testing.T) {
			r, d, ids := setUp(t)
			_, err := c.do(d, ids[0])
			require.NoError(t, err)
			_, err = c.otherwise(r.desk(), ids[0])
			require.NoError(t, err)
			_, err = d.TakeBack()
			require.EqualError(t, err, c.says)
			all, err := save.List(d.Env, d.Root)
			require.NoError(t, err)
			for _, s := range all {
				assert.True(t, s.ID != ids[0] || c.then(s), "it stays as it is")
			}
			says, err := d.TakeBack()
			require.NoError(t, err)
			assert.Equal(t, "undone: it is called Test Weir Mat again", says, "what was done before is undone next")
		})
	}
	t.Run("what only fails may be tried again", func(t *testing.T) {
		r, d, _ := setUp(t)
		r.full.Store(true)
		_, err := d.TakeBack()
		require.ErrorContains(t, err, "disk full")
		r.full.Store(false)
		says, err := d.TakeBack()
		require.NoError(t, err)
		assert.Equal(t, "undone: it is called Test Weir Mat again", says)
	})
}

// Who leaves by way of the shelf is told where the piece laid away last stands, as whoever
// leaves from the work.
func TestAPieceThatWasLaidAwayIsToldOnTheWayOut(t *testing.T) {
	laidAway := func(t *testing.T, sees string, keys ...string) *tui.Desk {
		r := newRoom(t)
		d := r.desk()
		p := r.onShelf(d)
		p.press("enter")
		p.sees("casting on")
		p.press("up", "up", "space", "q")
		p.sees("On the loom")
		p.press(keys...)
		p.sees(sees)
		_, worked := d.Close()
		require.False(t, worked)
		return d
	}
	f, told := laidAway(t, "On the loom").Left()
	assert.True(t, told)
	assert.Equal(t, tui.Farewell{Title: "Test Weir Mat", Place: "row 2 peg 7"}, placeOf(f))
	assert.Equal(t, []string{"1 row done.", "Row 2, left to right, has 1 peg worked: the yarn leaves peg 8, next is peg 7."}, f.Back)

	f, _ = laidAway(t, "is now called", "r", "!", "enter").Left()
	assert.Equal(t, "Test Weir Mat!", f.Title, "under the name it has now")

	for key, sees := range map[string]string{"a": "is put away", "d": "is deleted"} {
		_, told = laidAway(t, sees, key).Left()
		assert.False(t, told, "what is put away or deleted is no work to come back to")
	}
	_, told = newRoom(t).desk().Left()
	assert.False(t, told, "nothing was worked")
}

func TestAPieceOpenElsewhereStaysWhereItIs(t *testing.T) {
	r := newRoom(t)
	_, err := r.desk().BeginExample("weir-mat", 0)
	require.NoError(t, err)
	p := r.onShelf(r.desk())
	p.press("a")
	p.sees("not done: open in another terminal")
	p.sees("On the loom")
}

func TestTwoPiecesInTurn(t *testing.T) {
	r := newRoom(t)
	first := r.desk()
	_, err := first.BeginExample("weir-mat", 3)
	require.NoError(t, err)
	first.Close()
	r.now = r.now.Add(time.Minute)
	_, p := r.work()
	p.sees("casting on")
	p.press("space", "space")
	r.now = r.now.Add(time.Minute)
	p.press("tab")
	p.sees("row 4 of 7")
	p.press("space")
	p.sees("1 of 8 worked")
	r.now = r.now.Add(time.Minute)
	p.press("tab")
	p.sees("2 of 8 loops")
	p.press("tab")
	p.sees("1 of 8 worked")
}

func TestAFinishedPieceIsNotWorkedInTurn(t *testing.T) {
	r := newRoom(t)
	d := r.desk()
	o, err := d.BeginExample("weir-mat", 7)
	require.NoError(t, err)
	p := r.onWork(d, o)
	p.press("up")
	p.sees("finished")
	d.Close()
	r.now = r.now.Add(time.Minute)
	_, p = r.work()
	p.press("space", "tab")
	p.sees("no other piece is on the loom")
}

func TestThereMayBeNoOtherPiece(t *testing.T) {
	r := newRoom(t)
	_, p := r.work()
	p.press("space", "tab")
	p.sees("no other piece is on the loom")
	p.sees("1 of 8 loops")
	p.press("space")
	p.sees("2 of 8 loops")
}

func TestAPieceBegunInTheMiddle(t *testing.T) {
	r := newRoom(t)
	src := r.source()
	src.OnLoom = 3
	d := r.desk()
	o, err := d.Work(src)
	require.NoError(t, err)
	p := r.onWork(d, o)
	p.sees("row 4 of 7")
	p.press("u")
	p.sees("nothing to undo")
	p.press("space", "q")
	p.ends()
	d.Close()
	_, p = r.work()
	p.sees("1 of 8 worked")
	p.press("u", "u")
	p.sees("row 4 of 7")
	p.sees("nothing to undo")

	for rows, want := range map[int]string{8: "has 7 rows, and 1 to 7 of them can be on the loom already", -1: "has 7 rows"} {
		src := tui.Source{Name: "other.toml", Shown: "other.toml", Text: []byte(matText), OnLoom: rows}
		_, err := r.desk().Work(src)
		assert.ErrorContains(t, err, want)
	}
	all := tui.Source{Name: "all.toml", Shown: "all.toml", Text: []byte(matText), OnLoom: 7}
	d = r.desk()
	o, err = d.Work(all)
	require.NoError(t, err)
	p = r.onWork(d, o)
	p.sees("binding off")
}

func TestAnotherPegCountIsShownWheneverThePieceIsOpened(t *testing.T) {
	r := newRoom(t)
	src := r.source()
	src.Text = []byte(plainText)
	r.files["mat.toml"] = plainText
	src.Pegs = 44
	d := r.desk()
	o, err := d.Work(src)
	require.NoError(t, err)
	p := r.onWork(d, o)
	p.sees("44 pegs, pattern 52: on purpose")
	p.sees("0 of 44 loops")
	p.press("up", "q")
	p.ends()
	d.Close()
	_, p = r.work() // the same file: nothing has changed
	p.sees("44 pegs, pattern 52: on purpose")
	p.sees("knit all 44")

	bad := tui.Source{Name: "bad.toml", Shown: "bad.toml", Text: []byte(plainText), Pegs: 43}
	_, err = r.desk().Work(bad)
	assert.ErrorIs(t, err, tui.ErrPegs)
}

// plainText is a pattern of 52 pegs whose rows fit any multiple of 4.
const plainText = `pattern = 1
title = "Plain Weir Mat"
pegs = 52
[[zone]]
name = "field"
border = true
rows = ["k", "*k2, p2; rep from * to end"]
times = 4
`

// Who finds a piece in a bag after months needs to know what it is: what the pattern has
// of it is on the shelf, and when it was last worked is told when it is opened.
func TestAPieceFoundAfterMonths(t *testing.T) {
	r := newRoom(t)
	full := strings.Replace(matText, "pegs = 8\n", `pegs = 8
cast_on = "chain"
knit_as = "e-wrap"
[loom]
pegs = 24
spacing = "3/4 in"
[yarn]
fibre = "wool"
weight = 5
metres = 80
grams = 100
[gauge]
stitches = 11
rows = 15
over = "10 cm"
`, 1)
	r.files["mat.toml"] = full
	d, p := r.work()
	p.press("up", "up", "space")
	d.Close()
	r.now = r.now.AddDate(0, 4, 0)
	p = r.onShelf(r.desk())
	for _, words := range []string{
		"last worked Tue 3 Feb 2026, 19:04", "mat.toml", "panel, 8 pegs, 7 rows",
		"knit as e-wrap, chain cast-on, loom of 24 pegs", "yarn: wool, weight class 5, 80 m in 100 g",
		"2 rows field, sides of 2", "marked pegs 2, 7",
	} {
		assert.Contains(t, strings.Join(strings.Fields(p.view()), " "), words)
	}
	p.press("enter")
	p.sees("last worked Tue 3 Feb 2026, 19:04")
	p.sees("1 of 8 worked")
}

func TestWhatIsDoneOnTheShelfIsNoWork(t *testing.T) {
	r := newRoom(t)
	for _, name := range []string{"mat.toml", "other.toml"} {
		d := r.desk()
		_, err := d.Work(tui.Source{Name: name, Shown: name, Text: []byte(matText)})
		require.NoError(t, err)
		d.Close()
		r.now = r.now.Add(24 * time.Hour)
	}
	p := r.onShelf(r.desk())
	p.sees("On the loom")
	p.press("down", "r", "!", "enter")
	p.sees("is now called Test Weir Mat!")
	id, found, err := r.desk().Last()
	require.NoError(t, err)
	require.True(t, found)
	other, _, err := r.desk().Find("other.toml")
	require.NoError(t, err)
	assert.Equal(t, other, id, "the piece worked last is still the one worked last")
}

func TestANewPieceSaysWhatBecameOfTheOneBefore(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	for range 9 {
		p.press("up")
	}
	d.Close()
	r.now = r.now.Add(time.Hour)
	d, p = r.work()
	p.sees("begun anew: the one before is finished")
	p.press("space", "q")
	p.ends()
	d.Close()
	p = r.onShelf(r.desk())
	p.press("a")
	p.sees("is put away")
	d, p = r.work()
	p.sees("begun anew: the one before is put away, and v on the shelf shows it")
	d.Close()
	src := r.source()
	src.Pegs = 8
	o, err := r.desk().Work(src)
	require.NoError(t, err)
	assert.Contains(t, o.Opening.Notices, "this piece goes on as it was begun: --new begins another")
}

func TestAnotherPieceIsBegunOnlyWhereThatIsSaid(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("space")
	d.Close()
	src := r.source()
	src.Anew = true
	d = r.desk()
	o, err := d.Work(src)
	require.NoError(t, err)
	r.onWork(d, o).sees("0 of 8 loops")
}

func TestAPegCountThatDoesNotGoNamesThoseThatDo(t *testing.T) {
	r := newRoom(t)
	src := tui.Source{Name: "plain.toml", Shown: "plain.toml", Text: []byte(plainText), Pegs: 42}
	_, err := r.desk().Work(src)
	assert.ErrorIs(t, err, tui.ErrPegs)
	assert.EqualError(t, err, "this pattern does not go with so many pegs: 42 does not go, but 40 and 44")
	src = tui.Source{Name: "mat.toml", Shown: "mat.toml", Text: []byte(matText), Pegs: 9}
	_, err = r.desk().Work(src)
	assert.EqualError(t, err, "this pattern does not go with so many pegs: 9 does not go, but 8")
}

func TestANoteOnARowThatIsGoneIsToldAndTakenForNoOther(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("g", "6", "enter", "n", "x", "y", "enter", "g", "1", "enter")
	d.Close()
	r.change("[[zone]]\nname = \"set-up\"\nborder = true\nrows = [\"k\"]\n", "")
	r.change("name = \"top border\"\nlike = \"bottom border\"", "name = \"top border\"\nborder = true\nrows = [\"k\"]")
	_, p = r.work()
	p.sees("has changed")
	p.press("down", "enter")
	p.sees("a note on row 6, which the pattern has no more: xy")
	p.press("g", "5", "enter", "up")
	p.sees("binding off")
	p.seesNot("note: xy")
}

func TestChangesOnPurposeAreOnTheShelf(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("N", "t", "h", "i", "c", "k", "enter", "n", "r", "e", "d", "enter")
	d.Close()
	p = r.onShelf(r.desk())
	p.sees("on purpose: thick")
	p.sees("note on the cast-on: red")
}
