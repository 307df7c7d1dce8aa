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
	fits := slices.DeleteFunc(slices.Clone(c.Fits), c.skippedToo)
	for i := 0; i < len(fits); {
		f, j := fits[i], i+1
		for j < len(fits) && fits[j].Slip == f.Slip && fits[j].Row == fits[j-1].Row+1 && slices.Equal(fits[j].Cols, f.Cols) {
			j++
		}
		says := f.says(o, fits[j-1].Row)
		if i > 0 {
			says = "or " + says
		}
		lines = append(lines, says)
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
		were := " was"
		if len(f.Cols) > 1 {
			were = " were"
		}
		return pegsNamed(o, f.Cols) + were + " not worked in " + rows
	case SkippedRow:
		return rows + " was skipped"
	case DoubledRow:
		return rows + " was worked twice"
	}
	return "a wrong stitch in " + rows + " on " + pegsNamed(o, f.Cols)
}

// pegsNamed names the pegs of columns: "peg 14", "pegs 14 and 3".
func pegsNamed(o pattern.Order, cols []int) string {
	pegs := make([]int, len(cols))
	for i, col := range cols {
		pegs[i] = o.Peg(col)
	}
	return pegList(pegs)
}

// pegList names pegs one by one: "peg 14", "pegs 3, 9 and 14".
func pegList(pegs []int) string {
	if len(pegs) == 1 {
		return fmt.Sprintf("peg %d", pegs[0])
	}
	says := make([]string, len(pegs))
	for i, peg := range pegs {
		says[i] = fmt.Sprint(peg)
	}
	last := len(says) - 1
	return "pegs " + strings.Join(says[:last], ", ") + " and " + says[last]
}
