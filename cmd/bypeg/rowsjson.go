package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
)

// Rows as programs are told them. A pattern may have a hundred thousand rows, so they
// are written one by one, a line each.

// jsonRows is what --json prints of rows.
type jsonRows struct {
	form                 pattern.Form
	pegs                 int
	rows                 int
	row                  func(i int) jsonRow // from 0
	warnings, directives []jsonNote
}

// jsonRow is one row. Its fields stand in the order of their names, as all JSON here
// does.
type jsonRow struct {
	From int       `json:"from"` // the peg it begins on
	Row  int       `json:"row"`
	Runs []jsonRun `json:"runs"` // in the order of work
	To   int       `json:"to"`   // the peg it ends on
}

type jsonRun struct {
	Count  int    `json:"count"`
	Stitch string `json:"stitch"`
	Yarn   string `json:"yarn,omitempty"` // of a piece with several
}

// jsonNote is something said of a place in the text.
type jsonNote struct {
	Column  int    `json:"column"`
	Line    int    `json:"line"`
	Message string `json:"message"`
}

// jsonNotes are diagnostics as programs are told them, the hint in brackets.
func jsonNotes(diags safetext.Diagnostics) []jsonNote {
	notes := make([]jsonNote, len(diags))
	for i, d := range diags {
		notes[i] = jsonNote{d.Col, d.Line, d.Message}
		if d.Hint != "" {
			notes[i].Message += " (" + d.Hint + ")"
		}
	}
	return notes
}

// jsonRuns appends runs in one yarn.
func jsonRuns(to []jsonRun, runs []rowtext.Run, yarn string) []jsonRun {
	for _, r := range runs {
		to = append(to, jsonRun{r.Count, r.Stitch.Name(), yarn})
	}
	return to
}

// jsonOfPattern is a pattern's rows, every peg told, as one maker works them.
func jsonOfPattern(o pattern.Order, warnings safetext.Diagnostics) jsonRows {
	p := o.Pattern
	return jsonRows{
		form: p.Form, pegs: p.Pegs, rows: p.Grid.Rows(),
		row: func(i int) jsonRow {
			r := jsonRow{From: 1, Row: i + 1, To: p.Pegs}
			if o.Direction(r.Row).From() != o.Way.Peg1 {
				r.From, r.To = r.To, r.From
			}
			for _, s := range stretches(o, r.Row) {
				yarn := ""
				if len(p.Yarns) > 1 {
					yarn = p.Yarns[s.yarn].Called()
				}
				r.Runs = jsonRuns(r.Runs, s.runs, yarn)
			}
			return r
		},
		warnings: jsonNotes(warnings), directives: []jsonNote{},
	}
}

// writeRowsJSON writes rows. The writer keeps its error.
func writeRowsJSON(w *bufio.Writer, rows jsonRows) {
	fmt.Fprintf(w, "{\n  \"directives\": %s,\n  \"form\": %q,\n  \"pegs\": %d,\n  \"rows\": [",
		compact(rows.directives), rows.form, rows.pegs)
	for i := range rows.rows {
		if i > 0 {
			w.WriteByte(',')
		}
		w.WriteString("\n    ")
		w.Write(compact(rows.row(i)))
	}
	if rows.rows > 0 {
		w.WriteString("\n  ")
	}
	fmt.Fprintf(w, "],\n  \"schema\": %d,\n  \"warnings\": %s\n}\n", jsonSchema, compact(rows.warnings))
}

// writeErrorsJSON writes why there are no rows.
func writeErrorsJSON(w *bufio.Writer, errs safetext.Diagnostics) {
	fmt.Fprintf(w, "{\n  \"errors\": %s,\n  \"schema\": %d\n}\n", compact(jsonNotes(errs)), jsonSchema)
}

// compact is a value in one line.
func compact(v any) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	_ = e.Encode(v) // numbers and text: nothing that JSON has not
	return bytes.TrimSuffix(b.Bytes(), []byte("\n"))
}
