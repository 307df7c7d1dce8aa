package rowtext

import (
	"cmp"
	"fmt"
	"slices"

	"bypeg/pattern"
)

// maxRuns is how many runs the rows of a text have together, equal rows counted once.
const maxRuns = 3_000_000

// view is all that the runs of a row depend on. What is below, by the order in which runs were first seen, matters
// only to rows that follow it.
type view struct {
	content               int
	loops                 int
	back, wrong           bool
	below                 int
	belowBack, belowWrong bool
}

// laid is the runs of a row, kept once.
type laid struct {
	id      int
	runs    []Run
	in, out int
}

// flow lays the rows one on the other: each is worked on the loops that the one below leaves.
type flow struct {
	*reader
	form  pattern.Form
	loops int
	below laid
	was   view // of the row below
	known map[view]laid
	like  map[view][]laid // by content, loops and side alone
	runs  int
	cells int
	said  map[Note]bool
}

// lay is the rows of the text on so many pegs.
func (r *reader) lay(pegs int, form pattern.Form) []Row {
	f := &flow{reader: r, form: form, loops: pegs, known: map[view]laid{}, like: map[view][]laid{}, said: map[Note]bool{}}
	rows := make([]Row, 0, len(r.slots))
	for _, i := range r.order() {
		row, ok := f.row(&r.slots[i])
		if !ok {
			return nil
		}
		rows = append(rows, row)
	}
	return rows
}

// order is the rows by their numbers.
func (r *reader) order() []int {
	order := make([]int, len(r.slots))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(r.slots[a].number, r.slots[b].number) })
	return order
}

// row lays one row. It is false after a fault: what the rows above would be worked on is not known then.
func (f *flow) row(s *slot) (Row, bool) {
	f.work++
	root := &f.slots[s.root-1]
	row := Row{Number: s.number, In: f.loops, Start: root.from.body.start, End: root.from.body.end}
	row.Back = f.form == pattern.Panel && s.number%2 == 0
	row.Wrong = f.wrongSide(s)
	row.Side, row.Course = s.side, s.from.head.runs
	if h := s.from.head; h.start < h.end && h.start <= row.Start {
		row.Header = row.Start - h.start
	}
	v := view{content: root.content.id, loops: f.loops, back: row.Back, wrong: row.Wrong && f.seenBehind()}
	if root.content.body.echoes {
		v.below, v.belowBack, v.belowWrong = f.below.id, f.was.back, f.was.wrong
	}
	l, ok := f.known[v]
	if !ok {
		if l, ok = f.fresh(s, root, v); !ok {
			return row, false
		}
		f.known[v] = l
	}
	f.cells += max(l.out, f.loops)
	switch {
	case s.from.head.loops > 0 && s.from.head.loops != l.out && s.from.head.loops != f.loops:
		f.add(s.from.head.at, "", "the text says %d, row %d leaves %d", s.from.head.loops, s.number, l.out)
		return row, false
	case l.out < 1 || l.out > maxPegs:
		f.add(root.from.body, "", "row %d leaves %s: a row has 1 to %d", s.number, many(l.out, "loop"), maxPegs)
		return row, false
	case f.cells > pattern.MaxCells:
		f.add(root.from.body, "", "the rows as far as row %d have more than %d stitches", s.number, pattern.MaxCells)
		return row, false
	}
	row.Out, row.Runs = l.out, l.runs
	f.loops, f.below, f.was = l.out, l, v
	return row, true
}

// seenBehind tells whether wrong-side rows are seen from behind: on needles, going back and forth.
func (f *flow) seenBehind() bool { return f.options.Needles && f.form == pattern.Panel }

// wrongSide tells whether a row is a wrong-side row, in so many words or, on needles, by its number.
func (f *flow) wrongSide(s *slot) bool {
	if s.side != SideUnsaid {
		return s.side == WrongSide
	}
	return f.seenBehind() && (s.number%2 != 0) == f.oddWrong
}

// fresh lays a row as no row was laid before.
func (f *flow) fresh(s, root *slot, v view) (laid, bool) {
	by := root.from.body.start - root.content.start
	runs, notes, faults := root.content.body.lay(scene{loops: v.loops, back: v.back, wrong: v.wrong,
		below: f.below.runs, belowBack: f.was.back, belowSeen: f.was.wrong})
	if len(faults) > 0 {
		before := ""
		if s != root {
			before = fmt.Sprintf("row %d, as row %d: ", s.number, root.number)
		}
		for _, e := range faults {
			f.shifted(e, by, before)
		}
		return laid{}, false
	}
	for _, n := range notes {
		n.Start, n.End = n.Start+by, n.End+by
		if !f.said[n] {
			f.said[n] = true
			f.warnings = append(f.warnings, n)
		}
	}
	v.below, v.belowBack, v.belowWrong = 0, false, false
	for _, l := range f.like[v] {
		if slices.Equal(l.runs, runs) {
			return l, true
		}
	}
	if f.runs += len(runs); f.runs > maxRuns {
		f.add(root.from.body, "", "the rows have more than %d runs of equal stitches", maxRuns)
		return laid{}, false
	}
	l := laid{id: len(f.known) + 1, runs: slices.Clip(runs), in: In(runs), out: Out(runs)}
	if same := f.like[v]; len(same) < 4 {
		f.like[v] = append(same, l)
	}
	return l, true
}
