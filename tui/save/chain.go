package save

import "slices"

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
// new numbers, first step first. So such a try begins with a record that follows the
// same one as the record after the gap, and says the same as it.
//
// Everything else off the chain is a rival: somebody went on from one record in two
// ways, with an old backup or on two machines. Then nobody but the maker knows. What
// the maker answers is kept as a Here record, and that settles all with lower
// numbers.

// chain is the history, and what speaks against it.
type chain struct {
	kept  []Record // oldest first; empty only where there are no records
	holes int
	tips  []Record // the last record of each rival history
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
	var c chain
	var settled uint64
	onChain := make([]bool, len(records))
	for i := f.topIndex(); i >= 0; {
		r := records[i]
		onChain[i] = true
		c.kept = append(c.kept, r)
		if r.Kind == Here && settled == 0 {
			settled = r.Number
		}
		if r.Prev == 0 {
			break
		}
		next := f.find(r.Prev, i)
		if next < 0 {
			c.holes++
			next = f.below(r.Prev, i)
		}
		i = next
	}
	slices.Reverse(c.kept)
	var rivals []Record
	for i, r := range records {
		if !onChain[i] && r.Number > settled && !f.failedTry(i, c.kept) {
			rivals = append(rivals, r)
		}
	}
	c.tips = tipsOf(rivals)
	return c
}

// follower finds records by number. A number may occur twice, in rival histories;
// the one meant is then the nearest before, in file order.
type follower struct {
	records []Record
	numbers []uint64         // each number once, ascending
	at      map[uint64][]int // where it occurs
}

func newFollower(records []Record) *follower {
	f := &follower{records: records, at: make(map[uint64][]int, len(records))}
	for i, r := range records {
		if len(f.at[r.Number]) == 0 {
			f.numbers = append(f.numbers, r.Number)
		}
		f.at[r.Number] = append(f.at[r.Number], i)
	}
	slices.Sort(f.numbers)
	return f
}

// topIndex is where the record with the highest number is, the last one of several,
// or -1.
func (f *follower) topIndex() int {
	if len(f.numbers) == 0 {
		return -1
	}
	return f.find(f.numbers[len(f.numbers)-1], len(f.records))
}

// find is the record with that number that is nearest before from, or -1.
func (f *follower) find(number uint64, from int) int {
	places := f.at[number]
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

// below is the record with the highest number below the given one, or -1.
func (f *follower) below(number uint64, from int) int {
	n, _ := slices.BinarySearch(f.numbers, number)
	if n == 0 {
		return -1
	}
	return f.find(f.numbers[n-1], from)
}

// failedTry tells whether the record is part of a write that failed and was made
// again: see the note above.
func (f *follower) failedTry(i int, kept []Record) bool {
	number := f.records[i].Number
	n, taken := slices.BinarySearchFunc(kept, number, func(r Record, number uint64) int {
		switch {
		case r.Number < number:
			return -1
		case r.Number > number:
			return 1
		}
		return 0
	})
	if taken || n == len(kept) || kept[n].Prev >= number {
		return false
	}
	base := kept[n].Prev
	for f.records[i].Prev > base {
		if i = f.find(f.records[i].Prev, i); i < 0 {
			return false
		}
	}
	return f.records[i].Prev == base && f.records[i].sameStep(kept[n])
}

// tipsOf picks the records that no other of them follows.
func tipsOf(records []Record) []Record {
	followed := make(map[uint64]bool)
	for _, r := range records {
		followed[r.Prev] = true
	}
	return slices.DeleteFunc(records, func(r Record) bool { return followed[r.Number] })
}
