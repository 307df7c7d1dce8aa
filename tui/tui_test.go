package tui_test

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui"
)

// sequence finds the commands of tea.Sequence, whose message has no exported name.
func sequence(msg tea.Msg) ([]tea.Cmd, bool) {
	v := reflect.ValueOf(msg)
	if v.Kind() != reflect.Slice || v.Type().Elem() != reflect.TypeFor[tea.Cmd]() {
		return nil, false
	}
	return v.Convert(reflect.TypeFor[[]tea.Cmd]()).Interface().([]tea.Cmd), true
}

func TestFromTheShelfToThePegAndBack(t *testing.T) {
	r := newRoom(t)
	p := r.onShelf(r.desk())
	p.sees("Begin something new")
	p.seesNot("On the loom")
	p.press("enter")
	p.sees("casting on")
	p.press("up", "space", "space")
	p.sees("2 of 8 worked")
	p.press("q")
	p.sees("On the loom")
	p.sees("bottom border, row 1 of 7")
	p.sees("today")
	p.press("enter")
	p.sees("2 of 8 worked")
	p.press("u")
	p.sees("1 of 8 worked")
	p.press("U", "c")
	p.sees("key   ")
	p.press("q")
	p.sees("2 of 8 worked")
	p.press("q")
	p.sees("On the loom")
	p.press("q")
	p.ends()
}

func TestAPieceGoesOnWhereItWasAndUndoSurvives(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "up", "space", "space", "space")
	p.press("q")
	p.ends()
	f, worked := d.Close()
	assert.True(t, worked)
	assert.Equal(t, tui.Farewell{Title: "Test Weir Mat", Place: "row 2 peg 5"}, placeOf(f))
	assert.Equal(t, []string{"1 row done.", "Row 2, left to right, has 3 pegs worked: the yarn leaves peg 6, next is peg 5."}, f.Back)

	_, p = r.work()
	p.sees("3 of 8 worked")
	p.press("u", "u", "u", "u")
	p.sees("knit all 8")
	p.press("U", "U")
	p.sees("1 of 8 worked")
}

func TestAFinishedPieceIsLaidAwayAndTheNextBegins(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	for range 9 {
		p.press("up")
	}
	p.sees("finished")
	d.Close()
	d = r.desk()
	_, some, err := d.Last()
	require.NoError(t, err)
	assert.False(t, some)
	o, err := d.Work(r.source())
	require.NoError(t, err)
	p = r.onWork(d, o)
	p.sees("casting on")
	p = r.onShelf(r.desk())
	p.sees("finished")
}

func TestAPatternThatIsWrongIsNotBegun(t *testing.T) {
	r := newRoom(t)
	r.change("p2", "p3")
	_, err := r.desk().Work(r.source())
	var diags safetext.Diagnostics
	require.ErrorAs(t, err, &diags)
	assert.Contains(t, diags[0].Error(), "mat.toml:11:")
	p := r.onShelf(r.desk())
	p.seesNot("On the loom")
}

func TestAChangedPatternIsAskedAbout(t *testing.T) {
	const keep, goOn = "keep the pattern as the piece was begun", "go on with the changed pattern at row 4 peg 7"
	cases := []struct {
		name         string
		was, now     string
		says         []string
		offersGoOn   bool
		afterKeeping string
		afterGoingOn string
	}{
		{"a row to come is different", `like = "bottom border"`, `like = "bottom border"` + "\nrows = [\"p\", \"k\"]",
			[]string{"2 of the rows 5 to 6 are different", "all you have worked is the same in both"}, true, "row 4 of 7", "row 4 of 7"},
		{"a worked row is different", `rows = ["k", "p"]`, `rows = ["p", "p"]`,
			[]string{"2 of the rows 1 to 5 are different", "would be different now"}, true, "row 4 of 7", "row 4 of 7"},
		{"there are more rows", `rows = ["k", "k1, p2, k1"]`, `rows = ["k", "k1, p2, k1"]` + "\ntimes = 2",
			[]string{"It had 7 rows and has 9", "Row 6 is different"}, true, "row 4 of 7", "row 4 of 9"},
		{"there are other pegs", `pegs = 8`, `pegs = 9`,
			nil, false, "row 4 of 7", ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			for _, adopt := range []bool{false, true} {
				r := newRoom(t)
				d, p := r.work()
				p.press("up", "up", "up", "up", "space")
				d.Close()
				r.change(c.was, c.now)
				if !c.offersGoOn {
					r.change("k1, p2, k1", "k1, p3, k1")
				}

				d, p = r.work()
				p.sees("The pattern of Test Weir Mat has changed")
				for _, says := range c.says {
					p.sees(says)
				}
				p.sees(keep)
				if !c.offersGoOn {
					p.sees("It had 8 pegs and has 9")
					p.seesNot("go on with")
				} else if adopt {
					p.sees(goOn)
					p.press("down")
				}
				p.press("enter")
				p.sees("1 of 8 worked")
				if adopt && c.offersGoOn {
					p.sees(c.afterGoingOn)
					d.Close()
					o, err := r.desk().Work(r.source())
					require.NoError(t, err)
					assert.Nil(t, o.Change, "it is not asked again")
				} else {
					p.sees(c.afterKeeping)
				}
			}
		})
	}
}

func TestOtherWordsInTheFileAreNoQuestion(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space")
	d.Close()
	r.change("Test Weir Mat", "Test Weir Mat, mended")
	_, p = r.work()
	p.sees("Test Weir Mat, mended")
	p.sees("1 of 8 worked")
}

func TestADamagedEndIsAskedAbout(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space", "space")
	d.Close()
	text, path := r.journal()
	require.NotEmpty(t, path)
	require.Contains(t, text, "done=2")
	r.setJournal(strings.Replace(text, "row=1 done=2", "row=1 done=3", 1)) // one bit of the last line

	_, p = r.work()
	p.sees("which place is the right one?")
	p.sees("The last saved line is damaged: ")
	p.sees("row 1 peg 2, from the journal, 3 Feb 19:04")
	p.sees("row 1 peg 3, from the second copy")
	p.sees("row 1 peg 4, from the damaged line")
	p.press("down", "enter")
	p.sees("2 of 8 worked")
	p.press("space")
	d.Close()
	_, p = r.work()
	p.sees("3 of 8 worked")
}

func TestASecondTerminalLooksAndTakesOver(t *testing.T) {
	r := newRoom(t)
	first, second := r.desk(), r.desk()
	o, err := first.Work(r.source())
	require.NoError(t, err)
	r.onWork(first, o).press("up", "space")
	o, err = second.Work(r.source())
	require.NoError(t, err)
	p := r.onWork(second, o)
	p.sees("open in another terminal (pid 4711")
	p.press("space", "up", "u")
	p.sees("1 of 8 worked")
	first.Close()
	taken, ok, err := second.TakeOver(o)
	require.NoError(t, err)
	require.True(t, ok)
	p = r.onWork(second, taken)
	p.press("space")
	p.sees("2 of 8 worked")
	p.seesNot("another terminal")
}

func TestAFileChangedByAnotherIsReadAnewAndAskedAbout(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space")
	old, path := r.journal()
	p.press("space", "space")
	p.sees("[")
	require.NoError(t, os.Rename(path, path+".gone"))
	require.NoError(t, os.WriteFile(path, []byte(old), 0o600)) // an old copy comes back
	p.press("space")
	p.sees("which place is the right one?")
	p.sees("row 1 peg 2, from the journal")
	p.sees("row 1 peg 4, as it was saved here")
	p.sees("The saved file was changed by something else")
	p.sees("1 step after that, in round brackets, could not be saved")
	p.press("space", "enter")
	p.sees("which place is the right one?") // keys on their way to the pegs answer nothing
	p.sees("▸ row 1 peg 4, as it was saved here")
	p.rest()
	p.press("enter")
	p.sees("3 of 8 worked")
	p.press("space")
	p.sees("4 of 8 worked")
	d.Close()
	d = r.desk()
	o, err := d.Work(r.source())
	require.NoError(t, err)
	assert.Nil(t, o.Opening.Question)
	r.onWork(d, o).sees("4 of 8 worked")
}

func TestAFolderThatIsGoneKeepsThePieceOnTheScreen(t *testing.T) {
	r := newRoom(t)
	p := r.onShelf(r.desk())
	p.press("enter")
	p.sees("casting on")
	p.press("up", "space")
	p.sees("[┃]")
	_, path := r.journal()
	away := r.root + "-away"
	require.NoError(t, os.Rename(filepath.Dir(path), away))
	p.press("space", "space")
	p.sees("NOT SAVED: the piece's folder is gone. It was at row 1 peg 2. s tries again")
	p.sees("3 of 8 worked")
	require.NoError(t, os.Rename(away, filepath.Dir(path)))
	p.press("s")
	p.sees("[┃]")
	p.sees("3 of 8 worked")
	p.seesNot("NOT SAVED")
}

func TestAPieceThatCannotBeReadIsNotPassedOver(t *testing.T) {
	r := newRoom(t)
	d, _ := r.work()
	d.Close()
	_, path := r.journal()
	require.NoError(t, os.Remove(path))
	require.NoError(t, os.Mkdir(path, 0o700))
	_, err := r.desk().Work(r.source())
	require.Error(t, err)
	assert.Contains(t, err.Error(), "the piece begun from mat.toml can't be read")
	assert.Contains(t, err.Error(), "or move it away to begin anew")
}

func TestAPieceSaysThatItKeepsItsWay(t *testing.T) {
	r := newRoom(t)
	d, _ := r.work()
	d.Close()
	d = r.desk()
	d.WayAsked = true
	d.Way = func(p *pattern.Design) (pattern.Hand, pattern.Way) { return pattern.LeftHand, p.Way.Mirrored() }
	o, err := d.Work(r.source())
	require.NoError(t, err)
	r.onWork(d, o).sees("this piece keeps its way: peg 1 at the right, row 1 right to left")
}

func TestAPatternsFileThatIsWrongNowIsTold(t *testing.T) {
	r := newRoom(t)
	d, _ := r.work()
	d.Close()
	good := r.source()
	r.change("pegs = 8", "pegs = ")
	o, err := r.desk().Work(good)
	require.NoError(t, err)
	assert.Nil(t, o.Change)
	assert.Contains(t, o.Opening.Notices[0], "the pattern's file is wrong now")
}

func TestUndoDoesNotCrossAChangeOfThePattern(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "up", "space")
	d.Close()
	r.change(`rows = ["k", "k1, p2, k1"]`, `rows = ["k", "p1, k2, p1"]`)
	d, p = r.work()
	p.sees("has changed")
	p.press("down", "enter")
	p.sees("1 of 8 worked")
	p.press("u")
	p.sees("nothing to undo")
	p.press("space", "u")
	p.sees("1 of 8 worked")
	p.press("q")
	p.ends()
	d.Close()

	_, p = r.work()
	p.press("u") // the space was undone before
	p.sees("nothing to undo")
	p.sees("1 of 8 worked")
}

func TestARowTypedInOneGo(t *testing.T) {
	r := newRoom(t)
	_, p := r.work()
	p.give(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("g5")})
	p.press("enter")
	p.sees("row 5 of 7")
}

func TestWhatCannotBeSavedIsAskedAboutBeforeLeaving(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space")
	p.sees("[┃]")
	r.full.Store(true)
	p.press("space")
	p.sees("NOT SAVED: disk full")
	p.press("q", "q")
	p.sees("NOT SAVED: disk full") // the second q goes back: only the answer leaves
	p.press("q")
	p.sees("Not everything is saved")
	p.sees("1 step would be lost")
	p.press("enter")
	assert.False(t, p.quit)
	p.sees("NOT SAVED: disk full")
	r.full.Store(false)
	p.press("s")
	p.until("it is saved", func() bool { return !strings.Contains(p.view(), "NOT SAVED") })
	p.sees("[")
	r.full.Store(true)
	p.press("space", "q", "down", "enter")
	p.ends()
	f, _ := d.Close()
	assert.Equal(t, 1, f.Unsaved)
	require.Error(t, f.Err)
	assert.Equal(t, "row 1 peg 3", f.Place, "the last place that is on the disk")
}

func TestTwoQuickPressesBeginOnePiece(t *testing.T) {
	r := newRoom(t)
	p := r.onShelf(r.desk())
	enter := tea.KeyMsg{Type: tea.KeyEnter}
	p.give(enter)
	p.give(enter)
	p.give(tea.KeyMsg{Type: tea.KeySpace, Runes: []rune(" ")})
	p.sees("0 of 8 loops")
	p.settle()
	p.sees("0 of 8 loops")
	r.journal() // there is one
}

func TestAKeyTypedAtOnceFindsTheNewScreen(t *testing.T) {
	r := newRoom(t)
	_, p := r.work()
	rune_ := func(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s)} }
	p.give(rune_("c"))
	p.give(rune_("q"))
	p.sees("casting on")
	assert.False(t, p.quit, "q left the chart, not the work")
}

func TestALookerSeesThePlaceMove(t *testing.T) {
	r := newRoom(t)
	first, second := r.desk(), r.desk()
	o, err := first.Work(r.source())
	require.NoError(t, err)
	worker := r.onWork(first, o)
	worker.press("up")
	o, err = second.Work(r.source())
	require.NoError(t, err)
	looker := r.onWork(second, o)
	looker.sees("knit all 8")
	worker.press("space", "space", "space")
	looker.sees("3 of 8 worked")
	looker.press("space")
	looker.sees("3 of 8 worked")
}

func TestCtrlCLeavesFromEverywhere(t *testing.T) {
	for name, keys := range map[string][]string{"the shelf": nil, "the work": {"enter"}, "the chart": {"enter", "c"}} {
		t.Run(name, func(t *testing.T) {
			r := newRoom(t)
			p := r.onShelf(r.desk())
			for _, key := range keys {
				shown := p.view()
				p.press(key)
				p.until("the next screen", func() bool { return p.view() != shown })
			}
			p.press("ctrl+c")
			p.ends()
			assert.True(t, p.model.(tui.Model).Interrupted())
		})
	}
}

func TestADamagedPieceDoesNotStopTheShelf(t *testing.T) {
	r := newRoom(t)
	d := r.desk()
	_, err := d.Work(r.source())
	require.NoError(t, err)
	d.Close()
	r.setJournal(strings.Repeat("\x00", 100_000))
	p := r.onShelf(r.desk())
	p.sees("On the loom")
	p.sees("Begin something new")
}

func TestAPanicEndsInGoodOrder(t *testing.T) {
	var m tea.Model = tui.Guard{Model: panics{}}
	m, cmd := m.Update(tea.KeyMsg{})
	require.NotNil(t, cmd)
	assert.IsType(t, tea.QuitMsg{}, cmd())
	crash := m.(tui.Guard).Crash
	require.NotNil(t, crash)
	assert.Equal(t, "on purpose", crash.Reason)
	assert.Contains(t, string(crash.Stack), "panics")
	assert.Empty(t, m.View())
}

type panics struct{}

func (panics) Init() tea.Cmd                       { return nil }
func (panics) Update(tea.Msg) (tea.Model, tea.Cmd) { panic("on purpose") }
func (panics) View() string                        { panic("on purpose") }
