package plain_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/pattern/safetext"
	"bypeg/tui/plain"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// disk is a saver in memory. What is put is safe at once, unless it is full.
type disk struct {
	mu     sync.Mutex
	full   error // why nothing is saved
	mute   bool  // it does not answer
	all    []track.Event
	events []track.Event
	words  []string
	puts   int
	safe   int
	acks   chan track.Saved
}

func newDisk() *disk { return &disk{acks: make(chan track.Saved, 10_000)} }

func (d *disk) Put(e track.Event) {
	d.take(func() {
		d.all = append(d.all, e)
		switch {
		case e.Act == track.Secured:
			d.words = append(d.words, "safe: "+e.Safe.String())
		case e.Act == track.Mended && e.Mending == nil:
			d.words = append(d.words, "mend: ")
		case e.Act == track.Mended:
			d.words = append(d.words, "mend: "+e.Mending.String())
		default:
			d.events = append(d.events, e)
		}
	})
}

func (d *disk) Note(at pattern.Place, text string) {
	d.take(func() { d.words = append(d.words, fmt.Sprintf("note on row %d: %s", at.Row, text)) })
}

func (d *disk) Purpose(_ pattern.Place, text string) {
	d.take(func() { d.words = append(d.words, "on purpose: "+text) })
}

func (d *disk) take(keep func()) {
	d.mu.Lock()
	keep()
	d.puts++
	d.mu.Unlock()
	d.Retry()
}

func (d *disk) Retry() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.mute {
		return
	}
	if d.full == nil {
		d.safe = d.puts
	}
	d.acks <- track.Saved{Through: d.safe, Err: d.full}
}

func (d *disk) Next() (track.Saved, bool) {
	w, ok := <-d.acks
	return w, ok
}

func (d *disk) set(full error, mute bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.full, d.mute = full, mute
}

// frame is 12 pegs: two ridges, a field of four rows beside garter sides of three pegs,
// two ridges, and a knit row.
func frame(t testing.TB) pattern.Order {
	p := patterntest.Build(t, patterntest.Frame(12, 3, 2, 4))
	return pattern.Order{Pattern: p, Way: p.Way}
}

func at(row, done int) pattern.Place {
	return pattern.Place{Phase: pattern.Working, Row: row, Done: done}
}

// said is what a talk about a piece says, line by line, when these lines are typed.
func said(t testing.TB, p plain.Piece, typed ...string) (lines []string, e plain.Ending) {
	t.Helper()
	var out strings.Builder
	var in strings.Builder
	for _, line := range typed {
		in.WriteString(line + "\n")
	}
	c := plain.NewConsole(t.Context(), strings.NewReader(in.String()), &out, plain.Terminal{})
	talk := plain.New(p, c, plain.Options{})
	defer talk.Close()
	e = talk.Run()
	require.NoError(t, talk.Err())
	return strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n"), e
}

// answers are the lines that what was typed led to: without those of the opening.
func answers(t testing.TB, p plain.Piece, typed ...string) []string {
	t.Helper()
	looked := p
	looked.Saver, looked.Moved = nil, nil
	opening, _ := said(t, looked)
	lines, _ := said(t, p, typed...)
	require.Equal(t, opening, lines[:len(opening)])
	return lines[len(opening):]
}

func piece(t testing.TB, place pattern.Place) (plain.Piece, *disk) {
	d := newDisk()
	return plain.Piece{Piece: track.Piece{Title: "Weir Mat", Tracker: track.New(frame(t), place, 2), Saver: d}}, d
}

func TestOpeningSaysAllThatIsToBeKnown(t *testing.T) {
	p, _ := piece(t, at(6, 7))
	p.Notices = []string{"an interrupted line was skipped; nothing saved was lost"}
	p.Purpose = []string{"third ridge left out"}
	p.Notes = []track.Note{{Row: 6, Text: "tight"}}
	lines, e := said(t, p)
	assert.Equal(t, plain.Left, e, "the end of what is typed leaves")
	assert.Equal(t, []string{
		"Weir Mat: row 6 peg 5",
		"an interrupted line was skipped; nothing saved was lost",
		"on purpose: third ridge left out",
		"at row 6 of 13: field, row 2 of 4; 2 ridges; 43%",
		"now: knit 2, pegs 5, 4; 7 of 12 worked",
		"border in 2 pegs: purl 3",
		"note: tight",
	}, lines)
}

func TestCommandsAreAnsweredInWords(t *testing.T) {
	cases := []struct {
		name  string
		at    pattern.Place
		typed []string
		says  []string
	}{
		{"a peg within a run: what is left of it", at(6, 3), []string{""}, []string{
			"saved: row 6, knit 1, peg 9", "now: knit 5, pegs 8 to 4"}},
		{"the border comes nearer peg by peg", at(6, 6), []string{"", "", "", "", ""}, []string{
			"saved: row 6, knit 1, peg 6", "now: knit 2, pegs 5, 4", "border in 2 pegs: purl 3",
			"saved: row 6, knit 1, peg 5", "now: knit 1, peg 4", "border in 1 peg: purl 3",
			"saved: row 6, knit 1, peg 4", "now: purl 3, pegs 3 to 1", "border: purl 3, then turn",
			"saved: row 6, purl 1, peg 3", "now: purl 2, pegs 2, 1",
			"saved: row 6, purl 1, peg 2", "now: purl 1, peg 1"}},
		{"a row's end: the turn, the next row, how far it is", at(6, 9), []string{"run"}, []string{
			"saved: row 6, purl 3, pegs 3 to 1",
			"turn: row 6 done, yarn at the right, away from the tail",
			"then: row 7, right to left: knit all 12, pegs 1 to 12",
			"at row 7 of 13: field, row 3 of 4; 3 ridges; 46%"}},
		{"a whole row says what it was", at(6, 0), []string{"row"}, []string{
			"saved: row 6, purl 3, pegs 12 to 10; knit 6, pegs 9 to 4; purl 3, pegs 3 to 1",
			"turn: row 6 done, yarn at the right, away from the tail",
			"then: row 7, right to left: knit all 12, pegs 1 to 12",
			"at row 7 of 13: field, row 3 of 4; 3 ridges; 46%"}},
		{"several pegs are told as one stretch", at(6, 1), []string{"peg 4"}, []string{
			"saved: row 6, purl 2, pegs 11, 10; knit 2, pegs 9, 8", "now: knit 4, pegs 7 to 4", "then: purl 3, pegs 3 to 1"}},
		{"several rows one by one", at(1, 0), []string{"row 2"}, []string{
			"saved: row 1, knit all 12, pegs 1 to 12", "saved: row 2, purl all 12, pegs 12 to 1",
			"turn: row 2 done, yarn at the right, away from the tail",
			"then: row 3, right to left: knit all 12, pegs 1 to 12",
			"at row 3 of 13: bottom border, row 3 of 4; 1 ridge; 20%"}},
		{"back says where", at(6, 5), []string{"back 2", "back run", "back row 2"}, []string{
			"saved: back to row 6 peg 9", "now: knit 6, pegs 9 to 4",
			"saved: back to row 6 peg 12", "turn: row 5 done, yarn at the left, beside the tail",
			"then: row 6, left to right: purl 3, pegs 12 to 10", "border: purl 3, then the field: knit 6",
			"saved: back to row 4 peg 12", "turn: row 3 done, yarn at the left, beside the tail",
			"then: row 4, left to right: purl all 12, pegs 12 to 1", "after this row: field, 4 rows",
			"at row 4 of 13: bottom border, row 4 of 4; 1 ridge; 26%"}},
		{"undo and redo", at(6, 4), []string{"peg", "undo", "redo", "undo 3"}, []string{
			"saved: row 6, knit 1, peg 8", "now: knit 4, pegs 7 to 4",
			"saved: undone, at row 6 peg 8", "now: knit 5, pegs 8 to 4",
			"saved: redone, at row 6 peg 7", "now: knit 4, pegs 7 to 4",
			"saved: undone, at row 6 peg 8", "nothing to undo", "now: knit 5, pegs 8 to 4"}},
		{"along the row", at(6, 4), []string{"right", "left", "left 9"}, []string{
			"saved: row 6, knit 1, peg 8", "now: knit 4, pegs 7 to 4",
			"saved: back to row 6 peg 8", "now: knit 5, pegs 8 to 4",
			"saved: back to row 6 peg 12", "row 6 runs the other way: peg works its first peg, back goes back",
			"turn: row 5 done, yarn at the left, beside the tail", "then: row 6, left to right: purl 3, pegs 12 to 10",
			"border: purl 3, then the field: knit 6"}},
		{"a jump", at(6, 4), []string{"go 8"}, []string{
			"saved: at row 8 peg 12", "turn: row 7 done, yarn at the left, beside the tail",
			"then: row 8, left to right: purl 3, pegs 12 to 10", "border: purl 3, then the field: knit 6",
			"after this row: top border, 2 ridges, as the bottom border",
			"at row 8 of 13: field, row 4 of 4; 3 ridges; 53%"}},
		{"a jump to where one is, and beyond", at(6, 0), []string{"go 6", "go 14"}, []string{
			"this is the start of row 6", "there are rows 1 to 13"}},
		{"the place", at(6, 4), []string{"where"}, []string{
			"row 6 peg 8, 4 of 12 worked", "at row 6 of 13: field, row 2 of 4; 2 ridges; 42%"}},
		{"the chart in words", at(6, 4), []string{"chart", "chart 1", "chart 14"}, []string{
			"row 6, left to right: purl 3, knit 6, purl 3", "below it row 5, right to left: knit all 12",
			"row 1, right to left: knit all 12", "below it the cast-on", "there are rows 1 to 13"}},
		{"all is saved", at(6, 4), []string{"save"}, []string{"all is saved"}},
		{"a word nobody knows changes nothing", at(6, 4), []string{"purl"}, []string{"purl is no word here: help lists them"}},
		{"nor does a line without end", at(6, 4), []string{strings.Repeat("peg ", 10_000)}, []string{"that line is too long: nothing was done"}},
		{"before the first loop", pattern.Start(), []string{"back"}, []string{"this is where the work begins"}},
		{"behind the last", pattern.Place{Phase: pattern.Finishing}, []string{"row 7"}, []string{"the piece is finished"}},
		{"the cast-on", pattern.Start(), []string{"run"}, []string{
			"saved: cast on 3, pegs 12 to 10", "now: cast on 7, pegs 9 to 3"}},
		{"the end of the work", pattern.Place{Phase: pattern.BindingOff, Done: 10}, []string{"", ""}, []string{
			"saved: bind off 1, peg 2", "now: bind off 1, peg 1", "then: work peg 1, its loop onto peg 2, lower over upper, back to peg 1; work it once more, cut, draw it through",
			"saved: bind off 1, peg 1", "now: weave in the tails", "then: rest it flat before you measure it",
			"mend leads through the finishing, step by step"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p, _ := piece(t, c.at)
			got := answers(t, p, c.typed...)
			assert.Equal(t, c.says, got)
		})
	}
}

func TestNotesAreWrittenSaidAndForgotten(t *testing.T) {
	p, d := piece(t, at(5, 11))
	assert.Equal(t, []string{
		"there is no note on this row: note and words make one",
		"there is no note on this row",
		"saved: note: blue \"wool\"",
		"note: blue \"wool\"",
		"nothing was changed on purpose: purpose and words write it down",
		"saved: on purpose: third ridge left out",
		"on purpose: third ridge left out",
		"saved: no note on this row any more",
		"there is no note on this row: note and words make one",
	}, answers(t, p, "note", "forget", "note blue \x1b\"wool\"", "note", "purpose", "purpose third ridge left out", "purpose", "forget", "note"))
	assert.Equal(t, []string{`note on row 5: blue "wool"`, "on purpose: third ridge left out", "note on row 5: "}, d.words)
	p, _ = piece(t, at(5, 11))
	p.Notes = []track.Note{{Row: 6, Text: "tight here"}}
	assert.Contains(t, answers(t, p, "peg"), "note: tight here", "a note comes with its row")
}

func TestAStepIsToldOnlyOnceItIsOnTheDisk(t *testing.T) {
	full := &save.NotSavedError{Saved: at(6, 4), Err: syscall.ENOSPC}
	d := newDisk()
	in, typed := io.Pipe()
	defer typed.Close()
	out := &heard{}
	c := plain.NewConsole(t.Context(), in, out, plain.Terminal{Prompt: "> "})
	talk := plain.New(plain.Piece{Piece: track.Piece{Title: "Weir Mat", Tracker: track.New(frame(t), at(6, 4), 2), Saver: d}}, c, plain.Options{Slow: time.Millisecond})
	defer talk.Close()
	ended := make(chan plain.Ending)
	go func() { ended <- talk.Run() }()
	say := func(line, wants string) {
		t.Helper()
		_, err := io.WriteString(typed, line)
		require.NoError(t, err)
		out.until(t, wants)
	}
	out.until(t, "> ")
	d.set(nil, true)
	say("peg\n", "saving: the disk has not answered yet\n")
	assert.NotContains(t, out.String(), "saved: ", "it is not told as done")
	d.set(full, false)
	d.Retry()
	out.until(t, "NOT SAVED: disk full. Saved: row 6 peg 8. save tries again\nnow: knit 4, pegs 7 to 4\n> ")
	say("peg\n", "NOT SAVED: disk full. Saved: row 6 peg 8. save tries again\nnow: knit 3, pegs 6 to 4\n> ")
	say("where\n", "NOT SAVED: disk full. Saved: row 6 peg 8.\n> ")
	say("quit\n", "2 steps would be lost: save tries again, quit once more leaves all the same\n> ")
	say("save\n", "NOT SAVED: disk full. Saved: row 6 peg 8. save tries again\n> ")
	d.set(nil, false)
	say("save\n", "saved: row 6, knit 2, pegs 8, 7\n> ")
	d.set(full, false)
	say("peg\n", "NOT SAVED: disk full. Saved: row 6 peg 8. save tries again\nnow: ")
	d.set(nil, false)
	d.Retry()
	out.until(t, "> \nsaved: row 6, knit 1, peg 6\n") // unasked, on a line of its own
	d.set(full, false)
	say("peg\n", "NOT SAVED: disk full. Saved: row 6 peg 8. save tries again\nnow: knit 1, peg 4\nborder in 1 peg: purl 3\n> ")
	say("quit\n", "1 step would be lost: save tries again, quit once more leaves all the same\n> ")
	say("quit\n", "")
	assert.Equal(t, plain.Left, <-ended)
}

// heard is what a talk says, as it says it.
type heard struct {
	mu   sync.Mutex
	text strings.Builder
	read int
}

func (h *heard) Write(p []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.Write(p)
}

func (h *heard) String() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.String()
}

// until waits for words behind those waited for before.
func (h *heard) until(t testing.TB, words string) {
	t.Helper()
	require.Eventually(t, func() bool {
		i := strings.Index(h.String()[h.read:], words)
		if i >= 0 {
			h.read += i + len(words)
		}
		return i >= 0
	}, 5*time.Second, time.Millisecond, "%q in %q", words, h)
}

func TestAFileThatChangedUnderneathEndsTheTalk(t *testing.T) {
	p, d := piece(t, at(6, 4))
	d.set(&save.NotSavedError{Saved: at(6, 4), Err: save.ErrChangedUnderneath}, false)
	lines, e := said(t, p, "peg", "peg")
	assert.Equal(t, plain.Changed, e)
	assert.Equal(t, "then: purl 3, pegs 3 to 1", lines[len(lines)-1], "nothing is told as done, nor what would come next")
}

func TestTheFolderThatIsGoneIsToldAndTriedAgain(t *testing.T) {
	p, d := piece(t, at(6, 4))
	d.set(&save.NotSavedError{Saved: at(6, 4), Err: save.ErrChangedUnderneath}, false)
	var out strings.Builder
	talk := plain.New(p, plain.NewConsole(t.Context(), strings.NewReader("peg\n"), &out, plain.Terminal{}), plain.Options{})
	defer talk.Close()
	require.Equal(t, plain.Changed, talk.Run())
	talk.FolderGone()
	assert.Contains(t, out.String(), "NOT SAVED: the piece's folder is gone. It was at row 6 peg 8.\n")
	require.Equal(t, plain.Left, talk.Run(), "it goes on, to the end of what is typed")
}

func TestWhoOnlyLooksChangesNothing(t *testing.T) {
	p, _ := piece(t, at(6, 4))
	p.Saver, p.Held = nil, "open in another terminal (pid 7)"
	const only = "looking only: open in another terminal (pid 7)"
	assert.Equal(t, []string{
		only, only, only, only, only, only,
		"row 6 peg 8, 4 of 12 worked", "at row 6 of 13: field, row 2 of 4; 2 ridges; 42%",
	}, answers(t, p, "peg", "undo", "go 3", "note blue", "purpose all", "forget", "where"))
	assert.Equal(t, at(6, 4), p.Tracker.Place())
	p.Moved = func() bool { return true }
	lines, e := said(t, p, "help", "peg", "where")
	assert.Equal(t, plain.Moved, e)
	assert.Equal(t, only, lines[1])
	assert.NotContains(t, lines, "row 6 peg 8, 4 of 12 worked", "what was typed was meant for another place")
}

func TestASaverThatPanicsIsAWordToo(t *testing.T) {
	p, d := piece(t, at(6, 4))
	p.Saver = panicking{d}
	const torn = "NOT SAVED: saving stopped: torn wire. save tries again"
	lines, e := said(t, p, "peg", "peg", "save")
	assert.Equal(t, plain.Left, e, "nobody waits for a disk that says nothing any more")
	assert.Contains(t, lines, torn)
	assert.Equal(t, torn, lines[len(lines)-1])
}

type panicking struct{ *disk }

func (panicking) Next() (track.Saved, bool) { panic("torn wire") }

func TestOutputThatFailsEndsTheTalk(t *testing.T) {
	p, d := piece(t, at(6, 4))
	c := plain.NewConsole(t.Context(), strings.NewReader("peg\npeg\n"), full{}, plain.Terminal{})
	talk := plain.New(p, c, plain.Options{})
	defer talk.Close()
	assert.Equal(t, plain.Left, talk.Run())
	assert.ErrorContains(t, talk.Err(), "print: no room")
	assert.Empty(t, d.events, "nobody works what is not heard")
	_, ok := c.Choose("which?", nil, []string{"a"})
	assert.False(t, ok)
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestTheEndOfTheContextLeaves(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	in, typed := io.Pipe()
	defer typed.Close()
	p, d := piece(t, at(6, 4))
	d.set(nil, true)
	c := plain.NewConsole(ctx, in, io.Discard, plain.Terminal{})
	talk := plain.New(p, c, plain.Options{})
	defer talk.Close()
	ended := make(chan plain.Ending)
	go func() { ended <- talk.Run() }()
	_, err := io.WriteString(typed, "peg\n") // the disk never answers
	require.NoError(t, err)
	cancel()
	assert.Equal(t, plain.Left, <-ended)
	_, ok := c.Choose("which?", nil, []string{"a"})
	assert.False(t, ok)
}

func TestQuestionsAreAnsweredByANumber(t *testing.T) {
	cases := []struct {
		name, typed string
		want        int
		ok          bool
		says        string
	}{
		{"a number", "2\n", 1, true, ""},
		{"an empty line is no answer", "\n1\n", 0, true, "this is asked first: type the number, 1 to 2\n"},
		{"nor is a step, nor another number", "peg\n3\n0\n2\n", 1, true, strings.Repeat("this is asked first: type the number, 1 to 2\n", 3)},
		{"who leaves gives none", "q\n", 0, false, ""},
		{"nor does the end", "", 0, false, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var out strings.Builder
			console := plain.NewConsole(t.Context(), strings.NewReader(c.typed), &out, plain.Terminal{})
			n, ok := console.Choose("which?", []string{"The fabric knows best."}, []string{"here", "there"})
			assert.Equal(t, c.ok, ok)
			assert.Equal(t, c.want, n)
			assert.Equal(t, "which?\nThe fabric knows best.\n1: here\n2: there\ntype the number, 1 to 2; quit leaves it unanswered\n"+c.says, out.String())
		})
	}
}

// moves are commands, and what they do to the tracker.
var moves = map[string][]track.Action{
	"": {track.OnePeg}, "p": {track.OnePeg}, "peg 3": {track.OnePeg, track.OnePeg, track.OnePeg}, "ru": {track.OneRun}, "row": {track.OneRow},
	"row 2": {track.OneRow, track.OneRow}, "b": {track.PegBack}, "back run": {track.RunBack}, "back row": {track.RowBack},
	"l": {track.GoLeft}, "right 2": {track.GoRight, track.GoRight}, "u": {track.Undo}, "undo 2": {track.Undo, track.Undo}, "redo": {track.Redo},
	"now": nil, "where": nil, "chart": nil, "help": nil, "note": nil, "r": nil, "purl": nil, "note x": nil, "forget": nil, "save": nil,
}

func TestAnyCommandsLeadWhereTheTrackerLeads(t *testing.T) {
	words := slices.Sorted(maps.Keys(moves))
	rapid.Check(t, func(rt *rapid.T) {
		p := patterntest.Build(t, patterntest.Plans().Draw(rt, "plan"))
		o := pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(rt, "way")}
		want := track.New(o, pattern.Start(), track.DefaultLead)
		var events []track.Event
		typed := rapid.SliceOfN(rapid.SampledFrom(words), 0, 40).Draw(rt, "typed")
		for i, w := range typed {
			if rapid.IntRange(0, 9).Draw(rt, "go") == 0 {
				row := rapid.IntRange(1, p.Grid.Rows()).Draw(rt, "row")
				typed[i] = fmt.Sprintf("go %d", row)
				if e, ok := want.Jump(at(row, 0)); ok {
					events = append(events, e)
				}
				continue
			}
			for _, a := range moves[w] {
				e, ok := want.Do(a)
				if !ok {
					break
				}
				events = append(events, e)
			}
		}
		d := newDisk()
		got := track.New(o, pattern.Start(), track.DefaultLead)
		lines, _ := said(t, plain.Piece{Piece: track.Piece{Title: p.Title, Tracker: got, Saver: d}}, typed...)
		require.Equal(rt, want.Place(), got.Place())
		require.Equal(rt, events, d.events)
		for _, line := range lines {
			require.NotContains(rt, line, "\x1b")
			require.NotEmpty(rt, line)
		}
	})
}

func TestNothingThatATerminalObeysIsSaid(t *testing.T) {
	var out strings.Builder
	c := plain.NewConsole(t.Context(), strings.NewReader(""), &out, plain.Terminal{})
	c.Say("a\x1b[2Jb\nsaved: c\rd\u202e\x07", "e")
	assert.Equal(t, "a[2Jb saved: cd\ne\n", out.String(), "and a line is one line")
}

// Lines are broken for whoever looks at them, at any width: no word is cut, none is lost,
// and none stands beyond the edge unless it is longer than a line.
func TestLinesAreBrokenBetweenWords(t *testing.T) {
	for width := range 200 {
		var out strings.Builder
		c := plain.NewConsole(t.Context(), strings.NewReader(""), &out, plain.Terminal{Width: func() int { return width }})
		const says = "cast-on done: yarn at the right, away from the tail; Überlänge und ein-sehr-langes-Wort-ohne-Ende"
		c.Say(says, "")
		text, ended := strings.CutSuffix(out.String(), "\n\n")
		require.True(t, ended)
		assert.Equal(t, says, strings.ReplaceAll(text, "\n  ", " "))
		for line := range strings.SplitSeq(text, "\n") {
			long := len(strings.Fields(line)) == 1
			assert.True(t, width < 16 || long || safetext.Width(line) < width, "%d columns: %q", width, line)
		}
	}
	var out strings.Builder
	c := plain.NewConsole(t.Context(), strings.NewReader(""), &out, plain.Terminal{Width: func() int { return 40 }})
	c.Say("turn: row 1 done, yarn at the left, beside the tail", "then: turn")
	assert.Equal(t, "turn: row 1 done, yarn at the left,\n  beside the tail\nthen: turn\n", out.String())
}
