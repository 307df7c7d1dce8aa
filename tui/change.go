package tui

import (
	"fmt"
	"slices"

	"bypeg/pattern"
	"bypeg/tui/track"
)

// Change is what a pattern's file has become since a piece was begun with it.
type Change struct {
	Pattern *pattern.Pattern // as it is now
	Text    []byte
	Says    []string // what is different, a line each
	Holds   bool     // the new pattern has the place where the work stands
	Planned bool     // the piece was changed on purpose: the file's fabric is not what it was begun with
	Worked  bool     // something below the place is different: it was worked otherwise
}

// Same tells whether the fabric is what it was: only words or figures changed.
func (c *Change) Same() bool { return len(c.Says) == 0 }

// compare tells what makes the fabric of a pattern another one, seen from a place in
// the work.
func compare(was, now *pattern.Pattern, text []byte, at pattern.Place) *Change {
	c := &Change{Pattern: now, Text: text, Holds: now.Holds(at) && now.Of(at) == was.Of(at)}
	word := was.Form.RowWord()
	if was.Form != now.Form {
		c.Says = append(c.Says, fmt.Sprintf("it was a %s and is a %s", was.Form, now.Form))
		c.Holds, c.Worked = false, true
	}
	if was.Pegs != now.Pegs {
		c.Says = append(c.Says, fmt.Sprintf("it had %s and has %d", track.Plural(was.Pegs, "peg"), now.Pegs))
		c.Holds, c.Worked = false, true
		return c
	}
	if a, b := was.Grid.Rows(), now.Grid.Rows(); a != b {
		c.Says = append(c.Says, fmt.Sprintf("it had %s and has %d", track.Plural(a, word), b))
	}
	first, last, n := differing(was.Grid, now.Grid)
	switch {
	case n == 0:
	case n == 1:
		c.Says = append(c.Says, fmt.Sprintf("%s %d is different", word, first))
	default:
		c.Says = append(c.Says, fmt.Sprintf("%d of the %ss %d to %d are different", n, word, first, last))
	}
	if n > 0 && !at.Before(pattern.Place{Phase: pattern.Working, Row: first, Done: 1}) {
		c.Worked = true
	}
	return c
}

// differing are the first and the last row that two fabrics of one width have
// otherwise, and how many such rows there are. Rows that only one of them has do not
// count.
func differing(was, now *pattern.Grid) (first, last, n int) {
	for row := 1; row <= min(was.Rows(), now.Rows()); row++ {
		if slices.Equal(was.Row(row).Cells(), now.Row(row).Cells()) {
			continue
		}
		if n == 0 {
			first = row
		}
		last = row
		n++
	}
	return first, last, n
}
