package rowtext

import "bypeg/pattern"

// Numbering gives every row its number and where its instructions stand: in a statement, or in another row. Nothing
// is expanded here but row numbers, of which there are never more than pattern.MaxRows.

// slot is one row of the text.
type slot struct {
	number  int
	ref     int        // the number of the row that it is worked as, where content is nil
	root    int        // 1 and the index of the slot whose content it has; 0 not yet known, -1 being looked for
	from    *statement // that it stands in, or that repeats it
	content *content
	side    Side
	said    bool // it is one of "all even rows"
}

// at is where the row gets its number.
func (s *slot) at() span {
	if s.from.kind == stmtRow || s.from.kind == stmtRows {
		return s.from.head.span
	}
	return s.from.span
}

// filler is a header with "all even rows", which rows written later show the end of.
type filler struct {
	slot
	step int
	last bool // one more follows the last row written
}

// numbers is the rows of a text by their numbers.
type numbers struct {
	slots   []slot
	index   map[int]int // into slots
	top     int         // the highest number
	low     int         // the lowest
	fillers []filler
	skips   map[int]int // behind a row, so many that a directive tells of
	all     *statement  // "all rows"
	copied  int         // the highest number after the last repeat of rows
	known   int         // how often "continue in pattern" was said
}

// number goes through the statements.
func (r *reader) number() {
	r.index, r.skips, r.contents = map[int]int{}, map[int]int{}, map[string]*content{}
	r.oddWrong = r.wrongOdd()
	for i := range r.statements {
		s := &r.statements[i]
		r.work++
		if len(r.list) >= maxErrors {
			return
		}
		switch s.kind {
		case stmtBare:
			s.body = s.span
			r.place(s, []rowRange{r.following(1)})
		case stmtRow, stmtRows:
			r.row(i, s)
		case stmtRepeat:
			r.repeat(s)
		case stmtMultiple:
			r.multipleOf(s)
		case stmtCastOn:
			r.castOnOf(s)
		case stmtBindOff:
			r.direct(s.span, "bind off")
		case stmtNamed:
			r.namedOf(s)
		case stmtRound:
			r.round = true
		}
	}
	r.fill()
	if r.all != nil && len(r.slots) > 1 {
		r.add(r.all.head.span, "give the rows numbers", "all rows are said to be alike, but there are others")
	}
}

// following is the numbers of the next rows that have none.
func (r *reader) following(n int) rowRange {
	next := r.top + 1
	if len(r.slots) == 0 && len(r.fillers) == 0 {
		next = 1
	}
	for _, f := range r.fillers {
		if n == 1 && next >= f.number && (next-f.number)%f.step == 0 {
			next++
		}
	}
	return rowRange{first: next, last: next + n - 1}
}

// row numbers a row with a header.
func (r *reader) row(i int, s *statement) {
	h := s.head
	r.round = r.round || h.round
	list := h.rows
	switch h.kind {
	case headRows:
		if h.lone && !h.every && s.kind == stmtRow {
			r.warn(h.span, "rows, and one number: read as row %d alone", list[0].first)
		}
	case headNext:
		if h.next < 1 || h.next > pattern.MaxRows {
			r.add(h.span, "", "a text has 1 to %d rows", pattern.MaxRows)
			return
		}
		list = []rowRange{r.following(h.next)}
		if h.next == 1 && len(r.slots) == 0 && s.kind == stmtRow && r.oneFollows(i) {
			list = []rowRange{{}}
		}
	case headSetUp:
		list = []rowRange{r.following(1)}
		if len(r.slots) == 0 && r.oneFollows(i) {
			list = []rowRange{{}}
		}
	case headAll:
		r.all = s
		list = []rowRange{r.following(1)}
	case headEvery:
		list = nil
	}
	if s.kind == stmtRows && !r.onlyPunctuation(s) {
		return
	}
	r.place(s, list)
}

// onlyPunctuation refuses what stands behind "K 2 rows" in the same statement.
func (r *reader) onlyPunctuation(s *statement) bool {
	for _, t := range lex(r.text, s.body) {
		if t.kind != tokStop && t.kind != tokBreak && t.kind != tokEnd && !oneOf(t.word, "and", "then") {
			r.add(span{t.start, s.body.end}, "write it on a line of its own", "this cannot be read behind a number of rows")
			return false
		}
	}
	s.body = s.head.span
	return true
}

// oneFollows tells whether the next row with a number, from a statement on, is row 1.
func (r *reader) oneFollows(i int) bool {
	for _, s := range r.statements[i+1:] {
		r.work++
		if s.kind != stmtRow || s.head.kind != headRows {
			if s.kind == stmtRow && s.head.kind != headEvery {
				return false
			}
			continue
		}
		return s.head.rows[0].first == 1
	}
	return false
}

// place numbers rows that share the instructions of a statement.
func (r *reader) place(s *statement, list []rowRange) {
	like := slot{from: s, side: s.head.side}
	if s.body.start == s.body.end {
		r.add(s.head.span, "write what is worked in it, as in Row 3: k3, p2", "the row has no instructions")
		return
	}
	known := r.contentAt(s.body)
	r.report(known, s.body)
	like.content = known
	var from *cycle
	if known.again != nil {
		like.content = nil
		if from = r.settle(known.again, s, list); from == nil {
			return
		}
	}
	for _, of := range list {
		if !r.checkRange(of, s.head.span) {
			return
		}
		for n := of.first; n <= of.last; n++ {
			like.number, like.ref = n, from.next()
			like.side = r.sideAt(s.head, n-list[0].first)
			if !r.define(like) {
				return
			}
		}
	}
	if s.kind == stmtRow && s.head.every {
		r.startFill(s.head, like)
	}
}

// sideAt is the side of the row that is so many behind the first of its header. "Rows 1-4 (RS)" begin with the right
// side; rows of a panel take turns.
func (r *reader) sideAt(h *header, behind int) Side {
	if behind%2 == 0 || h.round || r.options.Form == pattern.Tube {
		return h.side
	}
	switch h.side {
	case RightSide:
		return WrongSide
	case WrongSide:
		return RightSide
	case SideUnsaid:
	}
	return SideUnsaid
}

// checkRange refuses numbers that no row has.
func (r *reader) checkRange(of rowRange, at span) bool {
	if of.start < of.end {
		at = of.span
	}
	switch {
	case of.last < of.first:
		r.add(at, "write the lower number first", "these rows run backwards: from %d to %d", of.first, of.last)
	case of.last > pattern.MaxRows:
		r.add(at, "", "row numbers end at %d", pattern.MaxRows)
	default:
		return true
	}
	return false
}

// define adds a row.
func (r *reader) define(s slot) bool {
	r.work++
	if i, taken := r.index[s.number]; taken {
		if other := &r.slots[i]; (other.said || s.said) && s.content != nil && other.content == s.content {
			return true // said twice, and both times the same
		}
		hint := "give one of them another number"
		if r.slots[i].said || s.said {
			hint = "it is one of the rows that another line speaks of together"
		}
		r.add(s.at(), hint, "row %d is written twice", s.number)
		return false
	}
	if len(r.slots) == 0 || s.number < r.low {
		r.low = s.number
	}
	r.top = max(r.top, s.number)
	r.index[s.number] = len(r.slots)
	r.slots = append(r.slots, s)
	return true
}

// startFill keeps a header with "all even rows" until the rows it stands among are known.
func (r *reader) startFill(h *header, like slot) {
	f := filler{slot: like, step: 2}
	f.said = true
	first := 0
	if h.kind == headRows {
		f.number = h.rows[len(h.rows)-1].last
		first = f.number
	}
	switch {
	case h.what == rowsAlternate || h.kind == headRows && (h.what == rowsRight || h.what == rowsWrong):
		if h.step > 0 {
			f.step = h.step
		}
		f.number = first + f.step
	case h.what == rowsEven, h.what == rowsRight && r.oddWrong, h.what == rowsWrong && !r.oddWrong:
		f.number = first + 2 - first%2
	default:
		f.number = first + 1 + first%2
	}
	f.last = f.number%f.step == 0
	if first > 0 && (h.what == rowsEven || h.what == rowsOdd) && f.number != first+2 {
		r.add(h.span, "name the first of them, or write all even rows on a line of its own", "row %d is none of the rows that it is said to be one of", first)
		return
	}
	if like.content == nil {
		r.add(h.span, "write out the instructions", "many rows cannot be worked as others: it is not clear which")
		return
	}
	if h.until == 0 {
		r.fillers = append(r.fillers, f)
		return
	}
	if h.until < first || h.until > pattern.MaxRows {
		r.add(h.span, "", "row %d cannot be the last of them", h.until)
		return
	}
	for ; f.number <= h.until; f.number += f.step {
		if !r.define(f.slot) {
			return
		}
	}
}

// fill adds the rows of "all even rows" among those written so far, and an even one behind an odd last one.
func (r *reader) fill() {
	top, written := r.top, len(r.slots) > 0
	for i := range r.fillers {
		f := &r.fillers[i]
		if written && f.number < r.low-1 {
			// Numbers may begin at 5: rows before them are not meant.
			f.number += (r.low - 1 - f.number + f.step - 1) / f.step * f.step
			if f.last && f.number < r.low {
				f.number += f.step
			}
		}
		end := top
		if f.last && (top == 0 || top != r.copied) || !written {
			end = max(top+1, f.step)
		}
		if !written && !f.last {
			end = 1
		}
		for ; f.number <= end; f.number += f.step {
			if !r.define(f.slot) {
				return
			}
		}
	}
}

// wrongOdd tells whether odd rows are wrong-side rows, by the first header that says so, else by the options.
func (r *reader) wrongOdd() bool {
	for i := range r.statements {
		r.work++
		if h := r.statements[i].head; h.kind == headRows && h.side != SideUnsaid && len(h.rows) > 0 {
			return (h.rows[0].first%2 != 0) == (h.side == WrongSide)
		}
	}
	return r.options.WrongSide
}
