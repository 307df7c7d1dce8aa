package main

import (
	"fmt"
	"io"

	"bypeg/pattern/safetext"
	"bypeg/tui/report"
)

// writeParts writes a report below its title.
func (p *program) writeParts(w io.Writer, title string, parts []report.Part) {
	style, width := p.style(), p.width()
	fmt.Fprintln(w, style.Strong(safetext.Cut(title, width)))
	fmt.Fprintln(w)
	for _, line := range report.Lay(parts, width) {
		fmt.Fprintln(w, style.Faint(line.Label)+line.Text)
	}
}
