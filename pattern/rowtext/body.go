package rowtext

import (
	"fmt"
	"slices"
	"unicode/utf8"
)

// body is the instructions of one row: what stands behind its header.
type body struct {
	span
	parts  []node
	notes  []Note   // readings of words that could be others
	either []*group // repeats whose count can be read in two ways
	stated *stated  // the count that checks the row
	short  *span    // where it turns before its end
	echoes bool     // it follows the stitches of the row below
	work   int      // how many tokens were looked at to read it
}

// scene is what a row is worked on.
type scene struct {
	loops     int   // on the pegs
	back      bool  // the row runs from the last peg to peg 1
	wrong     bool  // it is seen from behind: a wrong-side row on needles
	below     []Run // the row below in the order it was worked; nil where there is none
	belowBack bool
	belowSeen bool // the row below was seen from behind
}

// parseBody makes the tree of one row from its tokens, the last of which is a tokEnd.
// Of several sizes it takes the one named; 0 refuses a choice.
func parseBody(text string, tokens []token, size int) (*body, Errors) {
	p := &parser{text: text, tokens: tokens, sizes: size}
	at := span{tokens[0].start, tokens[len(tokens)-1].end}
	parts := p.body()
	if len(parts) == 0 && len(p.faults.list) == 0 && p.short == nil {
		p.add(at, "write the stitches, as in k3, p2", "the row has no instructions")
	}
	b := &body{span: at, parts: joinedRib(parts), notes: p.notes, either: p.either, stated: p.stated, short: p.short, work: p.steps}
	for _, n := range b.parts {
		if _, ok := n.(*echo); ok {
			b.echoes = true
		}
	}
	if len(b.either) > maxEither {
		p.add(b.either[0].span, "write more times, or times in all", "too many repeats say how often in a way that can mean two things")
	}
	for _, e := range p.faults.list {
		wide := widened(text, span{e.Start, e.End})
		e.Start, e.End = wide.start, wide.end
	}
	p.sort()
	return b, p.faults.list
}

// widened is the piece, or where it is empty the character before or behind it: a fault
// has a width.
func widened(text string, at span) span {
	if at.start < at.end {
		return at
	}
	if _, size := utf8.DecodeLastRuneInString(text[:at.start]); size > 0 {
		return span{at.start - size, at.start}
	}
	_, size := utf8.DecodeRuneInString(text[at.end:])
	return span{at.start, at.end + size}
}

// maxEither is how many counts of a row may be read in two ways: all of them are
// tried.
const maxEither = 3

// lay is the runs of a row on a scene, in the order of work, with the readings that
// were taken and could be others.
func (b *body) lay(sc scene) ([]Run, []Note, Errors) { return b.layBy(sc, byLoops) }

func (b *body) layBy(sc scene, m measure) ([]Run, []Note, Errors) {
	if b.short != nil {
		return nil, nil, b.shortRow(sc)
	}
	if b.echoes && sc.below == nil {
		return nil, nil, Errors{{Start: b.start, End: b.end, Msg: "there is no row below whose stitches could be followed"}}
	}
	s := newSolver(b.parts, sc, m)
	var runs []Run
	if byNumber(b.parts) {
		runs = s.assemble()
	} else if s = b.choose(sc, m); len(s.list) == 0 {
		runs = s.runs()
	}
	if len(s.list) > 0 {
		s.sort()
		return nil, nil, s.list
	}
	if c := b.stated; c != nil && Out(runs) != c.loops {
		return nil, nil, Errors{{Start: c.start, End: c.end, Msg: fmt.Sprintf("the text says %s, and the row leaves %d", many(c.loops, "loop"), Out(runs))}}
	}
	return runs, slices.Concat(b.notes, s.notes), nil
}

// choose solves the row by each reading of its doubtful counts, as often again first.
// Where none fits the solver holds what is wrong.
func (b *body) choose(sc scene, m measure) *solver {
	var fitting []int
	for reading := range 1 << len(b.either) {
		b.read(reading)
		if newSolver(b.parts, sc, m).solve() {
			fitting = append(fitting, reading)
		}
	}
	b.read(0)
	if len(fitting) > 0 {
		b.read(fitting[0])
	}
	s := newSolver(b.parts, sc, m)
	s.solve()
	switch {
	case len(b.either) == 0:
	case len(fitting) == 0:
		b.neither(s)
	case len(fitting) > 1:
		g := b.either[0]
		s.warn(g.span, fmt.Sprintf("this can mean %d in all or %s: %d is taken", g.literal, many(g.other, "time"), g.count))
	}
	return s
}

// read sets the doubtful counts as the bits of a reading say.
func (b *body) read(reading int) {
	for i, g := range b.either {
		g.count = g.literal
		if reading>>i&1 == 1 {
			g.count = g.other
		}
	}
}

// neither says what a row would need by both readings of its doubtful count.
func (b *body) neither(s *solver) {
	g := b.either[0]
	if len(b.either) > 1 || len(s.list) == 0 || s.hasOpen(b.parts) {
		return
	}
	b.read(0)
	most := widthOf(b.parts, s.m)
	b.read(1)
	least := widthOf(b.parts, s.m)
	s.list = s.list[:1]
	s.list[0].Start, s.list[0].End = g.start, g.end
	s.list[0].Msg = fmt.Sprintf("the row needs %s (%d in all) or %d (%d in all) and has %d", many(most, "peg"), g.literal, least, g.other, s.pegs)
	s.list[0].Hint = ""
}

// runs are those of a row that is solved.
func (s *solver) runs() []Run {
	var runs []Run
	for i, n := range s.parts {
		if e, ok := n.(*echo); ok {
			shown := s.scene.shown(runsWidth(runs, byLoops), s.turns[i])
			if e.opposite {
				shown = opposed(shown)
			}
			runs = join(runs, shown)
			if got := runsWidth(runs, byLoops); i == len(s.parts)-1 && got != s.pegs {
				s.add(e.span, "", "the row below leaves another number of loops")
			}
			continue
		}
		runs = join(expand(runs, n, s.turns[i]), s.tails[i])
	}
	return runs
}

// shortRow refuses a row that turns before its end, and says how many pegs it leaves.
func (b *body) shortRow(sc scene) Errors {
	e := &Error{Start: b.short.start, End: b.short.end, Msg: "a short row cannot be told here", Hint: "write rows that are worked to the end"}
	if n, ok := b.width(); ok && n < sc.loops {
		e.Msg = fmt.Sprintf("short row: %s left unworked", many(sc.loops-n, "peg"))
	}
	return Errors{e}
}

// width is how many loops the row takes where nothing in it is open.
func (b *body) width() (loops int, ok bool) {
	for _, n := range b.parts {
		if _, open := openPart(n); open {
			return 0, false
		}
		if w, ok := n.(*work); ok && w.bare && len(b.parts) == 1 {
			return 0, false
		}
		if p, ok := n.(*pegs); ok && p.parity != everyPeg {
			return 0, false
		}
	}
	return widthOf(b.parts, byLoops), len(b.either) == 0
}

// ReadRow reads a written row for so many pegs, 1 to 4,000, as row 1 of a piece. The runs
// are in the order of work and neighbours differ. A row that names pegs not in use is
// measured by the pegs that its stitches end on, any other by the loops it is worked
// into; their sum is pegs. The notes are readings that were taken and could be others;
// the error is an Errors, each of its faults with a place inside the text.
func ReadRow(text string, pegs int) ([]Run, []Note, error) {
	if errs := rowLimits(text, pegs); errs != nil {
		return nil, nil, errs
	}
	b, errs := parseBody(text, lex(text, span{0, len(text)}), 0)
	if len(errs) > 0 {
		return nil, nil, errs
	}
	m := byLoops
	if names(b.parts, NoStitch) {
		m = byCells
	}
	runs, notes, errs := b.layBy(scene{loops: pegs}, m)
	if len(errs) > 0 {
		return nil, nil, errs
	}
	return runs, notes, nil
}

// Expand is ReadRow without the notes.
func Expand(text string, pegs int) ([]Run, error) {
	runs, _, err := ReadRow(text, pegs)
	return runs, err
}

// rowLimits refuses what no row can be.
func rowLimits(text string, pegs int) Errors {
	var f faults
	switch all := (span{0, len(text)}); {
	case pegs < 1 || pegs > maxPegs:
		f.add(all, "", "a row has 1 to %d pegs, not %d", maxPegs, pegs)
	case len(text) > maxText:
		f.add(all, "", "the row is longer than %d KiB", maxText>>10)
	}
	return f.list
}

// names tells whether a stitch is named somewhere in parts.
func names(parts []node, s Stitch) bool {
	return slices.ContainsFunc(parts, func(n node) bool {
		switch n := n.(type) {
		case *work:
			return n.stitch == s
		case *fill:
			return n.stitch == s
		case *group:
			return names(n.parts, s)
		case *star:
			return names(n.parts, s)
		}
		return false
	})
}
