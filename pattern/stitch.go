package pattern

import "fmt"

// Stitch is what one cell of the fabric is: a small id. The plain kinds are the
// constants below. A cross of loops over several pegs has one part a column, made
// by Cross.Parts. Several wraps of the knit stitch are kinds of their own only
// where the maker names them stitch by stitch; otherwise Knit is worked the way
// the piece or the zone says.
type Stitch uint16

// The plain kinds of stitch.
const (
	NoStitch      Stitch = iota // the peg is not in use on this row
	Knit                        // a knit, wrapped as the piece says
	Purl                        // yarn below the loop
	Slip                        // the peg is skipped, yarn behind
	SlipFront                   // the peg is skipped, yarn in front
	EWrap                       // a knit wrapped round the peg: a twisted knit
	UWrap                       // a knit laid halfway round the peg
	FlatKnit                    // a knit with the yarn laid flat across
	TrueKnit                    // a knit drawn through the loop
	TwistedKnit                 // a knit through the back of the loop
	YarnOver                    // a wrap on an empty peg: leaves a hole
	RightTwo                    // two together, leaning right
	LeftTwo                     // two together, leaning left
	PurlTwo                     // two purled together
	CentreThree                 // three together, the middle one on top
	IncreaseKnit                // knit once more into the loop below its neighbour
	MakeOne                     // a new stitch lifted from the strand between two
	TwistedPurl                 // a purl through the back of the loop
	LeftPurlTwo                 // two purled together, leaning left
	plainStitches               // how many plain kinds there are
)

// Face is what the right side of the fabric shows at a cell.
type Face uint8

// The faces a cell can have.
const (
	FaceNone Face = iota // nothing there: the peg is not in use
	FaceKnit             // a V
	FacePurl             // a bump
	FaceOpen             // a hole
)

// kind is what is known of a plain kind of stitch.
type kind struct {
	name  string // in full, as a person says it
	short string // as rows are written
	face  Face
	in    int // loops of the row below that it is worked into
}

var kinds = [plainStitches]kind{
	NoStitch:     {"no stitch", "none", FaceNone, 0},
	Knit:         {"knit", "k", FaceKnit, 1},
	Purl:         {"purl", "p", FacePurl, 1},
	Slip:         {"slip", "sl", FaceKnit, 1},
	SlipFront:    {"slip with the yarn in front", "sl.wyif", FacePurl, 1},
	EWrap:        {"e-wrap knit", "ew", FaceKnit, 1},
	UWrap:        {"u-wrap knit", "uw", FaceKnit, 1},
	FlatKnit:     {"flat knit", "fk", FaceKnit, 1},
	TrueKnit:     {"true knit", "tk", FaceKnit, 1},
	TwistedKnit:  {"twisted knit", "ktbl", FaceKnit, 1},
	YarnOver:     {"yarn over", "yo", FaceOpen, 0},
	RightTwo:     {"knit 2 together", "k2tog", FaceKnit, 2},
	LeftTwo:      {"slip, slip, knit", "ssk", FaceKnit, 2},
	PurlTwo:      {"purl 2 together", "p2tog", FacePurl, 2},
	CentreThree:  {"3 together", "sk2p", FaceKnit, 3},
	IncreaseKnit: {"knit into it again", "kfb", FaceKnit, 0},
	MakeOne:      {"make one", "m1", FaceKnit, 0},
	TwistedPurl:  {"twisted purl", "ptbl", FacePurl, 1},
	LeftPurlTwo:  {"slip, slip, purl", "ssp", FacePurl, 2},
}

// PlainStitches lists the plain kinds in the order of their ids.
func PlainStitches() []Stitch {
	all := make([]Stitch, plainStitches)
	for i := range all {
		all[i] = Stitch(i)
	}
	return all
}

// String is the stitch's name in full: "knit", "purl", "3 over 3, leaning right".
func (s Stitch) String() string {
	if c, _, ok := s.Cross(); ok {
		return c.String()
	}
	if int(s) >= len(kinds) {
		return fmt.Sprintf("stitch %d", uint16(s))
	}
	return kinds[s].name
}

// Short is the stitch as rows are written: "k", "p", "sl".
func (s Stitch) Short() string {
	if c, _, ok := s.Cross(); ok {
		return c.short()
	}
	if int(s) >= len(kinds) {
		return "?"
	}
	return kinds[s].short
}

// Face is what the stitch shows on the right side of the fabric.
func (s Stitch) Face() Face {
	if c, part, ok := s.Cross(); ok {
		return c.face(part)
	}
	if int(s) >= len(kinds) {
		return FaceNone
	}
	return kinds[s].face
}

// LoopsIn is how many loops of the row below the stitch is worked into: 1 for most,
// 0 for a yarn over and for a peg not in use, 2 for two together.
func (s Stitch) LoopsIn() int {
	if s&crossBit != 0 {
		return 1
	}
	if int(s) >= len(kinds) {
		return 0
	}
	return kinds[s].in
}

// LoopsOut is how many loops the stitch leaves on its peg: 1, or 0 where the peg is
// not in use.
func (s Stitch) LoopsOut() int {
	if s == NoStitch {
		return 0
	}
	return 1
}

// Cross is a cable: loops of neighbouring pegs that change places. It is named by
// what is seen: the strands in front lean to one side.
type Cross struct {
	Front    int  // strands that pass in front, 1 to 4
	Back     int  // strands that pass behind, 1 to 4
	Lean     Side // the side the front strands lean to
	PurlBack bool // the strands behind are purled
}

// A part of a cross is packed into one id: the top bit, the lean, front-1, back-1,
// whether the back is purled, and the column within the cross.
const (
	crossBit    Stitch = 1 << 15
	leanBit     Stitch = 1 << 14
	purlBackBit Stitch = 1 << 9
	frontShift         = 12
	backShift          = 10
	maxStrands         = 4
)

// Width is how many pegs the cross covers.
func (c Cross) Width() int { return c.Front + c.Back }

// Parts are the cells of the cross, left to right as seen. It returns nil where a
// strand count is outside 1 to 4.
func (c Cross) Parts() []Stitch {
	if min(c.Front, c.Back) < 1 || max(c.Front, c.Back) > maxStrands {
		return nil
	}
	id := crossBit | Stitch(c.Front-1)<<frontShift | Stitch(c.Back-1)<<backShift
	if c.Lean == Right {
		id |= leanBit
	}
	if c.PurlBack {
		id |= purlBackBit
	}
	parts := make([]Stitch, c.Width())
	for i := range parts {
		parts[i] = id | Stitch(i)
	}
	return parts
}

// Cross tells which cross the stitch is a part of and which column of it, counted
// from 0 at the left as seen.
func (s Stitch) Cross() (c Cross, part int, ok bool) {
	if s&crossBit == 0 {
		return Cross{}, 0, false
	}
	c = Cross{
		Front:    int(s>>frontShift&3) + 1,
		Back:     int(s>>backShift&3) + 1,
		PurlBack: s&purlBackBit != 0,
	}
	if s&leanBit != 0 {
		c.Lean = Right
	}
	return c, int(s & 7), true
}

// String says what is seen: "3 over 3, leaning right".
func (c Cross) String() string {
	behind := ""
	if c.PurlBack {
		behind = ", purl behind"
	}
	return fmt.Sprintf("%d over %d, leaning %s%s", c.Front, c.Back, c.Lean, behind)
}

func (c Cross) short() string {
	return fmt.Sprintf("%dx%d%s", c.Front, c.Back, c.Lean.String()[:1])
}

// source is the column of the cross, left to right, whose loop ends up in column
// part. The front strands lean right when they start at the left.
func (c Cross) source(part int) int {
	if c.Lean == Right {
		return (part + c.Front) % c.Width()
	}
	return (part + c.Back) % c.Width()
}

// front tells whether the loop that ends up in column part passes in front.
func (c Cross) front(part int) bool {
	if c.Lean == Right {
		return part >= c.Back
	}
	return part < c.Front
}

func (c Cross) face(part int) Face {
	if c.PurlBack && !c.front(part) {
		return FacePurl
	}
	return FaceKnit
}

// Yarn is the yarn of a cell: an index into Pattern.Yarns. 0 is the main yarn.
type Yarn uint8

// Cell is one stitch of the fabric. Whether its peg carries a marker and whether it
// belongs to a border follow from its column and zone: see Pattern.Marked and
// Pattern.Border.
type Cell struct {
	Stitch Stitch
	Yarn   Yarn
}
