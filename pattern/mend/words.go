package mend

import (
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// count is a number of things: "1 rung", "7 rungs".
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %s", n, plural(what))
}

func plural(what string) string {
	switch what[len(what)-1] {
	case 's', 'h':
		return what + "es"
	}
	return what + "s"
}

// words says how a rung is formed, seen from the front.
func (r Rung) words() string {
	turn := ""
	if r.Twisted {
		turn = "turn the loop half round, as its neighbours are, then "
	}
	if r.Purl {
		return "purl: " + turn + "with the rung in front of the loop, draw it through to the back, so that a bump shows"
	}
	return "knit: " + turn + "with the rung behind the loop, draw it through to the front, so that a V shows"
}

// colourOf names the yarn of a stitch where a pattern has several: "in blue, ".
func colourOf(p *pattern.Pattern, y pattern.Yarn) string {
	if len(p.Yarns) < 2 || int(y) >= len(p.Yarns) {
		return ""
	}
	return "in " + safetext.Clean(p.Yarns[y].Called()) + ", "
}

// yarnWords says where the yarn hangs when so many rows are done.
func yarnWords(o pattern.Order, rows int) string {
	if o.Pattern.Form == pattern.Tube {
		return "the yarn comes out at the end of the round, above the cast-on's tail"
	}
	side := o.YarnSide(rows)
	tail := "away from the tail"
	if side == o.TailSide() {
		tail = "where the tail is"
	}
	return fmt.Sprintf("the yarn comes out at the %s, %s", side, tail)
}

// pegs names pegs in order: "peg 5", "pegs 21 to 16".
func pegs(first, last int) string {
	if first == last {
		return fmt.Sprintf("peg %d", first)
	}
	return fmt.Sprintf("pegs %d to %d", first, last)
}
