package tui_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/track"
)

func TestARepairIsKeptLikeAnyPlace(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "up", "up", "up", "up", "m")
	p.sees("What is to be done?")
	p.press("4", "enter", "3", "enter", "down", "enter", "enter", "enter")
	p.sees("step 3 of ")
	p.press("esc")
	p.sees("row 6 of 11")
	p.sees("a repair is under way: m goes on with it")
	f, _ := d.Close()
	assert.Contains(t, f.Back, "A repair is under way.")
	stock, err := r.desk().Stock()
	require.NoError(t, err)
	assert.Contains(t, stock.Pieces[0].Details, "A repair is under way.")
	d, p = r.work()
	p.sees("a repair is under way: m goes on with it")
	p.press("m")
	p.sees("step 3 of ")
	p.press("esc", "space")
	p.sees("space again works on without it")
	p.press("m")
	p.sees("step 3 of ")
	p.press("esc", "space", "space")
	p.sees("the repair is left undone: u brings it back")
	p.press("m")
	p.sees("What is to be done?") // the work went on, and the repair is not of it any more
	p.press("esc")
	d.Close()
}

func TestTheTrackerFollowsRowsThatAreTakenBack(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "up", "up", "up", "up", "m", "down", "enter", "5", "enter")
	p.sees("step 1 of 9")
	for range 9 {
		p.press("enter")
	}
	p.sees("row 5 of 11")
	p.press("u")
	p.sees("row 6 of 11")
	p.sees("a repair is under way: m goes on with it")
	p.press("m")
	p.sees("step 9 of 9") // undo brought it back
	p.press("enter")
	p.sees("row 5 of 11")
	p.press("q")
	p.ends()
	d.Close()
	d, p = r.work()
	p.press("u", "m")
	p.sees("step 9 of 9") // and so it does after a restart
	p.press("esc")
	d.Close()
}

// A lifeline and a new ball are put down with one key, are told of in the margin, are safe
// rows to take work back to, and are there the next time. Taking rows back takes them along.
func TestLinesAndBallsAreSafeRows(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("t")
	p.sees("no row on the loom is complete yet")
	p.press("space", "up", "up", "up", "b", "up", "t")
	p.sees("a lifeline lies in row 3: m can take rows back to it; t again takes this off")
	p.press("up", "up")
	p.sees("┄  3 ←")
	p.sees("•  2 →")
	f, _ := d.Close()
	assert.Contains(t, f.Back, "A lifeline lies in row 3.")

	d, p = r.work()
	p.sees("┄  3 ←")
	p.press("m", "4", "enter", "4", "enter")
	p.sees("back to row 3, the lifeline")
	p.press("backspace", "backspace", "backspace", "down", "enter", "3", "enter")
	for range 40 {
		p.press("enter")
	}
	p.rest()
	p.sees("row 3 of 11")
	p.press("up", "up")
	assert.NotContains(t, p.view(), "┄") // the line went with its row
	p.sees("•  2 →")
	d.Close()
}

// Loops that the steps of the cast-on put on are on, whoever goes on with the loom then; undo
// takes them off one by one, and a restart changes nothing.
func TestStepsOfTheCastOnCountAsLoops(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("m", "enter", "enter", "enter", "enter", "enter", "esc")
	p.sees("3 of 8 loops")
	d.Close()
	d, p = r.work()
	p.sees("3 of 8 loops")
	p.sees("the cast-on goes step by step: m goes on with it")
	p.press("u")
	p.sees("2 of 8 loops")
	p.press("U", "space", "space", "space") // the first one only asks
	p.sees("5 of 8 loops")
	p.press("m", "enter")
	p.sees("step 7 of 9")
	p.press("enter", "enter", "enter")
	p.sees("cast-on done")
	d.Close()
}

// So are loops that the steps of the bind-off took off.
func TestStepsOfTheBindOffCountAsLoops(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.until("the bind-off", func() bool {
		p.press("up")
		return strings.Contains(p.view(), "bind off 8")
	})
	p.press("m")
	p.sees("▸ bind off, step by step")
	p.press("enter")
	p.press("enter", "enter", "enter", "enter", "enter", "esc") // knit, then four moves to the next peg
	p.sees("2 of 8 loops")
	d.Close()
	d, p = r.work()
	p.sees("2 of 8 loops")
	d.Close()
}

// One undo within a row puts the repair off too, and says so: redo brings both back.
func TestUndoPutsARepairOffAndSaysSo(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "up", "up", "up", "up", "space", "m", "4", "enter", "3", "enter", "down", "enter", "enter", "esc")
	p.sees("a repair is under way")
	p.press("u")
	p.sees("that puts off what was led through too: U brings both back")
	p.press("U")
	p.sees("a repair is under way: m goes on with it")
	d.Close()
}

// Going to a row by its number speaks of a repair under way as every other move does.
func TestGoingToARowSpeaksOfTheRepair(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "up", "up", "up", "up", "m", "4", "enter", "3", "enter", "down", "enter", "enter", "enter")
	p.sees("step 3 of ")
	p.press("esc", "g", "2", "enter")
	p.sees("a repair is under way: m goes on with it; ")
	p.press("g", "2", "enter")
	p.sees("row 2 of 11")
	p.sees("the repair is left undone: u brings it back")
	d.Close()
}

// Who only looks may turn over the steps, and leaves no repair behind.
func TestWhoLooksBeginsNoRepair(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "up", "up", "up", "up")
	p.sees("row 6 of 11")
	d2, p2 := r.work()
	p2.sees("look")
	p2.press("m", "4", "enter", "3", "enter", "down", "enter", "enter", "esc")
	f, _ := d2.Close()
	assert.True(t, f.Looked)
	assert.NotContains(t, f.Back, "A repair is under way.")
	p.press("m")
	p.sees("What is to be done?")

	d2 = r.desk() // nor in a talk, where the tracker keeps the step that is said
	o, err := d2.Work(r.source())
	require.NoError(t, err)
	looked := d2.Start(o)
	require.Nil(t, looked.Saver)
	looked.Tracker.Mend(&track.Mending{Col: 3, Row: 2})
	f, _ = d2.Close()
	assert.NotContains(t, f.Back, "A repair is under way.")
	d.Close()
}
