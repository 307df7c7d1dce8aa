package browse_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/browse"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
)

// look_ is how a test wants it to look.
type look_ struct {
	profile termenv.Profile
	ascii   bool
}

var plain = look_{profile: termenv.Ascii}

func (l look_) style(cells func(row, from, to int) []pattern.Cell) *look.Style {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(l.profile)
	s := look.NewStyle(r, look.Dark, chart.Bars, l.ascii)
	s.Cells = cells
	return s
}

// mat is a framed piece with a field of blocks, measured.
func mat(pegs, rows int) pattern.Plan {
	plan := patterntest.Frame(pegs, 3, 3, rows-13)
	plan.Gauge = pattern.Gauge{Stitches: 12, Rows: 17, GarterRows: 22}
	inside := pegs - 6
	var lines []pattern.Line
	for _, text := range []string{"||||||||", "||--||||", "||||||||", "||||||--"} {
		cells := patterntest.Rows(strings.Repeat(text, inside/8+1))[0][:inside]
		lines = append(lines, pattern.Line{Cells: cells})
	}
	plan.Zones[1].Strips[0].Lines = lines
	return plan
}

func open(t testing.TB, plan pattern.Plan, l look_, at pattern.Place, w, h int) browse.Model {
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	return browse.New(o, at, l.style(nil), look.NewChartKeys()).SetSize(w, h)
}

// working is a place in the rows.
func working(row, done int) pattern.Place {
	return pattern.Place{Phase: pattern.Working, Row: row, Done: done}
}

// opened is a mat of 20 pegs and 33 rows as most tests look at it.
func opened(t testing.TB, w, h int) browse.Model {
	return open(t, mat(20, 33), plain, working(12, 5), w, h)
}

var typed = map[string]tea.KeyMsg{
	"up": {Type: tea.KeyUp}, "down": {Type: tea.KeyDown}, "pgup": {Type: tea.KeyPgUp}, "pgdown": {Type: tea.KeyPgDown},
	"home": {Type: tea.KeyHome}, "end": {Type: tea.KeyEnd}, "left": {Type: tea.KeyLeft}, "right": {Type: tea.KeyRight},
	"space": {Type: tea.KeySpace, Runes: []rune(" ")}, "esc": {Type: tea.KeyEsc}, "ctrl+z": {Type: tea.KeyCtrlZ},
}

func keyOf(name string) tea.KeyMsg {
	if k, ok := typed[name]; ok {
		return k
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}

func press(m browse.Model, keys ...string) browse.Model {
	for _, k := range keys {
		m, _ = m.Update(keyOf(k))
	}
	return m
}

func titleOf(m browse.Model) string {
	title, _, _ := strings.Cut(ansi.Strip(m.View()), "\n")
	return title
}

func TestTheChartAsItWasLookedAt(t *testing.T) {
	for name, l := range map[string]look_{"dark": {profile: termenv.TrueColor}, "plain": plain, "ascii": {termenv.Ascii, true}} {
		for _, size := range [][2]int{{80, 24}, {40, 12}} {
			m := open(t, mat(20, 33), l, working(12, 5), size[0], size[1])
			golden.Check(t, fmt.Sprintf("chart-%dx%d-%s", size[0], size[1], name), m.View())
			golden.Check(t, fmt.Sprintf("cloth-%dx%d-%s", size[0], size[1], name), press(m, "o").View())
		}
	}
	golden.Check(t, "help-80x24", press(opened(t, 80, 24), "?").View())
}

// The row due is marked, with the row just done below it, and each row has its number where
// it starts: that is what keeps the eye on the right line of a chart of 60 rows (common
// practice, no source).
func TestTheRowDueStandsInTheMiddleAboveTheOneJustDone(t *testing.T) {
	m := open(t, mat(40, 60), plain, working(31, 0), 100, 24)
	lines := strings.Split(m.View(), "\n")
	at := 0
	for i, line := range lines {
		if strings.HasPrefix(line, "▸") {
			at = i
		}
	}
	assert.InDelta(t, 10, at, 1, "in the middle")
	assert.Regexp(t, `^▸ .*← 31`, lines[at], "row 31 starts at the right")
	assert.Regexp(t, `^  30 → `, lines[at+1], "row 30 was done before, and started at the left")
	assert.Regexp(t, `^  32 → `, lines[at-1])
	assert.Equal(t, 1, strings.Count(m.View(), "▸"))
}

// Every second row of a chart runs the other way, and says so; in the round none does
// (newlib.net/nw_rd674428/p2; vogueknitting.com, reading charts).
func TestARoundIsNumberedAtOneSide(t *testing.T) {
	plan := patterntest.Drawn("|||---", "---|||", "|||---")
	plan.Form = pattern.Tube
	view := open(t, plan, plain, working(2, 0), 60, 20).View()
	assert.Contains(t, view, "rounds 1 to 3 of 3")
	assert.Equal(t, 3, strings.Count(view, "← "), "and the keys' arrows are not arrows of rows")
	assert.NotContains(t, strings.Join(strings.Split(view, "\n")[:6], "\n"), "→")
}

// Row P3, (K4, P2) x 5, K4, P3 on 40 pegs: the purls lie on pegs 1-3, 8-9, 14-15, 20-21,
// 26-27, 32-33 and 38-40 (counted by hand; common practice, no source). The ruler's numbers
// stand over them.
func TestThePegsOfARowAreFoundByTheRuler(t *testing.T) {
	row := "---" + strings.Repeat("||||--", 5) + "||||---"
	require.Len(t, row, 40)
	lines := strings.Split(open(t, patterntest.Drawn(row), plain, working(1, 0), 120, 24).View(), "\n")
	ruler, stitches := []rune(lines[1]), []rune(lines[2])
	if !strings.Contains(lines[2], "─") {
		stitches = []rune(lines[3])
	}
	column := func(peg string) int { return len([]rune(strings.SplitN(string(ruler), peg, 2)[0])) }
	one, ten := column(" 1 ")+1, column("10")
	if column(" 1 ") == len(ruler) {
		one = len(ruler) - 1
	}
	pitch := (one - ten) / 9
	require.Equal(t, 2, pitch)
	purls := map[int]bool{1: true, 2: true, 3: true, 8: true, 9: true, 14: true, 15: true, 20: true, 21: true, 26: true, 27: true, 32: true, 33: true, 38: true, 39: true, 40: true}
	for peg := 1; peg <= 40; peg++ {
		assert.Equal(t, purls[peg], stitches[one-pitch*(peg-1)] == '─', "peg %d", peg)
	}
}

func TestKeysScrollTheChart(t *testing.T) {
	m := opened(t, 80, 22) // 13 rows
	for _, tt := range []struct {
		name string
		keys []string
		want string
	}{
		{"it opens with the row in hand in the middle", nil, "rows 6 to 18 of 33"},
		{"up", []string{"up"}, "rows 7 to 19 of 33"},
		{"down", []string{"down"}, "rows 5 to 17 of 33"},
		{"a screen up", []string{"pgup"}, "rows 19 to 31 of 33"},
		{"a screen down, and no further", []string{"pgdown"}, "rows 1 to 13 of 33"},
		{"the first row", []string{"end"}, "rows 1 to 13 of 33"},
		{"the last row", []string{"home"}, "rows 21 to 33 of 33"},
		{"back to the row in hand", []string{"home", "space"}, "rows 6 to 18 of 33"},
		{"the next zone", []string{"Z", "Z", "z"}, "rows 7 to 19 of 33"},
		{"the next but one, and no further than the top", []string{"z", "z"}, "rows 21 to 33 of 33"},
		{"the zone before", []string{"home", "Z"}, "rows 7 to 19 of 33"},
		{"the first zone", []string{"home", "Z", "Z", "Z"}, "rows 1 to 13 of 33"},
		{"the whole cloth and back keeps the place", []string{"up", "up", "o", "o"}, "rows 8 to 20 of 33"},
		{"other symbols keep the place", []string{"up", "s"}, "rows 7 to 19 of 33"},
	} {
		assert.Contains(t, titleOf(press(m, tt.keys...)), tt.want, tt.name)
	}
	for _, k := range []string{"q", "c", "esc"} {
		_, wish := m.Update(keyOf(k))
		assert.Equal(t, look.Leave{}, wish)
	}
	_, wish := m.Update(keyOf("ctrl+z"))
	assert.Equal(t, look.Sleep{}, wish)
}

func TestTheTitleSaysRowsAndZones(t *testing.T) {
	m := opened(t, 80, 22)
	assert.Regexp(t, `^Test Weir Mat +rows 6 to 18 of 33 · bottom border to field$`, titleOf(m))
	assert.Regexp(t, `^Test Weir Mat +rows 7 to 19 of 33 · field$`, titleOf(press(m, "up")))
	assert.Regexp(t, `^Test Weir Mat +rows 6 to 18 of 33$`, titleOf(m.SetSize(40, 22)), "the zones give way first")
	assert.Equal(t, "rows 6 to 18 of 33", titleOf(m.SetSize(20, 22)), "then the name")
}

func TestTheWheelScrolls(t *testing.T) {
	m := opened(t, 80, 22)
	roll := func(b tea.MouseButton) string {
		n, wish := m.Update(tea.MouseMsg{Button: b, Action: tea.MouseActionPress})
		assert.Nil(t, wish)
		return titleOf(n)
	}
	assert.Contains(t, roll(tea.MouseButtonWheelUp), "rows 9 to 21")
	assert.Contains(t, roll(tea.MouseButtonWheelDown), "rows 3 to 15")
	assert.Contains(t, roll(tea.MouseButtonLeft), "rows 6 to 18")
}

func TestAWideChartIsSeenPartByPart(t *testing.T) {
	at := working(12, 5) // row 12 runs left to right: peg 145 is in hand
	m := open(t, mat(150, 33), plain, at, 80, 24)
	assert.Contains(t, titleOf(m), "pegs 150 to ", "it opens with the peg in hand")
	assert.Contains(t, m.View(), "▼")
	assert.Contains(t, m.View(), "← → move")
	next := press(m, "right")
	assert.NotContains(t, titleOf(next), "pegs 150 to")
	assert.NotContains(t, next.View(), "▼", "the peg in hand is in the other part")
	assert.Equal(t, m.View(), press(m, "right", "left", "left").View())
	assert.Equal(t, m.View(), press(m, "right", "space").View())
	assert.Contains(t, titleOf(press(m, "right", "right", "right", "right")), " to 1 ")
	for done := range 150 {
		require.Contains(t, open(t, mat(150, 33), plain, working(12, done), 80, 24).View(), "▼", "with %d done", done)
	}
}

func TestEverySetOfSymbolsComesInTurn(t *testing.T) {
	m := opened(t, 80, 24)
	assert.Contains(t, m.View(), "┃ knit, border")
	m = press(m, "s")
	assert.Contains(t, m.View(), "░ knit, border")
	m = press(m, "s")
	assert.Contains(t, m.View(), "K knit, border")
	assert.Equal(t, opened(t, 80, 24).View(), press(m, "s").View())
}

func TestTheWholeClothIsSeenAndWhereTheWorkStands(t *testing.T) {
	m := press(opened(t, 80, 24), "o")
	assert.Contains(t, titleOf(m), "row 12 of 33")
	assert.Contains(t, m.View(), "12 ▸")
	assert.Contains(t, m.View(), "proportions from the gauge")
	assert.Contains(t, m.View(), "o chart")
	moved := press(m, "up", "up")
	assert.NotEqual(t, m.View(), moved.View(), "what the chart would show moves along the cloth")
	assert.Equal(t, m.View(), press(moved, "space").View())
	assert.Contains(t, press(m, "s").View(), "12 ▸", "symbols change nothing here")
}

// In the whole cloth a key goes as far as the eye sees it go: a line.
func TestInTheClothAKeyGoesALine(t *testing.T) {
	m := open(t, mat(20, 400), plain, working(200, 0), 80, 24)
	assert.Contains(t, titleOf(press(m, "up")), "rows 194 to")
	m = press(m, "o")
	moved := press(m, "up")
	assert.NotEqual(t, m.View(), moved.View())
	assert.Contains(t, titleOf(press(moved, "o")), "rows 213 to", "20 rows a line")
}

func TestBeforeTheFirstRowAndAfterTheLast(t *testing.T) {
	start := open(t, mat(20, 33), plain, pattern.Start(), 80, 24)
	assert.Contains(t, titleOf(start), "rows 1 to")
	assert.NotContains(t, start.View(), "▸")
	assert.Contains(t, titleOf(press(start, "o")), "33 rows")
	done := open(t, mat(20, 33), plain, pattern.Place{Phase: pattern.BindingOff}, 80, 24)
	assert.Contains(t, titleOf(done), "to 33 of 33")
	assert.NotContains(t, done.View(), "▸")
	assert.NotContains(t, press(done, "o").View(), "to come")
}

func TestHelpSaysWhyAKeyDoesNothingNow(t *testing.T) {
	m := opened(t, 100, 22)
	assert.NotContains(t, press(m, "?").View(), "row is in view")
	assert.Equal(t, 2, strings.Count(press(m, "?").View(), "all pegs are in view"))
	assert.Equal(t, 3, strings.Count(press(m, "home", "?").View(), "the last row is in view"))
	assert.Equal(t, 3, strings.Count(press(m, "end", "?").View(), "the first row is in view"))
	assert.Equal(t, 1, strings.Count(press(m, "o", "?").View(), "for the chart"))
}

func TestHelpNamesEveryKey(t *testing.T) {
	m := press(opened(t, 60, 60), "?")
	keys := look.NewChartKeys()
	for _, k := range keys.All() {
		assert.Contains(t, m.View(), k.Help().Desc)
	}
	assert.Contains(t, m.View(), "┃ knit, border")
	back, wish := m.Update(keyOf("q"))
	assert.Nil(t, wish, "the key closes the help, not the chart")
	assert.Equal(t, opened(t, 60, 60).View(), back.View())
	small := press(opened(t, 40, 12), "?")
	assert.Contains(t, small.View(), "any key shows more")
	for range 10 {
		small = press(small, "up")
		if strings.Contains(titleOf(small), "rows") {
			return
		}
	}
	t.Fatal("the help does not end")
}

// Resizing keeps the middle of what is seen, and a small window forgets nothing.
func TestResizingKeepsThePlace(t *testing.T) {
	m := press(opened(t, 80, 22), "up", "up", "up")
	assert.Contains(t, titleOf(m), "rows 9 to 21")
	assert.Contains(t, titleOf(m.SetSize(80, 30).SetSize(80, 22)), "rows 9 to 21")
	assert.Contains(t, titleOf(m.SetSize(5, 2).SetSize(80, 22)), "rows 9 to 21")

	wide := open(t, mat(60, 33), plain, working(13, 5), 100, 22) // row 13 runs right to left: peg 6 is in hand
	require.NotContains(t, titleOf(wide), "pegs", "all are in view")
	assert.Contains(t, wide.SetSize(50, 22).View(), "▼", "the peg in hand stays in view")
	other := press(wide.SetSize(50, 22), "left", "left")
	require.NotContains(t, other.View(), "▼")
	assert.Equal(t, other.View(), other.SetSize(51, 22).SetSize(50, 22).View(), "and the other pegs where they are looked at")
}

func TestTheScreenFitsEverySize(t *testing.T) {
	every := map[look_]int{plain: 1, {profile: termenv.TrueColor}: 7}
	if testing.Short() {
		every[plain] = 3
	}
	for l, step := range every {
		base := open(t, mat(150, 33), l, working(12, 70), 80, 24)
		for name, m := range map[string]browse.Model{"chart": base, "cloth": press(base, "o"), "help": press(base, "?")} {
			for w := 0; w <= 200; w += step {
				for h := 0; h <= 60; h += step {
					fits(t, fmt.Sprintf("%s at %d x %d", name, w, h), m.SetSize(w, h).View(), w, h)
				}
			}
		}
	}
}

// fits stops a test whose screen is larger than it may be, or ends with an empty line.
func fits(t *testing.T, name, view string, w, h int) {
	lines := strings.Split(view, "\n")
	if len(lines) > max(1, h) || strings.HasSuffix(view, "\n") {
		t.Fatalf("%s: %d lines\n%s", name, len(lines), view)
	}
	for _, line := range lines {
		if ansi.StringWidth(line) > w {
			t.Fatalf("%s: %q", name, line)
		}
	}
}

func TestAFrameReadsOnlyWhatItShows(t *testing.T) {
	for _, rows := range []int{100, 100_000} {
		p := patterntest.Build(t, patterntest.Frame(200, 3, 3, rows-13))
		n := 0
		cells := func(row, from, to int) []pattern.Cell {
			n += to - from
			return p.Grid.Cells(row, from, to)
		}
		m := browse.New(pattern.Order{Pattern: p, Way: p.Way}, working(50, 3), plain.style(cells), look.NewChartKeys()).SetSize(80, 24)
		assert.Zero(t, n, "nothing is read before it is shown")
		m.View()
		assert.LessOrEqual(t, n, 24*80, "%d rows", rows)
		m = press(m, "o")
		n = 0
		m.View()
		press(m, "up").View()
		assert.Zero(t, n, "the cloth is looked at once")
	}
}

func BenchmarkScroll(b *testing.B) {
	for _, rows := range []int{100, 100_000} {
		b.Run(fmt.Sprint(rows), func(b *testing.B) {
			m := open(b, patterntest.Frame(200, 3, 3, rows-13), look_{profile: termenv.TrueColor}, working(50, 3), 80, 24)
			for i := 0; b.Loop(); i++ {
				m = press(m, []string{"up", "down"}[i%2])
				m.View()
			}
		})
	}
}
