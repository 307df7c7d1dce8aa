package file

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"bypeg/pattern"
)

// chart makes the fabric of the picture under a key, drawn as it looks, top line last
// worked: nil where it holds no text. Any width goes with a room of 0 pegs, as long
// as all lines have it.
func (w *weaver) chart(t *table, key string, in room, yarn pattern.Yarn) *fabric {
	e := t.entries[key]
	of := loomed{e.at, in, yarn}
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
		widths := w.draw(f, e.at, picture, span{top, bottom}, yarn)
		w.misdrawn(f, in, widths)
	}
	return f
}

// draw reads the lines of a picture, the lowest first, and returns how many lines
// have each width. A line with a sign that is not known has no cells and no width.
func (w *weaver) draw(f *fabric, text *spot, picture string, lines span, yarn pattern.Yarn) map[int]int {
	backing := make([]pattern.Cell, 0, lines.end-lines.start)
	widths := map[int]int{}
	unknown := map[string]place{}
	for end := lines.end; end > lines.start && len(f.faults)+len(unknown) < maxFindings; {
		start := max(lines.start, strings.LastIndexByte(picture[:end], '\n')+1)
		at := place{text: text, piece: trimmed(picture, span{start, end})}
		from, ok := len(backing), false
		backing, ok = w.chartLine(picture, at, backing, yarn, unknown)
		cells := backing[from:len(backing):len(backing)]
		switch {
		case !ok:
			cells = nil
		case len(cells) == 0:
			f.fail(at.in(w.text), "delete it; a row without a stitch ends the fabric", "an empty line stands in the chart")
		default:
			widths[len(cells)]++
		}
		f.lines = append(f.lines, pattern.Line{Cells: cells})
		f.places = append(f.places, at)
		end = start - 1
	}
	w.cells += len(backing)
	byPlace := func(a, b place) int { return a.piece.start - b.piece.start }
	for _, at := range slices.SortedFunc(maps.Values(unknown), byPlace) {
		sign := picture[at.piece.start:at.piece.end]
		f.fail(at.in(w.text), signHint(sign), "the sign %s is not in the legend", shown(sign))
	}
	return widths
}

// misdrawn tells which lines are not as wide as the room. Where most are equally
// wrong the fault is the chart's, or the room's, and is told once.
func (w *weaver) misdrawn(f *fabric, in room, widths map[int]int) {
	usual := usualWidth(widths, in.pegs)
	pegs := in.pegs
	if pegs == 0 {
		pegs = usual
	}
	told := false
	for i := len(f.lines) - 1; i >= 0; i-- { // from the top, as it is read
		n := len(f.lines[i].Cells)
		lines := "this line of the chart has"
		switch {
		case n == 0 || n == pegs:
			continue
		case n == usual && widths[n] > 1:
			if told {
				continue
			}
			told = true
			lines = fmt.Sprintf("%d lines of this chart have", widths[n])
			if widths[n] == len(f.lines) {
				lines = "each line of this chart has"
			}
		}
		hint := ""
		switch {
		case in.sides > 0 && n == in.whole():
			hint = in.between("the chart", "draw")
		case n == usual && in.pegs > 0:
			hint = fmt.Sprintf("draw %d in each line, or change the number of pegs", pegs)
		}
		f.fail(f.places[i].in(w.text), hint, "%s %d stitches for %d pegs: %s", lines, n, pegs, missBy(n, pegs))
	}
}

// usualWidth is the width that most lines have: of several the one that is right, or
// the largest. It is 0 where no line has one.
func usualWidth(widths map[int]int, right int) int {
	usual := 0
	for n, lines := range widths {
		most := widths[usual]
		if lines > most || lines == most && usual != right && (n == right || n > usual) {
			usual = n
		}
	}
	return usual
}

// chartLine appends the cells of one line of a chart. It is false where there are
// signs that are not known, and notes the first place of each.
func (w *weaver) chartLine(picture string, at place, cells []pattern.Cell, yarn pattern.Yarn, unknown map[string]place) ([]pattern.Cell, bool) {
	i, end := at.piece.start, at.piece.end
	for ; i < end && picture[i] < 128; i++ { // most charts are drawn with plain signs
		stitch := w.legend.plain[picture[i]]
		if stitch == unknownSign || i+1 < end && picture[i+1] >= 128 {
			break
		}
		cells = append(cells, pattern.Cell{Stitch: stitch, Yarn: yarn})
	}
	ok := true
	for i < end {
		stitch, size := w.legend.at(picture[i:end])
		if stitch == unknownSign {
			ok = false
			note(unknown, picture[i:i+size], place{text: at.text, piece: span{i, i + size}})
		} else {
			cells = append(cells, pattern.Cell{Stitch: stitch, Yarn: yarn})
		}
		i += size
	}
	return cells, ok
}

// note keeps the first place of a sign, for as many signs as will be told.
func note(places map[string]place, sign string, at place) {
	before, seen := places[sign]
	if !seen && len(places) < maxFindings || seen && at.piece.start < before.piece.start {
		places[sign] = at
	}
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
