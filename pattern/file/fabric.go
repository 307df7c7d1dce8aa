package file

import (
	"errors"
	"fmt"
	"strings"

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

// loomed is what a fabric depends on.
type loomed struct {
	text *spot
	pegs int
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
func (w *weaver) rows(t *table, key string, pegs int, yarn pattern.Yarn) *fabric {
	e := t.entries[key]
	of := loomed{e.at, pegs, yarn}
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
		w.row(f, row, cells, yarn)
		f.lines = append(f.lines, pattern.Line{Cells: cells, Written: true})
		f.places = append(f.places, place{text: row.at, whole: true})
		if len(f.faults) >= maxFindings {
			break
		}
	}
	return f
}

// row expands one written row into cells.
func (w *weaver) row(f *fabric, e entry, cells []pattern.Cell, yarn pattern.Yarn) {
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
	runs, err := rowtext.Expand(text, len(cells))
	if err != nil {
		f.rowFaults(w.text, e, err)
		return
	}
	for _, run := range runs {
		for i := range cells[:run.Count] {
			cells[i] = pattern.Cell{Stitch: run.Stitch, Yarn: yarn}
		}
		cells = cells[run.Count:]
	}
}

// rowFaults points into the row's text.
func (f *fabric) rowFaults(text string, e entry, err error) {
	var several rowtext.Errors
	if !errors.As(err, &several) {
		f.fail(e.at.value, "", "%v", err)
	}
	for _, one := range several {
		at := e.at.within(text, one.Start, one.End)
		if one.Start == 0 && one.End == len(e.value.(string)) {
			at = e.at.value // the row as a whole
		}
		f.fail(at, one.Hint, "%s", one.Msg)
	}
}

// chart makes the fabric of the picture under a key, drawn as it looks, top line last
// worked: nil where it holds no text. Any width goes with pegs 0, as long as all
// lines have it.
func (w *weaver) chart(t *table, key string, pegs int, yarn pattern.Yarn) *fabric {
	e := t.entries[key]
	of := loomed{e.at, pegs, yarn}
	if f := w.made[of]; f != nil {
		return f
	}
	picture, ok := t.raw(key, "|-|")
	if !ok {
		return nil
	}
	f := &fabric{}
	w.made[of] = f
	top, bottom := trimLines(picture)
	lines := 1 + strings.Count(picture[top:bottom], "\n")
	switch {
	case top == bottom:
		f.fail(e.at.value, "draw each row as a line: "+chartSigns, "the chart is empty")
	case !w.fits(lines, 0) || !w.fits(1, bottom-top):
		f.fail(e.at.value, "draw fewer rows", tooMuch)
	default:
		w.draw(f, e.at, picture, span{top, bottom}, pegs, yarn)
	}
	return f
}

// draw reads the lines of a picture, the lowest first.
func (w *weaver) draw(f *fabric, text *spot, picture string, lines span, pegs int, yarn pattern.Yarn) {
	backing := make([]pattern.Cell, 0, lines.end-lines.start)
	for end := lines.end; end > lines.start && len(f.faults) < maxFindings; {
		start := max(lines.start, strings.LastIndexByte(picture[:end], '\n')+1)
		at := place{text: text, piece: trimmed(picture, span{start, end})}
		from := len(backing)
		var wrong *place
		backing, wrong = w.chartLine(picture, at, backing, yarn)
		cells := backing[from:len(backing):len(backing)]
		if pegs == 0 {
			pegs = len(cells)
		}
		switch {
		case wrong != nil:
			f.fail(wrong.in(w.text), chartSigns+"; others are named under [legend]",
				"the sign %s is not in the legend", shown(picture[wrong.piece.start:wrong.piece.end]))
		case len(cells) == 0:
			f.fail(at.in(w.text), "delete it; a row without a stitch ends the fabric", "an empty line stands in the chart")
		case len(cells) != pegs:
			f.fail(at.in(w.text), "", "this line of the chart has %d stitches for %d pegs: %s", len(cells), pegs, missBy(len(cells), pegs))
		}
		f.lines = append(f.lines, pattern.Line{Cells: cells})
		f.places = append(f.places, at)
		end = start - 1
	}
	w.cells += len(backing)
}

// missBy says by how many a count misses: "2 too many".
func missBy(have, want int) string {
	if have > want {
		return fmt.Sprintf("%d too many", have-want)
	}
	return fmt.Sprintf("%d too few", want-have)
}

// chartLine appends the cells of one line of a chart, as far as its signs are known,
// and returns the first sign that is not.
func (w *weaver) chartLine(picture string, at place, cells []pattern.Cell, yarn pattern.Yarn) ([]pattern.Cell, *place) {
	i, end := at.piece.start, at.piece.end
	for ; i < end && picture[i] < 128; i++ { // most charts are drawn with plain signs
		stitch := w.legend.plain[picture[i]]
		if stitch == unknownSign || i+1 < end && picture[i+1] >= 128 {
			break
		}
		cells = append(cells, pattern.Cell{Stitch: stitch, Yarn: yarn})
	}
	for i < end {
		stitch, size := w.legend.at(picture[i:end])
		if stitch == unknownSign {
			return cells, &place{text: at.text, piece: span{i, i + size}}
		}
		cells = append(cells, pattern.Cell{Stitch: stitch, Yarn: yarn})
		i += size
	}
	return cells, nil
}

// trimmed is a line of the picture without the blanks around it.
func trimmed(picture string, line span) span {
	for line.end > line.start && strings.IndexByte(" \t\r", picture[line.end-1]) >= 0 {
		line.end--
	}
	for line.start < line.end && strings.IndexByte(" \t", picture[line.start]) >= 0 {
		line.start++
	}
	return line
}

// trimLines is where the picture's first line begins and its last ends, without the
// empty lines around it.
func trimLines(picture string) (top, bottom int) {
	const blank = " \t\r\n"
	bottom = len(strings.TrimRight(picture, blank))
	top = strings.LastIndexByte(picture[:len(picture)-len(strings.TrimLeft(picture, blank))], '\n') + 1
	return min(top, bottom), bottom
}
