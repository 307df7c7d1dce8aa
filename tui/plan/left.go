package plan

import (
	"fmt"
	"math"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/tui/track"
)

// Amount is an amount of yarn to the tenth, without its sign.
func Amount(x float64, unit string) string { return measure.Number(math.Abs(x), 1) + " " + unit }

// SayLikely says up to where the yarn would likely do, where that is further than it is sure
// to; "" elsewhere.
func SayLikely(p *pattern.Pattern, l *fit.Left) string {
	if !l.Likely.Enough || l.Likely.Rows == l.Cautious.Rows || l.Past || l.Beside {
		return ""
	}
	return fmt.Sprintf("%s %d would likely do too, but it may run short by a little", p.Form.RowWord(), l.Done+l.Likely.Rows)
}

// SayStop says where the field of a pattern must end.
func SayStop(p *pattern.Pattern, l *fit.Left) string {
	word := p.Form.RowWord()
	s := l.Cautious
	row, enough := l.StopRow()
	spare := Amount(s.Spare, l.Unit) + " to spare"
	switch {
	case !enough && l.Past:
		return fmt.Sprintf("%s short for the rest: end the border a ridge earlier, or find more yarn", Amount(s.Spare, l.Unit))
	case l.Beside && !enough:
		return fmt.Sprintf("the field takes none of it, and %s are lacking for what comes after", Amount(s.Spare, l.Unit))
	case l.Beside && !l.Past:
		return "wherever you like: the field takes none of it; what comes after is covered, " + spare
	case !enough:
		return fmt.Sprintf("nowhere: %s short even for the shortest field", Amount(s.Spare, l.Unit))
	case l.Past:
		return "the rest and the bind-off are covered, " + spare
	case s.Begun:
		back := fmt.Sprintf("the %s that is begun", word)
		if s.Rows < 0 {
			back += " and " + track.Plural(-s.Rows, word) + " below it"
		}
		return fmt.Sprintf("too late: take back %s, to the end of %s %d; then it is enough, %s", back, word, row, spare)
	case s.Rows < 0:
		return fmt.Sprintf("too late: take back %s, to the end of %s %d; then it is enough, %s", track.Plural(-s.Rows, word), word, row, spare)
	case row >= l.Planned:
		text := fmt.Sprintf("as planned after %s %d: it is enough", word, l.Planned)
		if more := (row - l.Planned) / l.Repeat; more > 0 {
			return text + fmt.Sprintf(", and for %s more of %s, up to %s %d", track.Plural(more, "repeat"), track.Plural(l.Repeat, word), word, row)
		}
		return text + ", " + spare
	case s.Rows == 0:
		next := "the border comes now"
		if last := p.Zones[len(p.Zones)-1]; !last.Border {
			next = "bind off now"
		}
		return fmt.Sprintf("here, after %s %d: %s, %s", word, row, next, spare)
	}
	return fmt.Sprintf("after %s %d, %s from here, a whole repeat; %s", word, row, track.Plural(s.Rows, word), spare)
}
