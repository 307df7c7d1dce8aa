package track

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
)

// SayPegs says what a row takes on which pegs, a line for each stitch, the one on most pegs
// last: who finds too few pegs left near the end of a row lays the purls beside the list.
// "purl on pegs 1 to 3, 8 and 9, 38 to 40", "knit on all other pegs".
func SayPegs(o pattern.Order, row int) []string {
	t := Tracker{order: o, at: pattern.Place{Phase: pattern.Working, Row: row}}
	type group struct {
		says string
		pegs []int
	}
	var groups []group
	for run := range o.Runs(row) {
		p := t.part(run, run.From)
		p.Count, p.Border, p.Whole = 1, 0, false
		says := t.Say(p)
		i := slices.IndexFunc(groups, func(g group) bool { return g.says == says })
		if i < 0 {
			i, groups = len(groups), append(groups, group{says: says})
		}
		for done := run.From; done < run.To; done++ {
			groups[i].pegs = append(groups[i].pegs, o.Peg(o.Column(row, done)))
		}
	}
	slices.SortStableFunc(groups, func(a, b group) int { return cmp.Compare(len(a.pegs), len(b.pegs)) })
	lines := make([]string, len(groups))
	for i, g := range groups {
		stitch := strings.TrimSuffix(g.says, " 1")
		if lines[i] = stitch + " on " + stretches(g.pegs); i == len(groups)-1 {
			lines[i] = stitch + " on all other pegs"
		}
		if len(groups) == 1 {
			lines[i] = stitch + " on all pegs"
		}
	}
	return lines
}

// stretches are peg numbers, those side by side told together: "pegs 1 to 3, 8 and 9, 14".
func stretches(pegs []int) string {
	slices.Sort(pegs)
	var says []string
	for i := 0; i < len(pegs); {
		j := i + 1
		for j < len(pegs) && pegs[j] == pegs[j-1]+1 {
			j++
		}
		switch j - i {
		case 1:
			says = append(says, fmt.Sprint(pegs[i]))
		case 2:
			says = append(says, fmt.Sprintf("%d and %d", pegs[i], pegs[i+1]))
		default:
			says = append(says, fmt.Sprintf("%d to %d", pegs[i], pegs[j-1]))
		}
		i = j
	}
	word := "pegs "
	if len(pegs) == 1 {
		word = "peg "
	}
	return word + strings.Join(says, ", ")
}
