package fit_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/fit"
)

// Where to stop, held against whole pieces: of every piece that ends its field a repeat
// earlier or later the yarn is reckoned from scratch, and the longest one that the yarn
// makes is the answer.
func TestWhereToStopAgainstEveryPiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pegs, ridges := 2*rapid.IntRange(6, 20).Draw(t, "pegs"), rapid.IntRange(1, 4).Draw(t, "ridges")
		times, sides := rapid.IntRange(1, 9).Draw(t, "times"), 2*rapid.IntRange(0, 1).Draw(t, "sides")
		piece := func(times int) *pattern.Pattern {
			return load(t, inGauge(pegs, 14, 20)+"[yarn]\nmetres = 85\ngrams = 50\n"+
				zone("bottom", `"k", "p"`, ridges, "border = true")+
				zone("field", `"k", "*k1, sl1; rep from * to end", "k", "k"`, times, fmt.Sprintf("sides = %d", sides))+
				"[[zone]]\nname = \"top\"\nlike = \"bottom\"\n"+zone("set-up", `"k"`, 1, "border = true"))
		}
		p := piece(times)
		need := fit.YarnOf(p)[0]
		at, used := pattern.Start(), 0.0
		if rapid.Bool().Draw(t, "the border is done") {
			at, used = pattern.Place{Phase: pattern.Working, Row: 2*ridges + 1}, need.CastOn.Metres.High+need.Zones[0].Metres.High
		}
		stock := rapid.Float64Range(0.05, 2).Draw(t, "of the whole") * (need.Metres.High - used)
		l, err := fit.LeftOf(pattern.Order{Pattern: p, Way: p.Way}, at, 0, fit.Stock{Metres: stock})
		require.NoError(t, err)
		longest := 0
		for n := 1; n < 40; n++ {
			if fit.YarnOf(piece(n))[0].Metres.High-used <= stock {
				longest = n
			}
		}
		row, ok := l.StopRow()
		if longest == 0 { // not even one repeat: nothing is promised but what the border takes
			assert.True(t, !ok || row <= 2*ridges, "row %d", row)
			return
		}
		require.True(t, ok, "%d repeats can be had", longest)
		assert.Equal(t, 2*ridges+4*longest, row)
	})
}
