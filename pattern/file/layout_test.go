package file

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

func TestALayoutIsWhatTheFileSays(t *testing.T) {
	l := LayoutOf([]byte(readTestdata(t, "testdata/valid/every-key.toml")))
	assert.Equal(t, Layout{
		Markers: []int{1, 12},
		Motifs:  []MotifLayout{{Name: "dot", Pegs: 2, Rows: 2, Col: 5, Row: 2}, {Name: "middle", Pegs: 2, Rows: 1}},
		Zones: []ZoneLayout{
			{Like: -1, Motif: -1, Strips: []StripLayout{{Rows: []string{"k", "p"}}}, Times: 2, Garter: true, OwnStrips: true, OwnTimes: true},
			{
				Like: -1, Motif: -1, Sides: 2, SideRows: []string{"k1, p1", "p1, k1"}, Strips: []StripLayout{{Rows: []string{"k2, p6", "p6, k2"}}},
				Height: 13 * measure.Millimetre, OwnSides: true, OwnStrips: true, OwnHeight: true,
			},
			{
				Like: -1, Motif: -1, Sides: 2, Strips: []StripLayout{{Chart: 8}}, Times: 1, Even: true,
				OwnSides: true, OwnStrips: true, OwnTimes: true,
			},
			{Like: -1, Motif: -1, Strips: []StripLayout{{Pegs: 4, Rows: []string{"k", "p"}}, {Pegs: 8, Chart: 8}}, OwnStrips: true},
			{Like: -1, Motif: 0, OwnStrips: true},
			{Like: -1, Motif: 1, Height: 9 * measure.Millimetre, OwnStrips: true, OwnHeight: true},
			{Like: 0, Motif: -1, Strips: []StripLayout{{Rows: []string{"k", "p"}}}, Times: 1, Garter: true, OwnTimes: true},
		},
	}, l)
}

func TestALayoutTellsWhatIsCopied(t *testing.T) {
	l := LayoutOf([]byte("pattern = 1\npegs = 9\n[[zone]]\nname = 'a'\nsides = 2\nrows = ['k']\ntimes = 4\n" +
		"[[zone]]\nname = 'b'\nlike = 'a'\nsides = 1\n[[zone]]\nname = 'c'\nlike = 'b'\nchart = '|-|-|-|'\n"))
	require.Len(t, l.Zones, 3)
	assert.Equal(t, []int{-1, 0, 1}, []int{l.Zones[0].Like, l.Zones[1].Like, l.Zones[2].Like})
	assert.Equal(t, []int{4, 4, 4}, []int{l.Zones[0].Times, l.Zones[1].Times, l.Zones[2].Times})
	assert.Equal(t, []bool{true, false, false}, []bool{l.Zones[0].OwnTimes, l.Zones[1].OwnTimes, l.Zones[2].OwnTimes})
	assert.Equal(t, []bool{true, true, false}, []bool{l.Zones[0].OwnSides, l.Zones[1].OwnSides, l.Zones[2].OwnSides})
	assert.Equal(t, []StripLayout{{Chart: 7}}, l.Zones[2].Strips)
	assert.True(t, l.Zones[2].OwnStrips)
	assert.False(t, l.Zones[1].OwnStrips)
}

func TestAFileThatDoesNotLoadHasNoLayout(t *testing.T) {
	for _, text := range []string{"", "pattern = 1", "pattern = ", "pattern = 1\npegs = 5\n[[zone]]\nname = 'a'\nrows = ['k6']"} {
		assert.Empty(t, LayoutOf([]byte(text)))
	}
}

func TestAHeightIsFoundForAnyNumberOfRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := ZoneLayout{Even: rapid.Bool().Draw(t, "even"), Garter: rapid.Bool().Draw(t, "garter")}
		g := pattern.Gauge{
			Stitches: rapid.Float64Range(fewestIn10cm, mostIn10cm).Draw(t, "stitches"), Rows: rapid.Float64Range(fewestIn10cm, mostIn10cm).Draw(t, "rows"),
			GarterRows: rapid.SampledFrom([]float64{0, 20, 48.5}).Draw(t, "garter rows"),
		}
		repeat := rapid.IntRange(1, 20).Draw(t, "repeat")
		rows := repeat * rapid.IntRange(1, 200).Draw(t, "times")
		text, ok := z.HeightFor(rows, repeat, g)
		if z.Even && rows%2 == 1 {
			assert.False(t, ok)
			return
		}
		require.True(t, ok)
		l, err := measure.ParseLength(text)
		require.NoError(t, err)
		assert.Equal(t, rows, z.RowsFor(l, repeat, g), text)
	})
}
