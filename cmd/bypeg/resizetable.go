package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
	"bypeg/tui/report"
	"bypeg/tui/track"
)

// writeResized writes candidates side by side: those that the loom has pegs for, and below
// them those that it has not.
func (p *program) writeResized(w io.Writer, r *fit.Resized, ask *resizing) {
	was := r.Pattern
	fmt.Fprintf(w, "%s: %s and %s now\n", safetext.Clean(was.Title), track.Plural(was.Pegs, "peg"), track.Plural(was.Grid.Rows(), was.Form.RowWord()))
	if r.Wanted.Width > 0 && r.Wanted.Height > 0 {
		width, height := wanted(r, ask.wish)
		fmt.Fprintf(w, "wanted: %s %s and %s high\n", width, wideWord(was.Form), height)
	}
	if loom := r.Candidates[0].Pattern.Loom.Pegs; loom > 0 {
		fmt.Fprintf(w, "loom: %s%s\n", track.Plural(loom, "peg"), ask.ownLoom(", as the pattern says"))
	}
	fmt.Fprintln(w)
	lines := [][]string{{"", "pegs", was.Form.RowWord() + "s", wideWord(was.Form), "off", "high", "off", "yarn"}}
	for i, c := range r.Candidates {
		lines = append(lines, []string{
			fmt.Sprint(i + 1), sum(c), fmt.Sprint(c.Rows), size(c.Width), off(c.Width, r.Wanted.Width), size(c.Height), off(c.Height, r.Wanted.Height), yarn(c.Yarn),
		})
	}
	table := aligned(lines)
	switch short := slices.IndexFunc(r.Candidates, func(c fit.Candidate) bool { return c.Fits == fit.No }); {
	case short == 0:
		table = slices.Insert(table, 0, tooMany)
	case short > 0:
		table = slices.Insert(table, short+1, "", tooMany)
	}
	fmt.Fprintln(w, strings.Join(table, "\n"))
	if all := remarksOn(r); len(all) > 0 {
		fmt.Fprintln(w)
		p.writeRemarks(w, all)
	}
}

// tooMany stands above the candidates that do not go on the loom.
const tooMany = "too many pegs for the loom:"

// wanted is the size that was asked for, to the millimetre, and where none was, the one
// that is kept.
func wanted(r *fit.Resized, w fit.Wish) (width, height string) {
	width, height = r.Wanted.Width.Rough(), r.Wanted.Height.Rough()
	if w.Width > 0 {
		width = w.Width.String()
	}
	if w.Height > 0 {
		height = w.Height.String()
	}
	return width, height
}

// ownLoom is a text for where the loom is the pattern's own and nobody asked for it, or
// nothing.
func (ask *resizing) ownLoom(text string) string {
	if ask.loom > 0 {
		return ""
	}
	return text
}

// remark is what is told beside a table: an estimate or a note, and of which lines, where
// it is not of all.
type remark struct {
	estimate bool
	text     string
	of       []string
}

// remarksOn are the remarks on candidates.
func remarksOn(r *fit.Resized) []remark {
	var all []remark
	for _, text := range r.Estimated {
		all = append(all, remark{estimate: true, text: text})
	}
	for _, text := range r.Notes {
		all = append(all, remark{text: text})
	}
	for i, c := range r.Candidates {
		for _, text := range c.Notes {
			all = addRemark(all, remark{text: text, of: []string{fmt.Sprint(i + 1)}})
		}
	}
	return ofAll(all, len(r.Candidates))
}

// addRemark adds a remark; one that is made already is of one line more.
func addRemark(all []remark, r remark) []remark {
	for i := range all {
		if all[i].text == r.text && all[i].estimate == r.estimate && len(all[i].of) > 0 {
			all[i].of = append(all[i].of, r.of...)
			return all
		}
	}
	return append(all, r)
}

// ofAll names no lines where a remark is of all of several.
func ofAll(all []remark, lines int) []remark {
	for i := range all {
		if lines > 1 && len(all[i].of) == lines {
			all[i].of = nil
		}
	}
	return all
}

// writeRemarks writes remarks, broken between words where they are longer than a line.
func (p *program) writeRemarks(w io.Writer, all []remark) {
	for _, r := range all {
		label := "note"
		if r.estimate {
			label = "estimate"
		}
		if len(r.of) > 0 {
			label += " on " + strings.Join(r.of, ", ")
		}
		for _, line := range report.Wrapped(label+": "+safetext.Clean(r.text), max(20, p.width()-1)) {
			fmt.Fprintln(w, line)
		}
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
	return l.Rough()
}

func wideWord(form pattern.Form) string {
	if form == pattern.Tube {
		return "round"
	}
	return "wide"
}

func sizeText(form pattern.Form, width, height measure.Length) string {
	return fmt.Sprintf("%s %s and %s high", width.Rough(), wideWord(form), height.Rough())
}

// off is by how much a size misses the wished one: "+7 %", "-14 %", "0 %".
func off(is, wanted measure.Length) string {
	if is <= 0 || wanted <= 0 {
		return "-"
	}
	percent := math.Round(100 * float64(is/wanted-1))
	if percent > 0 {
		return fmt.Sprintf("+%.0f %%", percent)
	}
	return fmt.Sprintf("%.0f %%", percent+0) // no "-0"
}

func yarn(metres float64) string {
	if metres == 0 {
		return "-"
	}
	return fmt.Sprintf("%.0f m", metres)
}

// missedFrom is from what part on it is told that a size misses the wished one.
const missedFrom = 0.05

// missed says which size of a candidate misses the wished one: "25.5 cm and not 30 cm
// wide". It is empty where neither does.
func missed(r *fit.Resized, c fit.Candidate, w fit.Wish) string {
	var texts []string
	width, height := wanted(r, w)
	for _, s := range []struct {
		is, wanted measure.Length
		text, word string
	}{{c.Width, r.Wanted.Width, width, wideWord(r.Pattern.Form)}, {c.Height, r.Wanted.Height, height, "high"}} {
		if s.is > 0 && s.wanted > 0 && math.Abs(float64(s.is/s.wanted-1)) > missedFrom && s.is.Rough() != s.text {
			texts = append(texts, fmt.Sprintf("%s and not %s %s", s.is.Rough(), s.text, s.word))
		}
	}
	return strings.Join(texts, ", ")
}

// nearerOnLonger is the number of a candidate that comes nearer to the wish than one, but
// that the loom has not the pegs for; 0 where there is none.
func nearerOnLonger(r *fit.Resized, c fit.Candidate) int {
	if c.Fits != fit.Yes {
		return 0
	}
	return 1 + slices.IndexFunc(r.Candidates, func(other fit.Candidate) bool { return other.Fits == fit.No && other.Error < c.Error })
}

// candidateSize is a candidate in a few words.
func candidateSize(c fit.Candidate) string {
	text := fmt.Sprintf("%s, %s", track.Plural(c.Pegs, "peg"), track.Plural(c.Rows, c.Pattern.Form.RowWord()))
	if c.Width > 0 {
		text += ", " + sizeText(c.Pattern.Form, c.Width, c.Height)
	}
	return text
}

// aligned are lines of cells below each other, two blanks between.
func aligned(lines [][]string) []string {
	wide := make([]int, len(lines[0]))
	for _, line := range lines {
		for i, cell := range line {
			wide[i] = max(wide[i], safetext.Width(cell))
		}
	}
	var all []string
	for _, line := range lines {
		var b strings.Builder
		for i, cell := range line {
			if i > 0 {
				b.WriteString("  ")
			}
			b.WriteString(safetext.Pad(cell, wide[i]))
		}
		all = append(all, strings.TrimRight(b.String(), " "))
	}
	return all
}
