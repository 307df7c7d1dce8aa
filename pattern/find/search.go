package find

import (
	"cmp"
	"slices"
	"sort"

	"bypeg/pattern"
)

// Fit is places of one row side by side: those with From up to To stitches of it done, both
// counted in order of work. Row is the row to work next or under way; one above the last says
// that all rows are done, and of those From to To pegs are bound off; 0 that From to To loops
// are cast on.
type Fit struct{ Row, From, To int }

// Places is how many places it is.
func (f Fit) Places() int { return f.To - f.From + 1 }

// Place is the first of its places as the piece keeps it.
func (f Fit) Place(p *pattern.Pattern) pattern.Place {
	switch {
	case f.Row == 0:
		return pattern.Place{Phase: pattern.CastingOn, Done: f.From}
	case f.Row > p.Grid.Rows():
		return pattern.Place{Phase: pattern.BindingOff, Done: f.From}
	}
	return pattern.Place{Phase: pattern.Working, Row: f.Row, Done: f.From}
}

// But is a place that agrees with all clues but one.
type But struct {
	Fit  // of one place, the nearest of its row to the clue
	Clue int
	Off  float64 // how far the clue is off: 1 for the other look, side or neighbouring peg, else by how much
}

// Answer is what the evidence comes to.
type Answer struct {
	Fits []Fit // places that agree with all clues, the likeliest first
	But  []But // of rows in which none does: places that agree with all but one of several clues, the likeliest first, at most MostBut
	Two  []Two // only where there is nothing else: places that agree with all clues but two, the likeliest first, at most MostTwo
	Ask  Question
	Asks bool // there is something to ask; else nothing can tell the places apart
}

// Places is how many places agree.
func (a *Answer) Places() int {
	n := 0
	for _, f := range a.Fits {
		n += f.Places()
	}
	return n
}

// Search finds all places at which the fabric shows what the clues say. Clues must be right:
// see Check.
func Search(o pattern.Order, e Evidence) Answer {
	if e.Noted.Phase == pattern.Finishing {
		return Answer{}
	}
	r := newReader(o, e.Heights)
	if a, ok := r.castingOn(e); ok {
		return a
	}
	if a, ok := r.bindingOff(e); ok {
		return a
	}
	l := likelihoodOf(o, e.Noted)
	var but shortlist
	a := Answer{Fits: r.inOrder(r.search(e.Clues, &but, l), l), But: but.likeliest()}
	if len(a.Fits) == 0 && len(a.But) == 0 {
		a.Two = r.butTwo(e, l)
	}
	a.Ask, a.Asks = r.ask(a.Fits, e)
	return a
}

// search finds the places that agree with all clues, lowest row first. Where there is a
// shortlist, rows that have no such place go there with the one that agrees with all but one of
// several clues. A row's first place is a fit of its own: nobody stops within a row without
// need.
func (r *reader) search(clues []Clue, but *shortlist, l likelihood) []Fit {
	var cols []int
	for _, c := range clues {
		if c.Kind.OfPeg() {
			cols = append(cols, r.o.ColumnOfPeg(c.Peg))
		}
	}
	r.read(cols)
	sieves, let := make([][]sieve, len(clues)), make([][]span, len(clues))
	alone := 1 // one clue, and those that refuse nothing
	for i := range clues {
		if sieves[i] = r.sieveOf(&clues[i]); len(sieves[i]) == 0 {
			alone++
		}
	}
	allowed := 0 // how many clues may refuse a whole row
	if but != nil && len(clues) > alone {
		allowed = 1
	}
	var fits []Fit
	var at, spare []span
	var some []Fit
	for row := 1; row <= r.grid.Rows()+1; row++ {
		of := r.whole(row)
		refused, one := 0, 0 // how many clues do, and one of them
		for i := range clues {
			if let[i], spare = through(sieves[i], row, of, let[i], spare); len(let[i]) > 0 {
				continue
			}
			if refused, one = refused+1, i; refused > allowed {
				break
			}
		}
		if refused == 0 {
			at, spare = all(let, -1, of, at, spare)
			if len(fits)+len(at) >= cap(fits) { // as many again as the rows below came to
				fits = slices.Grow(fits, 16+(len(fits)+1)*(r.grid.Rows()+1-row)/row)
			}
			fits = appendFits(fits, row, at)
		}
		if allowed == 0 || refused > 1 || refused == 0 && len(at) > 0 || but.closedTo(l.least(row)) {
			continue
		}
		for i := range clues {
			if refused == 0 || i == one {
				at, spare = all(let, i, of, at, spare)
				some = appendFits(some[:0], row, at)
				but.add(r, &clues[i], i, some, l)
			}
		}
	}
	return fits
}

// all is what all clues but one let through of a row. Both buffers are used, and come back.
func all(let [][]span, but int, of span, at, spare []span) (all, buffer []span) {
	at = append(at[:0], of)
	for i := range let {
		if i == but || len(at) == 0 {
			continue
		}
		spare = spare[:0]
		for _, s := range let[i] {
			spare = overlap(spare, at, s)
		}
		at, spare = spare, at
	}
	return at, spare
}

// through is what all sieves of a clue let through of a row. Both buffers are used, and come
// back.
func through(sieves []sieve, row int, of span, at, spare []span) (let, buffer []span) {
	at = append(at[:0], of)
	for i, lets := range sieves {
		spare = spare[:0]
		for _, s := range lets(row, of) {
			switch {
			case i > 0:
				spare = overlap(spare, at, s)
			case s.from < s.to:
				spare = append(spare, s)
			}
		}
		at, spare = spare, at
	}
	return at, spare
}

// overlap adds the parts of some spans that lie in s.
func overlap(to, spans []span, s span) []span {
	for _, t := range spans {
		if from, end := max(s.from, t.from), min(s.to, t.to); from < end {
			to = append(to, span{from, end})
		}
	}
	return to
}

// appendFits adds the places of a row, its first place apart, and those side by side in one.
func appendFits(fits []Fit, row int, spans []span) []Fit {
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	for _, s := range spans {
		if s.from == 0 {
			fits = append(fits, Fit{row, 0, 0})
			s.from = 1
		}
		if s.from == s.to {
			continue
		}
		if n := len(fits); n > 0 && fits[n-1].Row == row && fits[n-1].To == s.from-1 && s.from > 1 {
			fits[n-1].To = s.to - 1
			continue
		}
		fits = append(fits, Fit{row, s.from, s.to - 1})
	}
	return fits
}

// How many rows from the notes make up for another doubt: a person rather stops at the end of
// a row than within one, rather forgets to note rows than notes some that were not worked, and
// is rarely wrong about what lies in the hand.
const (
	midRow   = 2 // that the work stands within a row
	unworked = 2 // that a row was noted and not worked, to one that was worked and not noted
	offByOne = 2 // that a look is wrong, or a count by one
)

// likelihood is where the notes have the work: so many rows worked. Without notes all rows
// are alike.
type likelihood struct {
	rows  float64
	noted bool
}

func likelihoodOf(o pattern.Order, noted pattern.Place) likelihood {
	if noted == pattern.Start() || !o.Pattern.Holds(noted) {
		return likelihood{}
	}
	l := likelihood{rows: float64(o.RowsDone(noted)), noted: true}
	if noted.Phase == pattern.Working {
		l.rows += float64(noted.Done) / float64(o.Pattern.Of(noted))
	}
	return l
}

// unlikely is how unlikely the first place of a fit is, in rows.
func (l likelihood) unlikely(r *reader, f Fit) float64 {
	x, worked := 0.0, r.worked(f)
	if f.From > 0 {
		x = midRow
	}
	switch {
	case !l.noted:
		return x
	case worked < l.rows:
		return x + unworked*(l.rows-worked)
	}
	return x + worked - l.rows
}

// least is how unlikely the likeliest place of a row can be at the least.
func (l likelihood) least(row int) float64 {
	switch worked := float64(row); {
	case !l.noted:
		return 0
	case worked < l.rows:
		return unworked * (l.rows - worked)
	default:
		return max(0, worked-1-l.rows)
	}
}

// worked is how many rows are worked at the first place of a fit, with the part of the row
// under way.
func (r *reader) worked(f Fit) float64 {
	if f.From == 0 || f.Row == 0 {
		return float64(max(0, f.Row-1))
	}
	return float64(f.Row-1) + float64(f.From)/float64(r.grid.Row(f.Row).Stitches())
}

// inOrder puts fits, lowest row first, into the order of likelihood. Going away from the notes
// up or down, at the ends of rows or within them, places grow less likely: so four orders are
// merged.
func (r *reader) inOrder(fits []Fit, l likelihood) []Fit {
	above := 0 // the first that is not below the notes; all that follow are not either
	if l.noted {
		above = sort.Search(len(fits), func(i int) bool { return r.worked(fits[i]) >= l.rows })
	}
	var ways [4]way
	for i, within := range []bool{false, true} {
		ways[i] = way{at: above - 1, by: 1, end: len(fits), within: within}
		ways[2+i] = way{at: above, by: -1, end: -1, within: within}
	}
	for i := range ways {
		ways[i].next(r, fits, l)
	}
	sorted := make([]Fit, 0, len(fits))
	for range fits {
		w := &ways[0]
		for i := range ways {
			if ways[i].at != ways[i].end && (w.at == w.end || ways[i].unlikely < w.unlikely) {
				w = &ways[i]
			}
		}
		sorted = append(sorted, fits[w.at])
		w.next(r, fits, l)
	}
	return sorted
}

// way goes over the fits at the ends of rows, or over those within rows, away from the notes.
type way struct {
	at, by, end int
	within      bool
	unlikely    float64 // how unlikely the fit is that it is at
}

func (w *way) next(r *reader, fits []Fit, l likelihood) {
	for w.at += w.by; w.at != w.end; w.at += w.by {
		if f := fits[w.at]; f.From > 0 == w.within {
			w.unlikely = l.unlikely(r, f)
			return
		}
	}
}
