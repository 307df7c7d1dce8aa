package adopt

import (
	"encoding/binary"
	"errors"
	"regexp"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// sheet is rows on their way to a pattern. Rows that are equal are kept once.
type sheet struct {
	form  pattern.Form
	pegs  int
	row1  pattern.Direction
	rows  []int           // the line of each row
	lines [][]rowtext.Run // different rows, in the order of work
	ids   map[string]int
	from  []origin
}

// origin is where a row comes from.
type origin struct {
	behind     bool
	start, end int
}

// keep is the number of a line, kept if it is new.
func (s *sheet) keep(runs []rowtext.Run) int {
	key := make([]byte, 0, 4*len(runs))
	for _, r := range runs {
		key = binary.AppendUvarint(binary.AppendUvarint(key, uint64(r.Stitch)), uint64(r.Count))
	}
	if id, ok := s.ids[string(key)]; ok {
		return id
	}
	if s.ids == nil {
		s.ids = map[string]int{}
	}
	s.lines = append(s.lines, runs)
	s.ids[string(key)] = len(s.lines) - 1
	return len(s.lines) - 1
}

// direction is the way a row runs; rows count from 0 here.
func (s *sheet) direction(row int) pattern.Direction {
	return s.form.Direction(pattern.Way{Row1: s.row1}, row+1)
}

// readRow is what a line of the sheet depends on; rows of a reading that are equal share
// their runs.
type readRow struct {
	first  *rowtext.Run
	runs   int
	behind bool
}

// newSheet puts rows as they were read on a sheet, seen from the right side.
func newSheet(text string, r *rowtext.Reading, o Options) (*sheet, error) {
	s := &sheet{form: r.Form, pegs: r.Pegs}
	heads := headsOf(r.Rows)
	sides, err := facing(text, heads, r, o)
	if err != nil {
		return nil, err
	}
	if s.row1, err = firstWay(text, heads, r, o, sides); err != nil {
		return nil, err
	}
	if len(r.Rows) > pattern.MaxRows {
		return nil, refusal(0, len(text), "leave out some repeats: a zone of a pattern file has times", "a pattern has at most %d rows, not %d", pattern.MaxRows, len(r.Rows))
	}
	seen := map[readRow]int{}
	loops := 0
	for i, row := range r.Rows {
		behind := sides[i] == WrongSide
		if len(row.Runs) == 0 {
			return nil, refusal(row.Start, row.End, "", "row %d has no stitch", row.Number)
		}
		if loops += rowtext.Out(row.Runs); loops > pattern.MaxCells {
			return nil, refusal(row.Start, row.End, "leave out some repeats: a zone of a pattern file has times", "the rows up to %d have more than the %d stitches a pattern may have", row.Number, pattern.MaxCells)
		}
		key := readRow{&row.Runs[0], len(row.Runs), behind}
		id, ok := seen[key]
		if !ok {
			runs := row.Runs
			if behind {
				if runs, err = rowtext.Swapped(runs); err != nil {
					start, end := stepAt(text, row, err)
					return nil, refusal(start, end, "", "row %d: %v", row.Number, err)
				}
			}
			id = s.keep(runs)
			seen[key] = id
		}
		s.rows = append(s.rows, id)
		s.from = append(s.from, origin{behind, row.Start, row.End})
	}
	return s, nil
}

// stepAt is where the step that has no counterpart stands in its row; all of the row where the
// text has another word for it.
func stepAt(text string, row rowtext.Row, err error) (start, end int) {
	var none *rowtext.NoCounterpart
	if errors.As(err, &none) {
		name := regexp.MustCompile(`(?i)\b` + regexp.QuoteMeta(none.Stitch.Name()) + `\b`)
		if at := name.FindStringIndex(text[row.Start:row.End]); at != nil {
			return row.Start + at[0], row.Start + at[1]
		}
	}
	return row.Start, row.End
}

// lay is the cells of a line as a row that runs in a direction leaves them, left to right
// as seen.
func lay(runs []rowtext.Run, d pattern.Direction) []pattern.Stitch {
	cells := make([]pattern.Stitch, 0, rowtext.Out(runs))
	for i := range runs {
		r := runs[i]
		if d == pattern.ToLeft {
			r = runs[len(runs)-1-i]
		}
		made := r.Stitch.Cells()
		if r.Stitch == rowtext.KnitTwice && d == pattern.ToLeft {
			made = []pattern.Stitch{made[1], made[0]}
		}
		for range r.Count {
			cells = append(cells, made...)
		}
	}
	return cells
}

// taken is the line that a row makes which leaves such cells: the other way of lay.
func taken(cells []pattern.Stitch, d pattern.Direction) []rowtext.Run {
	var runs []rowtext.Run
	at := func(i int) pattern.Stitch {
		if d == pattern.ToLeft {
			return cells[len(cells)-1-i]
		}
		return cells[i]
	}
	for i := 0; i < len(cells); {
		to := i + 1
		if c, _, ok := at(i).Cross(); ok {
			to = min(i+c.Width(), len(cells))
		} else {
			for to < len(cells) && at(to) == at(i) {
				to++
			}
		}
		runs = rowtext.AddCells(runs, pattern.Run{Stitch: at(i), From: i, To: to})
		i = to
	}
	return runs
}

// build makes the fabric. That also holds the rows against the limits of a pattern and
// each row's loops against those below it.
func (s *sheet) build() (*pattern.Pattern, error) {
	lines := make([]pattern.Line, len(s.lines))
	for i, runs := range s.lines {
		lines[i] = pattern.Line{Written: true}
		for _, st := range lay(runs, pattern.ToRight) { // the order of work; crosses as seen
			lines[i].Cells = append(lines[i].Cells, pattern.Cell{Stitch: st})
		}
	}
	strip := pattern.StripPlan{Pegs: s.pegs}
	for _, id := range s.rows {
		strip.Lines = append(strip.Lines, lines[id])
	}
	way := pattern.DefaultWay(pattern.RightHand)
	way.Row1 = s.row1
	plan := pattern.Plan{
		Design: pattern.Design{Form: s.form, Pegs: s.pegs, CastOn: pattern.CastOn{Passes: 1}, Way: way, Yarns: []pattern.YarnInfo{{Weight: pattern.UnknownWeight}}},
		Zones:  []pattern.ZonePlan{{Name: "field", Rows: len(s.rows), Strips: []pattern.StripPlan{strip}}},
	}
	p, errs := pattern.Build(plan)
	if len(errs) == 0 {
		return p, nil
	}
	e := errs[0]
	if e.Line >= 0 && e.Line < len(s.from) {
		return nil, refusal(s.from[e.Line].start, s.from[e.Line].end, "", "row %d: %s", e.Line+1, e.Msg)
	}
	return nil, e
}
