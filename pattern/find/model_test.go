package find_test

import (
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/find"
)

// A model of the loom for tests: pegs with columns of stitches that hang from them, worked one
// after another. It knows what a person sees and nothing of how the room finds it.

// knot is one stitch in a column.
type knot struct {
	from     byte // what it shows from the front: v, b, or ? where it can't be told
	along    byte // what it shows to one who looks along the row: v, b or ?
	zone     int
	row      int
	crossing bool
	bumps    int // bumps in the column up to it
	unsure   int // and stitches that can't be told
}

// peg is one peg of the model.
type peg struct {
	loop   bool
	yarn   int    // of the loop; anyYarn where it can't be told
	column []knot // bottom first
}

// anyYarn is the yarn of a loop of which it is not known.
const anyYarn = -1

// sight is all that can be seen at one place.
type sight struct {
	row, done int
	pegs      []peg
	yarn      int  // the column that the yarn comes from
	between   bool // it hangs between two pegs
	side      pattern.Side
	ridges    int
	along     map[byte]bool // looks along the last row
	yarns     map[int]bool  // of the loops on the pegs
}

// model is a piece with the sights of all its places, in the order of work.
type model struct {
	o      pattern.Order
	sights []*sight
	garter []bool
	ridge  int
	held   map[string][]bool // for clues that were tried: at which places they hold
	reader find.Reader
}

func (m *model) number(col int) int {
	if m.o.Way.Peg1 == pattern.Right {
		return m.o.Pattern.Pegs - col
	}
	return col + 1
}

func (m *model) col(number int) int {
	if m.o.Way.Peg1 == pattern.Right {
		return m.o.Pattern.Pegs - number
	}
	return number - 1
}

// along is the columns of a row in the order of work, and the side it runs to.
func (m *model) along(row int) (cols []int, to pattern.Side) {
	left := m.o.Way.Row1 == pattern.ToLeft
	if m.o.Pattern.Form == pattern.Panel && row%2 == 0 {
		left = !left
	}
	for i := range m.o.Pattern.Pegs {
		if left {
			cols = append([]int{i}, cols...)
		} else {
			cols = append(cols, i)
		}
	}
	if left {
		return cols, pattern.Left
	}
	return cols, pattern.Right
}

func idle(s pattern.Stitch) bool { return s == pattern.Slip || s == pattern.SlipFront }

func newModel(o pattern.Order) *model {
	m := &model{o: o, held: map[string][]bool{}, reader: find.NewReader(o)}
	m.findRidges()
	grid := o.Pattern.Grid
	now := &sight{pegs: make([]peg, o.Pattern.Pegs)}
	cols, to := m.along(1)
	first := true
	for _, c := range cols {
		if grid.Row(1).Cells()[c].Stitch != pattern.NoStitch {
			now.pegs[c] = peg{loop: true, yarn: anyYarn}
			if first || o.Pattern.Form == pattern.Tube {
				now.yarn = c
			}
			first = false
		}
	}
	now.side = to.Opposite()
	for row := 1; row <= grid.Rows(); row++ {
		m.work(now, row)
	}
	now.row, now.done = grid.Rows()+1, 0
	m.see(now)
	return m
}

// work works a row and keeps what is seen before each stitch.
func (m *model) work(now *sight, row int) {
	cells := m.o.Pattern.Grid.Row(row).Cells()
	cols, to := m.along(row)
	var empty []int // pegs out of use that were not passed yet
	left := 0       // stitches to come that take the yarn
	for _, c := range cells {
		if c.Stitch != pattern.NoStitch && !idle(c.Stitch) {
			left++
		}
	}
	now.row, now.done, now.between = row, 0, false
	taken := false
	clear := func() {
		for _, c := range empty {
			now.pegs[c] = peg{}
		}
		empty = nil
	}
	for _, c := range cols {
		s := cells[c].Stitch
		if s == pattern.NoStitch {
			empty = append(empty, c)
			continue
		}
		m.see(now)
		clear()
		if !idle(s) {
			m.knit(&now.pegs[c], s, row)
			now.pegs[c].yarn = int(cells[c].Yarn)
			now.yarn, taken = c, true
			left--
		}
		now.done++
		if taken {
			now.between = left > 0
			now.side = to
		}
	}
	clear()
}

func (m *model) knit(p *peg, s pattern.Stitch, row int) {
	k := knot{zone: m.o.Pattern.ZoneIndex(row), row: row, from: '?', along: '?'}
	switch s.Face() {
	case pattern.FaceKnit:
		k.from, k.along = 'v', 'v'
	case pattern.FacePurl:
		k.from, k.along = 'b', 'b'
	}
	if _, _, ok := s.Cross(); ok {
		k.crossing, k.from = true, '?'
	}
	if n := len(p.column); n > 0 {
		k.bumps, k.unsure = p.column[n-1].bumps, p.column[n-1].unsure
	}
	switch k.from {
	case 'b':
		k.bumps++
	case '?':
		k.unsure++
	}
	p.loop = true
	p.column = append(p.column[:len(p.column):len(p.column)], k)
}

// see keeps what is seen now.
func (m *model) see(now *sight) {
	s := *now
	s.pegs = append([]peg(nil), now.pegs...)
	s.along, s.yarns = map[byte]bool{}, map[int]bool{}
	for _, p := range s.pegs {
		if p.loop {
			s.yarns[p.yarn] = true
		}
		if n := len(p.column); n > 0 {
			s.along[p.column[n-1].along] = true
		}
	}
	if m.ridge >= 0 {
		below := byte(0)
		for _, k := range s.pegs[m.ridge].column {
			if k.along == 'b' && below != 'b' && m.garter[k.zone] {
				s.ridges++
			}
			below = k.along
		}
	}
	m.sights = append(m.sights, &s)
}

// findRidges finds the column in which ridges are counted, the outermost from peg 1 that is
// worked throughout, and the zones in which it is garter: knit and purl in turn, and not seed.
func (m *model) findRidges() {
	p := m.o.Pattern
	shows := func(row, col int) pattern.Face { return p.Grid.Row(row).Cells()[col].Stitch.Face() }
	m.ridge = -1
	for n := 1; n <= p.Pegs && m.ridge < 0; n++ {
		c := n - 1
		if p.Way.Peg1 == pattern.Right {
			c = p.Pegs - n
		}
		m.ridge = c
		for row := 1; row <= p.Grid.Rows(); row++ {
			if s := p.Grid.Row(row).Cells()[c].Stitch; s == pattern.NoStitch || idle(s) {
				m.ridge = -1
			}
		}
	}
	m.garter = make([]bool, len(p.Zones))
	for i, z := range p.Zones {
		if m.ridge < 0 {
			return
		}
		beside := m.ridge + 1
		if beside == p.Pegs {
			beside = m.ridge - 1
		}
		garter, seed := true, beside >= 0 && z.Rows() > 1
		for row := z.First; row <= z.Last; row++ {
			f := shows(row, m.ridge)
			garter = garter && (f == pattern.FaceKnit || f == pattern.FacePurl) && (row == z.First || f != shows(row-1, m.ridge))
			seed = seed && shows(row, beside) != f
		}
		m.garter[i] = garter && !seed
	}
}

// fits tells whether a person who says so could be looking at this.
func (m *model) fits(s *sight, c find.Clue) bool {
	p := m.o.Pattern
	switch c.Kind {
	case find.Ridges:
		return s.ridges == c.Count
	case find.LastRow:
		return (c.Row == find.Purled || s.along['v']) && (c.Row == find.Knitted || s.along['b'])
	case find.Yarn:
		switch c.Hangs {
		case find.Between:
			return s.between
		case find.AtEnd:
			return !s.between
		}
		return !s.between && (s.side == pattern.Left) == (c.Hangs == find.AtLeft)
	case find.FromPeg:
		return m.number(s.yarn) == c.Peg
	case find.Colour:
		return s.yarns[c.Count] || s.yarns[anyYarn]
	case find.Zone:
		here := s.row <= p.Grid.Rows() && p.ZoneIndex(s.row) == c.Count
		return here || s.done == 0 && s.row > 1 && p.ZoneIndex(s.row-1) == c.Count
	}
	return fitsColumn(s.pegs[m.col(c.Peg)], c)
}

func fitsColumn(p peg, c find.Clue) bool {
	n := len(p.column)
	if !p.loop {
		return false
	}
	switch c.Kind {
	case find.Look:
		for i, seen := range c.Seen {
			if i >= n {
				if seen != find.Edge {
					return false
				}
				continue
			}
			is := p.column[n-1-i].from
			if seen == find.Edge || is != '?' && (seen == find.V) != (is == 'v') {
				return false
			}
		}
		return true
	case find.Bumps:
		if n == 0 {
			return c.Count == 0
		}
		top := p.column[n-1]
		return top.bumps <= c.Count && c.Count <= top.bumps+top.unsure
	case find.Alike:
		for i := 0; i < c.Count; i++ {
			if i >= n || p.column[n-1-i].from != '?' && (p.column[n-1-i].from == 'v') != (c.Seen[0] == find.V) {
				return false
			}
		}
		return n == c.Count || p.column[n-1-c.Count].from == '?' || (p.column[n-1-c.Count].from == 'v') != (c.Seen[0] == find.V)
	case find.Crossed:
		count := 0
		for i := range p.column {
			if p.column[n-1-i].crossing {
				count = i + 1
				break
			}
		}
		return count == c.Count
	}
	panic(fmt.Sprintf("no such clue: %v", c.Kind))
}

// told is what a person at this place would say of each kind. pick chooses where several
// answers are right.
func (m *model) told(s *sight, k find.Kind, number int, pick func(n int) int) (c find.Clue, ok bool) {
	c = find.Clue{Kind: k, Peg: number}
	switch k {
	case find.Ridges:
		c.Peg, c.Count = 0, s.ridges
		return c, m.garterAnywhere()
	case find.LastRow:
		var may []find.RowLook
		if s.along['v'] {
			may = append(may, find.Knitted)
		}
		if s.along['b'] {
			may = append(may, find.Purled)
		}
		if len(may) == 2 {
			may = append(may, find.Both)
		}
		if len(may) == 0 {
			return c, false
		}
		c.Row = may[pick(len(may))]
		return c, true
	case find.Yarn:
		switch {
		case s.between:
			c.Hangs = find.Between
		case m.o.Pattern.Form == pattern.Tube || pick(3) == 0:
			c.Hangs = find.AtEnd
		case s.side == pattern.Right:
			c.Hangs = find.AtRight
		}
		return c, true
	case find.FromPeg:
		c.Peg = m.number(s.yarn)
		return c, true
	case find.Colour:
		var may []int
		for y := range 2 {
			if s.yarns[y] || s.yarns[anyYarn] {
				may = append(may, y)
			}
		}
		c.Count = may[pick(len(may))]
		return c, true
	case find.Zone:
		c.Count = m.o.Pattern.ZoneIndex(min(s.row, m.o.Pattern.Grid.Rows()))
		if s.done == 0 && s.row > 1 && pick(2) == 0 {
			c.Count = m.o.Pattern.ZoneIndex(s.row - 1)
		}
		return c, true
	}
	return m.toldColumn(s.pegs[m.col(number)], c, pick)
}

func (m *model) garterAnywhere() bool { return m.sights[len(m.sights)-1].ridges > 0 }

func (m *model) toldColumn(p peg, c find.Clue, pick func(n int) int) (find.Clue, bool) {
	if !p.loop {
		return c, false
	}
	n := len(p.column)
	seen := func(i int) find.Seen {
		switch {
		case i >= n:
			return find.Edge
		case p.column[n-1-i].from == 'b' || p.column[n-1-i].from == '?' && pick(2) == 0:
			return find.Bump
		}
		return find.V
	}
	switch c.Kind {
	case find.Look:
		for i := range 1 + pick(4) {
			c.Seen = append(c.Seen, seen(i))
		}
		return c, true
	case find.Bumps:
		for i := range n {
			if seen(i) == find.Bump {
				c.Count++
			}
		}
		return c, true
	case find.Alike:
		if n == 0 {
			return c, false
		}
		c.Seen = []find.Seen{seen(0)}
		for c.Count = 1; c.Count < n && seen(c.Count) == c.Seen[0]; c.Count++ {
		}
		return c, true
	}
	for i := range n {
		if p.column[n-1-i].crossing {
			c.Count = i + 1
			break
		}
	}
	return c, true
}
