package adopt

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// A panel's repeat has stitches beside it, so that both edges look alike: "multiple of 4
// plus 1". A tube closes, and its repeat stands alone. So a panel becomes a tube without
// those stitches, and a tube a panel with them. Read rows no longer say what their
// repeat was: it is found again in the columns, where it lies in all rows at once.

// columns are the columns of all rows, numbered so that equal ones have one number. Mirror
// is what each number looks like in a mirror: -1 where no column is that.
type columns struct {
	of     []int // left to right as seen
	mirror []int
}

// columnsOf numbers the columns of a sheet.
func columnsOf(s *sheet) columns {
	var kept [][]pattern.Stitch
	seen := map[[2]int]bool{}
	for i, id := range s.rows {
		if at := [2]int{id, int(s.direction(i))}; !seen[at] {
			seen[at] = true
			kept = append(kept, lay(s.lines[id], s.direction(i)))
		}
	}
	ids := map[string]int{}
	var c columns
	var backs []string
	key, back := make([]byte, 2*len(kept)), make([]byte, 2*len(kept))
	for col := range s.pegs {
		for i, cells := range kept {
			st, m := cells[col], mirrored(cells[col])
			key[2*i], key[2*i+1], back[2*i], back[2*i+1] = byte(st), byte(st>>8), byte(m), byte(m>>8)
		}
		id, ok := ids[string(key)]
		if !ok {
			id = len(ids)
			ids[string(key)] = id
			backs = append(backs, string(back))
		}
		c.of = append(c.of, id)
	}
	for _, b := range backs {
		id, ok := ids[b]
		if !ok {
			id = -1
		}
		c.mirror = append(c.mirror, id)
	}
	return c
}

// mirrored is the cell that a cell looks like in a mirror: leans turn round.
func mirrored(s pattern.Stitch) pattern.Stitch {
	if c, part, ok := s.Cross(); ok {
		c.Lean = c.Lean.Opposite()
		return c.Parts()[c.Width()-1-part]
	}
	switch s {
	case pattern.RightTwo:
		return pattern.LeftTwo
	case pattern.LeftTwo:
		return pattern.RightTwo
	case pattern.PurlTwo:
		return pattern.LeftPurlTwo
	case pattern.LeftPurlTwo:
		return pattern.PurlTwo
	}
	return s
}

// repeat is where the repeat of a panel lies: columns [from, to), in repeats of period.
type repeat struct{ from, to, period int }

// edge is how many stitches stand beside the repeats.
func (r repeat) edge(pegs int) int { return pegs - (r.to - r.from) }

// find is the repeat with the fewest stitches beside it, the shortest of those. A declared
// period is kept to; 0 is none. It is false where nothing repeats.
func (c columns) find(declared int) (best repeat, ok bool) {
	n := len(c.of)
	for period := 1; 2*period <= n; period++ {
		if declared > 0 && period != declared {
			continue
		}
		for from := 0; from+period < n; {
			to := from
			for to+period < n && c.of[to] == c.of[to+period] {
				to++
			}
			if to-from >= period && (!ok || (to-from)/period*period+period > best.to-best.from) {
				best, ok = repeat{from, to + period, period}.whole(), true
			}
			from = to + 1
		}
	}
	return best, ok
}

// whole is a repeat without the part at its right that is no whole one.
func (r repeat) whole() repeat {
	r.to -= (r.to - r.from) % r.period
	return r
}

// reform makes a tube of a panel or a panel of a tube where that is wanted.
func (s *sheet) reform(text string, r *rowtext.Reading, o Options, a *Adopted) error {
	asked := o.Want == WantTube && s.form == pattern.Panel || o.Want == WantPanel && s.form == pattern.Tube
	for i, id := range s.rows {
		if runs := s.lines[id]; asked && covers(runs) != rowtext.Out(runs) {
			return refusal(s.from[i].start, s.from[i].end, "adopt the rows in the form they are written in", "row %d leaves pegs out of use, so its edges can't be changed", i+1)
		}
	}
	switch {
	case o.Want == WantTube && s.form == pattern.Panel:
		return s.close(text, r, a)
	case o.Want == WantPanel && s.form == pattern.Tube:
		return s.open(text, r, a)
	}
	return nil
}

// close makes a tube of a panel.
func (s *sheet) close(text string, r *rowtext.Reading, a *Adopted) error {
	all := span(s)
	c := columnsOf(s)
	rep, ok := c.find(r.Multiple)
	once := r.Multiple > 0 && s.pegs == r.Multiple+r.Plus // one repeat is as the text says, and can't be held against another
	if once {
		from := s.column(before(text[s.from[0].start:s.from[0].end], r.Plus), r.Multiple)
		rep, ok = repeat{from, from + r.Multiple, r.Multiple}, true
	}
	ok = ok && (once || 2*rep.edge(s.pegs) <= s.pegs) // else it is a stretch of one stitch somewhere
	switch {
	case !ok && r.Multiple > 0:
		return refusal(all[0], all[1], "", "the rows do not repeat every %d stitches, as the text says, so the edge stitches can't be told", r.Multiple)
	case !ok:
		return refusal(all[0], all[1], "write the rounds with their own repeat, and --from round",
			"no part of the rows repeats side by side, so it can't be told which stitches are the edges to leave out")
	case r.Multiple > 0 && rep.edge(s.pegs) != r.Plus:
		return refusal(all[0], all[1], "", "the text says a multiple of %d plus %d, but %s beside the repeats of its rows",
			r.Multiple, r.Plus, stand(rep.edge(s.pegs)))
	}
	if !once {
		rep = c.begin(rep, s, text)
	}
	edge := rep.edge(s.pegs)
	rows := make([][]pattern.Stitch, len(s.rows))
	for i, id := range s.rows {
		rows[i] = lay(s.lines[id], s.direction(i))[rep.from:rep.to]
		if !whole(rows[i]) {
			return refusal(s.from[i].start, s.from[i].end, "", "row %d has a cross over the edge of its repeat", i+1)
		}
	}
	was := s.pegs
	s.form, s.row1 = pattern.Tube, pattern.ToLeft
	s.relay(rows)
	told := fmt.Sprintf("made a tube of a panel: all rounds run %s", s.row1)
	if edge > 0 {
		told += fmt.Sprintf("; left out the %s, %d pegs of %d stay", edgeStitches(edge), s.pegs, was)
	}
	a.Changes = append(a.Changes, told)
	return nil
}

// begin lays a repeat that may begin at several columns so that a round begins as row 1
// does behind what stands before its star; where that is not told, at row 1's first
// stitch.
func (c columns) begin(rep repeat, s *sheet, text string) repeat {
	n, width := len(c.of), rep.to-rep.from
	low, high := rep.from, rep.from
	for high+width < n && c.of[high] == c.of[high+rep.period] && c.of[high+width-rep.period] == c.of[high+width] {
		high++
	}
	from := s.column(before(text[s.from[0].start:s.from[0].end], n-width), width)
	from = min(max(from, low), high)
	return repeat{from, from + width, rep.period}
}

// column is the leftmost column of so many stitches that row 1 works behind the first few.
func (s *sheet) column(behind, width int) int {
	if s.direction(0) == pattern.ToLeft {
		return s.pegs - width - behind
	}
	return behind
}

// before is how many stitches a written row has before its star: 0 where that can't be
// told.
func before(text string, most int) int {
	head, _, ok := strings.Cut(text, "*")
	head = strings.TrimRight(head, " ,;.\t\r\n")
	if !ok || head == "" {
		return 0
	}
	for n := 1; n <= most; n++ {
		if _, err := rowtext.Expand(head, n); err == nil {
			return n
		}
	}
	return 0
}

// open makes a panel of a tube.
func (s *sheet) open(text string, r *rowtext.Reading, a *Adopted) error {
	all := span(s)
	period, ok := columnsOf(s).round(r.Multiple)
	if !ok {
		return refusal(all[0], all[1], "write the rows with their edges, and no --form",
			"no part of the rounds repeats side by side, so it can't be told which stitches the edges of a panel would need")
	}
	c := columnsOf(s)
	add, lead, ok := c.balance(period, r)
	if !ok {
		return refusal(all[0], all[1], "write the rows with their edges, and no --form",
			"the repeat of %d stitches does not look alike from both sides, so no stitches beside it make both edges alike", period)
	}
	pegs := s.pegs + add
	rows := make([][]pattern.Stitch, len(s.rows))
	for i, id := range s.rows {
		round := lay(s.lines[id], s.direction(i))
		row := make([]pattern.Stitch, pegs)
		for x := range pegs { // in the order of a round: from the right
			row[pegs-1-x] = round[len(round)-1-mod(x-lead, period)]
		}
		if rows[i] = row; !whole(row) {
			return refusal(s.from[i].start, s.from[i].end, "", "round %d has a cross over the edge of its repeat", i+1)
		}
	}
	s.form, s.row1 = pattern.Panel, pattern.ToLeft
	s.relay(rows)
	told := "made a panel of a tube: every other row runs left to right"
	switch {
	case add > 0 && lead == add:
		told += fmt.Sprintf("; added the %s before the repeats, so that both edges look alike: %d pegs", edgeStitches(add), pegs)
	case add > 0 && lead == 0:
		told += fmt.Sprintf("; added the %s behind the repeats, so that both edges look alike: %d pegs", edgeStitches(add), pegs)
	case add > 0:
		told += fmt.Sprintf("; added %d before and %d behind the repeats, so that both edges look alike: %d pegs", lead, add-lead, pegs)
	}
	a.Changes = append(a.Changes, told)
	return nil
}

// round is the shortest repeat that a tube's columns have all round, or the declared one.
func (c columns) round(declared int) (period int, ok bool) {
	n := len(c.of)
	for period = 1; 2*period <= n; period++ {
		if n%period == 0 && (declared == 0 || declared == period) && slices.Equal(c.of[period:], c.of[:n-period]) {
			return period, true
		}
	}
	return 0, false
}

// balance is how many stitches a panel of a tube's repeat needs beside it, and how many of
// them before it, so that it looks the same in a mirror. What the text declares is
// taken as it is.
func (c columns) balance(period int, r *rowtext.Reading) (add, lead int, ok bool) {
	tile := make([]int, period) // one repeat in the order of a round
	for x := range tile {
		tile[x] = c.of[len(c.of)-1-x]
	}
	alike := make([]bool, period) // whether stitch x looks like stitch axis-x in the mirror
	for axis := range alike {
		alike[axis] = true
		for x := 0; x < period && alike[axis]; x++ {
			alike[axis] = c.mirror[tile[x]] == tile[mod(axis-x, period)]
		}
	}
	fits := func(add, lead int) bool { return alike[mod(add-1-2*lead, period)] }
	for add := range period {
		if r.Plus > 0 && add != r.Plus {
			continue
		}
		for _, lead := range append([]int{0, add}, between(1, add)...) {
			if fits(add, lead) {
				return add, lead, true
			}
		}
	}
	return r.Plus, 0, r.Plus > 0
}

// between are the numbers from low up to but not including high.
func between(low, high int) []int {
	var all []int
	for i := low; i < high; i++ {
		all = append(all, i)
	}
	return all
}

// relay puts rows of cells in place of those on the sheet.
func (s *sheet) relay(rows [][]pattern.Stitch) {
	s.lines, s.ids, s.pegs = nil, nil, len(rows[0])
	for i, cells := range rows {
		s.rows[i] = s.keep(taken(cells, s.direction(i)))
	}
}

// whole tells whether no cross is cut at the ends of a row.
func whole(cells []pattern.Stitch) bool {
	_, first, _ := cells[0].Cross()
	c, last, ok := cells[len(cells)-1].Cross()
	return first == 0 && (!ok || last == c.Width()-1)
}

// span is where the rows stand in the text.
func span(s *sheet) [2]int {
	all := [2]int{s.from[0].start, s.from[0].end}
	for _, f := range s.from { // the text need not have the rows in their order
		all[0], all[1] = min(all[0], f.start), max(all[1], f.end)
	}
	return all
}

func mod(a, n int) int { return ((a % n) + n) % n }

func stand(n int) string {
	if n == 1 {
		return "1 stitch stands"
	}
	return fmt.Sprintf("%d stitches stand", n)
}

func edgeStitches(n int) string {
	if n == 1 {
		return "edge stitch"
	}
	return fmt.Sprintf("%d edge stitches", n)
}
