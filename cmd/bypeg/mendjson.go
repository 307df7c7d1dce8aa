package main

import (
	"bypeg/pattern"
	"bypeg/pattern/mend"
)

// What mend tells programs. Maps, so that the keys come sorted.

// jsonOfColumns has the rungs of the one column, or of the first, under "rungs".
func jsonOfColumns(ladders []*mend.Ladder, refused []error, ways []mend.Repair, p *pattern.Pattern) any {
	columns := []any{}
	first := []string{}
	for i, l := range ladders {
		rungs := []string{}
		for _, r := range l.Rungs {
			rungs = append(rungs, r.Short())
		}
		if i == 0 {
			first = rungs
		}
		columns = append(columns, map[string]any{"from_row": l.Rungs[0].Row, "loop_row": l.Loop, "peg": l.Peg, "rungs": rungs, "steps": stepsOf(l), "to_row": l.Rungs[len(l.Rungs)-1].Row})
	}
	reasons := []string{}
	for _, err := range refused {
		reasons = append(reasons, err.Error())
	}
	repairs := []any{}
	for _, w := range ways {
		var left *int
		if w.Way == mend.RowsBack || w.Way == mend.LineBack {
			left = &w.Rows
		}
		repairs = append(repairs, map[string]any{"can": w.Refused == "", "rows_left": left, "way": w.Way.String(), "words": w.Words(p), "work": w.Work})
	}
	return map[string]any{"columns": columns, "refused": reasons, "repairs": repairs, "rungs": first, "schema": jsonSchema}
}

func jsonOfBack(o pattern.Order, b *mend.Back) any {
	undo := []any{}
	for _, u := range b.Undo {
		first, last := b.Pegs(u)
		undo = append(undo, map[string]any{"from_peg": first, "phase": u.Phase.String(), "row": u.Row, "stitches": u.Len(), "to_peg": last})
	}
	loops := []any{}
	for _, l := range b.Loops {
		loops = append(loops, map[string]any{"peg": o.Peg(l.Col), "row": l.Row})
	}
	extra := map[string]any{
		"done": b.To.Done, "line_row": b.Line, "loops": loops, "off_the_loom": b.OffTheLoom, "ridges_left": nil, "row": b.To.Row,
		"rows_left": b.RowsLeft, "stitches": b.Stitches, "undo": undo, "yarn": nil,
	}
	if b.HasRidges {
		extra["ridges_left"] = b.Ridges
	}
	if o.Pattern.Form == pattern.Panel && b.To.Done == 0 {
		extra["yarn"] = o.YarnSide(b.RowsLeft).String()
	}
	return jsonOfSteps(b, extra)
}

func jsonOfCompared(o pattern.Order, c *mend.Compared) any {
	fits := []any{}
	for _, f := range c.Fits {
		pegs := []int{}
		for _, col := range f.Cols {
			pegs = append(pegs, o.Peg(col))
		}
		fits = append(fits, map[string]any{"kind": f.Slip.String(), "pegs": pegs, "row": orNull(f.Row)})
	}
	j := map[string]any{"first_difference": nil, "fits": fits, "schema": jsonSchema}
	if c.First > 0 {
		j["first_difference"] = map[string]any{"peg": o.Peg(c.Col), "row": c.First}
	}
	return j
}

func jsonOfBorders(b mend.Borders) any {
	j := map[string]any{
		"bottom_rows": b.BottomRows, "bottom_ridges": nil, "ends_alike": b.EndsAlike, "one_more_row": b.OneMore, "schema": jsonSchema,
		"top_first_row": b.TopFirst, "top_ridges": nil, "top_ridges_done": nil, "top_rows": b.TopRows, "top_rows_done": b.RowsDone,
	}
	if b.Ridges {
		j["bottom_ridges"], j["top_ridges"], j["top_ridges_done"] = b.BottomRidges, b.TopRidges, b.RidgesDone
	}
	return j
}

func jsonOfAhead(a mend.Ahead) any {
	return map[string]any{"at_marker": a.AtMarker, "count": a.Count, "first_peg": orNull(a.First), "last_peg": orNull(a.Last), "schema": jsonSchema}
}

// jsonOfSteps are steps in words, with what else is told.
func jsonOfSteps(s mend.Steps, with map[string]any) any {
	j := map[string]any{"schema": jsonSchema, "steps": stepsOf(s)}
	for k, v := range with {
		j[k] = v
	}
	return j
}

func stepsOf(s mend.Steps) []string {
	steps := make([]string, s.Len())
	for i := range steps {
		steps[i] = s.Words(i)
	}
	return steps
}
