package mending_test

import (
	"testing"

	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/tui/track"
)

var toCompare = []string{"down", "down", "enter"}

// Two pegs are wrong in the same row: both are named, and the one is mended that is said.
func TestTwoColumnsWrongInOneRow(t *testing.T) {
	m, _ := press(opened(t), toCompare...)
	m, _ = press(m, "1", "enter", "bvbvbb..", "enter", "enter", "2", "enter", "bvbvbbbv..", "enter")
	assert.Contains(t, m.View(), "on pegs 1 and 2")
	assert.Contains(t, m.View(), "enter mend peg 1")
	m, _ = press(m, "enter")
	assert.Contains(t, m.View(), "Ways to put peg 1 right")
}

// The same peg counted twice is one peg, and the answer stays the same.
func TestTheSamePegCountedTwiceIsOnePeg(t *testing.T) {
	m, _ := press(opened(t), toCompare...)
	m, _ = press(m, "1", "enter", "bvvbvb..", "enter")
	require.Contains(t, m.View(), "peg 1 was not worked in row 34")
	m, _ = press(m, "enter", "1", "enter", "bvvbvb..", "enter")
	assert.Contains(t, m.View(), "peg 1 was not worked in row 34")
}

// "Count again" is told, and a second count of the peg takes the place of the first.
func TestACountMadeAgainReplacesTheFirst(t *testing.T) {
	m, _ := press(opened(t), toCompare...)
	m, _ = press(m, "6", "enter", "bbbb..", "enter")
	require.Contains(t, m.View(), "count again")
	m, _ = press(m, "enter", "6", "enter", "vvvvvv..", "enter")
	m2, _ := press(opened(t), toCompare...)
	m2, _ = press(m2, "6", "enter", "vvvvvv..", "enter")
	assert.Equal(t, m2.View(), m.View())
}

// A list that does not fit the screen is turned by the arrows.
func TestLongFindingsAreTurned(t *testing.T) {
	text := "pattern = 1\ntitle = \"Lock Panel\"\npegs = 160\n[[zone]]\nname = \"all\"\nrows = [\"k\", \"*k2, p1, sl1; rep from * to end\", \"k\", \"k\"]\n"
	p, diags := file.Load("f", []byte(text))
	require.NotNil(t, p, diags)
	o := pattern.Order{Pattern: p, Way: p.Way}
	piece := track.Piece{Title: "T", Tracker: track.New(o, at(2, 4), 2), Saver: noSaver{}}
	m, _ := press(open(piece, false, termenv.Ascii, 40, 12), "down", "down", "down", "enter")
	require.NotContains(t, m.View(), "all other pegs")
	assert.Contains(t, m.View(), "↓ more")
	for range 40 {
		m, _ = press(m, "down")
	}
	assert.Contains(t, m.View(), "all other pegs")
	m, _ = press(m, "up")
	assert.NotContains(t, m.View(), "all other pegs", "one line up at once")
}

// On the least screen what is typed is seen.
func TestTypedIsSeenOnTheLeastScreen(t *testing.T) {
	m, _ := press(open(mat(t), false, termenv.Ascii, 32, 8), "down", "down", "enter", "6", "enter", "x", "enter")
	assert.Contains(t, m.View(), "> x")
}
