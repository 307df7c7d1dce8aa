package track

import (
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/mend"
)

// Part is a stretch of pegs that take one stitch, as a person is told it.
type Part struct {
	Stitch pattern.Stitch
	Yarn   pattern.Yarn
	Count  int
	First  int // the peg it starts on, as the maker numbers them
	Last   int // the peg it ends on
	// Border is how many of its last pegs lie in the border, where a run goes on into
	// one; 0 otherwise.
	Border int
	Whole  bool // it is a whole row
}

// Loops is what is cast on or bound off in one go, to the end of the run: to a marked
// peg, or to the end. It is false while rows are worked and when all is done.
func (t *Tracker) Loops() (Part, bool) {
	if t.at.Phase != pattern.CastingOn && t.at.Phase != pattern.BindingOff {
		return Part{}, false
	}
	last := t.at
	last.Done = t.runEnd() - 1
	return Part{
		Count: last.Done - t.at.Done + 1,
		First: t.order.Peg(t.order.ColumnAt(t.at)), Last: t.order.Peg(t.order.ColumnAt(last)),
	}, true
}

// Now is what the peg in hand takes, to the end of its run. It is false unless rows
// are being worked.
func (t *Tracker) Now() (Part, bool) {
	if t.at.Phase != pattern.Working {
		return Part{}, false
	}
	return t.part(t.order.RunAt(t.at.Row, t.at.Done), t.at.Done), true
}

// Then is the run after the one in hand, in the same row. It is false where the row
// ends first.
func (t *Tracker) Then() (Part, bool) {
	if t.at.Phase != pattern.Working {
		return Part{}, false
	}
	next := t.order.RunAt(t.at.Row, t.at.Done).To
	if next >= t.order.Pattern.Of(t.at) {
		return Part{}, false
	}
	return t.part(t.order.RunAt(t.at.Row, next), next), true
}

// part tells of a run from stitch number from on.
func (t *Tracker) part(run pattern.Run, from int) Part {
	o, row := t.order, t.at.Row
	of := o.Pattern.Of(t.at)
	p := Part{
		Stitch: run.Stitch, Yarn: run.Yarn, Count: run.To - from,
		First: o.Peg(o.Column(row, from)), Last: o.Peg(o.Column(row, run.To-1)),
		Whole: from == 0 && run.To == of,
	}
	near, far := t.sides()
	if run.Len() < of && from >= near && from < far && run.To > far {
		p.Border = run.To - far
	}
	return p
}

// sides are, in a row with side borders, how many stitches are done when the first
// side ends and when the second begins. In any other row nothing lies outside them.
func (t *Tracker) sides() (near, far int) {
	p := t.order.Pattern
	of := p.Of(t.at)
	z := p.ZoneAt(t.at.Row)
	if z.Border || z.Sides == 0 {
		return 0, of
	}
	if t.order.Direction(t.at.Row) == pattern.ToRight {
		return t.order.DoneAt(t.at.Row, z.Sides), t.order.DoneAt(t.at.Row, p.Pegs-z.Sides)
	}
	return t.order.DoneAt(t.at.Row, p.Pegs-z.Sides-1), t.order.DoneAt(t.at.Row, z.Sides-1)
}

// WarningKind says what a warning is of. A higher one is more urgent.
type WarningKind uint8

// The kinds of warning.
const (
	ZoneBegins   WarningKind = iota + 1 // this row is the first of a border zone
	ZoneShows                           // this row is the first that the zone below would not have had
	ZoneNext                            // a new zone, or the bind-off, comes after this row
	BorderSoon                          // the border begins some pegs on
	BorderAtHand                        // the peg in hand lies in the side border
)

// Warning is something to know before it is too late.
type Warning struct {
	Kind WarningKind
	In   int  // BorderSoon: how many pegs are worked before it
	Part Part // BorderSoon, BorderAtHand: what the border takes
	Last bool // BorderAtHand: the row ends with it
	Zone int  // ZoneBegins, ZoneShows, ZoneNext: the zone, or the number of zones for the bind-off
	Row  int  // ZoneBegins: the row that is the first to show it, 0 where this one does
}

// Warning is the most urgent thing to know at the place; false where there is none.
// Borders are warned about only where the stitch changes.
func (t *Tracker) Warning() (Warning, bool) {
	if t.at.Phase != pattern.Working {
		return Warning{}, false
	}
	if w, ok := t.BorderWarning(); ok {
		return w, true
	}
	return t.ZoneWarning()
}

// ZoneWarning tells of zones: the one that comes after this row, and the first rows of
// a border. A border may begin with a row like any other of the field: then the first
// one that differs is told too.
func (t *Tracker) ZoneWarning() (Warning, bool) {
	if t.at.Phase != pattern.Working {
		return Warning{}, false
	}
	row := t.at.Row
	zone := t.order.Pattern.ZoneIndex(row)
	z := t.order.Pattern.Zones[zone]
	if row == z.Last {
		return Warning{Kind: ZoneNext, Zone: zone + 1}, true
	}
	if zone == 0 || !z.Border {
		return Warning{}, false
	}
	shows := t.firstUnlike(zone)
	switch {
	case row == z.First && shows > row:
		return Warning{Kind: ZoneBegins, Zone: zone, Row: shows}, true
	case row == z.First:
		return Warning{Kind: ZoneBegins, Zone: zone}, true
	case row == shows:
		return Warning{Kind: ZoneShows, Zone: zone}, true
	}
	return Warning{}, false
}

// firstUnlike is the first row of a zone that the zone below would not have had, had it
// gone on; 0 where there is none or it can't be told.
func (t *Tracker) firstUnlike(zone int) int {
	p := t.order.Pattern
	z, below := &p.Zones[zone], &p.Zones[zone-1]
	repeat := Repeat(below)
	if repeat > below.Rows() {
		return 0
	}
	for row := z.First; row <= z.Last; row++ {
		like := below.Last - repeat + 1 + (row-z.First)%repeat // rows that are equal are kept once
		if p.Grid.Row(row) != p.Grid.Row(like) {
			return row
		}
	}
	return 0
}

// Repeat is after how many rows all strips of a zone begin anew together.
func Repeat(z *pattern.Zone) int {
	all := 1
	for _, s := range z.Strips {
		if s.Repeat < 1 {
			continue
		}
		a, b := all, s.Repeat
		for b > 0 {
			a, b = b, a%b
		}
		if all = all / a * s.Repeat; all > z.Rows() {
			return all // it never does
		}
	}
	return all
}

// BorderWarning tells of the side border: that it comes, or is at hand.
func (t *Tracker) BorderWarning() (Warning, bool) {
	if t.at.Phase != pattern.Working {
		return Warning{}, false
	}
	near, far := t.sides()
	of, done := t.order.Pattern.Of(t.at), t.at.Done
	switch {
	case far < of && done >= far && t.changesAt(far):
		return Warning{Kind: BorderAtHand, Part: t.borderPart(done, of), Last: true}, true
	case near > 0 && done < near && t.changesAt(near):
		return Warning{Kind: BorderAtHand, Part: t.borderPart(done, near)}, true
	case far < of && done < far && far-done <= t.lead && t.changesAt(far):
		return Warning{Kind: BorderSoon, In: far - done, Part: t.borderPart(far, of)}, true
	}
	return Warning{}, false
}

// Field is what the field begins with, while the peg in hand lies in the border before
// it.
func (t *Tracker) Field() (Part, bool) {
	if t.at.Phase != pattern.Working {
		return Part{}, false
	}
	near, far := t.sides()
	if t.at.Done >= near || near >= far {
		return Part{}, false
	}
	run := t.order.RunAt(t.at.Row, near)
	run.To = min(run.To, far)
	return t.part(run, near), true
}

// changesAt tells whether stitch number done takes another stitch than the one
// before it.
func (t *Tracker) changesAt(done int) bool {
	return t.order.RunAt(t.at.Row, done).From == done
}

// borderPart is the first run of the border from one stitch on, cut at its end.
func (t *Tracker) borderPart(from, end int) Part {
	run := t.order.RunAt(t.at.Row, from)
	run.To = min(run.To, end)
	return t.part(run, from)
}

// Turn is what happened at the end of the row before, told while nothing of the next
// has been worked.
type Turn struct {
	RowDone int          // 0 is the cast-on
	Yarn    pattern.Side // where the working yarn hangs; panels only
	AtTail  bool         // that is the side of the cast-on's tail
	Runs    pattern.Direction
}

// Turn tells of the row just completed, or of the cast-on. It is false in the middle of
// a row.
func (t *Tracker) Turn() (Turn, bool) {
	done := t.order.RowsDone(t.at)
	if t.at.Done > 0 || t.at.Phase == pattern.CastingOn || t.at.Phase == pattern.Finishing {
		return Turn{}, false
	}
	yarn := t.order.YarnSide(done)
	return Turn{RowDone: done, Yarn: yarn, AtTail: yarn == t.order.TailSide(), Runs: t.Direction()}, true
}

// Check is something to count before going on.
type Check struct {
	Loops   int // after the cast-on: all of them
	Markers int // of those, how many carry a marker
	Beyond  int // loops after the last marker, in order of the cast-on
	Ridges  int // after every tenth row: what the edge shows
	BindOff bool
	Metres  float64 // before the bind-off: the yarn that it takes; 0 where that can't be told
	Below   int     // and the ridges of the borders at both ends; 0 where there are none to count
	Above   int
}

// checkEvery is after how many rows a count of the ridges is due.
const checkEvery = 10

// Check is what to count in this row: the loops when the cast-on is done, the ridges
// of the edge after every tenth row, which fingers can do where eyes cannot.
func (t *Tracker) Check() (Check, bool) {
	p := t.order.Pattern
	switch {
	case t.at.Phase == pattern.BindingOff:
		c := Check{BindOff: true, Metres: t.bindOffMetres()}
		if b, ok := mend.BordersAt(t.order, t.at); ok && b.Ridges {
			c.Below, c.Above = b.BottomRidges, b.TopRidges
		}
		return c, true
	case t.at.Phase != pattern.Working:
		return Check{}, false
	}
	done := t.at.Row - 1
	if done > 0 {
		c := Check{Ridges: p.Ridges(done)}
		return c, done%checkEvery == 0 && c.Ridges > 0 && p.HasRidges(p.ZoneIndex(done))
	}
	c := Check{Loops: p.CastOnLoops(), Markers: len(p.Markers), Beyond: p.CastOnLoops()}
	first := pattern.Start()
	for first.Done = c.Loops - 1; first.Done >= 0; first.Done-- {
		if p.Marked(t.order.ColumnAt(first)) {
			c.Beyond = c.Loops - 1 - first.Done
			break
		}
	}
	return c, true
}

// bindOffMetres is the likely yarn of the bind-off, reckoned once.
func (t *Tracker) bindOffMetres() float64 {
	if t.bindOff == nil {
		sum := 0.0
		for _, n := range fit.YarnOf(t.order.Pattern) {
			sum += n.BindOff.Metres.Likely
		}
		t.bindOff = &sum
	}
	return *t.bindOff
}

// Count is how much of something is done.
type Count struct{ Done, Of int }

// Progress counts the stitches of the whole work: cast-on, rows and bind-off.
func (t *Tracker) Progress() Count { return Progress(t.order.Pattern, t.at) }

// Progress counts the stitches of the whole work at a place.
func Progress(p *pattern.Pattern, at pattern.Place) Count {
	all := p.StitchesBefore(p.Grid.Rows() + 1)
	c := Count{Done: at.Done, Of: p.CastOnLoops() + all + p.BindOffLoops()}
	switch at.Phase {
	case pattern.Working:
		c.Done += p.CastOnLoops() + p.StitchesBefore(at.Row)
	case pattern.BindingOff:
		c.Done += p.CastOnLoops() + all
	case pattern.Finishing:
		c.Done = c.Of
	}
	return c
}

// RowProgress is Progress as of the start of the row in hand, or of the cast-on or the
// bind-off: it changes only where a row ends.
func (t *Tracker) RowProgress() Count {
	c := t.Progress()
	c.Done -= t.at.Done
	return c
}

// Percent is the progress in whole percent; it is 100 only when all is done.
func (c Count) Percent() int { return c.Done * 100 / max(1, c.Of) }

// Ridges counts the garter ridges of the whole piece. Of is 0 where none can be
// counted.
func (t *Tracker) Ridges() Count {
	p := t.order.Pattern
	return Count{p.Ridges(t.order.RowsDone(t.at)), p.Ridges(p.Grid.Rows())}
}

// InZone is the row in hand counted within its zone, and the zone's rows. It is
// false unless rows are being worked.
func (t *Tracker) InZone() (*pattern.Zone, Count, bool) {
	if t.at.Phase != pattern.Working {
		return nil, Count{}, false
	}
	z := t.order.Pattern.ZoneAt(t.at.Row)
	return z, Count{t.at.Row - z.First + 1, z.Rows()}, true
}

// Place within a repeat: row Row of repeat Number.
type InRepeat struct{ Row, Number int }

// InRepeat tells where in the zone's repeat the row in hand is. It is false where the
// zone's rows do not repeat, or every other one does.
func (t *Tracker) InRepeat() (InRepeat, bool) {
	z, in, ok := t.InZone()
	if !ok {
		return InRepeat{}, false
	}
	n := Repeat(z)
	if n < leastRepeat || n >= z.Rows() {
		return InRepeat{}, false
	}
	return InRepeat{Row: (in.Done-1)%n + 1, Number: (in.Done-1)/n + 1}, true
}

// MarkedPegs are the pegs to mark before the cast-on, in the maker's numbers,
// ascending.
func (t *Tracker) MarkedPegs() []int {
	var pegs []int
	for _, col := range t.order.Pattern.Markers {
		pegs = append(pegs, t.order.Peg(col))
	}
	slices.Sort(pegs)
	return pegs
}
