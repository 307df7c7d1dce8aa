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
// The part with peg 1 comes first. Each begins anew when its rows are through; without a
// number of rows they go on until all begin together again. A text without parts may end
// with such a sentence too, or with "Continue as established for 20 rows".

var (
	heading = regexp.MustCompile(`(?im)^[ \t]*(?:at the same time,?[ \t]+)?((?:panel|strip)\b[^\n:(,]{0,40}?)[ \t]*[,(:]?[ \t]*` +
		`(?:(?:over |on )?pegs?[ \t]+(\d{1,5})[ \t]*(?:-|–|to)[ \t]*(\d{1,5})|(\d{1,5})[ \t]*(?:pegs?|sts?|stitch(?:es)?))\)?[ \t]*[:.]?[ \t]*\r?$`)
	workRows    = regexp.MustCompile(`(?im)^[ \t]*work[ \t]+(\d{1,7})[ \t]+(?:rows|rounds|rnds)(?:[ \t]+(?:in all|in total|altogether))?[ \t]*\.?[ \t]*\r?$`)
	established = regexp.MustCompile(`(?im)^[ \t]*(?:continue|work|keep going)(?:[ \t]+in pattern)?[ \t]+as established[ \t]+for[ \t]+(?:another[ \t]+)?(\d{1,7})[ \t]+(?:more[ \t]+)?(?:rows|rounds|rnds)[ \t]*\.?[ \t]*\r?$`)
)

// length is how far a text says its rows go on.
type length struct {
	rows       int  // so many
	more       bool // beside those written
	start, end int  // where it says so; 0 and 0 where it does not
}

// cutLength finds how far the rows go on, and gives the text without that sentence: its
// place is blank, so that all others stay where they are.
func cutLength(text string) (string, length) {
	for i, re := range []*regexp.Regexp{workRows, established} {
		at := re.FindStringSubmatchIndex(text)
		if at == nil {
			continue
		}
		n, _ := strconv.Atoi(text[at[2]:at[3]])
		rest := text[:at[0]] + strings.Repeat(" ", at[1]-at[0]) + text[at[1]:]
		return rest, length{n, i == 1, at[0], at[1]}
	}
	return text, length{}
}

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
	for i := range a.Rows {
		for _, p := range c.parts {
			a.Rows[i].Of = append(a.Rows[i].Of, i%p.Rows+1)
		}
	}
	if len(c.parts) > 1 && len(a.Changes) == 0 {
		a.Zones = sideBySide(a, c.parts)
	}
}

// goOn continues the rows of a text as they have repeated so far.
func goOn(r *rowtext.Reading, l length, o rowtext.Options) (*rowtext.Reading, course, error) {
	n := len(r.Rows)
	total := l.rows
	if l.more {
		total += n
	}
	if l.end == 0 || n == 0 {
		return r, course{}, nil
	}
	period := rowPeriod(r.Rows)
	switch {
	case total < n:
		return nil, course{}, refusal(l.start, l.end, "write how many rows there are in all", "the text has %d rows already", n)
	case total > pattern.MaxRows:
		return nil, course{}, refusal(l.start, l.end, "", "a pattern has at most %d rows", pattern.MaxRows)
	case total > n && r.Form == pattern.Panel && period%2 == 1 && o.Needles && period > 1:
		return nil, course{}, refusal(l.start, l.end, "write the repeat twice, once from each side",
			"the rows repeat after %d: on needles the second time begins on the other side", period)
	case !level(r):
		return nil, course{}, refusal(l.start, l.end, "write the rows out", "the rows change their count, so it can't be told how they go on")
	}
	out := *r
	out.Directives = settled(r.Directives)
	out.Rows = slices.Clone(r.Rows)
	for i := n; i < total; i++ {
		row := out.Rows[i-period]
		row.Number = out.Rows[i-1].Number + 1
		row.Back = r.Form == pattern.Panel && !out.Rows[i-1].Back
		out.Rows = append(out.Rows, row)
	}
	return &out, course{parts: []SidePart{{Pegs: r.Pegs, Rows: period}}, meets: period}, nil
}

// level tells whether all rows take and leave as many loops as the first.
func level(r *rowtext.Reading) bool {
	return !slices.ContainsFunc(r.Rows, func(row rowtext.Row) bool { return row.In != r.Pegs || row.Out != r.Pegs })
}

// rowPeriod is after how many rows the rows begin anew: all of them where they don't.
func rowPeriod(rows []rowtext.Row) int {
	same := func(a, b rowtext.Row) bool { return slices.Equal(a.Runs, b.Runs) }
	for p := 1; p <= min(len(rows)-1, mostBlock); p++ {
		if slices.EqualFunc(rows[p:], rows[:len(rows)-p], same) {
			return p
		}
	}
	return len(rows)
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
	pegs := 0
	for i, h := range heads {
		pegs += h.pegs
		switch {
		case h.pegs < 1:
			return nil, course{}, refusal(h.start, h.end, "list the parts from peg 1 on, each from where the one before it ends", "the pegs of this part do not follow on: it would begin at peg %d", pegs+1)
		case pegs > pattern.MaxPegs || i >= mostParts:
			return nil, course{}, refusal(h.start, h.end, "", "a pattern has at most %d pegs, and here at most %d parts", pattern.MaxPegs, mostParts)
		}
	}
	first := heads[0]
	switch at := sayCastOn.FindStringSubmatchIndex(text[:first.start]); {
	case at != nil && text[at[2]:at[3]] != strconv.Itoa(pegs):
		return nil, course{}, refusal(at[0], at[1], "", "the parts have %d pegs, not %s", pegs, text[at[2]:at[3]])
	case at == nil && strings.Contains(text[:first.start], ":"):
		return nil, course{}, refusal(0, first.start, "put rows under the heading of a part, or in a pattern of their own", "rows stand above the first part")
	case o.Pegs > 0 && o.Pegs != pegs:
		return nil, course{}, refusal(first.start, first.end, "leave --pegs out, or write other pegs in the headings", "the parts have %d pegs, not %d", pegs, o.Pegs)
	}
	var parts []*rowtext.Reading
	c := course{meets: 1}
	out := &rowtext.Reading{Pegs: pegs, Form: o.Form, Warnings: unread(text[:first.start])}
	for _, h := range heads {
		po := o
		po.Pegs = h.pegs
		r, err := rowtext.Read(text[h.end:h.body], po)
		switch {
		case err != nil:
			return nil, course{}, moved(err, h.end)
		case len(r.Rows) == 0:
			return nil, course{}, refusal(h.start, h.end, "", "this part has no rows")
		case !level(r):
			return nil, course{}, refusal(h.start, h.body, "", "the rows of this part change their count, and the parts beside it would have to move")
		case r.Form == pattern.Panel && o.Needles && len(r.Rows)%2 == 1:
			return nil, course{}, refusal(h.start, h.end, "write its rows twice, once from each side",
				"this part has %s: on needles the second time begins on the other side", many(len(r.Rows), "row", "rows"))
		}
		out.Form = max(out.Form, r.Form)
		parts = append(parts, r)
		c.parts = append(c.parts, SidePart{Name: h.name, Pegs: h.pegs, Rows: len(r.Rows)})
		if c.meets = lcm(c.meets, len(r.Rows)); c.meets > pattern.MaxRows && l.rows == 0 {
			return nil, course{}, refusal(h.start, h.end, "write how many rows there are: Work 60 rows.", "the parts begin together again only after more than %d rows", pattern.MaxRows)
		}
		out.Warnings = append(out.Warnings, shifted(r.Warnings, h.end)...)
		for _, d := range shifted(r.Directives, h.end) {
			d.First, d.Last = 0, 0 // rows of the part, beside others
			out.Directives = append(out.Directives, d)
		}
	}
	if l.rows > 0 {
		out.Directives = settled(out.Directives)
	}
	total := c.meets
	if l.rows > 0 && !l.more {
		total = l.rows
	} else if l.more {
		total = len(parts[0].Rows) + l.rows
	}
	if total > pattern.MaxRows || total*pegs > pattern.MaxCells {
		return nil, course{}, refusal(l.start, l.end, "", "%d rows on %d pegs are more than a pattern may have", total, pegs)
	}
	layParts(out, parts, heads, total)
	return out, c, nil
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
func layParts(out *rowtext.Reading, parts []*rowtext.Reading, heads []head, total int) {
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
		of := parts[0].Rows[i%len(parts[0].Rows)]
		out.Rows = append(out.Rows, rowtext.Row{
			Number: i + 1, Back: back, Wrong: of.Wrong, In: out.Pegs, Out: out.Pegs, Runs: runs,
			Start: of.Start + heads[0].end, End: of.End + heads[0].end,
		})
	}
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
	return strings.Join(sides, ", ") + fmt.Sprintf(": all begin together every %d %ss: at %ss 1, %d, %d and so on", a.Meets, word, word, a.Meets+1, 2*a.Meets+1)
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
