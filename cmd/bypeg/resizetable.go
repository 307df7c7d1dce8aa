package main

import (
	"fmt"
	"io"
	"strings"

	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// writeResized writes candidates side by side.
func writeResized(w io.Writer, r *fit.Resized) {
	was := r.Pattern
	fmt.Fprintf(w, "%s: %s and %s now\n", safetext.Clean(was.Title), track.Plural(was.Pegs, "peg"), track.Plural(was.Grid.Rows(), was.Form.RowWord()))
	if r.Wanted.Width > 0 && r.Wanted.Height > 0 {
		fmt.Fprintf(w, "wanted: %s wide and %s high\n", r.Wanted.Width, r.Wanted.Height)
	}
	fmt.Fprintln(w)
	lines := [][]string{{"", "pegs", was.Form.RowWord() + "s", "width", "height", "off", "yarn", "loom"}}
	for i, c := range r.Candidates {
		lines = append(lines, []string{
			fmt.Sprint(i + 1), sum(c), fmt.Sprint(c.Rows), size(c.Width), size(c.Height), off(c.Error), yarn(c.Yarn), fits(c),
		})
	}
	writeColumns(w, lines)
	remarks(w, r)
	for i, c := range r.Candidates {
		for _, note := range c.Notes {
			fmt.Fprintf(w, "note on %d: %s\n", i+1, safetext.Clean(note))
		}
	}
}

// remarks are what holds for all candidates.
func remarks(w io.Writer, r *fit.Resized) {
	if len(r.Estimated)+len(r.Notes) > 0 {
		fmt.Fprintln(w)
	}
	for _, text := range r.Estimated {
		fmt.Fprintf(w, "estimate: %s\n", safetext.Clean(text))
	}
	for _, text := range r.Notes {
		fmt.Fprintf(w, "note: %s\n", safetext.Clean(text))
	}
}

// sum is the pegs as borders and what lies between: "51 = 4 + 43 + 4".
func sum(c fit.Candidate) string {
	if c.Sides == 0 {
		return fmt.Sprint(c.Pegs)
	}
	return fmt.Sprintf("%d = %d + %d + %[2]d", c.Pegs, c.Sides, c.Pegs-2*c.Sides)
}

func size(l measure.Length) string {
	if l == 0 {
		return "-"
	}
	return l.String()
}

func off(percent float64) string { return measure.Number(percent, 1) + " %" }

func yarn(metres float64) string {
	if metres == 0 {
		return "-"
	}
	return fmt.Sprintf("%.0f m", metres)
}

func fits(c fit.Candidate) string {
	switch c.Fits {
	case fit.Yes:
		return "fits"
	case fit.No:
		return "too short"
	}
	return "-"
}

// candidateSize is a candidate in a few words.
func candidateSize(c fit.Candidate) string {
	text := fmt.Sprintf("%s, %s", track.Plural(c.Pegs, "peg"), track.Plural(c.Rows, c.Pattern.Form.RowWord()))
	if c.Width > 0 {
		text += fmt.Sprintf(", %s x %s", c.Width, c.Height)
	}
	return text
}

// writeColumns writes lines of cells below each other, two blanks between.
func writeColumns(w io.Writer, lines [][]string) {
	wide := make([]int, len(lines[0]))
	for _, line := range lines {
		for i, cell := range line {
			wide[i] = max(wide[i], safetext.Width(cell))
		}
	}
	for _, line := range lines {
		var b strings.Builder
		for i, cell := range line {
			if i > 0 {
				b.WriteString("  ")
			}
			b.WriteString(safetext.Pad(cell, wide[i]))
		}
		fmt.Fprintln(w, strings.TrimRight(b.String(), " "))
	}
}
