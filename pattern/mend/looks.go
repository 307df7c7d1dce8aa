package mend

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"bypeg/pattern"
)

// Seen is what one stitch of a column shows from the front.
type Seen uint8

// The looks.
const (
	V      Seen = iota // a knit
	Bump               // a purl
	Unread             // it could not be told, or lies so that it can't: agrees with both
)

// String is the look's letter: v, b or ?.
func (s Seen) String() string { return [...]string{"v", "b", "?"}[min(s, Unread)] }

// Looks is a column as a person counted it, bottom first. Part tells that the count stopped
// before the column's other end.
type Looks struct {
	Peg     int
	Seen    []Seen
	FromTop bool // counted down from the peg; Seen is turned bottom first all the same
	Part    bool
}

// mostLooks is how long a counted column may be.
const mostLooks = pattern.MaxRows

var errNoLooks = errors.New("write the peg, = and its column: v for a V, b for a bump, as 14=vvbv; .. at the end where you stopped counting")

// ParseLooks reads a column as it was counted: "14=vvbv", with ".." or "…" behind it where
// the count stopped short of the other end, and blanks or commas as one likes. fromTop says
// that it was counted down from the peg. The error says what to write.
func ParseLooks(text string, fromTop bool) (Looks, error) {
	number, column, found := strings.Cut(text, "=")
	peg, err := strconv.Atoi(strings.TrimSpace(number))
	if !found || err != nil || peg < 1 || peg > pattern.MaxPegs {
		return Looks{}, errNoLooks
	}
	l := Looks{Peg: peg, FromTop: fromTop}
	column = strings.TrimSpace(column)
	whole := strings.TrimRight(column, ".…")
	if l.Part = whole != column; l.Part && strings.TrimPrefix(column, whole) == "." {
		l.Part = false // a full stop
	}
	for i, r := range whole {
		switch r {
		case 'v', 'V':
			l.Seen = append(l.Seen, V)
		case 'b', 'B':
			l.Seen = append(l.Seen, Bump)
		case '?':
			l.Seen = append(l.Seen, Unread)
		case ' ', ',':
		default:
			return Looks{}, fmt.Errorf("letter %d of the column is no v, b or ?: %w", utf8.RuneCountInString(whole[:i])+1, errNoLooks)
		}
		if len(l.Seen) > mostLooks {
			return Looks{}, fmt.Errorf("the column is longer than %d stitches", mostLooks)
		}
	}
	if len(l.Seen) == 0 {
		return Looks{}, errNoLooks
	}
	if fromTop {
		for i, j := 0, len(l.Seen)-1; i < j; i, j = i+1, j-1 {
			l.Seen[i], l.Seen[j] = l.Seen[j], l.Seen[i]
		}
	}
	return l, nil
}

// upWord stands before a column that was counted from the cast-on up.
const upWord = "up"

// ParseColumn reads what a peg's column shows, from the peg down as one sees it on the loom, or
// behind "up" from the cast-on: "vvbv..", "up vbv".
func ParseColumn(peg int, text string) (Looks, error) {
	rest, up := strings.CutPrefix(strings.TrimSpace(text), upWord)
	return ParseLooks(fmt.Sprintf("%d=%s", peg, rest), !up)
}

// agrees tells whether one look may be the other.
func agrees(a, b Seen) bool { return a == b || a == Unread || b == Unread }

// shown is what a stitch shows. A hole, and strands that cross, can't be read.
func shown(s pattern.Stitch) Seen {
	switch {
	case crosses(s):
		return Unread
	case s.Face() == pattern.FaceKnit:
		return V
	case s.Face() == pattern.FacePurl:
		return Bump
	}
	return Unread
}

// column is what the pattern has in a column up to the peg, bottom first. A slip makes no
// stitch; where the peg was out of use, a new column begins above.
type column struct {
	seen []Seen
	rows []int // of each stitch
	at   []int // for each row up to the top one: the index of its stitch, -1 where it makes none that hangs there
}

func columnOf(p *pattern.Pattern, col, top int) *column {
	c := &column{at: make([]int, top+1)}
	for row := range c.at {
		c.at[row] = -1
	}
	for row := 1; row <= top; row++ {
		switch s := p.Grid.Row(row).Cells()[col].Stitch; s {
		case pattern.Slip, pattern.SlipFront:
		case pattern.NoStitch:
			for _, r := range c.rows {
				c.at[r] = -1
			}
			c.seen, c.rows = nil, nil
		default:
			c.at[row] = len(c.seen)
			c.seen = append(c.seen, shown(s))
			c.rows = append(c.rows, row)
		}
	}
	return c
}
