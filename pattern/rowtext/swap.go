package rowtext

import (
	"fmt"
	"slices"

	"bypeg/pattern"
)

// Seen from behind, a knit is a purl. On needles every other row of a panel is worked
// from there, so a row for a loom and the same row for needles differ by this swap
// alone: the order of work is the same in both. (Written by peg number such a row is
// reversed as well; nothing here is written by peg number.)
//
// The leans hold: what leans right leans right from whichever side it was worked, since
// p2tog of a wrong-side row is by definition the k2tog that is seen from the front.

// NoCounterpart is a step that no step of the other side makes: a cross, whose front
// strands would be worked behind, a knit by its wrap, or one that knits and passes over.
type NoCounterpart struct {
	Stitch Stitch
	Run    int // its place among the runs, from 0
}

// Error says which step it is and what to do.
func (e *NoCounterpart) Error() string {
	return fmt.Sprintf("%s has no counterpart on the wrong side: put it on a right-side row", e.Stitch.Name())
}

// behind is what each step is when it is seen from behind; a step that is not here has
// none. Plain slips keep the yarn on the wrong side of the fabric, as they do unless
// said otherwise.
var behind = map[Stitch]Stitch{
	NoStitch:     NoStitch,
	Knit:         Purl,
	Purl:         Knit,
	Slip:         Slip,
	SlipBack:     SlipFront,
	SlipFront:    SlipBack,
	KnitTBL:      PurlTBL,
	PurlTBL:      KnitTBL,
	YarnOver:     YarnOver,
	MakeOne:      MakeOne,
	KnitTwo:      PurlTwo,
	PurlTwo:      KnitTwo,
	SlipSlipKnit: SlipSlipPurl,
	SlipKnitPass: SlipSlipPurl,
	SlipSlipPurl: SlipSlipKnit,
}

// OtherWay is the same row of the fabric worked from its other end, as the other hand
// works it. Leans and crosses are told as they are seen, so they stay. Runs are not
// changed; the result is the caller's.
func OtherWay(runs []Run) []Run {
	turned := slices.Clone(runs)
	slices.Reverse(turned)
	return turned
}

// Swapped is the same fabric seen from behind, in the same order of work: knits are
// purls, and so on. Runs are not changed; the result is the caller's. Swapped twice it
// is the same row with equal neighbours merged, save that skp comes back as ssk, which
// makes the same cell. The error is a *NoCounterpart, of the first such step.
func Swapped(runs []Run) ([]Run, error) {
	swapped := make([]Run, 0, len(runs))
	for i, r := range runs {
		s, ok := behind[r.Stitch]
		if !ok {
			return nil, &NoCounterpart{r.Stitch, i}
		}
		swapped = push(swapped, Run{s, r.Count})
	}
	return swapped, nil
}

// A left-handed knitter's work is a mirror image of a right-handed one's: her k2tog leans
// left and her ssk right, and strands held in front cross the other way. The picture stays,
// so for her these names change places. A name that says the lean itself stays.
var leftNames = map[Stitch]Stitch{
	KnitTwo:      SlipSlipKnit,
	SlipSlipKnit: KnitTwo,
	SlipKnitPass: KnitTwo,
	PurlTwo:      SlipSlipPurl,
	SlipSlipPurl: PurlTwo,
}

// inLeftName is the step that makes the same stitch by a left hand on needles.
func inLeftName(s Stitch) Stitch {
	if c, ok := s.Cross(); ok && namedByHold(c) {
		c.Lean = c.Lean.Opposite()
		return CrossStitch(c)
	}
	if left, ok := leftNames[s]; ok {
		return left
	}
	return s
}

func inLeftNames(runs []Run) []Run {
	left := make([]Run, 0, len(runs))
	for _, r := range runs {
		left = push(left, Run{inLeftName(r.Stitch), r.Count})
	}
	return left
}

// namedByHold tells the crosses whose names say where strands are held and not how they
// lean: c4f, c4b.
func namedByHold(c pattern.Cross) bool { return c.Front == c.Back && !c.PurlBack }
