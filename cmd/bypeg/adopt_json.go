package main

import (
	"encoding/json"

	"bypeg/pattern"
	"bypeg/pattern/adopt"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
)

// adoptJSON prints an object, with the version of what adopt prints.
func (p *program) adoptJSON(values map[string]any) error {
	values["schema"] = jsonSchema
	e := json.NewEncoder(p.out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return written(e.Encode(values))
}

// placeJSON is something said of a place in the text.
type placeJSON struct {
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
}

func places(diags safetext.Diagnostics) []placeJSON {
	all := []placeJSON{}
	for _, d := range diags {
		all = append(all, placeJSON{d.Line, d.Col, d.Message, d.Hint})
	}
	return all
}

// rowJSON is a row on the loom: from one peg to another, with the runs in the order of work.
type rowJSON struct {
	Row  int       `json:"row"`
	From int       `json:"from"`
	To   int       `json:"to"`
	Runs []runJSON `json:"runs"`
}

type runJSON struct {
	Stitch string `json:"stitch"`
	Count  int    `json:"count"`
}

func rowsJSON(a *adopt.Adopted) []rowJSON {
	o := pattern.Order{Pattern: a.Pattern, Way: a.Pattern.Way}
	all := make([]rowJSON, 0, len(a.Rows))
	for i, r := range a.Rows {
		stitches := a.Pattern.Grid.Row(i + 1).Stitches()
		row := rowJSON{Row: r.Number, From: o.Peg(o.Column(i+1, 0)), To: o.Peg(o.Column(i+1, stitches-1))}
		for _, run := range r.Runs {
			if run.Stitch != rowtext.NoStitch {
				row.Runs = append(row.Runs, runJSON{run.Stitch.Name(), run.Count})
			}
		}
		all = append(all, row)
	}
	return all
}
