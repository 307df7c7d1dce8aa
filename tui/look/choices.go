package look

import (
	"strings"

	"bypeg/pattern/safetext"
)

// Choices are remarks to choose from, wrapped, with the hand at one of them; those that can't
// be are faint, and faint may be nil. The lines of the one under the hand are from up to to.
func (s *Style) Choices(width int, said []string, chosen int, faint func(i int) bool) (lines []string, from, to int) {
	hand := s.Here + " "
	indent := strings.Repeat(" ", safetext.Width(hand))
	for i, words := range said {
		for n, line := range Wrap(width-len(indent), words) {
			switch {
			case i == chosen && n == 0:
				from = len(lines)
				line = s.Strong(hand + line)
			case i == chosen:
				line = s.Strong(indent + line)
			case faint != nil && faint(i):
				line = s.Faint(indent + line)
			default:
				line = indent + line
			}
			lines = append(lines, line)
		}
		if i == chosen {
			to = len(lines)
		}
	}
	return lines, from, to
}
