package rowtext

// Where a sequence repeats itself. For a period q the places i with x[i] == x[i+q] form
// stretches; one of q places or more is a block worked twice or more, and must hold a
// multiple of q. So for each q only every q-th place is tried, and a hit is followed to
// both sides: n/1 + n/2 + ... tries, and the length of what is found. A period that is
// only a multiple of one found already is passed over. What sequences cost beyond that
// is cut off at mostSteps, the longest periods going first.

// stretch is a piece from up to but not including to that repeats itself every period
// elements. It cannot be made longer.
type stretch struct{ from, to, period int }

// mostSteps bounds the work of finding repeats.
const mostSteps = 20_000_000

// repeats finds the stretches of x in the order of their periods, those of one element
// left out. They are two periods long or more; cut ones may be an element short of it.
func repeats[T comparable](x []T, cut bool) []stretch {
	f := finder[T]{x: x, least: 0, covers: make([]stretch, len(x))}
	if cut {
		f.least = 1
	}
	for q := 1; 2*q-f.least <= len(x) && f.steps < mostSteps; q++ {
		f.period(q)
	}
	return f.found
}

type finder[T comparable] struct {
	x      []T
	least  int       // how many elements a stretch may lack of two periods
	covers []stretch // the stretch of the shortest period at each element
	found  []stretch
	steps  int
}

// period finds the stretches of one period.
func (f *finder[T]) period(q int) {
	x, step := f.x, max(1, q-f.least)
	for t := 0; t+q < len(x); t += step {
		f.steps++
		if c := f.covers[t]; c.period > 0 && q%c.period == 0 && t+q < c.to {
			t += (c.to - q - 1 - t) / step * step
			continue
		}
		if x[t] != x[t+q] {
			continue
		}
		from, to := t, t+1
		for from > 0 && x[from-1] == x[from-1+q] {
			from--
		}
		for to+q < len(x) && x[to] == x[to+q] {
			to++
		}
		f.steps += to - from
		if to-from >= q-f.least {
			f.keep(stretch{from, to + q, q})
		}
		t += (to - 1 - t) / step * step
	}
}

func (f *finder[T]) keep(s stretch) {
	if s.period > 1 {
		f.found = append(f.found, s)
	}
	for i := s.from; i < s.to; i++ {
		if f.covers[i].period == 0 {
			f.covers[i] = s
		}
	}
	f.steps += s.to - s.from
}
