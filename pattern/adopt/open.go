package adopt

import (
	"cmp"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
)

// A text may say that rows go on and on: "repeat rows 1-2 until length 60 in". How many
// rows that comes to only its maker knows. The pattern has them once, as a zone of their
// own, and says so where times stands.

// openRepeat is rows that go on without a number, counted from 1 in the pattern; 0 and 0
// where they are not one range.
type openRepeat struct {
	says        string
	first, last int
}

// setTimes is what to do about rows that go on.
const setTimes = "set times, or a height with a [gauge]"

// openRepeats are the repeats of a text without a number, by their first rows.
func openRepeats(r *rowtext.Reading) []openRepeat {
	var all []openRepeat
	by := r.Rows[0].Number - 1
	for _, d := range r.Directives {
		if !d.Open {
			continue
		}
		o := openRepeat{d.Msg, d.First - by, d.Last - by}
		if d.First == 0 && d.Last == 0 || o.first < 1 || o.last > len(r.Rows) || o.last < o.first {
			o.first, o.last = 0, 0
		}
		all = append(all, o)
	}
	slices.SortStableFunc(all, func(a, b openRepeat) int { return cmp.Compare(a.first, b.first) })
	return all
}

// warned adds to warnings that repeats are left to the maker and that rows are left out, in
// the order of the text.
func warned(warnings, directives []rowtext.Note) []rowtext.Note {
	all := slices.Clone(warnings)
	for _, d := range directives {
		switch {
		case d.Unwritten:
			all = append(all, rowtext.Note{Start: d.Start, End: d.End, Msg: "the text says: " + d.Msg + ". The pattern leaves these rows out: write them as rows"})
		case d.Open:
			all = append(all, rowtext.Note{Start: d.Start, End: d.End, Msg: "the text says: " + d.Msg + ". The pattern does not know how many rows that is: in it, " + setTimes})
		}
	}
	slices.SortStableFunc(all, func(a, b rowtext.Note) int { return cmp.Compare(a.Start, b.Start) })
	return all
}

// settled is directives where how many rows there are is said after all.
func settled(directives []rowtext.Note) []rowtext.Note {
	all := slices.Clone(directives)
	for i := range all {
		all[i].Open = false
	}
	return all
}

// straddles tells whether rows that go on lie on both sides of a row's lower edge; rows
// count from 0 there.
func straddles(open []openRepeat, row int) bool {
	return slices.ContainsFunc(open, func(o openRepeat) bool { return o.first > 0 && o.first-1 < row && row < o.last })
}

// beside is a frame that leaves rows which go on whole: a garter row between border and
// field may belong to either.
func (f Frame) beside(open []openRepeat, t *texture) Frame {
	if f.Sides == 0 || len(open) == 0 || open[0].first == 0 {
		return f
	}
	if start := open[0].first - 1; f.Bottom > 0 && start == f.Bottom+1 && uniform(t.looks[t.rows[f.Bottom]]) {
		f.Bottom++
	}
	if end := open[len(open)-1].last; end == len(t.rows)-f.Top+1 {
		f.Top--
	}
	return f
}

// remark is what stands behind times of a zone: what the text says of its rows. Empty
// where nothing is to be said.
func (a *Adopted) remark(i int) string {
	var says []string
	for _, o := range a.open {
		at := len(a.Zones) - 1
		if o.first > 0 {
			at = slices.IndexFunc(a.Zones, func(z Zone) bool { return z.First <= o.first && o.first <= z.Last })
		}
		if at == i {
			says = append(says, safetext.Clean(o.says))
		}
	}
	if len(says) == 0 {
		return ""
	}
	return "  # the text says: " + strings.Join(says, "; ") + ". " + strings.ToUpper(setTimes[:1]) + setTimes[1:]
}

// cutOpen cuts rows as cut does, with rows that go on as zones of their own.
func (c *cutter) cutOpen(from, to int, like Zone) {
	for _, o := range c.open {
		first, end, n := o.first-1, o.last, o.last-o.first+1
		if o.first == 0 || first < from || end > to {
			continue
		}
		for end+n <= to && slices.Equal(c.rows[end:end+n], c.rows[first:first+n]) {
			end += n
		}
		if slices.ContainsFunc(c.rows[first:end], func(id int) bool { return c.drawn[id] }) {
			continue
		}
		c.cut(from, first, like)
		c.add(like, first, end, n)
		from = end
	}
	c.cut(from, to, like)
}

// goOn works rows that go on a few times more, so that the texture is told by what it will
// be. An odd number of a panel's rows runs the other way the second time and is let be.
func (t *texture) goOn(open []openRepeat) {
	const more = 2
	var rows []int
	at := 0
	for _, o := range open {
		if o.first == 0 || o.first-1 < at || t.form == pattern.Panel && (o.last-o.first)%2 == 0 {
			continue
		}
		rows = append(rows, t.rows[at:o.last]...)
		for range more {
			rows = append(rows, t.rows[o.first-1:o.last]...)
		}
		at = o.last
	}
	t.rows = append(rows, t.rows[at:]...)
}
