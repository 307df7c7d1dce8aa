package chart

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/pattern/rowtext"
)

// everyStep is each step that a written row may name, crosses too.
func everyStep() []rowtext.Stitch {
	steps := rowtext.Stitches()
	for i := range 64 {
		steps = append(steps, rowtext.CrossStitch(pattern.Cross{
			Front: 1 + i&3, Back: 1 + i>>2&3, Lean: pattern.Side(i >> 4 & 1), PurlBack: i>>5 == 1,
		}))
	}
	return steps
}

// Whatever a row may name is drawn in every set, in the field and in a border, and the key
// explains it by the very signs that are drawn, under a name that no other sign has.
func TestEveryStepOfARowIsDrawnAndExplained(t *testing.T) {
	p := patterntest.Build(t, patterntest.Drawn("||"))
	for _, style := range styles() {
		c := New(pattern.Order{Pattern: p, Way: p.Way}, style)
		for l := range looks {
			named := map[string]string{}
			for _, step := range everyStep() {
				k := newKey()
				drawn := ""
				for _, s := range step.Cells() {
					cell := pattern.Cell{Stitch: s}
					k.note(cell, l)
					drawn += c.symbols.of(cell, l)
				}
				assert.NotContains(t, drawn, unknown, step.Name())
				_, _, cross := step.Cells()[0].Cross()
				for _, e := range c.entries(k) {
					assert.Contains(t, drawn, e.symbol, step.Name())
					assert.True(t, !cross || e.symbol == drawn, "%s is explained as a whole", step.Name())
					if other, ok := named[e.name]; ok {
						assert.Equal(t, other, e.symbol, "%s: %s", style.Set, e.name)
					}
					named[e.name] = e.symbol
					line := strings.Join(c.legend(k, 200), "")
					symbol := e.symbol
					if strings.TrimSpace(symbol) == "" {
						symbol = "blank"
					}
					assert.Contains(t, line, symbol+" "+e.name)
				}
			}
		}
	}
}

// Both kinds of decrease lean as they are seen, whichever way the row runs that makes
// them, and so do crosses: craftyarncouncil.com/standards/knit-abbreviations for the two
// decreases; crosses from memory.
func TestLeansAreDrawnAsTheyAreSeen(t *testing.T) {
	row := func(steps ...rowtext.Stitch) string {
		drawn := ""
		for _, step := range steps {
			for _, s := range step.Cells() {
				drawn += newSymbols(Bars, false).of(pattern.Cell{Stitch: s}, inField)
			}
		}
		return drawn
	}
	cross := func(lean pattern.Side) rowtext.Stitch {
		return rowtext.CrossStitch(pattern.Cross{Front: 2, Back: 2, Lean: lean})
	}
	assert.Equal(t, "◢◣◣", row(rowtext.KnitTwo, rowtext.SlipSlipKnit, rowtext.SlipKnitPass))
	assert.Equal(t, "╲╲┊╎", row(cross(pattern.Left)))
	assert.Equal(t, "╎┊╱╱", row(cross(pattern.Right)))
	assert.Equal(t, "c4f", cross(pattern.Left).Name())
}
