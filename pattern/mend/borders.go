package mend

import (
	"errors"
	"fmt"

	"bypeg/pattern"
)

// Borders is how the border at the top stands beside the one at the bottom, at a place. A
// border is the border zones that follow one another at an end.
type Borders struct {
	BottomRows, TopRows     int
	BottomRidges, TopRidges int  // as planned
	TopFirst                int  // the top border's first row
	RowsDone, RidgesDone    int  // of the top border
	Ridges                  bool // ridges can be counted in both
	// EndsAlike tells that the top, from its last row down, shows what the bottom shows from
	// its first row up, in the column where ridges are counted.
	EndsAlike bool
	// OneMore tells that one knit row more before the bind-off would make them alike.
	OneMore bool
	// BottomDone tells that the whole bottom border is there to be counted.
	BottomDone bool
	word       string // "row" or "round"
}

// ErrNoBorders is that there are not two borders to lay beside each other.
var ErrNoBorders = errors.New("this pattern has no border at both ends")

// BordersAt are the borders of a piece at a place; false where it has not both.
func BordersAt(o pattern.Order, at pattern.Place) (Borders, bool) {
	p := o.Pattern
	rows := p.Grid.Rows()
	below, above := 0, len(p.Zones)
	for below < len(p.Zones) && p.Zones[below].Border {
		below++
	}
	for above > below && p.Zones[above-1].Border {
		above--
	}
	if below == 0 || above == len(p.Zones) {
		return Borders{}, false
	}
	last, first := p.Zones[below-1].Last, p.Zones[above].First
	done := o.RowsDone(at)
	b := Borders{
		BottomRows: last, TopRows: rows - first + 1, TopFirst: first,
		BottomRidges: p.Ridges(last), TopRidges: p.Ridges(rows) - p.Ridges(first-1),
		RowsDone: max(0, done-first+1), BottomDone: done >= last, word: p.Form.RowWord(),
	}
	if b.RowsDone > 0 {
		b.RidgesDone = p.Ridges(done) - p.Ridges(first-1)
	}
	b.Ridges = b.BottomRidges > 0 && b.TopRidges > 0
	b.EndsAlike = endsAlike(p, last, 0)
	if !b.EndsAlike {
		b.OneMore = endsAlike(p, last, 1)
	}
	return b, true
}

// endsAlike lays the rows from the last one down beside as many from the first one up, with
// so many knit rows more at the top.
func endsAlike(p *pattern.Pattern, rows, more int) bool {
	col := p.RidgeColumn()
	if col < 0 {
		return false
	}
	face := func(row int) pattern.Face {
		switch {
		case row < 1:
			return pattern.FaceNone
		case row > p.Grid.Rows():
			return pattern.FaceKnit
		}
		return p.Grid.Row(row).Cells()[col].Stitch.Face()
	}
	for i := range rows {
		if face(1+i) != face(p.Grid.Rows()+more-i) {
			return false
		}
	}
	return true
}

// Lines say how the borders stand: what the bottom has, what the top has, what is to go.
func (b Borders) Lines() []string {
	var lines []string
	has, what := b.BottomRows, b.word
	top, done := b.TopRows, b.RowsDone
	if b.Ridges {
		has, what, top, done = b.BottomRidges, "ridge", b.TopRidges, b.RidgesDone
	}
	lines = append(lines, fmt.Sprintf("the bottom border has %s, the cast-on edge not counted", count(has, what)))
	switch {
	case b.RowsDone == 0:
		lines = append(lines, fmt.Sprintf("the top border begins with %s %d: %s", b.word, b.TopFirst, count(top, what)))
	case b.RowsDone < b.TopRows:
		rest := count(b.TopRows-b.RowsDone, b.word)
		lines = append(lines, fmt.Sprintf("the top border has %s so far, of %d: %s to go", count(done, what), top, rest))
	default:
		lines = append(lines, fmt.Sprintf("the top border has %s: count them before you bind off", count(top, what)))
	}
	if top != has {
		lines = append(lines, fmt.Sprintf("they differ: %s below, %d above", count(has, what), top))
	}
	switch {
	case b.EndsAlike:
		lines = append(lines, "both ends show the same")
	case b.OneMore:
		lines = append(lines, "the ends are not alike: work one knit "+b.word+" more before the bind-off")
	default:
		lines = append(lines, "the ends are not alike: see bypeg check")
	}
	return lines
}
