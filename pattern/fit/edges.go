package fit

import (
	"math"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// Edges that roll. Plain fabric rolls to the back at its sides and to the front at its
// ends, purl fabric the other way; fabric in which both balance lies flat. How much an edge
// is led that way is told by an index of our own design, unpublished: the mean face of each
// column (or row) near the edge, knit 1 and purl -1, weighted the less the further in it
// lies. It says what is likely; no border cures it.

// How far in from an edge the fabric counts: the weight falls to a third in so many
// stitches or rows.
const (
	reachSideways   = 3.0
	reachLengthwise = 4.0
)

// The index up to which an edge lies flat, and up to which it may roll.
const (
	flatBelow = 0.35
	mayRollTo = 0.70
)

// Which edge of the fabric.
type EdgeOf uint8

// The edges, as the right side is seen.
const (
	LeftEdge EdgeOf = iota
	RightEdge
	BottomEdge
	TopEdge
)

// String is "left", "right", "bottom" or "top".
func (e EdgeOf) String() string { return [...]string{"left", "right", "bottom", "top"}[e] }

// Side tells the edges at the sides from the ends.
func (e EdgeOf) Side() bool { return e == LeftEdge || e == RightEdge }

// Roll is what an edge does.
type Roll uint8

// The rolls.
const (
	LiesFlat Roll = iota
	MayRoll
	Rolls
)

// String is the roll in words: "lies flat", "may roll", "rolls".
func (r Roll) String() string { return [...]string{"lies flat", "may roll", "rolls"}[r] }

// Edge is one edge of a piece.
type Edge struct {
	Of      EdgeOf
	Index   float64 // above 0 it is led as plain fabric is
	Roll    Roll
	ToFront bool // the way it rolls, if it does
	Border  int  // garter pegs or rows, counted from the edge, that would bring it to lie flat; 0 where it does, or none would
	Has     int  // garter pegs, or rows of borders, that are there
}

// EdgesOf are the edges of a pattern: of a panel four, of a tube the two ends.
func EdgesOf(p *pattern.Pattern) []Edge {
	f := facesOf(p)
	var edges []Edge
	sides, bottom, top := bordersOf(p)
	if p.Form == pattern.Panel {
		edges = append(edges, newEdge(LeftEdge, f.columns, sides), newEdge(RightEdge, backwards(f.columns), sides))
	}
	return append(edges, newEdge(BottomEdge, f.rows, bottom), newEdge(TopEdge, backwards(f.rows), top))
}

// bordersOf is how wide the sides of a pattern are, where they are narrowest, and how many
// rows of borders there are at both ends.
func bordersOf(p *pattern.Pattern) (sides, bottom, top int) {
	first, last := -1, -1
	for i := range p.Zones {
		z := &p.Zones[i]
		if z.Border {
			continue
		}
		if sides = min(sides, z.Sides); first < 0 {
			first, sides = i, z.Sides
		}
		last = i
	}
	if first < 0 {
		return 0, 0, 0
	}
	return sides, p.Zones[first].First - 1, p.Grid.Rows() - p.Zones[last].Last
}

func newEdge(of EdgeOf, lines []float64, has int) Edge {
	reach := reachLengthwise
	if of.Side() {
		reach = reachSideways
	}
	e := Edge{Of: of, Index: CurlIndex(lines, reach), Has: has}
	e.Roll = rollOf(e.Index)
	e.ToFront = of.Side() == (e.Index < 0)
	if e.Roll != LiesFlat {
		e.Border = leastBorder(of, lines, reach)
	}
	return e
}

func rollOf(index float64) Roll {
	switch i := math.Abs(index); {
	case i < flatBelow:
		return LiesFlat
	case i <= mayRollTo:
		return MayRoll
	}
	return Rolls
}

// CurlIndex is how much an edge is led to roll by lines that lie along it, the outermost
// first: 1 all knit, -1 all purl. With a reach of 3 the lines of some 15 count.
func CurlIndex(lines []float64, reach float64) float64 {
	sum, weights := 0.0, 0.0
	for d, m := range lines {
		w := math.Exp(-float64(d) / reach)
		sum, weights = sum+w*m, weights+w
	}
	if weights == 0 {
		return 0
	}
	return sum / weights
}

// mostBorder is how wide a border is asked for at most: what is wider is no border.
const mostBorder = 40

// leastBorder is the fewest garter pegs or rows at an edge that would make it lie flat, with
// what lies further in as it is. Rows are whole ridges. It is 0 where there are none.
func leastBorder(of EdgeOf, lines []float64, reach float64) int {
	for n := 1; n <= min(mostBorder, len(lines)/2); n++ {
		if !of.Side() && n%2 == 1 {
			continue
		}
		if rollOf(CurlIndex(withBorder(of, lines, n), reach)) == LiesFlat {
			return n
		}
	}
	return 0
}

// withBorder are lines whose outermost ones are garter. A side of garter is as much knit
// as purl in every column; an end's outermost row stays what it is.
func withBorder(of EdgeOf, lines []float64, n int) []float64 {
	bordered := append([]float64(nil), lines...)
	outer := 1.0
	if lines[0] < 0 {
		outer = -1
	}
	for d := range n {
		bordered[d] = 0
		if !of.Side() {
			bordered[d] = outer
			outer = -outer
		}
	}
	return bordered
}

// faces are the mean faces of a fabric: of its columns, left to right, and of its rows,
// from the bottom.
type faces struct{ columns, rows []float64 }

func facesOf(p *pattern.Pattern) faces {
	g := p.Grid
	f := faces{make([]float64, g.Pegs()), make([]float64, g.Rows())}
	times := map[*pattern.Row]int{} // rows that are equal are looked at once
	means := map[*pattern.Row]float64{}
	for row := range g.Rows() {
		r := g.Row(row + 1)
		if times[r]++; times[r] == 1 {
			means[r] = meanFace(r)
		}
		f.rows[row] = means[r]
	}
	used := make([]float64, g.Pegs())
	for r, n := range times {
		for col, c := range r.Cells() {
			if face, ok := faceValue(c.Stitch); ok {
				f.columns[col] += float64(n) * face
				used[col] += float64(n)
			}
		}
	}
	for col := range f.columns {
		if used[col] > 0 {
			f.columns[col] /= used[col]
		}
	}
	return f
}

func meanFace(r *pattern.Row) float64 {
	sum, n := 0.0, 0
	for _, c := range r.Cells() {
		if face, ok := faceValue(c.Stitch); ok {
			sum, n = sum+face, n+1
		}
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}

// faceValue is 1 for what shows a knit and -1 for what shows a purl; a hole shows
// neither, and a peg out of use has no face.
func faceValue(s pattern.Stitch) (value float64, ok bool) {
	switch s.Face() {
	case pattern.FaceKnit:
		return 1, true
	case pattern.FacePurl:
		return -1, true
	case pattern.FaceNone:
		return 0, false
	}
	return 0, true
}

func backwards(lines []float64) []float64 {
	turned := make([]float64, len(lines))
	for i, m := range lines {
		turned[len(lines)-1-i] = m
	}
	return turned
}

// PullIn is how garter sides beside a field fit it.
type PullIn struct {
	Zone         int
	Sides        int            // pegs of each
	Field, Side  measure.Length // how high each would come out by itself
	Short        float64        // by what part of the field's height the sides are shorter
	Pairs, Every int            // pairs of short rows in each side that would make up for it, one every so many rows
}

// tooShort is from what part on it is worth telling that sides pull in. Common practice, no
// source.
const tooShort = 0.05

// Sides of more pegs than are taught (3 to 5, published) no longer stretch to match.
const narrowSide = 5

// Narrow tells whether the sides are so narrow that they stretch to match the field.
func (p PullIn) Narrow() bool { return p.Sides <= narrowSide }

// PullsOf are the zones whose sides come out shorter than the field between them.
func PullsOf(p *pattern.Pattern, s *Size) []PullIn {
	var pulls []PullIn
	for i, z := range s.Zones {
		field, side := z.Height.Likely, z.Sides.Likely
		if side <= 0 || p.Zones[i].Border || field <= 0 || float64(side) > (1-tooShort)*float64(field) {
			continue
		}
		in := PullIn{Zone: i, Sides: p.Zones[i].Sides, Field: field, Side: side, Short: 1 - float64(side/field)}
		rows := p.Zones[i].Rows()
		more := float64(rows) * (float64(field/side) - 1) // rows that the side lacks
		in.Pairs = int(math.Round(more / 2))
		if in.Pairs > 0 {
			in.Every = max(2, rows/in.Pairs)
		}
		pulls = append(pulls, in)
	}
	return pulls
}
