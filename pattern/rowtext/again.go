package rowtext

import (
	"fmt"

	"bypeg/pattern"
)

// cycle gives the numbers of rows one by one, and begins again behind the last.
type cycle struct {
	list []rowRange
	i, n int
}

func (c *cycle) next() int {
	if c == nil {
		return 0
	}
	of := c.list[c.i]
	n := of.first + c.n
	if c.n++; n == of.last {
		c.i, c.n = (c.i+1)%len(c.list), 0
	}
	return n
}

// block is the rows that a repeat means, the ones behind one another counted back from a row.
func (r *reader) block(a *again, top int) (list []rowRange, ok bool) {
	list = a.list
	switch {
	case a.steady && len(r.slots) > 0:
		if r.known++; r.known > maxEstablished {
			r.add(a.span, "write the rows out, or rep rows 1-4", "a text can say so %d times", maxEstablished)
			return nil, false
		}
		rows, guessed := r.recurs(top)
		if guessed {
			r.warn(a.span, "read as rows %d to %d again and again, since the rows before begin to recur: if other ones are meant, write rep rows and their numbers", top-rows+1, top)
		}
		list = []rowRange{{a.span, top - rows + 1, top}}
	case a.last < 0:
		list = []rowRange{{a.span, r.low, top}}
	case a.last > 0:
		list = []rowRange{{a.span, top - a.last + 1, top}}
	case a.from && count(list) == 1:
		list = []rowRange{{list[0].span, list[0].first, top}}
	}
	for _, of := range list {
		if a.last > 0 && of.first < min(r.low, 1) || len(r.slots) == 0 && a.last != 0 {
			r.add(a.span, "", "there are no %s before this", many(max(a.last, 1), "row"))
			return nil, false
		}
		if !r.checkRange(of, a.span) {
			return nil, false
		}
	}
	return list, true
}

// maxEstablished is how many statements of a text may say "continue in pattern": each looks at all rows so far.
const maxEstablished = 20

// recurs is after how many rows up to the top one the rows so far recur: all of them where they do not yet. It is a
// guess where the second time is not shown whole.
func (r *reader) recurs(top int) (rows int, guessed bool) {
	ids := make([]int, 0, top-r.low+1)
	for n := r.low; n <= top; n++ {
		ids = append(ids, r.instructions(n, ids))
	}
	r.work += 2 * len(ids)
	p := period(ids)
	switch again := len(ids) - p; {
	case again >= p:
		return p, false
	case again >= 2:
		return p, true
	}
	return len(ids), false // one row like the first is no repeat
}

// instructions tells rows with other instructions apart. Those of the rows before it are known.
func (r *reader) instructions(n int, known []int) int {
	r.work++
	i, ok := r.index[n]
	if !ok {
		return -n // a row that is not written is like no other
	}
	s := &r.slots[i]
	switch {
	case s.content != nil:
		return s.content.id
	case r.low <= s.ref && s.ref-r.low < len(known):
		return known[s.ref-r.low]
	}
	return -n
}

// settle is the rows that those of a header are worked as. The header's count of rows settles what "three times" means.
func (r *reader) settle(a *again, s *statement, list []rowRange) *cycle {
	n := count(list)
	if n == 0 {
		r.add(s.body, "write out the instructions", "it is not clear which rows these are worked as")
		return nil
	}
	moved := *a
	by := s.body.start - a.start
	moved.span, moved.list = span{a.start + by, a.end + by}, shift(a.list, by)
	block, ok := r.block(&moved, list[0].first-1)
	if !ok {
		return nil
	}
	if a.steady && a.often == oftenOpen {
		return &cycle{list: block}
	}
	m := count(block)
	rows, again := rowsText(list), rowsText(block)
	fit := false
	switch t := min(a.n, tooWide); a.often {
	case oftenOpen:
		fit = n%m == 0
	case oftenFurther:
		fit = n == t*m
	case oftenTotal, oftenUnsaid:
		fit = n == t*m || n == (t-1)*m
	case oftenRows, oftenRowsSaid:
		fit = a.n == n || a.n == list[len(list)-1].last
	case oftenMoreRows:
		fit = a.n == n
	case oftenLength:
		r.add(s.body, "leave one of them out", "%s have numbers, and a length to be worked to: only one can hold", rows)
		return nil
	}
	if a.from || a.forms {
		fit = false
	}
	switch {
	case fit:
	case a.often == oftenOpen:
		r.add(s.body, hintRows(n, m), "%s: %s, no whole number of repeats of %s", rows, many(n, "row"), again)
		return nil
	default:
		r.add(s.body, hintRows(n, m), "%s: %s, but repeated as often as is said %s give another number", rows, many(n, "row"), again)
		return nil
	}
	return &cycle{list: block}
}

// hintRows says which counts of rows are whole repeats.
func hintRows(n, m int) string {
	if n < m {
		return fmt.Sprintf("one repeat is %s", many(m, "row"))
	}
	return fmt.Sprintf("%d times are %s, %d times %d", n/m, many(n/m*m, "row"), n/m+1, (n/m+1)*m)
}

// shift moves the places of ranges.
func shift(list []rowRange, by int) []rowRange {
	moved := make([]rowRange, len(list))
	for i, of := range list {
		moved[i] = rowRange{span{of.start + by, of.end + by}, of.first, of.last}
	}
	return moved
}

// repeat works rows again, as often as a statement says, or keeps it as a directive.
func (r *reader) repeat(s *statement) {
	known := r.contentAt(s.span)
	if known.again == nil {
		r.add(s.span, "write rep rows 1-4 three more times", "which rows are repeated cannot be read")
		return
	}
	if len(known.faults) > 0 {
		r.report(known, s.span)
		return
	}
	a := *known.again
	by := s.start - known.start
	a.span, a.list = span{a.start + by, a.end + by}, shift(a.list, by)
	if a.aside {
		r.unread(span{a.unread.start + by, a.unread.end + by})
	}
	if r.fill(); a.steady && (len(r.slots) == 0 || a.often == oftenOpen || a.often == oftenLength) {
		r.directOpen(s.span, a.text(nil), nil)
		return
	}
	if len(r.slots) == 0 {
		// A directive may stand alone.
		if a.last == 0 {
			r.direct(s.span, a.text(a.list))
		} else {
			r.add(s.span, "", "there is no row before this")
		}
		return
	}
	block, ok := r.block(&a, r.top)
	if !ok || !r.written(block, s.span) {
		return
	}
	r.copies(&a, block, s)
}

// written refuses rows that are not there. That those between two are there is seen later (numbers without a row).
func (r *reader) written(block []rowRange, at span) bool {
	for _, of := range block {
		for _, n := range [...]int{of.first, of.last} {
			if _, ok := r.index[n]; !ok {
				r.add(at, "", "row %d is not written before this", n)
				return false
			}
		}
	}
	return true
}

// copies adds the rows of a block as often as is said.
func (r *reader) copies(a *again, block []rowRange, s *statement) {
	at := s.span
	m := count(block)
	more := 0
	switch a.often {
	case oftenOpen, oftenLength:
		r.directOpen(at, a.text(block), block)
		return
	case oftenFurther:
		more = a.n * m
	case oftenTotal:
		more = (a.n - 1) * m
	case oftenUnsaid:
		more = a.n * m
		r.warn(at, "read as %s more, %d in all", many(a.n, "time"), a.n+1)
	case oftenRows:
		more = a.n - r.top
	case oftenMoreRows:
		more = a.n
	case oftenRowsSaid:
		if more = a.n; !a.steady {
			r.warn(at, "read as %s more", many(a.n, "row"))
		}
	}
	switch {
	case a.n < 1:
		r.add(at, "counts begin at 1", "the count is 0")
		return
	case more < 0:
		r.add(at, "", "there are %d rows already", r.top)
		return
	case r.top+more > pattern.MaxRows:
		r.add(at, "", "a text has at most %d rows", pattern.MaxRows)
		return
	case more%m != 0:
		r.warn(at, "ends in the middle of the repeat: %s of %d", many(more%m, "row"), m)
	}
	from := &cycle{list: block}
	for range more {
		if !r.define(slot{number: r.top + 1, ref: from.next(), from: s}) {
			return
		}
	}
	r.copied = r.top
	for i := range r.fillers {
		f := &r.fillers[i]
		f.number += max(0, r.top+1-f.number+f.step-1) / f.step * f.step
	}
}

// text is a repeat as a directive.
func (a *again) text(block []rowRange) string {
	if a.from && a.often == oftenOpen {
		return fmt.Sprintf("repeat from row %d", a.list[0].first)
	}
	text := "continue in pattern"
	if !a.steady {
		text = "repeat " + rowsText(block)
	}
	switch a.often {
	case oftenFurther:
		return text + " " + many(a.n, "more time")
	case oftenTotal:
		return fmt.Sprintf("%s %s in all", text, many(a.n, "time"))
	case oftenUnsaid:
		return text + " " + many(a.n, "time")
	case oftenRows:
		return fmt.Sprintf("%s until %s", text, many(a.n, "row"))
	case oftenMoreRows, oftenRowsSaid:
		return fmt.Sprintf("%s for %s", text, many(a.n, "row"))
	case oftenLength:
		return text + " until length " + a.length
	case oftenOpen:
	}
	return text
}

// resolve finds for every row the one whose instructions it has, and gives a repeated
// one its side: a repeat of an odd number of rows has its rows on the other side the second time.
func (r *reader) resolve() {
	for i := range r.slots {
		if !r.root(i) {
			return
		}
	}
}

// root follows the references of a row to their end.
func (r *reader) root(i int) bool {
	var path []int
	for r.slots[i].root == 0 && r.slots[i].content == nil {
		r.work++
		s := &r.slots[i]
		s.root = -1
		path = append(path, i)
		next, ok := r.index[s.ref]
		switch {
		case !ok:
			r.add(s.at(), "", "row %d is not defined", s.ref)
			return false
		case next == i:
			r.add(s.from.body, "write out its instructions", "row %d refers to itself", s.number)
			return false
		case r.slots[next].root < 0:
			r.add(s.from.body, "write out the instructions of one of them", "row %d and row %d refer to each other", s.number, s.ref)
			return false
		}
		i = next
	}
	end := &r.slots[i]
	root := end.root
	if end.content != nil {
		root = i + 1
		end.root = root
	}
	for k := len(path) - 1; k >= 0; k-- {
		s := &r.slots[path[k]]
		s.root = root
		if of := &r.slots[root-1]; s.side == SideUnsaid && s.from.kind == stmtRepeat && (s.number-of.number)%2 == 0 {
			s.side = of.side
		}
	}
	return true
}
