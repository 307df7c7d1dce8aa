package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"unicode/utf8"

	"bypeg/pattern"
	"bypeg/pattern/adopt"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// rowsOfText reads written rows and prints what they are. What is wrong with them, and
// what could be read otherwise, is told with a caret.
func (p *program) rowsOfText(ask rowsAsked, name, text string) error {
	p.tellTrouble()
	options := rowtext.Options{Pegs: ask.pegs, Size: ask.size}
	if ask.form == pattern.Tube.String() {
		options.Form = pattern.Tube
	}
	src := safetext.NewSource(name, text)
	if at, ok := noText(text); !ok {
		return p.refuse(ask, notText(src, at))
	}
	read, err := rowtext.Read(text, options)
	if err != nil {
		return p.refuse(ask, misread(src, err))
	}
	warnings := pointed(src, read.Warnings, safetext.Warning)
	if ask.strict && len(warnings) > 0 {
		return p.refuse(ask, asErrors(warnings))
	}
	way := p.follow(text, read)
	directives := pointed(src, read.Directives, safetext.Note)
	out := bufio.NewWriter(p.out)
	switch {
	case ask.json:
		writeRowsJSON(out, jsonOfText(read, way, jsonNotes(warnings), jsonNotes(directives)))
		return written(out.Flush())
	case ask.sheet.wanted():
		if err := ask.sheet.ofText(out, read, way, p.chosen.settings.Hand); err != nil {
			return err
		}
	default:
		writeRead(out, read, way)
	}
	writeDirectives(out, directives)
	if err := out.Flush(); err != nil {
		return written(err)
	}
	p.tell(warnings)
	if marksWrongSide(read) {
		fmt.Fprintln(p.err, "note: "+adopt.WordForWordNote+"bypeg adopt FILE --from needles turns the wrong-side rows round")
	}
	return nil
}

// follow is the way in which this maker works the rows of a text, and turns them round
// where that is the other way. A text that does not say how its rows run is written for
// the right hand; followed word for word from the left it would come out mirrored.
func (p *program) follow(text string, read *rowtext.Reading) pattern.Way {
	design := pattern.Design{Way: pattern.DefaultWay(pattern.RightHand)}
	if row1, said := adopt.StatedWay(read); said {
		design.Way = pattern.Way{Peg1: row1.From(), Row1: row1}
		design.WrittenFor = p.chosen.settings.Hand // both hands go the way it says
	}
	_, way := p.chosen.settings.Way(&design)
	if way.Row1 != design.Way.Row1 {
		turnRound(read.Rows)
	}
	return way
}

// turnRound has rows worked from their other ends. Rows that share their runs go on doing so.
func turnRound(rows []rowtext.Row) {
	type kept struct {
		first *rowtext.Run
		runs  int
	}
	turned := map[kept][]rowtext.Run{}
	for i, r := range rows {
		if len(r.Runs) == 0 {
			continue
		}
		key := kept{&r.Runs[0], len(r.Runs)}
		if turned[key] == nil {
			turned[key] = rowtext.OtherWay(r.Runs)
		}
		rows[i].Runs = turned[key]
	}
}

// marksWrongSide tells whether a text calls rows of a panel wrong-side ones.
func marksWrongSide(read *rowtext.Reading) bool {
	return read.Form == pattern.Panel && slices.ContainsFunc(read.Rows, func(r rowtext.Row) bool { return r.Wrong })
}

// noText finds the first byte that is no UTF-8; ok is true where there is none. Editors
// save text in other ways too, and then no sign can be trusted.
func noText(text string) (at int, ok bool) {
	if utf8.ValidString(text) {
		return 0, true
	}
	for {
		r, size := utf8.DecodeRuneInString(text[at:])
		if r == utf8.RuneError && size == 1 {
			return at, false
		}
		at += size
	}
}

// notText is what a text is told that is no UTF-8 from a place on.
func notText(src *safetext.Source, at int) safetext.Diagnostics {
	return safetext.Diagnostics{src.At(at, at+1, safetext.Error, "the text is not UTF-8 from here on", "save the file as UTF-8 in your editor")}
}

// misread is why a text can't be read as rows.
func misread(src *safetext.Source, err error) safetext.Diagnostics {
	var errs rowtext.Errors
	if !errors.As(err, &errs) {
		return safetext.Diagnostics{src.At(0, 0, safetext.Error, err.Error(), "")}
	}
	var diags safetext.Diagnostics
	for _, e := range errs {
		diags = append(diags, src.At(e.Start, e.End, safetext.Error, e.Msg, e.Hint))
	}
	return diags
}

// pointed are notes with their places.
func pointed(src *safetext.Source, notes []rowtext.Note, severity safetext.Severity) safetext.Diagnostics {
	var diags safetext.Diagnostics
	for _, n := range notes {
		diags = append(diags, src.At(n.Start, n.End, severity, n.Msg, ""))
	}
	return diags
}

// directionOf is the way a row that was read runs.
func directionOf(r rowtext.Row, way pattern.Way) pattern.Direction {
	if r.Back {
		return way.Row1.Opposite()
	}
	return way.Row1
}

// covers is how many pegs a row runs over: those it finds loops on, or, where it names
// pegs that are not in use, all that it names.
func covers(r rowtext.Row) int {
	cells, none := 0, false
	for _, run := range r.Runs {
		cells += run.Count * len(run.Stitch.Cells())
		none = none || run.Stitch == rowtext.NoStitch
	}
	if none {
		return cells
	}
	return r.In
}

// writeRead writes rows that were read, a line each.
func writeRead(w io.Writer, read *rowtext.Reading, way pattern.Way) {
	digits := 1
	for _, r := range read.Rows {
		digits = max(digits, len(fmt.Sprint(r.Number)))
	}
	for _, r := range read.Rows {
		fmt.Fprintf(w, "%s %*d, %s: %s", read.Form.RowWord(), digits, r.Number, directionOf(r, way), rowtext.Print(r.Runs))
		if r.In != r.Out {
			fmt.Fprintf(w, "; leaves %s of %d", track.Plural(r.Out, "loop"), r.In)
		}
		fmt.Fprintln(w)
	}
}

// writeDirectives writes what a text says beside its rows.
func writeDirectives(w io.Writer, directives safetext.Diagnostics) {
	if len(directives) > 0 {
		fmt.Fprintln(w, "\nbeside the rows:")
	}
	for _, d := range directives {
		fmt.Fprintf(w, "line %d: %s\n", d.Line, d.Message)
	}
}

// jsonOfText is rows that were read.
func jsonOfText(read *rowtext.Reading, way pattern.Way, warnings, directives []jsonNote) jsonRows {
	return jsonRows{
		form: read.Form, pegs: read.Pegs, rows: len(read.Rows),
		row: func(i int) jsonRow {
			r := read.Rows[i]
			row := jsonRow{From: 1, Row: r.Number, Runs: jsonRuns([]jsonRun{}, r.Runs, ""), To: covers(r)}
			if directionOf(r, way).From() != way.Peg1 {
				row.From, row.To = row.To, row.From
			}
			return row
		},
		warnings: warnings, directives: directives,
	}
}
