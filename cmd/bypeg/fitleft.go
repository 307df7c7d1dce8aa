package main

import (
	"bufio"
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
	"bypeg/tui"
	"bypeg/tui/plan"
	"bypeg/tui/report"
	"bypeg/tui/track"
)

// fitLeft tells how far the yarn that is left reaches.
func (p *program) fitLeft(o pattern.Order, at pattern.Place, ask *fitting) error {
	stock, err := fit.ParseStock(ask.left)
	if err != nil {
		return usage("", "--left: %w", err)
	}
	yarn, err := yarnLeft(o.Pattern, ask.of)
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
		p.writeParts(out, ask.leftTitle(o.Pattern, yarn, l), ask.leftParts(o.Pattern, l))
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

// yarnLeft is the yarn that is asked for; without a name the main one. Where that is worked
// nowhere it is the one that is, and of several the maker must say which.
func yarnLeft(p *pattern.Pattern, name string) (pattern.Yarn, error) {
	worked := fit.YarnsWorked(p)
	switch {
	case name != "":
		return yarnNamed(&p.Design, name, worked)
	case len(worked) == 0 || worked[0] == 0:
		return 0, nil
	case len(worked) == 1:
		return worked[0], nil
	}
	return 0, usage(ofWhich(&p.Design, worked), "the pattern has several yarns: say of which so much is left")
}

// ofWhich is how to say which yarn is meant.
func ofWhich(d *pattern.Design, among []pattern.Yarn) string {
	var names []string
	way := ""
	for _, y := range among {
		if y == 0 && d.Yarns[y].Called() == (pattern.YarnInfo{}).Called() {
			way = "leave --of out for the main yarn"
			continue
		}
		names = append(names, "--of "+safetext.Clean(d.Yarns[y].Called()))
	}
	switch {
	case names == nil:
		return way
	case way != "":
		way += ", or "
	}
	return way + "write " + strings.Join(names, " or ")
}

// amount is an amount of yarn, and in ounces or yards beside it where the maker told it so.
func (ask *fitting) amount(x float64, unit string) string {
	text := plan.Amount(x, unit)
	_, own, _ := measure.ParseQuantity(ask.left)
	switch {
	case unit == "m" && measure.InInches(ask.left):
		text += fmt.Sprintf(" (%s yd)", measure.Number(x/measure.Yard.In(measure.Metre), 1))
	case unit == "g" && strings.HasPrefix(strings.ToLower(own), "o"): // oz, ounces
		text += fmt.Sprintf(" (%s oz)", measure.Number(x/fit.GramsInOunce, 2))
	}
	return text
}

// leftTitle is the piece and what is left, in a line.
func (ask *fitting) leftTitle(p *pattern.Pattern, yarn pattern.Yarn, l *fit.Left) string {
	of := ""
	if len(fit.YarnsWorked(p)) > 1 {
		of = " of " + safetext.Clean(p.Yarns[yarn].Called())
	}
	return fmt.Sprintf("%s: %s done, %s%s left", safetext.Clean(p.Title), track.Plural(l.Done, p.Form.RowWord()), ask.amount(l.Stock, l.Unit), of)
}

// leftParts are what is said of the yarn that is left.
func (ask *fitting) leftParts(p *pattern.Pattern, l *fit.Left) []report.Part {
	word := p.Form.RowWord()
	keep := "nothing: what comes after the field is of another yarn"
	if l.Close.High > 0 {
		keep = ask.amount(l.Close.High, l.Unit) + " for what comes after the field, the bind-off too"
	}
	parts := []report.Part{{Label: "keep", Lines: []string{keep}}}
	say := func(label, text string) { parts = append(parts, report.Part{Label: label, Lines: []string{text}}) }
	if l.Row.High > 0 {
		say("a "+word, "takes "+ask.amount(l.Row.High, l.Unit)+" at most")
	}
	if s := l.Cautious; s.Enough && s.Rows >= 0 && !l.Past && l.Done+s.Could < l.Planned && s.Could > l.Before {
		say("reach", track.Plural(s.Could-l.Before, word)+" more of the field")
	}
	say("stop", plan.SayStop(p, l))
	if likely := plan.SayLikely(p, l); likely != "" {
		say("likely", likely)
	}
	switch {
	case l.Past || l.Cautious.Enough && l.Cautious.Rows >= 0:
	case l.Done == 0:
		say("or", "fewer ridges at both ends, or another colour for both")
	default:
		say("or", "fewer ridges at the top than at the bottom, or another colour there")
	}
	return parts
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
