package adopt

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
)

// A text can have parts that lie side by side, each with rows of its own:
//
//	Panel A (8 pegs):
//	Row 1: k
//	Row 2: p2, k4, p2
//
//	Panel B, pegs 9-20:
//	Rows 1-4: k1, p10, k1
//	...
//
//	Work 60 rows.
//
// The part with peg 1 comes first: row 1 begins with it. Each begins anew when its rows are through; without a
// number of rows they go on until all begin together again.

// heading is the heading of a part.
var heading = regexp.MustCompile(`(?im)^[ \t]*(?:at the same time,?[ \t]+)?((?:panel|strip)\b[^\n:(,]{0,40}?)[ \t]*[,(:]?[ \t]*` +
	`(?:(?:over |on )?pegs?[ \t]+(\d{1,5})[ \t]*(?:-|–|to)[ \t]*(\d{1,5})|(\d{1,5})[ \t]*(?:pegs?|sts?|stitch(?:es)?))\)?[ \t]*[:.]?[ \t]*\r?$`)

// course is how rows came to be: in which row of its repeat each part is.
type course struct {
	parts []SidePart
	meets int // rows after which all parts begin together again
}

// SidePart is a part of the fabric with a row repeat of its own.
type SidePart struct {
	Name string // empty where the text has no parts
	Pegs int
	Rows int // of its repeat
}

// tell puts down in which row of each repeat a row is.
func (c course) tell(a *Adopted) {
	if len(c.parts) == 0 {
		return
	}
	a.Parts, a.Meets = c.parts, c.meets
	if len(c.parts) > 1 {
		a.Pattern.Way.Peg1 = a.Pattern.Way.Row1.From() // the first part has peg 1, where row 1 begins
	}
	for i := range a.Rows {
		for _, p := range c.parts {
			a.Rows[i].Of = append(a.Rows[i].Of, i%p.Rows+1)
		}
	}
	if len(c.parts) > 1 {
		a.Zones = sideBySide(a, c.parts)
	}
}

// head is the heading of a part.
type head struct {
	name       string
	pegs       int
	start, end int
	body       int // where the next heading or the end of the text stands
}

// findHeads finds the headings of parts. Pegs are 0 where they make no sense.
func findHeads(text string) []head {
	var heads []head
	next := 1
	for _, at := range heading.FindAllStringSubmatchIndex(text, -1) {
		h := head{name: strings.TrimSpace(text[at[2]:at[3]]), start: at[0], end: at[1], body: len(text)}
		number := func(i int) int {
			if at[2*i] < 0 {
				return 0
			}
			n, _ := strconv.Atoi(text[at[2*i]:at[2*i+1]])
			return n
		}
		if from, to := number(2), number(3); at[4] < 0 {
			h.pegs = number(4)
		} else if from == next && to >= from {
			h.pegs = to - from + 1
		}
		next += h.pegs
		if len(heads) > 0 {
			heads[len(heads)-1].body = at[0]
		}
		heads = append(heads, h)
	}
	return heads
}

// mostParts is how many parts a text can have.
const mostParts = 100

// sayCastOn is the one thing beside a title that stands above the first part and counts.
var sayCastOn = regexp.MustCompile(`(?i)\bcast[ -]on[ \t]+(\d{1,5})\b`)

// readParts reads a text of parts and lays them side by side.
func readParts(text string, heads []head, l length, o rowtext.Options) (*rowtext.Reading, course, error) {
	pegs, err := pegsOfParts(text, heads, o)
	if err == nil {
		err = saidAmidParts(heads, l)
	}
	if err != nil {
		return nil, course{}, err
	}
	var parts []*rowtext.Reading
	c := course{meets: 1}
	out := &rowtext.Reading{Pegs: pegs, Form: o.Form, Warnings: unread(text[:heads[0].start])}
	for _, h := range heads {
		r, err := readPart(text, h, o)
		if err != nil {
			return nil, course{}, err
		}
		parts = append(parts, r)
		c.parts = append(c.parts, SidePart{Name: h.name, Pegs: h.pegs, Rows: len(r.Rows)})
		if c.meets = lcm(c.meets, len(r.Rows)); c.meets > pattern.MaxRows && l.rows == 0 {
			return nil, course{}, refusal(h.start, h.end, "write how many rows there are: Work 60 rows.", "the parts begin together again only after more than %d rows", pattern.MaxRows)
		}
		out.Warnings = append(out.Warnings, r.Warnings...)
		for _, d := range r.Directives {
			d.First, d.Last = 0, 0 // rows of the part, beside others
			out.Directives = append(out.Directives, d)
		}
	}
	out.Form = parts[0].Form
	side, err := agreed(parts, heads, o)
	switch {
	case err != nil:
		return nil, course{}, err
	case side == rowtext.WrongSide && o.Needles && !o.WrongSide:
		o.WrongSide = true // for "knit the knits" in the parts that don't say it
		return readParts(text, heads, l, o)
	}
	if err := lengthFits(text, heads, parts, l, o); err != nil {
		return nil, course{}, err
	}
	total := c.meets
	switch {
	case l.end > 0 && l.more:
		total = len(parts[0].Rows) + l.rows
	case l.end > 0:
		total = l.rows
	}
	if l.end > 0 {
		out.Directives = settled(out.Directives)
	}
	if total > pattern.MaxRows || total*pegs > pattern.MaxCells {
		return nil, course{}, refusal(l.start, l.end, "", "%d rows on %d pegs are more than a pattern may have", total, pegs)
	}
	layParts(out, parts, total)
	return out, c, nil
}

// pegsOfParts is how many pegs the parts have together. What stands above them is held against it.
func pegsOfParts(text string, heads []head, o rowtext.Options) (int, error) {
	pegs := 0
	for i, h := range heads {
		pegs += h.pegs
		switch {
		case h.pegs < 1:
			return 0, refusal(h.start, h.end, "list the parts from peg 1 on, each from where the one before it ends", "the pegs of this part do not follow on: it would begin at peg %d", pegs+1)
		case pegs > pattern.MaxPegs || i >= mostParts:
			return 0, refusal(h.start, h.end, "", "a pattern has at most %d pegs, and here at most %d parts", pattern.MaxPegs, mostParts)
		}
	}
	first := heads[0]
	switch at := sayCastOn.FindStringSubmatchIndex(text[:first.start]); {
	case at != nil && text[at[2]:at[3]] != strconv.Itoa(pegs):
		return 0, refusal(at[0], at[1], "", "the parts have %d pegs, not %s", pegs, text[at[2]:at[3]])
	case at == nil && strings.Contains(text[:first.start], ":"):
		return 0, refusal(0, first.start, "put rows under the heading of a part, or in a pattern of their own", "rows stand above the first part")
	case o.Pegs > 0 && o.Pegs != pegs:
		return 0, refusal(first.start, first.end, "leave --pegs out, or write other pegs in the headings", "the parts have %d pegs, not %d", pegs, o.Pegs)
	}
	return pegs, nil
}

// readPart reads the rows of a part, with places in the whole text.
func readPart(text string, h head, o rowtext.Options) (*rowtext.Reading, error) {
	if err := acrossAPart(text, h); err != nil {
		return nil, err
	}
	o.Pegs = h.pegs
	r, err := rowtext.Read(text[h.end:h.body], o)
	if err != nil {
		return nil, moved(err, h.end)
	}
	r.Warnings, r.Directives = shifted(r.Warnings, h.end), shifted(r.Directives, h.end)
	for i := range r.Rows {
		r.Rows[i].Start, r.Rows[i].End = r.Rows[i].Start+h.end, r.Rows[i].End+h.end
	}
	switch {
	case len(r.Rows) == 0:
		return nil, refusal(h.start, h.end, "", "this part has no rows")
	case r.Rows[0].Number < 1:
		return nil, refusal(r.Rows[0].Start-r.Rows[0].Header, r.Rows[0].End, "leave it out here, and add it to the file as a zone of its own",
			"a set-up row is worked once, and the rows of a part again and again")
	case r.Rows[0].Number > 1:
		return nil, refusal(r.Rows[0].Start-r.Rows[0].Header, r.Rows[0].End, "number the rows of each part from 1 on", "this part begins at row %d", r.Rows[0].Number)
	case !level(r):
		return nil, refusal(h.start, h.body, "", "the rows of this part change their count, and the parts beside it would have to move")
	case r.Form == pattern.Panel && o.Needles && len(r.Rows)%2 == 1:
		return nil, refusal(h.start, h.end, "write its rows twice, once from each side",
			"this part has %s: on needles the second time begins on the other side", many(len(r.Rows), "row", "rows"))
	}
	return r, nil
}

// unread warns of what stands above the first part and is no cast-on.
func unread(above string) []rowtext.Note {
	var notes []rowtext.Note
	at := 0
	for line := range strings.Lines(above) {
		if said := strings.TrimSpace(line); said != "" && !sayCastOn.MatchString(said) && len(notes) < 10 {
			start := at + strings.Index(line, said)
			notes = append(notes, rowtext.Note{Start: start, End: start + len(said), Msg: "not read: this stands above the parts"})
		}
		at += len(line)
	}
	return notes
}

// layParts makes whole rows of the rows of parts.
func layParts(out *rowtext.Reading, parts []*rowtext.Reading, total int) {
	made := map[string][]rowtext.Run{}
	for i := range total {
		back := out.Form == pattern.Panel && i%2 == 1
		var key []byte
		for _, p := range parts {
			key = strconv.AppendInt(append(key, ' '), int64(i%len(p.Rows)), 10)
		}
		if back {
			key = append(key, '<')
		}
		runs, ok := made[string(key)]
		if !ok {
			for k := range parts {
				if back {
					k = len(parts) - 1 - k
				}
				for _, run := range parts[k].Rows[i%len(parts[k].Rows)].Runs {
					if n := len(runs); n > 0 && runs[n-1].Stitch == run.Stitch {
						runs[n-1].Count += run.Count
					} else {
						runs = append(runs, run)
					}
				}
			}
			made[string(key)] = runs
		}
		out.Rows = append(out.Rows, besides(parts, i, rowtext.Row{Number: i + 1, Back: back, In: out.Pegs, Out: out.Pegs, Runs: runs}))
	}
}

// besides is a row across the parts with what their own rows say: of the way it runs and the side it
// shows only the first time, since an odd number of rows comes back the other way.
func besides(parts []*rowtext.Reading, i int, row rowtext.Row) rowtext.Row {
	of := parts[0].Rows[i%len(parts[0].Rows)]
	row.Start, row.End = of.Start, of.End
	for k, p := range parts {
		of := p.Rows[i%len(p.Rows)]
		row.Wrong = row.Wrong || of.Wrong
		if i >= len(p.Rows) {
			continue
		}
		if k == 0 {
			row.Header = of.Header
		}
		if row.Side == rowtext.SideUnsaid {
			row.Side = of.Side
		}
		if row.Course == rowtext.CourseUnsaid {
			row.Course = of.Course
		}
	}
	return row
}

func shifted(notes []rowtext.Note, by int) []rowtext.Note {
	all := slices.Clone(notes)
	for i := range all {
		all[i].Start, all[i].End = all[i].Start+by, all[i].End+by
	}
	return all
}

// sideBySide is one zone of strips, where whole repeats of the longest part make up the
// rows; else the zones stay.
func sideBySide(a *Adopted, parts []SidePart) []Zone {
	longest := 0
	for _, p := range parts {
		longest = max(longest, p.Rows)
	}
	n := len(a.Rows)
	if n%longest != 0 {
		return a.Zones
	}
	z := Zone{Name: "field", First: 1, Last: n, Block: longest}
	from := 0
	for _, p := range parts {
		s := strip{from: from, to: from + p.Pegs, rows: p.Rows}
		if a.Pattern.Way.Row1 == pattern.ToLeft {
			s.from, s.to = a.Pattern.Pegs-from-p.Pegs, a.Pattern.Pegs-from
		}
		z.strips = append(z.strips, s)
		from += p.Pegs
	}
	slices.SortFunc(z.strips, func(a, b strip) int { return a.from - b.from })
	return []Zone{z}
}

// Together says after how many rows parts with repeats of their own begin together
// again; it is empty where there is one part.
func (a *Adopted) Together() string {
	if len(a.Parts) < 2 {
		return ""
	}
	word := a.Pattern.Form.RowWord()
	var sides []string
	peg := 1
	for _, p := range a.Parts {
		sides = append(sides, fmt.Sprintf("%s on pegs %d to %d", safetext.Clean(p.Name), peg, peg+p.Pegs-1))
		peg += p.Pegs
	}
	every := many(a.Meets, word, word+"s")
	if a.Meets == 1 {
		every = word
	}
	return strings.Join(sides, ", ") + fmt.Sprintf(": all begin together every %s: at %ss 1, %d, %d and so on", every, word, a.Meets+1, 2*a.Meets+1)
}

// lcm is the least common multiple, or more than a pattern has rows.
func lcm(a, b int) int {
	g, x := a, b
	for x != 0 {
		g, x = x, g%x
	}
	if a/g > pattern.MaxRows {
		return pattern.MaxRows + 1
	}
	return a / g * b
}
