package main

import (
	"bufio"
	"fmt"
	"io"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/safetext"
	"bypeg/tui"
	"bypeg/tui/plan"
	"bypeg/tui/track"
)

// fitLeft tells how far the yarn that is left reaches.
func (p *program) fitLeft(o pattern.Order, at pattern.Place, ask *fitting) error {
	stock, err := fit.ParseStock(ask.left)
	if err != nil {
		return usage("", "--left: %w", err)
	}
	yarn, err := yarnNamed(&o.Pattern.Design, ask.of)
	if err != nil {
		return err
	}
	l, err := fit.LeftOf(o, at, yarn, stock)
	if err != nil {
		return &failure{exitWrong, err, ""}
	}
	out := bufio.NewWriter(p.out)
	if ask.json {
		writeIndented(out, jsonOfLeft(l))
	} else {
		writeLeft(out, o.Pattern, l)
	}
	return written(out.Flush())
}

// rowsDone is the place where so many rows are done as a flag says.
func rowsDone(p *pattern.Pattern, done int, flag string) (pattern.Place, error) {
	switch rows := p.Grid.Rows(); {
	case done < 0 || done > rows:
		return pattern.Place{}, usage(fmt.Sprintf("write --%s 0 to --%[1]s %d", flag, rows), "%d rows can't be done: the pattern has %d", done, rows)
	case done == rows:
		return pattern.Place{Phase: pattern.BindingOff}, nil
	}
	return pattern.Place{Phase: pattern.Working, Row: done + 1}, nil
}

// pieceLeft is where the maker's piece stands, and the pattern that it is made after, which
// may be another one by now than the file's.
func (p *program) pieceLeft(src *tui.Source) (pattern.Place, error) {
	piece, found, err := p.underWay(src.Name)
	switch {
	case err != nil:
		return pattern.Place{}, err
	case !found || piece.Text == nil:
		return pattern.Place{}, usage("write --done 24", "no piece of this pattern is on the loom: say how many rows are done")
	}
	src.Text = piece.Text
	return piece.Tracker.Place(), nil
}

func writeLeft(w io.Writer, p *pattern.Pattern, l *fit.Left) {
	word := p.Form.RowWord()
	fmt.Fprintf(w, "%s: %s done, %s left\n\n", safetext.Clean(p.Title), track.Plural(l.Done, word), plan.Amount(l.Stock, l.Unit))
	fmt.Fprintf(w, "keep      %s for what comes after the field, the bind-off too\n", plan.Amount(l.Close.High, l.Unit))
	if l.Row.High > 0 {
		fmt.Fprintf(w, "a %-7s takes %s at most\n", word, plan.Amount(l.Row.High, l.Unit))
	}
	if s := l.Cautious; s.Enough && s.Rows >= 0 && !l.Past && l.Done+s.Could < l.Planned {
		fmt.Fprintf(w, "reach     %s more of the field\n", track.Plural(s.Could, word))
	}
	fmt.Fprintf(w, "stop      %s\n", plan.SayStop(p, l))
	if l.Likely.Enough && l.Likely.Rows != l.Cautious.Rows && !l.Past {
		fmt.Fprintf(w, "likely    %s %d would do too, but there is no swearing to it\n", word, l.Done+l.Likely.Rows)
	}
	if !l.Past && (!l.Cautious.Enough || l.Cautious.Rows < 0) {
		fmt.Fprintf(w, "or        fewer ridges at both ends, or another colour for both\n")
	}
}

// jsonLeft is what --left tells programs.
type jsonLeft struct {
	Enough     bool    `json:"enough"`
	Keep       float64 `json:"keep"`
	Planned    int     `json:"planned_row"`
	RowsDone   int     `json:"rows_done"`
	RowsMore   int     `json:"rows_more"`
	LikelyRows int     `json:"rows_more_likely"`
	Schema     int     `json:"schema"`
	Spare      float64 `json:"spare"`
	StopRow    *int    `json:"stop_row"`
	Unit       string  `json:"unit"`
}

func jsonOfLeft(l *fit.Left) jsonLeft {
	j := jsonLeft{
		Enough: l.Cautious.Enough, Keep: tenths(l.Close.High), Planned: l.Planned, RowsDone: l.Done, RowsMore: l.Cautious.Rows,
		LikelyRows: l.Likely.Rows, Schema: jsonSchema, Spare: tenths(l.Cautious.Spare), Unit: l.Unit,
	}
	if row, ok := l.StopRow(); ok && !l.Past {
		j.StopRow = &row
	}
	return j
}
