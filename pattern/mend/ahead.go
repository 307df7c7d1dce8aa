package mend

import (
	"fmt"
	"slices"

	"bypeg/pattern"
)

// Ahead is which pegs may be wrapped ahead in the row under way: a knit row of e-wraps is
// laid round them without lifting, and the purl row on the way back takes them up. Count
// stitches from the place on may; First and Last are their pegs.
type Ahead struct {
	Count       int
	First, Last int
	AtMarker    bool // they end at a marker
	Why         NotAhead
	Peg         int // in hand, where Why speaks of it
}

// NotAhead is why no peg may be wrapped ahead; 0 where one may.
type NotAhead uint8

// The reasons.
const (
	NoRowInHand NotAhead = iota + 1
	NoWayBack            // of a tube
	LastRow
	NoKnit      // the peg takes no knit in this row
	NoEWrap     // it takes a knit that is no e-wrap
	NoPurlAbove // it takes no purl in the next row
	OtherYarn   // the next row has another yarn there
)

// WrapAhead says how many pegs may be wrapped ahead at a place, none where the peg in hand
// may not. A peg may where it takes an e-wrapped knit now and a purl in the next row; at a
// marker one stops, for what lies beyond may be worked another way. A tube has no way back.
func WrapAhead(o pattern.Order, at pattern.Place) Ahead {
	p := o.Pattern
	var a Ahead
	switch {
	case p.Form == pattern.Tube:
		a.Why = NoWayBack
	case at.Phase != pattern.Working:
		a.Why = NoRowInHand
	case at.Row >= p.Grid.Rows():
		a.Why = LastRow
	}
	if a.Why != 0 {
		return a
	}
	for done := at.Done; done < p.Of(at); done++ {
		col := o.Column(at.Row, done)
		why := notAhead(p, at.Row, col)
		if why != 0 && a.Count == 0 {
			a.Why, a.Peg = why, o.Peg(col)
		}
		if why != 0 {
			break
		}
		if a.Count == 0 {
			a.First = o.Peg(col)
		}
		a.Count, a.Last = a.Count+1, o.Peg(col)
		if p.Marked(col) {
			a.AtMarker = true
			break
		}
	}
	return a
}

// notAhead is why a stitch can't be wrapped ahead.
func notAhead(p *pattern.Pattern, row, col int) NotAhead {
	now, next := p.Grid.Row(row).Cells()[col], p.Grid.Row(row + 1).Cells()[col]
	eWrap := now.Stitch == pattern.EWrap || now.Stitch == pattern.Knit && p.ZoneAt(row).KnitAs == pattern.WrapE
	knits := []pattern.Stitch{pattern.Knit, pattern.UWrap, pattern.FlatKnit}
	switch {
	case !eWrap && !slices.Contains(knits, now.Stitch):
		return NoKnit
	case !eWrap:
		return NoEWrap
	case next.Stitch != pattern.Purl:
		return NoPurlAbove
	case now.Yarn != next.Yarn:
		return OtherYarn
	}
	return 0
}

// Words say it.
func (a Ahead) Words() string {
	switch {
	case a.Count == 0:
		return "nothing can be wrapped ahead here: " + a.why()
	case a.AtMarker:
		return "wrap ahead " + pegs(a.First, a.Last) + " and stop at the marker; purl them on the way back"
	}
	return "wrap ahead " + pegs(a.First, a.Last) + " and no further; purl them on the way back"
}

// why says why none may.
func (a Ahead) why() string {
	switch a.Why {
	case NoWayBack:
		return "a tube has no way back"
	case LastRow:
		return "no row comes back over the last one"
	case NoKnit:
		return fmt.Sprintf("peg %d takes no knit in this row", a.Peg)
	case NoEWrap:
		return fmt.Sprintf("the knit on peg %d is no e-wrap", a.Peg)
	case NoPurlAbove:
		return fmt.Sprintf("peg %d takes no purl in the next row", a.Peg)
	case OtherYarn:
		return fmt.Sprintf("peg %d takes another yarn in the next row", a.Peg)
	}
	return "no row is in hand"
}
