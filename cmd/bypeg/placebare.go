package main

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/mend"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// Where loops have come off their pegs and run down, each peg's column is read on its own.

// Of each bare peg so many stitches are told, and so many rows at most to which its loop may
// have run.
const (
	bareShown = 3
	mostBare  = 3
)

// bare says down to which row the loop of each bare peg has run, and what brings it up again.
func (p *program) bare(o pattern.Order, at pattern.Place, ask *placing) error {
	for _, flag := range placeFlags {
		if ask.given(flag.kind.String()) {
			return usage("find the place first, then write --bare and --at alone", "--bare and --%s ask for two things", flag.kind)
		}
	}
	if ask.given("reached") && !ask.given("at") {
		return usage("write --at 24 beside it", "--reached is for --at")
	}
	if ask.given("at") {
		var err error
		if at, err = (&mending{at: ask.at, reached: ask.reached, given: ask.given}).place(o); err != nil {
			return err
		}
	}
	if at.Phase != pattern.Working && at.Phase != pattern.BindingOff {
		return usage("write --at 24", "say how many rows are done on the pegs that kept their loops")
	}
	var clues []find.Clue
	for _, text := range ask.bare {
		c, err := find.Parse(o, find.Look, text)
		if err != nil {
			return usage("", "--bare: %w", err)
		}
		switch {
		case slices.ContainsFunc(clues, func(told find.Clue) bool { return told.Peg == c.Peg }):
			return usage("tell the count that you trust", "--bare: peg %d is told twice", c.Peg)
		case at.Phase == pattern.BindingOff && mend.BoundOff(o, at, o.ColumnOfPeg(c.Peg)):
			return usage("", "--bare: peg %d is bound off: nothing goes back on it", c.Peg)
		}
		clues = append(clues, c)
	}
	out := bufio.NewWriter(p.out)
	found := true
	if ask.json {
		found = writeBareJSON(out, o, at, clues)
	} else {
		found = writeBare(out, o, at, clues)
	}
	if err := out.Flush(); err != nil {
		return written(err)
	}
	if !found {
		return &failure{code: exitWrong}
	}
	return nil
}

func writeBare(w io.Writer, o pattern.Order, at pattern.Place, clues []find.Clue) (found bool) {
	word := o.Pattern.Form.RowWord()
	fmt.Fprintf(w, "%s: %s done; catch each loose loop on a hook or a pin first\n",
		safetext.Clean(o.Pattern.Title), track.Plural(o.RowsDone(at), word))
	found = true
	for _, c := range clues {
		fmt.Fprintf(w, "\npeg %d", c.Peg)
		if seen := find.Shown(o, at, c.Peg, bareShown); len(seen) > 0 {
			fmt.Fprintf(w, ", which showed %s before, the newest first", find.Letters(seen))
		}
		fmt.Fprintln(w, ":")
		fits := find.BareAt(o, at, c)
		for _, b := range fits[:min(mostBare, len(fits))] {
			fmt.Fprintf(w, "  %s\n", bareWords(o, at, c.Peg, b))
		}
		switch {
		case len(fits) == 0:
			found = false
			fmt.Fprintf(w, "  no %s of its column shows %s: count the pegs again, and look again\n", word, find.Letters(c.Seen))
		case len(fits) > mostBare:
			fmt.Fprintf(w, "  or lower still: the loose rungs tell them apart\n")
		case len(fits) > 1:
			fmt.Fprintf(w, "  the loose rungs tell them apart\n")
		}
	}
	return found
}

// bareWords say where the loop of a peg is, and what is to be done.
func bareWords(o pattern.Order, at pattern.Place, peg int, b find.Bare) string {
	word := o.Pattern.Form.RowWord()
	newest := fmt.Sprintf("newest is %s %d", word, b.Row)
	if b.Row == 0 {
		newest = "nothing but the cast-on is left"
	}
	if b.Rungs == 0 {
		return newest + ", no loose rung above its loop: put it back on the peg"
	}
	newest += fmt.Sprintf(", %s above its loop: ", track.Plural(b.Rungs, "loose rung"))
	l, err := mend.LadderOf(o, at, o.ColumnOfPeg(peg), b.Row+1)
	if err != nil {
		return newest + err.Error()
	}
	rows := fmt.Sprintf("%s %d", word, l.Rungs[0].Row)
	switch n := len(l.Rungs); {
	case n == 2:
		rows = fmt.Sprintf("%ss %d and %d", word, l.Rungs[0].Row, l.Rungs[1].Row)
	case n > 2:
		rows = fmt.Sprintf("%ss %d to %d", word, l.Rungs[0].Row, l.Rungs[n-1].Row)
	}
	return newest + fmt.Sprintf("hook up %s: %s", rows, strings.Join(shortRungs(l), " "))
}

func shortRungs(l *mend.Ladder) []string {
	short := []string{}
	for _, r := range l.Rungs {
		short = append(short, r.Short())
	}
	return short
}

// writeBareJSON tells programs, of each peg, every row down to which its loop may have run:
// row is that of its newest stitch, 0 where nothing but the cast-on is left.
func writeBareJSON(w io.Writer, o pattern.Order, at pattern.Place, clues []find.Clue) (found bool) {
	pegs := []any{}
	found = true
	for _, c := range clues {
		rows := []any{}
		for _, b := range find.BareAt(o, at, c) {
			hook, refused := []string{}, ""
			if b.Rungs > 0 {
				l, err := mend.LadderOf(o, at, o.ColumnOfPeg(c.Peg), b.Row+1)
				if err != nil {
					refused = err.Error()
				} else {
					hook = shortRungs(l)
				}
			}
			rows = append(rows, map[string]any{"hook": hook, "refused": orNull(refused), "row": b.Row, "rungs": b.Rungs})
		}
		found = found && len(rows) > 0
		pegs = append(pegs, map[string]any{"fits": rows, "peg": c.Peg, "showed": find.Letters(find.Shown(o, at, c.Peg, bareShown))})
	}
	writeIndented(w, map[string]any{"bare": pegs, "rows_done": o.RowsDone(at), "schema": jsonSchema})
	return found
}
