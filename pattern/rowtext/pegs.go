package rowtext

import (
	"fmt"
	"slices"
)

// Loom writers name pegs by their numbers: "k pegs 1-4, p pegs 5-8". A row that does so
// throughout is put together peg by peg, and read off in the order of work; one that
// does so in part must come to the pegs it names.

// oddOrEven is which pegs a word means.
func oddOrEven(word string) parity {
	switch word {
	case "odd", "odd-numbered":
		return oddPegs
	case "even", "even-numbered":
		return evenPegs
	}
	return everyPeg
}

// onPegs reads the pegs a stitch is worked on: "pegs 1-4", "odd pegs".
func (p *parser) onPegs(start span, stitch Stitch) (node, bool) {
	save := p.i
	p.accept("on", "at")
	p.accept("all", "every")
	p.accept("the", "of")
	if which := oddOrEven(p.tok().word); which != everyPeg {
		p.next()
		p.accept("numbered")
		p.acceptLoops()
		return &pegs{span: start.to(p.last()), stitch: stitch, parity: which}, true
	}
	if p.accept("peg", "pegs") && (p.tok().kind == tokNumber || p.tok().kind == tokHash) {
		ranges := p.pegRanges()
		return &pegs{span: start.to(p.last()), stitch: stitch, ranges: ranges}, true
	}
	p.i = save
	return nil, false
}

// pegsFirst reads pegs and what is worked on them: "pegs 2-7: knit".
func (p *parser) pegsFirst() node {
	start := p.tok().span
	p.next()
	if p.tok().kind != tokNumber && p.tok().kind != tokHash {
		p.add(start, "write pegs 2-7: knit", "which pegs is missing")
		p.skip()
		return nil
	}
	ranges := p.pegRanges()
	switch p.tok().kind {
	case tokColon, tokDash, tokEquals, tokMinus:
		p.next()
	}
	stitch, ok := p.stitch()
	if !ok {
		if p.tok().kind != tokWord && len(p.faults.list) == 0 {
			p.add(start.to(p.last()), "write pegs 2-7: knit", "what is worked on the pegs is missing")
		}
		return nil
	}
	stitch = p.modify(stitch)
	return &pegs{span: start.to(p.last()), stitch: stitch, ranges: ranges}
}

// pegRanges reads numbers of pegs: "1-4", "1 to 4 and 9 to 12", "2, 4, 6".
func (p *parser) pegRanges() []pegRange {
	var ranges []pegRange
	for {
		if p.tok().kind == tokHash {
			p.next()
		}
		start := p.tok().span
		from, ok := p.count()
		if !ok {
			p.add(start, "write the pegs' numbers, as in pegs 1-4", "which peg is missing")
			return append(ranges, pegRange{1, 1})
		}
		r := pegRange{from, from}
		if p.rangeAhead() {
			p.next()
			r.to, _ = p.count()
		}
		if r.to < r.from {
			p.add(start.to(p.last()), "write the lower number first", "the pegs run backwards")
			r.to = r.from
		}
		ranges = append(ranges, r)
		if !p.moreRanges() {
			return ranges
		}
	}
}

// rangeAhead tells whether the other end of a range follows: "-4", "to 4".
func (p *parser) rangeAhead() bool {
	if p.ahead(1).kind != tokNumber {
		return false
	}
	switch t := p.tok(); {
	case t.kind == tokMinus, t.kind == tokDash:
		return true
	default:
		return t.word == "to" || t.word == "through" || t.word == "thru" || t.word == "until"
	}
}

// moreRanges moves behind what joins two ranges. A number that a stitch follows is no
// peg but a count: "k pegs 1-4, 3 p".
func (p *parser) moreRanges() bool {
	n := 0
	for p.ahead(n).kind == tokBreak || p.ahead(n).kind == tokAnd || p.ahead(n).word == "and" {
		n++
	}
	if n == 0 || p.ahead(n).kind != tokNumber || stitchWord(p.ahead(n+1).word) {
		return false
	}
	for range n {
		p.next()
	}
	return true
}

// width is how many pegs are named by number.
func (n *pegs) width() int {
	sum := 0
	for _, r := range n.ranges {
		sum = min(sum+r.to-r.from+1, tooWide)
	}
	return sum
}

// byNumber tells whether a row names the pegs of all its stitches, but for the rest.
func byNumber(parts []node) bool {
	for i, n := range parts {
		if _, ok := n.(*pegs); !ok && (i == 0 || i+1 < len(parts) || restOf(n) == nil) {
			return false
		}
	}
	return len(parts) > 0
}

// restOf is a part that takes the rest of the pegs; nil for any other.
func restOf(n node) *fill {
	if f, ok := n.(*fill); ok && f.to.rest {
		return f
	}
	return nil
}

// assemble lays a row that names all its pegs.
func (s *solver) assemble() []Run {
	const bare = stitches // no stitch: the peg is not named
	row := slices.Repeat([]Stitch{bare}, s.scene.loops)
	for _, part := range s.parts {
		if f := restOf(part); f != nil {
			for i := range row {
				if row[i] == bare {
					row[i] = f.stitch
				}
			}
			continue
		}
		n := part.(*pegs)
		for _, r := range s.rangesOf(n) {
			for peg := r.from; peg <= r.to; peg++ {
				if row[peg-1] != bare {
					s.add(n.span, "", "peg %d is worked twice", peg)
					return nil
				}
				row[peg-1] = n.stitch
			}
		}
	}
	if len(s.list) > 0 {
		return nil
	}
	at := s.parts[0].at().to(s.parts[len(s.parts)-1].at())
	if i := slices.Index(row, bare); i >= 0 {
		s.add(at, "", "%s", unworked(row, i, bare))
		return nil
	}
	if s.scene.back {
		slices.Reverse(row)
	}
	return runsOf(row)
}

// unworked says which pegs of a row are left out, the first of them at i.
func unworked(row []Stitch, i int, bare Stitch) string {
	j := i
	for j+1 < len(row) && row[j+1] == bare {
		j++
	}
	if i == j {
		return fmt.Sprintf("peg %d is not worked", i+1)
	}
	return fmt.Sprintf("pegs %d to %d are not worked", i+1, j+1)
}

// rangesOf are the pegs of a part that the row has; those it has not are reported.
func (s *solver) rangesOf(n *pegs) []pegRange {
	have := s.scene.loops
	if n.parity != everyPeg {
		var ranges []pegRange
		for peg := 1 + int(n.parity-oddPegs); peg <= have; peg += 2 {
			ranges = append(ranges, pegRange{peg, peg})
		}
		return ranges
	}
	for _, r := range n.ranges {
		if r.to > have {
			s.add(n.span, "", "there is no peg %d: the row has %s", max(r.from, have+1), many(have, "peg"))
			return nil
		}
	}
	return n.ranges
}

// checkPegs holds the pegs that a row names in part against those it comes to.
func (s *solver) checkPegs(n *pegs, before int) {
	if n.parity != everyPeg {
		s.add(n.span, "write all of the row so, or none of it", "odd and even pegs stand beside other stitches")
		return
	}
	for _, r := range s.rangesOf(n) {
		first := before + 1
		if s.scene.back {
			first = s.scene.loops - before - (r.to - r.from)
		}
		if r.from != first {
			s.add(n.span, "", "the row comes to peg %d here, not to peg %d", first, r.from)
			return
		}
		before += r.to - r.from + 1
	}
}
