package file

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// mustLoad loads a text in which no error may be found.
func mustLoad(t testing.TB, text string) (*pattern.Pattern, safetext.Diagnostics) {
	t.Helper()
	p, found := Load("f.toml", []byte(text))
	require.NoError(t, found.Err())
	require.NotNil(t, p)
	return p, found
}

func readTestdata(t testing.TB, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// drawn is rows from to to of the fabric, the last on top, as charts are drawn; a
// slip is s.
func drawn(p *pattern.Pattern, from, to int) string {
	signs := map[pattern.Stitch]byte{pattern.Knit: '|', pattern.Purl: '-', pattern.Slip: 's', pattern.NoStitch: '.'}
	var b strings.Builder
	for row := to; row >= from; row-- {
		for _, c := range p.Grid.Row(row).Cells() {
			b.WriteByte(signs[c.Stitch])
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// zoneDrawn is the fabric of a zone by its name.
func zoneDrawn(t *testing.T, p *pattern.Pattern, name string) string {
	t.Helper()
	for _, z := range p.Zones {
		if z.Name == name {
			return drawn(p, z.First, z.Last)
		}
	}
	require.Fail(t, "no zone "+name)
	return ""
}

func TestAFrameIsReadAsItIsWritten(t *testing.T) {
	p, found := mustLoad(t, readTestdata(t, "testdata/valid/frame.toml"))
	assert.Empty(t, found, "nothing is doubtful")
	assert.Equal(t, 49, p.Grid.Rows(), "6 + 36 + 6 + 1")
	assert.Equal(t, []int{2, 23}, p.Markers)
	assert.Equal(t, ""+
		"--------------------------\n"+
		"||||||||||||||||||||||||||\n", drawn(p, 1, 2))
	// The written rows 2 and 4 run left to right, as even rows do.
	assert.Equal(t, ""+
		"-----||--||--||--||--||---\n"+
		"||||||||||||||||||||||||||\n"+
		"---||--||--||--||--||-----\n"+
		"||||||||||||||||||||||||||\n", drawn(p, 7, 10))
	assert.Equal(t, drawn(p, 1, 6), drawn(p, 43, 48), "the top border is like the bottom one")
	assert.Equal(t, 15.0, p.Gauge.Rows)
	assert.InDelta(t, 12.7, p.Loom.SpacingMM, 1e-9, "exact inch 2.54 cm")
}

func TestEveryKeyArrives(t *testing.T) {
	p, found := mustLoad(t, readTestdata(t, "testdata/valid/every-key.toml"))
	seed := pattern.Gauge{Name: "seed", Stitches: 18, Rows: 28, GarterRows: 36}
	d := p.Design
	assert.InDelta(t, 19.685, d.Gauge.Stitches, 0.005, "20 stitches in 4 in: exact inch 2.54 cm")
	assert.InDelta(t, 9.525, d.Loom.SpacingMM, 1e-9, "exact inch 2.54 cm")
	d.Gauge, d.Loom.SpacingMM = pattern.Gauge{}, 0
	assert.Equal(t, pattern.Design{
		Title: "Cinder Cowl and Mat", About: "A sampler with a frame.\nIt uses every key there is.",
		Use: pattern.HotPad, Form: pattern.Panel, Pegs: 12,
		CastOn: pattern.CastOn{Name: "twisted rope", Passes: 2}, WrittenFor: pattern.LeftHand,
		Way: pattern.Way{Peg1: pattern.Right, Row1: pattern.ToLeft}, KnitAs: pattern.WrapE,
		Gauges: []pattern.Gauge{seed}, Swatch: pattern.Swatch{Stitches: 20, Rows: 30, Grams: 6.5},
		Loom: pattern.Loom{Pegs: 40, FirstPeg: 3},
		Yarns: []pattern.YarnInfo{
			{Weight: 4, Fibre: "wool", Metres: 120, Grams: 50, WPI: 9, Tex: 416.5, Colour: "slate"},
			{Name: "rust", Colour: "rust", Weight: pattern.UnknownWeight},
			{Name: "moss green", Weight: 0},
		},
	}, d)
	assert.Equal(t, []int{0, 1, 2, 7, 10, 11}, p.Markers, "both sides, pegs 1 and 12, 5 and 10 from the right")

	assert.Equal(t, ""+
		"------------\n"+
		"||||||||||||\n", zoneDrawn(t, p, "top border"))
	// 1.3 cm at 28 rows in 10 cm is 3.64 rows: two repeats of 2. The side rows are
	// written from the outer edge; row 5 runs right to left, row 6 left to right.
	assert.Equal(t, ""+
		"-|------|||-\n"+
		"|-------||-|\n"+
		"-|------|||-\n"+
		"|-------||-|\n", zoneDrawn(t, p, "field"))
	// The first stitch of each row is slipped: row 9 begins at the right.
	assert.Equal(t, ""+
		"s-ss||||----\n"+
		"||||ss--|||s\n", zoneDrawn(t, p, "picture"))
	assert.Equal(t, ""+
		"------------\n"+
		"||||--------\n", zoneDrawn(t, p, "strips"))
	assert.Equal(t, ""+
		"||||-|||||||\n"+
		"|||||-||||||\n"+
		"||||||||||||\n", zoneDrawn(t, p, "dots"))
	assert.Equal(t, ""+
		"||||||||||||\n"+
		"|||||--|||||\n"+
		"||||||||||||\n", zoneDrawn(t, p, "middle"))

	field := p.Zones[1]
	assert.Equal(t, "seed", field.Gauge)
	assert.Equal(t, "seed", p.Zones[3].Strips[0].Gauge)
	assert.Empty(t, p.Zones[3].Strips[1].Gauge)
	assert.Equal(t, pattern.WrapFlat, field.KnitAs)
	assert.Equal(t, pattern.WrapE, p.Zones[0].KnitAs, "the piece's own where the zone says nothing")
	assert.Equal(t, "bottom border", p.Zones[6].Like)
	assert.Equal(t, pattern.Yarn(1), p.Grid.Row(5).Cells()[0].Yarn)
	assert.Equal(t, pattern.Yarn(0), p.Grid.Row(1).Cells()[0].Yarn)
	assert.Equal(t, pattern.Yarn(2), p.Grid.Row(11).Cells()[11].Yarn)
	assert.Contains(t, found.Of(safetext.Note)[0].Message, "1.3 cm would be 3.6 rows: rounded to 4 rows, 2 repeats of 2, which is 1.4 cm")
}

func TestDefaults(t *testing.T) {
	p, found := mustLoad(t, "pattern = 1\npegs = 5\n[[zone]]\nname = 'a'\nrows = ['k2, p3']")
	assert.Empty(t, found)
	assert.Equal(t, pattern.Design{
		Title: "Untitled", Pegs: 5, CastOn: pattern.CastOn{Passes: 1}, Way: pattern.DefaultWay(pattern.RightHand),
		Yarns: []pattern.YarnInfo{{Weight: pattern.UnknownWeight}},
	}, p.Design)
	assert.Equal(t, "---||\n", drawn(p, 1, 1), "row 1 runs right to left")
}

// Left-handers' directions are the right-handers' mirrored: from memory.
func TestWrittenForTheLeftHandChoosesTheOtherDirections(t *testing.T) {
	p, _ := mustLoad(t, "pattern = 1\npegs = 5\nwritten_for = 'left'\n[[zone]]\nname = 'a'\nrows = ['k2, p3']")
	assert.Equal(t, "||---\n", drawn(p, 1, 1))
	assert.Equal(t, pattern.LeftHand, p.WrittenFor)
}

func TestLikeCopiesTheTextNotTheFabric(t *testing.T) {
	p, _ := mustLoad(t, `pattern = 1
pegs = 5
[[zone]]
name = "a"
rows = ["k2, p3"]
times = 2
knit_as = "flat"
[[zone]]
name = "one more"
rows = ["k"]
[[zone]]
name = "b"
like = "a"
times = 1
[[zone]]
name = "c"
like = "b"
chart = "|-|-|"
[yarns.rust]
[[zone]]
name = "d"
like = "a"
times = 1
yarn = "rust"`)
	assert.Equal(t, ""+
		"|-|-|\n"+ // a chart beside like puts the copied rows aside
		"||---\n"+ // row 4 runs left to right, as row 2 did
		"|||||\n"+
		"||---\n"+
		"---||\n", drawn(p, 1, 5))
	assert.Equal(t, pattern.WrapFlat, p.Zones[3].KnitAs, "copied over two steps")
	assert.Equal(t, "b", p.Zones[3].Like)
	assert.Equal(t, []pattern.Yarn{0, 1}, []pattern.Yarn{p.Grid.Row(2).Cells()[0].Yarn, p.Grid.Row(6).Cells()[0].Yarn},
		"the same rows in another yarn")
}

func TestLikeCopiesStrips(t *testing.T) {
	p, _ := mustLoad(t, `pattern = 1
pegs = 4
[[zone]]
name = "a"
strip = [{pegs = 1, rows = ["p"]}, {pegs = 3, chart = "||-"}]
[[zone]]
name = "b"
like = "a"`)
	assert.Equal(t, "-||-\n-||-\n", drawn(p, 1, 2))
}

func TestAHeightTakesTheGarterRowsOfTheGauge(t *testing.T) {
	const text = `pattern = 1
pegs = 5
[gauge]
stitches = 11
rows = 15
over = "10 cm"
%s
[[zone]]
name = "border"
border = true
rows = ["k", "p"]
height = "10 cm"
[[zone]]
name = "plain"
rows = ["k"]
height = "10 cm"
[[zone]]
name = "set-up"
border = true
rows = ["k"]`
	p, found := mustLoad(t, strings.Replace(text, "%s", "garter_rows = 24", 1))
	assert.Equal(t, []int{24, 15}, []int{p.Zones[0].Rows(), p.Zones[1].Rows()})

	assert.Empty(t, found.Of(safetext.Note))

	p, found = mustLoad(t, strings.Replace(text, "%s", "", 1))
	assert.Equal(t, 22, p.Zones[0].Rows(), "twice the stitches, and said to be derived")
	require.Len(t, found.Of(safetext.Note), 1)
	assert.Equal(t, "garter_rows is not in the gauge and was derived: twice the stitches", found.Of(safetext.Note)[0].Hint)
}

func TestForeignTextIsCleanedWhenItIsLoaded(t *testing.T) {
	p, _ := mustLoad(t, `pattern = 1
title = "\u001b]0;mine\u0007Mat\u202e"
about = "one\n\u001b[2Jtwo\r\nthree"
pegs = 5
cast_on = "\u009bchain"
[yarn]
fibre = "wo\u200bol"
colour = "\u001b[31mred"
[[zone]]
name = "\u001b[31mfield"
rows = ["k"]`)
	assert.Equal(t, "]0;mineMat", p.Title)
	assert.Equal(t, "one\n[2Jtwo\nthree", p.About)
	assert.Equal(t, "chain", p.CastOn.Name)
	assert.Equal(t, "wool", p.Yarns[0].Fibre)
	assert.Equal(t, "[31mred", p.Yarns[0].Colour)
	assert.Equal(t, "[31mfield", p.Zones[0].Name)
}

func TestAByteOrderMarkIsNoFault(t *testing.T) {
	_, found := mustLoad(t, "\ufeffpattern = 1\npegs = 5\n[[zone]]\nname = 'a'\nrows = ['k']")
	assert.Empty(t, found)
	_, found = Load("f.toml", []byte("\xff\xfep\x00a\x00"))
	assert.EqualError(t, found.Err(), "f.toml:1:1: the text is not UTF-8 from here on")
}

func TestWindowsLineEndsAreLineEnds(t *testing.T) {
	text := strings.ReplaceAll(readTestdata(t, "testdata/valid/every-key.toml"), "\n", "\r\n")
	p, found := mustLoad(t, text)
	q, same := mustLoad(t, readTestdata(t, "testdata/valid/every-key.toml"))
	assert.Equal(t, drawn(q, 1, q.Grid.Rows()), drawn(p, 1, p.Grid.Rows()))
	assert.Equal(t, q.Design, p.Design)
	assert.Len(t, found, len(same))
}

func TestAnEmptyFileIsNoPattern(t *testing.T) {
	for _, text := range []string{"", "\n\n", "# only a comment", "\ufeff"} {
		p, found := Load("f.toml", []byte(text))
		assert.Nil(t, p)
		assert.ErrorContains(t, found.Err(), "this is no pattern file")
	}
}

// Doubtful files can be worked; what is doubtful in them is told as the comments say.
func TestDoubtfulFilesLoadWithWarnings(t *testing.T) {
	for _, name := range []string{"turned", "cut", "odd-field", "knit-rows", "ends", "ridges", "rounded", "tube", "slipped", "readings", "moves"} {
		t.Run(name, func(t *testing.T) {
			text := readTestdata(t, "testdata/doubtful/"+name+".toml")
			_, found := mustLoad(t, text)
			require.NotEmpty(t, found)
			checkExpectations(t, text, found)
		})
	}
}

func TestAPatternMayHaveJustAsManyRowsAsTheLimit(t *testing.T) {
	text := "pattern = 1\npegs = 5\n[[zone]]\nname = 'a'\nrows = ['k']\ntimes = 99999\n[[zone]]\nname = 'b'\nrows = ['p']\ntimes = "
	p, _ := mustLoad(t, text+"1")
	assert.Equal(t, pattern.MaxRows, p.Grid.Rows())
	_, found := Load("f.toml", []byte(text+"2"))
	assert.EqualError(t, found.Err(), "f.toml:10:9: with this zone the pattern has more than the 100000 rows it may have")
}

func TestLimitsOfOneText(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{
			"a text about the pattern", smallPattern[:12] + "about = '" + strings.Repeat("x", maxAbout+1) + "'\n" + smallPattern[12:],
			"f.toml:2:9: about has more than 10000 characters",
		},
		{
			"a written row", "pattern = 1\npegs = 5\n[[zone]]\nname = 'a'\nrows = ['" + strings.Repeat(" ", maxRow) + "k to end']\n",
			"f.toml:5:9: a written row has at most 64 KiB",
		},
		{
			"yarns", smallPattern + numbered("[yarns.y%d]\n", maxYarns+1),
			"f.toml:261:8: a pattern has at most 255 yarns",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, found := Load("f.toml", []byte(c.text))
			assert.EqualError(t, found.Err(), c.want)
		})
	}
}

func TestFaultsOfThePlanPointAtTheirLine(t *testing.T) {
	const text = "0123456789"
	zones := []*zone{{at: span{1, 2}, lines: [][]place{{
		{text: &spot{value: span{3, 6}}, whole: true},
		{text: &spot{value: span{0, 9}, quoted: raw}, piece: span{2, 4}},
	}}}}
	for _, c := range []struct {
		name  string
		fault pattern.PlanError
		want  span
	}{
		{"no zone is the start of the file", pattern.PlanError{Zone: -1, Strip: -1, Line: -1}, span{}},
		{"a zone is its name", pattern.PlanError{Zone: 0, Strip: -1, Line: -1}, span{1, 2}},
		{"a strip is its zone's name", pattern.PlanError{Zone: 0, Strip: 0, Line: -1}, span{1, 2}},
		{"a written row is its text", pattern.PlanError{Zone: 0, Strip: 0, Line: 0}, span{3, 6}},
		{"a drawn row is its line of the chart", pattern.PlanError{Zone: 0, Strip: 0, Line: 1}, span{3, 5}},
		{"what is out of reach is the start of the file", pattern.PlanError{Zone: 9}, span{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, placeOf(&c.fault, zones, text))
		})
	}
}

func TestTooManyErrorsAreCutShort(t *testing.T) {
	_, found := Load("f.toml", []byte(smallPattern+numbered("x%d = 1\n", 4000)))
	assert.Len(t, found, maxFindings)
	p, found := Load("f.toml", []byte("pattern = 1\npegs = 5\n"+numbered("[[zone]]\nname = 'z%d'\nrows = ['k2, p3']\ntimes = 2\n", 1000)))
	assert.Equal(t, 2000, p.Grid.Rows(), "warnings cut nothing off")
	assert.Len(t, found, 2*maxFindings)
}
