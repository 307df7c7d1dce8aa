package rowtext

import (
	"cmp"
	"fmt"
	"slices"

	"bypeg/pattern"
)

// Options say what a text of written rows does not.
type Options struct {
	// Pegs the first row is worked on, 1 to 4,000; 0 takes the count from the text.
	Pegs int
	// Form the rows are worked in. A text that speaks of rounds is a tube's.
	Form pattern.Form
	// Needles tells that the rows were written for needles: every other row of a panel
	// is seen from behind. It matters to "knit the knits" alone: nothing is turned
	// round or swapped here.
	Needles bool
	// WrongSide tells that row 1 of a needle text is seen from behind.
	WrongSide bool
	// Size is which of several sizes "k3 (5, 7)" is read: 1 the first, outside the
	// brackets; 0 refuses a text with several.
	Size int
}

// Reading is what a text of written rows says.
type Reading struct {
	Title      string       // the text's first line, where it is no row; not cleaned
	Pegs       int          // that the first row is worked on; 0 where the text has no row
	Form       pattern.Form // tube where the text speaks of rounds
	Rows       []Row        // in the order of their numbers
	Multiple   int          // declared: so many pegs a repeat; 0 where not said
	Plus       int          // declared: and so many beside the repeats
	Warnings   []Note       // readings that were taken and could be others
	Directives []Note       // what the text says beside rows: "repeat rows 1-4 until length 7 in"
}

// Row is one row or round as it is worked.
type Row struct {
	Number int
	Back   bool   // it runs from the last peg to peg 1
	Wrong  bool   // the text calls it a wrong-side row
	Side   Side   // that its header says it shows, or the header of the row that it repeats
	Course Course // the way that its header says it runs
	Header int    // bytes from the start of that header to its instructions; 0 where it has none
	In     int    // loops it is worked into
	Out    int    // loops it leaves
	Runs   []Run  // in the order of work; rows that are equal may share them
	// Start and End are where its instructions stand: byte offsets, End behind.
	Start, End int
}

// Note is something said of a piece of the text: byte offsets, End behind the last.
type Note struct {
	Start, End int
	Msg        string

	// Open is of a directive that rows are to be worked on and on, without a number: its
	// maker has to say how often. First and Last are the numbers of those rows; 0 and 0
	// where they are not one range.
	Open        bool
	First, Last int
	// Unwritten is of a directive to work rows that are named and not written out: they
	// are not among the rows that were read.
	Unwritten bool
}

// Limits of a text.
const (
	MaxText = 8 << 20 // bytes of a text of several rows
)

// Read reads a text of written rows: rows with and without numbers, ranges and references, repeats of rows,
// declarations and directives. A text may hold directives alone; its Reading has no rows then. The error is an Errors,
// each of its faults with a place inside the text, in the order of the text, at most ten.
func Read(text string, o Options) (*Reading, error) {
	r := &reader{text: text, options: o}
	reading := r.read()
	if len(r.list) > 0 {
		r.sort()
		return nil, r.list
	}
	slices.SortStableFunc(r.warnings, func(a, b Note) int { return cmp.Compare(a.Start, b.Start) })
	reading.Warnings, reading.Directives = r.warnings, r.directives
	return reading, nil
}

func (r *reader) read() *Reading {
	whole := span{0, len(r.text)}
	switch {
	case r.options.Pegs < 0 || r.options.Pegs > maxPegs:
		r.add(whole, "", "a row has 1 to %d pegs, not %d", maxPegs, r.options.Pegs)
		return nil
	case len(r.text) > MaxText:
		r.add(whole, "", "the text is longer than %d MiB", MaxText>>20)
		return nil
	}
	r.scan()
	r.join()
	r.number()
	if len(r.list) == 0 {
		r.gaps()
		r.resolve()
	}
	if len(r.list) > 0 {
		return nil
	}
	reading := &Reading{Title: r.title, Form: r.options.Form, Multiple: r.declared.of, Plus: r.declared.plus}
	if r.round {
		reading.Form = pattern.Tube
	}
	if len(r.slots) == 0 {
		r.checkMultiples(max(r.options.Pegs, r.cast.pegs))
		if len(r.directives) == 0 && len(r.multiples) == 0 && len(r.list) == 0 {
			r.add(whole, "write a row, as in Row 1: k3, p2", "there is no row in the text")
		}
		return reading
	}
	if reading.Pegs = r.pegs(); reading.Pegs == 0 {
		return nil
	}
	if !r.checkMultiples(reading.Pegs) {
		return nil
	}
	if len(r.slots)*reading.Pegs > pattern.MaxCells {
		r.add(r.slots[len(r.slots)-1].at(), "", "%d rows on %d pegs are more than the %d stitches a text may have", len(r.slots), reading.Pegs, pattern.MaxCells)
		return nil
	}
	r.courses(reading.Form)
	r.sides(reading.Form)
	reading.Rows = r.lay(reading.Pegs, reading.Form)
	return reading
}

// pegs is how many the first row is worked on, or 0 after a fault.
func (r *reader) pegs() int {
	switch asked, cast := r.options.Pegs, r.cast; {
	case asked > 0 && cast.pegs > 0 && asked != cast.pegs:
		r.add(cast.span, "leave one of them out", "the text casts on %d, and %d pegs are asked for", cast.pegs, asked)
		return 0
	case asked > 0:
		return asked
	case cast.pegs > 0:
		return cast.pegs
	}
	first := &r.slots[r.order()[0]]
	root := &r.slots[first.root-1]
	if width, ok := root.content.body.width(); ok && width > 0 && width <= maxPegs {
		return width
	}
	hint := "say how many, or write cast on 24 before the rows"
	if m := r.declared; m.of > 0 {
		hint = fmt.Sprintf("say how many: %d, %d and %d are %s", m.plus+m.of, m.plus+2*m.of, m.plus+3*m.of, m.text())
	}
	r.add(root.from.body, hint, "the number of pegs is not said, and this row fits many")
	return 0
}

// gaps reports numbers without a row between others.
func (r *reader) gaps() {
	last := -1
	for _, i := range r.order() {
		s := &r.slots[i]
		if last >= 0 && s.number != last+1 && s.number != last+1+r.skips[last] {
			r.add(s.at(), "write it, or number the rows one after the other", "row %d is missing before this", last+1)
		}
		last = s.number
	}
}

// courses warns of directions that cannot all be true: a panel's rows run one way and back, a tube's all the same way.
func (r *reader) courses(form pattern.Form) {
	odd := CourseUnsaid
	for _, i := range r.order() {
		s := &r.slots[i]
		runs := s.from.head.runs
		if runs == CourseUnsaid {
			continue
		}
		if form == pattern.Panel && s.number%2 == 0 {
			runs = CourseToLeft + CourseToRight - runs
		}
		if odd == CourseUnsaid {
			odd = runs
		}
		if runs != odd {
			r.warn(s.at(), "row %d is said to run a way that does not follow from the rows before: not taken", s.number)
			return
		}
	}
}

// sides finds which rows of a panel are wrong-side ones where some are said to be, and warns of what cannot all be true.
func (r *reader) sides(form pattern.Form) {
	if form != pattern.Panel {
		return
	}
	said := false
	for _, i := range r.order() {
		s := &r.slots[i]
		if s.side == SideUnsaid {
			continue
		}
		oddWrong := (s.number%2 != 0) == (s.side == WrongSide)
		switch {
		case !said && r.options.Needles && r.options.WrongSide && !oddWrong:
			r.warn(s.at(), "row %d is said to show the side that row 1 was not to begin with: the text is followed", s.number)
		case said && oddWrong != r.oddWrong:
			r.warn(s.at(), "row %d is said to show a side that does not follow from the rows before", s.number)
			return
		}
		said, r.oddWrong = true, oddWrong
	}
}

// warn keeps a reading that was taken and could be another.
func (r *reader) warn(at span, format string, args ...any) {
	r.warnings = append(r.warnings, Note{Start: at.start, End: at.end, Msg: fmt.Sprintf(format, args...)})
}

// direct keeps a directive.
func (r *reader) direct(at span, text string) {
	r.directives = append(r.directives, Note{Start: at.start, End: at.end, Msg: text})
}

// directOpen keeps a directive that rows are worked on and on.
func (r *reader) directOpen(at span, text string, block []rowRange) {
	r.direct(at, text)
	n := &r.directives[len(r.directives)-1]
	n.Open = true
	if len(block) == 1 {
		n.First, n.Last = block[0].first, block[0].last
	}
}
