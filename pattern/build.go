package pattern

import (
	"fmt"
	"slices"
)

// Build makes the fabric of a plan. It returns all that is wrong at once; then the
// pattern is nil.
//
// Written lines are laid on the fabric by the directions the plan states, once and
// for all: a maker who works the other way round gets other instructions, not
// another fabric.
func Build(plan Plan) (*Pattern, []*PlanError) {
	if errs := checkPlan(plan); len(errs) > 0 {
		return nil, errs
	}
	p := &Pattern{Design: plan.Design}
	l := newLoom(plan.Pegs)
	for i := range plan.Zones {
		p.Zones = append(p.Zones, l.layZone(plan, &plan.Zones[i]))
	}
	p.Grid = &l.grid
	if errs := checkLoops(p); len(errs) > 0 {
		return nil, errs
	}
	p.Markers = markers(plan)
	p.ridges = countRidges(p)
	p.before = sumStitches(p.Grid)
	return p, nil
}

// checkPlan finds what would make a fabric of the wrong size. It multiplies in
// int64 and caps, so no count can overflow.
func checkPlan(plan Plan) []*PlanError {
	var errs []*PlanError
	fail := func(zone, strip, line int, format string, args ...any) {
		errs = append(errs, &PlanError{zone, strip, line, fmt.Sprintf(format, args...)})
	}
	if plan.Pegs < 1 || plan.Pegs > MaxPegs {
		fail(-1, -1, -1, "a pattern has 1 to %d pegs; this one has %d", MaxPegs, plan.Pegs)
		return errs
	}
	rows := 0
	for i, z := range plan.Zones {
		if z.Rows < 1 || z.Rows > MaxRows {
			fail(i, -1, -1, "a zone has 1 to %d rows; this one has %d", MaxRows, z.Rows)
			continue
		}
		rows = min(rows+z.Rows, MaxRows+1)
		checkZone(plan, i, fail)
	}
	switch {
	case len(plan.Zones) == 0:
		fail(-1, -1, -1, "the pattern has no zone: write at least one")
	case rows > MaxRows:
		fail(-1, -1, -1, "a pattern has at most %d rows in all", MaxRows)
	case rows*plan.Pegs > MaxCells:
		fail(-1, -1, -1, "%d rows on %d pegs are more than the %d stitches a pattern may have", rows, plan.Pegs, MaxCells)
	}
	return errs
}

func checkZone(plan Plan, i int, fail func(zone, strip, line int, format string, args ...any)) {
	z := plan.Zones[i]
	if z.Sides < 0 || 2*z.Sides >= plan.Pegs {
		fail(i, -1, -1, "sides of %d pegs leave nothing between them on %d pegs", z.Sides, plan.Pegs)
		return
	}
	if z.Sides > 0 && plan.Form == Tube {
		fail(i, -1, -1, "a tube has no sides: its rounds close")
	}
	for _, row := range z.SideRows {
		if len(row) != z.Sides {
			fail(i, -1, -1, "a side row has %d stitches for %d side pegs", len(row), z.Sides)
		}
	}
	if z.Sides > 0 && len(z.SideRows) == 0 {
		fail(i, -1, -1, "the sides have no rows")
	}
	width := 2 * z.Sides
	for j, s := range z.Strips {
		width += s.Pegs
		if len(s.Lines) == 0 {
			fail(i, j, -1, "the strip has no rows")
		}
		for k, line := range s.Lines {
			if len(line.Cells) != s.Pegs {
				fail(i, j, k, "the row has %d stitches for %d pegs", len(line.Cells), s.Pegs)
			}
			if !crossesWhole(line.Cells) {
				fail(i, j, k, "a cross is cut: draw all its pegs side by side")
			}
		}
	}
	if width != plan.Pegs {
		fail(i, -1, -1, "sides and strips take %d pegs; the pattern has %d", width, plan.Pegs)
	}
}

// crossesWhole tells whether every cross in a row has all its parts, in order.
func crossesWhole(cells []Cell) bool {
	var any Stitch
	for _, c := range cells {
		any |= c.Stitch
	}
	if any&crossBit == 0 { // nearly every row, and a big chart has many
		return true
	}
	next := 0 // the part that must come here, 0 outside a cross
	var in Cross
	for _, c := range cells {
		cross, part, ok := c.Stitch.Cross()
		if part != next || (next > 0 && (!ok || cross != in)) {
			return false
		}
		in = cross
		if next = 0; ok && part+1 < cross.Width() {
			next = part + 1
		}
	}
	return next == 0
}

// layZone adds a zone's rows to the grid.
func (l *loom) layZone(plan Plan, zp *ZonePlan) Zone {
	first := len(l.grid.rows) + 1
	z := Zone{
		Name: zp.Name, Border: zp.Border, Sides: zp.Sides, Like: zp.Like,
		KnitAs: zp.KnitAs, Gauge: zp.Gauge, First: first, Last: first + zp.Rows - 1,
	}
	dir := plan.Form.Direction(plan.Way, first)
	strips := laidStrips(zp, plan.Form, dir)
	period := 1
	if zp.SlipEdge && plan.Form == Panel {
		period = 2
	}
	from := 0
	for _, s := range strips {
		period = lcm(period, len(s.rows), zp.Rows)
		z.Strips = append(z.Strips, Strip{From: from, To: from + s.pegs, Repeat: s.written, Side: s.side, Gauge: s.gauge})
		from += s.pegs
	}
	ids := make([]uint32, min(period, zp.Rows))
	buf := make([]Cell, plan.Pegs)
	alone := len(strips) == 1 && !zp.SlipEdge // its rows are whole rows already
	for i := range ids {
		if alone {
			ids[i] = l.keep(strips[0].rows[i%len(strips[0].rows)], slices.Clip)
			continue
		}
		at := buf
		for _, s := range strips {
			at = at[copy(at, s.rows[i%len(s.rows)]):]
		}
		if zp.SlipEdge {
			slipFirst(buf, plan.Form.Direction(plan.Way, first+i))
		}
		ids[i] = l.keep(buf, slices.Clone)
	}
	for i := range zp.Rows {
		l.grid.rows = append(l.grid.rows, ids[i%len(ids)])
	}
	return z
}

// laid is one strip as it lies on the fabric: every row left to right.
type laid struct {
	pegs    int
	written int // rows of the repeat as the maker wrote it
	rows    [][]Cell
	side    bool
	gauge   string
}

func laidStrips(zp *ZonePlan, form Form, dir Direction) []laid {
	var strips []laid
	if zp.Sides > 0 {
		strips = append(strips, laid{pegs: zp.Sides, written: len(zp.SideRows), rows: zp.SideRows, side: true})
	}
	for _, s := range zp.Strips {
		strips = append(strips, laid{pegs: s.Pegs, written: len(s.Lines), rows: layLines(s.Lines, form, dir), gauge: s.Gauge})
	}
	if zp.Sides > 0 {
		mirrored := make([][]Cell, len(zp.SideRows))
		for i, row := range zp.SideRows {
			mirrored[i] = reversed(row)
		}
		strips = append(strips, laid{pegs: zp.Sides, written: len(zp.SideRows), rows: mirrored, side: true})
	}
	return strips
}

// layLines turns written lines by the way their rows run. An odd number of written
// lines on a panel runs the other way the second time, so its repeat is twice as
// long.
func layLines(lines []Line, form Form, dir Direction) [][]Cell {
	n := len(lines)
	written := slices.ContainsFunc(lines, func(l Line) bool { return l.Written })
	if written && form == Panel && n%2 == 1 {
		n *= 2
	}
	rows := make([][]Cell, n)
	for i := range rows {
		line := lines[i%len(lines)]
		d := dir
		if form == Panel && i%2 == 1 {
			d = dir.Opposite()
		}
		rows[i] = line.Cells
		if line.Written && d == ToLeft {
			rows[i] = reversed(line.Cells)
		}
	}
	return rows
}

// slipFirst slips the first stitch of a row in order of work, unless it is one that
// moves loops.
func slipFirst(cells []Cell, d Direction) {
	for i := range cells {
		col := i
		if d == ToLeft {
			col = len(cells) - 1 - i
		}
		if cells[col].Stitch != NoStitch {
			if cells[col].Stitch.LoopsIn() == 1 && cells[col].Stitch&crossBit == 0 {
				cells[col].Stitch = Slip
			}
			return
		}
	}
}

// checkLoops holds each row against the loops the row below leaves. It stops at the first
// that does not fit: every later row would be told off for the same fault.
func checkLoops(p *Pattern) []*PlanError {
	for row := 1; row <= p.Grid.Rows(); row++ {
		r := p.Grid.Row(row)
		msg := ""
		switch {
		case r.Stitches() == 0:
			msg = fmt.Sprintf("row %d has no stitch at all", row)
		case row == 1 && r.LoopsIn() != r.Stitches():
			msg = fmt.Sprintf("row 1 is worked into %d loops on %d pegs: begin shaping in row 2", r.LoopsIn(), r.Stitches())
		case row > 1 && r.LoopsIn() != p.Grid.Row(row-1).Stitches():
			msg = fmt.Sprintf("row %d is worked into %d loops, but row %d leaves %d", row, r.LoopsIn(), row-1, p.Grid.Row(row-1).Stitches())
		default:
			continue
		}
		zone := p.ZoneIndex(row)
		strip, line := p.Zones[zone].lineOf(row)
		return []*PlanError{{zone, strip, line, msg}}
	}
	return nil
}

// lineOf is the line of a plan that a row was made from. It is -1, -1 where strips lie side
// by side: any of them may be the one to blame.
func (z *Zone) lineOf(row int) (strip, line int) {
	strip, line = -1, -1
	for _, s := range z.Strips {
		switch {
		case s.Side:
		case line >= 0:
			return -1, -1
		default:
			strip, line = 0, (row-z.First)%s.Repeat
		}
	}
	return strip, line
}

// markers are the innermost border pegs of each distinct width of sides, and the
// maker's own.
func markers(plan Plan) []int {
	var cols []int
	for _, z := range plan.Zones {
		if z.Sides > 0 && !z.Border {
			cols = append(cols, z.Sides-1, plan.Pegs-z.Sides)
		}
	}
	for _, peg := range plan.Mark {
		cols = append(cols, columnOfPeg(plan.Way, plan.Pegs, peg))
	}
	for peg := plan.MarkEvery; plan.MarkEvery > 0 && peg <= plan.Pegs; peg += plan.MarkEvery {
		cols = append(cols, columnOfPeg(plan.Way, plan.Pegs, peg))
	}
	slices.Sort(cols)
	return slices.Compact(cols)
}

func columnOfPeg(w Way, pegs, peg int) int {
	if w.Peg1 == Right {
		return pegs - peg
	}
	return peg - 1
}

// reversed is the row as it reads from the other end. The parts of a cross keep
// their order: what is seen does not turn round with the reading.
func reversed(cells []Cell) []Cell {
	r := slices.Clone(cells)
	slices.Reverse(r)
	for i := 0; i < len(r); {
		c, _, ok := r[i].Stitch.Cross()
		if !ok {
			i++
			continue
		}
		w := min(c.Width(), len(r)-i)
		slices.Reverse(r[i : i+w])
		i += w
	}
	return r
}

// lcm is the least common multiple, or the cap where that is larger.
func lcm(a, b, limit int) int {
	g, x := a, b
	for x != 0 {
		g, x = x, g%x
	}
	if a > limit/(b/g) {
		return limit
	}
	return a / g * b
}
