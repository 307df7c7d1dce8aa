package fit

import (
	"math"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// spacingNames are what looms are often called by the distance of their pegs, and the
// classes of yarn that usually suit them. The nearest name wins; names vary between makers.
// In part published, in part common practice (see the tests).
var spacingNames = []struct {
	spacing measure.Length
	name    string
	classes []int
}{
	{measure.Inch * 3 / 16, "extra fine", []int{1}},
	{measure.Inch / 4, "fine", []int{2, 3}},
	{measure.Inch * 3 / 8, "small", []int{3, 4}},
	{measure.Inch / 2, "regular", []int{4, 5}},
	{measure.Inch * 5 / 8, "large", []int{5, 6}},
	{measure.Inch * 3 / 4, "large", []int{5, 6}},
	{measure.Inch, "extra large", []int{6, 7}},
}

// SpacingName is what a loom with pegs so far apart is often called, and the classes of
// yarn that usually suit it.
func SpacingName(spacing measure.Length) (name string, classes []int) {
	best := spacingNames[0]
	for _, s := range spacingNames[1:] {
		if math.Abs(float64(s.spacing-spacing)) < math.Abs(float64(best.spacing-spacing)) {
			best = s
		}
	}
	return best.name, slices.Clone(best.classes)
}

// OnLoom is how a piece lies on a loom.
type OnLoom struct {
	Loom    pattern.Loom
	Name    string // of its spacing; empty where that is not said
	Fits    Verdict
	Unused  int            // pegs that stay empty; below 0, how many are missing
	First   int            // the loom's number of the work's peg 1: as the pattern says, or in the middle; 0 where that is not known
	Centred bool           // First was chosen here: the work lies in the middle
	Length  measure.Length // from the first peg to the last and on to the next: all round a round loom; 0 where not known
	Suits   []int          // the classes of yarn that usually suit the spacing
	Off     int            // by how many classes the pattern's yarn is too thick, below 0 too thin
}

// LoomOf is how a pattern lies on its loom. A panel shorter than the loom lies in its
// middle unless the pattern says otherwise.
func LoomOf(p *pattern.Pattern) OnLoom {
	l := OnLoom{Loom: p.Loom}
	if p.Loom.SpacingMM > 0 {
		spacing := measure.Length(p.Loom.SpacingMM)
		l.Name, l.Suits = SpacingName(spacing)
		l.Length = spacing * measure.Length(p.Loom.Pegs)
		l.Off = classesOff(ClassesOf(p.Yarns[0]), l.Suits)
	}
	l.First = p.Loom.FirstPeg
	if p.Loom.Pegs == 0 {
		return l
	}
	l.Unused, l.Fits = p.Loom.Pegs-p.Pegs, Yes
	if l.Unused < 0 || l.First > 0 && l.First+p.Pegs-1 > p.Loom.Pegs {
		l.Fits = No
		return l
	}
	if l.First == 0 {
		l.First, l.Centred = l.Unused/2+1, true
	}
	return l
}

// classesOff is how far the nearest of a yarn's classes lies from those that suit.
func classesOff(of, suits []int) int {
	off, found := 0, false
	for _, c := range of {
		d := 0
		switch {
		case c < suits[0]: // a lower class is a thinner yarn
			d = c - suits[0]
		case c > suits[len(suits)-1]:
			d = c - suits[len(suits)-1]
		}
		if !found || abs(d) < abs(off) {
			off, found = d, true
		}
	}
	return off
}

// Marker is a peg to mark.
type Marker struct {
	Peg  int // as the maker numbers the work's pegs
	Back int // the same peg counted from the other end
	Loom int // the loom's own number; 0 where that is not known
}

// MarkersOf are the pegs to mark, ascending, as the maker numbers them.
func MarkersOf(o pattern.Order) []Marker {
	first := LoomOf(o.Pattern).First
	var all []Marker
	for _, col := range o.Pattern.Markers {
		m := Marker{Peg: o.Peg(col)}
		m.Back = o.Pattern.Pegs + 1 - m.Peg
		if first > 0 {
			m.Loom = first + m.Peg - 1
		}
		all = append(all, m)
	}
	slices.SortFunc(all, func(a, b Marker) int { return a.Peg - b.Peg })
	return all
}
