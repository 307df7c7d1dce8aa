package mend

import (
	"fmt"

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
		for j < len(c.Fits) && c.Fits[j].Slip == f.Slip && c.Fits[j].Row == c.Fits[j-1].Row+1 {
			j++
		}
		lines = append(lines, f.says(word, c.Fits[j-1].Row))
		i = j
	}
	if len(lines) > 2 {
		lines = append(lines, "the column tells no more: count the next peg too")
	}
	return lines
}

// says says a slip in the rows up to the last one.
func (f Found) says(word string, last int) string {
	rows := fmt.Sprintf("%s %d", word, f.Row)
	if last > f.Row {
		rows = fmt.Sprintf("one of %ss %d to %d", word, f.Row, last)
	}
	switch f.Slip {
	case SkippedRow:
		return rows + " was skipped"
	case DoubledRow:
		return rows + " was worked twice"
	}
	return "a wrong stitch in " + rows
}
