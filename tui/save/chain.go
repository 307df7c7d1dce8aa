package save

import (
	"cmp"
	"slices"
)

// # How a history is found among the records
//
// A record names the one it follows. From the record with the highest number that
// leads back, link by link, to the first: the chain. Three things can be off it.
//
// A link may be missing: its line is damaged or gone. The chain goes on at the next
// lower number, and the hole is counted. A mere gap in the numbers is no hole: a
// number whose write failed is burnt, and the record after the gap follows the one
// before it.
//
// A record may lie in such a gap. Its write had been reported as failed and reached
// the disk all the same, or part of it did. The steps were then written again under
// new numbers, first step first. So each record of such a try says the same as one of
// those after the gap; or, where fewer of them were made again, the try begins with a
// record that follows the same one as the record after the gap, and says the same as it.
//
// Everything else off the chain is a rival: somebody went on from one record in two
// ways, with an old backup or on two machines. Then nobody but the maker knows. What
// the maker answers is kept as a Here record, and that settles all with lower
// numbers.

// chain is the history, and what speaks against it.
type chain struct {
	kept  []Record // oldest first; empty only where there are no records
	holes int
	tips  []Record // the last record of each rival history, with the pattern that it was made with

	settled uint64 // an answer has settled what has lower numbers; 0 where none has
}

// top is the record that says where the work stands.
func (c chain) top() Record {
	if len(c.kept) == 0 {
		return Record{}
	}
	return c.kept[len(c.kept)-1]
}

// follow finds the chain among records given in file order.
func follow(records []Record) chain {
	f := newFollower(records)
	c := chain{kept: make([]Record, 0, len(records))}
	onChain := make([]bool, len(records))
	for i := f.topIndex(); i >= 0; {
		r := records[i]
		onChain[i] = true
		c.kept = append(c.kept, r)
		if r.Kind == Here && c.settled == 0 {
			c.settled = r.Number
		}
		if r.Prev == 0 {
			break
		}
		next := f.followed(i)
		if next < 0 {
			c.holes++
			next = f.below(r.Prev, i)
		}
		i = next
	}
	slices.Reverse(c.kept)
	var rivals []Record
	for i, r := range records {
		if !onChain[i] && r.Number > c.settled && !f.failedTry(i, c.kept) {
			rivals = append(rivals, r)
		}
	}
	c.tips = tipsOf(rivals)
	for i := range c.tips {
		c.tips[i].facts.pattern = f.pattern(c.tips[i])
	}
	return c
}

// pattern is the mark of the pattern text that the kept records name last, or "".
func (c chain) pattern() string {
	for _, r := range slices.Backward(c.kept) {
		if r.facts.pattern != "" {
			return r.facts.pattern
		}
	}
	return ""
}

// follower finds records by number. A number may occur twice, in rival histories;
// the one meant is then the nearest before, in file order. A Here record may follow
// any of them, so it names the one.
type follower struct {
	records []Record
	order   []int // of the records by number, and of equal numbers in file order
}

func newFollower(records []Record) *follower {
	f := &follower{records: records, order: make([]int, len(records))}
	for i := range f.order {
		f.order[i] = i
	}
	slices.SortFunc(f.order, func(a, b int) int {
		return cmp.Or(cmp.Compare(records[a].Number, records[b].Number), a-b)
	})
	return f
}

// topIndex is where the record with the highest number is, the last one of several,
// or -1.
func (f *follower) topIndex() int {
	if len(f.order) == 0 {
		return -1
	}
	return f.order[len(f.order)-1]
}

// from is where in the order the numbers from the given one on begin.
func (f *follower) from(number uint64) int {
	n, _ := slices.BinarySearchFunc(f.order, number, func(i int, number uint64) int {
		return cmp.Compare(f.records[i].Number, number)
	})
	return n
}

// all are the records with that number.
func (f *follower) all(number uint64) []int { return f.order[f.from(number):f.from(number+1)] }

// find is the record with that number that is nearest before from, or -1.
func (f *follower) find(number uint64, from int) int {
	places := f.all(number)
	if len(places) == 0 {
		return -1
	}
	for _, i := range slices.Backward(places) {
		if i < from {
			return i
		}
	}
	return places[len(places)-1]
}

// followed is the record that the i-th one follows, or -1.
func (f *follower) followed(i int) int {
	r := f.records[i]
	for _, at := range f.all(r.Prev) {
		if r.follows != 0 && f.records[at].sum == r.follows {
			return at
		}
	}
	return f.find(r.Prev, i)
}

// pattern is the mark of the pattern text that the record was made with, or "" where no
// record tells.
func (f *follower) pattern(r Record) string {
	i := slices.IndexFunc(f.records, func(o Record) bool { return o.Number == r.Number && o.sum == r.sum })
	for i >= 0 && f.records[i].facts.pattern == "" {
		i = f.followed(i)
	}
	if i < 0 {
		return ""
	}
	return f.records[i].facts.pattern
}

// below is the record with the highest number below the given one, or -1.
func (f *follower) below(number uint64, from int) int {
	n := f.from(number)
	if n == 0 {
		return -1
	}
	return f.find(f.records[f.order[n-1]].Number, from)
}

// failedTry tells whether the record is part of a write that failed and was made
// again: see the note above.
func (f *follower) failedTry(i int, kept []Record) bool {
	number := f.records[i].Number
	n, taken := slices.BinarySearchFunc(kept, number, func(r Record, number uint64) int {
		return cmp.Compare(r.Number, number)
	})
	if taken || n == len(kept) || kept[n].Prev >= number {
		return false
	}
	again := kept[n:min(len(kept), n+MaxBatch)]
	if slices.ContainsFunc(again, f.records[i].sameStep) {
		return true
	}
	base := kept[n].Prev
	for f.records[i].Prev > base {
		if i = f.find(f.records[i].Prev, i); i < 0 {
			return false
		}
	}
	return f.records[i].Prev == base && f.records[i].sameStep(kept[n])
}

// disputed tells whether place.toml has a place that the records know nothing of: it
// is from another history, whose records are gone.
func (c chain) disputed(second *secondCopy, records []Record) bool {
	number, top := second.number, c.top()
	switch {
	case number >= top.Number:
		return number > top.Number || second.at != top.Place
	case number <= c.settled:
		return false
	}
	taken := false
	for _, r := range records {
		if r.Number == number && r.Place == second.at {
			return false
		}
		taken = taken || r.Number == number
	}
	if taken {
		return true
	}
	next := c.kept[slices.IndexFunc(c.kept, func(r Record) bool { return r.Number > number })]
	// In a hole its line is damaged. In a gap it may have been a try, made again.
	return next.Prev < number && next.Place != second.at
}

// tipsOf picks the records that no other of them follows.
func tipsOf(records []Record) []Record {
	followed := make(map[uint64]bool)
	for _, r := range records {
		followed[r.Prev] = true
	}
	return slices.DeleteFunc(records, func(r Record) bool { return followed[r.Number] })
}
