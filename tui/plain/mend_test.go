package plain_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/plain"
	"bypeg/tui/track"
)

const steering = "an empty line or next goes on, back goes a step back, stop leaves it for later, now says the step again"

// stepsSaid are the steps that lines say, by their numbers.
func stepsSaid(lines []string) []string {
	var steps []string
	for _, line := range lines {
		if head, _, ok := strings.Cut(line, ": "); ok && strings.HasPrefix(head, "step ") {
			steps = append(steps, head)
		}
	}
	return steps
}

// Rows 6 and 7 are knit on peg 6, which lies in the field: two rungs, knit both, as they look
// from the front (published: a knit shows a V there). To take two rows of 12 pegs back is 24 stitches.
func TestAColumnIsFormedAgainByWords(t *testing.T) {
	p, d := piece(t, at(8, 0))
	lines := answers(t, p, "mend 6 from 6", "mend 2", "", "next", "now", "back", "n", "n", "n")
	assert.Equal(t, []string{
		"ways to put peg 6 right from row 6 on, those that serve best first:",
		"1: cover it with 1 duplicate stitch",
		"2: let the column down and form it again: 2 rungs",
		"3: take rows back, 5 left: 24 stitches to rework",
		"4: leave it: few will ever see it",
		"mend and a number begins it",
		"let the column of peg 6 down from row 6 on and form it again: " + steering,
		"saved: begun",
		"step 1 of 4: lift the loop off peg 6 and let it run down 2 rungs, no further: catch the loop of row 5 on the hook",
		"saved: step 1 done",
		"step 2 of 4: row 6: knit: with the rung behind the loop, draw it through to the front, so that a V shows",
		"saved: step 2 done",
		"step 3 of 4: row 7: knit: with the rung behind the loop, draw it through to the front, so that a V shows",
		"step 3 of 4: row 7: knit: with the rung behind the loop, draw it through to the front, so that a V shows",
		"saved: back to step 2",
		"step 2 of 4: row 6: knit: with the rung behind the loop, draw it through to the front, so that a V shows",
		"saved: step 2 done",
		"step 3 of 4: row 7: knit: with the rung behind the loop, draw it through to the front, so that a V shows",
		"saved: step 3 done",
		"step 4 of 4: put the loop back on peg 6, not twisted, and pull the column gently even",
		"saved: all steps done",
	}, lines[:21])
	assert.Equal(t, "turn: row 7 done, yarn at the left, beside the tail", lines[21], "the work stands where it stood, and is said")
	assert.Equal(t, []string{
		"mend: column 6 from row 6, step 0", "mend: column 6 from row 6, step 1", "mend: column 6 from row 6, step 2",
		"mend: column 6 from row 6, step 1", "mend: column 6 from row 6, step 2", "mend: column 6 from row 6, step 3", "mend: ",
	}, d.words, "each step is kept, as the screen keeps it")
	assert.Empty(t, d.events)
	assert.Equal(t, at(8, 0), p.Tracker.Place())
}

// Two rows of 12 stitches are taken back peg by peg, and then it is said what is to be seen.
func TestRowsAreTakenBackByWordsAndTheTrackerFollows(t *testing.T) {
	for _, begin := range [][]string{{"mend back to 6"}, {"mend back 6"}, {"mend back to the start of row 6"}, {"mend peg 6 row 6", "mend 3"}} {
		p, d := piece(t, at(8, 0))
		lines := answers(t, p, slices.Concat(begin, slices.Repeat([]string{""}, 25), []string{"undo"})...)
		steps := stepsSaid(lines)
		require.Len(t, steps, 25, begin)
		assert.Equal(t, "step 25 of 25", steps[24])
		i := slices.Index(lines, "saved: at row 6 peg 12")
		require.Positive(t, i)
		assert.Equal(t, []string{
			"saved: at row 6 peg 12",
			"turn: row 5 done, yarn at the left, beside the tail",
			"then: row 6, left to right: purl 3, pegs 12 to 10",
			"border: purl 3, then the field: knit 6",
			"at row 6 of 13: field, row 2 of 4; 2 ridges; 40%",
			"saved: undone, at row 8 peg 12",
		}, lines[i:i+6], "and undo leads back")
		assert.Equal(t, "a repair is under way: mend goes on with it", lines[len(lines)-1], "to the repair too")
		assert.Equal(t, []track.Event{{Act: track.Jumped, Place: at(6, 0)}, {Act: track.Undone, Place: at(8, 0)}}, d.events)
		assert.Len(t, d.words, 25, "the jump ends the repair")
	}
}

func TestARepairLeftOffIsToldAndGoesOn(t *testing.T) {
	p, d := piece(t, at(8, 0))
	lines := answers(t, p, "mend back to 7", "", "", "stop", "where", "mend", "stop")
	assert.Contains(t, lines, "left at step 3 of 13: mend goes on with it")
	assert.Contains(t, lines, "row 8 peg 12, 0 of 12 worked", "any word does again")
	assert.Equal(t, []string{"step 1 of 13", "step 2 of 13", "step 3 of 13", "step 3 of 13"}, stepsSaid(lines))
	assert.Equal(t, "mend: back to row 7, step 2", d.words[len(d.words)-1])

	p, d = piece(t, at(8, 0)) // as the disk has it
	p.Tracker.Mend(&track.Mending{What: track.TakeBack, Row: 7, Step: 2})
	lines, _ = said(t, p, "mend", "b", "b", "b")
	assert.Equal(t, "a repair is under way: mend goes on with it", lines[1], "the opening says so")
	assert.Equal(t, []string{"step 3 of 13", "step 2 of 13", "step 1 of 13"}, stepsSaid(lines))
	assert.Contains(t, lines, "saved: the repair is given up", "before its first step there is none")
	assert.Equal(t, "mend: ", d.words[len(d.words)-1])

	p, _ = piece(t, at(8, 0))
	p.Tracker.Mend(&track.Mending{Col: 6, Row: 9}) // which is not worked
	assert.Equal(t, []string{"peg 6 can't be let down: row 9 is not worked on it yet: the last one there is 7"}, answers(t, p, "mend"))
	p.Tracker.Mend(&track.Mending{Col: 6, Row: 6, Step: 400})
	assert.Equal(t, []string{"step 4 of 4"}, stepsSaid(answers(t, p, "mend")))
}

func TestNothingIsWorkedWhileARepairIsLedThrough(t *testing.T) {
	p, d := piece(t, at(8, 0))
	lines := answers(t, p, "mend back to 7", "peg", "row 2", "go 3", "\x1b[2Jx", "quit", "mend")
	assert.Equal(t, "peg is not done while a repair is led through: "+steering, lines[3])
	assert.Contains(t, lines[6], "[2jx is not done", "and safely said")
	assert.Len(t, lines, 7, "but it can be left")
	assert.Empty(t, d.events)
}

func TestAPieceOffTheLoomIsFinishedByWords(t *testing.T) {
	for _, word := range []string{"mend", "finish"} {
		p, d := piece(t, pattern.Place{Phase: pattern.Finishing})
		lines := answers(t, p, word, "back", "", "stop", word)
		assert.Equal(t, "finish the piece: "+steering, lines[0])
		assert.Contains(t, lines[2], "pull it gently")
		assert.Equal(t, "this is the first step", lines[3])
		assert.Equal(t, []string{"mend: finish, step 0", "mend: finish, step 1"}, d.words)
		p, d = piece(t, pattern.Place{Phase: pattern.Finishing})
		p.Tracker.Mend(&track.Mending{What: track.Finish, Step: 1})
		lines, _ = said(t, p, append([]string{word}, slices.Repeat([]string{""}, 20)...)...)
		assert.Equal(t, "the finishing is under way: mend goes on with it", lines[1])
		assert.NotContains(t, lines, "mend leads through the finishing, step by step", "that is told where it is not begun")
		assert.Contains(t, lines, "saved: all steps done")
		assert.Equal(t, "mend: ", d.words[len(d.words)-1])
		assert.Nil(t, d.events)
	}
}

func TestWhatCannotBeMendedIsAnsweredWithWhy(t *testing.T) {
	cases := []struct {
		name  string
		typed []string
		says  string
	}{
		{"no such peg", []string{"mend 13 from 2"}, "a peg is a number from 1 to 12"},
		{"a row that is not worked", []string{"mend 6 from 8"}, "on peg 6 rows 1 to 7 are worked: type one of them, like mend 6 from 7"},
		{"nor is row 0", []string{"mend 6 from 0"}, "on peg 6 rows 1 to 7 are worked: type one of them, like mend 6 from 7"},
		{"whole rows, not worked", []string{"mend back to 8"}, "rows 1 to 7 are worked: mend back to 7 takes the newest back"},
		{"nor to row 0", []string{"mend back to 0"}, "rows 1 to 7 are worked: mend back to 7 takes the newest back"},
		{"back to nothing", []string{"mend back"}, "back to which row? mend back to 31 takes rows back to the start of row 31"},
		{"a way before any is said", []string{"mend 2"}, "say first what went wrong: mend 6 from 31 is peg 6 from row 31 on"},
		{"ways that were said elsewhere", []string{"mend 6 from 6", "peg", "mend 2"}, "say first what went wrong: mend 6 from 31 is peg 6 from row 31 on"},
		{"no such way", []string{"mend 6 from 6", "mend 5"}, "there are ways 1 to 4"},
		{"a way that is no work on the loom", []string{"mend 6 from 6", "mend 1"}, "nothing on the loom changes by that: the work goes on"},
		{"a peg and no row", []string{"mend peg 6"}, "mend pegs: which pegs of this row take what; mend ahead: which may be wrapped ahead; mend borders: the top border beside the bottom one"},
		{"other words", []string{"mend the heel"}, "mend pegs: which pegs of this row take what; mend ahead: which may be wrapped ahead; mend borders: the top border beside the bottom one"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p, d := piece(t, at(8, 0))
			lines := answers(t, p, c.typed...)
			assert.Equal(t, c.says, lines[len(lines)-1])
			assert.Empty(t, d.words)
		})
	}
	p, _ := piece(t, pattern.Place{Phase: pattern.Finishing})
	lines := answers(t, p, "mend 6 from 6", "mend 4")
	assert.Equal(t, "the piece is off the loom: there is nothing to put loops back on", lines[len(lines)-1], "a way that is refused says why")
}

func TestHelpTellsAllOfAWord(t *testing.T) {
	p, _ := piece(t, at(8, 0))
	assert.Equal(t, []string{"row [3]: to the end of the row"}, answers(t, p, "help row"))
	assert.Equal(t, answers(t, p, "mend nothing"), answers(t, p, "help mend")[1:], "all that can stand behind it")
	assert.Len(t, answers(t, p, "? m"), 5)
	assert.Equal(t, []string{"purl is no word here: help lists them"}, answers(t, p, "help purl"))
	assert.Contains(t, answers(t, p, "help"), "row [3]: to the end of the row")
}

func TestNotesTellTheTalkSafeRows(t *testing.T) {
	p, _ := piece(t, at(8, 0))
	p.Notes = []track.Note{{Row: 5, Text: "lifeline here"}}
	assert.Contains(t, strings.Join(answers(t, p, "mend 6 from 6"), "\n"), "take rows back to row 4, the lifeline: 36 stitches to rework, and no loop is lost")
}

// Peg 2 lies in the garter side: row 7 knit, row 6 purl, and so on down (published: a purl
// shows a bump in front). In one that shows a V too much the newest odd one out is named.
func TestAColumnIsComparedByWords(t *testing.T) {
	const how = "say the peg and what its column shows from the front, the newest first: mend compare 6 vvbv; " +
		"v is a V, b a bump, ? what can't be told, .. behind it where you stopped; up before it counts from the cast-on"
	for _, c := range []struct {
		typed string
		says  []string
	}{
		{"mend compare 2 up vbvbvbv", []string{"as far as you counted nothing is wrong"}},
		{"mend compare 2 up vbvbvbb", []string{"the first difference is in row 7 of peg 2", "a wrong stitch in row 7 on peg 2", "mend 2 from 7 says how to put it right"}},
		{"mend compare 2 vbvb", []string{"as far as you counted nothing is wrong"}},
		{"mend compare peg 2 v b v b", []string{"as far as you counted nothing is wrong"}},
		{"mend compare 2=vbvb", []string{"as far as you counted nothing is wrong"}},
		{"mend compare 2 vbvvvbv", []string{"the first difference is in row 4 of peg 2", "a wrong stitch in row 4 on peg 2", "mend 2 from 4 says how to put it right"}},
		{"mend compare 2 vbvb 13 v", []string{"there is no peg 13: the pattern has 12"}},
		{"mend compare", []string{how}},
		{"mend compare vbvb", []string{how}},
		{"mend compare 2", []string{how}},
	} {
		p, d := piece(t, at(8, 0))
		assert.Equal(t, c.says, answers(t, p, c.typed), c.typed)
		assert.Empty(t, d.words)
	}
	for _, c := range []struct{ typed, says string }{
		{"mend compare 2 vbvv..", "peg 3 too: mend compare 2 vbvv.. 3 and what peg 3 shows"},
		{"mend compare 2 up bbbb", "peg 3 too: mend compare 2 up bbbb 3 and what peg 3 shows"},
		{"mend compare 12 up bbbb 1 up bbbb", "peg 2 too: mend compare 12 up bbbb 1 up bbbb 2 and what peg 2 shows"},
		{"mend compare 1 up bbbb 2 up bbbb 3 up bbbb 4 up bbbb..", "peg 5 too: the same line with 5 and what peg 5 shows behind it"},
	} {
		p, _ := piece(t, at(8, 0))
		lines := answers(t, p, c.typed)
		assert.Equal(t, c.says, lines[len(lines)-1], c.typed)
	}
	all := "mend compare"
	for peg := range 12 {
		all += fmt.Sprintf(" %d up bbbb", peg+1)
	}
	p, _ := piece(t, at(8, 0))
	assert.Equal(t, "no one slip explains that: count again, or count the next peg too", answers(t, p, all)[1], "no peg is left to count")
	assert.Len(t, answers(t, p, all), 2)
	p, _ = piece(t, at(8, 0))
	lines := answers(t, p, "mend compare 2 vbvvvbv 6 vvvbvbv")
	assert.Equal(t, []string{"a wrong stitch in row 4 on peg 2", "mend 2 from 4 says how to put it right"}, lines[1:], "the next peg tells more: there row 4 is as it should be")
}

func TestBordersAndWrapsAreSaidInTheTalk(t *testing.T) {
	p, _ := piece(t, at(8, 0))
	assert.Equal(t, []string{
		"the bottom border has 2 ridges, the cast-on edge not counted",
		"the top border begins with row 9: 2 ridges",
	}, answers(t, p, "mend borders")[:2])
	assert.Equal(t, []string{"nothing can be wrapped ahead here: peg 12 takes no knit in this row"}, answers(t, p, "mend ahead"))
	assert.Equal(t, []string{"purl on pegs 1 to 3, 10 to 12", "knit on all other pegs"}, answers(t, p, "mend pegs"))
	p, _ = piece(t, pattern.Start())
	assert.Equal(t, []string{"no row is in hand"}, answers(t, p, "mend pegs"))
}

// A hand that goes through the steps by empty lines goes one too far: it works no peg.
func TestAnEmptyLineTooManyWorksNoPeg(t *testing.T) {
	p, d := piece(t, at(8, 0))
	lines := answers(t, p, "mend 6 from 7", "mend 1", "", "", "", "", " ")
	assert.Equal(t, []string{"no step is left: from here on an empty line is a peg again", "saved: row 8, purl 1, peg 12"}, lines[len(lines)-3:len(lines)-1])
	assert.Len(t, d.events, 1)
	p, d = piece(t, at(8, 0))
	answers(t, p, "mend 6 from 7", "mend 1", "", "", "", "peg", "")
	assert.Len(t, d.events, 2, "a word that is typed out is meant")
}

func TestWhateverIsTypedBehindMendIsAnswered(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.StringMatching(`([0-9]{1,20}|[a-z]{1,4}|from|row|back|compare|=|\?|\.\.|-1| ){0,8}`).Draw(rt, "text")
		p, d := piece(t, at(8, 3))
		lines := answers(t, p, "mend "+text, "stop", "line "+text)
		require.NotEmpty(rt, lines)
		require.Empty(rt, d.events, "nothing moves before the last step")
	})
}

// Who only looks is told the steps, and moves nothing.
func TestWhoOnlyLooksReadsTheSteps(t *testing.T) {
	p, _ := piece(t, at(8, 0))
	p.Saver, p.Held = nil, "open in another terminal"
	lines, _ := said(t, p, append([]string{"mend back to 7"}, slices.Repeat([]string{""}, 14)...)...)
	assert.Len(t, stepsSaid(lines), 13)
	assert.Equal(t, "looking only: open in another terminal", lines[len(lines)-1])
	assert.NotContains(t, strings.Join(lines, "\n"), "saved")
	assert.Equal(t, at(8, 0), p.Tracker.Place())
	p, _ = piece(t, at(8, 0))
	p.Saver = nil
	n := 0
	p.Moved = func() bool { n++; return n == 3 }
	lines, e := said(t, p, "mend back to 7", "", "", "")
	assert.Equal(t, plain.Moved, e)
	assert.Equal(t, []string{"step 1 of 13", "step 2 of 13"}, stepsSaid(lines), "the step was meant for another place")
}

// The cast-on of 12 loops is led through from the loop that comes next, as the pegs have it.
func TestCastOnAndBindOffGoStepByStepInTheTalk(t *testing.T) {
	p, d := piece(t, pattern.Place{Phase: pattern.CastingOn, Done: 10})
	lines := answers(t, p, "mend", "mend 6 from 1", "mend cast on", "", "")
	assert.Equal(t, []string{"mend cast on: the cast-on step by step", "on peg 6 no row is worked yet", "cast on, step by step: " + steering}, lines[:3])
	assert.Equal(t, []track.Event{{Act: track.Jumped, Place: at(1, 0)}}, d.events)
	assert.Contains(t, lines, "saved: at row 1 peg 1")
	assert.Len(t, stepsSaid(lines), 2, "pegs 2 and 1 are left")

	p, d = piece(t, pattern.Place{Phase: pattern.BindingOff})
	lines = answers(t, p, slices.Concat([]string{"mend", "mend gather", "mend bind off"}, slices.Repeat([]string{""}, 60))...)
	assert.Equal(t, "mend bind off: the bind-off step by step", lines[0])
	assert.Contains(t, lines, "saved: at finished")
	assert.Equal(t, []track.Event{{Act: track.Jumped, Place: pattern.Place{Phase: pattern.Finishing}}}, d.events[:1])

	p, _ = piece(t, at(8, 0))
	assert.Equal(t, []string{"all loops are on by now: go on with the rows"}, answers(t, p, "mend cast on"))
}

// Whatever is typed, what the disk was handed leads a tracker to where the talk's stands: to
// the place, the repair and the safe rows.
func TestAnyMendingIsKept(t *testing.T) {
	words := []string{"", "", "next", "back", "stop", "mend", "mend 2", "mend 3", "mend back to 2", "mend 2 from 1", "mend cast on", "mend bind off", "line", "line out", "ball", "undo", "redo", "row", "row 3", "peg", "go 2", "back row"}
	rapid.Check(t, func(rt *rapid.T) {
		p := patterntest.Build(t, patterntest.Plans().Draw(rt, "plan"))
		o := pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(rt, "way")}
		typed := append([]string{"row 3"}, rapid.SliceOfN(rapid.SampledFrom(words), 0, 40).Draw(rt, "typed")...)
		d := newDisk()
		got := track.New(o, pattern.Start(), track.DefaultLead)
		lines, _ := said(t, plain.Piece{Piece: track.Piece{Title: p.Title, Tracker: got, Saver: d}}, typed...)
		want := track.New(o, pattern.Start(), track.DefaultLead)
		want.Replay(d.all)
		require.Equal(rt, want.Place(), got.Place())
		require.Equal(rt, want.Mending(), got.Mending())
		require.Equal(rt, want.Safe(), got.Safe())
		for _, line := range lines {
			require.NotEmpty(rt, line)
		}
	})
}

// Whatever is refused by the disk is told as not saved, and the steps can be gone on with.
func TestARepairThatIsNotSavedSaysSo(t *testing.T) {
	p, d := piece(t, at(8, 0))
	d.set(fmt.Errorf("no room"), false)
	lines := answers(t, p, "mend back to 7", "")
	assert.Equal(t, []string{"step 1 of 13", "step 2 of 13"}, stepsSaid(lines))
	assert.NotContains(t, strings.Join(lines, "\n"), "saved: ")
	assert.Contains(t, lines[1], "NOT SAVED: ")
}
