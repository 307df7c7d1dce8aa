package chart

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// styles are all sets, as a terminal draws them and in ASCII.
func styles() []Style {
	var all []Style
	for set := range setNames {
		all = append(all, Style{Set: Set(set)}, Style{Set: Set(set), ASCII: true})
	}
	return all
}

// everyCell is one cell of each plain kind, the knits and purls of ten yarns, and
// every part of every cross.
func everyCell() []pattern.Cell {
	var cells []pattern.Cell
	for _, s := range pattern.PlainStitches() {
		cells = append(cells, pattern.Cell{Stitch: s})
	}
	for y := range pattern.Yarn(9) {
		cells = append(cells, pattern.Cell{Stitch: pattern.Knit, Yarn: y + 1}, pattern.Cell{Stitch: pattern.Purl, Yarn: y + 1})
	}
	return cells
}

func everyStrand() []pattern.Cell {
	var cells []pattern.Cell
	for i := range 64 {
		c := pattern.Cross{Front: 1 + i&3, Back: 1 + i>>2&3, Lean: pattern.Side(i >> 4 & 1), PurlBack: i>>5 == 1}
		for _, s := range c.Parts() {
			cells = append(cells, pattern.Cell{Stitch: s})
		}
	}
	return cells
}

func TestNoTwoStitchesOfASetShareASymbol(t *testing.T) {
	for _, style := range styles() {
		s := newSymbols(style.Set, style.ASCII)
		for l := range looks {
			owner := map[string]pattern.Cell{}
			for _, c := range everyCell() {
				symbol := s.of(c, l)
				assert.NotEqual(t, unknown, symbol, "%s: %v has no symbol", style.Set, c)
				assert.NotContains(t, owner, symbol, "%s: %v and %v", style.Set, c, owner[symbol])
				owner[symbol] = c
			}
			for _, c := range everyStrand() {
				assert.NotContains(t, owner, s.of(c, l), "%s: a strand looks like a stitch", style.Set)
			}
		}
	}
}

func TestASymbolTakesOneCellOnEveryTerminal(t *testing.T) {
	for _, style := range styles() {
		s := newSymbols(style.Set, style.ASCII)
		drawn := []string{s.edge, s.gap, s.over, s.under, s.pointer, s.hollow, s.arrows[0], s.arrows[1], s.bracket.top, s.bracket.side, s.bracket.bottom, s.bracket.only}
		for l := range looks {
			for _, c := range append(everyCell(), everyStrand()...) {
				drawn = append(drawn, s.of(c, l))
			}
		}
		for _, symbol := range drawn {
			assert.Equal(t, 1, safetext.Width(symbol), "%q", symbol)
			assert.True(t, symbol == " " || safetext.IsSymbol(symbol), "%q", symbol)
			for _, r := range symbol {
				assert.Less(t, r, rune(0x10000), "%q is outside the basic plane", symbol)
				assert.True(t, !style.ASCII || r < 0x7f, "%q is not ASCII", symbol)
			}
		}
	}
}

func TestABorderDiffersByShape(t *testing.T) {
	for _, style := range styles() {
		s := newSymbols(style.Set, style.ASCII)
		for _, stitch := range []pattern.Stitch{
			pattern.Knit, pattern.Purl, pattern.Slip, pattern.SlipFront, pattern.EWrap, pattern.UWrap,
			pattern.FlatKnit, pattern.TrueKnit, pattern.TwistedKnit, pattern.YarnOver, pattern.MakeOne,
		} {
			c := pattern.Cell{Stitch: stitch}
			assert.NotEqual(t, s.of(c, inField), s.of(c, inBorder), "%s: %s", style.Set, stitch)
		}
	}
}

// Knit is a vertical line and purl a horizontal one in the symbol tradition of
// JIS L 0201-1995: kikakurui.com/l/L0201-1995-01.html for the standard (front and back
// stitch, 1010 and 1020); vogueknitting.com, reading charts, for the two shapes, which
// are the standard's own from memory.
func TestBarsAreThoseOfTheStandard(t *testing.T) {
	for ascii, want := range map[bool][2]string{false: {"│", "─"}, true: {"|", "-"}} {
		s := newSymbols(Bars, ascii)
		assert.Equal(t, want[0], s.of(pattern.Cell{Stitch: pattern.Knit}, inField))
		assert.Equal(t, want[1], s.of(pattern.Cell{Stitch: pattern.Purl}, inField))
	}
}

// A knit is an empty square: issuhub.com id 4587 p. 105, reading a stitch pattern
// chart. There purl is a dot; the dash for it is from memory. So that no dot is
// mistaken, squares have none.
func TestSquaresLeaveAKnitEmpty(t *testing.T) {
	s := newSymbols(Squares, false)
	assert.Equal(t, " ", s.of(pattern.Cell{Stitch: pattern.Knit}, inField))
	assert.Equal(t, "─", s.of(pattern.Cell{Stitch: pattern.Purl}, inField))
	for _, c := range everyCell() {
		assert.False(t, strings.Contains("·.•", s.of(c, inField)), "%v", c)
	}
}

func TestToneNamesAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for tone := Text; tone <= InHand; tone++ {
		assert.NotEmpty(t, tone.String())
		assert.False(t, seen[tone.String()], "%s twice", tone)
		seen[tone.String()] = true
	}
}
