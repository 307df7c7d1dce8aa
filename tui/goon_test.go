package tui_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// longMat is the mat with a field of six rows, whose repeat is two.
var longMat = strings.Replace(matText, "rows = [\"k\", \"k1, p2, k1\"]\n", "rows = [\"k\", \"k1, p2, k1\"]\ntimes = 3\n", 1)

// longRoom is a room where the mat's file is the long one.
func longRoom(t testing.TB) *room {
	r := newRoom(t)
	r.files["mat.toml"] = longMat
	return r
}

// fewer works to row 5, and chooses one repeat fewer.
func (p *program) fewer() {
	p.t.Helper()
	p.press("space", "up", "up", "up", "up", "up", "f")
	p.sees("how to go on")
	p.press("down", "down")
	p.sees("▸ one repeat fewer")
	p.press("enter")
	p.sees("again keeps this plan")
	p.press("enter")
}

func TestAPieceGoesOnAfterAnotherPlan(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.fewer()
	p.sees("on purpose: planned anew: 9 rows, the top border from row 7")
	p.sees("row 5 of 9")
	p.press("u")
	p.sees("row 4 of 9")
	p.press("U", "space")
	p.sees("row 5 of 9")
	d.Close()

	d, p = r.work()
	p.sees("row 5 of 9")
	p.seesNot("has changed")
	p.sees("on purpose: planned anew: 9 rows")
	p.press("f", "down")
	p.sees("▸ one repeat more")
	p.press("enter", "enter")
	p.sees("row 5 of 11")
	d.Close()
}

// Only the plan that the piece goes by is told, however often it was changed.
func TestOnlyTheLastPlanIsTold(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.fewer()
	p.sees("planned anew: 9 rows")
	p.press("f", "down", "enter", "enter")
	p.sees("planned anew: 11 rows")
	p.seesNot("9 rows")
	d.Close()
}

func TestALaterChangeOfTheFileIsAskedAbout(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.fewer()
	p.sees("row 5 of 9")
	d.Close()
	r.files["mat.toml"] = strings.Replace(longMat, "times = 3", "times = 4", 1)
	d, p = r.work()
	p.sees("The pattern of Test Weir Mat has changed")
	p.sees("It had 9 rows and has 13.")
	p.sees("You changed the plan of this piece on purpose: the file knows nothing of that.")
	p.press("enter")
	p.sees("row 5 of 9")
	d.Close()
	d, p = r.work()
	p.press("down", "enter")
	p.sees("row 5 of 13")
	d.Close()
	d, p = r.work()
	p.sees("row 5 of 13")
	p.seesNot("has changed")
	d.Close()
}

func TestAPlanThatCannotBeSavedChangesNothing(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "f", "down", "down", "enter")
	r.full.Store(true)
	p.press("enter")
	p.sees("the plan stays as it was: ")
	p.sees("disk full")
	p.sees("row 2 of 11")
	r.full.Store(false)
	p.press("f", "down", "down", "enter", "enter")
	p.sees("row 2 of 9")
	d.Close()
}

func TestTheScreenOfWaysComesAndGoes(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	for _, k := range []string{"q", "f", "esc"} {
		p.press("f")
		p.sees("how to go on")
		p.press(k)
		p.seesNot("how to go on")
	}
	p.press("f", "w")
	p.press("5 cm", "ctrl+c") // which drops what is typed
	p.sees("how to go on")
	p.press("ctrl+c")
	p.ends()
	d.Close()
}

func TestAPieceOfAnotherPegCountIsPlannedOnItsPegs(t *testing.T) {
	r := longRoom(t)
	r.files["mat.toml"] = strings.Replace(longMat, "k1, p2, k1", "p", 1)
	d := r.desk()
	src := r.source()
	src.Pegs = 10
	o, err := d.Work(src)
	require.NoError(t, err)
	p := r.onWork(d, o)
	p.press("space", "up", "f", "down", "enter", "enter")
	p.sees("row 1 of 13")
	d.Close()
	o, err = d.Work(r.source())
	require.NoError(t, err)
	assert.Nil(t, o.Change)
	assert.Equal(t, 10, o.Order.Pattern.Pegs)
	assert.Equal(t, 13, o.Order.Pattern.Grid.Rows())
}

func TestATalkGoesOnAfterAnotherPlan(t *testing.T) {
	r := longRoom(t)
	text := r.again("row 5", "plan", "plan 3", "where")
	assert.Contains(t, text, "\n3: one repeat fewer: 9 rows, the top border from row 7\n")
	assert.Contains(t, text, "\non purpose: planned anew: 9 rows, the top border from row 7\n")
	assert.Contains(t, text, "\nat row 5 of 9: ")
	text = r.again("plan 2", "plan 2", "undo")
	assert.Contains(t, text, "\n2: one repeat more: 11 rows", "a number means nothing before the ways are said")
	assert.Contains(t, text, "\nat row 5 of 11: ")
	assert.Contains(t, text, "\nsaved: undone, at row 4 ", "what was worked before can still be undone")
	text = r.again("plan wide ten", "plan wid", "plan 1", "plan 1", "plan 9")
	assert.Contains(t, text, "is no length")
	assert.Contains(t, text, "plan alone says the ways")
	assert.Contains(t, text, "\nthe piece goes on as planned\n")
	assert.Contains(t, text, "\nthere are ways 1 to ")
}

// Another plan ends a repair: that is asked about, and said.
func TestAnotherPlanInATalkSpeaksOfTheRepair(t *testing.T) {
	r := longRoom(t)
	r.again("row 5", "mend back to 2", "", "stop")
	text := r.again("plan", "plan 3", "plan", "plan 3", "where")
	assert.Equal(t, 2, strings.Count(text, "; the same once more works on without it\n"))
	assert.Equal(t, 2, strings.Count(text, "\na repair is under way: mend goes on with it\n"), "the opening and where tell it, and no new piece was opened")
	text = r.again("plan", "plan 3", "plan 3", "where")
	assert.Contains(t, text, "\nthe way back to row 2 is dropped\n")
	assert.Contains(t, text, "\non purpose: planned anew: 9 rows")
	assert.Equal(t, 1, strings.Count(text, "\na repair is under way: mend goes on with it\n"), "and none is told afterwards")
}

// A scarf without a top border: a repeat more leads from the bind-off back to rows that were
// never worked, a repeat fewer from the last row but two to the bind-off; once loops are
// bound off there is nothing to choose any more.
func TestAPieceWithoutABorderEndsWhereItIsWished(t *testing.T) {
	scarf := "pattern = 1\ntitle = \"Test Scarf\"\npegs = 8\n[[zone]]\nname = \"all\"\nrows = [\"k\", \"p\"]\ntimes = 4\n"
	begin := func() (*room, *program, func()) {
		r := newRoom(t)
		r.files["mat.toml"] = scarf
		d, p := r.work()
		return r, p, func() { d.Close() }
	}
	_, p, end := begin()
	p.press("space", "up", "up", "up", "up", "up", "up", "up", "up", "up")
	p.sees("binding off")
	p.press("f", "down", "enter", "enter")
	p.sees("row 9 of 10")
	end()
	_, p, end = begin()
	p.press("space", "up", "up", "up", "up", "up", "up", "up")
	p.sees("row 7 of 8")
	p.press("f", "down", "down", "enter", "enter")
	p.sees("binding off")
	p.sees("planned anew: 6 rows")
	p.press("space", "f")
	p.sees("as planned")
	p.seesNot("one repeat")
	end()
}

// Undo ends at the plan: what was done beyond its place may be other rows now.
func TestUndoEndsAtAPlan(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "up", "up", "up", "up", "up", "up")
	p.sees("row 8 of 11")
	p.press("g", "4", "enter")
	p.sees("row 4 of 11")
	p.press("f", "down", "down", "enter", "enter")
	p.sees("row 4 of 9")
	for range 8 {
		p.press("u")
		p.seesNot("row 8")
		p.seesNot("row 7")
	}
	d.Close()
}

// Enter twice is taught on the screen of ways: elsewhere the second must not work a run.
func TestASecondEnterWorksNothing(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "up")
	p.sees("row 3 of 11")
	p.press("f", "enter", "enter", "enter", "q")
	p.sees("row 3 of 11")
	p.press("w", "l", "enter", "3", "enter")
	p.sees("7 rows are done")
	p.press("enter", "enter")
	p.sees("row 8 of 11")
	d.Close()
}
