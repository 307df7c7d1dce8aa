package chart

import (
	"fmt"
	"strconv"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// The printed chart. From left to right a line has: the number of a row that starts
// at the left, with its arrow; the stitches; the arrow and number of a row that
// starts at the right; the ridge that the row completes; the name of the zone. What
// stands beside the stitches gives way when room is short: first the names of the
// zones, which are listed below instead, then the ridges. The stitches never do: a
// grid too wide for a line is cut into parts, one above the other.

// fewPegs is how many pegs a part must show before anything beside it may stay.
const fewPegs = 20

// A zone's name takes at least shortName cells beside the chart, if it has as many,
// and at most longName. It may take several lines.
const (
	shortName = 8
	longName  = 24
)

const ridgeHead = "ridge"

// page is how a view is laid out.
type page struct {
	View
	mark        int  // cells for the sign beside the row in hand, 0 none
	number      int  // cells of the longest row number
	left, right bool // whether any row starts at this side
	blank       int  // blanks on both sides of the stitches; a window at pitch 2 brings its own
	ridge       int  // cells for ridges, 0 none
	zone        int  // cells for the zones' names, 0 none
	parts       []Window
}

// Lines is the printed chart of a view: rulers at the top and at the bottom, rows,
// and the key of just what it shows. No line is longer than v.Width cells. Where that
// has no room for even one peg, a line says so.
func (c *Chart) Lines(v View) []string {
	v = c.clamped(v)
	if v.Width < 1 {
		return nil
	}
	p, ok := c.layOut(v)
	if !ok {
		return c.flow(words(Text, "too narrow for a chart"), " ", v.Width)
	}
	k := newKey()
	lines := c.flow(words(Text, c.caption(v)), " ", v.Width)
	for _, w := range p.parts {
		lines = append(lines, "")
		if len(p.parts) > 1 {
			lines = append(lines, c.flow(words(Text, fmt.Sprintf("pegs %d to %d", c.order.Peg(w.From), c.order.Peg(w.To-1))), " ", v.Width)...)
		}
		lines = append(lines, c.part(&p, w, k)...)
		k.noteWindow(c.pattern, v, w)
	}
	lines = append(lines, "")
	if p.zone == 0 {
		lines = append(lines, c.zoneList(v)...)
	}
	return append(lines, c.legend(k, v.Width)...)
}

// caption says how the chart is read. Nothing of it goes without saying, since
// makers differ.
func (c *Chart) caption(v View) string {
	o, first := c.order, "row 1"
	if c.pattern.Form == pattern.Tube {
		first = "every round"
	}
	return fmt.Sprintf("%s from the bottom; %s runs %s; peg 1 at the %s", c.courses(v.First, v.Last), first, o.Direction(1), o.Way.Peg1)
}

// courses names rows or rounds: "rows 3 to 5", "row 3".
func (c *Chart) courses(first, last int) string {
	if first == last {
		return fmt.Sprintf("%s %d", c.pattern.Form.RowWord(), first)
	}
	return fmt.Sprintf("%ss %d to %d", c.pattern.Form.RowWord(), first, last)
}

// layOut chooses what stands beside the stitches and how they are cut.
func (c *Chart) layOut(v View) (page, bool) {
	full := c.fullPage(v)
	unnamed := full
	unnamed.zone = 0
	bare := unnamed
	bare.ridge = 0
	pegs := v.To - v.From
	whole, few := Window{v.From, v.To, 2}.Width(), min(fewPegs, pegs)
	for _, try := range []struct {
		page        page
		blank, need int
	}{
		{full, 0, whole}, {unnamed, 0, whole}, {full, 1, pegs}, {unnamed, 1, pegs},
		{full, 1, few}, {unnamed, 1, few}, {bare, 1, 1},
	} {
		p := try.page
		p.blank = try.blank
		v.Width = p.Width - p.beside()
		if v.Width >= try.need {
			p.parts = c.Parts(v)
			c.widenNames(&p)
			return p, true
		}
	}
	return page{}, false
}

func (c *Chart) fullPage(v View) page {
	p := page{View: v, number: numberWidth(v.Last), zone: min(shortName, c.longestName(v))}
	if v.At.Active {
		p.mark = 2
	}
	for row := v.First; row <= min(v.First+1, v.Last); row++ {
		from := c.order.Direction(row).From()
		p.left = p.left || from == pattern.Left
		p.right = p.right || from == pattern.Right
	}
	for i := c.pattern.ZoneIndex(v.First); i <= c.pattern.ZoneIndex(v.Last); i++ {
		if c.pattern.HasRidges(i) {
			p.ridge = len(ridgeHead)
		}
	}
	return p
}

// widenNames gives the zones' names the room that the stitches leave.
func (c *Chart) widenNames(p *page) {
	if p.zone == 0 {
		return
	}
	stitches := 0
	for _, w := range p.parts {
		stitches = max(stitches, w.Width())
	}
	p.zone = min(c.longestName(p.View), p.zone+p.Width-p.beside()-stitches)
}

func (c *Chart) longestName(v View) int {
	longest := 0
	for i := c.pattern.ZoneIndex(v.First); i <= c.pattern.ZoneIndex(v.Last); i++ {
		longest = max(longest, min(longName, safetext.Width(c.zoneName(i))))
	}
	return longest
}

func (c *Chart) zoneName(i int) string { return safetext.Clean(c.pattern.Zones[i].Name) }

// before is how many cells of a line lie left of the stitches.
func (p *page) before() int {
	if p.left {
		return p.mark + p.number + 2 + p.blank
	}
	return p.mark
}

// ridgeAt and zoneAt are where the ridges and the zones begin, counted in cells from
// the end of the stitches.
func (p *page) ridgeAt() int {
	if p.right {
		return p.blank + 2 + p.number + 1
	}
	return p.blank
}

func (p *page) zoneAt() int {
	if p.ridge > 0 {
		return p.ridgeAt() + p.ridge + 1
	}
	return p.ridgeAt()
}

// beside is how many cells of a line are not stitches.
func (p *page) beside() int {
	if p.zone > 0 {
		return p.before() + p.zoneAt() + 2 + p.zone
	}
	return p.before() + p.zoneAt()
}

// part is one window of the chart with its rulers.
func (c *Chart) part(p *page, w Window, k *key) []string {
	ruler, over, under, below := c.rulers(p, w)
	lines := []string{ruler}
	if over != "" {
		lines = append(lines, over)
	}
	for row := p.Last; row >= p.First; row-- {
		lines = append(lines, c.line(p, row, w, k))
	}
	if under != "" {
		lines = append(lines, under)
	}
	return append(lines, below)
}

// rulers are what stands above the rows of a window and below them: the ruler and the
// markers, both over and under. Markers are empty where there are none. At pitch 1 the one
// over the rows points at the column in hand, if its row is seen.
func (c *Chart) rulers(p *page, w Window) (ruler, over, under, below string) {
	margin := strings.Repeat(" ", p.before())
	trimmed := func(s string) string { return strings.TrimRight(margin+s, " ") }
	ruler = c.Ruler(w)
	below = trimmed(ruler)
	if p.ridge > 0 {
		ruler += c.lay([]mark{{p.ridgeAt(), Faint, ridgeHead}}, 0)
	}
	hand := -1
	if p.At.Row >= p.First && p.At.Row <= p.Last {
		hand = c.Hand(p.At)
	}
	over, under = c.Markers(w, hand, p.At.Unsaved)
	return trimmed(ruler), trimmed(over), trimmed(under), below
}

// line is one row with all that stands beside it.
func (c *Chart) line(p *page, row int, w Window, k *key) string {
	d := c.order.Direction(row)
	n, arrow, tone := strconv.Itoa(row), c.symbols.arrows[d], Number
	var before, after []mark
	if p.At.Active && row == p.At.Row {
		tone = InHand
		before = append(before, mark{0, InHand, c.symbols.here})
	}
	if d.From() == pattern.Left {
		before = append(before, mark{p.mark + p.number - len(n), tone, n + " " + arrow})
	} else {
		after = append(after, mark{p.blank, tone, arrow + " " + n})
	}
	if ridges := c.pattern.Ridges(row); p.ridge > 0 && ridges > c.pattern.Ridges(row-1) {
		text := strconv.Itoa(ridges)
		after = append(after, mark{p.ridgeAt() + p.ridge - len(text), Number, text})
	}
	line := c.lay(before, p.before()) + c.draw(row, w, p.At, k) + c.lay(after, p.zoneAt())
	if p.zone > 0 {
		line += c.zoneSide(p, row)
	}
	return strings.TrimRight(line, " ")
}

// zoneSide is a row's part of the bracket that holds a zone together, with the zone's
// name halfway up what is seen of it: over several rows where it is long, cut where
// they are too few.
func (c *Chart) zoneSide(p *page, row int) string {
	i := c.pattern.ZoneIndex(row)
	z := &c.pattern.Zones[i]
	first, last := max(z.First, p.First), min(z.Last, p.Last)
	name := c.flow(words(Zone, c.zoneName(i)), " ", p.zone)
	if len(name) > last-first+1 {
		name = []string{c.paint(Zone, safetext.Cut(c.zoneName(i), p.zone))}
	}
	sign := c.paint(Faint, c.symbols.bracket.at(row, last, first))
	top := last - (last-first+1-len(name))/2
	if at := top - row; at >= 0 && at < len(name) {
		sign += " " + name[at]
	}
	return sign
}

// zoneList tells the zones in words, top first, where they have no room beside the
// chart.
func (c *Chart) zoneList(v View) []string {
	var lines []string
	for i := c.pattern.ZoneIndex(v.Last); i >= c.pattern.ZoneIndex(v.First); i-- {
		z := &c.pattern.Zones[i]
		text := c.courses(max(z.First, v.First), min(z.Last, v.Last)) + ": " + c.zoneName(i)
		lines = append(lines, c.flow(words(Zone, text), " ", v.Width)...)
	}
	return lines
}

// words are the words of a sentence.
func words(t Tone, s string) []word {
	var ws []word
	for _, f := range strings.Fields(s) {
		ws = append(ws, word{t, f, ""})
	}
	return ws
}
