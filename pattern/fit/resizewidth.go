package fit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/rowtext"
)

// leastSide is how narrow a border may become.
const leastSide = 2

// newSides carries the borders at the edges over: they keep their width in centimetres.
func (r *resizer) newSides() {
	ratio := 1.0
	if was, is := GaugeOf(&r.old.Design).Stitches, GaugeOf(&r.design).Stitches; was.Known() && is.Known() {
		ratio = float64(is.Likely / was.Likely)
	}
	r.sides = map[int]int{0: 0}
	for _, z := range r.layout.Zones {
		if _, ok := r.sides[z.Sides]; !ok {
			wanted := float64(z.Sides) * ratio
			r.sides[z.Sides] = r.sideNear(z.Sides, max(wanted, float64(min(leastSide, z.Sides))))
		}
	}
	r.count.sides = r.sides
}

// sideNear is the width nearest to the wished one that all side rows of zones with such
// sides can have.
func (r *resizer) sideNear(old int, wanted float64) int {
	fits := func(sides int) bool {
		return !slices.ContainsFunc(r.layout.Zones, func(z file.ZoneLayout) bool {
			return z.Sides == old && !r.count.readable(z.SideRows, sides)
		})
	}
	start := int(math.Floor(wanted + 0.5))
	for d := range start + old {
		for _, sides := range []int{start - d, start + d} {
			if sides >= min(leastSide, old) && fits(sides) {
				return sides
			}
		}
	}
	return old
}

// counts knows which numbers of pegs a design can have.
type counts struct {
	layout *file.Layout
	pegs   int         // that it has
	sides  map[int]int // the new sides of each old width
	read   map[reading]bool
	doubts map[string]int // readings of each row, on its pegs, that could be others
	bytes  int            // of rows read so far
}

// reading is a row read on so many pegs.
type reading struct {
	row  string
	pegs int
}

// mostRead is how many bytes of rows are read in search of counts: a second's work.
const mostRead = 32 << 20

// heed notes what is doubtful in the rows as they are. On other pegs no more may be: a
// repeat that is worked no time is none.
func (c *counts) heed() {
	c.doubts = map[string]int{}
	read := func(rows []string, pegs int) {
		for _, row := range rows {
			_, doubts, _ := rowtext.ReadRow(row, pegs)
			c.doubts[row] = max(c.doubts[row], len(doubts))
		}
	}
	for _, z := range c.layout.Zones {
		read(z.SideRows, z.Sides)
		for _, s := range z.Strips {
			pegs := s.Pegs
			if pegs == 0 {
				pegs = c.pegs - 2*z.Sides
			}
			read(s.Rows, pegs)
		}
	}
}

// readable tells whether all rows come out on so many pegs: repeats whole, no stitch
// over.
func (c *counts) readable(rows []string, pegs int) bool {
	for _, row := range rows {
		at := reading{row, pegs}
		fits, known := c.read[at]
		if !known {
			if c.bytes += len(row) + pegs; c.bytes > mostRead {
				return false
			}
			runs, doubts, err := rowtext.ReadRow(row, pegs)
			idle := slices.ContainsFunc(runs, func(r rowtext.Run) bool { return r.Stitch == rowtext.NoStitch })
			fits = err == nil && (idle || rowtext.Out(runs) == pegs) && len(doubts) <= c.doubts[row]
			c.read[at] = fits
		}
		if !fits {
			return false
		}
	}
	return true
}

// strips are the pegs of each zone's strips on so many pegs, and whether every zone has
// room on them for whole repeats.
func (c *counts) strips(pegs int) ([][]int, bool) {
	all := make([][]int, len(c.layout.Zones))
	for i := range c.layout.Zones {
		var ok bool
		if all[i], ok = c.zone(&c.layout.Zones[i], pegs); !ok {
			return nil, false
		}
	}
	return all, true
}

func (c *counts) zone(z *file.ZoneLayout, pegs int) ([]int, bool) {
	room, was := pegs-2*c.sides[z.Sides], c.pegs-2*z.Sides
	if room < 1 {
		return nil, false
	}
	if z.Motif >= 0 {
		m := c.layout.Motifs[z.Motif]
		// A motif that stood just in the middle is to stand there again.
		return []int{room}, room >= m.Pegs+movedTo(m, was, room) && (m.Col > 0 || (was-m.Pegs)%2 == 1 || (room-m.Pegs)%2 == 0)
	}
	if len(z.Strips) == 1 {
		return []int{room}, c.stripFits(&z.Strips[0], room)
	}
	return c.share(z.Strips, was, room)
}

// movedTo is how many pegs lie left of a motif that is placed: its middle keeps its
// place in the width.
func movedTo(m file.MotifLayout, was, room int) int {
	if m.Col == 0 {
		return 0
	}
	half := float64(m.Pegs) / 2
	left := math.Floor((float64(m.Col-1)+half)*float64(room)/float64(was) - half + 0.5)
	return max(0, min(int(left), room-m.Pegs))
}

func (c *counts) stripFits(s *file.StripLayout, pegs int) bool {
	if s.Rows == nil {
		return s.Chart == pegs
	}
	return c.readable(s.Rows, pegs)
}

// share parts a room among strips that lie side by side: each as near as can be to its
// part of it, those that are alike equally wide. Charts stay as they are drawn.
func (c *counts) share(strips []file.StripLayout, was, room int) ([]int, bool) {
	groups := alike(strips)
	// best is, for every width that the groups so far can have, the cheapest way.
	type way struct {
		cost float64
		pegs []int // of each group
	}
	drawn := 0 // pegs of charts, which stay
	for _, s := range strips {
		if s.Rows == nil {
			drawn += s.Pegs
		}
	}
	best := map[int]way{0: {}}
	for _, g := range groups {
		next := map[int]way{}
		target := float64(strips[g[0]].Pegs)
		if strips[g[0]].Rows != nil {
			target *= float64(room-drawn) / float64(was-drawn)
		}
		for _, pegs := range c.widths(&strips[g[0]], target, room/len(g)) {
			off := float64(pegs) - target
			for width, w := range best {
				sum, cost := width+pegs*len(g), w.cost+off*off*float64(len(g))
				if old, ok := next[sum]; sum <= room && (!ok || cost < old.cost) {
					next[sum] = way{cost, append(slices.Clone(w.pegs), pegs)}
				}
			}
		}
		best = next
	}
	w, ok := best[room]
	if !ok {
		return nil, false
	}
	widths := make([]int, len(strips))
	for i, g := range groups {
		for _, s := range g {
			widths[s] = w.pegs[i]
		}
	}
	return widths, true
}

// alike groups strips that are written the same.
func alike(strips []file.StripLayout) [][]int {
	var groups [][]int
	seen := map[string]int{}
	for i, s := range strips {
		key := fmt.Sprint(s.Pegs, s.Chart, strings.Join(s.Rows, "\x00"))
		if s.Rows == nil {
			key = fmt.Sprint("chart", i)
		}
		if g, ok := seen[key]; ok {
			groups[g] = append(groups[g], i)
			continue
		}
		seen[key] = len(groups)
		groups = append(groups, []int{i})
	}
	return groups
}

// tried is how many widths of a strip are tried on either side of the best.
const tried = 4

// widths are those nearest to the target that a strip can have.
func (c *counts) widths(s *file.StripLayout, target float64, limit int) []int {
	if s.Rows == nil {
		return []int{s.Pegs}
	}
	middle := int(target + 0.5)
	var found []int
	for pegs, n := min(middle, limit), 0; pegs >= 1 && n <= tried; pegs-- {
		if c.readable(s.Rows, pegs) {
			found, n = append(found, pegs), n+1
		}
	}
	for pegs, n := middle+1, 0; pegs <= limit && n < tried; pegs++ {
		if c.readable(s.Rows, pegs) {
			found, n = append(found, pegs), n+1
		}
	}
	return found
}

// farthest is how far from the best count others are looked for: no repeat is so wide.
const farthest = 400

// counts are the numbers of pegs to offer, the nearest first: some on either side of
// the target, and the largest that the loom has room for. Where just so many are wished
// they are alone, if they come out.
func (r *resizer) counts() []int {
	middle := r.wished()
	if _, ok := r.count.strips(middle); ok && r.wish.Pegs > 0 {
		return []int{middle}
	}
	var found []int
	add := func(from, step, enough, limit int) {
		for pegs, n := from, 0; pegs >= 1 && pegs <= limit && n < enough && abs(pegs-from) <= farthest; pegs += step {
			if _, ok := r.count.strips(pegs); ok {
				n++
				if !slices.Contains(found, pegs) {
					found = append(found, pegs)
				}
			}
		}
	}
	limit := pattern.MaxPegs
	if r.wish.Fill {
		limit = r.design.Loom.Pegs
	}
	add(middle, -1, 3, limit)
	add(middle+1, 1, 2, limit)
	if loom := r.design.Loom.Pegs; loom > 0 && loom < middle {
		add(loom, -1, 2, limit)
	}
	slices.SortStableFunc(found, func(a, b int) int {
		da, db := math.Abs(float64(a)-r.target), math.Abs(float64(b)-r.target)
		switch {
		case da < db-1e-9:
			return -1
		case db < da-1e-9:
			return 1
		}
		return a - b
	})
	return found
}

func abs(n int) int { return max(n, -n) }

// refuse says why no count comes out.
func (r *resizer) refuse() error {
	if r.failed != "" {
		return &Refusal{"no count near the wish can be written: " + r.failed, "change the file by hand; bypeg check tells what is left to do"}
	}
	return r.why(int(r.target + 0.5))
}

// why says what keeps the design from having so many pegs.
func (r *resizer) why(pegs int) *Refusal {
	if r.count.bytes > mostRead {
		return &Refusal{"the pattern has too many different rows to try other counts with", "ask for --same-pegs"}
	}
	for i := range r.layout.Zones {
		z := &r.layout.Zones[i]
		if _, ok := r.count.zone(z, pegs); ok {
			continue
		}
		name := r.old.Zones[i].Name
		switch {
		case z.Motif >= 0:
			m := r.layout.Motifs[z.Motif]
			return &Refusal{fmt.Sprintf("on %d pegs there is no room for the motif %s of %d pegs in zone %s", pegs, quote(m.Name), m.Pegs, quote(name)),
				"ask for a wider piece, or draw the motif narrower"}
		case len(z.Strips) == 1 && z.Strips[0].Rows == nil:
			return &Refusal{fmt.Sprintf("the chart of zone %s is drawn %d pegs wide and can't become wider or narrower by itself", quote(name), z.Strips[0].Chart),
				"ask for --same-pegs, or draw the chart anew"}
		}
		return &Refusal{fmt.Sprintf("no count near %d pegs lets the rows of zone %s come out whole", pegs, quote(name)),
			"write its rows with a repeat, as in *k2, p2; rep from * to end, or ask for another width"}
	}
	return &Refusal{fmt.Sprintf("no count near %d pegs suits all zones at once", pegs), "ask for another width"}
}
