package chart_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
)

// tagged shows tones as text, so that a test can see them: "Field{│}".
type tagged struct{}

func (tagged) Paint(t chart.Tone, text string) string { return t.String() + "{" + text + "}" }

// build draws a plan as the way it states has it.
func build(t testing.TB, plan pattern.Plan, s chart.Style) *chart.Chart {
	t.Helper()
	p := patterntest.Build(t, plan)
	return chart.New(pattern.Order{Pattern: p, Way: p.Way}, s)
}

// frame is a small garter-frame panel with a field of alternate stitches.
func frame() pattern.Plan {
	plan := patterntest.Frame(9, 2, 1, 2)
	plan.Zones[1].Strips[0].Lines = []pattern.Line{{Cells: patterntest.Rows("|-|-|")[0]}, {Cells: patterntest.Rows("-|-|-")[0]}}
	return plan
}

// rows draws all rows of a chart, the top one first.
func rows(c *chart.Chart, n int, w chart.Window, at chart.At) []string {
	var lines []string
	for row := n; row >= 1; row-- {
		lines = append(lines, c.Row(row, w, at))
	}
	return lines
}

// picture is a chart drawn in a test, without the indent of the test.
func picture(s string) []string {
	lines := strings.Split(strings.TrimRight(strings.TrimPrefix(s, "\n"), "\n\t"), "\n")
	for i := range lines {
		lines[i] = strings.TrimPrefix(lines[i], "\t\t")
	}
	return lines
}

func TestEverySetDrawsTheSameFabric(t *testing.T) {
	for _, tt := range []struct {
		name  string
		style chart.Style
		want  []string
	}{
		{"bars stand and lie, heavy in the border", chart.Style{Set: chart.Bars}, []string{
			" ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ",
			" ━ ━ ━ ━ ━ ━ ━ ━ ━ ",
			" ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ",
			" ━ ━┆─ │ ─ │ ─┆━ ━ ",
			" ┃ ┃┆│ ─ │ ─ │┆┃ ┃ ",
			" ━ ━ ━ ━ ━ ━ ━ ━ ━ ",
			" ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ",
		}},
		{"squares are blank or dashed, shaded in the border", chart.Style{Set: chart.Squares}, []string{
			"│░│░│░│░│░│░│░│░│░│",
			"│━│━│━│━│━│━│━│━│━│",
			"│░│░│░│░│░│░│░│░│░│",
			"│━│━┆─│ │─│ │─┆━│━│",
			"│░│░┆ │─│ │─│ ┆░│░│",
			"│━│━│━│━│━│━│━│━│━│",
			"│░│░│░│░│░│░│░│░│░│",
		}},
		{"letters are capitals in the border", chart.Style{Set: chart.Letters}, []string{
			" K K K K K K K K K ",
			" P P P P P P P P P ",
			" K K K K K K K K K ",
			" P P┆p k p k p┆P P ",
			" K K┆k p k p k┆K K ",
			" P P P P P P P P P ",
			" K K K K K K K K K ",
		}},
		{"bars in ASCII", chart.Style{Set: chart.Bars, ASCII: true}, []string{
			" ! ! ! ! ! ! ! ! ! ",
			" = = = = = = = = = ",
			" ! ! ! ! ! ! ! ! ! ",
			" = =:- | - | -:= = ",
			" ! !:| - | - |:! ! ",
			" = = = = = = = = = ",
			" ! ! ! ! ! ! ! ! ! ",
		}},
		{"squares in ASCII", chart.Style{Set: chart.Squares, ASCII: true}, []string{
			"|#|#|#|#|#|#|#|#|#|",
			"|=|=|=|=|=|=|=|=|=|",
			"|#|#|#|#|#|#|#|#|#|",
			"|=|=:-| |-| |-:=|=|",
			"|#|#: |-| |-| :#|#|",
			"|=|=|=|=|=|=|=|=|=|",
			"|#|#|#|#|#|#|#|#|#|",
		}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c := build(t, frame(), tt.style)
			assert.Equal(t, tt.want, rows(c, 7, chart.Window{To: 9, Pitch: 2}, chart.At{}))
		})
	}
}

func TestOneCellAPegHasNoGaps(t *testing.T) {
	c := build(t, frame(), chart.Style{})
	assert.Equal(t, []string{"━━─│─│─━━", "┃┃│─│─│┃┃"}, rows(c, 4, chart.Window{To: 9, Pitch: 1}, chart.At{})[:2])
	assert.Equal(t, "│─│", c.Row(3, chart.Window{From: 2, To: 5, Pitch: 1}, chart.At{}))
}

func TestThePegInHand(t *testing.T) {
	w := chart.Window{To: 9, Pitch: 2}
	for _, tt := range []struct {
		name string
		row  int
		w    chart.Window
		at   chart.At
		want string
	}{
		{"square brackets once the last step is saved", 3, w, chart.At{Active: true, Row: 3, Done: 4}, " ┃ ┃┆│ ─[│]─ │┆┃ ┃ "},
		{"round brackets until then", 3, w, chart.At{Active: true, Row: 3, Done: 4, Unsaved: true}, " ┃ ┃┆│ ─(│)─ │┆┃ ┃ "},
		{"row 1 begins at the right", 1, w, chart.At{Active: true, Row: 1}, " ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃[┃]"},
		{"row 2 begins at the left", 2, w, chart.At{Active: true, Row: 2}, "[━]━ ━ ━ ━ ━ ━ ━ ━ "},
		{"a bracket takes the place of the border's edge", 3, w, chart.At{Active: true, Row: 3, Done: 2}, " ┃ ┃┆│ ─ │ ─[│]┃ ┃ "},
		{"other rows have none", 4, w, chart.At{Active: true, Row: 3, Done: 4}, " ━ ━┆─ │ ─ │ ─┆━ ━ "},
		{"a row that is done has none", 3, w, chart.At{Active: true, Row: 3, Done: 9}, " ┃ ┃┆│ ─ │ ─ │┆┃ ┃ "},
		{"work that has not begun has none", 1, w, chart.At{Active: true, Row: 0}, " ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ "},
		{"work that is done has none", 7, w, chart.At{Active: true, Row: 8}, " ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ "},
		{"a peg beside the window leaves no bracket in it", 3, chart.Window{From: 5, To: 9, Pitch: 2}, chart.At{Active: true, Row: 3, Done: 4}, " ─ │┆┃ ┃ "},
		{"nor on its other side", 3, chart.Window{From: 0, To: 4, Pitch: 2}, chart.At{Active: true, Row: 3, Done: 4}, " ┃ ┃┆│ ─ "},
		{"one cell a peg has no room for brackets", 3, chart.Window{To: 9, Pitch: 1}, chart.At{Active: true, Row: 3, Done: 4}, "┃┃│─│─│┃┃"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, build(t, frame(), chart.Style{}).Row(tt.row, tt.w, tt.at))
		})
	}
}

func TestTonesTellWhatIsWorked(t *testing.T) {
	c := build(t, frame(), chart.Style{Painter: tagged{}})
	w := chart.Window{From: 1, To: 4, Pitch: 1}
	for _, tt := range []struct {
		name string
		row  int
		at   chart.At
		want string
	}{
		{"without work all is drawn as worked", 3, chart.At{}, "border{┃}field{│}field{─}"},
		{"a row below the one in work is worked", 3, chart.At{Active: true, Row: 4}, "border{┃}field{│}field{─}"},
		{"a row above it is coming", 3, chart.At{Active: true, Row: 2}, "border coming{┃}field coming{│}field coming{─}"},
		{"right to left, the right part is worked", 3, chart.At{Active: true, Row: 3, Done: 6}, "border coming{┃}in hand{│}field{─}"},
		{"left to right, the left part is worked", 4, chart.At{Active: true, Row: 4, Done: 2}, "border{━}in hand{─}field coming{│}"},
		{"before the first row all is coming", 1, chart.At{Active: true, Row: 0}, "border coming{┃}border coming{┃}border coming{┃}"},
	} {
		t.Run(tt.name, func(t *testing.T) { assert.Equal(t, tt.want, c.Row(tt.row, w, tt.at)) })
	}
	assert.Equal(t, " border{━}faint{┆}field{─}in hand{[}in hand{│}in hand{]}",
		c.Row(4, chart.Window{From: 1, To: 4, Pitch: 2}, chart.At{Active: true, Row: 4, Done: 3}), "edges step back, brackets do not")
}

func TestPegsNotInUse(t *testing.T) {
	plan := patterntest.Drawn(`.\/.`, "||||")
	for set, want := range map[chart.Set]string{chart.Bars: "·◣◢·", chart.Squares: "×◣◢×", chart.Letters: "·◣◢·"} {
		assert.Equal(t, want, build(t, plan, chart.Style{Set: set}).Row(2, chart.Window{To: 4, Pitch: 1}, chart.At{}))
	}
	c := build(t, plan, chart.Style{ASCII: true})
	w := chart.Window{To: 4, Pitch: 2}
	assert.Equal(t, " .[<]> . ", c.Row(2, w, chart.At{Active: true, Row: 2}), "work begins at the first peg in use")
	assert.Equal(t, " . <[>]. ", c.Row(2, w, chart.At{Active: true, Row: 2, Done: 1}))
}

// drawn draws cells, which need not be fabric, on as many pegs in one field.
func drawn(t testing.TB, cells []pattern.Cell, s chart.Style) string {
	t.Helper()
	s.Cells = func(_, from, to int) []pattern.Cell { return cells[from:to] }
	c := build(t, patterntest.Drawn(strings.Repeat("|", len(cells))), s)
	return c.Row(1, chart.Window{To: len(cells), Pitch: 1}, chart.At{})
}

func cross(c pattern.Cross) []pattern.Cell {
	var cells []pattern.Cell
	for _, s := range c.Parts() {
		cells = append(cells, pattern.Cell{Stitch: s})
	}
	return cells
}

func TestCrossesShowTheirLean(t *testing.T) {
	for _, tt := range []struct {
		name        string
		cross       pattern.Cross
		want, ascii string
	}{
		{"a cable over 6 pegs, leaning right", pattern.Cross{Front: 3, Back: 3, Lean: pattern.Right}, "╎┊┊╱╱╱", `"''///`},
		{"the same, leaning left", pattern.Cross{Front: 3, Back: 3, Lean: pattern.Left}, "╲╲╲┊┊╎", `\\\''"`},
		{"purled strands behind lie flat", pattern.Cross{Front: 2, Back: 2, Lean: pattern.Right, PurlBack: true}, "╌┄╱╱", "_~//"},
		{"one strand over one", pattern.Cross{Front: 1, Back: 1, Lean: pattern.Left}, "╲╎", `\"`},
		{"two over one", pattern.Cross{Front: 2, Back: 1, Lean: pattern.Left, PurlBack: true}, "╲╲╌", `\\_`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			for _, set := range []chart.Set{chart.Bars, chart.Squares, chart.Letters} {
				assert.Equal(t, tt.want, drawn(t, cross(tt.cross), chart.Style{Set: set}))
				assert.Equal(t, tt.ascii, drawn(t, cross(tt.cross), chart.Style{Set: set, ASCII: true}))
			}
		})
	}
}

func TestYarnsAreToldByShape(t *testing.T) {
	var cells []pattern.Cell
	for _, s := range []pattern.Stitch{pattern.Knit, pattern.Purl, pattern.Slip} {
		for _, y := range []pattern.Yarn{0, 1, 2, 8, 9, 200} {
			cells = append(cells, pattern.Cell{Stitch: s, Yarn: y})
		}
	}
	assert.Equal(t, "│23900─₂₃₉₀₀vvvvvv", drawn(t, cells, chart.Style{}))
	assert.Equal(t, "k23900p@$*,,vvvvvv", drawn(t, cells, chart.Style{Set: chart.Letters, ASCII: true}))
	assert.Equal(t, "field{│}other{2}", drawn(t, []pattern.Cell{{Stitch: pattern.Knit}, {Stitch: pattern.Knit, Yarn: 1}}, chart.Style{Painter: tagged{}}))
}

func TestRulerNumbersPegsAsTheMakerCounts(t *testing.T) {
	p := patterntest.Build(t, patterntest.Drawn(strings.Repeat("|", 120)))
	for _, tt := range []struct {
		name string
		hand pattern.Hand
		w    chart.Window
		want string
	}{
		{"the right hand counts from the right", pattern.RightHand, chart.Window{From: 94, To: 120, Pitch: 2}, " 26          20                  10                1 "},
		{"the left hand from the left", pattern.LeftHand, chart.Window{From: 0, To: 26, Pitch: 2}, " 1                 10                  20          26"},
		{"one cell a peg", pattern.RightHand, chart.Window{From: 94, To: 120, Pitch: 1}, "26    20        10       1"},
		{"numbers of three digits", pattern.LeftHand, chart.Window{From: 90, To: 120, Pitch: 1}, "91       100       110     120"},
		{"a tenth too near an end is left out", pattern.LeftHand, chart.Window{From: 8, To: 21, Pitch: 1}, "9          21"},
		{"where only one end has room it is the left", pattern.RightHand, chart.Window{From: 96, To: 99, Pitch: 1}, "24 "},
		{"where none has room it stays empty", pattern.LeftHand, chart.Window{From: 98, To: 99, Pitch: 1}, " "},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c := chart.New(pattern.Order{Pattern: p, Way: pattern.DefaultWay(tt.hand)}, chart.Style{})
			assert.Equal(t, tt.want, c.Ruler(tt.w))
		})
	}
}

func TestMarkersStandOverAndUnderTheirPegs(t *testing.T) {
	for _, tt := range []struct {
		name        string
		style       chart.Style
		w           chart.Window
		hand        int
		unsaved     bool
		over, under string
	}{
		{"two cells a peg", chart.Style{}, chart.Window{To: 9, Pitch: 2}, 4, false, "   ▾           ▾   ", "   ▴           ▴   "},
		{"one cell a peg points at the peg in hand too", chart.Style{}, chart.Window{To: 9, Pitch: 1}, 4, false, " ▾  ▼  ▾ ", " ▴     ▴ "},
		{"the pointer is hollow until the step is on the disk", chart.Style{}, chart.Window{To: 9, Pitch: 1}, 4, true, " ▾  ▽  ▾ ", " ▴     ▴ "},
		{"nothing is in hand without work", chart.Style{}, chart.Window{To: 9, Pitch: 1}, -1, false, " ▾     ▾ ", " ▴     ▴ "},
		{"the pointer goes before the marker", chart.Style{}, chart.Window{To: 9, Pitch: 1}, 7, false, " ▾     ▼ ", " ▴     ▴ "},
		{"a window shows its own pegs", chart.Style{}, chart.Window{From: 5, To: 9, Pitch: 1}, 4, false, "  ▾ ", "  ▴ "},
		{"in ASCII", chart.Style{ASCII: true}, chart.Window{To: 9, Pitch: 1}, 4, false, " v  V  v ", " ^     ^ "},
		{"hollow in ASCII", chart.Style{ASCII: true}, chart.Window{To: 9, Pitch: 1}, 4, true, " v  Y  v ", " ^     ^ "},
	} {
		t.Run(tt.name, func(t *testing.T) {
			over, under := build(t, frame(), tt.style).Markers(tt.w, tt.hand, tt.unsaved)
			assert.Equal(t, tt.over, over)
			assert.Equal(t, tt.under, under)
		})
	}
}

func TestSetsAreKnownByName(t *testing.T) {
	assert.Equal(t, []string{"bars", "squares", "letters"}, chart.SetNames())
	for _, name := range chart.SetNames() {
		set, ok := chart.ParseSet(name)
		require.True(t, ok)
		assert.Equal(t, name, set.String())
	}
	_, ok := chart.ParseSet("runes")
	assert.False(t, ok)
}
