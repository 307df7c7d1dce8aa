package report

import (
	"strings"

	"bypeg/pattern/safetext"
)

// # The lines of the report
//
// The labels stand in a column of their own, and above the words where there is little room.
// The command prints these lines and the screen scrolls them: both say the very same.

const (
	labels    = 10
	narrow    = 50 // below it labels have lines of their own
	narrowIn  = 2  // and the words stand in so far
	readable  = 92 // words are not spread wider
	leastText = 20 // cells for words, however little room there is
)

// Line is a line of the report as it is shown: the column of labels, to be painted faintly,
// and the words behind it.
type Line struct{ Label, Text string }

// Lay is a report below its title, in lines of a width. They are safe to show. A text that
// is longer than a line goes on below, two cells further in.
func Lay(parts []Part, width int) []Line {
	in := labels
	if width < narrow {
		in = narrowIn
	}
	var lines []Line
	for _, part := range parts {
		label := part.Label
		if in < labels && len(part.Lines) > 0 {
			lines, label = append(lines, Line{Label: label}), ""
		}
		for _, text := range part.Lines {
			for _, line := range Wrapped(safetext.Clean(text), max(leastText, min(width, readable)-in)) {
				lines = append(lines, Line{safetext.Pad(label, in), line})
				label = ""
			}
		}
	}
	return lines
}

// hanging is how far in a text goes on below its first line.
const hanging = "  "

// Wrapped breaks a text between words, and within one only where that is longer than a
// line. What follows the first line stands two cells further in.
func Wrapped(text string, width int) []string {
	var lines []string
	line, start := "", ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == start:
		case safetext.Width(line)+1+safetext.Width(word) > width:
			lines = append(lines, line)
			line, start = hanging, hanging
		default:
			line += " "
		}
		for safetext.Width(line)+safetext.Width(word) > width {
			head := safetext.Cut(word, width-safetext.Width(line))
			lines = append(lines, line+head)
			line, start, word = hanging, hanging, word[len(head):]
		}
		line += word
	}
	return append(lines, line)
}
