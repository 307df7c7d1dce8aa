package plain_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/tui/track"
)

func TestLinesAndBallsArePutDownByWords(t *testing.T) {
	p, d := piece(t, at(8, 3))
	assert.Equal(t, []string{
		"saved: a lifeline lies in row 7",
		"a lifeline lies in row 7: line 7 out takes it off",
		"saved: a lifeline lies in row 4",
		"saved: a new ball was joined after row 6",
		"row 8 peg 9, 3 of 12 worked", "at row 8 of 13: field, row 4 of 4; 3 ridges; 55%",
		"a lifeline lies in row 4", "a new ball was joined after row 6", "a lifeline lies in row 7",
		"saved: taken off: the lifeline in row 7",
		"no lifeline is put down in row 7",
		"a new ball was joined after row 6: ball 6 out takes it off",
		"saved: taken off: the new ball after row 6",
		"no new ball is put down after row 6",
	}, answers(t, p, "line", "line", "line in row 4", "ball at row 6", "where", "line out", "line 7 out", "ball 6", "ball 6 out", "ball 6 out"))
	assert.Equal(t, []string{
		"safe: line at row 7", "safe: line at row 4", "safe: ball at row 6", "safe: no line at row 7", "safe: no ball at row 6",
	}, d.words, "as the screen keeps them")
	assert.Empty(t, d.events)
}

// Back to the line in row 4 are rows 5 to 7 of 12 stitches, and 3 of row 8.
func TestALinePutDownByWordsIsAWayToMend(t *testing.T) {
	p, _ := piece(t, at(8, 3))
	assert.Contains(t, answers(t, p, "line 4", "mend 6 from 6"),
		"4: take rows back to row 4, the lifeline: 39 stitches to rework, and no loop is lost")
}

func TestALineAndABallOfOneRowAreBothTold(t *testing.T) {
	p, _ := piece(t, at(8, 0))
	p.Notes = []track.Note{{Row: 5, Text: "lifeline here"}, {Row: 2, Text: "new ball"}}
	lines := answers(t, p, "ball", "line", "line 4", "where")
	assert.Equal(t, []string{
		"a new ball was joined after row 1", "a lifeline lies in row 4", "a lifeline lies in row 7", "a new ball was joined after row 7",
	}, lines[len(lines)-4:], "what notes tell of too, and each once")
	p.Saver = newDisk()
	lines = answers(t, p, "go 6", "where")
	assert.Equal(t, "a lifeline lies in row 4", lines[len(lines)-1], "rows that are not worked are no rows to go back to")
	p, _ = piece(t, pattern.Place{Phase: pattern.Finishing})
	p.Notes = []track.Note{{Row: 5, Text: "lifeline here"}}
	assert.NotContains(t, strings.Join(answers(t, p, "where"), "\n"), "lifeline")
}

func TestWhatIsNoSafeRowIsAnswered(t *testing.T) {
	p, d := piece(t, at(8, 3))
	const which = "say the row, or nothing for the last one done: line 18, line 18 out, ball 18"
	assert.Equal(t, []string{"rows 1 to 7 are complete", "rows 1 to 7 are complete", which, which},
		answers(t, p, "line 8", "ball 0", "line here", "line 2 3"))
	assert.Empty(t, d.words)
	p, _ = piece(t, pattern.Place{Phase: pattern.CastingOn, Done: 3})
	assert.Equal(t, []string{"no row on the loom is complete yet"}, answers(t, p, "line"))
	p, _ = piece(t, pattern.Place{Phase: pattern.Finishing})
	const off = "the piece is off the loom: no row is taken back to a line or a ball any more"
	assert.Equal(t, []string{off, off, off}, answers(t, p, "line", "line 3 out", "ball"))
	p, _ = piece(t, at(8, 3))
	p.Saver, p.Held = nil, "open in another terminal"
	assert.Equal(t, []string{"looking only: open in another terminal"}, answers(t, p, "line"))
}
