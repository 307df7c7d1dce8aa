package adopt

import (
	"fmt"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// Zone is consecutive rows of the file. Rows count from 1.
type Zone struct {
	Name        string
	Border      bool
	First, Last int
	Block       int     // rows of one repeat
	Sides       int     // garter pegs at both edges
	drawn       bool    // its one row can't be written, and is drawn
	unnamed     bool    // its name is its rows
	strips      []strip // side by side, left to right as seen; none where it has rows
}

// strip is a part of a zone with a row repeat of its own: columns from up to but not
// including to.
type strip struct{ from, to, rows int }

// Times is how many repeats the zone has.
func (z Zone) Times() int { return (z.Last - z.First + 1) / z.Block }

// zonesOf cuts rows into zones: the frame and what lies in it where there is a frame of
// garter, and blocks that repeat.
func zonesOf(s *sheet, a *Adopted) []Zone {
	n := len(s.rows)
	c := &cutter{sheet: s, names: map[string]bool{}, drawn: make([]bool, len(s.lines)), open: a.open}
	for id := range s.lines {
		c.drawn[id] = s.needsChart(id)
	}
	t := newTexture(a.Pattern.Grid, s.form, Whole(a.Pattern.Grid))
	f := Frame{}
	if _, ok := t.simple(); !ok && t.even {
		f = t.frame().beside(a.open, t)
	}
	if f.Sides == 0 || !garterSides(a.Pattern.Grid, f) || straddles(a.open, f.Bottom) || straddles(a.open, n-f.Top) {
		c.cutOpen(0, n, Zone{})
		if len(c.zones) == 1 {
			c.zones[0].Name, c.zones[0].unnamed = "field", false
		}
		return c.zones
	}
	c.cutOpen(0, f.Bottom, Zone{Name: "bottom border", Border: true})
	c.cutOpen(f.Bottom, n-f.Top, Zone{Name: "field", Sides: f.Sides})
	c.cutOpen(n-f.Top, n, Zone{Name: "top border", Border: true})
	return c.zones
}

// garterSides tells whether the sides are knit and purl and no slips or wraps that look the
// same: those a file can't leave to its sides.
func garterSides(g *pattern.Grid, f Frame) bool {
	for row := f.Bottom + 1; row <= g.Rows()-f.Top; row++ {
		cells := g.Row(row).Cells()
		edge := cells[0]
		if edge.Stitch != pattern.Knit && edge.Stitch != pattern.Purl {
			return false
		}
		for i := range f.Sides {
			if cells[i] != edge || cells[len(cells)-1-i] != edge {
				return false
			}
		}
	}
	return true
}

// cutter cuts rows into zones.
type cutter struct {
	*sheet
	zones []Zone
	names map[string]bool
	drawn []bool // lines that need a chart
	open  []openRepeat
	work  int
}

// mostBlock is how many rows a repeat can have that is found, and mostWork how many rows
// are compared in all: beyond that rows are written out.
const (
	mostBlock = 240
	mostWork  = 20_000_000
)

// leastSaved is how many rows a repeat among others must save to be a zone of its own.
const leastSaved = 4

// cut cuts rows from up to but not including to, which count from 0.
func (c *cutter) cut(from, to int, like Zone) {
	plain := from // rows that are in no zone yet
	flush := func(end int) {
		if plain < end {
			c.add(like, plain, end, end-plain)
		}
	}
	for i := from; i < to; {
		if c.drawn[c.rows[i]] {
			flush(i)
			drawn := like
			drawn.drawn = true
			c.add(drawn, i, i+1, 1)
			i++
			plain = i
			continue
		}
		block, rows := c.block(i, to)
		if rows-block < leastSaved && (rows == block || i != from || i+rows != to) {
			i++
			continue
		}
		flush(i)
		c.add(like, i, i+rows, block)
		i += rows
		plain = i
	}
	flush(to)
}

// block is the repeat that begins at a row and covers most: its rows, and those of all its
// repeats.
func (c *cutter) block(i, to int) (block, rows int) {
	block, rows = 1, 1
	for q := 1; q <= min((to-i)/2, mostBlock) && c.work < mostWork; q++ {
		n := 0
		for i+n+q < to && c.rows[i+n] == c.rows[i+n+q] && !c.drawn[c.rows[i+n]] {
			n++
		}
		c.work += n + 1
		if all := (n/q + 1) * q; n >= q && all > rows {
			block, rows = q, all
		}
	}
	return block, rows
}

// needsChart tells whether a line can't be written as a row of a pattern file: it fills all
// pegs and takes fewer loops than that.
func (s *sheet) needsChart(id int) bool {
	runs := s.lines[id]
	return rowtext.In(runs) != s.pegs && rowtext.Out(runs) == s.pegs
}

// crossesCanBeWritten refuses rows that need a chart and have a cross, which no chart has
// a sign for.
func (s *sheet) crossesCanBeWritten() error {
	for i, id := range s.rows {
		crosses := slices.ContainsFunc(s.lines[id], func(r rowtext.Run) bool { _, ok := r.Stitch.Cross(); return ok })
		if crosses && s.needsChart(id) {
			return refusal(s.from[i].start, s.from[i].end, "make the stitches on a row without crosses",
				"row %d takes the last pegs into use and crosses loops: a pattern file can't hold both in one row", i+1)
		}
	}
	return nil
}

func (c *cutter) add(z Zone, from, to, block int) {
	z.First, z.Last, z.Block = from+1, to, block
	lone := z.Border && to == len(c.rows) && to-from == 1
	switch word := c.form.RowWord(); {
	case lone:
		z.Name = "set-up"
	case z.Name == "" && z.First == z.Last:
		z.unnamed = true
		z.Name = fmt.Sprintf("%s %d", word, z.First)
	case z.Name == "":
		z.unnamed = z.Times() == 1
		z.Name = fmt.Sprintf("%ss %d to %d", word, z.First, z.Last)
	}
	name := z.Name
	for i := 2; c.names[z.Name]; i++ {
		z.Name = fmt.Sprintf("%s %d", name, i)
	}
	c.names[z.Name] = true
	c.zones = append(c.zones, z)
}

// inner is a row of a zone without its sides, in the order of work.
func (z Zone) inner(a *Adopted, row int) []rowtext.Run {
	r := a.Rows[row-1]
	if z.Sides == 0 {
		return r.Runs
	}
	cells := lay(r.Runs, r.Direction)
	return taken(cells[z.Sides:len(cells)-z.Sides], r.Direction)
}

// purlFirst tells whether the sides of a zone begin with a purl row.
func (z Zone) purlFirst(a *Adopted) bool {
	return z.Sides > 0 && a.Pattern.Grid.Row(z.First).Cells()[0].Stitch.Face() == pattern.FacePurl
}
