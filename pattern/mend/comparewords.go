package mend

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
)

// Lines say where the first difference is and what may be behind it, the likeliest first.
// Rows that come one after another and can't be told apart are said together.
func (c *Compared) Lines(o pattern.Order) []string {
	word := o.Pattern.Form.RowWord()
	var lines []string
	if c.First > 0 {
		lines = append(lines, fmt.Sprintf("the first difference is in %s %d of peg %d", word, c.First, o.Peg(c.Col)))
	}
	if len(c.Fits) == 0 {
		return append(lines, "no one slip explains that: count again, or count the next peg too")
	}
	if c.Fits[0].Slip == Nothing { // a slip that leaves no trace is none to look for
		return append(lines, "as far as you counted nothing is wrong")
	}
	for i := 0; i < len(c.Fits); {
		f, j := c.Fits[i], i+1
		for j < len(c.Fits) && c.Fits[j].Slip == f.Slip && c.Fits[j].Row == c.Fits[j-1].Row+1 && slices.Equal(c.Fits[j].Cols, f.Cols) {
			j++
		}
		if !c.skippedToo(f) {
			lines = append(lines, f.says(o, c.Fits[j-1].Row))
		}
		i = j
	}
	if len(lines) > 2 {
		lines = append(lines, "the column tells no more: count the next peg too")
	}
	return lines
}

// skippedToo tells of several missed pegs that the whole row may have been skipped: to name
// them would say the same again.
func (c *Compared) skippedToo(f Found) bool {
	return f.Slip == MissedPeg && len(f.Cols) > 1 && slices.ContainsFunc(c.Fits, func(other Found) bool {
		return other.Slip == SkippedRow && other.Row == f.Row
	})
}

// says says a slip in the rows up to the last one.
func (f Found) says(o pattern.Order, last int) string {
	word := o.Pattern.Form.RowWord()
	rows := fmt.Sprintf("%s %d", word, f.Row)
	if last > f.Row {
		rows = fmt.Sprintf("one of %ss %d to %d", word, f.Row, last)
	}
	switch f.Slip {
	case MissedPeg:
		return fmt.Sprintf("%s not worked in %s", wereMissed(o, f.Cols), rows)
	case SkippedRow:
		return rows + " was skipped"
	case DoubledRow:
		return rows + " was worked twice"
	}
	return "a wrong stitch in " + rows
}

// wereMissed names pegs as the beginning of a sentence: "peg 14 was", "pegs 14 and 3 were".
func wereMissed(o pattern.Order, cols []int) string {
	if len(cols) == 1 {
		return fmt.Sprintf("peg %d was", o.Peg(cols[0]))
	}
	var pegs []string
	for _, col := range cols {
		pegs = append(pegs, fmt.Sprint(o.Peg(col)))
	}
	return "pegs " + strings.Join(pegs, " and ") + " were"
}
