package rowtext

import (
	"cmp"
	"encoding/binary"
	"slices"
	"strconv"
	"strings"

	"bypeg/pattern"
)

// Rows into a text of fewer lines.
//
// Rows are equal that have the same steps in the order of work, the same yarn, and the
// same word behind their number. Where a block of rows comes again and again it is
// written once, and the rest as "Rows 5-12: rep rows 1-4 2 times": the range says what
// "2 times" means. What is left between such blocks is written a line for each different
// row, with a list of its numbers: "Rows 1, 3, 5".
//
// The longest repeat is taken first, if it is shorter than lists: a line costs one, each
// item of its list one, and each part of its row one. Inside the block, before it and
// behind it the same is done again. Only the 500 longest repeats are looked at, so that
// the work is bounded.

const mostFolds = 500

// Fold is the rows as a text, a line each, with equal rows told once. Every line of a
// sheet has at least one step.
func (s Sheet) Fold(w Wording) []string {
	f := &folder{sheet: s, w: w, ids: make([]int, len(s.Lines))}
	f.number()
	f.seen = make([]int, len(f.texts))
	f.write(0, len(s.Lines), f.longest())
	return f.lines
}

// Each is the rows as a text with a line for every row.
func (s Sheet) Each(w Wording) []string {
	lines := make([]string, len(s.Lines))
	for i, line := range s.Lines {
		text, _ := s.text(w, line)
		lines[i] = s.word(w, false) + " " + strconv.Itoa(s.First+i) + s.mark(w, s.First+i) + ": " + text
	}
	return lines
}

// word is "Row", "Rows", "Rnd", "Rnds", "Round", "Rounds".
func (s Sheet) word(w Wording, several bool) string {
	word := "Row"
	switch {
	case s.Form == pattern.Tube && w.Words == Full:
		word = "Round"
	case s.Form == pattern.Tube:
		word = "Rnd"
	}
	if several {
		word += "s"
	}
	return word
}

// text is a line without its number, and how many parts it has at the top. A row of one
// word is a whole word: a letter alone at the end of a line is easily lost.
func (s Sheet) text(w Wording, line Line) (text string, parts int) {
	row := shorten(line.Runs)
	if len(row) == 1 && row[0].kind == partWhole {
		w.Words = Full
	}
	text = string(w.parts(nil, row))
	if s.Yarns > 1 {
		text = "with " + yarnLetter(line.Yarn) + ", " + text
	}
	return text, len(row)
}

// yarnLetter is what a yarn is called in rows: A is the main one.
func yarnLetter(y pattern.Yarn) string {
	if y < 26 {
		return string(rune('A' + y))
	}
	return "yarn " + strconv.Itoa(int(y)+1)
}

// folder writes one sheet.
type folder struct {
	sheet Sheet
	w     Wording
	ids   []int    // of each row; equal rows have one
	texts []string // of each id
	marks []string
	parts []int
	seen  []int // the round of counting in which each id was met last
	round int
	lines []string
}

// number gives equal rows one id.
func (f *folder) number() {
	known := map[string]int{}
	var key []byte
	for i, line := range f.sheet.Lines {
		mark := f.sheet.mark(f.w, f.sheet.First+i)
		key = append(append(key[:0], mark...), byte(line.Yarn))
		for _, r := range line.Runs {
			key = binary.AppendUvarint(key, uint64(r.Stitch))
			key = binary.AppendUvarint(key, uint64(r.Count))
		}
		id, ok := known[string(key)]
		if !ok {
			id = len(f.texts)
			known[string(key)] = id
			text, parts := f.sheet.text(f.w, line)
			f.texts, f.marks, f.parts = append(f.texts, text), append(f.marks, mark), append(f.parts, parts)
		}
		f.ids[i] = id
	}
}

// longest are the repeats that tell the most rows by another's number.
func (f *folder) longest() []stretch {
	found := repeats(f.ids, false)
	slices.SortStableFunc(found, func(a, b stretch) int {
		return cmp.Or(cmp.Compare(b.saved(), a.saved()), cmp.Compare(a.from, b.from))
	})
	return found[:min(len(found), mostFolds)]
}

// times is how often the period is worked, and saved the rows beyond the first time.
func (s stretch) times() int { return (s.to - s.from) / s.period }
func (s stretch) saved() int { return (s.times() - 1) * s.period }

// write writes the rows from up to but not including to.
func (f *folder) write(from, to int, found []stretch) {
	s, inside, ok := f.choose(from, to, found)
	if !ok {
		f.literal(from, to)
		return
	}
	first, end := s.from+s.period, s.from+s.period*s.times()
	f.write(from, s.from, inside)
	f.write(s.from, first, inside)
	f.repeat(s.from, first, end)
	f.write(end, to, inside)
}

// choose is the repeat among rows that tells the most rows and makes the text shorter,
// and the repeats that are left.
func (f *folder) choose(from, to int, found []stretch) (best stretch, left []stretch, ok bool) {
	for _, s := range found {
		s.from, s.to = max(s.from, from), min(s.to, to)
		if s.from+2*s.period <= s.to {
			left = append(left, s)
		}
	}
	for len(left) > 0 {
		i := 0
		for k, s := range left {
			if s.saved() > left[i].saved() {
				i = k
			}
		}
		best = left[i]
		left = slices.Delete(left, i, i+1)
		const repeatLine = 4
		end := best.from + best.period*best.times()
		if f.cost(best.from, best.from+best.period)+repeatLine < f.cost(best.from, end) {
			return best, left, true
		}
	}
	return stretch{}, nil, false
}

// cost is what rows cost as lists.
func (f *folder) cost(from, to int) int {
	cost, last := 0, -1
	f.round++
	for _, id := range f.ids[from:to] {
		if id != last {
			cost++
		}
		if f.seen[id] != f.round {
			f.seen[id] = f.round
			cost += 1 + f.parts[id]
		}
		last = id
	}
	return cost
}

// repeat writes that rows first up to end are the block from up to first again.
func (f *folder) repeat(from, first, end int) {
	rows := strings.ToLower(f.sheet.word(f.w, true))
	rep := "rep "
	if f.w.Words == Full {
		rep = "repeat "
	}
	line := f.sheet.word(f.w, true) + " " + f.numbers(first, end) + ": " + rep + rows + " " + f.numbers(from, first)
	if n := (end - first) / (first - from); n > 1 {
		line += string(f.w.times(nil, n))
	}
	f.lines = append(f.lines, line)
}

// numbers is a range of rows: "5-12".
func (f *folder) numbers(from, to int) string {
	return strconv.Itoa(f.sheet.First+from) + "-" + strconv.Itoa(f.sheet.First+to-1)
}

// literal writes rows a line for each different one.
func (f *folder) literal(from, to int) {
	rows := map[int][]int{}
	var order []int
	for i := from; i < to; i++ {
		id := f.ids[i]
		if rows[id] == nil {
			order = append(order, id)
		}
		rows[id] = append(rows[id], i)
	}
	alternate := -1 // the row that has been told by every second number
	for _, id := range order {
		all := rows[id]
		head, ok := "", false
		if alternate < 0 && from == 0 && to == len(f.ids) {
			head, ok = f.everySecond(all)
		}
		if ok {
			alternate = id
		} else {
			head = f.list(all)
		}
		f.lines = append(f.lines, head+f.marks[id]+": "+f.texts[id])
	}
}

// everySecond is the head of a row that has every second number of the whole piece: "Row 2
// and all even rows". The piece has to end with an even row, for "all odd rows" adds none
// behind the last even one, and "all even rows" would.
func (f *folder) everySecond(rows []int) (string, bool) {
	const few = 3
	n := len(f.ids)
	if f.sheet.Part || f.sheet.First != 1 || n%2 != 0 || len(rows) != n/2 || len(rows) <= few || rows[0] > 1 {
		return "", false
	}
	for i, row := range rows {
		if row != rows[0]+2*i {
			return "", false
		}
	}
	which := [2]string{" 1 and all odd ", " 2 and all even "}[rows[0]]
	return f.sheet.word(f.w, false) + which + strings.ToLower(f.sheet.word(f.w, true)), true
}

// list is the head of a row with so many numbers, which ascend: "Rows 1, 3, 5-8". Three
// neighbours make a range.
func (f *folder) list(rows []int) string {
	var items []string
	for i := 0; i < len(rows); {
		k := i + 1
		for k < len(rows) && rows[k] == rows[k-1]+1 {
			k++
		}
		if k-i > 2 {
			items = append(items, f.numbers(rows[i], rows[k-1]+1))
		} else {
			k = i + 1
			items = append(items, strconv.Itoa(f.sheet.First+rows[i]))
		}
		i = k
	}
	head := f.sheet.word(f.w, len(rows) > 1) + " "
	if len(rows) == 2 {
		return head + items[0] + " and " + items[1]
	}
	return head + strings.Join(items, ", ")
}
