package rowtext

import (
	"fmt"

	"bypeg/pattern"
)

// Stitch is one step of a written row. Rows tell some apart that make the same
// fabric (ssk and skp), and some of their steps cover several pegs, so this is not
// the cell of a grid: Cells says which those are. A cross of loops is made by
// CrossStitch.
type Stitch uint16

// The steps of a row beside crosses.
const (
	NoStitch     Stitch = iota // a peg not in use
	Knit                       // wrapped as the piece says
	Purl                       //
	Slip                       // the peg is skipped
	SlipBack                   // the peg is skipped, the yarn behind in so many words
	SlipFront                  // the peg is skipped, the yarn in front
	EWrap                      //
	UWrap                      //
	FlatKnit                   //
	TrueKnit                   //
	KnitTBL                    // through the back loop
	PurlTBL                    // through the back loop
	YarnOver                   //
	MakeOne                    //
	KnitTwice                  // knit into the front and the back of one loop
	KnitTwo                    // two together, leaning right
	SlipSlipKnit               // two together, leaning left
	SlipKnitPass               // the same in older words
	PurlTwo                    // two purled together
	SlipSlipPurl               // two purled together, leaning left
	SlipTwoPass                // three together: slip, knit two together, pass over
	stitches                   // how many there are
)

// step is what is known of a stitch: its name in rows, and its cells in order of work.
type step struct {
	name  string
	plain pattern.Stitch // its cell, the first one of kfb
	in    int            // loops it is worked into
	out   int            // loops it leaves
}

var steps = [stitches]step{
	NoStitch:     {"none", pattern.NoStitch, 0, 0},
	Knit:         {"k", pattern.Knit, 1, 1},
	Purl:         {"p", pattern.Purl, 1, 1},
	Slip:         {"sl", pattern.Slip, 1, 1},
	SlipBack:     {"sl.wyib", pattern.Slip, 1, 1},
	SlipFront:    {"sl.wyif", pattern.SlipFront, 1, 1},
	EWrap:        {"ew", pattern.EWrap, 1, 1},
	UWrap:        {"uw", pattern.UWrap, 1, 1},
	FlatKnit:     {"fk", pattern.FlatKnit, 1, 1},
	TrueKnit:     {"tk", pattern.TrueKnit, 1, 1},
	KnitTBL:      {"ktbl", pattern.TwistedKnit, 1, 1},
	PurlTBL:      {"ptbl", pattern.TwistedPurl, 1, 1},
	YarnOver:     {"yo", pattern.YarnOver, 0, 1},
	MakeOne:      {"m1", pattern.MakeOne, 0, 1},
	KnitTwice:    {"kfb", pattern.Knit, 1, 2},
	KnitTwo:      {"k2tog", pattern.RightTwo, 2, 1},
	SlipSlipKnit: {"ssk", pattern.LeftTwo, 2, 1},
	SlipKnitPass: {"skp", pattern.LeftTwo, 2, 1},
	PurlTwo:      {"p2tog", pattern.PurlTwo, 2, 1},
	SlipSlipPurl: {"ssp", pattern.LeftPurlTwo, 2, 1},
	SlipTwoPass:  {"sk2p", pattern.CentreThree, 3, 1},
}

// A cross is packed into one id above the plain ones: the strands in front and
// behind, less one, the lean, and whether the back is purled.
const (
	crossBit   Stitch = 1 << 8
	leanBit    Stitch = 1 << 4
	purlBit    Stitch = 1 << 5
	strandMask Stitch = 3
)

// CrossStitch is the step of a cross with 1 to 4 strands in front and behind.
func CrossStitch(c pattern.Cross) Stitch {
	s := crossBit | Stitch(c.Front-1)&strandMask | (Stitch(c.Back-1)&strandMask)<<2
	if c.Lean == pattern.Right {
		s |= leanBit
	}
	if c.PurlBack {
		s |= purlBit
	}
	return s
}

// Cross is the cross that the step is, if it is one.
func (s Stitch) Cross() (c pattern.Cross, ok bool) {
	if s&crossBit == 0 {
		return pattern.Cross{}, false
	}
	c = pattern.Cross{Front: int(s&strandMask) + 1, Back: int(s>>2&strandMask) + 1, PurlBack: s&purlBit != 0}
	if s&leanBit != 0 {
		c.Lean = pattern.Right
	}
	return c, true
}

// Name is the step as programs are told it: "k", "sl.wyif", "k2tog". A cross of
// equal knit halves is "c4f" where its front leans left and "c4b" where it leans
// right; others are named by strands in front and behind, the lean, and a p where the
// back is purled: "2/1lc", "2/1rpc".
func (s Stitch) Name() string {
	c, ok := s.Cross()
	switch {
	case !ok && s < stitches:
		return steps[s].name
	case !ok:
		return "?"
	case c.Front == c.Back && !c.PurlBack && c.Lean == pattern.Left:
		return fmt.Sprintf("c%df", c.Width())
	case c.Front == c.Back && !c.PurlBack:
		return fmt.Sprintf("c%db", c.Width())
	}
	purl := ""
	if c.PurlBack {
		purl = "p"
	}
	return fmt.Sprintf("%d/%d%s%sc", c.Front, c.Back, c.Lean.String()[:1], purl)
}

// In is how many loops of the row below the step is worked into.
func (s Stitch) In() int {
	if c, ok := s.Cross(); ok {
		return c.Width()
	}
	if s < stitches {
		return steps[s].in
	}
	return 0
}

// Out is how many loops the step leaves on the pegs.
func (s Stitch) Out() int {
	if c, ok := s.Cross(); ok {
		return c.Width()
	}
	if s < stitches {
		return steps[s].out
	}
	return 0
}

// Cells are the cells of the fabric that the step makes, in the order of work; those
// of a cross left to right as seen, as pattern.Line has them.
func (s Stitch) Cells() []pattern.Stitch {
	if c, ok := s.Cross(); ok {
		return c.Parts()
	}
	if s >= stitches {
		return nil
	}
	if s == KnitTwice {
		return []pattern.Stitch{pattern.Knit, pattern.IncreaseKnit}
	}
	return []pattern.Stitch{steps[s].plain}
}

// Stitches are the steps of a row beside crosses.
func Stitches() []Stitch {
	all := make([]Stitch, stitches)
	for i := range all {
		all[i] = Stitch(i)
	}
	return all
}

// Run is a number of equal steps one after the other.
type Run struct {
	Stitch Stitch
	Count  int // at least 1
}

// In is how many loops of the row below runs are worked into.
func In(runs []Run) int {
	n := 0
	for _, r := range runs {
		n += r.Count * r.Stitch.In()
	}
	return n
}

// Out is how many loops runs leave on the pegs.
func Out(runs []Run) int {
	n := 0
	for _, r := range runs {
		n += r.Count * r.Stitch.Out()
	}
	return n
}

// RunsOf are the steps of a row of a fabric, in the order in which its maker works
// it. Pegs not in use are left out.
func RunsOf(o pattern.Order, row int) []Run {
	var runs []Run
	for r := range Worked(o, row) {
		runs = AddCells(runs, r)
	}
	return runs
}

// AddCells appends a run of a fabric's cells as steps.
func AddCells(runs []Run, r pattern.Run) []Run {
	if c, _, ok := r.Stitch.Cross(); ok {
		return push(runs, Run{CrossStitch(c), 1})
	}
	if r.Stitch == pattern.IncreaseKnit {
		for range r.Len() {
			runs = twice(runs)
		}
		return runs
	}
	for s := range stitches {
		if s != KnitTwice && steps[s].plain == r.Stitch {
			return push(runs, Run{s, r.Len()})
		}
	}
	return push(runs, Run{NoStitch, r.Len()})
}

// twice makes the last knit one that is knit into twice.
func twice(runs []Run) []Run {
	last := len(runs) - 1
	if last < 0 || runs[last].Stitch != Knit {
		return push(runs, Run{KnitTwice, 1})
	}
	if runs[last].Count--; runs[last].Count == 0 {
		runs = runs[:last]
	}
	return push(runs, Run{KnitTwice, 1})
}
