package adopt

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// A text may end with "Work 60 rows" or "Continue as established for 20 rows". Work repeats
// all rows there are: a shorter repeat is one only where the rows show it whole twice. Rows
// as established may also have begun their second time; what is guessed is told.

var (
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

// behindAll refuses a length that rows follow: what it would count is not clear. The text
// up to it must have the same rows; those of a part begin at a place of their own.
func behindAll(text string, from int, r *rowtext.Reading, l length, o rowtext.Options) error {
	if l.end == 0 || strings.TrimSpace(text[l.end:]) == "" {
		return nil
	}
	before, err := rowtext.Read(text[from:l.start], o)
	same := func(a, b rowtext.Row) bool { return a.Number == b.Number && slices.Equal(a.Runs, b.Runs) }
	late := slices.ContainsFunc(r.Directives, func(d rowtext.Note) bool { return d.Open && d.Start >= l.end })
	if err != nil || late || !slices.EqualFunc(before.Rows, r.Rows, same) {
		return rowsFollow(l)
	}
	return nil
}

func rowsFollow(l length) error {
	return refusal(l.start, l.end, "write it behind the last row, or write these rows out", "rows follow this, so it can't be told how many it means")
}

// rowWord is a word for rows.
var rowWord = regexp.MustCompile(`(?i)\b(?:rows?|rnds?|rounds?)\b`)

// amid is a fault of a text, or that a length stands amid its rows where that is the cause: the
// numbers behind it go on from rows that are not written.
func amid(err error, text string, l length) error {
	var several rowtext.Errors
	if l.end > 0 && rowWord.MatchString(text[l.end:]) && errors.As(err, &several) && several[0].Start >= l.end {
		return rowsFollow(l)
	}
	return err
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
	again, err := recurring(r, l, o)
	switch {
	case err != nil:
		return nil, course{}, err
	case total < n:
		return nil, course{}, refusal(l.start, l.end, "write how many rows there are in all", "the text has %d rows already", n)
	case total > pattern.MaxRows:
		return nil, course{}, refusal(l.start, l.end, "", "a pattern has at most %d rows", pattern.MaxRows)
	case total > n && r.Form == pattern.Panel && again.rows%2 == 1 && o.Needles && again.rows > 1:
		return nil, course{}, refusal(l.start, l.end, "write the repeat twice, once from each side",
			"the rows repeat after %d: on needles the second time begins on the other side", again.rows)
	case !level(r):
		return nil, course{}, refusal(l.start, l.end, "write the rows out", "the rows change their count, so it can't be told how they go on")
	}
	out := *r
	out.Directives = settled(r.Directives)
	out.Warnings = append(slices.Clone(r.Warnings), again.warnings(r, l, total)...)
	out.Rows = slices.Clone(r.Rows)
	wrong := slices.ContainsFunc(r.Rows, func(row rowtext.Row) bool { return row.Wrong })
	for i := n; i < total; i++ {
		row := out.Rows[i-again.rows]
		row.Number = out.Rows[i-1].Number + 1
		row.Back = r.Form == pattern.Panel && !out.Rows[i-1].Back
		row.Side, row.Course = rowtext.SideUnsaid, rowtext.CourseUnsaid // an odd number of rows comes back the other way
		row.Wrong = wrong && r.Form == pattern.Panel && !out.Rows[i-1].Wrong
		out.Rows = append(out.Rows, row)
	}
	if again.from > 0 { // rows below the repeat are in no row of it
		return &out, course{}, nil
	}
	return &out, course{parts: []SidePart{{Pegs: r.Pegs, Rows: again.rows}}, meets: again.rows}, nil
}

// level tells whether all rows take and leave as many loops as the first.
func level(r *rowtext.Reading) bool {
	return !slices.ContainsFunc(r.Rows, func(row rowtext.Row) bool { return row.In != r.Pegs || row.Out != r.Pegs })
}

// goingOn is the rows that go on: the last ones of a text, and those before as they recur.
type goingOn struct {
	rows  int
	from  int  // how many rows lie below the first of them
	shown bool // twice as a whole, or the text says which rows they are
}

// leastBegun is how many rows must recur where a second time is shown in part: one row like the
// first is none.
const leastBegun = 2

// recurring is the rows that go on at the end of a text.
func recurring(r *rowtext.Reading, l length, o rowtext.Options) (goingOn, error) {
	n := len(r.Rows)
	open := openRepeats(r)
	switch {
	case len(open) == 1 && open[0].first > 0 && open[0].last == n:
		return goingOn{rows: n - open[0].first + 1, from: open[0].first - 1, shown: true}, nil
	case len(open) > 0:
		return goingOn{}, refusal(l.start, l.end, "leave one of the two out, or write rep rows 3-4 for rows that are one range", "the text says: %s, so it can't be told which rows this means", open[0].says)
	}
	p := rowPeriod(r.Rows)
	switch {
	case 2*p <= n && p%2 == 1 && p > 1 && o.Needles && r.Form == pattern.Panel:
		return goingOn{rows: 2 * p, shown: true}, nil // once from each side
	case 2*p <= n:
		return goingOn{rows: p, shown: true}, nil
	case l.more && n-p >= leastBegun:
		return goingOn{rows: p}, nil
	}
	return goingOn{rows: n}, nil
}

// warnings are what is guessed of the rows that go on, and where they stop amid a repeat.
func (again goingOn) warnings(r *rowtext.Reading, l length, total int) []rowtext.Note {
	n := len(r.Rows)
	first, last := r.Rows[n-again.rows].Number, r.Rows[n-1].Number
	if !again.shown || again.from == 0 {
		first, last = r.Rows[0].Number, r.Rows[again.rows-1].Number
	}
	word := r.Form.RowWord()
	var notes []rowtext.Note
	warn := func(msg string) { notes = append(notes, rowtext.Note{Start: l.start, End: l.end, Msg: msg}) }
	if l.more && !again.shown && again.rows > 1 {
		warn(fmt.Sprintf("read as %ss %d to %d again and again: if only some of them are meant, write rep %ss and their numbers", word, first, last, word))
	}
	if left := (total - again.from) % again.rows; left > 0 && total > n {
		warn(fmt.Sprintf("ends in the middle of the repeat, which is %ss %d to %d: %s of %d", word, first, last, many(left, word, word+"s"), again.rows))
	}
	return notes
}

// rowPeriod is after how many rows the rows begin anew: all of them where they don't. It is
// their number less the longest beginning that is their end too.
func rowPeriod(rows []rowtext.Row) int {
	border := make([]int, len(rows))
	for i, k := 1, 0; i < len(rows); i++ {
		for k > 0 && !slices.Equal(rows[i].Runs, rows[k].Runs) {
			k = border[k-1]
		}
		if slices.Equal(rows[i].Runs, rows[k].Runs) {
			k++
		}
		border[i] = k
	}
	return len(rows) - border[len(rows)-1]
}
