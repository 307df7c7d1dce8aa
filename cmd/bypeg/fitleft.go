package main

import (
	"bufio"
	"fmt"
	"io"
	"path/filepath"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/safetext"
	"bypeg/tui"
	"bypeg/tui/plan"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// fitLeft tells how far the yarn that is left reaches.
func (p *program) fitLeft(src tui.Source, o pattern.Order, ask *fitting) error {
	stock, err := fit.ParseStock(ask.left)
	if err != nil {
		return usage("", "--left: %w", err)
	}
	yarn, err := yarnNamed(&o.Pattern.Design, ask.of)
	if err != nil {
		return err
	}
	at, err := p.placeFor(src, o.Pattern, ask)
	if err != nil {
		return err
	}
	l, err := fit.LeftOf(o.Pattern, at, yarn, stock)
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

// placeFor is where the work stands: as --done says, or else as the maker's piece of the
// pattern has it.
func (p *program) placeFor(src tui.Source, pat *pattern.Pattern, ask *fitting) (pattern.Place, error) {
	rows := pat.Grid.Rows()
	if ask.given("done") {
		switch {
		case ask.done < 0 || ask.done > rows:
			return pattern.Place{}, usage(fmt.Sprintf("write --done 0 to --done %d", rows), "%d rows can't be done: the pattern has %d", ask.done, rows)
		case ask.done == rows:
			return pattern.Place{Phase: pattern.BindingOff}, nil
		}
		return pattern.Place{Phase: pattern.Working, Row: ask.done + 1}, nil
	}
	all, err := save.List(save.System(p.holder()), filepath.Join(p.dataDir(), "pieces"))
	if err != nil {
		return pattern.Place{}, &failure{exitIO, fmt.Errorf("the pieces can't be looked at: %s", safetext.Clean(err.Error())), "write --done 24 to say how many rows are done"}
	}
	for _, s := range all {
		if s.Source == src.Name && s.Err == "" && s.Shelf == save.OnLoom && pat.Holds(s.Place) {
			return s.Place, nil
		}
	}
	return pattern.Place{}, usage("write --done 24", "no piece of this pattern is on the loom: say how many rows are done")
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
