package look

import (
	"strings"

	"bypeg/pattern/safetext"
)

// Wrap breaks remarks into lines of a width. A remark that fits on a line is not
// broken; a longer one is broken between words, and within a word only where that is
// longer than a line. Remarks stand side by side where they fit.
func Wrap(width int, remarks ...string) []string {
	if width < 1 {
		return nil
	}
	var lines []string
	put := func(text string) {
		if text == "" {
			return
		}
		if n := len(lines) - 1; n >= 0 && safetext.Width(lines[n])+1+safetext.Width(text) <= width {
			lines[n] += " " + text
			return
		}
		for safetext.Width(text) > width {
			head := safetext.Cut(text, width)
			if head == "" {
				return // not even one letter has room
			}
			lines = append(lines, head)
			text = text[len(head):]
		}
		lines = append(lines, text)
	}
	for _, remark := range remarks {
		remark = strings.TrimSpace(remark)
		if safetext.Width(remark) <= width {
			put(remark)
			continue
		}
		for word := range strings.FieldsSeq(remark) {
			put(word)
		}
	}
	return lines
}

// Around is so many of the lines that those from from to to are among them, with as many
// before them as after where there are.
func Around(lines []string, from, to, room int) []string {
	if len(lines) <= room {
		return lines
	}
	first := max(0, min((from+to-room)/2, len(lines)-room, from))
	return lines[first : first+room]
}
