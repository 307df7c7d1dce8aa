package save

import (
	"bytes"
	"cmp"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// # The reference
//
// Most lines are read in one pass, few are understood, and most histories are what
// stands there, line by line. All of that is for speed. The reference knows none of it:
// it understands every line with parseRecord and searches every record for the one it
// follows. For any bytes the two must tell the same.

// reference reads a piece whose journal has those files, in that order, with no second
// copy beside it.
func reference(id string, names []string, files [][]byte) *account {
	s := newScan(id)
	for i, data := range files {
		s.torn, s.headed, s.found = false, false, false
		for line := range strings.Lines(string(data)) {
			full := strings.HasSuffix(line, "\n")
			if full {
				line = strings.TrimSuffix(strings.TrimSuffix(line, "\n"), "\r")
			}
			s.line(line, full)
		}
		if !s.headed && s.found {
			s.mangled++
		}
		if n, ok := segmentNumber(names[i]); ok {
			newline := len(data) == 0 || bytes.HasSuffix(data, []byte("\n"))
			s.target = target{n, int64(len(data)), newline, s.headed && s.found}
		}
	}
	var records []Record
	for _, r := range s.whole {
		if !slices.ContainsFunc(records, func(o Record) bool { return o.Number == r.Number && o.sum == r.sum }) {
			records = append(records, r)
		}
	}
	s.ledger = newLedger(id)
	for _, r := range records {
		s.links = append(s.links, s.addWhole(r))
	}
	return &account{scan: s, chain: s.chained(searcher(records))}
}

// chained is the chain that a search has found.
func (s *scan) chained(f searcher) chain {
	on, holes := f.chain()
	c := chain{ledger: s.ledger, holes: holes}
	for _, i := range on {
		c.kept = append(c.kept, s.links[i])
		c.top = f[i]
		if f[i].Kind == Here {
			c.settled = f[i].Number
		}
	}
	c.told = c.kept
	var rivals []int
	for i, r := range f {
		if !slices.Contains(on, i) && r.Number > c.settled && !f.failedTry(i, on) {
			rivals = append(rivals, i)
		}
	}
	for _, i := range rivals {
		if !slices.ContainsFunc(rivals, func(j int) bool { return f[j].Prev == f[i].Number }) {
			tip := f[i]
			tip.facts.pattern = f.pattern(i)
			c.tips = append(c.tips, tip)
		}
	}
	return c
}

// searcher searches all records for whatever is wanted of them.
type searcher []Record

// chain are the records from the first to the one with the highest number, and how often
// the record that one follows was not found.
func (f searcher) chain() (on []int, holes int) {
	top := -1
	for i, r := range f {
		if top < 0 || r.Number >= f[top].Number {
			top = i
		}
	}
	for i := top; i >= 0; {
		on = append(on, i)
		if f[i].Prev == 0 {
			break
		}
		next := f.followed(i)
		if next < 0 {
			holes++
			next = f.below(i)
		}
		i = next
	}
	slices.Reverse(on)
	return on, holes
}

// find is the record with that number that is nearest before the i-th one, or else the
// last one behind it, or -1.
func (f searcher) find(number uint64, i int) int {
	before, behind := -1, -1
	for at, r := range f {
		switch {
		case r.Number == number && at < i:
			before = at
		case r.Number == number:
			behind = at
		}
	}
	if before >= 0 {
		return before
	}
	return behind
}

func (f searcher) followed(i int) int {
	for at, r := range f {
		if f[i].follows != 0 && r.Number == f[i].Prev && r.sum == f[i].follows {
			return at
		}
	}
	return f.find(f[i].Prev, i)
}

func (f searcher) below(i int) int {
	highest := uint64(0)
	for _, r := range f {
		if r.Number < f[i].Prev {
			highest = max(highest, r.Number)
		}
	}
	return f.find(highest, i)
}

func (f searcher) pattern(i int) string {
	for i >= 0 && f[i].facts.pattern == "" {
		i = f.followed(i)
	}
	if i < 0 {
		return ""
	}
	return f[i].facts.pattern
}

func (f searcher) failedTry(i int, on []int) bool {
	n, taken := slices.BinarySearchFunc(on, f[i].Number, func(at int, number uint64) int {
		return cmp.Compare(f[at].Number, number)
	})
	if taken || n == len(on) || f[on[n]].Prev >= f[i].Number {
		return false
	}
	if slices.Contains(f[on[n]].void, f[i].sum) {
		return true
	}
	for _, at := range on[n:min(len(on), n+MaxBatch)] {
		if f[i].sameTry(f[at]) {
			return true
		}
	}
	again := f[on[n]]
	for i >= 0 && f[i].Prev > again.Prev {
		i = f.find(f[i].Prev, i)
	}
	return i >= 0 && f[i].Prev == again.Prev && f[i].sameTry(again)
}

// agree holds what is read of the files of a journal, and of a second copy where there
// is one, against the reference.
func agree(t require.TestingT, id string, names []string, files [][]byte, second *secondCopy) {
	have := &account{scan: scanFiles(id, names, files)}
	have.chain = follow(have.scan.ledger)
	want := reference(id, names, files)
	for _, a := range []*account{want, have} {
		a.copy = second
		a.facts, _ = a.findFacts()
		a.doubt = a.patternInDoubt([]string{patternName("0a1b2c3d"), patternName("4e5f6a7b")})
	}
	require.Equal(t, want.facts, have.facts)

	read := func(a *account, links []link) (records []Record) {
		for _, k := range links {
			records = append(records, a.scan.record(k))
		}
		return records
	}
	sameRecords(t, read(want, want.scan.links), read(have, have.scan.links))
	sameRecords(t, read(want, want.chain.kept), read(have, have.chain.kept))
	sameRecords(t, want.chain.tips, have.chain.tips)
	wantedOwed, wantedFirst := want.unvouched(0)
	owed, first := have.unvouched(0)
	require.Equal(t, wantedOwed, owed)
	require.Equal(t, wantedFirst, first)
	require.Equal(t, want.chain.holes, have.chain.holes)
	require.Equal(t, want.chain.settled, have.chain.settled)
	require.Equal(t, want.chain.pattern(), have.chain.pattern())
	sameScan(t, want.scan, have.scan)

	wanted, told := want.opening(), have.opening()
	sameRecords(t, history(wanted), history(told))
	require.Equal(t, wanted.History.Len(), told.History.Len())
	sameQuestion(t, wanted.Question, told.Question)
	wanted.History, wanted.Question = told.History, told.Question
	require.True(t, wanted.Time.Equal(told.Time))
	wanted.Time = told.Time
	require.Equal(t, wanted, told)
}

// sameScan holds that all is the same but where the records are kept.
func sameScan(t require.TestingT, want, have *scan) {
	w, h := *want, *have
	w.ledger, h.ledger, w.late, h.late = nil, nil, nil, nil
	require.Equal(t, w, h)
}

func sameQuestion(t require.TestingT, want, have *Question) {
	require.Equal(t, want == nil, have == nil)
	if want == nil {
		return
	}
	require.Equal(t, want.String(), have.String())
	require.Len(t, have.Choices, len(want.Choices))
	for i, c := range want.Choices {
		require.Equal(t, c.pattern, have.Choices[i].pattern)
		sameRecords(t, []Record{c.record}, []Record{have.Choices[i].record})
	}
}

// sameRecords holds that records tell the same, the time at the same place of the world.
func sameRecords(t require.TestingT, want, have []Record) {
	require.Len(t, have, len(want))
	for i, w := range want {
		h := have[i]
		require.True(t, w.Time.Equal(h.Time), "%v is not %v", h.Time, w.Time)
		require.Equal(t, stamp(w.Time), stamp(h.Time))
		w.Time, w.line, h.line = h.Time, "", ""
		require.Equal(t, w, h)
	}
}

func TestTheReferenceFindsThePieceOfVersionOne(t *testing.T) {
	golden := goldenFiles(t, goldenDir)
	names := journalNames(slices.Sorted(maps.Keys(golden)))
	var files [][]byte
	for _, name := range names {
		files = append(files, []byte(golden[name]))
	}
	require.Equal(t, len(goldenHistory), reference(goldenID, names, files).opening().History.Len())
	agree(t, goldenID, names, files, nil)
}
