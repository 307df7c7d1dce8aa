package file

import (
	"fmt"
	"slices"

	"bypeg/pattern"
)

// warn tells what is doubtful in a pattern that can be worked, and what is worth knowing
// of it.
func warn(r *report, p *pattern.Pattern, zones []*zone) {
	for _, z := range zones {
		warnTurned(r, p, z)
		warnCut(r, z)
		if z.garter && !z.plan.Border && z.plan.Rows%2 == 1 {
			r.warnf(z.count, "make it an even number", "%d rows beside garter sides: they end with half a ridge", z.plan.Rows)
		}
	}
	faces := frameFaces(p)
	warnKnitRows(r, p, zones, faces)
	warnEnds(r, p, zones, faces)
	noteMoves(r, p, zones)
}

// warnTurned tells of an odd number of written rows that is repeated: a panel's rows
// run back and forth, so the second time each runs the other way.
func warnTurned(r *report, p *pattern.Pattern, z *zone) {
	for _, s := range z.plan.Strips {
		n := len(s.Lines)
		if p.Form == pattern.Panel && n%2 == 1 && z.plan.Rows > n && slices.ContainsFunc(s.Lines, turns) {
			r.warnf(z.count, "use chart to keep the columns", "this repeat has %s: they run the other way the second time", rows(n))
		}
	}
}

// turns tells whether a written line reads differently from its other end.
func turns(l pattern.Line) bool {
	for i, c := range l.Cells[:len(l.Cells)/2] {
		if c != l.Cells[len(l.Cells)-1-i] {
			return l.Written
		}
	}
	return false
}

// warnCut tells of repeats that the zone ends in the middle of. Garter sides have a
// warning of their own.
func warnCut(r *report, z *zone) {
	var repeats []int
	for _, s := range z.plan.Strips {
		repeats = append(repeats, len(s.Lines))
	}
	if !z.garter && z.plan.Sides > 0 {
		repeats = append(repeats, len(z.plan.SideRows))
	}
	for _, n := range repeats {
		if cut := z.plan.Rows % n; cut != 0 {
			r.warnf(z.count, "", "a repeat of %s is cut: %s are %d of it and %s", rows(n), rows(z.plan.Rows), z.plan.Rows/n, rows(cut))
		}
	}
}

// frameFaces is what the frame shows on each row, from row 1: knit or purl where all
// its stitches are, else none. On a border's rows the frame is the row, on others its
// sides.
func frameFaces(p *pattern.Pattern) []pattern.Face {
	type part struct {
		row   *pattern.Row
		sides int
	}
	known := map[part]pattern.Face{}
	faces := make([]pattern.Face, p.Grid.Rows()+1)
	for row := range faces[1:] {
		row++
		z := p.ZoneAt(row)
		at := part{p.Grid.Row(row), z.Sides}
		if z.Border {
			at.sides = p.Pegs
		}
		face, ok := known[at]
		if !ok {
			cells := at.row.Cells()
			face = wholeFace(cells[:at.sides], cells[p.Pegs-at.sides:])
			known[at] = face
		}
		faces[row] = face
	}
	return faces
}

// warnKnitRows tells, once a zone, of two knit rows that meet in the frame: there is
// no ridge between them.
func warnKnitRows(r *report, p *pattern.Pattern, zones []*zone, faces []pattern.Face) {
	told := -1
	for row := 2; row < len(faces); row++ {
		zone := p.ZoneIndex(row)
		if faces[row-1] != pattern.FaceKnit || faces[row] != pattern.FaceKnit || zone == told {
			continue
		}
		told = zone
		word := p.Form.RowWord()
		r.warnf(zones[zone].at, "a purl row between them makes the ridge",
			"two knit %ss meet in the border: %[1]s %d and %[1]s %[3]d", word, row-1, row)
	}
}

// warnEnds tells of a frame whose ends are not alike.
func warnEnds(r *report, p *pattern.Pattern, zones []*zone, faces []pattern.Face) {
	last := len(zones) - 1
	first, top := faces[1], faces[len(faces)-1]
	if !p.Zones[0].Border || !p.Zones[last].Border || first == pattern.FaceNone || top == pattern.FaceNone {
		return
	}
	if first != top {
		r.warnf(zones[last].at, "a frame of knit and purl rows takes an odd number of rows: add one knit row before the bind-off",
			"the ends are not alike: the first %s is %s and the last %s", p.Form.RowWord(), faceWord(first), faceWord(top))
		return
	}
	lower, upper := endRidges(p, faces)
	if lower != upper {
		r.warnf(zones[last].at, "", "the ends are not alike: the first border has %d purl %[2]ss and the last %[3]d", lower, p.Form.RowWord(), upper)
	}
}

// endRidges counts the purl rows of the borders at both ends.
func endRidges(p *pattern.Pattern, faces []pattern.Face) (lower, upper int) {
	for row := 1; row < len(faces) && p.ZoneAt(row).Border; row++ {
		if faces[row] == pattern.FacePurl {
			lower++
		}
	}
	for row := len(faces) - 1; row >= 1 && p.ZoneAt(row).Border; row-- {
		if faces[row] == pattern.FacePurl {
			upper++
		}
	}
	return lower, upper
}

func faceWord(f pattern.Face) string {
	if f == pattern.FacePurl {
		return "purl"
	}
	return "knit"
}

// rows is a number of rows in words: "1 row", "2 rows".
func rows(n int) string {
	if n == 1 {
		return "1 row"
	}
	return fmt.Sprintf("%d rows", n)
}
