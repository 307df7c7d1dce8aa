package find

import (
	"cmp"
	"math"
	"slices"

	"bypeg/pattern"
)

// Fit is places of one row side by side: those with From up to To stitches of it done, both
// counted in order of work. Row is the row to work next or under way; one above the last says
// that all rows are done.
type Fit struct{ Row, From, To int }

// Places is how many places it is.
func (f Fit) Places() int { return f.To - f.From + 1 }

// Place is the first of its places as the piece keeps it.
func (f Fit) Place(p *pattern.Pattern) pattern.Place {
	if f.Row > p.Grid.Rows() {
		return pattern.Place{Phase: pattern.BindingOff}
	}
	return pattern.Place{Phase: pattern.Working, Row: f.Row, Done: f.From}
}

// But is a place that agrees with all clues but one.
type But struct {
	Fit  // of one place, the nearest of its row to the clue
	Clue int
	Off  float64 // how far the clue is off: 1 for a look, by how much for a count
}

// Answer is what the evidence comes to.
type Answer struct {
	Fits []Fit // places that agree with all clues, the likeliest first
	But  []But // places that agree with all but one of several clues, the likeliest first
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
	r := newReader(o, e.Heights)
	fits := r.search(e.Clues, -1)
	a := Answer{Fits: fits, But: r.searchBut(e)}
	slices.SortStableFunc(a.Fits, func(f, g Fit) int { return cmp.Compare(unlikely(o, e.Noted, f), unlikely(o, e.Noted, g)) })
	a.Ask, a.Asks = r.ask(a.Fits, e)
	return a
}

// search finds the places that agree with all clues, lowest row first. Where one is refused,
// they disagree with that one and agree with all others. A row's first place is a fit of its
// own: nobody stops within a row without need.
func (r *reader) search(clues []Clue, refused int) []Fit {
	var heed, refuse []sieve
	for i := range clues {
		if i == refused {
			refuse = r.sieveOf(&clues[i])
			continue
		}
		heed = append(heed, r.sieveOf(&clues[i])...)
	}
	var fits []Fit
	var at, spare, own []span
	for row := 1; row <= r.grid.Rows()+1; row++ {
		of := r.whole(row)
		at, spare = through(heed, row, of, at, spare)
		if refused >= 0 && len(at) > 0 {
			own, spare = through(refuse, row, of, own, spare)
			for _, s := range own {
				spare = overlap(spare[:0], at, span{0, s.from})
				spare = overlap(spare, at, span{s.to, of.to})
				at, spare = spare, at
			}
		}
		fits = appendFits(fits, row, at)
	}
	return fits
}

// through is what all sieves let through of a row. Both buffers are used, and come back.
func through(sieves []sieve, row int, of span, at, spare []span) (let, buffer []span) {
	at = append(at[:0], of)
	for _, lets := range sieves {
		if len(at) == 0 {
			break
		}
		spare = spare[:0]
		for _, s := range lets(row, of) {
			spare = overlap(spare, at, s)
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

// How many rows away from the notes a place may be and still be as likely as one nearer by:
// a person rather stops at the end of a row than within one, and rather forgets to note a
// row than notes one too many.
const (
	midRow   = 2
	notAhead = 0.25
)

// unlikely is how unlikely a place is, in rows away from where the notes have the work.
// Without notes all rows are alike.
func unlikely(o pattern.Order, noted pattern.Place, f Fit) float64 {
	x := 0.0
	if f.From > 0 {
		x = midRow
	}
	if noted == pattern.Start() {
		return x
	}
	away := rowsWorked(o, f.Place(o.Pattern)) - rowsWorked(o, noted)
	if away < 0 {
		x += notAhead
	}
	return x + math.Abs(away)
}

// rowsWorked is how many rows are worked at a place, with the part of the row under way.
func rowsWorked(o pattern.Order, at pattern.Place) float64 {
	done := float64(o.RowsDone(at))
	if at.Phase == pattern.Working {
		done += float64(at.Done) / float64(o.Pattern.Of(at))
	}
	return done
}
