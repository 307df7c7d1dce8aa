package chart

// Sheet is a chart laid out for a screen. What stands beside the stitches, and where a
// wide chart is cut, is the same whichever rows are looked at: nothing moves sideways
// while they are scrolled.
type Sheet struct {
	chart *Chart
	page  page
}

// Leaf is some rows of one part of a sheet.
type Leaf struct {
	Head []string // as many lines as Sheet.Rulers says
	Rows []string // the uppermost row first
	Foot []string // as many as Head
	Key  []string // what just these rows need to be understood
}

// Sheet lays a chart out in lines of at most width cells. It tells whether there is room
// for even one peg. No stitch is read yet.
func (c *Chart) Sheet(width int, at At) (*Sheet, bool) {
	p, ok := c.layOut(c.clamped(View{Width: width, At: at}))
	return &Sheet{c, p}, ok
}

// Parts are the windows into which the sheet is cut, left to right.
func (s *Sheet) Parts() []Window { return s.page.parts }

// Rulers is how many lines stand above the rows, and as many below them.
func (s *Sheet) Rulers() int {
	if len(s.chart.pattern.Markers) > 0 || s.page.At.Active && s.page.parts[0].Pitch == 1 {
		return 2
	}
	return 1
}

// Leaf draws rows first to last of a part. Its lines are of known number: markers have
// theirs also where none is in view. Each stitch in it is read once.
func (s *Sheet) Leaf(part Window, first, last int) Leaf {
	p := s.page
	p.View = s.chart.clamped(View{First: first, Last: last, From: part.From, To: part.To, Width: p.Width, At: p.At})
	k := newKey()
	ruler, over, under, below := s.chart.rulers(&p, part)
	l := Leaf{Head: []string{ruler, over}, Foot: []string{under, below}}
	if s.Rulers() == 1 {
		l.Head, l.Foot = l.Head[:1], l.Foot[1:]
	}
	for row := p.Last; row >= p.First; row-- {
		l.Rows = append(l.Rows, s.chart.line(&p, row, part, k))
	}
	k.noteWindow(s.chart.pattern, p.View, part)
	l.Key = s.chart.legend(k, p.Width)
	return l
}
