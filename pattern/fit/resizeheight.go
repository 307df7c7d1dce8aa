package fit

import (
	"fmt"
	"math"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/file"
)

// Which zones grow. Those of one row, motifs without a height and pictures that are not
// repeated stay as they are. Borders keep their height in centimetres, by whole repeats;
// so both ends stay alike. The rest shares what is left of the wished height, each zone
// in proportion, again by whole repeats.

// growing are zones that grow alike: the same height, one wording.
type growing struct {
	zones  []int
	step   int     // rows of the least by which it can grow: a repeat, or two beside garter
	least  int     // rows it must have
	unit   float64 // height of one row in the new gauge, in mm
	height float64 // of one of the zones in the old gauge
}

// zoneRows are the rows of each zone, nearest to the wished height first, and so many
// others with a repeat more or fewer of what grows most. The units are the heights of a
// row of each zone.
func (r *resizer) zoneRows(units []float64, others int) [][]int {
	rows := make([]int, len(r.old.Zones))
	for i := range rows {
		rows[i] = r.old.Zones[i].Rows()
	}
	if r.found.Wanted.Height <= 0 || r.wish.Fill && r.wish.Height == 0 {
		return [][]int{rows}
	}
	left := float64(r.found.Wanted.Height)
	var groups []*growing
	flexible := 0.0
	for i := range rows {
		unit, was := units[i], r.was[i]
		switch {
		case r.stays(i):
			left -= unit * float64(rows[i])
		case r.old.Zones[i].Border:
			step := r.step(i)
			if was > 0 {
				rows[i] = step * max(1, int(math.Floor(was/unit/float64(step)+0.5)))
			}
			left -= unit * float64(rows[i])
		default:
			if was <= 0 { // nobody knows how high it was: the rows say what part it takes
				was = unit * float64(rows[i])
			}
			groups = join(groups, r, i, unit, was)
			flexible += was
		}
	}
	grow(groups, left, flexible, rows)
	all := [][]int{rows}
	if len(groups) == 0 {
		return all
	}
	for n := range others {
		if other := r.someRepeats(groups, rows, left, n); other != nil {
			all = append(all, other)
		}
	}
	return all
}

// stays tells whether a zone keeps its rows.
func (r *resizer) stays(i int) bool {
	z, l := &r.old.Zones[i], &r.layout.Zones[i]
	switch {
	case z.Rows() == 1:
		return true
	case l.Motif >= 0:
		return l.Height == 0
	case l.Times == 0 && l.Height == 0:
		return !z.Border || l.Strips[0].Rows == nil
	}
	return false
}

// step is how many rows a zone grows by: whole repeats, and an even number where it has
// one now and garter is about, so that ridges stay whole.
func (r *resizer) step(i int) int {
	z, l := &r.old.Zones[i], &r.layout.Zones[i]
	step := r.repeat(i)
	if step%2 == 1 && z.Rows()%2 == 0 && (z.Border || l.Even) {
		step *= 2
	}
	return step
}

// repeat is the rows of one repeat of a zone, as its times counts them.
func (r *resizer) repeat(i int) int {
	if r.layout.Zones[i].Motif >= 0 && r.layout.Zones[i].Height > 0 {
		return 1
	}
	repeat := 1
	for _, s := range r.old.Zones[i].Strips {
		if !s.Side {
			repeat = max(repeat, s.Repeat)
		}
	}
	return repeat
}

// join adds a zone to the group it grows with.
func join(groups []*growing, r *resizer, i int, unit, height float64) []*growing {
	g := &growing{zones: []int{i}, step: r.step(i), unit: unit, height: height}
	if m := r.layout.Zones[i].Motif; m >= 0 {
		g.least = r.layout.Motifs[m].Rows + max(0, r.layout.Motifs[m].Row-1)
	}
	for _, other := range groups {
		if other.step == g.step && other.least == g.least && math.Abs(other.unit-unit) < 1e-9 && math.Abs(other.height-height) < 1e-6 {
			other.zones = append(other.zones, i)
			return groups
		}
	}
	return append(groups, g)
}

// grow shares the height that is left among the groups. What one group gains or loses
// by whole repeats the next makes up for.
func grow(groups []*growing, left, flexible float64, rows []int) {
	carry := 0.0
	for _, g := range groups {
		n := float64(len(g.zones))
		target := max(0, left) * g.height / flexible
		steps := math.Floor(min((target+carry/n)/g.unit, pattern.MaxRows)/float64(g.step) + 0.5)
		got := max(g.step*max(1, int(steps)), (g.least+g.step-1)/g.step*g.step)
		for _, i := range g.zones {
			rows[i] = got
		}
		carry += n * (target - float64(got)*g.unit)
	}
}

// someRepeats is the rows with some repeats more or fewer of the zones that are highest:
// the nearest to the wished height first, by turns on either side of it. It is nil where
// a zone would be left with none.
func (r *resizer) someRepeats(groups []*growing, rows []int, left float64, n int) []int {
	for _, g := range groups {
		for _, i := range g.zones {
			left -= g.unit * float64(rows[i])
		}
	}
	g := slices.MaxFunc(groups, func(a, b *growing) int { return rows[a.zones[0]] - rows[b.zones[0]] })
	step := g.step * (n/2 + 1)
	if (left < 0) == (n%2 == 0) {
		step = -step
	}
	if rows[g.zones[0]]+step < max(g.step, g.least) {
		return nil
	}
	other := slices.Clone(rows)
	for _, i := range g.zones {
		other[i] += step
	}
	return other
}

// skewed is by how much a picture may come out higher or wider than it was drawn for
// before it is refused. Common practice, no source: a circle a tenth off still reads as one.
const skewed = 0.10

// motifsKeepShape refuses a gauge in which motifs would come out squashed or drawn out.
func (r *resizer) motifsKeepShape() error {
	was, is := r.old.Gauge, r.design.Gauge
	if was.Stitches <= 0 || was.Rows <= 0 || is.Stitches <= 0 || is.Rows <= 0 {
		return nil
	}
	ratio := Stretch(was, is)
	if math.Abs(ratio-1) <= skewed+1e-9 {
		return nil
	}
	how := "squashed"
	if ratio < 1 {
		how = "drawn out"
	}
	for i, z := range r.layout.Zones { // a chart may be a texture, which takes no harm
		if slices.ContainsFunc(z.Strips, func(s file.StripLayout) bool { return s.Rows == nil }) {
			r.found.Notes = append(r.found.Notes, fmt.Sprintf("the chart of zone %s comes out %s by %.0f %%: look at it if it is a picture",
				quote(r.old.Zones[i].Name), how, 100*math.Abs(1-1/ratio)))
		}
	}
	for _, m := range r.layout.Motifs {
		return &Refusal{
			fmt.Sprintf("the motif %s of %d pegs and %d rows would come out %s in this gauge", quote(m.Name), m.Pegs, m.Rows, how),
			fmt.Sprintf("draw it %d rows high instead of %d, and then resize", int(math.Round(float64(m.Rows)*ratio)), m.Rows),
		}
	}
	return nil
}

// Stretch is by how much the rows of a picture must be multiplied to keep its shape from
// one gauge to another.
func Stretch(was, is pattern.Gauge) float64 {
	return (is.Rows / is.Stitches) / (was.Rows / was.Stitches)
}

// Square is the gauge of squared paper: as many rows as stitches in a length.
var Square = pattern.Gauge{Stitches: 1, Rows: 1}
