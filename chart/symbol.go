package chart

import "bypeg/pattern"

// Symbols. Every symbol takes one cell. Within a set no two stitches share one, and
// none is told by its tone alone:
//
//   - Knit and purl have one shape in the field and another in a border. So have all
//     stitches whose symbol is a letter (small in the field, a capital in a border)
//     and the yarn over. Decreases, increases and crosses keep one shape.
//   - A knit in a further yarn is that yarn's number, a purl a low number; yarns from
//     the tenth on share 0. In a border the numbers are ringed; ASCII has no rings.
//     Other stitches keep their shape whatever the yarn, and the key names the yarns.
//   - A cross is drawn strand by strand. Those in front are slanted the way they lean,
//     those behind are broken: upright where they are knit, flat where they are
//     purled. The outermost strand behind has two dashes, the others more, so that
//     neighbouring crosses do not run together.

// look is where a stitch is drawn.
type look uint8

const (
	inField look = iota
	inBorder
	looks // how many there are
)

// symbols is one set as a terminal draws it.
type symbols struct {
	stitches [looks]map[pattern.Stitch]string
	knits    [looks][]string // of yarn 2, 3 … 9, then of all further ones
	purls    [looks][]string
	front    [2]string // strands in front, by the side they lean to
	knitBack [2]string // strands behind: the outermost, the others
	purlBack [2]string
	furniture
}

// furniture is what is drawn around the stitches.
type furniture struct {
	edge    string    // at the inner edge of a border
	gap     string    // between two pegs elsewhere
	over    string    // points down at a marked peg
	under   string    // points up at a marked peg
	pointer string    // points down at the peg in hand
	hollow  string    // the same where the last step is not on the disk yet
	arrows  [2]string // by pattern.Direction
	bracket zoneBracket
	here    string // beside the row in hand
	dots    dotShapes
}

// zoneBracket joins the rows of a zone at the side of the chart.
type zoneBracket struct{ top, side, bottom, only string }

// at is the part of a bracket from one line to another that stands at a line between them.
func (b zoneBracket) at(line, top, bottom int) string {
	switch {
	case top == bottom:
		return b.only
	case line == top:
		return b.top
	case line == bottom:
		return b.bottom
	}
	return b.side
}

// unknown stands for a stitch that has no symbol.
const unknown = "?"

func newSymbols(set Set, ascii bool) *symbols {
	s := drawnSymbols()
	if ascii {
		s = asciiSymbols()
	}
	s.setPlain(set, ascii)
	return s
}

func drawnSymbols() *symbols {
	s := &symbols{
		knits:    [looks][]string{chars("234567890"), chars("②③④⑤⑥⑦⑧⑨⓪")},
		purls:    [looks][]string{chars("₂₃₄₅₆₇₈₉₀"), chars("❷❸❹❺❻❼❽❾⓿")},
		front:    [2]string{pattern.Left: "╲", pattern.Right: "╱"},
		knitBack: [2]string{"╎", "┊"},
		purlBack: [2]string{"╌", "┄"},
		furniture: furniture{
			edge: "┆", gap: " ", over: "▾", under: "▴", pointer: "▼", hollow: "▽",
			arrows:  [2]string{pattern.ToLeft: "←", pattern.ToRight: "→"},
			bracket: zoneBracket{"╮", "│", "╯", "╴"}, here: "▸", dots: dotShapesFor(false),
		},
	}
	s.setOthers("○◢◣◿◺∧", "●◢◣◿◺∧")
	return s
}

func asciiSymbols() *symbols {
	s := &symbols{
		knits:    [looks][]string{chars("234567890"), chars("234567890")},
		purls:    [looks][]string{chars("@$%&^{;*,"), chars("@$%&^{;*,")},
		front:    [2]string{pattern.Left: `\`, pattern.Right: "/"},
		knitBack: [2]string{`"`, "'"},
		purlBack: [2]string{"_", "~"},
		furniture: furniture{
			edge: ":", gap: " ", over: "v", under: "^", pointer: "V", hollow: "Y",
			arrows:  [2]string{pattern.ToLeft: "<", pattern.ToRight: ">"},
			bracket: zoneBracket{`\`, "|", "/", "-"}, here: "*", dots: dotShapesFor(true),
		},
	}
	s.setOthers("o><nwc", "O><NWC")
	return s
}

// setOthers gives every stitch but knit and purl its symbol: those that are letters in
// every set, then those that have a shape where the terminal can draw it.
func (s *symbols) setOthers(field, border string) {
	others := []pattern.Stitch{
		pattern.Slip, pattern.SlipFront, pattern.EWrap, pattern.UWrap, pattern.FlatKnit, pattern.TrueKnit,
		pattern.TwistedKnit, pattern.TwistedPurl, pattern.MakeOne, pattern.IncreaseKnit,
		pattern.YarnOver, pattern.RightTwo, pattern.LeftTwo, pattern.PurlTwo, pattern.LeftPurlTwo, pattern.CentreThree,
	}
	for l, text := range [looks]string{"vyeuftbdm+" + field, "VYEUFTBDM+" + border} {
		s.stitches[l] = map[pattern.Stitch]string{}
		for i, symbol := range chars(text) {
			s.stitches[l][others[i]] = symbol
		}
	}
}

// setPlain adds what the sets differ in: knit and purl, in the field and in a border,
// and the peg not in use. A dot is a purl to many who read squares, so there a cross
// tells that a peg has no stitch.
func (s *symbols) setPlain(set Set, ascii bool) {
	var knit, purl [looks]string
	none := "·"
	if ascii {
		none = "."
	}
	switch {
	case set == Letters:
		knit, purl = [looks]string{"k", "K"}, [looks]string{"p", "P"}
	case set == Squares && ascii:
		knit, purl, none, s.gap = [looks]string{" ", "#"}, [looks]string{"-", "="}, "x", "|"
	case set == Squares:
		knit, purl, none, s.gap = [looks]string{" ", "░"}, [looks]string{"─", "━"}, "×", "│"
	case ascii:
		knit, purl = [looks]string{"|", "!"}, [looks]string{"-", "="}
	default:
		knit, purl = [looks]string{"│", "┃"}, [looks]string{"─", "━"}
	}
	for l := range looks {
		s.stitches[l][pattern.Knit], s.stitches[l][pattern.Purl], s.stitches[l][pattern.NoStitch] = knit[l], purl[l], none
	}
}

// of is the symbol of a cell.
func (s *symbols) of(c pattern.Cell, l look) string {
	if cross, part, ok := c.Stitch.Cross(); ok {
		return s.strand(cross, part)
	}
	if c.Yarn > 0 {
		further := min(int(c.Yarn), len(s.knits[l])) - 1
		switch c.Stitch {
		case pattern.Knit:
			return s.knits[l][further]
		case pattern.Purl:
			return s.purls[l][further]
		}
	}
	if symbol, ok := s.stitches[l][c.Stitch]; ok {
		return symbol
	}
	return unknown
}

// strand is one column of a cross.
func (s *symbols) strand(c pattern.Cross, part int) string {
	front, outermost := part < c.Front, c.Width()-1
	if c.Lean == pattern.Right {
		front, outermost = part >= c.Back, 0
	}
	back := s.knitBack
	if c.PurlBack {
		back = s.purlBack
	}
	switch {
	case front:
		return s.front[c.Lean]
	case part == outermost:
		return back[0]
	}
	return back[1]
}

// chars are the characters of a string, each as a string.
func chars(s string) []string {
	var cs []string
	for _, r := range s {
		cs = append(cs, string(r))
	}
	return cs
}
