package rowtext

import (
	"fmt"
	"slices"

	"bypeg/pattern"
)

// LineOf is what each peg of a row does, in the order of work, with steps of NoStitch
// for pegs that are not in use: a row as a pattern file has it.
func LineOf(o pattern.Order, row int) []Run {
	pegs := o.Pattern.Pegs
	first, step := 0, 1
	if o.Direction(row) == pattern.ToLeft {
		first, step = pegs-1, -1
	}
	var runs []Run
	met := 0 // pegs passed so far
	for r := range Worked(o, row) {
		from := (o.Column(row, r.From) - first) * step
		if from > met {
			runs = push(runs, Run{NoStitch, from - met})
		}
		runs = AddCells(runs, r)
		met = from + r.Len()
	}
	if met < pegs {
		runs = push(runs, Run{NoStitch, pegs - met})
	}
	return runs
}

// Sheet is rows that follow one another, to be written as a text.
type Sheet struct {
	Form  pattern.Form
	Row1  pattern.Direction // the way row 1 runs, told by TellDirection
	First int               // the number of the first line
	Lines []Line
	Yarns int  // in the whole piece; one is never named
	Part  bool // the piece has rows beside these, so that none of these are "all even rows"

	Needles   bool         // told of a panel by TellSide; a loom's rows all have the right side in front
	WrongSide bool         // with Needles: row 1 is seen from behind
	Hand      pattern.Hand // with Needles: whose names steps that lean have
}

// Line is one row of a sheet, with its steps in the order of work.
type Line struct {
	Runs []Run
	Yarn pattern.Yarn
}

// RowError is what is wrong with a row of a sheet.
type RowError struct {
	Row int
	Err error
}

// Error names the row.
func (e *RowError) Error() string { return fmt.Sprintf("row %d: %v", e.Row, e.Err) }

// Unwrap is what is wrong with the row.
func (e *RowError) Unwrap() error { return e.Err }

// SeveralYarns is a row with more than one yarn. Written rows name a yarn once.
type SeveralYarns struct{}

// Error says what to do.
func (SeveralYarns) Error() string {
	return "it takes more than one yarn, and a written row names one: use the chart"
}

// SheetOf is the rows first to last of a pattern as one maker works them. Rows of the
// fabric that are equal share their runs. The error is a *RowError of a SeveralYarns.
func SheetOf(o pattern.Order, first, last int) (Sheet, error) {
	type way struct {
		row *pattern.Row
		d   pattern.Direction
	}
	known := map[way]Line{}
	p := o.Pattern
	s := Sheet{Form: p.Form, Row1: o.Way.Row1, First: first, Yarns: len(p.Yarns), Part: first > 1 || last < p.Grid.Rows()}
	for row := first; row <= last; row++ {
		w := way{p.Grid.Row(row), o.Direction(row)}
		line, ok := known[w]
		if !ok {
			line.Runs = RunsOf(o, row)
			for r := range o.Runs(row) {
				if r.From > 0 && r.Yarn != line.Yarn {
					return Sheet{}, &RowError{row, SeveralYarns{}}
				}
				line.Yarn = r.Yarn
			}
			known[w] = line
		}
		s.Lines = append(s.Lines, line)
	}
	return s, nil
}

// ForNeedles is the same fabric for needles: of a panel, the rows that its maker sees
// from behind are swapped. Those are the ones that run the other way than the hand's
// right-side rows do. A tube has none; its rounds are told the way they run on needles,
// which is the hand's, whichever way the loom's run.
// Steps that lean have that hand's names. The error is a *RowError of a *NoCounterpart.
func (s Sheet) ForNeedles(hand pattern.Hand) (Sheet, error) {
	s.Needles, s.Hand = true, hand
	s.WrongSide = s.Form == pattern.Panel && s.Row1 != pattern.DefaultWay(hand).Row1
	type kept struct {
		first *Run
		runs  int
		wrong bool
	}
	turned := s.Form == pattern.Tube && s.Row1 != pattern.DefaultWay(hand).Row1
	if turned {
		s.Row1 = s.Row1.Opposite()
	}
	lines := slices.Clone(s.Lines)
	known := map[kept][]Run{} // rows that share their runs go on doing so
	for i, line := range lines {
		if len(line.Runs) == 0 {
			continue
		}
		key := kept{&line.Runs[0], len(line.Runs), s.wrong(s.First + i)}
		if known[key] == nil {
			runs, err := s.onNeedles(line.Runs, key.wrong)
			if err != nil {
				return Sheet{}, &RowError{s.First + i, err}
			}
			if turned {
				runs = OtherWay(runs)
			}
			known[key] = runs
		}
		lines[i].Runs = known[key]
	}
	s.Lines = lines
	return s, nil
}

// onNeedles is a row in the words of needles.
func (s Sheet) onNeedles(runs []Run, wrong bool) ([]Run, error) {
	if wrong {
		var err error
		if runs, err = Swapped(runs); err != nil {
			return nil, err
		}
	}
	if s.Hand == pattern.LeftHand {
		runs = inLeftNames(runs)
	}
	return runs, nil
}

// wrong tells whether a row is seen from behind.
func (s Sheet) wrong(row int) bool {
	return s.Needles && s.Form == pattern.Panel && (row%2 == 0) != s.WrongSide
}

// mark is what is told with a row's number, with a blank before it.
func (s Sheet) mark(w Wording, row int) string {
	switch {
	case w.Tell == TellDirection:
		return " (" + s.Form.Direction(pattern.Way{Row1: s.Row1}, row).String() + ")"
	case w.Tell != TellSide || !s.Needles || s.Form == pattern.Tube:
		return ""
	case s.wrong(row):
		return " (WS)"
	}
	return " (RS)"
}
