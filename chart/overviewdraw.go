package chart

import (
	"strconv"
	"strings"

	"bypeg/pattern/safetext"
)

// What stands around the dots of an overview: at the left the number of the row in hand,
// and of the first and the last row; a line along what another view shows; at the right
// the zones. All of it gives way before the dots do.

// leastCloth is how many cells the dots must have before anything may stand beside them.
const leastCloth = 10

// before is how many cells of a line are for what stands at the left: a number, a blank
// and a sign.
func (o *Overview) before() int {
	if o.number == 0 {
		return 0
	}
	return o.number + 2
}

// layOut chooses what stands around the dots, and reads the fabric.
func (o *Overview) layOut(height int) {
	width := o.view.Width
	if n := numberWidth(o.view.Last); width-n-2 >= leastCloth {
		o.number = n
		width -= o.before()
	}
	foot := o.words()
	if o.view.Brief || len(foot)+2 > height/2 {
		foot = nil
	}
	lines := height - len(foot)
	if o.view.Brief {
		lines = max(1, height-1)
	}
	names := 0
	if longest := o.chart.longestName(o.view); width-longest-3 >= leastCloth {
		names = longest
	}
	// The names stay where the picture need not be much smaller for them.
	if names > 0 && o.scale(width-names-3, lines) <= 1.25*o.scale(width, lines) {
		o.zone = names
		width -= names + 3
	}
	o.look(width, lines)
	if len(foot) > 0 {
		foot = append(foot, o.key()...)
		foot = foot[:min(len(foot), height/2)]
		o.look(width, height-len(foot))
	}
	o.foot = foot
	if !o.view.Brief && len(foot) == 0 || (len(o.dots)+1)/2+len(foot)+1 > height {
		return
	}
	o.foot = append([]string{o.pegs()}, o.foot...)
}

// words tell how the picture is to be read.
func (o *Overview) words() []string {
	return o.chart.flow(words(Faint, o.size.told(o.wide(), o.high())), " ", o.view.Width)
}

// pegs names the pegs at both ends.
func (o *Overview) pegs() string {
	left, right := strconv.Itoa(o.chart.order.Peg(o.view.From)), strconv.Itoa(o.chart.order.Peg(o.view.To-1))
	cells := len(o.dots[0])
	marks := []mark{{o.before(), Number, left}}
	if at := cells - len(right); at > len(left) {
		marks = append(marks, mark{o.before() + at, Number, right})
	}
	if len(left) > cells {
		marks = nil
	}
	return o.chart.lay(marks, 0)
}

// Lines are the overview, top first. seen is what another view shows of the same fabric,
// and is marked at the side; the zero View is none.
func (o *Overview) Lines(seen View) []string {
	if len(o.dots) == 0 {
		return nil
	}
	lines := make([]string, 0, len(o.cloth)+len(o.foot))
	for i, cloth := range o.cloth {
		line := o.side(i, seen) + cloth + o.zoneSign(i)
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return append(lines, o.foot...)
}

// Picture is an overview with nothing beside it, in at most v.Width cells and height
// lines, and how wide it is.
func (c *Chart) Picture(v View, height int) (lines []string, width int) {
	v = c.clamped(v)
	if v.Width < 1 || height < 1 {
		return nil, 0
	}
	o := &Overview{chart: c, view: v, size: c.sizeOf()}
	o.bottom = o.size.height(c.pattern, float64(v.First-1))
	o.look(v.Width, height)
	if len(o.dots) == 0 {
		return nil, 0
	}
	return o.draw(), len(o.dots[0])
}

// inHand is the line of the row in hand, or -1.
func (o *Overview) inHand() int {
	at := o.view.At
	if !at.Active || at.Row < o.view.First || at.Row > o.view.Last {
		return -1
	}
	return o.lineOf(at.Row)
}

// side is what stands left of a line.
func (o *Overview) side(line int, seen View) string {
	if o.number == 0 {
		return ""
	}
	number, tone := 0, Number
	hand := o.inHand()
	switch line {
	case hand:
		number, tone = o.view.At.Row, InHand
	case 0:
		number = o.view.Last
	case len(o.cloth) - 1:
		number = o.view.First
	}
	var marks []mark
	if number > 0 {
		text := strconv.Itoa(number)
		marks = append(marks, mark{o.number - len(text), tone, text})
	}
	first, last := o.rowsOf(line)
	switch {
	case line == hand:
		marks = append(marks, mark{o.number + 1, InHand, o.chart.symbols.here})
	case last >= seen.First && first <= seen.Last:
		marks = append(marks, mark{o.number + 1, Faint, o.chart.symbols.bracket.side})
	}
	return o.chart.lay(marks, o.before())
}

// zoneSign is a line's part of the bracket that holds a zone together, with the zone's
// name halfway up.
func (o *Overview) zoneSign(line int) string {
	if o.zone == 0 {
		return ""
	}
	zone := func(line int) int {
		if line < 0 || line >= len(o.cloth) {
			return -1
		}
		return o.spans[2*(len(o.cloth)-1-line)].zone
	}
	z := zone(line)
	top, bottom := line, line
	for zone(top-1) == z {
		top--
	}
	for zone(bottom+1) == z {
		bottom++
	}
	sign := " " + o.chart.paint(Faint, o.chart.symbols.bracket.at(line, top, bottom))
	if line == (top+bottom)/2 {
		sign += " " + o.chart.paint(Zone, safetext.Cut(o.chart.zoneName(z), o.zone))
	}
	return sign
}

// draw turns the dots into cells, two dots one above the other in each.
func (o *Overview) draw() []string {
	lines := make([]string, (len(o.dots)+1)/2)
	for i := range lines {
		low := 2 * (len(lines) - 1 - i)
		var b strings.Builder
		pair := func(col int) [2]Dot {
			if low+1 < len(o.dots) {
				return [2]Dot{o.dots[low+1][col], o.dots[low][col]}
			}
			return [2]Dot{{}, o.dots[low][col]}
		}
		for from, to := 0, 0; from < len(o.dots[low]); from = to {
			d := pair(from)
			for to = from + 1; to < len(o.dots[low]) && pair(to) == d; to++ {
			}
			b.WriteString(o.chart.dots(d[0], d[1], to-from))
		}
		lines[i] = b.String()
	}
	return lines
}
