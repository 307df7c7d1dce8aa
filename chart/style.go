package chart

import (
	"slices"

	"bypeg/pattern"
)

// Set is a set of symbols, one for each stitch.
type Set uint8

// The sets.
const (
	Bars    Set = iota // knit a vertical bar, purl a horizontal one
	Squares            // knit a blank square, purl a dash, borders on a shaded ground
	Letters            // k and p, borders in capitals
)

var setNames = []string{Bars: "bars", Squares: "squares", Letters: "letters"}

// String is the set as a person names it.
func (s Set) String() string {
	if int(s) >= len(setNames) {
		return "unknown"
	}
	return setNames[s]
}

// SetNames are the sets as String writes them.
func SetNames() []string { return slices.Clone(setNames) }

// ParseSet reads what String writes.
func ParseSet(s string) (Set, bool) {
	i := slices.Index(setNames, s)
	return Set(max(0, i)), i >= 0
}

// Tone is how a piece of a line is to look. It is never a colour, and no tone is the
// only sign of what it tells: there is a shape or a word for that too.
type Tone uint8

// The tones. The coming ones are for stitches that are not worked yet.
const (
	Text   Tone = iota // words
	Faint              // what may step back: lines, headings, pegs not in use
	Number             // numbers of pegs, rows and ridges, and arrows
	Marker             // triangles at marked pegs
	Zone               // names of zones
	Field              // stitches inside the frame
	Border             // stitches of the frame
	Other              // stitches in another yarn than the main one
	FieldComing
	BorderComing
	OtherComing
	InHand // the next peg to be worked, its brackets or its pointer
)

var toneNames = []string{
	Text: "text", Faint: "faint", Number: "number", Marker: "marker", Zone: "zone", Field: "field", Border: "border",
	Other: "other", FieldComing: "field coming", BorderComing: "border coming", OtherComing: "other coming", InHand: "in hand",
}

// String names the tone.
func (t Tone) String() string {
	if int(t) >= len(toneNames) {
		return "unknown"
	}
	return toneNames[t]
}

// Painter gives text the look of a tone. It must not change how many cells the text
// takes, and give the same for the same text every time.
type Painter interface {
	Paint(t Tone, text string) string
}

// Plain is the painter that leaves text as it is.
type Plain struct{}

// Paint returns the text.
func (Plain) Paint(_ Tone, text string) string { return text }

// Style is how a chart is drawn.
type Style struct {
	Set     Set
	ASCII   bool    // nothing but ASCII is drawn
	Painter Painter // nil is Plain
	// Cells reads columns [from, to) of a row, left to right; nil reads the
	// pattern's grid. Nothing else gives a chart its stitches.
	Cells func(row, from, to int) []pattern.Cell
}
