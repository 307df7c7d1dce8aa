package tui_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

func TestTheShelfSaysWhatAPatternComesToBeforeItIsBegun(t *testing.T) {
	r := newRoom(t)
	p := r.onShelf(r.desk())
	p.sees("▸ Test Weir Mat")
	before := p.view()
	for _, back := range []string{"q", "esc", "f"} {
		p.press("f")
		p.sees("Test Weir Mat: panel, 8 pegs, 7 rows")
		p.sees("are there 8 loops? count them in tens")
		p.sees("enter begin")
		p.press(back)
		assert.Equal(t, before, p.view(), "%s leads back to the shelf as it was", back)
	}
	found, err := filepath.Glob(filepath.Join(r.root, "*"))
	require.NoError(t, err)
	assert.Empty(t, found, "whoever only asks begins nothing")

	p.press("f", "enter")
	p.sees("casting on")
	p.press("space", "q")
	p.sees("On the loom")
	p.press("f")
	p.sees("enter go on")
	p.press("enter")
	p.sees("1 of 8 loops")
	p.press("q")
	p.sees("On the loom")
	p.press("f", "ctrl+c")
	p.ends()
}

// A piece is told of as it was begun: by its own name, its own pattern, whatever became of
// that one's file, and by the way it is worked, whatever the maker says since.
func TestAPieceIsToldOfAsItWasBegun(t *testing.T) {
	r := newRoom(t)
	text := strings.Replace(matText, "pegs = 8", "pegs = 8\nmarkers = [3]", 1)
	r.files["mat.toml"] = text
	d, p := r.work()
	p.press("up", "space")
	d.Close()

	left := r.desk()
	left.Way = func(*pattern.Design) (pattern.Hand, pattern.Way) {
		return pattern.LeftHand, pattern.Way{Peg1: pattern.Left, Row1: pattern.ToRight}
	}
	r.files["mat.toml"] = "no pattern any more"
	p = r.onShelf(left)
	p.press("r", "!", "enter")
	p.sees("is now called Test Weir Mat!")
	p.press("f")
	p.sees("Test Weir Mat!: panel, 8 pegs, 7 rows")
	p.sees("put markers on pegs 2, 3 and 7")
	p.press("q", "end", "f")
	p.sees("enter begin")
	p.press("q", "q")
	p.ends()
}

func TestTheTimeIsReckonedByTheMakersOwnPace(t *testing.T) {
	r := newRoom(t)
	d := r.desk()
	o, err := d.Work(r.source())
	require.NoError(t, err)
	p := r.onWork(d, o)
	p.press("up")
	for range 6 { // 8 stitches a row, 2 rows a minute
		r.now = r.now.Add(30 * time.Second)
		p.press("up")
	}
	d.Close()
	p = r.onShelf(r.desk())
	p.press("f")
	p.sees("at your own pace, 16 a minute")
}

func TestWhatCanNotBeReadIsNotToldOf(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space")
	d.Close()
	p = r.onShelf(r.desk())
	p.sees("On the loom")
	_, journal := r.journal()
	folder, elsewhere := filepath.Dir(journal), filepath.Join(r.root, "..", "elsewhere")
	require.NoError(t, os.Rename(folder, elsewhere))
	p.press("f")
	p.sees("there is no such piece")
	p.seesNot("On the loom")

	require.NoError(t, os.Rename(elsewhere, folder))
	require.NoError(t, os.WriteFile(journal, []byte("?"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "place.toml"), []byte("?"), 0o600))
	p = r.onShelf(r.desk())
	p.sees("Can't be read")
	p.press("f")
	p.sees("will it fit: its pattern can't be read")
}

func TestWhereItCanNotBeBegunTheHandStaysOnIt(t *testing.T) {
	r := newRoom(t)
	d, p := r.work()
	p.press("up", "space")
	d.Close()
	p = r.onShelf(r.desk())
	p.press("end", "f")
	p.sees("enter begin")
	r.full.Store(true)
	p.press("enter")
	p.sees("disk full")
	p.sees("▸ Test Weir Mat  8 pegs, 7 rows")
}
