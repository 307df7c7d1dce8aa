package fit

import (
	"fmt"
	"math"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
)

// Replanning. A piece on the loom tells its own gauge, which may not be the swatch's. Its
// pegs are cast on and its rows are done: what can still be chosen is how often the field
// repeats before the top border, which stays like the bottom one.

// Progress is how far a piece is, and what was measured on it, laid flat and relaxed.
type Progress struct {
	Rows          int            // done; one that is begun counts
	Closed        bool           // the bind-off is begun, or done: no row can be added or left out any more
	Width, Height measure.Length // of all pegs, and of the rows done; 0 where it was not measured
	YarnRow       int            // the row that the yarn left lets the field end with, as LeftOf tells it; 0 for none
}

// Onward is one way to go on with a piece.
type Onward uint8

// The ways.
const (
	AsPlanned   Onward = iota
	OneMore            // one repeat more of the field
	OneFewer           // one repeat fewer
	BorderNow          // the top border as soon as the repeat under way is whole
	YarnReaches        // as far as the yarn left reaches
	KeepShape          // as many repeats as keep the planned shape at the measured width
)

var onwardNames = []string{"as planned", "one repeat more", "one repeat fewer", "the top border now", "as far as the yarn reaches", "in the planned shape"}

// String is the way in words.
func (o Onward) String() string { return onwardNames[o] }

// Ending is what becomes of a piece that is gone on with in one way.
type Ending struct {
	Way           Onward
	ZoneRows      []int // of each zone; 0 for one that is left out
	Rows          int   // in all
	Border        int   // the row that the top border begins with; 0 where there is none
	Width, Height measure.Length
	LeftGrams     float64  // as Left, in grams; 0 where nobody knows how heavy the yarn is
	Yarn, Left    float64  // likely metres: of all, and still to be worked with the bind-off and its tail; 0 without a gauge
	Skipped       []string // zones that are left out
	Text          []byte   // the pattern file of it; nil where the file can't be changed to it
}

// Replanned is what a piece tells.
type Replanned struct {
	Gauge         pattern.Gauge  // by the piece itself, as far as it was measured
	Width, Height measure.Length // that were planned; 0 where the pattern has no gauge
	Endings       []Ending       // as planned first; those that are like another are left out
	Reached       int            // the one that the yarn left reaches for; -1 where that is not told, or is none
}

// fewestMeasured is how many rows a height must be measured over: over fewer a
// millimetre is too much. Common practice, no source.
const fewestMeasured = 8

// Replan works out how a piece can be gone on with. The text is its pattern file. The
// error is a *Refusal.
func Replan(text []byte, at Progress) (*Replanned, error) {
	p, found := file.Load("the file", text)
	if p == nil {
		return nil, &Refusal{found.Err().Error(), "bypeg check tells all that is wrong with it"}
	}
	if err := at.check(p); err != nil {
		return nil, err
	}
	r := &resizer{wish: Wish{Weight: pattern.UnknownWeight}, text: text, old: p, layout: file.LayoutOf(text), warned: warnings(found)}
	r.design = p.Design
	r.takeMeasure(at)
	r.on = *p
	r.on.Design = r.design
	r.unit = rowHeights(&r.on)
	r.sides = map[int]int{} // what is on the pegs stays there
	for _, z := range r.layout.Zones {
		r.sides[z.Sides] = z.Sides
	}
	out := &Replanned{Gauge: r.design.Gauge, Width: widthOf(p), Height: heightOf(p), Reached: -1}
	for _, e := range r.endings(at, out) {
		i := slices.IndexFunc(out.Endings, func(other Ending) bool { return slices.Equal(other.ZoneRows, e.ZoneRows) })
		if i < 0 {
			i = len(out.Endings)
			out.Endings = append(out.Endings, r.measureEnding(e, at))
		}
		if e.Way == YarnReaches {
			out.Reached = i
		}
	}
	return out, nil
}

func (at Progress) check(p *pattern.Pattern) error {
	rows := p.Grid.Rows()
	switch {
	case at.Rows < 0 || at.Rows > rows:
		return &Refusal{fmt.Sprintf("%d rows can't be done: the pattern has %d", at.Rows, rows), fmt.Sprintf("say how many are done, 0 to %d", rows)}
	case at.Width < 0 || at.Height < 0:
		return &Refusal{"a measure is more than 0", "write it like 22 cm, or leave it out"}
	case at.Height > 0 && at.Rows < fewestMeasured:
		return &Refusal{fmt.Sprintf("a height over %d rows tells too little", at.Rows), fmt.Sprintf("measure it when %d rows are done, or more", fewestMeasured)}
	}
	wide := "wide"
	if p.Form == pattern.Tube {
		wide = "round"
	}
	for _, m := range []struct {
		what    string
		is, was measure.Length
	}{{wide, at.Width, widthOf(p)}, {"high", at.Height, heightDone(p, rowHeights(p), at.Rows)}} {
		if m.is > 0 && m.was > 0 && (m.is < m.was/3 || m.is > m.was*3) {
			return &Refusal{fmt.Sprintf("%s %s was to be %s: that is no slip of the gauge", m.is, m.what, m.was), "measure again, and check the unit"}
		}
	}
	return nil
}

// takeMeasure makes the gauge the one that the piece shows.
func (r *resizer) takeMeasure(at Progress) {
	d := &r.design
	d.Gauges = slices.Clone(d.Gauges)
	if at.Width > 0 {
		ratio := float64(widthOf(r.old) / at.Width)
		if d.Gauge.Stitches > 0 { // which need not be that of the whole width: zones may have their own
			d.Gauge.Stitches = figure(d.Gauge.Stitches * ratio)
		} else {
			d.Gauge.Stitches = figure(float64(measure.DensityOf(float64(r.old.Pegs), at.Width)))
		}
		for i := range d.Gauges {
			d.Gauges[i].Stitches = figure(d.Gauges[i].Stitches * ratio)
		}
	}
	if at.Height <= 0 {
		return
	}
	planned := heightDone(r.old, rowHeights(r.old), at.Rows)
	if planned <= 0 {
		d.Gauge.Rows = figure(float64(measure.DensityOf(float64(at.Rows), at.Height)))
		return
	}
	// What was derived or estimated is measured now too: all rows together.
	ratio, was := float64(planned/at.Height), GaugeOf(&r.old.Design)
	d.Gauge.Rows, d.Gauge.GarterRows = figure(float64(was.Rows.Likely)*ratio), figure(float64(was.Garter.Likely)*ratio)
	for i := range d.Gauges {
		d.Gauges[i].Rows, d.Gauges[i].GarterRows = figure(d.Gauges[i].Rows*ratio), figure(d.Gauges[i].GarterRows*ratio)
	}
}

// heightDone is how high so many rows come out, where the rows of each zone have such
// heights.
func heightDone(p *pattern.Pattern, units []float64, rows int) measure.Length {
	h := 0.0
	for i := range p.Zones {
		z := &p.Zones[i]
		h += units[i] * float64(max(0, min(rows, z.Last)-z.First+1))
	}
	return measure.Length(h)
}

// endings are the ways to go on, with the rows of their zones.
func (r *resizer) endings(at Progress, planned *Replanned) []Ending {
	rows := make([]int, len(r.old.Zones))
	for i := range rows {
		rows[i] = r.old.Zones[i].Rows()
	}
	all := []Ending{{Way: AsPlanned, ZoneRows: rows}}
	field := r.fieldUnderWay(at.Rows)
	if field < 0 || at.Closed {
		return all
	}
	step := r.step(field)
	fewest := max(step, r.wholeRows(field, at.Rows))
	with := func(way Onward, n int) {
		if n >= fewest {
			changed := slices.Clone(rows)
			changed[field] = n
			all = append(all, Ending{Way: way, ZoneRows: changed})
		}
	}
	with(OneMore, rows[field]+step)
	with(OneFewer, rows[field]-step)
	if e, ok := r.borderNow(field, fewest, rows, at.Rows); ok {
		all = append(all, e)
	}
	if at.YarnRow > 0 && field == r.lastField() {
		with(YarnReaches, at.YarnRow-r.old.Zones[field].First+1)
	}
	if at.Width > 0 && planned.Width > 0 && planned.Height > 0 {
		left := float64(planned.Height) * float64(at.Width/planned.Width)
		for i, n := range rows {
			if i != field {
				left -= r.unit[i] * float64(n)
			}
		}
		steps := math.Floor(min(max(left, 0)/r.unit[field], pattern.MaxRows)/float64(step) + 0.5)
		with(KeepShape, max(int(steps)*step, fewest))
	}
	return all
}

// fieldUnderWay is the zone that can still grow: the one under way, or the next, or else
// the one that has just been finished; -1 where there is none.
func (r *resizer) fieldUnderWay(done int) int {
	finished := -1
	for i := range r.old.Zones {
		z := &r.old.Zones[i]
		switch {
		case z.Border || r.stays(i):
		case z.Last > done:
			return i
		case z.Last == done:
			finished = i
		}
	}
	return finished
}

// lastField is the last zone that is no border; -1 where all are.
func (r *resizer) lastField() int {
	for i := range slices.Backward(r.old.Zones) {
		if !r.old.Zones[i].Border {
			return i
		}
	}
	return -1
}

// wholeRows are the rows of a zone that are done, up to the end of the repeat under way.
func (r *resizer) wholeRows(i, done int) int {
	step := r.step(i)
	return (max(0, done-r.old.Zones[i].First+1) + step - 1) / step * step
}

// borderNow ends the field with the repeat under way, and leaves out what lies between it
// and the top border. There must be a field by then, and a border above it.
func (r *resizer) borderNow(field, fewest int, rows []int, done int) (Ending, bool) {
	border := len(rows)
	for border > field+1 && r.old.Zones[border-1].Border {
		border--
	}
	if border == len(rows) || done < r.old.Zones[field].First {
		return Ending{}, false
	}
	e := Ending{Way: BorderNow, ZoneRows: slices.Clone(rows)}
	e.ZoneRows[field] = fewest
	for i := field + 1; i < border; i++ {
		e.ZoneRows[i] = 0
		e.Skipped = append(e.Skipped, r.old.Zones[i].Name)
	}
	return e, true
}

// measureEnding works out size, yarn and file of an ending.
func (r *resizer) measureEnding(e Ending, at Progress) Ending {
	p := &r.on
	e.Width = widthOf(p)
	for i, n := range e.ZoneRows {
		if p.Zones[i].Border && e.Border == 0 && e.Rows > 0 && topBorder(p, i) {
			e.Border = e.Rows + 1
		}
		e.Rows += n
		e.Height += measure.Length(r.unit[i] * float64(n))
	}
	for _, yarn := range YarnOf(p) {
		for i, n := range e.ZoneRows {
			z := &p.Zones[i]
			row := yarn.Zones[i].Metres.Likely / float64(z.Rows())
			done := max(0, min(at.Rows, z.Last)-z.First+1)
			e.Yarn += row * float64(n)
			e.Left += row * float64(n-min(n, done))
			e.LeftGrams += yarn.Zones[i].Grams.Likely / float64(z.Rows()) * float64(n-min(n, done))
		}
		e.Yarn += yarn.CastOn.Metres.Likely + yarn.BindOff.Metres.Likely
		e.Left += yarn.BindOff.Metres.Likely
		e.LeftGrams += yarn.BindOff.Grams.Likely
	}
	if text, made := r.written(e); made != nil { // measured on the very fabric
		e.Text, e.Width, e.Height = text, widthOf(made), heightOf(made)
	}
	return e
}

// written is the pattern file of an ending, and what it loads to; nil where the file is
// written in a way that can't be changed to it.
func (r *resizer) written(e Ending) ([]byte, *pattern.Pattern) {
	var skipped []int
	rows := slices.Clone(e.ZoneRows)
	for i := range rows {
		if rows[i] == 0 {
			skipped = append(skipped, i)
			rows[i] = r.old.Zones[i].Rows()
		}
	}
	text, err := file.Rewrite(r.text, r.changes(plan{r.old.Pegs, r.stripsNow(), rows}))
	if err == nil && len(skipped) > 0 {
		text, err = file.LeaveOut(text, skipped)
	}
	if err != nil {
		return nil, nil
	}
	made, _ := file.Load("the file", text)
	if made == nil || made.Grid.Rows() != e.Rows {
		return nil, nil
	}
	return text, made
}

// topBorder tells whether only borders follow from a zone on.
func topBorder(p *pattern.Pattern, zone int) bool {
	return !slices.ContainsFunc(p.Zones[zone:], func(z pattern.Zone) bool { return !z.Border })
}

// stripsNow are the pegs of all strips as they are.
func (r *resizer) stripsNow() [][]int {
	all := make([][]int, len(r.layout.Zones))
	for i, z := range r.layout.Zones {
		for _, s := range z.Strips {
			all[i] = append(all[i], s.Pegs)
		}
	}
	return all
}
