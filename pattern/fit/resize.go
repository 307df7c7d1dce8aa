package fit

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// Resizing. A design is carried over to another loom, gauge or size by giving other
// values to keys of its file: pegs, sides, the pegs of strips, how often repeats are
// worked, heights. Which counts of pegs it can have is found by reading its rows on each
// (resizewidth.go); how often repeats are worked follows from the heights
// (resizeheight.go). Each candidate is written and loaded before it is offered, so what
// is told of it is measured on the very fabric.

// Wish is what a design is to become. What is not asked for stays as the file has it: a
// size in centimetres, borders, ridges.
type Wish struct {
	Loom          pattern.Loom   // 0 where it stays
	Spacing       string         // the loom's spacing as the file is to have it; "" is in millimetres
	Gauge         pattern.Gauge  // 0 where it stays
	Weight        int            // the yarn's class, or pattern.UnknownWeight
	Width, Height measure.Length // 0 where it stays
	Pegs          int            // just so many, or 0; the height then keeps the shape
	Fill          bool           // as many as the loom has, or the most below; the rows stay
}

// Candidate is one way to meet a wish.
type Candidate struct {
	Pegs, Rows    int
	Sides         int            // of the widest borders at its edges
	Width, Height measure.Length // 0 where there is no gauge
	Error         float64        // by how much it misses the wished size, in percent: the root of both misses' squares
	Yarn          float64        // likely metres of all yarns; 0 where there is no gauge
	Fits          Verdict        // whether the loom has the pegs
	Pattern       *pattern.Pattern
	Text          []byte   // its file
	Notes         []string // what is doubtful in it and was not before
}

// Verdict is an answer that may be unknown.
type Verdict uint8

// The verdicts.
const (
	Unknown Verdict = iota
	Yes
	No
)

// Resized is what Resize found.
type Resized struct {
	Pattern    *pattern.Pattern // as it was
	Candidates []Candidate      // at most five, best first: those that fit the loom before others
	Wanted     struct{ Width, Height measure.Length }
	Estimated  []string // which figures are estimates, and where from
	Carried    bool     // the files state stitches or rows that nobody counted
	Notes      []string // what holds for all candidates
}

// Refusal is why a design can't be resized, and what to do instead.
type Refusal struct{ Msg, Hint string }

// Error is the reason alone.
func (r *Refusal) Error() string { return r.Msg }

// Advice is what an error of this package says, with what to do instead where it is a
// *Refusal.
func Advice(err error) string {
	if why := (*Refusal)(nil); errors.As(err, &why) {
		return why.Msg + ": " + why.Hint
	}
	return err.Error()
}

// most is how many candidates are shown side by side.
const most = 5

// Resize finds the counts of pegs and rows that come nearest to a wish. The text must be
// a pattern file that loads. The error is a *Refusal.
func Resize(text []byte, w Wish) (*Resized, error) {
	p, found := file.Load("the file", text)
	if p == nil {
		return nil, &Refusal{found.Err().Error(), "bypeg check tells all that is wrong with it"}
	}
	r := &resizer{wish: w, text: text, old: p, layout: file.LayoutOf(text), warned: warnings(found)}
	if err := r.prepare(); err != nil {
		return nil, err
	}
	made := r.candidates()
	if len(made) == 0 {
		return nil, r.refuse()
	}
	slices.SortStableFunc(made, better)
	r.found.Pattern, r.found.Candidates = p, made[:min(len(made), most)]
	r.tell(made)
	return &r.found, nil
}

// better puts what fits the loom first, then the nearest, and of two equally near the
// smaller: rather a little under than over.
func better(a, b Candidate) int {
	fits := func(c Candidate) int {
		if c.Fits == No {
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(fits(a), fits(b)), cmp.Compare(math.Round(a.Error*100), math.Round(b.Error*100)),
		cmp.Compare(a.Pegs, b.Pegs), cmp.Compare(a.Rows, b.Rows))
}

// resizer is one resizing under way.
type resizer struct {
	wish   Wish
	text   []byte
	old    *pattern.Pattern
	layout file.Layout
	warned map[string]bool // what was doubtful before
	found  Resized
	failed string // why a candidate could not be made

	design pattern.Design  // with the new gauge, loom and yarn
	on     pattern.Pattern // the old fabric in the new gauge
	was    []float64       // the height of each zone in the old gauge, in mm; 0 without one
	unit   []float64       // the height of one row of each zone in the new gauge
	sides  map[int]int     // the new sides of each old width
	count  counts
	target float64 // pegs that would be the wished width to the hair
}

// plan is a candidate before it is made.
type plan struct {
	pegs  int
	strip [][]int // the pegs of each zone's strips
	rows  []int   // of each zone
}

// prepare settles gauge, sides and the wished size.
func (r *resizer) prepare() error {
	if err := r.newDesign(); err != nil {
		return err
	}
	r.on = *r.old
	r.on.Design = r.design
	r.was, r.unit = zoneHeights(r.old), rowHeights(&r.on)
	if err := r.motifsKeepShape(); err != nil {
		return err
	}
	if guess := onGuess(&r.design); guess != "" {
		r.found.Estimated = append(r.found.Estimated, guess)
	}
	r.count = counts{layout: &r.layout, pegs: r.old.Pegs, read: map[reading]bool{}}
	r.count.heed()
	r.newSides()
	return r.aim()
}

// aim settles how many pegs would be just right.
func (r *resizer) aim() error {
	was, is := widthOf(r.old), widthOf(&r.on)
	r.found.Wanted.Width, r.found.Wanted.Height = was, heightOf(r.old)
	switch {
	case r.wish.Width > 0:
		r.found.Wanted.Width = r.wish.Width
	case r.wish.Pegs > 0:
		r.found.Wanted.Width = is * measure.Length(r.wish.Pegs) / measure.Length(r.old.Pegs)
	case r.wish.Fill:
		r.found.Wanted.Width = is * measure.Length(r.design.Loom.Pegs) / measure.Length(r.old.Pegs)
		r.found.Wanted.Height = heightOf(&r.on) // the rows stay
	}
	if r.wish.Pegs > 0 && was > 0 { // the shape is kept
		r.found.Wanted.Height *= r.found.Wanted.Width / was
	}
	if r.wish.Height > 0 {
		r.found.Wanted.Height = r.wish.Height
	}
	switch {
	case r.wish.Pegs > 0:
		r.target = float64(r.wish.Pegs)
	case r.wish.Fill:
		r.target = float64(r.design.Loom.Pegs)
	case is > 0 && r.found.Wanted.Width > 0:
		r.target = float64(r.old.Pegs) * float64(r.found.Wanted.Width/is)
	case r.wish.Width > 0 || r.wish.Height > 0:
		return &Refusal{"a size in centimetres needs a gauge, and the pattern has none",
			`add --gauge "11 stitches and 15 rows in 10 cm", counted on a relaxed swatch`}
	case was == 0 && is > 0:
		return &Refusal{"the pattern has no gauge, so nobody knows what size it is to keep", "add --width 40cm, or --same-pegs"}
	default:
		r.target = float64(r.old.Pegs)
	}
	if r.target > pattern.MaxPegs {
		return &Refusal{fmt.Sprintf("that would take %.0f pegs; a pattern has at most %d", r.target, pattern.MaxPegs),
			"ask for a smaller width, or work it as several panels"}
	}
	if rows := GaugeOf(&r.design).Rows.Likely; rows > 0 && rows.Count(r.wish.Height) > pattern.MaxRows {
		return &Refusal{fmt.Sprintf("that would take %.0f rows; a pattern has at most %d", rows.Count(r.wish.Height), pattern.MaxRows), "ask for a smaller height"}
	}
	return nil
}

// candidates are those worth making: the nearest counts, and for the best of them also
// a repeat more or fewer; several where the pegs are asked for, or where a height
// alone is and the pegs stay.
func (r *resizer) candidates() []Candidate {
	counts, others := r.counts(), 1
	if r.heightAlone() {
		counts = []int{r.old.Pegs}
	}
	if r.heightAlone() || r.wish.Pegs > 0 && len(counts) == 1 {
		others = most - 1
	}
	var made []Candidate
	for _, pegs := range counts {
		made = append(made, r.onPegs(pegs, others)...)
		if len(made) > 0 {
			others = 0
		}
	}
	return made
}

// onPegs are the candidates on so many pegs. Where strips share the room otherwise than
// before, the first shows how high their rows are now.
func (r *resizer) onPegs(pegs, others int) []Candidate {
	strips, _ := r.count.strips(pegs)
	first := r.zoneRows(r.unit, 0)[0]
	c, err := r.make(plan{pegs, strips, first})
	if err != nil {
		r.failed = cmp.Or(r.failed, err.Error())
		return nil
	}
	made := []Candidate{c}
	all := r.zoneRows(rowHeights(c.Pattern), others)
	if !slices.Equal(all[0], first) {
		made = nil
		all = append(all[:1:1], all...)
	}
	for _, rows := range all[1:] {
		if c, err := r.make(plan{pegs, strips, rows}); err == nil {
			made = append(made, c)
		}
	}
	return made
}

func (r *resizer) heightAlone() bool {
	w := r.wish
	w.Height = 0
	return r.wish.Height > 0 && w == Wish{Weight: pattern.UnknownWeight}
}

// make writes a candidate, loads it and measures it.
func (r *resizer) make(pl plan) (Candidate, error) {
	text, err := file.Rewrite(r.text, r.changes(pl))
	if err != nil {
		return Candidate{}, err
	}
	p, found := file.Load("the candidate", text)
	if p == nil {
		return Candidate{}, found.Err()
	}
	for i := range p.Zones {
		if p.Zones[i].Rows() != pl.rows[i] {
			return Candidate{}, fmt.Errorf("zone %s does not come out at %d rows", quote(p.Zones[i].Name), pl.rows[i])
		}
	}
	size := SizeOf(p)
	c := Candidate{
		Pegs: p.Pegs, Rows: p.Grid.Rows(), Width: size.Width.Likely, Height: size.Height.Likely,
		Yarn: yarnOf(p), Fits: LoomOf(p).Fits, Pattern: p, Text: text,
	}
	for i := range p.Zones {
		c.Sides = max(c.Sides, p.Zones[i].Sides)
	}
	c.Error = math.Hypot(miss(float64(c.Width), float64(r.found.Wanted.Width)), miss(float64(c.Height), float64(r.found.Wanted.Height)))
	if c.Width == 0 {
		c.Error = miss(float64(c.Pegs), r.target)
	}
	for msg := range warnings(found) {
		if !r.warned[msg] {
			c.Notes = append(c.Notes, msg)
		}
	}
	slices.Sort(c.Notes)
	c.Notes = append(c.Notes, r.ofCandidate(p)...)
	return c, nil
}

// miss is by how many percent a size misses the wished one; 0 where none is wished.
func miss(is, wanted float64) float64 {
	if wanted <= 0 {
		return 0
	}
	return 100 * math.Abs(is-wanted) / wanted
}

// warnings are what is doubtful.
func warnings(found safetext.Diagnostics) map[string]bool {
	said := map[string]bool{}
	for _, d := range found.Of(safetext.Warning) {
		said[d.Message] = true
	}
	return said
}
