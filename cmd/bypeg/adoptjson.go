package main

import (
	"bufio"
	"fmt"

	"bypeg/pattern/adopt"
	"bypeg/pattern/safetext"
)

// writeAdoptedJSON writes an adopted pattern for programs: its rows as rows --json has them,
// what the fabric is, and the pattern file.
func writeAdoptedJSON(w *bufio.Writer, a *adopt.Adopted, made string, warnings, directives safetext.Diagnostics) {
	p := a.Pattern
	fmt.Fprintf(w, "{\n  \"directives\": %s,\n  \"fabric\": %s,\n  \"form\": %q,\n  \"pattern\": %s,\n  \"pegs\": %d,\n  \"rows\": [",
		compact(jsonNotes(directives)), compact(a.FabricSaid()), p.Form, compact(made), p.Pegs)
	for i, r := range a.Rows {
		if i > 0 {
			w.WriteByte(',')
		}
		row := jsonRow{From: 1, Row: r.Number, Runs: jsonRuns(nil, r.Runs, ""), To: p.Pegs}
		if r.Direction.From() != p.Way.Peg1 {
			row.From, row.To = row.To, row.From
		}
		w.WriteString("\n    ")
		w.Write(compact(row))
	}
	fmt.Fprintf(w, "\n  ],\n  \"schema\": %d,\n  \"warnings\": %s\n}\n", jsonSchema, compact(jsonNotes(warnings)))
}
