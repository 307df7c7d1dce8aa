package find

import (
	"cmp"
	"math"
	"slices"

	"bypeg/pattern"
)

// MostBut is how many places that disagree with one clue are named at most.
const MostBut = 400

// shortlist is the likeliest of many.
type shortlist struct {
	ranked []ranked
	worst  float64 // once it is full: how unlikely the last one kept is; else 0
}

type ranked struct {
	But
	unlikely float64
}

// closedTo tells whether no place so unlikely can come onto the list any more: each is off by 1 at
// least.
func (s *shortlist) closedTo(unlikely float64) bool {
	return s.worst > 0 && unlikely+offByOne >= s.worst
}

// add adds the likeliest of a row's places that agree with all clues but one.
func (s *shortlist) add(r *reader, c *Clue, clue int, fits []Fit, l likelihood) {
	best := ranked{unlikely: s.worst}
	for _, f := range fits {
		if best.unlikely > 0 && l.unlikely(r, f)+offByOne >= best.unlikely { // each is off by 1 at least
			continue
		}
		b := r.nearest(c, f)
		b.Clue = clue
		if u := offByOne*b.Off + l.unlikely(r, b.Fit); best.unlikely == 0 || u < best.unlikely {
			best = ranked{b, u}
		}
	}
	if best.Row == 0 {
		return
	}
	if s.ranked = append(s.ranked, best); len(s.ranked) == 2*MostBut {
		s.sort()
		s.ranked = s.ranked[:MostBut]
		s.worst = s.ranked[MostBut-1].unlikely
	}
}

func (s *shortlist) sort() {
	slices.SortStableFunc(s.ranked, func(a, b ranked) int { return cmp.Compare(a.unlikely, b.unlikely) })
}

// likeliest is what came through, the likeliest first.
func (s *shortlist) likeliest() []But {
	s.sort()
	var buts []But
	for _, b := range s.ranked[:min(MostBut, len(s.ranked))] {
		buts = append(buts, b.But)
	}
	return buts
}

// nearest is the place of a fit that is nearest to a clue that it disagrees with.
func (r *reader) nearest(c *Clue, f Fit) But {
	if c.Kind == FromPeg && f.From > 0 {
		f.From = min(max(f.From, r.passedAt(f.Row, r.o.ColumnOfPeg(c.Peg))+1), f.To)
	}
	f.To = f.From
	return But{Fit: f, Off: r.off(c, f)}
}

// off is how far a clue is off the mark at a place. A slip of the eye is 1: a look taken for
// the other, a count one too many, the peg beside.
func (r *reader) off(c *Clue, at Fit) float64 {
	switch c.Kind {
	case Ridges:
		p := r.o.Pattern
		return math.Abs(float64(c.Count - p.Ridges(r.doneIn(p.RidgeColumn(), at))))
	case FromPeg:
		col, _ := r.yarnAt(at)
		return math.Abs(float64(col - r.o.ColumnOfPeg(c.Peg)))
	case Look, Bumps, Alike, Crossed:
		return r.offColumn(c, at)
	case Length:
		return r.offLength(c.Length, at)
	case Zone:
		z := &r.o.Pattern.Zones[c.Count]
		return float64(max(1, z.First-at.Row, at.Row-z.Last))
	}
	return 1
}

// misread is by how much a stitch taken for another is worse than a peg taken for its neighbour:
// who looks at three stitches sees what they are sooner than which peg they hang from.
const misread = 0.5

func (r *reader) offColumn(c *Clue, at Fit) float64 {
	col := r.o.ColumnOfPeg(c.Peg)
	for _, beside := range []int{col - 1, col + 1} {
		if c.Kind == Look && beside >= 0 && beside < r.grid.Pegs() && r.showsAt(beside, r.doneIn(beside, at), c.Seen) {
			return 1
		}
	}
	read, done := r.column(col), r.doneIn(col, at)
	switch c.Kind {
	case Bumps:
		least, most := read.bumps(done)
		return float64(max(1, least-c.Count, c.Count-most))
	case Alike:
		return math.Max(1, math.Abs(float64(c.Count-read.alike(done, c.Seen[0]))))
	case Crossed:
		return math.Max(1, math.Abs(float64(c.Count-read.crossed(done))))
	}
	n := misread
	for i, seen := range c.Seen {
		if is := read.from(done, i); seen != Unsure && is != Unsure && seen != is {
			n++
		}
	}
	return n
}

// showsAt tells whether a column shows just what was seen, without reading the whole of it.
func (r *reader) showsAt(col, done int, seen []Seen) bool {
	for _, want := range seen {
		is, ok := Unsure, false
		for ; done > 0 && !ok; done-- {
			is, ok = shows(r.grid.Row(done).Cells()[col].Stitch)
		}
		if !ok || is != want {
			return false
		}
	}
	return true
}

// offLength is by how many rows a length is off, at least 1.
func (r *reader) offLength(mm float64, at Fit) float64 {
	low, high := r.heights[at.Row-1].Low, r.heights[at.Row-1].High
	if at.From > 0 {
		high = r.heights[at.Row].High
	}
	row := r.heights[len(r.heights)-1].High / float64(len(r.heights)-1)
	return math.Max(1, math.Max(low-mm, mm-high)/row)
}

// yarnAt is the column that the yarn comes from at a place, and where it hangs.
func (r *reader) yarnAt(at Fit) (col int, hangs Hangs) {
	of := r.whole(at.Row)
	begin, end := r.carried(at.Row, of)
	if at.From < begin {
		col, side := r.brought(at.Row)
		return col, r.endOf(side)
	}
	done := at.From - 1
	for makesNone(r.grid.Row(at.Row).Cells()[r.o.Column(at.Row, done)].Stitch) {
		done--
	}
	col = r.o.Column(at.Row, done)
	if at.From >= end {
		return col, r.endOf(r.o.Direction(at.Row).To())
	}
	return col, Between
}

// endOf is how it is said that the yarn hangs at a side: a tube has but one end.
func (r *reader) endOf(s pattern.Side) Hangs {
	if r.o.Pattern.Form == pattern.Tube {
		return AtEnd
	}
	return hangsAt(s)
}
