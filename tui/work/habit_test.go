package work_test

import (
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/look"
	"bypeg/tui/track"
	"bypeg/tui/work"
)

// at a clock of its own, with options.
func openWith(t testing.TB, p track.Piece, o work.Options) *desk {
	d := newDisk()
	k := &desk{t: t, disk: d, now: noon}
	o.Now = func() time.Time { return k.now }
	if p.Saver == nil {
		p.Saver = d
	}
	k.model = work.New(p, style(termenv.Ascii, false), look.NewWorkKeys(), o).SetSize(80, 24)
	return k
}

func clothAt(t testing.TB, place pattern.Place) track.Piece {
	p := cloth(t)
	return track.Piece{Title: p.Title, Tracker: track.New(pattern.Order{Pattern: p, Way: p.Way}, place, track.DefaultLead)}
}

// after lets time pass, then presses a key.
func (d *desk) after(wait time.Duration, k tea.KeyMsg) {
	d.now = d.now.Add(wait)
	d.press(k)
}

func TestASecondWholeRowWithinASecondIsAskedFor(t *testing.T) {
	d := openWith(t, clothAt(t, at(9, 0)), work.Options{DoublePress: time.Second})
	place := func() pattern.Place { return d.model.Tracker().Place() }
	d.press(up)
	assert.Equal(t, at(10, 0), place())
	d.after(300*time.Millisecond, up)
	assert.Equal(t, at(10, 0), place(), "a slip of the hand")
	assert.Contains(t, d.model.View(), "a second row so soon? ↑ again works it")
	d.after(300*time.Millisecond, up)
	assert.Equal(t, at(11, 0), place(), "meant")
	d.after(200*time.Millisecond, up)
	d.after(200*time.Millisecond, up)
	assert.Equal(t, at(13, 0), place(), "somebody is catching up, and is not asked again")
	for range 30 {
		d.after(33*time.Millisecond, up)
	}
	assert.Equal(t, at(13, 0), place(), "a key that is held down repeats, and answers nothing")
	d.after(2*time.Second, down)
	d.press(rune_('U'), rune_('u'))
	d.model.Tracker().Jump(at(13, 0))
	d.after(3*time.Second, up)
	d.after(200*time.Millisecond, up)
	assert.Equal(t, at(14, 0), place(), "after a while they are")
	d.after(90*time.Second, up)
	assert.Equal(t, at(15, 0), place(), "a slip that was not meant leaves nothing behind")
	d.after(100*time.Millisecond, space)
	d.after(100*time.Millisecond, space)
	assert.Equal(t, at(15, 2), place(), "pegs are never asked about")
	d.after(100*time.Millisecond, up)
	assert.Equal(t, at(16, 0), place(), "nor is the rest of a row")
	d.after(80*time.Millisecond, up)
	assert.Equal(t, at(16, 0), place(), "but a whole one right behind it is")
	d.after(5*time.Second, down)
	d.press(down)
	assert.Equal(t, at(14, 0), place(), "nor is taking back")
}

func TestARestIsSuggestedOnceAtTheEndOfARow(t *testing.T) {
	d := openWith(t, clothAt(t, at(9, 0)), work.Options{Pause: 45 * time.Minute})
	const rest = "45 minutes without a pause: rest your hands, here at the row's end"
	for range 2 * 26 { // two rows at a minute a peg
		d.after(time.Minute, space)
		if d.model.Tracker().Place().Row < 11 {
			assert.NotContains(t, d.model.View(), rest)
		}
	}
	require.Equal(t, at(11, 0), d.model.Tracker().Place())
	assert.Contains(t, d.model.View(), rest)
	for range 3 * 26 {
		d.after(time.Minute, space)
		assert.NotContains(t, d.model.View(), rest, "once")
	}
	d.after(20*time.Minute, space)
	for range 25 + 26 {
		d.after(time.Minute, space)
	}
	assert.Contains(t, d.model.View(), rest, "and again after as long")
}

func TestTheBellRingsWhereABorderComes(t *testing.T) {
	rung := 0
	d := openWith(t, clothAt(t, at(18, 18)), work.Options{Bell: func() { rung++ }})
	step := func(k tea.KeyMsg) int {
		before := rung
		d.press(k)
		ring(d.cmd)
		return rung - before
	}
	assert.Equal(t, 0, step(space), "19 of 26")
	assert.Equal(t, 0, step(space), "20")
	assert.Equal(t, 1, step(space), "21: the border in two pegs")
	assert.Equal(t, 0, step(space), "22: still")
	assert.Equal(t, 1, step(space), "23: at it")
	assert.Equal(t, 0, step(space), "24: still")
}

// ring runs what a step led to; the words of a late disk are not waited for.
func ring(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	done := make(chan tea.Msg, 1)
	go func() { done <- cmd() }()
	select {
	case msg := <-done:
		if batch, ok := msg.(tea.BatchMsg); ok {
			for _, c := range batch {
				ring(c)
			}
		}
	case <-time.After(20 * time.Millisecond):
	}
}

func TestThePaceIsKnownFromTheLastTime(t *testing.T) {
	p := clothAt(t, at(18, 0))
	for i := range 40 {
		p.Moments = append(p.Moments, track.Moment{Seconds: float64(3 * i), Done: 26*17 + i})
	}
	d := openWith(t, p, work.Options{})
	// 26 loops, 17 rows of 26, and 49 rows and the bind-off in all: 26*(51-18) stitches of 3 s.
	assert.Contains(t, d.model.View(), "35%  about 45 min left at your pace")
	d.model = d.model.SetSize(40, 12)
	assert.Contains(t, d.model.View(), "35%  45 min left")
}

func TestNotesAndChangesOnPurposeAreKept(t *testing.T) {
	p := clothAt(t, at(18, 9))
	p.Purpose = []string{"44 pegs, pattern 52: on purpose"}
	d := openWith(t, p, work.Options{})
	assert.Contains(t, d.model.View(), "44 pegs, pattern 52: on purpose", "whenever the piece is opened")
	d.press(rune_('n'))
	assert.True(t, d.model.Typing())
	d.types("blue from here")
	d.press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("\x1b[2J red"), Paste: true}, enter)
	assert.Equal(t, []string{"18: blue from here[2J red"}, d.disk.notes)
	assert.Contains(t, d.model.View(), "(│)", "a note is on its way to the disk as a step is")
	d.says(track.Saved{Through: 1})
	assert.Contains(t, d.model.View(), "[│]")
	assert.Contains(t, d.model.View(), "note: blue from here[2J red")
	d.press(space, space)
	assert.Contains(t, d.model.View(), "note: blue from here[2J red", "for as long as the row lasts")
	d.press(rune_('n'))
	assert.Contains(t, d.model.View(), "note on row 18: blue from here[2J red", "the old words are there to be changed")
	for range 40 {
		d.press(back)
	}
	d.press(enter)
	assert.Equal(t, "18: ", d.disk.notes[1], "an empty note takes it away")
	assert.NotContains(t, d.model.View(), "note:")
	d.press(rune_('n'), enter)
	assert.Len(t, d.disk.notes, 2, "where there is none nothing is put")
	d.press(rune_('N'))
	d.types("a ridge less")
	d.press(enter)
	assert.Equal(t, "on purpose: a ridge less", d.disk.notes[2])
	d.press(rune_('N'))
	d.types("no")
	d.press(tea.KeyMsg{Type: tea.KeyEsc})
	assert.Len(t, d.disk.notes, 3)
}

func TestLargePrintSaysWhatTheSmallScreenSays(t *testing.T) {
	d := openWith(t, clothAt(t, at(18, 9)), work.Options{})
	d.press(rune_('l'))
	assert.Contains(t, d.model.View(), "peg [17] to 16")
	d.press(space)
	assert.Contains(t, d.model.View(), "peg (16)", "round until it is saved")
	d.says(track.Saved{Through: 1})
	assert.Contains(t, d.model.View(), "peg [16]")
	assert.Contains(t, d.model.View(), "THEN  purl 2")
	d.press(rune_('l'))
	assert.Contains(t, d.model.View(), "▸ 18 →")
}

func TestLargeLettersAreAsLargeAsTheyCanBe(t *testing.T) {
	for _, c := range []struct{ width, height, least int }{{40, 12, 5}, {80, 24, 5}, {120, 50, 10}, {200, 60, 15}} {
		d := openWith(t, clothAt(t, at(18, 9)), work.Options{})
		d.model = d.model.SetSize(c.width, c.height)
		d.press(rune_('l'))
		big := 0
		for _, line := range strings.Split(d.model.View(), "\n") {
			if strings.Contains(line, "█") && !strings.Contains(line, "%") {
				big++
			}
		}
		assert.GreaterOrEqual(t, big, c.least, "%d x %d", c.width, c.height)
	}
}

func TestAWideWindowTellsHowFarTheMarkersAre(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(300, 3, 3, 12))
	d := openPiece(t, pattern.Order{Pattern: p, Way: p.Way}, at(8, 0), style(termenv.Ascii, false), 80, 24)
	assert.Contains(t, d.model.View(), "marker in 238 pegs →", "the other border's, from the edge of the window")
	for range 150 {
		d.press(space)
	}
	view := d.model.View()
	assert.Regexp(t, `← marker in \d+ pegs`, view)
	assert.Regexp(t, `marker in \d+ pegs →`, view)
}

func TestAStepChangesThreeLinesAtMost(t *testing.T) {
	narrow := cloth(t)
	wide := patterntest.Build(t, patterntest.Frame(120, 4, 3, 30))
	for name, c := range map[string]struct {
		p    *pattern.Pattern
		most int
	}{
		"a piece of 26 pegs": {narrow, 3},
		// At one cell a peg the pointer has a line of its own.
		"a piece of 120 pegs": {wide, 4},
	} {
		t.Run(name, func(t *testing.T) {
			d := openPiece(t, pattern.Order{Pattern: c.p, Way: c.p.Way}, pattern.Start(), style(termenv.ANSI, false), 80, 24)
			for d.model.Tracker().Place().Phase != pattern.Finishing {
				before, from := strings.Split(d.model.View(), "\n"), d.model.Tracker().Place()
				window := ruler(before)
				d.press(space)
				d.says(track.Saved{Through: len(d.disk.put)})
				after := strings.Split(d.model.View(), "\n")
				if d.model.Tracker().Place().Done == 0 || ruler(after) != window {
					continue // a row's end, where the fabric grows; another window
				}
				changed := 0
				for i := range before {
					if before[i] != after[i] {
						changed++
					}
				}
				require.LessOrEqual(t, changed, c.most, "after %+v:\n%s\n%s", from, strings.Join(before, "\n"), strings.Join(after, "\n"))
			}
		})
	}
}

// ruler is the line that numbers the pegs.
func ruler(lines []string) string {
	for _, l := range lines {
		if text := strings.TrimSpace(l); text != "" && strings.Trim(text, "0123456789 \x1b[m;") == "" {
			return text
		}
	}
	return ""
}

func TestNoSlipCastsOnOrBindsOffAWholePiece(t *testing.T) {
	d := openWith(t, clothAt(t, pattern.Start()), work.Options{DoublePress: time.Second})
	d.press(up)
	d.after(200*time.Millisecond, up)
	assert.Equal(t, at(1, 0), d.model.Tracker().Place(), "the cast-on is done, and row 1 is asked for")
	d = openWith(t, clothAt(t, at(49, 0)), work.Options{DoublePress: time.Second})
	d.press(up)
	d.after(200*time.Millisecond, up)
	assert.Equal(t, pattern.Place{Phase: pattern.BindingOff}, d.model.Tracker().Place())
}

func TestANoticeThatCameUnderTheHelpIsToldAfterIt(t *testing.T) {
	for _, key := range []rune{'?', 'n', 'g'} {
		d := openWith(t, clothAt(t, at(18, 9)), work.Options{})
		d.press(rune_(key))
		d.says(track.Saved{Notice: "the second copy of the place is behind: disk full"})
		d.press(tea.KeyMsg{Type: tea.KeyEsc})
		assert.Contains(t, d.model.View(), "the second copy of the place is behind", "%c", key)
		d.press(rune_('x'))
		assert.NotContains(t, d.model.View(), "the second copy")
	}
}

func TestALongNoteHidesNeitherTheZoneNorTheKeys(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {40, 12}} {
		p := clothAt(t, at(42, 9))
		p.Notes = []track.Note{{Row: 42, Text: strings.Repeat("a long note ", 30)}}
		d := openWith(t, p, work.Options{})
		d.model = d.model.SetSize(size[0], size[1])
		view := d.model.View()
		assert.Contains(t, view, "after this row: top border")
		assert.Contains(t, view, "note: a long note")
		assert.Contains(t, view, "…", "and a sign that it goes on")
		assert.Contains(t, view, "q leave")
	}
}

func TestTextIsTypedWholeHoweverItComes(t *testing.T) {
	d := openWith(t, clothAt(t, at(18, 9)), work.Options{})
	d.press(rune_('n'))
	for _, burst := range []string{"left", "end", "home", "up", "tab"} {
		d.press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(burst)}, space)
	}
	d.press(rune_('क'), rune_('ि'), enter) // a letter, and a vowel sign that stands on it
	assert.Equal(t, []string{"18: left end home up tab कि"}, d.disk.notes)
}

func TestLargePrintNamesTheYarn(t *testing.T) {
	plan := patterntest.Frame(20, 2, 2, 8)
	plan.Yarns = []pattern.YarnInfo{{Colour: "red"}, {Name: "b", Colour: "blue"}}
	p := patterntest.Build(t, plan)
	d := openPiece(t, pattern.Order{Pattern: p, Way: p.Way}, at(5, 3), style(termenv.Ascii, false), 80, 24)
	d.press(rune_('l'))
	assert.Contains(t, d.model.View(), "peg [4] to 20 in red")
}

func TestAllPegsToMarkAreTold(t *testing.T) {
	plan := patterntest.Frame(200, 5, 2, 8)
	plan.MarkEvery = 10
	p := patterntest.Build(t, plan)
	for _, size := range [][2]int{{80, 24}, {120, 50}} {
		d := openPiece(t, pattern.Order{Pattern: p, Way: p.Way}, pattern.Start(), style(termenv.Ascii, false), size[0], size[1])
		view := strings.Join(strings.Fields(d.model.View()), " ")
		assert.Contains(t, view, "mark 22 pegs")
		assert.Contains(t, view, "mark pegs 5, 10, 20, 30,")
		assert.Contains(t, view, "180, 190, 196, 200")
	}
}
