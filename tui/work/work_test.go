package work_test

import (
	"fmt"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
	"bypeg/tui/track"
	"bypeg/tui/work"
)

func TestScreensAsTheyWereLookedAt(t *testing.T) {
	castOn := func(done int) pattern.Place { return pattern.Place{Phase: pattern.CastingOn, Done: done} }
	screens := []struct {
		name string
		at   pattern.Place
		then func(d *desk)
	}{
		{"cast-on", castOn(3), nil},
		{"first row", at(1, 0), nil},
		{"in the field", at(18, 9), nil},
		{"border in two pegs", at(20, 21), nil},
		{"at the border", at(18, 23), nil},
		{"a row is done", at(19, 0), nil},
		{"before the top border", at(42, 4), nil},
		{"top border", at(45, 7), nil},
		{"bind-off", pattern.Place{Phase: pattern.BindingOff, Done: 4}, nil},
		{"finished", pattern.Place{Phase: pattern.Finishing}, nil},
		{"not yet saved", at(18, 9), func(d *desk) { d.press(space) }},
		{"not saved", at(18, 9), func(d *desk) {
			d.press(space)
			d.says(track.Saved{Err: full(at(18, 9))})
		}},
		{"the folder is gone", at(18, 9), func(d *desk) {
			d.press(space)
			d.says(track.Saved{Err: full(at(18, 9))})
			d.model = d.model.FolderGone()
		}},
		{"notices", at(18, 9), func(d *desk) {
			d.says(track.Saved{Notice: "1 of 4,711 lines can't be read. Your place is not affected."})
			d.says(track.Saved{Notice: "an interrupted line was skipped; nothing saved was lost"})
		}},
		{"go to a row", at(18, 9), func(d *desk) { d.press(rune_('g'), rune_('4'), rune_('1')) }},
		{"keys", at(18, 9), func(d *desk) { d.press(rune_('?')) }},
		{"a note is typed", at(18, 9), func(d *desk) { d.press(rune_('n')); d.types("blue yarn from here") }},
		{"a note", at(18, 9), func(d *desk) { d.press(rune_('n')); d.types("blue yarn from here"); d.press(enter) }},
		{"a note of the repeat", at(22, 4), func(d *desk) {
			d.press(rune_('g'))
			d.types("18")
			d.press(enter, rune_('n'))
			d.types("pull the first loop tight")
			d.press(enter, rune_('u'))
			d.says(track.Saved{Through: 3})
		}},
		{"on purpose", at(18, 9), func(d *desk) { d.press(rune_('N')); d.types("a ridge less at the bottom"); d.press(enter) }},
		{"at the own pace", at(18, 0), func(d *desk) { d.knit(30) }},
		{"ten rows are done", at(21, 0), nil},
		{"large print", at(18, 9), func(d *desk) { d.press(rune_('l')) }},
		{"large print, a row begins", at(19, 0), func(d *desk) { d.press(rune_('l')) }},
		{"large print, border", at(20, 21), func(d *desk) { d.press(rune_('l'), space) }},
		{"large print, cast-on", castOn(3), func(d *desk) { d.press(rune_('l')) }},
		{"large print, bind-off", pattern.Place{Phase: pattern.BindingOff, Done: 4}, func(d *desk) { d.press(rune_('l')) }},
		{"large print, finished", pattern.Place{Phase: pattern.Finishing}, func(d *desk) { d.press(rune_('l')) }},
	}
	looks := []struct {
		name          string
		profile       termenv.Profile
		ascii         bool
		width, height int
	}{
		{"80x24", termenv.Ascii, false, 80, 24},
		{"40x12", termenv.Ascii, false, 40, 12},
		{"80x24 in colour", termenv.ANSI, false, 80, 24},
		{"80x24 in ASCII", termenv.Ascii, true, 80, 24},
	}
	for _, l := range looks {
		for _, s := range screens {
			t.Run(l.name+"/"+s.name, func(t *testing.T) {
				d := open(t, s.at, style(l.profile, l.ascii), l.width, l.height)
				if s.then != nil {
					s.then(d)
				}
				golden.Check(t, l.name+"/"+s.name, d.model.View())
			})
		}
	}
}

func TestKeysMoveOnTheFabric(t *testing.T) {
	cases := []struct {
		name string
		from pattern.Place
		key  tea.KeyMsg
		to   pattern.Place
	}{
		{"space is one peg", at(18, 9), space, at(18, 10)},
		{"enter is the run", at(18, 9), enter, at(18, 11)},
		{"up is the row", at(18, 9), up, at(19, 0)},
		{"backspace is one peg back", at(18, 9), back, at(18, 8)},
		{"down is back to the row's start", at(18, 9), down, at(18, 0)},
		{"row 18 runs right: right is on", at(18, 9), right, at(18, 10)},
		{"and left is back", at(18, 9), left, at(18, 8)},
		{"page down steps a run", at(18, 9), tea.KeyMsg{Type: tea.KeyPgDown}, at(18, 11)},
		{"page up goes a run back", at(18, 9), tea.KeyMsg{Type: tea.KeyPgUp}, at(18, 7)},
		{"esc does nothing", at(18, 9), tea.KeyMsg{Type: tea.KeyEsc}, at(18, 9)},
		{"a letter that is no key does nothing", at(18, 9), rune_('x'), at(18, 9)},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			d := open(t, c.from, style(termenv.Ascii, false), 80, 24)
			d.press(c.key)
			assert.Equal(t, c.to, d.model.Tracker().Place())
			if c.to != c.from {
				require.Len(t, d.disk.put, 1, "and the disk is told")
				assert.Equal(t, c.to, d.disk.put[0].Place)
				d.press(rune_('u'))
				assert.Equal(t, c.from, d.model.Tracker().Place(), "undo takes it back")
				d.press(rune_('U'))
				assert.Equal(t, c.to, d.model.Tracker().Place(), "and redo brings it again")
			} else {
				assert.Empty(t, d.disk.put)
			}
		})
	}
}

func TestAKeyThatLeadsNowhereSaysWhatToPress(t *testing.T) {
	cases := []struct {
		name string
		at   pattern.Place
		key  tea.KeyMsg
		says string
	}{
		{"along the row past its start", at(19, 0), right, "row 19 runs the other way: space works its first peg, backspace goes back"},
		{"nothing to undo", at(18, 9), rune_('u'), "nothing to undo"},
		{"nothing to redo", at(18, 9), rune_('U'), "nothing to redo"},
		{"before the start", pattern.Start(), back, "this is where the work begins"},
		{"after the end", pattern.Place{Phase: pattern.Finishing}, space, "the piece is finished"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			d := open(t, c.at, style(termenv.Ascii, false), 80, 24)
			d.press(c.key)
			assert.Contains(t, d.model.View(), c.says)
			d.press(rune_('x'))
			assert.NotContains(t, d.model.View(), c.says, "the next key wipes it")
		})
	}
}

func TestNobodyWorksWhatIsNotSeen(t *testing.T) {
	d := open(t, at(18, 9), style(termenv.Ascii, false), 20, 5)
	assert.Equal(t, "needs 40 x 12", d.model.View())
	d.press(space, enter, up, back, rune_('u'), rune_('g'), rune_('4'), enter)
	assert.Equal(t, at(18, 9), d.model.Tracker().Place())
	assert.Equal(t, look.Leave{}, d.press(rune_('q')), "but it can be left")
}

func TestGoingToARow(t *testing.T) {
	typed := func(d *desk, s string) {
		d.press(rune_('g'))
		for _, r := range s {
			d.press(rune_(r))
		}
	}
	d := open(t, at(18, 9), style(termenv.Ascii, false), 80, 24)
	typed(d, "41")
	assert.True(t, d.model.Typing())
	d.press(enter)
	assert.Equal(t, at(41, 0), d.model.Tracker().Place())
	assert.Equal(t, track.Jumped, d.disk.put[0].Act)
	d.press(rune_('g'))
	for _, wrong := range []string{"0", "50", "", "x"} {
		for _, r := range wrong {
			d.press(rune_(r))
		}
		d.press(enter)
		assert.Equal(t, at(41, 0), d.model.Tracker().Place(), "%q", wrong)
		assert.Contains(t, d.model.View(), "there are rows 1 to 49", "%q", wrong)
		assert.True(t, d.model.Typing(), "and goes on asking")
	}
	d.press(rune_('-'), rune_('3'), enter)
	assert.Equal(t, at(3, 0), d.model.Tracker().Place(), "only digits are taken")
	typed(d, "7")
	d.press(tea.KeyMsg{Type: tea.KeyEsc})
	assert.False(t, d.model.Typing())
	assert.Equal(t, at(3, 0), d.model.Tracker().Place(), "esc changes nothing")
}

func TestBracketsAreRoundUntilTheDiskHasTheStep(t *testing.T) {
	d := open(t, at(18, 9), style(termenv.Ascii, false), 80, 24)
	assert.Contains(t, d.model.View(), "[│]")
	d.press(space)
	assert.Contains(t, d.model.View(), "(│)", "from the same frame")
	d.press(space)
	d.says(track.Saved{Through: 1})
	assert.Contains(t, d.model.View(), "(─)", "one of two is saved")
	d.says(track.Saved{Through: 2})
	assert.Contains(t, d.model.View(), "[─]")
	assert.NotContains(t, d.model.View(), "saving")
}

func TestWordsSayThatSavingTakesLong(t *testing.T) {
	d := open(t, at(18, 9), style(termenv.Ascii, false), 80, 24)
	d.press(space)
	assert.NotContains(t, d.model.View(), "saving")
	d.model, _, _ = d.model.Update(d.cmd())
	assert.Contains(t, d.model.View(), "saving")
	d.says(track.Saved{Through: 1})
	assert.NotContains(t, d.model.View(), "saving")
}

func TestWhatIsNotSavedIsSaidUntilItIs(t *testing.T) {
	d := open(t, at(18, 9), style(termenv.Ascii, false), 80, 24)
	d.press(space)
	d.says(track.Saved{Err: full(at(18, 9))})
	assert.Contains(t, d.model.View(), "▲ NOT SAVED: disk full. Saved: row 18 peg 17. s tries again")
	assert.True(t, d.model.Unsaved())
	assert.Equal(t, []string{"NOT SAVED: disk full.", "Saved: row 18 peg 17.", "1 step would be lost."}, d.model.Trouble())
	d.press(space)
	assert.Contains(t, d.model.View(), "▲ NOT SAVED: disk full", "whatever is pressed")
	d.press(rune_('s'))
	assert.Equal(t, 1, d.disk.retries)
	d.says(track.Saved{Through: 2})
	assert.NotContains(t, d.model.View(), "NOT SAVED")
	assert.False(t, d.model.Unsaved())
	d.press(rune_('s'))
	assert.Equal(t, 1, d.disk.retries, "when all is saved there is nothing to try again")
}

func TestAFolderThatIsGoneIsSaidUntilItIsBack(t *testing.T) {
	d := open(t, at(18, 9), style(termenv.Ascii, false), 80, 24)
	d.press(space)
	d.says(track.Saved{Err: full(at(18, 9))})
	d.model = d.model.FolderGone()
	assert.Contains(t, d.model.View(), "▲ NOT SAVED: the piece's folder is gone. It was at row 18 peg 17. s tries again")
	d.says(track.Saved{Through: 1})
	assert.NotContains(t, d.model.View(), "gone")
	d.press(space)
	d.says(track.Saved{Through: 1, Err: full(at(18, 10))})
	assert.Contains(t, d.model.View(), "▲ NOT SAVED: disk full. Saved: row 18 peg 16.")
}

func TestEveryNoticeIsToldAndNothingMoves(t *testing.T) {
	notices := []string{
		"an interrupted line was skipped; nothing saved was lost",
		"1 of 4,711 lines can't be read. Your place is not affected.",
		"this folder can't be locked: do not open the piece in two terminals",
		"the second copy of the place is behind: disk full",
	}
	for _, size := range [][2]int{{80, 24}, {40, 12}} {
		p := cloth(t)
		m := work.New(track.Piece{
			Title: p.Title, Notices: notices, Saver: newDisk(),
			Tracker: track.New(pattern.Order{Pattern: p, Way: p.Way}, at(18, 9), track.DefaultLead),
		}, style(termenv.Ascii, false), look.NewWorkKeys(), options).SetSize(size[0], size[1])
		var shown string
		var above string
		for range notices { // a screen at least has one
			lines := strings.Split(m.View(), "\n")
			head, _, _ := strings.Cut(m.View(), "THEN")
			if above == "" {
				above = head
			}
			assert.Equal(t, above, head, "nothing moves")
			assert.LessOrEqual(t, len(lines), size[1])
			shown += " " + strings.Join(strings.Fields(m.View()), " ")
			m, _, _ = m.Update(rune_('x')) // no key
		}
		for _, n := range notices {
			assert.Contains(t, shown, n)
		}
		assert.Contains(t, m.View(), "q leave", "in the end the keys are back")
	}
}

func TestAnotherPiecesWordDoesNotCount(t *testing.T) {
	d, other := open(t, at(18, 9), style(termenv.Ascii, false), 80, 24), open(t, at(1, 0), style(termenv.Ascii, false), 80, 24)
	d.press(space)
	other.disk.words <- track.Saved{Through: 7}
	d.model, _, _ = d.model.Update(other.model.Init()())
	assert.Contains(t, d.model.View(), "(│)")
}

func TestAPieceOpenElsewhereIsOnlyLookedAt(t *testing.T) {
	p := cloth(t)
	m := work.New(track.Piece{
		Title: p.Title, Held: "open in another terminal (pid 4711, /dev/pts/3, since 2026-01-02 19:04)",
		Tracker: track.New(pattern.Order{Pattern: p, Way: p.Way}, at(18, 9), track.DefaultLead),
	}, style(termenv.Ascii, false), look.NewWorkKeys(), options).SetSize(80, 24)
	assert.Nil(t, m.Init())
	assert.Contains(t, m.View(), "looking only: open in another terminal (pid 4711, /dev/pts/3, since 2026-01-02\n19:04)")
	assert.Contains(t, m.SetSize(40, 12).View(), "\nopen in another terminal (pid 4711,\n/dev/pts/3, since 2026-01-02 19:04)\nspace peg")
	for _, k := range []tea.KeyMsg{space, enter, up, back, rune_('u')} {
		m, _, _ = m.Update(k)
		assert.Equal(t, at(18, 9), m.Tracker().Place())
	}
	for _, k := range []tea.KeyMsg{rune_('g'), rune_('3'), enter} {
		m, _, _ = m.Update(k)
	}
	assert.Equal(t, at(18, 9), m.Tracker().Place())
}

func TestTheWorkedRowStaysOnItsLine(t *testing.T) {
	d := open(t, at(1, 0), style(termenv.Ascii, false), 80, 24)
	line := -1
	for range 49 {
		for y, text := range strings.Split(d.model.View(), "\n") {
			if strings.HasPrefix(text, "▸") {
				if line < 0 {
					line = y
				}
				assert.Equal(t, line, y)
			}
		}
		d.press(up)
	}
	assert.GreaterOrEqual(t, line, 0)
}

func TestAStepChangesFewLines(t *testing.T) {
	d := open(t, at(18, 3), style(termenv.ANSI, false), 80, 24)
	for range 20 {
		before := strings.Split(d.model.View(), "\n")
		d.press(space)
		d.says(track.Saved{Through: len(d.disk.put)})
		after := strings.Split(d.model.View(), "\n")
		changed := 0
		for i := range before {
			if before[i] != after[i] {
				changed++
			}
		}
		assert.LessOrEqual(t, changed, 5, "the row, NOW, THEN, the warning, the progress")
	}
}

func TestEveryPieceFitsEverySize(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := patterntest.Build(t, patterntest.Plans().Draw(rt, "plan"))
		d := openPiece(t, pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(rt, "way")}, pattern.Start(),
			style(termenv.ANSI, rapid.Bool().Draw(rt, "ascii")), 0, 0)
		keys := []tea.KeyMsg{space, enter, up, down, left, right, back, rune_('u'), rune_('U'), rune_('?'), rune_('g'), rune_('4')}
		for range rapid.IntRange(1, 12).Draw(rt, "presses") {
			d.press(rapid.SampledFrom(keys).Draw(rt, "key"))
			fits(t, d, rapid.IntRange(0, 200).Draw(rt, "width"), rapid.IntRange(0, 60).Draw(rt, "height"))
		}
	})
}

func fits(t testing.TB, d *desk, width, height int) {
	t.Helper()
	d.model = d.model.SetSize(width, height)
	view := d.model.View()
	lines := strings.Split(view, "\n")
	require.LessOrEqual(t, len(lines), max(1, height), "%d x %d:\n%s", width, height, view)
	for _, line := range lines {
		require.LessOrEqual(t, ansi.StringWidth(line), width, "%d x %d: %q", width, height, line)
	}
	require.False(t, strings.HasSuffix(view, "\n") && view != "\n" && height == len(lines)-1, "a trailing newline")
}

func TestAWideFabricIsShownWindowByWindow(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(300, 3, 3, 12))
	d := openPiece(t, pattern.Order{Pattern: p, Way: p.Way}, at(8, 0), style(termenv.Ascii, false), 80, 24)
	window := func() string {
		for _, line := range strings.Split(d.model.View(), "\n") {
			if ruler := strings.TrimSpace(line); strings.Trim(ruler, "0123456789 ") == "" && ruler != "" {
				return strings.Fields(ruler)[0]
			}
		}
		return ""
	}
	seen := []string{window()}
	for range 299 {
		d.press(space)
		if w := window(); w != seen[len(seen)-1] {
			seen = append(seen, w)
		}
		assert.Contains(t, d.model.View(), "▽", "the peg in hand is always in the window")
	}
	assert.Equal(t, "300", seen[0])
	assert.LessOrEqual(t, len(seen), 6, "it moves a screenful at a time: %v", seen)
}

func TestAViewReadsNoMoreCellsThanItShows(t *testing.T) {
	for _, c := range []struct{ pegs, rows int }{{26, 20}, {2000, 1000}} {
		t.Run(fmt.Sprintf("%d pegs, %d rows", c.pegs, c.rows), func(t *testing.T) {
			p := patterntest.Build(t, patterntest.Frame(c.pegs, 3, 3, c.rows-13))
			read := 0
			s := style(termenv.ANSI, false)
			s.Cells = func(row, from, to int) []pattern.Cell {
				read += to - from
				return p.Grid.Cells(row, from, to)
			}
			d := openPiece(t, pattern.Order{Pattern: p, Way: p.Way}, at(8, 5), s, 80, 24)
			d.press(space, enter, up)
			require.Zero(t, read, "a step reads no cells through the chart")
			view := d.model.View()
			shown := 24 * min(80, c.pegs)
			assert.LessOrEqual(t, read, shown)
			assert.Positive(t, read)
			assert.NotEmpty(t, view)
		})
	}
}
