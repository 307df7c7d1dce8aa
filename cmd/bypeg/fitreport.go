package main

import (
	"fmt"
	"io"
	"strings"

	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/report"
)

// labelWidth is the column of labels.
const labelWidth = 9

func (p *program) writeFitted(w io.Writer, r *report.Report) {
	style, width := p.style(), p.width()
	fmt.Fprintln(w, style.Strong(safetext.Cut(r.Title(), width)))
	fmt.Fprintln(w)
	for _, part := range r.Parts() {
		writePart(w, style, part, width)
	}
}

func writePart(w io.Writer, style *look.Style, part report.Part, width int) {
	label := part.Label
	for _, text := range part.Lines {
		for i, line := range wrapped(safetext.Clean(text), max(20, width-labelWidth-1)) {
			if i > 0 {
				line = "  " + line
			}
			fmt.Fprintf(w, "%s %s\n", style.Faint(safetext.Pad(label, labelWidth)), line)
			label = ""
		}
	}
}

// wrapped breaks a text between words; what follows the first line is two cells narrower.
func wrapped(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		room := width
		if len(lines) > 0 {
			room -= 2
		}
		if line != "" && safetext.Width(line)+1+safetext.Width(word) > room {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}
