package adopt

import (
	"regexp"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// On needles a panel is turned after every row, so its rows are seen from the right side
// and from behind in turn. A row that is seen from behind is worked on a loom with its
// knits and purls swapped and in the same order: the way it runs is the same.

var (
	sayRight = regexp.MustCompile(`(?i)\b(rs|right[- ]side)\b`)
	sayWrong = regexp.MustCompile(`(?i)\b(ws|wrong[- ]side)\b`)
)

// facing is the side each row of a text shows to its knitter. Row 1, and all that run as it
// does, show one side; a row before it is counted 0 and shows the other.
func facing(text string, r *rowtext.Reading, o Options) ([]Side, error) {
	sides := make([]Side, len(r.Rows))
	switch {
	case o.From != Needles:
		for i := range sides {
			sides[i] = RightSide
		}
		return sides, nil
	case r.Form == pattern.Tube:
		return nil, refusal(0, len(text), "write --from round", "the text speaks of rounds, and rows for needles go back and forth")
	}
	first, err := firstSide(text, r, o)
	if err != nil {
		return nil, err
	}
	for i := range sides {
		if sides[i] = first; r.Rows[i].Back {
			sides[i] = opposite(first)
		}
	}
	return sides, nil
}

// firstSide is the side of row 1, from the rows' own words or from who asks.
func firstSide(text string, r *rowtext.Reading, o Options) (Side, error) {
	first, by := SideUnsaid, 0
	for i, row := range r.Rows {
		side, start := called(text, r.Rows, i)
		if row.Back {
			side = opposite(side)
		}
		switch {
		case side == SideUnsaid:
		case first == SideUnsaid:
			first, by = side, row.Number
			if o.Side != SideUnsaid && o.Side != first {
				return 0, refusal(start, row.Start, "leave --row-1 out, or mend the text", "the text makes row 1 a %s row, not a %s one", first, o.Side)
			}
		case side != first:
			return 0, refusal(start, row.Start, "the two sides take turns: mend one of them",
				"row %d is called a %s row, which row %d rules out", row.Number, calledSide(side, row), by)
		}
	}
	if first == SideUnsaid {
		first = o.Side
	}
	if first == SideUnsaid {
		return 0, &AskSide{}
	}
	return first, nil
}

// calledSide is the side that a row is called by when row 1 would be the other.
func calledSide(first Side, row rowtext.Row) Side {
	if row.Back {
		return opposite(first)
	}
	return first
}

// mostHead is how long a row's header can be.
const mostHead = 200

// called is the side that a row's header names, and where the header starts.
func called(text string, rows []rowtext.Row, i int) (Side, int) {
	row := rows[i]
	start := max(0, row.Start-mostHead)
	if i > 0 && rows[i-1].End <= row.Start {
		start = max(start, rows[i-1].End)
	}
	start += strings.LastIndexByte(text[start:row.Start], '\n') + 1
	head := text[start:row.Start]
	right, wrong := sayRight.MatchString(head), sayWrong.MatchString(head)
	switch {
	case right && !wrong:
		return RightSide, start
	case wrong && !right:
		return WrongSide, start
	}
	return SideUnsaid, start
}

func opposite(s Side) Side {
	switch s {
	case RightSide:
		return WrongSide
	case WrongSide:
		return RightSide
	}
	return SideUnsaid
}

// firstWay is the way row 1 runs on the fabric. On needles a right-side row runs right to
// left as it is seen, and a wrong-side row the other way.
func firstWay(r *rowtext.Reading, o Options, sides []Side) (pattern.Direction, error) {
	if r.Form == pattern.Panel {
		for i := 1; i < len(r.Rows); i++ {
			if row := r.Rows[i]; row.Back == r.Rows[i-1].Back {
				return 0, refusal(row.Start, row.End, "if these are rounds, say so: --from round", "row %d runs the same way as the row before it", row.Number)
			}
		}
	}
	switch {
	case o.From == Needles && sides[0] == WrongSide:
		return pattern.ToRight, nil
	case o.From == Needles:
		return pattern.ToLeft, nil
	case o.Row1Said && r.Rows[0].Back: // a set-up row before it
		return o.Row1.Opposite(), nil
	case o.Row1Said:
		return o.Row1, nil
	case r.Rows[0].Back:
		return pattern.ToRight, nil
	}
	return pattern.ToLeft, nil
}

// wordForWord is what a loom makes of rows for needles as they stand.
func wordForWord(r *rowtext.Reading, o Options, s *sheet) Fabric {
	plain := &sheet{form: s.form, pegs: s.pegs, row1: s.row1, from: s.from}
	for _, row := range r.Rows {
		plain.rows = append(plain.rows, plain.keep(row.Runs))
	}
	if plain.shape() != nil {
		return Fabric{}
	}
	p, err := plain.build()
	if err != nil {
		return Fabric{}
	}
	return FabricOf(p.Grid, p.Form, Whole(p.Grid))
}
