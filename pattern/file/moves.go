package file

import (
	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// noteMoves tells, once for each kind, which stitches of a pattern move loops from peg to
// peg. The tracker names such a stitch and tells its pegs, but not yet which loop goes
// where. That is no doubt about the pattern, so it is a note.
func noteMoves(r *report, p *pattern.Pattern, zones []*zone) {
	seen := map[*pattern.Row]bool{}
	told := map[pattern.Stitch]bool{}
	for row := 1; row <= p.Grid.Rows(); row++ {
		kept := p.Grid.Row(row)
		if seen[kept] {
			continue
		}
		seen[kept] = true
		for col, c := range kept.Cells() {
			if c.Stitch <= pattern.Purl { // nearly all are, and a big chart has millions
				continue
			}
			if s, ok := moving(c.Stitch); ok && !told[s] {
				told[s] = true
				noteMove(r, p, zones, s, row, col)
			}
		}
	}
}

func noteMove(r *report, p *pattern.Pattern, zones []*zone, s pattern.Stitch, row, col int) {
	step := rowtext.AddCells(nil, pattern.Run{Stitch: s, To: 1})[0].Stitch
	r.notef(lineAt(p, zones, row, col).in(r.text), "",
		"%s (%s), first in %s %d, moves loops from peg to peg: work names it, but can't tell yet which loop goes where",
		step.Name(), rowtext.Meaning(step), p.Form.RowWord(), row)
}

// moving is the kind of a stitch that moves loops; of a cross, its first part.
func moving(s pattern.Stitch) (kind pattern.Stitch, ok bool) {
	if c, _, ok := s.Cross(); ok {
		return c.Parts()[0], true
	}
	return s, s != pattern.NoStitch && s.LoopsIn() != 1
}

// lineAt is where the line that a cell was made from stands in the file; the zone's name
// where it has no line of its own.
func lineAt(p *pattern.Pattern, zones []*zone, row, col int) place {
	i := p.ZoneIndex(row)
	z, strip := zones[i], 0
	laid := &p.Zones[i]
	for _, s := range laid.Strips {
		switch {
		case s.Side:
		case col < s.From || col >= s.To:
			strip++
		case strip < len(z.lines) && len(z.lines[strip]) > 0:
			return z.lines[strip][(row-laid.First)%len(z.lines[strip])]
		}
	}
	return place{text: &spot{value: z.at}, whole: true}
}
