package pattern

import "slices"

// Use is what a piece is for. It decides which cautions are shown.
type Use uint8

// The uses.
const (
	OtherUse Use = iota
	Mat
	Cloth
	HotPad
	Wearable
	Baby
)

var useNames = []string{OtherUse: "other", Mat: "mat", Cloth: "cloth", HotPad: "hot pad", Wearable: "wearable", Baby: "baby"}

// String is the use as pattern files write it.
func (u Use) String() string { return name(useNames, int(u)) }

// UseNames are the uses as pattern files write them.
func UseNames() []string { return slices.Clone(useNames) }

// Wrap is how a plain knit of the piece or the zone is made. It changes size and
// yarn, not what is knit or purl.
type Wrap uint8

// The wraps.
const (
	WrapU Wrap = iota
	WrapE
	WrapFlat
	WrapTrue
)

var wrapNames = []string{WrapU: "u-wrap", WrapE: "e-wrap", WrapFlat: "flat", WrapTrue: "true"}

// String is the wrap as pattern files write it.
func (w Wrap) String() string { return name(wrapNames, int(w)) }

// WrapNames are the wraps as pattern files write them.
func WrapNames() []string { return slices.Clone(wrapNames) }

// CastOn is how loops are put on the pegs. Passes tells where the yarn is left: 1,
// it runs across once and ends away from its tail; 2, it goes there and back and
// ends beside the tail.
type CastOn struct {
	Name   string
	Passes int
}

// castOns are the cast-ons known by name. Which of them run there and back: from
// memory; the others leave the yarn at the far end (common practice, no source).
var castOns = []CastOn{{"chain", 1}, {"e-wrap", 1}, {"double e-wrap", 1}, {"weave", 2}, {"drawstring", 2}}

// CastOnNames are the cast-ons known by name.
func CastOnNames() []string {
	names := make([]string, len(castOns))
	for i, c := range castOns {
		names[i] = c.Name
	}
	return names
}

// CastOnNamed finds a cast-on by its name.
func CastOnNamed(s string) (CastOn, bool) {
	i := slices.IndexFunc(castOns, func(c CastOn) bool { return c.Name == s })
	if i < 0 {
		return CastOn{}, false
	}
	return castOns[i], true
}

func name(names []string, i int) string {
	if i < len(names) {
		return names[i]
	}
	return "unknown"
}

// Gauge is how many stitches and rows there are in 10 cm of relaxed fabric. A figure
// that was not given is 0.
type Gauge struct {
	Name       string // empty for the piece's own
	Stitches   float64
	Rows       float64
	GarterRows float64
}

// Swatch is a weighed sample. Zero where none was given.
type Swatch struct {
	Stitches int
	Rows     int
	Grams    float64
}

// Loom is the loom a pattern was written on. A figure that was not given is 0.
type Loom struct {
	Pegs      int
	SpacingMM float64 // centre to centre of neighbouring pegs
	FirstPeg  int     // the loom's own number of the work's peg 1
}

// UnknownWeight is the yarn weight class of a yarn that states none; class 0 is lace.
const UnknownWeight = -1

// YarnInfo is what is known of one yarn. A figure that was not given is 0.
type YarnInfo struct {
	Name   string // as the file calls it; empty for the main yarn
	Colour string
	Weight int // yarn weight class 0 to 7, or UnknownWeight
	Fibre  string
	Metres float64 // in one ball
	Grams  float64 // in one ball
	WPI    float64 // wraps per inch
	Tex    float64 // grams per kilometre
}

// Called is what a person calls the yarn: its colour, or else its name.
func (y YarnInfo) Called() string {
	switch {
	case y.Colour != "":
		return y.Colour
	case y.Name != "":
		return y.Name
	}
	return "the main yarn"
}

// Design is what a pattern says of itself beside its fabric.
type Design struct {
	Title      string
	About      string
	Use        Use
	Form       Form
	Pegs       int
	StatedPegs int // what the pattern states, where its maker chose another count; else 0
	CastOn     CastOn
	WrittenFor Hand
	Way        Way // the directions the pattern states for that hand
	KnitAs     Wrap
	Gauge      Gauge
	Gauges     []Gauge // further ones, measured on a texture
	Swatch     Swatch
	Loom       Loom
	Yarns      []YarnInfo // the main yarn first
}

// WayFor is the way a maker of the given hand works the design: the way it states,
// mirrored where it was written for the other hand.
func (d *Design) WayFor(h Hand) Way {
	if h == d.WrittenFor {
		return d.Way
	}
	return d.Way.Mirrored()
}
