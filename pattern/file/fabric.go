package file

import (
	"errors"
	"fmt"
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// fabric is the lines of one strip or side, bottom first, made from written rows or
// from a chart. Or it is what is wrong with them: the same text may stand in several
// zones, so it is made once and its faults are told for each.
type fabric struct {
	lines  []pattern.Line
	places []place // of each line
	faults []fault
	doubts []fault // readings of its rows that could be others
}

// place is where a line is written: a piece of a text's value, or a text as a whole.
// It becomes a place in the file only when it is asked for, since finding a piece
// means walking the text.
type place struct {
	text  *spot
	piece span
	whole bool
}

func (p place) in(file string) span {
	if p.whole {
		return p.text.value
	}
	return p.text.within(file, p.piece.start, p.piece.end)
}

// room is the pegs a fabric is made for. The border pegs beside it are no part of
// it, though makers often write them too.
type room struct {
	pegs  int // 0 is any number
	sides int // border pegs at each edge
}

// whole is the pegs of the room and of the borders beside it.
func (in room) whole() int { return in.pegs + 2*in.sides }

// between is the advice to leave the border out of what lies beside it.
func (in room) between(of, verb string) string {
	pegs, are := "peg", "is"
	if in.sides > 1 {
		pegs, are = "pegs", "are"
	}
	return fmt.Sprintf("the %d side %s at each edge %s not part of %s: %s what lies between them, %d pegs",
		in.sides, pegs, are, of, verb, in.pegs)
}

// loomed is what a fabric depends on.
type loomed struct {
	text *spot
	room room
	yarn pattern.Yarn
}

func (f *fabric) fail(at span, hint, format string, args ...any) {
	if len(f.faults) < maxFindings {
		f.faults = append(f.faults, fault{at, fmt.Sprintf(format, args...), hint})
	}
}

// cells are the lines' cells alone.
func (f *fabric) cells() [][]pattern.Cell {
	rows := make([][]pattern.Cell, len(f.lines))
	for i, l := range f.lines {
		rows[i] = l.Cells
	}
	return rows
}

// weaver makes fabrics. What it makes for a whole file is bounded, however often
// zones copy each other.
type weaver struct {
	text   string
	legend *legend
	made   map[loomed]*fabric
	cells  int // made so far
	bytes  int // of written rows read so far
}

// maxRead is how many bytes of written rows are read, counting again those that are
// read for another number of pegs.
const maxRead = 8 * MaxBytes

// fits tells whether n more lines are within what a pattern may have.
func (w *weaver) fits(lines, pegs int) bool {
	return lines <= pattern.MaxRows && w.cells+lines*pegs <= pattern.MaxCells
}

const tooMuch = "the pattern has more stitches than the 20 million it may have"

// rows makes the fabric of the written rows under a key: nil where it holds no list.
func (w *weaver) rows(t *table, key string, in room, yarn pattern.Yarn) *fabric {
	e, pegs := t.entries[key], in.pegs
	of := loomed{e.at, in, yarn}
	if f := w.made[of]; f != nil {
		return f
	}
	elements, ok := t.list(key, `["k", "p"]`)
	if !ok {
		return nil
	}
	f := &fabric{}
	w.made[of] = f
	if !w.fits(len(elements), pegs) {
		f.fail(e.at.value, "write fewer rows, or fewer pegs", tooMuch)
		return f
	}
	w.cells += len(elements) * pegs
	backing := make([]pattern.Cell, len(elements)*pegs)
	for i, row := range elements {
		cells := backing[i*pegs : (i+1)*pegs : (i+1)*pegs]
		w.row(f, row, in, cells, yarn)
		f.lines = append(f.lines, pattern.Line{Cells: cells, Written: true})
		f.places = append(f.places, place{text: row.at, whole: true})
		if len(f.faults) >= maxFindings {
			break
		}
	}
	return f
}

// row expands one written row into cells.
func (w *weaver) row(f *fabric, e entry, in room, cells []pattern.Cell, yarn pattern.Yarn) {
	text, ok := e.value.(string)
	switch w.bytes += len(text); {
	case !ok:
		f.fail(e.at.value, `write it like "k2, p2"`, "a row is text in quotes; this is %s", kindOf(e.value))
		return
	case len(text) > maxRow:
		f.fail(e.at.value, "write repeats with brackets or stars", "a written row has at most %d KiB", maxRow>>10)
		return
	case w.bytes > maxRead:
		f.fail(e.at.value, "use fewer zones that copy long rows", "the zones copy more text than a pattern may have")
		return
	}
	runs, notes, err := rowtext.ReadRow(text, len(cells))
	if err != nil {
		if inner, ok := w.borderWritten(text, in); ok {
			f.fail(e.at.value, in.between("the row", "write")+inner,
				"the row fits all %d pegs and not the %d between the sides", in.whole(), in.pegs)
			return
		}
		f.rowFaults(w.text, e, err)
		return
	}
	if out := rowtext.Out(runs); out != len(cells) && !idle(runs) {
		f.fail(e.at.value, outHint(len(cells), out), "the row takes %d loops and leaves %d", len(cells), out)
		return
	}
	for _, n := range notes[:min(len(notes), maxFindings-len(f.doubts))] {
		f.doubts = append(f.doubts, fault{f.within(w.text, e, n.Start, n.End), n.Msg, ""})
	}
	for _, run := range runs {
		made := run.Stitch.Cells()
		for range run.Count {
			for _, s := range made {
				cells[0], cells = pattern.Cell{Stitch: s, Yarn: yarn}, cells[1:]
			}
		}
	}
}

// idle tells whether a row names pegs that are not in use. Such a row was measured by
// the pegs that its stitches end on, so it may leave other loops than it takes: whether
// the row below has left as many is known once all rows are laid.
func idle(runs []rowtext.Run) bool {
	return slices.ContainsFunc(runs, func(r rowtext.Run) bool { return r.Stitch == rowtext.NoStitch })
}

// outHint says what to do about a row that leaves other loops than it has pegs.
func outHint(pegs, out int) string {
	if out < pegs {
		return "say with none which peg falls out of use, as in k2tog, none; or make up for it with a yo"
	}
	return "take as many pegs as the widest row needs, and say with none which are not in use yet"
}

// maxAdvice is how long a row may be that a hint writes out.
const maxAdvice = 60

// borderWritten tells whether a row that does not fit between the sides was written
// for all pegs, and how it reads without the borders, where that is short.
func (w *weaver) borderWritten(text string, in room) (inner string, ok bool) {
	if in.sides == 0 {
		return "", false
	}
	w.bytes += len(text)
	runs, err := rowtext.Expand(text, in.whole())
	if err != nil {
		return "", false
	}
	between := cut(runs, in.sides, in.pegs)
	inner = rowtext.Print(between)
	if rowtext.In(between) != in.pegs || len(inner) > maxAdvice {
		return "", true
	}
	return `: "` + inner + `"`, true
}

// cut is the runs on so many pegs behind the first few; nothing where a step lies across
// an edge.
func cut(runs []rowtext.Run, from, pegs int) []rowtext.Run {
	var inner []rowtext.Run
	for _, r := range runs {
		width := len(r.Stitch.Cells())
		skip := min(from/width, r.Count)
		from -= skip * width
		if r.Count -= skip; r.Count == 0 {
			continue
		}
		r.Count = min(r.Count, pegs/width)
		pegs -= r.Count * width
		if from > 0 || r.Count == 0 && pegs > 0 {
			return nil
		}
		if r.Count > 0 {
			inner = append(inner, r)
		}
	}
	return inner
}

// rowFaults points into the row's text.
func (f *fabric) rowFaults(text string, e entry, err error) {
	var several rowtext.Errors
	if !errors.As(err, &several) {
		f.fail(e.at.value, "", "%v", err)
	}
	for _, one := range several {
		f.fail(f.within(text, e, one.Start, one.End), one.Hint, "%s", one.Msg)
	}
}

// within is where a piece of a row's text stands in the file.
func (f *fabric) within(text string, e entry, start, end int) span {
	if start == 0 && end == len(e.value.(string)) {
		return e.at.value // the row as a whole
	}
	return e.at.within(text, start, end)
}

// missBy says by how many a count misses: "2 too many".
func missBy(have, want int) string {
	if have > want {
		return fmt.Sprintf("%d too many", have-want)
	}
	return fmt.Sprintf("%d too few", want-have)
}
