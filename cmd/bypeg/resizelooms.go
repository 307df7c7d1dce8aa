package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/safetext"
	"bypeg/tui"
)

// forLoom is what a design becomes on one of several looms.
type forLoom struct {
	loom    fit.OwnedLoom
	wish    fit.Wish
	found   *fit.Resized   // nil where the design can't be had
	best    *fit.Candidate // nil where there is none
	markers []int          // pegs
	why     string         // there is none
}

type jsonLooms struct {
	Looms  []jsonLoom `json:"looms"`
	Schema int        `json:"schema"`
}

type jsonLoom struct {
	Candidate *jsonCandidate `json:"candidate"`
	Estimated []string       `json:"estimated"`
	LoomPegs  int            `json:"loom_pegs"`
	Markers   []int          `json:"markers"`
	Name      string         `json:"name"`
	Warning   string         `json:"warning,omitempty"`
	Warnings  []string       `json:"warnings"`
}

// resizeForLooms tells for each loom of a list what the design becomes on it: the first
// that resize would offer with that loom.
func (p *program) resizeForLooms(src tui.Source, ask *resizing) error {
	text, err := fit.ReadLooms(ask.looms)
	if err != nil {
		return &failure{exitIO, err, ""}
	}
	looms, found := fit.Looms(ask.looms, text)
	if len(found) > 0 {
		p.tell(found)
		return &failure{code: exitWrong}
	}
	o, err := p.loadSource(src)
	if err != nil {
		return err
	}
	var all []forLoom
	for _, l := range looms {
		all = append(all, p.onLoom(src, ask.wish, l))
	}
	out := bufio.NewWriter(p.out)
	if ask.json {
		writeLoomsJSON(out, all)
	} else {
		fmt.Fprintf(out, "%s on the looms of %s\n\n", safetext.Clean(o.Pattern.Title), safetext.Clean(ask.looms))
		p.writeLooms(out, o.Pattern, all)
	}
	if err := out.Flush(); err != nil {
		return written(err)
	}
	for _, one := range all {
		if one.best != nil {
			return nil
		}
	}
	return &failure{exitWrong, errors.New("the design fits none of the looms"), ""}
}

// onLoom is what the design becomes on one loom.
func (p *program) onLoom(src tui.Source, w fit.Wish, l fit.OwnedLoom) forLoom {
	w.Loom, w.Spacing, w.Gauge = l.Loom, l.Spacing, l.Gauge
	one := forLoom{loom: l, wish: w}
	r, err := fit.Resize(src.Text, w)
	if err != nil {
		one.why = err.Error()
		return one
	}
	one.found = r
	if r.Candidates[0].Fits == fit.No {
		one.why = "too short"
		return one
	}
	one.best = &r.Candidates[0]
	one.markers = p.markedPegs(one.best.Pattern)
	return one
}

// notes are what is doubtful on a loom, with what misses the wish.
func (one *forLoom) notes() []string {
	if one.found == nil {
		return nil
	}
	notes := slices.Clone(one.found.Notes)
	if one.best == nil {
		return notes
	}
	if text := missed(one.found, *one.best, one.wish); text != "" {
		notes = append([]string{text}, notes...)
	}
	return append(notes, one.best.Notes...)
}

// remarksOnLooms are the remarks on a list of looms.
func remarksOnLooms(all []forLoom) []remark {
	var remarks []remark
	for _, one := range all {
		if one.found != nil {
			for _, text := range one.found.Estimated {
				remarks = addRemark(remarks, remark{estimate: true, text: text, of: []string{one.loom.Name}})
			}
		}
		notes := one.notes()
		if one.why != "" && len(notes) == 0 { // else they tell more
			remarks = addRemark(remarks, remark{text: one.why, of: []string{one.loom.Name}})
		}
		for _, text := range notes {
			remarks = addRemark(remarks, remark{text: text, of: []string{one.loom.Name}})
		}
	}
	return ofAll(remarks, len(all))
}

// markedPegs are the pegs that carry markers, by this maker's numbers.
func (p *program) markedPegs(pat *pattern.Pattern) []int {
	_, way := p.chosen.settings.Way(&pat.Design)
	var pegs []int
	for _, m := range fit.MarkersOf(pattern.Order{Pattern: pat, Way: way}) {
		pegs = append(pegs, m.Peg)
	}
	return pegs
}

// mostMarkers is how many markers a line lists.
const mostMarkers = 8

func (p *program) writeLooms(w io.Writer, was *pattern.Pattern, all []forLoom) {
	lines := [][]string{{"loom", "has", "pegs", "markers", was.Form.RowWord() + "s", wideWord(was.Form), "high", "yarn"}}
	for _, one := range all {
		line := []string{one.loom.Name, fmt.Sprint(one.loom.Loom.Pegs)}
		if c := one.best; c != nil {
			line = append(line, sum(*c), markerList(one.markers), fmt.Sprint(c.Rows), size(c.Width), size(c.Height), yarn(c.Yarn))
		} else {
			line = append(line, "-", "-", "-", "-", "-", "-")
		}
		lines = append(lines, line)
	}
	for _, line := range aligned(lines) {
		fmt.Fprintln(w, line)
	}
	if remarks := remarksOnLooms(all); len(remarks) > 0 {
		fmt.Fprintln(w)
		p.writeRemarks(w, remarks)
	}
}

func markerList(pegs []int) string {
	var texts []string
	for i, peg := range pegs {
		if i == mostMarkers {
			texts = append(texts, "...")
			break
		}
		texts = append(texts, fmt.Sprint(peg))
	}
	if len(texts) == 0 {
		return "-"
	}
	return strings.Join(texts, ", ")
}

func writeLoomsJSON(w io.Writer, all []forLoom) {
	j := jsonLooms{Schema: jsonSchema}
	for _, one := range all {
		l := jsonLoom{LoomPegs: one.loom.Loom.Pegs, Markers: one.markers, Name: one.loom.Name, Warning: safetext.Clean(one.why), Warnings: orEmpty(one.notes())}
		if one.found != nil {
			l.Estimated = one.found.Estimated
		}
		l.Estimated = orEmpty(l.Estimated)
		if l.Markers == nil {
			l.Markers = []int{}
		}
		if one.best != nil {
			c := jsonOfCandidate(*one.best)
			l.Candidate = &c
		}
		j.Looms = append(j.Looms, l)
	}
	writeIndented(w, j)
}

// writeIndented writes a value as JSON that people can read too. The writer keeps its
// error.
func writeIndented(w io.Writer, v any) {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	_ = e.Encode(v)
}
