package find

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// In a piece of several yarns the loops on the pegs tell which of them was worked last. Loops
// are looked at, and not the stitches below: where colours change a stitch shows both.

// longName is how much is said of a yarn's name.
const longName = 24

// yarnNames are the yarns of a pattern, as they are asked for.
func yarnNames(p *pattern.Pattern) []string {
	names := make([]string, len(p.Yarns))
	for i, y := range p.Yarns {
		names[i] = safetext.Cut(safetext.Clean(y.Called()), longName)
	}
	return names
}

// colours are the yarns in words: "grey, white or blue".
func colours(p *pattern.Pattern) string {
	names := yarnNames(p)
	if len(names) == 1 {
		return names[0]
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// hasColours tells whether a pattern has several yarns, and no two that are called the same:
// those can't be told apart by looking.
func hasColours(p *pattern.Pattern) bool {
	names := yarnNames(p)
	slices.Sort(names)
	return len(names) > 1 && len(slices.Compact(names)) == len(p.Yarns)
}

// yarnNamed is the one yarn that is called so, or whose name begins so.
func yarnNamed(p *pattern.Pattern, typed string) (index int, ok bool) {
	n := 0
	for i, name := range yarnNames(p) {
		name = strings.ToLower(name)
		short := strings.TrimPrefix(name, "the ")
		switch {
		case name == typed || short == typed:
			return i, hasColours(p)
		case typed != "" && (strings.HasPrefix(name, typed) || strings.HasPrefix(short, typed)):
			index = i
			n++
		}
	}
	return index, n == 1
}

// loopsOf is the yarn of all loops on the pegs at a place; it is not said for sure where they
// are of several.
func (r *reader) loopsOf(at item) (y pattern.Yarn, sure bool) {
	if at.Row <= 1 {
		return 0, false // the cast-on may be of any
	}
	y, sure = oneYarn(r.grid.Row(at.Row - 1))
	if sure && at.From > 0 {
		now, one := oneYarn(r.grid.Row(at.Row))
		return y, one && now == y
	}
	return y, sure
}

// oneYarn is the yarn that a row is worked in, where every peg in use is worked in it.
func oneYarn(row *pattern.Row) (y pattern.Yarn, one bool) {
	for _, c := range row.Cells() {
		switch {
		case c.Stitch == pattern.NoStitch:
		case makesNone(c.Stitch), one && c.Yarn != y:
			return 0, false
		default:
			y, one = c.Yarn, true
		}
	}
	return y, one
}

// loopsWords say what a place is in doubt for.
func loopsWords(o pattern.Order, at Fit) string {
	if y, sure := newReader(o, nil).loopsOf(at); sure && int(y) < len(o.Pattern.Yarns) {
		return fmt.Sprintf("the yarn of the loops on the pegs: it would be %s; look again", yarnNames(o.Pattern)[y])
	}
	return "the yarn of the loops on the pegs: look again"
}
