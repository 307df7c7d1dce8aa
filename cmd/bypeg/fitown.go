package main

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
	"bypeg/tui"
	"bypeg/tui/report"
)

// newestOwn is what --own says alone: the finished piece that fits best.
const newestOwn = "newest"

// howToMeasure is the hint where nothing was put down.
const howToMeasure = `put down what a finished piece measures and weighs: bypeg measured FILE "21.5 x 30 cm, 62 g", or i on the shelf`

// owns are the maker's finished pieces by whose figures a pattern could be reckoned. A text
// that is no right pattern has none: loading it says why.
func (p *program) owns(src tui.Source) []report.Own {
	pat, _ := file.Load("", src.Text)
	if pat == nil {
		return nil
	}
	return p.desk().Owns(src.Name, &pat.Design)
}

// byOwn is the finished piece that --own asks for; nil where it does not ask.
func (p *program) byOwn(fitting []report.Own, ask *fitting) (*report.Own, error) {
	switch {
	case ask.ownPiece == "":
		return nil, nil
	case ask.ownPiece != newestOwn:
		return ownCalled(p.desk().AllOwns(), ask.ownPiece)
	case len(fitting) > 0:
		return &fitting[0], nil
	}
	hint := howToMeasure
	if all := p.desk().AllOwns(); len(all) > 0 {
		hint = fmt.Sprintf("for the figures of another one write --own=%q", safetext.Clean(all[0].Title))
	}
	return nil, &failure{exitWrong, fmt.Errorf("no finished piece of yours that was measured is of this pattern, or on such pegs in such yarn"), hint}
}

// ownCalled is the newest finished piece of a name.
func ownCalled(all []report.Own, title string) (*report.Own, error) {
	var known []string
	for i := range all {
		if strings.EqualFold(all[i].Title, strings.TrimSpace(title)) {
			return &all[i], nil
		}
		known = append(known, all[i].Title)
	}
	hint := howToMeasure
	if near := safetext.Nearest(title, known); near != "" {
		hint = "did you mean " + near + "?"
	} else if len(known) > 0 {
		slices.Sort(known)
		hint = "those that were are " + strings.Join(slices.Compact(known), ", ")
	}
	return nil, &failure{exitWrong, fmt.Errorf("no finished piece called %q was measured", safetext.Clean(title)), hint}
}

// withFigures is a pattern's text with the figures of a finished piece. A text that is no
// right pattern stays as it is.
func withFigures(text []byte, by *report.Own) (changed []byte, carried []string, err error) {
	if pat, _ := file.Load("", text); pat == nil {
		return text, nil, nil
	}
	if changed, carried, err = by.Figures.In(text); err != nil {
		return nil, nil, notInto(err)
	}
	return changed, carried, nil
}
