package main

import (
	"fmt"
	"io"

	"bypeg/pattern/safetext"
	"bypeg/tui/report"
)

func (p *program) writeFitted(w io.Writer, r *report.Report) {
	style, width := p.style(), p.width()
	fmt.Fprintln(w, style.Strong(safetext.Cut(r.Title(), width)))
	fmt.Fprintln(w)
	for _, line := range report.Lay(r.Parts(), width) {
		fmt.Fprintln(w, style.Faint(line.Label)+line.Text)
	}
}
