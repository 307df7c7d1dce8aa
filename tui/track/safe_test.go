package track_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/tui/track"
)

func TestASafeRowIsReadAsItIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := track.Safe{
			Safe: mend.Safe{Row: rapid.IntRange(0, 100_000).Draw(t, "row"), Kind: rapid.SampledFrom([]mend.SafeKind{mend.Lifeline, mend.Join}).Draw(t, "kind")},
			Out:  rapid.Bool().Draw(t, "out"),
		}
		read, ok := track.ParseSafe(s.String())
		assert.True(t, ok)
		assert.Equal(t, s, read)
	})
	for _, text := range []string{"", "line", "line at row x", "no no line at row 3", "lifeline at row 3"} {
		_, ok := track.ParseSafe(text)
		assert.False(t, ok, text)
	}
}

func fromRow5(t testing.TB) *track.Tracker {
	return track.New(frame(t, pattern.RightHand), at(5, 0), 2)
}

// secured is a tracker at the start of row 9 with lines in rows 4 and 8 and a ball joined
// after row 6, and what happened until then.
func secured(t testing.TB) (*track.Tracker, []track.Event) {
	tr := fromRow5(t)
	var events []track.Event
	keep := func(e track.Event, ok bool) {
		assert.True(t, ok)
		events = append(events, e)
	}
	here := func(k mend.SafeKind) {
		s, ok := tr.SafeHere(k)
		keep(tr.Secure(s), ok)
	}
	here(mend.Lifeline)
	keep(tr.Do(track.OneRow))
	keep(tr.Do(track.OneRow))
	here(mend.Join)
	keep(tr.Do(track.OneRow))
	keep(tr.Do(track.OneRow))
	here(mend.Lifeline)
	return tr, events
}

var (
	line4 = mend.Safe{Row: 4}
	ball6 = mend.Safe{Row: 6, Kind: mend.Join}
	line8 = mend.Safe{Row: 8}
)

func TestLinesLieInTheLastCompleteRow(t *testing.T) {
	tr, events := secured(t)
	assert.Equal(t, []mend.Safe{line4, ball6, line8}, tr.Safe())
	tr.Do(track.OnePeg)
	s, ok := tr.SafeHere(mend.Lifeline)
	assert.True(t, ok)
	assert.Equal(t, track.Safe{Safe: line8, Out: true}, s, "within row 9 the line still lies in row 8, and once more takes it out")
	assert.Equal(t, "taken off: the lifeline in row 8", tr.SaySecured(s))
	tr.Secure(s)
	assert.Equal(t, []mend.Safe{line4, ball6}, tr.Safe())

	again := fromRow5(t)
	again.Replay(events)
	assert.Equal(t, []mend.Safe{line4, ball6, line8}, again.Safe())

	_, ok = track.New(tr.Order(), pattern.Start(), 2).SafeHere(mend.Lifeline)
	assert.False(t, ok, "no row is there yet")
}

// Undo of the work is no undo of the thread: it lies there still.
func TestUndoLeavesTheLineIn(t *testing.T) {
	tr, _ := secured(t)
	for range 4 {
		tr.Do(track.Undo)
	}
	tr.Do(track.OneRow)
	assert.Equal(t, []mend.Safe{line4, ball6, line8}, tr.Safe())
}

// Rows that are taken back take their lines with them, and undo brings both back, live and
// as replayed.
func TestTakingRowsBackPullsTheirLines(t *testing.T) {
	tr, events := secured(t)
	events = append(events, tr.Mend(&track.Mending{What: track.TakeBack, Row: 7, Step: 3}))
	do := func(e track.Event, ok bool) {
		assert.True(t, ok)
		events = append(events, e)
	}
	check := func(says string, want []mend.Safe, repair bool) {
		t.Helper()
		assert.Equal(t, want, tr.Safe(), says)
		assert.Equal(t, repair, tr.Mending() != nil, says)
		again := fromRow5(t)
		again.Replay(events)
		assert.Equal(t, want, again.Safe(), "replayed: "+says)
		assert.Equal(t, tr.Mending(), again.Mending(), "replayed: "+says)
		assert.Equal(t, tr.Place(), again.Place(), "replayed: "+says)
	}
	do(tr.Complete(at(7, 0)))
	check("rows 8 and 7 are off", []mend.Safe{line4, ball6}, false)
	do(tr.Do(track.Undo))
	check("undone", []mend.Safe{line4, ball6, line8}, true)
	do(tr.Do(track.Redo))
	check("redone", []mend.Safe{line4, ball6}, false)
	do(tr.Do(track.OnePeg))
	do(tr.Do(track.Undo))
	do(tr.Do(track.Undo))
	check("undone past later work", []mend.Safe{line4, ball6, line8}, true)
	do(tr.Do(track.OnePeg))
	check("worked on without the repair", []mend.Safe{line4, ball6, line8}, false)
}

// A ball joined between undo and redo goes with its row too.
func TestRedoPullsWhatWasPutDownSince(t *testing.T) {
	tr, _ := secured(t)
	tr.Mend(&track.Mending{What: track.TakeBack, Row: 7})
	tr.Complete(at(7, 0))
	tr.Do(track.Undo)
	s, _ := tr.SafeHere(mend.Join) // a ball joined after row 8
	tr.Secure(s)
	tr.Do(track.Redo)
	assert.Equal(t, []mend.Safe{line4, ball6}, tr.Safe(), "row 8 is off the loom")
}

// A line that was taken off by hand between undo and redo stays off.
func TestUndoBringsBackOnlyWhatItPulled(t *testing.T) {
	tr, _ := secured(t)
	tr.Mend(&track.Mending{What: track.TakeBack, Row: 7})
	tr.Complete(at(7, 0))
	tr.Do(track.Undo)
	tr.Secure(track.Safe{Safe: line8, Out: true})
	tr.Do(track.Redo)
	tr.Do(track.Undo)
	assert.Equal(t, []mend.Safe{line4, ball6}, tr.Safe())
}

// Whoever comes back is told of the safe row nearest below the work.
func TestTheNearestSafeRowBelowIsTold(t *testing.T) {
	tr, _ := secured(t)
	tr.Jump(at(5, 0))
	assert.Contains(t, strings.Join(tr.SayKept(), " "), "row 4", "row 5 is in hand, rows 1 to 4 are done")
}

// A line in the very row that is worked anew goes; one in the row below stays.
func TestTheRowThatIsWorkedAnewLosesItsLine(t *testing.T) {
	tr, _ := secured(t)
	m := track.BackTo(8)
	tr.Mend(&m)
	tr.Complete(at(8, 0))
	assert.Equal(t, []mend.Safe{line4, ball6}, tr.Safe())
	tr, _ = secured(t)
	m = track.BackTo(9)
	tr.Do(track.OnePeg)
	tr.Mend(&m)
	tr.Complete(at(9, 0))
	assert.Equal(t, []mend.Safe{line4, ball6, line8}, tr.Safe())
}

// Only a completed repair pulls lines: a mere jump is no ripping.
func TestAJumpPullsNoLine(t *testing.T) {
	tr, _ := secured(t)
	m := track.BackTo(7)
	tr.Mend(&m)
	tr.Jump(at(7, 0))
	assert.Equal(t, []mend.Safe{line4, ball6, line8}, tr.Safe())
}

// While loops are bound off a line may still go in; off the loom none.
func TestALineGoesInWhileLoopsAreOn(t *testing.T) {
	o := frame(t, pattern.RightHand)
	s, ok := track.New(o, pattern.Place{Phase: pattern.BindingOff, Done: 1}, 2).SafeHere(mend.Lifeline)
	assert.True(t, ok)
	assert.Equal(t, o.Pattern.Grid.Rows(), s.Row)
	_, ok = track.New(o, pattern.Place{Phase: pattern.Finishing}, 2).SafeHere(mend.Lifeline)
	assert.False(t, ok)
}

// A note on row 1 tells of no row below it.
func TestSafeRowsOfNotes(t *testing.T) {
	notes := []track.Note{{Row: 1, Text: "lifeline"}, {Row: 2, Text: "lifeline"}, {Row: 9, Text: "new ball at row 5"}, {Row: 7, Text: "no line"}}
	assert.Equal(t, []mend.Safe{{Row: 1}, {Row: 5, Kind: mend.Join}}, track.SafeRows(notes))
}
