package look

import "bypeg/pattern/safetext"

// HintLine names keys on one line: the most used ones, as many as fit, and behind them
// those that always have room.
func (s *Style) HintLine(most, always []Hint, width int) string {
	end := ""
	for _, h := range always {
		end = between(end, s.hint(h))
	}
	line := ""
	for _, h := range most {
		next := between(line, s.hint(h))
		if safetext.Width(next)+2+safetext.Width(end) > width {
			break
		}
		line = next
	}
	return safetext.Cut(between(line, end), width)
}

func (s *Style) hint(h Hint) string { return s.KeyName(h.Key) + " " + h.Word }

func between(a, b string) string {
	if a == "" {
		return b
	}
	return a + "  " + b
}
