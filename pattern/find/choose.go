package find

import (
	"cmp"
	"math"
	"slices"
)

// table is what each question would be answered at each place, and what that would cost.
type table struct {
	asked []Question
	says  [][]int32
	costs [][]float32
	items int
}

// table asks all questions of all places and keeps those that tell some apart. Of questions
// that tell the same apart the cheapest is kept.
func (r *reader) table(items []item, asked, skipped []Question) *table {
	t := &table{items: len(items)}
	best := map[string]int{}
	for _, q := range asked {
		if passedOver(q, skipped) {
			continue
		}
		says, costs, ok := r.line(q, items)
		if !ok {
			continue
		}
		key := shape(says)
		i, known := best[key]
		switch {
		case !known:
			best[key] = len(t.asked)
			t.asked, t.says, t.costs = append(t.asked, q), append(t.says, says), append(t.costs, costs)
		case sum(costs) < sum(t.costs[i]):
			t.asked[i], t.costs[i] = q, costs
		}
	}
	return t
}

// notSure is said at a place that has no sure answer.
const notSure = math.MinInt32

// line is a question at every place. It is of no use where all that are sure say the same.
func (r *reader) line(q Question, items []item) (says []int32, costs []float32, ok bool) {
	says, costs = make([]int32, len(items)), make([]float32, len(items))
	one := int32(notSure)
	for i, at := range items {
		s, count, sure := r.answer(q, at)
		if !sure {
			says[i] = notSure
			continue
		}
		says[i], costs[i] = int32(s), 1+float32(count)/10
		ok = ok || one != notSure && says[i] != one
		one = says[i]
	}
	return says, costs, ok
}

// shape is how a line divides the places, whatever its answers are called.
func shape(says []int32) string {
	names := map[int32]uint16{notSure: 0}
	key := make([]byte, 0, 2*len(says))
	for _, s := range says {
		n, known := names[s]
		if !known {
			n = uint16(len(names))
			names[s] = n
		}
		key = append(key, byte(n), byte(n>>8))
	}
	return string(key)
}

func sum(costs []float32) float64 {
	s := 0.0
	for _, c := range costs {
		s += float64(c)
	}
	return s
}

// part is what a question makes of some places.
type part struct {
	question int
	cost     float64 // of all the places together
	classes  [][]int
	bits     float64 // how much it tells of all the places together
}

// divide is what a question makes of places; ok is false where it tells none apart, or where
// one of them has no sure answer.
func (t *table) divide(q int, places []int) (p part, ok bool) {
	says := t.says[q]
	sorted := slices.Clone(places)
	slices.SortFunc(sorted, func(a, b int) int { return cmp.Compare(says[a], says[b]) })
	if first := says[sorted[0]]; first == notSure || first == says[sorted[len(sorted)-1]] {
		return p, false
	}
	p.question = q
	from := 0
	for i := range sorted {
		p.cost += float64(t.costs[q][sorted[i]])
		if i+1 == len(sorted) || says[sorted[i+1]] != says[sorted[i]] {
			p.classes = append(p.classes, sorted[from:i+1:i+1])
			from = i + 1
		}
	}
	n := float64(len(places))
	for _, c := range p.classes {
		p.bits += float64(len(c)) * math.Log2(n/float64(len(c)))
	}
	return p, true
}

// parts are all that questions make of places, the most told for the least cost first.
func (t *table) parts(places []int) []part {
	var ps []part
	if len(places) < 2 {
		return nil
	}
	for q := range t.asked {
		if p, ok := t.divide(q, places); ok {
			ps = append(ps, p)
		}
	}
	slices.SortStableFunc(ps, func(a, b part) int { return cmp.Compare(a.cost*b.bits, b.cost*a.bits) })
	return ps
}

// How many questions are followed to the end, and of how many places at most.
const (
	followed     = 10
	mostFollowed = 96
)

// best is the question to ask.
func (t *table) best() (Question, bool) {
	all := make([]int, t.items)
	for i := range all {
		all[i] = i
	}
	ps := t.parts(all)
	if len(ps) == 0 {
		return Question{}, false
	}
	if len(all) > mostFollowed {
		return t.asked[ps[0].question], true
	}
	return t.asked[t.follow(ps).question], true
}

// follow is the best of the most promising parts, each followed to the end by the rule of
// thumb.
func (t *table) follow(ps []part) part {
	best, least := ps[0], math.Inf(1)
	for _, p := range ps[:min(followed, len(ps))] {
		cost := p.cost
		for _, class := range p.classes {
			cost += t.thumb(class)
		}
		if cost < least {
			best, least = p, cost
		}
	}
	return best
}

// thumb is what telling places apart costs in all by the rule of thumb: ask what tells the
// most for its cost.
func (t *table) thumb(places []int) float64 {
	ps := t.parts(places)
	if len(ps) == 0 {
		return 0
	}
	cost := ps[0].cost
	for _, class := range ps[0].classes {
		cost += t.thumb(class)
	}
	return cost
}
