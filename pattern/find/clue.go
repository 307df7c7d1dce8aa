package find

import (
	"fmt"
	"slices"

	"bypeg/pattern"
)

// Kind is a kind of evidence.
type Kind uint8

// The kinds of evidence, each with the fields of a Clue that it takes.
const (
	Ridges  Kind = iota // Count ridges, counted in the ridge column
	LastRow             // Row: how the last row was worked
	Yarn                // Hangs: where the working yarn hangs
	FromPeg             // Peg: the yarn comes from it
	Look                // Peg, Seen: its newest stitches, the newest first
	Bumps               // Peg, Count: bumps from the cast-on up to the peg
	Alike               // Peg, Seen (one), Count: so many stitches alike under the peg, then another or none
	Crossed             // Peg, Count: rows since its loop last crossed, that row the first; 0 where it never did
	Length              // Length: of the fabric from the cast-on to the pegs, in mm
	Zone                // Count: the zone's index
	Bound               // Count: pegs that the bind-off has left empty
	Colour              // Count: the yarn of loops on the pegs, an index into Pattern.Yarns
	Loops               // Count: loops that are on the pegs, while the piece is cast on
	kinds               // how many there are
)

var kindNames = [kinds]string{"ridges", "last", "yarn", "from-peg", "peg", "bumps", "alike", "crossed", "length", "zone", "bound", "colour", "loops"}

// String is the kind in one word, as programs are told it: "ridges", "from-peg".
func (k Kind) String() string {
	if k >= kinds {
		return fmt.Sprintf("kind %d", uint8(k))
	}
	return kindNames[k]
}

// OfPeg tells whether the kind is about the column of one peg.
func (k Kind) OfPeg() bool { return k == Look || k == Bumps || k == Alike || k == Crossed }

// Seen is what one stitch shows from the front.
type Seen uint8

// What a stitch can show.
const (
	Unsure Seen = iota // can't be told: a hole, strands that cross, bad light
	V                  // it was knit
	Bump               // it was purled
	Edge               // no stitch: here the column begins, at the cast-on mostly
)

// RowLook is how the last row was worked. What it shows depends on the side one looks
// from, so what was worked is kept, not what was seen.
type RowLook uint8

// How the last row can have been worked.
const (
	Knitted RowLook = iota
	Purled
	Both
)

// Hangs is where the working yarn hangs.
type Hangs uint8

// Where the yarn can hang.
const (
	AtLeft  Hangs = iota // at the left end of a panel
	AtRight              // at the right end of a panel
	AtEnd                // at an end: no row is under way
	Between              // between two pegs, in the middle of a row
)

// Clue is one piece of evidence. Its kind says which fields count.
type Clue struct {
	Kind   Kind
	Peg    int // by its number
	Count  int
	Seen   []Seen
	Row    RowLook
	Hangs  Hangs
	Length float64 // mm
}

// Reach is the least and the most that a height can be, in mm.
type Reach struct{ Low, High float64 }

// Evidence is all that is known. The zero value is nothing.
type Evidence struct {
	Clues []Clue
	// Noted is where the maker's notes or tracker have the work, or the zero value. It says
	// what is likely, and never excludes a place; but nothing is looked for in a piece that is
	// off the loom, and a cast-on or a bind-off that has begun is asked about first. One that the
	// piece has not is none.
	Noted pattern.Place
	// Heights are how high the fabric may be measured when so many rows are done, 0 being the
	// cast-on. Without them a length tells nothing.
	Heights []Reach
	// Skipped are questions that the person could not answer. They are not asked again.
	Skipped []Question
}

// With is the evidence with one more clue. e stays as it is.
func (e Evidence) With(c Clue) Evidence {
	e.Clues = append(slices.Clone(e.Clues), c)
	return e
}

// Skip is the evidence with a question that is not to be asked again. e stays as it is.
func (e Evidence) Skip(q Question) Evidence {
	e.Skipped = append(slices.Clone(e.Skipped), q)
	return e
}

// Check says why a clue can't be about the pattern, and what can be said instead. Search
// takes only clues that are right.
func Check(o pattern.Order, c Clue) error {
	p := o.Pattern
	word := p.Form.RowWord()
	switch {
	case (c.Kind.OfPeg() || c.Kind == FromPeg) && (c.Peg < 1 || c.Peg > p.Pegs):
		return fmt.Errorf("there is no peg %d: the piece has pegs 1 to %d", c.Peg, p.Pegs)
	case c.Count < 0:
		return fmt.Errorf("a count can't be %d: it is 0 or more", c.Count)
	case c.Kind == Ridges && !countsRidges(p):
		return fmt.Errorf("this piece has no ridges to count: count the bumps up the column of one peg")
	case c.Kind == Yarn && p.Form == pattern.Tube && (c.Hangs == AtLeft || c.Hangs == AtRight):
		return fmt.Errorf("a tube has no left or right end: say whether the yarn is at the end of the %s, above the cast-on's tail, or between two pegs", word)
	case (c.Kind == Look || c.Kind == Alike) && len(c.Seen) == 0:
		return fmt.Errorf("nothing is said of what peg %d shows: write v for a V and b for a bump, the newest first", c.Peg)
	case c.Kind == Alike && (c.Count < 1 || c.Seen[0] != V && c.Seen[0] != Bump):
		return fmt.Errorf("stitches alike are V's or bumps, 1 or more")
	case c.Kind == Length && !(c.Length > 0):
		return fmt.Errorf("the length is more than nothing, from the cast-on up to the pegs")
	case c.Kind == Bound && c.Count >= p.BindOffLoops():
		return fmt.Errorf("of %d pegs one at least holds a loop as long as the piece is on the loom", p.BindOffLoops())
	case c.Kind == Loops && c.Count > p.CastOnLoops():
		return fmt.Errorf("the cast-on has %d loops: count them again, one to a peg", p.CastOnLoops())
	case c.Kind == Colour && c.Count >= len(p.Yarns):
		return fmt.Errorf("there is no such yarn")
	case c.Kind == Zone && c.Count >= len(p.Zones):
		return fmt.Errorf("there is no such zone")
	}
	return nil
}

// countsRidges tells whether a piece has ridges that can be counted.
func countsRidges(p *pattern.Pattern) bool { return p.Ridges(p.Grid.Rows()) > 0 }
