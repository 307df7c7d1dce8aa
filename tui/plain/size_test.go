package plain_test

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/tui/plain"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// sized is a finished piece whose size is put down on a disk in memory.
func sized(t testing.TB) (plain.Piece, *disk) {
	p, d := piece(t, pattern.Place{Phase: pattern.Finishing})
	p.Size = func(text string) (string, error) {
		if text == "big" {
			return "", errors.New("big tells no size")
		}
		d.take(func() { d.words = append(d.words, "size: "+text) })
		return "measured: " + text, nil
	}
	return p, d
}

func TestTheSizeOfAFinishedPieceIsPutDownByWords(t *testing.T) {
	p, d := sized(t)
	lines := answers(t, p, "size", "size big", "size 21 x 30 cm", "size", "where", "s")
	assert.Equal(t, []string{
		"nothing is put down yet: size 21.5 x 30 cm, 62 g puts it down, or only what you know of it",
		"big tells no size",
		"saved: measured: 21 x 30 cm",
		"measured: 21 x 30 cm",
	}, lines[:4])
	assert.Equal(t, "measured: 21 x 30 cm", lines[len(lines)-2], "where tells it too")
	assert.Equal(t, "all is saved", lines[len(lines)-1])
	assert.Equal(t, []string{"size: 21 x 30 cm"}, d.words)

	p, d = sized(t)
	d.set(save.ErrNotSaved, false)
	lines = answers(t, p, "size 21 x 30 cm")
	assert.Len(t, lines, 1)
	assert.Contains(t, lines[0], "NOT SAVED: ")

	p, d = sized(t)
	p.Saver, p.Held, p.Made = nil, "open in another terminal", "measured: 20 cm wide"
	assert.Equal(t, []string{"measured: 20 cm wide", "looking only: open in another terminal"}, answers(t, p, "size", "size 62 g"))
	assert.Empty(t, d.words)

	p, d = piece(t, at(8, 0))
	assert.Contains(t, answers(t, p, "size 62 g")[0], "bind it off first")
	assert.Empty(t, d.words)
}

// The list for a finished piece says where a size goes, and takes it between two steps.
func TestTheFinishingTakesASize(t *testing.T) {
	p, d := sized(t)
	p.Tracker.Mend(&track.Mending{What: track.Finish})
	lines := answers(t, p, slices.Concat([]string{"mend"}, slices.Repeat([]string{""}, 5), []string{"size 21 X 30 CM", "", "s"})...)
	const how = "size 21.5 x 30 cm, 62 g puts it down, or only what you know of it"
	var asked []string
	for i, line := range lines {
		if line == how {
			asked = append(asked, lines[i-1][:len("step 1")])
		}
	}
	assert.Equal(t, []string{"step 6", "step 7"}, asked)
	assert.Contains(t, lines, "saved: measured: 21 x 30 cm")
	assert.Contains(t, d.words, "size: 21 x 30 cm")
	assert.Equal(t, "left at step 7 of 7: mend goes on with it", lines[len(lines)-1], "s is stop here")

	p, d = piece(t, at(8, 0))
	lines = answers(t, p, "mend back to 7", "size 62 g")
	assert.Equal(t, "size 62 g is not done while a repair is led through: "+steering, lines[len(lines)-1])
	assert.NotContains(t, d.words, "size: 62 g")
}
