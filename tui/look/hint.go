package look

import "bypeg/pattern/safetext"

// HintLine names keys on one line: the most used ones, as many as fit, and behind them
// those that always have room. A key without a word is named with the one behind it.
func (s *Style) HintLine(most, always []Hint, width int) string {
	end := s.hints(always)
	line := ""
	for i, h := range most {
		if h.Word == "" {
			continue
		}
		next := s.hints(most[:i+1])
		if safetext.Width(next)+2+safetext.Width(end) > width {
			break
		}
		line = next
	}
	if line != "" {
		line += "  "
	}
	return safetext.Cut(line+end, width)
}

func (s *Style) hints(hints []Hint) string {
	line, gap := "", ""
	for _, h := range hints {
		line += gap + s.KeyName(h.Key)
		gap = " "
		if h.Word != "" {
			line += " " + h.Word
			gap = "  "
		}
	}
	return line
}
