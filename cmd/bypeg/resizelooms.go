package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/safetext"
	"bypeg/tui"
)

// forLoom is what a design becomes on one of several looms.
type forLoom struct {
	loom    fit.OwnedLoom
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
	LoomPegs  int            `json:"loom_pegs"`
	Markers   []int          `json:"markers"`
	Name      string         `json:"name"`
	Warning   string         `json:"warning,omitempty"`
}

// resizeForLooms tells for each loom of a list what the design becomes on it: as many
// pegs as it has, or the size that was asked for.
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
	estimates := map[string]bool{}
	for _, l := range looms {
		w := ask.wish
		w.Loom, w.Spacing, w.Gauge = l.Loom, l.Spacing, l.Gauge
		w.Fill = !ask.sameSize && w.Width == 0
		one := forLoom{loom: l}
		r, err := fit.Resize(src.Text, w)
		switch {
		case err != nil:
			one.why = err.Error()
		case r.Candidates[0].Fits == fit.No:
			one.why = "too short"
		default:
			one.best = &r.Candidates[0]
			one.markers = p.markedPegs(one.best.Pattern)
			for _, text := range r.Estimated {
				estimates[text] = true
			}
		}
		all = append(all, one)
	}
	out := bufio.NewWriter(p.out)
	if ask.json {
		writeLoomsJSON(out, all)
	} else {
		fmt.Fprintf(out, "%s on the looms of %s\n\n", safetext.Clean(o.Pattern.Title), safetext.Clean(ask.looms))
		writeLooms(out, o.Pattern, all)
		if len(estimates) > 0 {
			fmt.Fprintln(out, "\nestimate: where a loom's spacing differs and no gauge is given, the gauge is carried over: work a swatch first")
		}
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

func writeLooms(w io.Writer, was *pattern.Pattern, all []forLoom) {
	lines := [][]string{{"loom", "has", "pegs", "markers", was.Form.RowWord() + "s", "width", "height", "yarn"}}
	for _, one := range all {
		line := []string{one.loom.Name, fmt.Sprint(one.loom.Loom.Pegs)}
		if c := one.best; c != nil {
			line = append(line, sum(*c), markerList(one.markers), fmt.Sprint(c.Rows), size(c.Width), size(c.Height), yarn(c.Yarn))
		} else {
			line = append(line, "-", "-", "-", "-", "-", "-")
		}
		lines = append(lines, line)
	}
	writeColumns(w, lines)
	for _, one := range all {
		if one.best == nil {
			fmt.Fprintf(w, "%s: %s\n", one.loom.Name, safetext.Clean(one.why))
		}
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
		l := jsonLoom{LoomPegs: one.loom.Loom.Pegs, Markers: one.markers, Name: one.loom.Name, Warning: safetext.Clean(one.why)}
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
