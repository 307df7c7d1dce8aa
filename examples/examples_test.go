package examples_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
)

// load is an example that has nothing wrong and nothing doubtful in it.
func load(t testing.TB, name string) *pattern.Pattern {
	t.Helper()
	text, ok := examples.Text(name)
	require.True(t, ok, name)
	p, diags := file.Load(name, text)
	require.Empty(t, diags.Of(safetext.Error))
	require.Empty(t, diags.Of(safetext.Warning))
	require.NotNil(t, p)
	return p
}

// rows are the rows of a pattern from the bottom, a letter a peg.
func rows(p *pattern.Pattern) []string {
	var all []string
	for row := 1; row <= p.Grid.Rows(); row++ {
		var b strings.Builder
		for _, c := range p.Grid.Row(row).Cells() {
			b.WriteString(c.Stitch.Short())
		}
		all = append(all, b.String())
	}
	return all
}

// zone is the zone of that name.
func zone(t testing.TB, p *pattern.Pattern, name string) *pattern.Zone {
	t.Helper()
	i := slices.IndexFunc(p.Zones, func(z pattern.Zone) bool { return z.Name == name })
	require.GreaterOrEqual(t, i, 0, "no zone %q", name)
	return &p.Zones[i]
}

func TestEveryExampleLoadsWithoutADoubt(t *testing.T) {
	names := examples.Names()
	require.NotEmpty(t, names)
	assert.True(t, slices.IsSorted(names), "%v", names)
	titles := map[string]string{}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			p := load(t, name)
			assert.Empty(t, titles[p.Title], "two examples of one title")
			titles[p.Title] = name
			assert.Equal(t, name, strings.ToLower(strings.ReplaceAll(p.Title, " ", "-")), "its title is its name")
			assert.NotEmpty(t, p.About)
		})
	}
	_, ok := examples.Text("no-such-cloth")
	assert.False(t, ok)
}

func TestEveryExampleHasAGarterFrame(t *testing.T) {
	for _, name := range examples.Names() {
		t.Run(name, func(t *testing.T) {
			p := load(t, name)
			all := rows(p)
			knit, purl := strings.Repeat("k", p.Pegs), strings.Repeat("p", p.Pegs)
			// A knit row, then a purl row make a ridge on a loom:
			// loomatics.ga/2012/05/garter-stitch.html. Borders of 3 to 5 stitches and rows
			// are taught, fewer in very thick yarn: common practice, no source.
			bottom := &p.Zones[0]
			require.True(t, bottom.Border)
			require.GreaterOrEqual(t, bottom.Rows(), 4)
			for i := range bottom.Rows() {
				assert.Equal(t, []string{knit, purl}[i%2], all[i], "row %d", i+1)
			}
			// Alike at both ends with one more knit row before the bind-off: arithmetic.
			for i := range bottom.Rows() {
				assert.Equal(t, all[i], all[len(all)-1-i], "row %d from both ends", i+1)
			}
			if p.Form == pattern.Panel {
				assert.Equal(t, 1, len(all)%2, "rows of a panel")
				checkSides(t, p, all)
			}
		})
	}
}

// checkSides wants garter in the outer two pegs at both edges all the way up: ridges
// of the sides go on from those of the ends without a break.
func checkSides(t *testing.T, p *pattern.Pattern, all []string) {
	t.Helper()
	for i, row := range all {
		side := []string{"kk", "pp"}[i%2]
		assert.True(t, strings.HasPrefix(row, side) && strings.HasSuffix(row, side), "row %d is %s", i+1, row)
	}
	for _, z := range p.Zones {
		assert.True(t, z.Border || z.Sides >= 2, "the %s has no sides", z.Name)
		if z.Sides > 0 {
			assert.Zero(t, z.Rows()%2, "the %s ends with half a ridge", z.Name)
		}
	}
}

func TestTheExamplesAreOfDifferentKinds(t *testing.T) {
	var small, tubes, pictures, sideBySide, lace []string
	for _, name := range examples.Names() {
		p := load(t, name)
		text, _ := examples.Text(name)
		if p.Pegs <= 12 && p.Grid.Rows() <= 15 {
			small = append(small, name)
		}
		if p.Form == pattern.Tube {
			tubes = append(tubes, name)
		}
		if strings.Contains(string(text), "[motif.") {
			pictures = append(pictures, name)
		}
		if len(p.Moves(p.Zones[0].Last+1)) > 0 {
			lace = append(lace, name)
		}
		if slices.ContainsFunc(p.Zones, hasBanks) {
			sideBySide = append(sideBySide, name)
		}
	}
	assert.NotEmpty(t, small, "one for an evening")
	assert.NotEmpty(t, tubes, "one in the round")
	assert.NotEmpty(t, pictures, "one with a picture")
	assert.NotEmpty(t, sideBySide, "one of two textures side by side")
	assert.NotEmpty(t, lace, "one of lace and cables")
}

// hasBanks tells whether two strips of a zone's field lie side by side.
func hasBanks(z pattern.Zone) bool {
	fields := slices.DeleteFunc(slices.Clone(z.Strips), func(s pattern.Strip) bool { return s.Side })
	return len(fields) > 1
}

func TestTheBoatFloats(t *testing.T) {
	p := load(t, "skiff-cloth")
	all := rows(p)
	boat := zone(t, p, "boat")
	purls := func(row int) int { return strings.Count(all[row-1][3:24], "p") }
	// What is drawn on the last line is worked first and lies at the bottom: common
	// practice, no source. The hull widens upwards, then comes the mast, then the sail,
	// which narrows to the top.
	var widths []int
	for row := boat.First; row <= boat.Last; row++ {
		widths = append(widths, purls(row))
	}
	assert.Equal(t, []int{11, 13, 15, 17, 2, 2, 8, 6, 4, 2}, widths)
	water, sky := zone(t, p, "water"), zone(t, p, "sky")
	assert.Less(t, water.Last, boat.First)
	assert.Greater(t, sky.First, boat.Last)
}

func TestTheSailIsOnTheSameSideForEitherHand(t *testing.T) {
	p := load(t, "skiff-cloth")
	lowest := zone(t, p, "boat").First + 6 // the sail's widest row
	for _, hand := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
		o := pattern.Order{Pattern: p, Way: p.WayFor(hand)}
		var seen []string
		for done := range p.Pegs {
			col := o.Column(lowest, done)
			if p.Grid.Row(lowest).Cells()[col].Stitch == pattern.Purl && !p.Border(lowest, col) {
				seen = append(seen, fmt.Sprint(col))
			}
		}
		slices.Sort(seen)
		assert.Equal(t, "13 14 15 16 17 18 19 20", strings.Join(seen, " "), "%v hand", hand)
	}
}

func TestASecondRepeatOfItsOwnInEachStrip(t *testing.T) {
	p := load(t, "two-bank-scarf")
	all := rows(p)
	banks := zone(t, p, "banks")
	// The seed strip repeats every 2 rows and the drawn one every 6, each from its first
	// row on: arithmetic.
	for row := banks.First; row <= banks.Last; row++ {
		at := row - banks.First
		assert.Equal(t, all[banks.First-1+at%2][2:15], all[row-1][2:15], "row %d of the seed strip", row)
		assert.Equal(t, all[banks.First-1+at%6][15:28], all[row-1][15:28], "row %d of the drawn strip", row)
	}
}

// What leans at one side leans the other way at the other, and the cable opens upwards:
// common practice, no source.
func TestTheLaceIsTheSameFromBothSides(t *testing.T) {
	p := load(t, "weir-cloth")
	mirror := map[string]string{"ssk": "k2tog", "k2tog": "ssk", "2x2l": "2x2r", "2x2r": "2x2l"}
	field := zone(t, p, "field")
	holes := 0
	for row := field.First; row <= field.Last; row++ {
		cells := p.Grid.Row(row).Cells()
		for col, c := range cells {
			here, there := c.Stitch.Short(), cells[p.Pegs-1-col].Stitch.Short()
			if want, ok := mirror[here]; ok {
				assert.Equal(t, want, there, "row %d column %d", row, col)
			} else {
				assert.Equal(t, here, there, "row %d column %d", row, col)
			}
			if here == "yo" {
				holes++
			}
		}
		assert.Equal(t, p.Pegs, p.Grid.Row(row).LoopsIn(), "row %d", row)
	}
	assert.Equal(t, 2*18, holes, "two in every second row of 36")
	for row, want := range map[int]string{7: "2x2l 2x2l 2x2l 2x2l 2x2r", 9: "k k k k k"} {
		var seen []string
		for _, c := range p.Grid.Cells(row, 8, 13) {
			seen = append(seen, c.Stitch.Short())
		}
		assert.Equal(t, want, strings.Join(seen, " "))
	}
}

// A picture drawn as text, its point on the last line, in the words of a pattern file.
const heart = `
pattern = 1
title   = "Mill Heart"
pegs    = 11

[motif.heart]
chart = """
|||||||||||
||--|||--||
|----|----|
|---------|
||-------||
|||-----|||
||||---||||
|||||-|||||
"""

[[zone]]
name  = "heart"
motif = "heart"
`

func TestAHeartDrawnWithItsPointOnTheLastLineBeginsWithThePoint(t *testing.T) {
	// Row 1 is the bottom line of a chart: common practice, no source.
	p, diags := file.Load("heart.toml", []byte(heart))
	require.NotNil(t, p, "%v", diags)
	all := rows(p)
	require.Len(t, all, 8)
	assert.Equal(t, "kkkkkpkkkkk", all[0], "row 1 is the point")
	assert.Equal(t, "kkkkpppkkkk", all[1])
	assert.Equal(t, "kkppkkkppkk", all[6], "the two rounds come last")
	assert.Equal(t, strings.Repeat("k", 11), all[7])
	// A picture of 11 by 8 used as one of 8 by 11 does not pass in silence.
	turned, diags := file.Load("heart.toml", []byte(strings.Replace(heart, "pegs    = 11", "pegs    = 8", 1)))
	assert.Nil(t, turned)
	assert.NotEmpty(t, diags.Of(safetext.Error))
}
