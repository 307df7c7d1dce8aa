package find

import (
	"slices"

	"bypeg/pattern"
)

// Which question to ask. A person pays for an answer: a look costs 1, a count of n costs
// 1 + n/10, and reading further down a column costs as much as counting there. The question
// is chosen that tells the places left apart at the least cost in the mean: each is followed
// to the end by a rule of thumb, the dearest information last, and the best of them is asked.
// Where the yarn hangs comes first of all, and then the peg it comes from: without them no
// place within a row is known. Who could not tell the one is asked for the other last.

// Question is something to look at or to count.
type Question struct {
	Kind Kind
	Peg  int // its number, where the kind is about one peg
	Deep int // of Look: how many stitches

	Ended bool // of Yarn: it is known to hang at an end, and asked at which
}

// item is a place to be told from others.
type item = Fit

// Limits that keep a question quick to choose in a piece of any size.
const (
	mostItems   = 256     // places looked at; of more, so many spread over them
	mostCells   = 100_000 // stitches of the columns that are read
	fewColumns  = 4
	mostColumns = 36
	deepest     = 4
)

// ask is the next question, if any tells the places apart.
func (r *reader) ask(fits []Fit, e Evidence) (Question, bool) {
	items := spread(fits)
	if len(items) < 2 {
		return Question{}, false
	}
	for _, q := range []Question{{Kind: Yarn}, {Kind: FromPeg}} {
		told := q.Kind == Yarn && slices.ContainsFunc(e.Clues, func(c Clue) bool { return c.Kind == Yarn })
		unseen := q.Kind == FromPeg && passedOver(Question{Kind: Yarn}, e.Skipped)
		if !told && !unseen && !passedOver(q, e.Skipped) && r.needed(q.Kind, fits) {
			return q, true
		}
	}
	t := r.table(items, r.questions(items), e.Skipped)
	q, ok := t.best()
	if peg := (Question{Kind: FromPeg}); !ok && !passedOver(peg, e.Skipped) && r.needed(FromPeg, fits) {
		return peg, true
	}
	q.Ended = q.Kind == Yarn && slices.ContainsFunc(e.Clues, func(c Clue) bool { return c.Kind == Yarn && c.Hangs == AtEnd })
	return q, ok
}

// How often one may pass over a question of a kind until it is asked no more, of any peg: who
// can't count up one column will not count up the next, but looks are soon taken elsewhere.
const (
	mostPassedCounts = 2
	mostPassedLooks  = 6
)

// passedOver tells whether a question is not to be asked of one who passed over others. Where
// a peg's newest stitches can't be told, half as many may be.
func passedOver(q Question, skipped []Question) bool {
	n := 0
	for _, s := range skipped {
		if s.Kind != q.Kind {
			continue
		}
		if n++; s.Peg == q.Peg && (q.Kind != Look || 2*q.Deep > s.Deep) {
			return true
		}
	}
	if q.Kind == Look {
		return n >= mostPassedLooks
	}
	return n >= mostPassedCounts
}

// spread is the places one by one, or some that are spread over them.
func spread(fits []Fit) []item {
	n := 0
	for _, f := range fits {
		n += f.Places()
	}
	step := (n + mostItems - 1) / mostItems
	var items []item
	skip := 0
	for _, f := range fits {
		for ; skip < f.Places(); skip += step {
			items = append(items, item{f.Row, f.From + skip, f.From + skip})
		}
		skip -= f.Places()
	}
	return items
}

// needed tells whether it is not known yet whether a row is under way, or how far in its row
// the work stands.
func (r *reader) needed(k Kind, fits []Fit) bool {
	ended, between := false, false
	for _, f := range fits {
		switch {
		case k == Yarn && f.To == 0: // the end of a row: most fits are
			ended = true
		case k == Yarn || f.To > f.From:
			first, hangs := r.yarnAt(f)
			last, hangsLast := first, hangs
			if f.To > f.From {
				last, hangsLast = r.yarnAt(Fit{f.Row, f.To, f.To})
			}
			ended = ended || hangs != Between
			between = between || hangsLast == Between
			if k == FromPeg && first != last {
				return true
			}
		}
		if k == Yarn && ended && between {
			return true
		}
	}
	return false
}

// questions are all that may be asked: one peg of those whose columns are alike throughout
// stands for all of them.
func (r *reader) questions(items []item) []Question {
	qs := []Question{{Kind: Yarn}, {Kind: LastRow}, {Kind: Ridges}}
	if !countsRidges(r.o.Pattern) {
		qs = qs[:2]
	}
	if hasColours(r.o.Pattern) {
		qs = append(qs, Question{Kind: Colour})
	}
	cols := r.columnsUnlike()
	r.read(cols)
	for _, col := range cols {
		peg := r.o.Peg(col)
		for deep := 1; deep <= deepest; deep++ {
			qs = append(qs, Question{Kind: Look, Peg: peg, Deep: deep})
		}
		qs = append(qs, Question{Kind: Bumps, Peg: peg}, Question{Kind: Alike, Peg: peg})
		if c := r.column(col); len(c.cross) > 0 {
			qs = append(qs, Question{Kind: Crossed, Peg: peg})
		}
	}
	return qs
}

// columnsUnlike are columns no two of which are alike, the outermost of those that are.
func (r *reader) columnsUnlike() []int {
	pegs := r.grid.Pegs()
	marks := make([]uint64, pegs)
	seen := make([]bool, r.grid.Kept())
	for row := 1; row <= r.grid.Rows(); row++ {
		kept := r.grid.KeptAs(row)
		if seen[kept] {
			continue
		}
		seen[kept] = true
		for col, c := range r.grid.Row(row).Cells() {
			marks[col] = (marks[col] ^ uint64(c.Stitch)) * 1099511628211
		}
	}
	var cols []int
	known := map[uint64]bool{}
	for i := range pegs {
		col := i / 2
		if i%2 == 1 {
			col = pegs - 1 - i/2
		}
		if !known[marks[col]] {
			known[marks[col]] = true
			cols = append(cols, col)
		}
	}
	most := min(mostColumns, max(fewColumns, mostCells/r.grid.Rows()))
	if len(cols) <= most {
		return cols
	}
	some := cols[:0]
	for i := range most {
		some = append(some, cols[i*len(cols)/most])
	}
	return some
}

// answer is what a person would say at a place, how much is counted for it, and whether
// it can be said for sure.
func (r *reader) answer(q Question, at item) (says, count int, sure bool) {
	switch q.Kind {
	case Yarn:
		_, hangs := r.yarnAt(at)
		return int(hangs), 0, true
	case FromPeg:
		col, _ := r.yarnAt(at)
		return col, min(col+1, r.grid.Pegs()-col), true
	case LastRow:
		says, sure = r.lastRow(at)
		return says, 0, sure
	case Colour:
		y, sure := r.loopsOf(at)
		return int(y), 0, sure
	case Ridges:
		n := r.o.Pattern.Ridges(r.doneIn(r.o.Pattern.RidgeColumn(), at))
		return n, n, true
	}
	col := r.o.ColumnOfPeg(q.Peg)
	return answerOf(q, r.column(col), r.doneIn(col, at))
}

func answerOf(q Question, c *column, done int) (says, count int, sure bool) {
	if !c.hung(done).looped {
		return 0, 0, false
	}
	switch q.Kind {
	case Look:
		for i := range q.Deep {
			s := c.from(done, i)
			if s == Unsure {
				return 0, 0, false
			}
			says = says*4 + int(s)
			if s == Edge {
				return says, i, true
			}
		}
		return says, q.Deep - 1, true
	case Bumps:
		least, most := c.bumps(done)
		return least, least, least == most
	case Crossed:
		n := c.crossed(done)
		return n, n, true
	}
	seen := c.from(done, 0)
	if seen == Edge || seen == Unsure {
		return 0, 0, seen == Edge
	}
	n := c.alike(done, seen)
	least, most := c.bumps(done)
	return n*2 + int(seen-V), n, least == most
}

// lastRow is how the last row shows at the end of a row; it is not said for sure where the
// row shows both, or has slips.
func (r *reader) lastRow(at item) (says int, sure bool) {
	if at.From > 0 || at.Row == 1 {
		return 0, false
	}
	look := lookOf(r.grid.Row(at.Row - 1))
	return int(look), look != Both
}

// lookOf is whether a whole row was knit or purled.
func lookOf(row *pattern.Row) RowLook {
	vs, bumps := 0, 0
	for _, c := range row.Cells() {
		switch worked(Unsure, c) {
		case V:
			vs++
		case Bump:
			bumps++
		case Unsure:
			if makesNone(c.Stitch) {
				return Both
			}
		}
	}
	switch {
	case bumps == 0 && vs > 0:
		return Knitted
	case vs == 0 && bumps > 0:
		return Purled
	}
	return Both
}
