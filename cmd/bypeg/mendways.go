package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/tui/track"
)

// columns are the ladders of the pegs that went wrong, and what each way to deal with it costs.
func (ask *mending) columns(o pattern.Order, at pattern.Place, safe []mend.Safe) (mended, error) {
	pegs, err := pegsNamed(ask.columnsOf)
	if err != nil {
		return mended{}, err
	}
	f := mend.Fault{Row: ask.from}
	var ladders []*mend.Ladder
	var refused []error
	worked := false // on one of the pegs
	for _, peg := range pegs {
		col, err := columnOf(o, peg, "peg")
		if err != nil {
			return mended{}, err
		}
		f.Cols = append(f.Cols, col)
		worked = worked || ask.from <= mend.Top(o, at, col)
		l, err := mend.LadderOf(o, at, col, ask.from)
		if err != nil {
			refused = append(refused, err)
			continue
		}
		ladders = append(ladders, l)
	}
	if ask.from < 1 || ask.from > o.Pattern.Grid.Rows() {
		return mended{}, usage(fmt.Sprintf("write --from 1 to --from %d", o.Pattern.Grid.Rows()), "there is no %s %d", o.Pattern.Form.RowWord(), ask.from)
	}
	if !worked {
		return mended{}, &failure{exitWrong, refused[0], ""}
	}
	ways := mend.Repairs(o, at, f, safe)
	told := mended{json: jsonOfColumns(ladders, refused, ways, o.Pattern), wrong: len(refused) > 0}
	for _, l := range ladders {
		told.lines = append(told.lines, fmt.Sprintf("peg %d, %s", l.Peg, track.Plural(len(l.Rungs), "rung")))
		told.lines = append(told.lines, numbered(l)...)
		told.lines = append(told.lines, "")
	}
	for _, err := range refused {
		told.lines = append(told.lines, err.Error())
	}
	told.lines = append(told.lines, "the ways, those that serve best first:")
	for _, w := range ways {
		told.lines = append(told.lines, "  "+w.Words(o.Pattern))
	}
	return told, nil
}

// pegsNamed are the pegs of --peg: "14", "14,15".
func pegsNamed(texts []string) ([]int, error) {
	var pegs []int
	for _, text := range texts {
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil {
			return nil, usage("write --peg 14, or several as --peg 14,15", "--peg names no peg")
		}
		pegs = append(pegs, n)
	}
	if len(pegs) == 0 {
		return nil, usage("write --peg 14", "--peg names no peg")
	}
	return pegs, nil
}

// takeBack is what is undone to come to the place that --back and --back-peg name.
func (ask *mending) takeBack(o pattern.Order, at pattern.Place, safe []mend.Safe) (mended, error) {
	to := pattern.Place{Phase: pattern.Working, Row: at.Row}
	if ask.given("back") {
		if ask.back < 0 || ask.back >= o.Pattern.Grid.Rows() {
			return mended{}, usage(fmt.Sprintf("write --back 0 to --back %d", o.Pattern.Grid.Rows()-1), "%d rows can't be left: the pattern has %d", ask.back, o.Pattern.Grid.Rows())
		}
		to.Row = ask.back + 1
	} else if at.Phase != pattern.Working {
		return mended{}, usage("write --back 24 beside it", "no row is under way")
	}
	if ask.given("back-peg") {
		col, err := columnOf(o, ask.backPeg, "back-peg")
		if err != nil {
			return mended{}, err
		}
		if o.Pattern.Grid.Row(to.Row).Cells()[col].Stitch == pattern.NoStitch {
			return mended{}, usage("", "--back-peg: peg %d is not worked in that row", ask.backPeg)
		}
		to.Done = o.DoneAt(to.Row, col)
	}
	b, err := mend.BackTo(o, at, to)
	if errors.Is(err, mend.ErrNotBack) {
		return mended{}, &failure{exitWrong, err, fmt.Sprintf("write --back 0 to --back %d: the work stands at %s", o.RowsDone(at), track.SayPlace(o, at))}
	}
	if err != nil {
		return mended{}, &failure{exitWrong, err, ""}
	}
	b.HeldBy(safe)
	return mended{lines: numbered(b), json: jsonOfBack(o, b)}, nil
}

// compare lays the counted columns beside the pattern's.
func (ask *mending) compare(o pattern.Order, at pattern.Place) (mended, error) {
	var looks []mend.Looks
	for _, text := range ask.looks {
		l, err := mend.ParseLooks(text, ask.fromTop)
		if err != nil {
			return mended{}, usage("", "--looks: %w", err)
		}
		looks = append(looks, l)
	}
	c, err := mend.Compare(o, at, looks)
	if err != nil {
		return mended{}, &failure{exitWrong, err, ""}
	}
	told := mended{lines: c.Lines(o), json: jsonOfCompared(o, c), wrong: len(c.Fits) == 0}
	return told, nil
}
