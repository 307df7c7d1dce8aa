package fit

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// Yarn that is left. When it runs short the question is how far the field can go so that
// the top border, the row before the bind-off and the bind-off itself are covered. The
// field ends with a whole repeat; so the rows at which it may end are looked at in turn.

// Stock is how much yarn is left, in one of the two.
type Stock struct{ Metres, Grams float64 }

// ParseStock reads how much yarn is left: "18 g", "9.5 m", "20 yd". The error says what to
// write instead.
func ParseStock(text string) (Stock, error) {
	if g, ok := parseGrams(text); ok && strings.ContainsAny(text, "0123456789") {
		return Stock{Grams: g}, nil
	}
	m, ok := parseMetres(text)
	if !ok {
		return Stock{}, fmt.Errorf("%s is no amount of yarn: write it like 18 g, 9.5 m or 20 yd", quote(text))
	}
	return Stock{Metres: m}, nil
}

// Ahead is what lies ahead in a piece, as far as its yarn goes: what each row takes, and
// where the field may end.
type Ahead struct {
	Worked []float64 // what each field row that is done took, the last one first
	Begun  float64   // what the row that is begun has taken so far; 0 where none is
	Field  []float64 // what each field row ahead takes, the next one first
	Ends   []int     // how many of the rows ahead lead to the end of a repeat, ascending; 0 where one ends here
	Back   []int     // how many rows taken back, and with them one that is begun, lead to the end of a repeat, ascending
	Close  float64   // what all takes that comes after the field, the bind-off too
}

// Stop is where to end the field.
type Stop struct {
	Enough bool    // there is yarn for some end
	Begun  bool    // the row that is begun is taken back, and Rows below it
	Rows   int     // field rows still to work up to there; below 0, rows to take back
	Could  int     // field rows that the yarn would reach for, whole repeats or not
	Spare  float64 // what is left over at the end; below 0, what is lacking
}

// sumError is by how much sums of the same figures in another order may differ.
const sumError = 1e-9

// StopWith is where the field must end with so much yarn: as late as the bind-off is
// still covered, and at the end of a repeat. Where there is not even enough to end it here, so
// many rows are to be taken back as bring enough, to the end of a repeat; Enough is false
// where none do.
func (a Ahead) StopWith(stock float64) Stop {
	rest := stock - a.Close
	s := Stop{Spare: rest - a.toFirstEnd()}
	used, next := 0.0, 0
	for n := 0; n <= len(a.Field) && used <= rest+sumError; n++ {
		s.Could = n
		if next < len(a.Ends) && a.Ends[next] == n {
			s.Enough, s.Rows, s.Spare = true, n, rest-used
			next++
		}
		if n < len(a.Field) {
			used += a.Field[n]
		}
	}
	if s.Enough {
		return s
	}
	gained, n := a.Begun, 0
	for _, back := range a.Back {
		for ; n < back && n < len(a.Worked); n++ {
			gained += a.Worked[n]
		}
		if back <= len(a.Worked) && rest+gained >= 0 {
			return Stop{Enough: true, Begun: a.Begun > 0, Rows: -back, Spare: rest + gained}
		}
	}
	return s
}

// toFirstEnd is what the rows take that must be worked before the field can end.
func (a Ahead) toFirstEnd() float64 {
	sum := 0.0
	if len(a.Ends) > 0 {
		for _, cost := range a.Field[:a.Ends[0]] {
			sum += cost
		}
	}
	return sum
}

// Left is what can still be made of the yarn that is left.
type Left struct {
	Unit     string // "m" or "g"
	Stock    float64
	Cautious Stop           // by the high figures: safe
	Likely   Stop           // by the likely ones
	Close    Range[float64] // what comes after the field takes so much, the bind-off too
	Row      Range[float64] // the field row that comes next takes so much, or the one before it
	Repeat   int            // rows by which the field grows: whole repeats, and an even number beside garter
	Past     bool           // the field is done and the closing border begun: only taking back would help
	Done     int            // rows that are done
	Before   int            // rows that lie before the field and are still to be worked
	Planned  int            // the last row of the field as the pattern has it
	Beside   bool           // no row of the field takes the yarn: how long it is changes nothing
}

// StopRow is the last row of the field by the cautious answer, and whether there is one.
func (l *Left) StopRow() (row int, ok bool) {
	return l.Done + l.Cautious.Rows, l.Cautious.Enough
}

// mostAhead is how many rows beyond the planned ones are looked at.
const mostAhead = 2000

// LeftOf is how far a piece can still go from a place where so much of one of its yarns is
// left. The error says what is missing to know it.
func LeftOf(o pattern.Order, at pattern.Place, yarn pattern.Yarn, stock Stock) (*Left, error) {
	a := &looking{spinner: newSpinner(o.Pattern), order: o, at: at, yarn: yarn, unit: "m"}
	l := &Left{Stock: stock.Metres}
	if stock.Grams > 0 {
		a.unit, l.Stock = "g", stock.Grams
	}
	l.Unit = a.unit
	if err := a.settle(); err != nil {
		return nil, err
	}
	l.Repeat, l.Done, l.Past, l.Planned, l.Beside = a.step, a.done, a.past, a.fieldEnd, a.beside
	low, likely, high := a.ahead(lowOf), a.ahead(likelyOf), a.ahead(highOf)
	l.Close = Range[float64]{low.Close, likely.Close, high.Close}
	l.Before = max(0, a.fieldStart-1-a.done)
	next := min(max(a.done+1, a.fieldStart), a.fieldEnd)
	l.Row = a.cost(next)
	l.Likely, l.Cautious = likely.StopWith(l.Stock), high.StopWith(l.Stock)
	return l, nil
}

func lowOf(r Range[float64]) float64    { return r.Low }
func likelyOf(r Range[float64]) float64 { return r.Likely }
func highOf(r Range[float64]) float64   { return r.High }

// looking is a look at what lies ahead in a piece.
type looking struct {
	*spinner
	order pattern.Order
	at    pattern.Place
	yarn  pattern.Yarn
	unit  string

	done                 int // rows
	fieldStart, fieldEnd int // the first and the last row of all fields
	step                 int // rows by which the last field grows
	past                 bool
	beside               bool // no row of the field takes the yarn
}

func (a *looking) settle() error {
	p := a.p
	a.done = a.order.RowsDone(a.at)
	for i := range p.Zones {
		if p.Zones[i].Border {
			continue
		}
		if a.fieldStart == 0 {
			a.fieldStart = p.Zones[i].First
		}
		a.fieldEnd, a.step = p.Zones[i].Last, stepOf(&p.Zones[i])
	}
	switch {
	case a.at.Phase == pattern.Finishing:
		return fmt.Errorf("the piece is off the loom: nothing is left to be worked")
	case a.fieldEnd == 0:
		return fmt.Errorf("the pattern is border all over: it has no field that could be longer or shorter")
	case !a.anyCost(1, a.p.Grid.Rows()):
		return a.unknown()
	}
	a.past = a.done > a.fieldEnd || a.done == a.fieldEnd && a.at.Done > 0
	a.beside = !a.anyCost(a.fieldStart, a.fieldEnd)
	return nil
}

// anyCost tells whether anything is known of what the yarn takes in these rows.
func (a *looking) anyCost(first, last int) bool {
	for row := first; row <= last; row++ {
		if a.cost(row).Known() {
			return true
		}
	}
	return false
}

// YarnsWorked are the yarns that a pattern's stitches are worked in, ascending.
func YarnsWorked(p *pattern.Pattern) []pattern.Yarn {
	worked := make([]bool, len(p.Yarns))
	seen := map[*pattern.Row]bool{}
	for row := range p.Grid.Rows() {
		r := p.Grid.Row(row + 1)
		if seen[r] {
			continue
		}
		seen[r] = true
		for _, c := range r.Cells() {
			if c.Stitch != pattern.NoStitch && int(c.Yarn) < len(worked) {
				worked[c.Yarn] = true
			}
		}
	}
	var all []pattern.Yarn
	for y, is := range worked {
		if is {
			all = append(all, pattern.Yarn(y))
		}
	}
	return all
}

func (a *looking) unknown() error {
	if worked := YarnsWorked(a.p); !slices.Contains(worked, a.yarn) {
		var names []string
		for _, y := range worked {
			names = append(names, safetext.Clean(a.p.Yarns[y].Called()))
		}
		return fmt.Errorf("%s is worked nowhere in the pattern: say of which yarn so much is left, of %s", safetext.Clean(a.p.Yarns[a.yarn].Called()), strings.Join(names, " or of "))
	}
	for _, c := range a.p.Grid.Row(a.fieldStart).Cells() {
		if c.Yarn == a.yarn && a.unit == "g" {
			return fmt.Errorf("nobody knows how heavy the yarn is: write metres and grams of a ball under [yarn], or weigh a swatch and write it under [swatch]")
		}
	}
	if a.p.Gauge.Stitches <= 0 && a.p.Loom.SpacingMM <= 0 {
		return fmt.Errorf("nobody knows how much yarn a row takes: write stitches, rows and over under [gauge]")
	}
	return fmt.Errorf("nobody knows what %s takes: write metres and grams of a ball under its [yarns.NAME]", safetext.Clean(a.p.Yarns[a.yarn].Called()))
}

// stepOf is by how many rows a field grows: its longest repeat, and an even number where
// sides run beside it, so that their ridges stay whole.
func stepOf(z *pattern.Zone) int {
	step := 1
	for _, s := range z.Strips {
		if !s.Side {
			step = max(step, s.Repeat)
		}
	}
	if step%2 == 1 && z.Rows()%2 == 0 && z.Sides > 0 {
		step *= 2
	}
	return step
}

// cost is what a row takes, be it beyond the last field as its repeats go on.
func (a *looking) cost(row int) Range[float64] {
	if row > a.fieldEnd && a.done <= a.fieldEnd && !a.past {
		z := a.p.ZoneAt(a.fieldEnd)
		period := min(a.step, z.Rows())
		row = z.Last - period + 1 + (row-a.fieldEnd-1)%period
	}
	return a.in(a.row(a.p.ZoneIndex(row), row, a.yarn))
}

func (a *looking) in(amount Amount) Range[float64] {
	if a.unit == "g" {
		return amount.Grams
	}
	return amount.Metres
}

// closing is what all rows behind the field and the bind-off take; past the field, what is
// left of them.
func (a *looking) closing() Range[float64] {
	sum := a.in(a.bindOff(a.yarn))
	if a.at.Phase == pattern.BindingOff {
		return sum.by(1 - float64(a.at.Done)/float64(a.p.BindOffLoops()))
	}
	for row := max(a.fieldEnd, a.done) + 1; row <= a.p.Grid.Rows(); row++ {
		cost := a.in(a.row(a.p.ZoneIndex(row), row, a.yarn))
		if row == a.done+1 {
			cost = cost.by(a.unworked(row))
		}
		sum = sum.plus(cost)
	}
	return sum
}

// unworked is what part of the yarn's stitches in the row in hand is still to be worked: all
// of them may lie ahead though the row is half done.
func (a *looking) unworked(row int) float64 {
	cells := a.p.Grid.Row(row).Cells()
	all, ahead := 0, 0
	for done := range a.p.Grid.Row(row).Stitches() {
		if cells[a.order.Column(row, done)].Yarn != a.yarn {
			continue
		}
		if all++; done >= a.at.Done {
			ahead++
		}
	}
	return float64(ahead) / float64(max(1, all))
}

// ahead is what lies ahead, by the low, the likely or the high figures.
func (a *looking) ahead(of func(Range[float64]) float64) Ahead {
	out := Ahead{Close: of(a.closing())}
	if a.past {
		out.Ends = []int{0}
		return out
	}
	begun := a.at.Phase == pattern.Working && a.at.Done > 0
	if a.at.Phase == pattern.CastingOn {
		out.Close += of(a.in(a.castOn(a.yarn))) * (1 - float64(a.at.Done)/float64(a.p.CastOnLoops()))
	}
	more := mostAhead
	if a.beside {
		more = 0
	}
	for row := a.done + 1; row <= max(a.fieldEnd, a.done)+more; row++ {
		cost := of(a.cost(row))
		if row == a.done+1 && begun {
			out.Begun = cost * (1 - a.unworked(row))
			cost -= out.Begun
		}
		out.Field = append(out.Field, cost)
	}
	for n := range len(out.Field) + 1 {
		if (n > 0 || !begun) && a.endsAt(a.done+n) {
			out.Ends = append(out.Ends, n)
		}
	}
	for row := a.done; row >= a.fieldStart; row-- {
		if a.endsAt(row) {
			out.Back = append(out.Back, a.done-row)
		}
		out.Worked = append(out.Worked, of(a.cost(row)))
	}
	return out
}

// endsAt tells whether a field may end with a row: with a whole repeat, or with its zone.
func (a *looking) endsAt(row int) bool {
	if row < a.fieldStart {
		return false
	}
	if row > a.fieldEnd {
		return (row-a.fieldEnd)%a.step == 0
	}
	z := a.p.ZoneAt(row)
	return row == z.Last || !z.Border && (row-z.First+1)%stepOf(z) == 0
}
