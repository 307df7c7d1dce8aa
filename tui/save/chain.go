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
// new numbers, first step first, each with the time at which it was made. So each record
// of such a try says the same as one of those after the gap; or, where fewer of them were made again, the try begins with a
// record that follows the same one as the record after the gap, and says the same as it.
// Where something else was done instead, the record after the gap says that it is void.
//
// Everything else off the chain is a rival: somebody went on from one record in two
// ways, with an old backup or on two machines. Then nobody but the maker knows. What
// the maker answers is kept as a Here record, and that settles all with lower
// numbers.

// chain is the history, and what speaks against it.
type chain struct {
	ledger *ledger
	kept   []link // oldest first; empty only where there are no records
	told   []link // those of the kept that tell more than a place
	top    Record // the last of them, which says where the work stands; zero where there is none
	holes  int
	tips   []Record // the last record of each rival history, with the pattern that it was made with

	settled uint64 // an answer has settled what has lower numbers; 0 where none has
}

// follow finds the chain. In nearly every journal the records are the chain as they stand.
func follow(l *ledger) chain {
	c := chain{ledger: l}
	if straight(l.links) {
		c.kept = l.links
		for _, r := range l.whole {
			if r.Kind == Here {
				c.settled = max(c.settled, r.Number)
			}
		}
	} else {
		newFollower(l).follow(&c)
	}
	for _, k := range c.kept {
		if !k.plain() {
			c.told = append(c.told, k)
		}
	}
	if len(c.kept) > 0 {
		c.top = l.record(c.kept[len(c.kept)-1])
	}
	return c
}

// straight tells whether each record follows the one before it.
func straight(links []link) bool {
	before := uint64(0)
	for _, k := range links {
		if k.prev != before {
			return false
		}
		before = k.number
	}
	return true
}

// pattern is the mark of the pattern text that the kept records name last, or "".
func (c chain) pattern() string {
	for _, k := range slices.Backward(c.told) {
		if mark := c.ledger.pattern(k); mark != "" {
			return mark
		}
	}
	return ""
}

// follower finds records by number. A number may occur twice, in rival histories;
// the one meant is then the nearest before, in file order. A Here record may follow
// any of them, so it names the one.
type follower struct {
	ledger *ledger
	links  []link
	order  []int       // of the links by number, and of equal numbers in file order
	first  map[int]int // what beginning has found
}

func newFollower(l *ledger) *follower {
	f := &follower{ledger: l, links: l.links, order: make([]int, len(l.links)), first: make(map[int]int)}
	for i := range f.order {
		f.order[i] = i
	}
	slices.SortFunc(f.order, func(a, b int) int {
		return cmp.Or(cmp.Compare(f.links[a].number, f.links[b].number), a-b)
	})
	return f
}

// follow follows the chain down from its top.
func (f *follower) follow(c *chain) {
	c.kept = make([]link, 0, len(f.links))
	onChain := make([]bool, len(f.links))
	for i := f.topIndex(); i >= 0; {
		k := f.links[i]
		onChain[i] = true
		c.kept = append(c.kept, k)
		if c.settled == 0 && f.ledger.isHere(k) {
			c.settled = k.number
		}
		if k.prev == 0 {
			break
		}
		next := f.followed(i)
		if next < 0 {
			c.holes++
			next = f.below(k.prev, i)
		}
		i = next
	}
	slices.Reverse(c.kept)
	var rivals []int
	for i, k := range f.links {
		if !onChain[i] && k.number > c.settled && !f.failedTry(i, c.kept) {
			rivals = append(rivals, i)
		}
	}
	for _, i := range f.tips(rivals) {
		tip := f.ledger.record(f.links[i])
		tip.facts.pattern = f.pattern(i)
		c.tips = append(c.tips, tip)
	}
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
		return cmp.Compare(f.links[i].number, number)
	})
	return n
}

// all are the records with that number.
func (f *follower) all(number uint64) []int { return f.order[f.from(number):f.from(number+1)] }

// find is the record with that number that is nearest before from, or -1.
func (f *follower) find(number uint64, from int) int {
	if from > 0 && f.links[from-1].number == number { // no need to search: there is none nearer
		return from - 1
	}
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
	k := f.links[i]
	if !k.plain() {
		follows := f.ledger.whole[k.at].follows
		for _, at := range f.all(k.prev) {
			if follows != 0 && f.ledger.record(f.links[at]).sum == follows {
				return at
			}
		}
	}
	return f.find(k.prev, i)
}

// pattern is the mark of the pattern text that the i-th record was made with, or ""
// where no record tells.
func (f *follower) pattern(i int) string {
	for ; i >= 0; i = f.followed(i) {
		if mark := f.ledger.pattern(f.links[i]); mark != "" {
			return mark
		}
	}
	return ""
}

// below is the record with the highest number below the given one, or -1.
func (f *follower) below(number uint64, from int) int {
	n := f.from(number)
	if n == 0 {
		return -1
	}
	return f.find(f.links[f.order[n-1]].number, from)
}

// failedTry tells whether the record is part of a write that failed and was made
// again: see the note above.
func (f *follower) failedTry(i int, kept []link) bool {
	number := f.links[i].number
	n, taken := slices.BinarySearchFunc(kept, number, func(k link, number uint64) int {
		return cmp.Compare(k.number, number)
	})
	if taken || n == len(kept) || kept[n].prev >= number {
		return false
	}
	r := f.ledger.record(f.links[i])
	if next := kept[n]; !next.plain() && slices.Contains(f.ledger.whole[next.at].void, r.sum) {
		return true
	}
	again := kept[n:min(len(kept), n+MaxBatch)]
	if slices.ContainsFunc(again, func(k link) bool { return r.sameTry(f.ledger.record(k)) }) {
		return true
	}
	base := kept[n].prev
	first := f.beginning(i, base)
	return first >= 0 && f.links[first].prev == base && f.ledger.record(f.links[first]).sameTry(f.ledger.record(kept[n]))
}

// beginning is the first record, above base, of those that lead to the i-th one; -1 where
// one of them is missing. They lie in one gap, so that all of them have the same base.
func (f *follower) beginning(i int, base uint64) int {
	var passed []int
	for i >= 0 && f.links[i].prev > base {
		if first, known := f.first[i]; known {
			i = first
			break
		}
		passed = append(passed, i)
		i = f.find(f.links[i].prev, i)
	}
	for _, at := range passed {
		f.first[at] = i
	}
	return i
}

// tips picks the records that no other of them follows.
func (f *follower) tips(records []int) []int {
	followed := make(map[uint64]bool)
	for _, i := range records {
		followed[f.links[i].prev] = true
	}
	return slices.DeleteFunc(records, func(i int) bool { return followed[f.links[i].number] })
}

// disputed tells whether place.toml has a place that the records know nothing of: it
// is from another history, whose records are gone.
func (c chain) disputed(second *secondCopy) bool {
	number := second.number
	switch {
	case number >= c.top.Number:
		return number > c.top.Number || second.at != c.top.Place
	case number <= c.settled:
		return false
	}
	taken := false
	for _, k := range c.ledger.links {
		if k.number == number {
			if c.ledger.record(k).Place == second.at {
				return false
			}
			taken = true
		}
	}
	if taken {
		return true
	}
	next := c.kept[slices.IndexFunc(c.kept, func(k link) bool { return k.number > number })]
	// In a hole its line is damaged. In a gap it may have been a try, made again.
	return next.prev < number && c.ledger.record(next).Place != second.at
}
