package tui_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/tui"
)

// damageEnd works two pegs of row 1 and damages the journal's last line.
func (r *room) damageEnd() {
	r.t.Helper()
	d, p := r.work()
	p.press("up", "space", "space")
	d.Close()
	text, path := r.journal()
	require.NoError(r.t, os.Remove(filepath.Join(filepath.Dir(path), "place.toml")))
	r.setJournal(strings.Replace(text, "row=1 done=2", "row=1 done=3", 1))
}

func TestAnAnswerThatIsNotSavedIsSaidAndAskedAgain(t *testing.T) {
	r := newRoom(t)
	r.damageEnd()
	d, p := r.work()
	p.sees("▸ row 1 peg 2, the last sure place, 3 Feb 19:04")
	p.press("down")
	r.full.Store(true)
	p.press("enter")
	p.sees("Your answer is not saved: disk full. Choose again; if you leave you are asked")
	p.sees("▸ row 1 peg 4, from the damaged line")
	p.press("enter")
	p.sees("▸ row 1 peg 4, from the damaged line")
	assert.Equal(t, 1, strings.Count(p.view(), "Your answer is not saved"), "said once")
	r.full.Store(false)
	p.press("enter")
	p.sees("3 of 8 worked")
	p.press("space")
	d.Close()
	_, p = r.work()
	p.sees("4 of 8 worked")
}

// What is not saved is told on the screens that lie over the work too.
func TestARepairThatIsNotSavedSaysSo(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "up", "up", "m")
	r.full.Store(true)
	p.press("3", "enter", "2", "enter", "down", "enter", "enter")
	p.sees("step 2 of ")
	p.sees("NOT SAVED: disk full. Saved: row 3 peg 1. ")
	r.full.Store(false)
	p.press("esc", "s")
	p.until("it is saved", func() bool { return !strings.Contains(p.view(), "NOT SAVED") })
	d.Close()
	_, p = r.work()
	p.press("m")
	p.sees("step 2 of ")
}

func TestAnUnansweredQuestionIsToldOnTheWayOut(t *testing.T) {
	r := newRoom(t)
	r.damageEnd()
	d, p := r.work()
	p.sees("which place is the right one?")
	p.press("q")
	p.ends()
	f, _ := d.Close()
	assert.Equal(t, []string{"row 1 peg 2, the last sure place, 3 Feb 19:04", "row 1 peg 4, from the damaged line"}, f.Asked)
}

func TestAChangeOfThePatternThatIsNotSavedIsSaidAndAskedAgain(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space")
	d.Close()
	r.change(`rows = ["k", "k1, p2, k1"]`, `rows = ["k", "p1, k2, p1"]`)
	_, p = r.work()
	p.sees("has changed")
	r.full.Store(true)
	p.press("down", "enter")
	p.sees("Your answer is not saved: disk full.")
	p.sees("▸ go on with the changed pattern")
	r.full.Store(false)
	p.press("enter")
	p.sees("1 of 8 worked")
	p.press("up", "up", "up")
	p.sees("row 4 → purl 3")
}

func TestNewWordsThatAreNotSavedStopNobody(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space")
	d.Close()
	r.change("Test Weir Mat", "Test Weir Mat, mended")
	r.full.Store(true)
	_, p = r.work()
	p.sees("the file's new words are not taken: disk full")
	p.sees("1 of 8 worked")
	r.full.Store(false)
	p.press("space")
	p.sees("2 of 8 worked")
	p.sees("[")
}

func TestAFolderThatIsGoneWhileItIsAskedAbout(t *testing.T) {
	r := newRoom(t)
	r.damageEnd()
	_, p := r.work()
	p.sees("which place is the right one?")
	_, path := r.journal()
	away := r.root + "-away"
	require.NoError(t, os.Rename(filepath.Dir(path), away))
	p.press("down", "enter")
	p.sees("The piece's folder is gone: put it back, then choose again.")
	p.sees("▸ row 1 peg 4")
	require.NoError(t, os.Rename(away, filepath.Dir(path)))
	p.press("enter")
	p.sees("3 of 8 worked")
}

func TestAFolderThatIsGoneForGoodIsToldOnTheWayOut(t *testing.T) {
	for name, unsaved := range map[string]int{"with steps on the way": 2, "with all saved": 0} {
		t.Run(name, func(t *testing.T) {
			r := newRoom(t)
			d, p := r.work()
			p.press("up", "space")
			p.sees("[┃]")
			_, path := r.journal()
			require.NoError(t, os.RemoveAll(filepath.Dir(path)))
			for range unsaved {
				p.press("space")
			}
			f, _ := d.Close()
			assert.Equal(t, filepath.Dir(path), f.Gone)
			assert.Equal(t, "row 1 peg 2", f.Place)
			assert.Equal(t, unsaved, f.Unsaved)
			if unsaved > 0 {
				assert.Equal(t, "row 1 peg 4", f.Shown)
			}
		})
	}
}

func TestAFolderThatIsGoneIsToldOnTheShelf(t *testing.T) {
	r := newRoom(t)
	p := r.onShelf(r.desk())
	p.press("enter")
	p.sees("casting on")
	p.press("space")
	p.sees("[")
	_, path := r.journal()
	require.NoError(t, os.RemoveAll(filepath.Dir(path)))
	p.press("q")
	p.sees("Begin something new")
	shown := strings.Join(strings.Fields(p.view()), "")
	assert.Contains(t, shown, strings.Join(strings.Fields(filepath.Dir(path)+" is gone; it was at cast-on, 1 of 8"), ""))
	p.sees("enter begin")
}

func TestAJournalThatIsGoneLeavesOneChoice(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space", "space")
	d.Close()
	_, path := r.journal()
	require.NoError(t, os.Remove(path))
	_, p = r.work()
	p.sees("Test Weir Mat: go on from here?")
	p.sees("The journal is gone: only the place is left")
	p.sees("▸ row 1 peg 3, from the second copy, 3 Feb 19:04")
	p.seesNot("Two accounts")
	p.press("enter")
	p.sees("2 of 8 worked")
	p.press("u")
	p.sees("nothing to undo") // and not back at the cast-on
	p.press("space", "u", "u")
	p.sees("2 of 8 worked")
}

// The journal before the last two pegs comes back while the program works, and the person
// says that it is right. The pegs they had seen saved can still be had.
func TestAPlaceThatWasSavedAndNotChosenCanBeHadAgain(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space")
	old, _ := r.journal()
	p.press("space", "space")
	p.until("all is saved", func() bool { now, _ := r.journal(); return strings.Count(now, "\n") == strings.Count(old, "\n")+2 })
	r.setJournal(old)
	p.press("space")
	p.sees("▸ row 1 peg 4, as it was saved here")
	p.rest()
	p.press("down", "enter")
	p.sees("1 of 8 worked")
	for range 2 { // and after a restart
		p.press("u")
		p.sees("3 of 8 worked")
		p.press("U")
		p.sees("1 of 8 worked")
		d.Close()
		d, p = r.work()
		p.sees("1 of 8 worked")
	}
}

func TestAKeyBehindTheOneThatLeavesComesTooLate(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space")
	p.model, _ = p.model.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("q")})
	p.press("up", "space", "U")
	p.sees("1 of 8 worked")
	f, _ := d.Close()
	assert.Equal(t, "row 1 peg 2", f.Place)
}

func TestAPieceThatCannotBeWrittenShowsItsPlace(t *testing.T) {
	t.Run("sure", func(t *testing.T) {
		r := newRoom(t)
		d, p := r.work()
		p.press("up", "space", "space")
		d.Close()
		r.shut.Store(true)
		d, p = r.work()
		p.sees("looking only: no permission to write")
		p.sees("2 of 8 worked")
		f, _ := d.Close()
		assert.Equal(t, tui.Farewell{Title: "Test Weir Mat", Place: "row 1 peg 3", Looked: true}, placeOf(f))
	})
	t.Run("in doubt", func(t *testing.T) {
		r := newRoom(t)
		d, p := r.work()
		p.press("up", "space", "space")
		d.Close()
		text, _ := r.journal()
		r.setJournal(strings.Join(strings.SplitAfter(text, "\n")[:3], "")) // an old copy
		r.shut.Store(true)
		_, p = r.work()
		p.sees("the place is in doubt: you are asked when the piece can be worked")
		p.sees("2 of 8 worked")
		p.press("space")
		p.sees("looking only: no permission to write")
	})
}

// A clock may be set back, by hand or by the network. Times are told and never
// reckoned with.
func TestAClockThatIsSetBackChangesNoPlace(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space", "space")
	p.sees("[┃]")
	r.now = r.now.AddDate(-1, 0, 0)
	p.press("space", "up", "space")
	p.sees("1 of 8 worked")
	d.Close()

	r.now = r.now.AddDate(0, -6, 0)
	d, p = r.work()
	p.sees("row 2 of 7")
	p.sees("1 of 8 worked")
	p.press("u", "u")
	p.sees("3 of 8 worked")
	p.press("u", "u")
	p.sees("1 of 8 worked")
	p.press("U", "U", "U", "U")
	p.sees("row 2 of 7")
	f, _ := d.Close()
	assert.Equal(t, "row 2 peg 7", f.Place)

	r.now = r.now.AddDate(0, 0, -1) // once more
	_, err := r.desk().BeginExample("weir-mat", 0)
	require.NoError(t, err)
	r.now = r.now.Add(time.Hour)
	p = r.onShelf(r.desk())
	p.sees("On the loom")
	lines := strings.Split(p.view(), "\n")
	assert.Contains(t, lines[1], "cast-on", "a piece of tomorrow does not lead")
	assert.Contains(t, lines[2], "row 2 of 7")
	assert.Contains(t, lines[2], "today")
	d = r.desk()
	id, some, err := d.Last()
	require.NoError(t, err)
	require.True(t, some)
	o, err := d.Open(id)
	require.NoError(t, err)
	assert.Equal(t, pattern.Start(), o.Opening.Place)
}

func TestAnAnswerMayBringTheFormerPatternBack(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "up", "up", "up", "space")
	d.Close()
	r.change(`rows = ["k", "k1, p2, k1"]`, `rows = ["k", "p1, k2, p1"]`)
	d, p = r.work()
	p.sees("has changed")
	p.press("down", "enter")
	p.sees("1 of 8 worked")
	p.press("space")
	d.Close()
	text, _ := r.journal()
	former, _, ok := strings.Cut(text, " pattern phase=")
	require.True(t, ok)
	r.setJournal(former[:strings.LastIndex(former, "\n")+1]) // an old copy

	_, p = r.work()
	p.sees("▸ row 4 peg 6, from the second copy")
	p.press("down")
	p.sees("▸ row 4 peg 7, from the journal")
	p.press("enter")
	p.sees("The pattern of Test Weir Mat has changed")
	p.press("enter")
	p.sees("1 of 8 worked")
	p.sees("border: purl 1, then the field: knit 1") // k1, p2, k1 within sides of two
}

func TestWhoGoesOnAfterCtrlCIsNotOnTheWayOutAnyMore(t *testing.T) {
	r := newRoom(t)
	p := r.onShelf(r.desk())
	p.press("enter")
	p.sees("casting on")
	p.press("space")
	p.sees("[")
	r.full.Store(true)
	p.press("space")
	p.sees("NOT SAVED: disk full")
	p.press("ctrl+c")
	p.sees("Not everything is saved")
	r.full.Store(false)
	p.press("enter")
	p.seesNot("Not everything is saved")
	p.sees("2 of 8 loops")
	p.until("it to be saved", func() bool { return !strings.Contains(p.view(), "NOT SAVED") })
	p.press("q")
	p.sees("On the loom")
	p.press("q")
	p.ends()
	assert.False(t, p.model.(tui.Model).Interrupted())
}

func TestThePieceWorkedLastIsNotOneThatCannotBeRead(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up")
	d.Close()
	require.NoError(t, os.Rename(r.root, r.root+".aside"))
	_, found, err := r.desk().Last()
	require.NoError(t, err)
	assert.False(t, found)
	require.NoError(t, os.Rename(r.root+".aside", r.root))
	_, path := r.journal()
	require.NoError(t, os.Rename(filepath.Dir(path), filepath.Join(r.root, "my mat")))
	_, _, err = r.desk().Last()
	require.ErrorContains(t, err, "bypeg alone shows it and says why")
}

// The pattern kept with a piece is gone, or damaged: what the piece was begun from is as
// it was, and stands in for it.
func TestThePatternKeptWithAPieceIsPutBack(t *testing.T) {
	kept := func(r *room) string {
		found, err := filepath.Glob(filepath.Join(r.root, "*", "pattern-*.toml"))
		require.NoError(t, err)
		require.Len(t, found, 1)
		return found[0]
	}
	for name, harm := range map[string]func(path string){
		"gone":    func(path string) { require.NoError(t, os.Remove(path)) },
		"damaged": func(path string) { require.NoError(t, os.WriteFile(path, []byte("pattern = "), 0o600)) },
	} {
		t.Run(name, func(t *testing.T) {
			r := newRoom(t)
			d, p := r.work()
			p.press("up", "space")
			d.Close()
			path := kept(r)
			harm(path)
			was := r.files["mat.toml"]
			r.change("Test Weir Mat", "Another Mat")
			_, err := r.desk().Work(r.source())
			require.ErrorContains(t, err, "Put mat.toml back as it was when you last worked")
			require.ErrorContains(t, err, "row 1")

			r.files["mat.toml"] = was
			_, p = r.work()
			p.sees("1 of 8 worked")
			p.press("space")
			p.sees("2 of 8 worked")
			assert.FileExists(t, path)
		})
	}
}
