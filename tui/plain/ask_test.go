package plain_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/tui/track"
)

// A place that was lost is found by answers: two ridges are four rows or five, and the yarn's
// side tells which, for it changes with every row (common practice, no source).
func TestALostPlaceIsFoundByAnswers(t *testing.T) {
	p, d := piece(t, at(7, 3))
	lines := answers(t, p, "ask", "left", "bogus", "2", "1", "undo")
	assert.Equal(t, []string{
		"the place from the fabric: type an answer; an empty line passes a question over, back takes an answer back, stop leaves it",
		"where does the working yarn hang, as you look at the loom: at the left end, at the right end, or between two pegs? (left, right or between)",
	}, lines[:2])
	assert.Contains(t, lines, `"bogus" is no answer to that: write a number`)
	assert.Contains(t, lines, "1: 5 rows are done: next is row 6, left to right: purl 3, knit 6, purl 3; the yarn hangs at the left, where the tail is; "+
		"what was counted after that, up to row 7 peg 4, is not in the fabric")
	assert.Contains(t, lines, "2: or row 8, if there is one ridge more")
	assert.Contains(t, lines, "yes goes to the first, 2 to the other; stop stays where you were")
	assert.Contains(t, lines, "saved: at row 6 peg 12")
	require.Len(t, d.events, 2)
	assert.Equal(t, track.Event{Act: track.Jumped, Place: at(6, 0)}, d.events[0])
	assert.Equal(t, track.Event{Act: track.Undone, Place: at(7, 3)}, d.events[1], "a wrong guess is one undo away")
}

func TestLookingForThePlaceCanBeLeft(t *testing.T) {
	p, d := piece(t, at(7, 3))
	lines := answers(t, p, "ask", "", "left", "back", "stop", "now")
	assert.Empty(t, d.events)
	assert.Contains(t, lines, "now: knit 9, pegs 4 to 12; 3 of 12 worked")
	lines = answers(t, p, "ask", "left", "40", "9", "stop")
	assert.Contains(t, lines, "no place agrees with all of it; these agree but for one thing, the likeliest first:")
	assert.Contains(t, lines, "and 4 rows more")
	assert.Contains(t, lines, "type a number from 1 to 3, back or stop")
	p.Saver = nil
	p.Held = "open in another terminal"
	lines, _ = said(t, p, "ask", "left", "2", "1")
	assert.Equal(t, "looking only: open in another terminal", lines[len(lines)-1])
}

// How a place that was found differs from the one counted is said beside it, and yes takes the
// one place that is left.
func TestYesTakesTheOnePlaceFound(t *testing.T) {
	for counted, beside := range map[pattern.Place]string{
		at(6, 0): "that is where you left off", at(3, 0): "you are further than the program thought: 3 rows more",
	} {
		for _, yes := range []string{"yes", "y"} {
			p, d := piece(t, counted)
			lines := answers(t, p, "ask", "left", "2", yes)
			assert.Contains(t, strings.Join(lines, "\n"), "where the tail is; "+beside+"\n")
			if counted != at(6, 0) {
				require.Len(t, d.events, 1)
				assert.Equal(t, at(6, 0), d.events[0].Place)
			}
		}
	}
	p, d := piece(t, at(7, 3))
	lines := answers(t, p, "ask", "left", "2", "3", "40", "stop")
	assert.Contains(t, lines, "type yes, 2, back or stop")
	assert.Empty(t, d.events)
	lines = answers(t, p, "ask", "left", "40", "yes", "stop")
	assert.Contains(t, lines, "type a number from 1 to 3, back or stop", "yes is no place of several")
}

func TestQuitLeavesTheTalkWhileThePlaceIsLookedFor(t *testing.T) {
	for _, quit := range []string{"quit", "q"} {
		for _, before := range [][]string{{"ask"}, {"ask", "left"}, {"ask", "left", "2"}} {
			p, d := piece(t, at(7, 3))
			lines, _ := said(t, p, append(before, quit, "row", "row")...)
			assert.Empty(t, d.events, "what comes after it is not taken")
			assert.NotContains(t, strings.Join(lines, "\n"), "is no answer")
		}
	}
}

// How many rows are left is said after an answer, not after a question that was passed over.
func TestPassingOverTellsNothing(t *testing.T) {
	p, _ := piece(t, at(7, 3))
	lines := answers(t, p, append(append([]string{"ask"}, make([]string, 20)...), "stop")...)
	said := strings.Join(lines, "\n")
	assert.NotContains(t, said, "agree with that")
	assert.Contains(t, lines, "these agree with what was answered, the likeliest first:")
	assert.Contains(t, said, "that is where you left off")
}

// A piece that is off the loom has no yarn to be asked for, and one being bound off is asked
// how far that has come.
func TestAskingOfAPieceThatIsDone(t *testing.T) {
	p, d := piece(t, pattern.Place{Phase: pattern.Finishing})
	lines := answers(t, p, "ask", "now")
	assert.Equal(t, []string{"this piece is off the loom: there is no place on it to look for", "now: weave in the tails"}, lines[:2])
	assert.Empty(t, d.events)
	p, d = piece(t, pattern.Place{Phase: pattern.BindingOff, Done: 3})
	lines = answers(t, p, "ask", "4", "yes")
	assert.NotContains(t, strings.Join(lines, "\n"), "yarn hang")
	require.Len(t, d.events, 1)
	assert.Equal(t, pattern.Place{Phase: pattern.BindingOff, Done: 5}, d.events[0].Place)
}

// One wrong answer leads to one place as surely as right ones do: the near one is gone to by its
// number.
func TestTheNearPlaceCanBeGoneTo(t *testing.T) {
	p, d := piece(t, at(7, 3))
	lines := answers(t, p, "ask", "left", "2", "2")
	assert.Contains(t, lines, "2: or row 8, if there is one ridge more")
	require.Len(t, d.events, 1)
	assert.Equal(t, at(8, 0), d.events[0].Place)
}
