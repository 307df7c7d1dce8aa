package fit

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// Multiple is the counts that a stitch pattern can have: Of times any number, and Plus.
type Multiple struct{ Of, Plus int }

// fits tells whether so many stitches are one of the counts: one repeat at least, or the
// plus alone where it makes a row of its own.
func (m Multiple) fits(n int) bool { return n >= m.Of && (n-m.Plus)%m.Of == 0 && n > m.Plus }

// CountWish is a size that is to be met by a count of pegs, or of rows.
type CountWish struct {
	Size      measure.Length
	Per10     measure.Density // pegs or rows
	Multiples []Multiple      // all of them at once; none is any count
	Ends      int             // what does not repeat at both ends together: twice the sides, or border rows
	Limit     int             // of the loom; 0 where there is none
	Form      pattern.Form    // a tube closes: it has no plus and no ends
}

// Count is a count that can be had.
type Count struct {
	N    int
	Size measure.Length
	Fits bool // within the limit
}

// Counted are the counts nearest to a wish.
type Counted struct {
	Exact  float64 // the count that would be the size to the hair
	Wide   Count   // the nearest, the wider of two, whether it fits or not
	Best   Count   // the nearest that fits, where one does
	Others []Count // on both sides of it, ascending
}

// CountsFor are the counts that come nearest to a size: the best, and its neighbours on
// both sides. The best is one that fits where any does. The error says what to
// write instead.
func CountsFor(w CountWish) (*Counted, error) {
	if err := w.check(); err != nil {
		return nil, err
	}
	c := &Counted{Exact: w.Per10.Count(w.Size)}
	middle := int(math.Floor(min(c.Exact, pattern.MaxPegs*25) + 0.5))
	below, above := w.near(middle, -1, 2), w.near(middle+1, 1, 2)
	var all []Count
	for i := len(below) - 1; i >= 0; i-- {
		all = append(all, w.count(below[i]))
	}
	for _, n := range above {
		all = append(all, w.count(n))
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("no count near %s suits all these multiples at once: ask for another size, or other multiples", measure.Number(c.Exact, 1))
	}
	best := -1
	off := func(n Count) float64 { return math.Abs(float64(n.N) - c.Exact) }
	c.Wide = slices.MinFunc(all, func(a, b Count) int { return cmp.Or(cmp.Compare(off(a), off(b)), b.N-a.N) })
	for i, n := range all {
		if n.Fits && (best < 0 || off(n) < off(all[best])) {
			best = i
		}
	}
	if best < 0 { // none fits: the largest that would
		if n := w.near(w.Limit, -1, 1); len(n) > 0 {
			c.Best = w.count(n[0])
			for _, others := range [][]int{below[:min(1, len(below))], above[:min(1, len(above))]} {
				for _, n := range others {
					c.Others = append(c.Others, w.count(n))
				}
			}
			return c, nil
		}
		return nil, fmt.Errorf("%s pegs would be needed, and the loom has %d: work it as several panels, or on a longer loom", measure.Number(c.Exact, 1), w.Limit)
	}
	c.Best = all[best]
	for i := max(0, best-1); i <= min(len(all)-1, best+1); i++ {
		if i != best {
			c.Others = append(c.Others, all[i])
		}
	}
	return c, nil
}

func (w *CountWish) check() error {
	switch {
	case w.Size <= 0:
		return fmt.Errorf("a size is more than 0: write it like 52 cm")
	case w.Per10 <= 0:
		return fmt.Errorf(`the gauge does not say it: write it like "24 pegs = 18.5 cm"`)
	case w.Form == pattern.Tube && w.Ends > 0:
		return fmt.Errorf("a tube has no sides: its rounds close")
	}
	for _, m := range w.Multiples {
		if m.Of < 1 || m.Of > pattern.MaxPegs || m.Plus < 0 || m.Plus > pattern.MaxPegs {
			return fmt.Errorf("a multiple is 1 to %d, and its plus 0 or more: write it like 8 plus 3", pattern.MaxPegs)
		}
	}
	return nil
}

// near are the nearest counts from one on upwards or downwards.
func (w *CountWish) near(from, step, enough int) []int {
	var found []int
	for n, tried := from, 0; n >= 1 && n <= pattern.MaxRows && tried <= farthestCount && len(found) < enough; n, tried = n+step, tried+1 {
		if w.allows(n) {
			found = append(found, n)
		}
	}
	return found
}

// farthestCount is how many counts are tried on either side.
const farthestCount = 20_000

func (w *CountWish) allows(n int) bool {
	inside := n - w.Ends
	if inside < 1 {
		return false
	}
	for _, m := range w.Multiples {
		if w.Form == pattern.Tube {
			m.Plus = 0
		}
		if !m.fits(inside) {
			return false
		}
	}
	return true
}

func (w *CountWish) count(n int) Count {
	return Count{N: n, Size: w.Per10.Length(float64(n)), Fits: w.Limit == 0 || n <= w.Limit}
}

// Balanced is a way to lay a repeat in the middle: so many repeats, and so many pegs left
// at each side, equally many.
type Balanced struct{ Pegs, Repeats, Edge int }

// Balance are the counts nearest to so many pegs at which whole repeats leave equally
// many pegs at both sides: the count itself where it does, else those on both sides of it.
func Balance(pegs, repeat int) []Balanced {
	at := func(n int) (Balanced, bool) {
		if n < repeat || repeat < 1 {
			return Balanced{}, false
		}
		return Balanced{n, n / repeat, n % repeat / 2}, n%repeat%2 == 0
	}
	if b, ok := at(pegs); ok {
		return []Balanced{b}
	}
	var found []Balanced
	for _, n := range []int{pegs - 1, pegs + 1} {
		if b, ok := at(n); ok {
			found = append(found, b)
		}
	}
	return found
}

// Mirrored is a way to lay a repeat in the middle of so many pegs with half of it, or a
// little more, at both ends, the one as the other's mirror; and whether there is one. It has
// a whole repeat fewer than there is room for.
func Mirrored(pegs, repeat int) (b Balanced, ok bool) {
	if repeat < 2 || pegs < 2*repeat {
		return Balanced{}, false
	}
	repeats := pegs/repeat - 1
	rest := pegs - repeats*repeat
	return Balanced{pegs, repeats, rest / 2}, rest%2 == 0
}

// PickUp is how many stitches to take up along so many row ends, so that the edge neither
// pulls nor waves: exactly, and the nearest count that a multiple allows.
func PickUp(rowEnds int, g pattern.Gauge, m Multiple) (exact float64, n int) {
	exact = float64(rowEnds) * g.Stitches / g.Rows
	n = int(math.Floor((exact-float64(m.Plus))/float64(m.Of)+0.5))*m.Of + m.Plus
	return exact, n
}

// SquareRows is how many rows make a square of so many pegs: plain, and in garter. 0 where
// the gauge does not say.
func SquareRows(pegs int, g Gauge) (plain, garter float64) {
	if !g.Stitches.Known() {
		return 0, 0
	}
	wide := g.Stitches.Likely.Length(float64(pegs))
	return g.Rows.Likely.Count(wide), g.Garter.Likely.Count(wide)
}
