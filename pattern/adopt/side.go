package adopt

import (
	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// On needles a panel is turned after every row, so its rows are seen from the right side
// and from behind in turn. A row that is seen from behind is worked on a loom with its
// knits and purls swapped and in the same order: the way it runs is the same.

// facing is the side each row of a text shows to its knitter. Row 1, and all that run as it
// does, show one side; a row before it is counted 0 and shows the other.
func facing(text string, heads []rowHead, r *rowtext.Reading, o Options) ([]Side, error) {
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
	first, err := firstSide(heads, r, o)
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
func firstSide(heads []rowHead, r *rowtext.Reading, o Options) (Side, error) {
	first, by := SideUnsaid, 0
	for i, row := range r.Rows {
		side, start := heads[i].side, heads[i].start
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

// rowHead is what the header of a row says of it.
type rowHead struct {
	start int // where it starts; it ends where the instructions do
	side  Side
	ways  bool // it says which way the row runs
	way   pattern.Direction
}

// headsOf is what the headers of rows say.
func headsOf(rows []rowtext.Row) []rowHead {
	heads := make([]rowHead, len(rows))
	for i, row := range rows {
		h := rowHead{start: row.Start - row.Header}
		switch row.Side {
		case rowtext.RightSide:
			h.side = RightSide
		case rowtext.WrongSide:
			h.side = WrongSide
		case rowtext.SideUnsaid:
		}
		switch row.Course {
		case rowtext.CourseToLeft:
			h.ways, h.way = true, pattern.ToLeft
		case rowtext.CourseToRight:
			h.ways, h.way = true, pattern.ToRight
		case rowtext.CourseUnsaid:
		}
		heads[i] = h
	}
	return heads
}

// stated is the way that the rows' headers say row 1 runs. On needles only right-side rows
// count: what is left and right from behind is anybody's guess.
func stated(heads []rowHead, r *rowtext.Reading, sides []Side) (way pattern.Direction, said bool, err error) {
	by := 0
	for i, row := range r.Rows {
		if !heads[i].ways || sides[i] == WrongSide {
			continue
		}
		runs := heads[i].way
		first := runs
		if row.Back {
			first = runs.Opposite()
		}
		switch {
		case !said:
			way, said, by = first, true, row.Number
		case first != way:
			return 0, false, refusal(heads[i].start, row.Start, "a panel's rows run one way and back, a tube's all the same way: mend one of them",
				"row %d is said to run %s, which row %d rules out", row.Number, runs, by)
		}
	}
	return way, said, nil
}

// StatedWay is the way row 1 of a text for a loom runs, where its rows say so and do not
// rule each other out.
func StatedWay(r *rowtext.Reading) (row1 pattern.Direction, said bool) {
	sides := make([]Side, len(r.Rows)) // on a loom all show the right side
	row1, said, err := stated(headsOf(r.Rows), r, sides)
	return row1, said && err == nil
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

// firstWay is the way the first row runs on the fabric. On needles a right-side row runs right to
// left as it is seen, and a wrong-side row the other way.
func firstWay(text string, heads []rowHead, r *rowtext.Reading, o Options, sides []Side) (pattern.Direction, error) {
	if r.Form == pattern.Panel {
		for i := 1; i < len(r.Rows); i++ {
			if row := r.Rows[i]; row.Back == r.Rows[i-1].Back {
				return 0, refusal(row.Start, row.End, "if these are rounds, say so: --from round", "row %d runs the same way as the row before it", row.Number)
			}
		}
	}
	way, said, err := stated(heads, r, sides)
	switch {
	case err != nil:
		return 0, err
	case said && o.Row1Said && way != o.Row1:
		return 0, refusal(0, len(text), "leave --row-1 out, or mend the text", "the text has row 1 run %s, not %s", way, o.Row1)
	case said:
	case o.From == Needles && sides[0] == WrongSide != r.Rows[0].Back:
		way = pattern.ToRight
	case o.Row1Said:
		way = o.Row1
	}
	if r.Rows[0].Back { // a set-up row before it
		way = way.Opposite()
	}
	return way, nil
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
	return fabricGoingOn(p, openRepeats(r))
}
