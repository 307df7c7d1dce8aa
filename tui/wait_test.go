package tui_test

import (
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui"
)

// twoPieces leaves two pieces on the loom: one at row 4, and the pattern file's, worked
// last, at the cast-on.
func (r *room) twoPieces() (*tui.Desk, *program) {
	r.t.Helper()
	d := r.desk()
	_, err := d.BeginExample("weir-mat", 3)
	require.NoError(r.t, err)
	d.Close()
	r.now = r.now.Add(time.Minute)
	return r.work()
}

func TestTheOtherPieceWaitsForWhatIsOnItsWayToTheDisk(t *testing.T) {
	r := newRoom(t)
	_, p := r.twoPieces()
	p.burst("space", "tab", "space", "up") // keys behind tab are meant for neither
	p.sees("1 of 8 loops")
	p.sees("row 4 of 7")
	p.press("tab")
	p.sees("1 of 8 loops")
}

func TestWhatCannotBeSavedKeepsThePieceInHand(t *testing.T) {
	for name, keys := range map[string]func(*program){
		"a step on its way when tab is pressed": func(p *program) { p.burst("space", "tab") },
		"a step that was told as not saved": func(p *program) {
			p.press("space")
			p.sees("NOT SAVED: disk full")
			p.press("tab")
		},
		"a note": func(p *program) { p.burst("n", "blue", "enter", "tab") },
	} {
		t.Run(name, func(t *testing.T) {
			r := newRoom(t)
			d, p := r.twoPieces()
			p.press("space")
			p.sees("[")
			r.full.Store(true)
			keys(p)
			p.sees("NOT SAVED: disk full")
			p.settle()
			p.sees("of 8 loops")
			p.press("space")
			p.seesNot("row 4 of 7")
			r.full.Store(false)
			p.press("s")
			p.until("all is saved", func() bool { return !strings.Contains(p.view(), "NOT SAVED") })
			p.press("tab")
			p.sees("row 4 of 7")
			d.Close()
			assert.Zero(t, d.Lost())
		})
	}
}

func TestADiskThatSaysNothingKeepsThePieceInHand(t *testing.T) {
	t.Parallel()
	r := newRoom(t)
	_, p := r.twoPieces()
	p.burst("space")
	var cmd tea.Cmd
	p.model, cmd = p.model.Update(key("tab"))
	p.model, _ = p.model.Update(cmd()) // the disk's word is not heard yet
	p.sees("not all is saved yet")
	p.press("space")
	p.sees("2 of 8 loops")
}

func TestTheProgramSleepsOnceAllIsSaved(t *testing.T) {
	for name, keys := range map[string][]string{"from the work": nil, "from the chart": {"c"}} {
		t.Run(name, func(t *testing.T) {
			_, p := newRoom(t).work()
			p.burst(append(append([]string{"space"}, keys...), "ctrl+z")...)
			assert.Zero(t, p.slept, "a step is on its way to the disk")
			p.until("the shell", func() bool { return p.slept == 1 })
			p.settle()
			assert.Equal(t, 1, p.slept, "once")
			p.press("ctrl+z")
			assert.Equal(t, 2, p.slept, "nothing is on its way")
		})
	}
	t.Run("from the shelf", func(t *testing.T) {
		r := newRoom(t)
		p := r.onShelf(r.desk())
		p.press("ctrl+z")
		assert.Equal(t, 1, p.slept)
	})
	t.Run("where nothing can be saved it loses nothing to sleep", func(t *testing.T) {
		r := newRoom(t)
		_, p := r.work()
		r.full.Store(true)
		p.burst("space", "ctrl+z")
		p.sees("NOT SAVED")
		p.until("the shell", func() bool { return p.slept == 1 })
		p.press("q")
		p.sees("Not everything is saved")
		p.press("ctrl+z")
		assert.Equal(t, 2, p.slept)
	})
}

// A tool puts an equal file in the journal's place while somebody writes a note: the field
// and all that was typed stay, and no letter works the piece.
func TestAFieldOfTextSurvivesThatThePieceIsReadAnew(t *testing.T) {
	const note = "blue queue"
	cases := map[string]struct{ before, during, after string }{
		"the rest is typed after it":         {"b", "", "lue queue"},
		"the rest is typed while it is read": {"b", "lue queue", ""},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			r := newRoom(t)
			d, p := r.work()
			p.press("up", "up")
			p.until("all is saved", func() bool { text, _ := r.journal(); return strings.Contains(text, "row=2") })
			r.replaceJournal()
			p.burst("space", "n")
			p.burst(strings.Split(c.before, "")...)
			read := p.heard("work.savedMsg")
			p.burst(strings.Split(c.during, "")...)
			if c.after == "" {
				p.burst("enter")
			}
			p.do(read)
			if c.after != "" {
				p.sees("note on row 2: b")
				p.settle()
			}
			for _, letter := range c.after {
				p.press(string(letter))
			}
			if c.after != "" {
				p.press("enter")
			}
			p.sees("not saved and to be worked again: 1 step") // the field covered it
			p.press("c", "q")
			p.sees("note: " + note)
			assert.False(t, p.quit)
			f, _ := d.Close()
			assert.Equal(t, "row 2 peg 8", f.Place)
			_, p = r.work()
			p.sees("note: " + note)
		})
	}
}

func TestAPieceReadAnewTakesNoKeysUntilTheHandRests(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space")
	p.until("all is saved", func() bool { text, _ := r.journal(); return strings.Contains(text, "done=1") })
	r.replaceJournal()
	p.press("space")
	p.sees("not saved and to be worked again: 1 step")
	p.press("space", "up", "q")
	p.sees("1 of 8 worked")
	assert.False(t, p.quit)
	p.rest()
	p.press("space")
	p.sees("2 of 8 worked")
	f, _ := d.Close()
	assert.Equal(t, "row 1 peg 3", f.Place)
}

func TestWhoLeavesWaitsForNoOtherPiece(t *testing.T) {
	r := newRoom(t)
	d, p := r.twoPieces()
	p.burst("space", "tab", "ctrl+c")
	p.ends()
	p.settle()
	f, _ := d.Close()
	assert.Equal(t, "cast-on, 1 of 8", f.Place, "and not row 4 of the other one")
}
