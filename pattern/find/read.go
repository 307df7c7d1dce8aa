package find

import (
	"fmt"
	"strconv"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// Hint is what may be answered to the question, in a few words.
func (q Question) Hint(o pattern.Order) string {
	switch q.Kind {
	case Yarn:
		if o.Pattern.Form == pattern.Tube {
			return "end or between"
		}
		if q.Ended {
			return "left or right"
		}
		return "left, right or between"
	case LastRow:
		return "knit, purl or both"
	case Colour:
		return colours(o.Pattern)
	case FromPeg:
		return fmt.Sprintf("a peg, 1 to %d", o.Pattern.Pegs)
	case Look:
		if q.Deep > 1 {
			return "the newest first: " + "vbbv"[:min(q.Deep, 4)]
		}
		return "v or b"
	case Alike:
		return "5 v or 3 b"
	}
	return "a number"
}

// taken are all the words that are taken for an answer, where the hint names those that tell
// most.
func (q Question) taken(o pattern.Order) string {
	if q.Kind == Yarn && o.Pattern.Form != pattern.Tube {
		return "left, right, end or between"
	}
	return q.Hint(o)
}

// Read reads an answer to the question as a person types it: the words of the hint, or what
// they begin with. The error says what to write instead.
func (q Question) Read(o pattern.Order, text string) (Clue, error) {
	c := Clue{Kind: q.Kind, Peg: q.Peg}
	text = strings.ToLower(strings.TrimSpace(text))
	ok := text != ""
	switch q.Kind {
	case Yarn:
		c.Hangs, ok = oneOf(text, map[string]Hangs{"left": AtLeft, "right": AtRight, "end": AtEnd, "between": Between})
	case LastRow:
		c.Row, ok = oneOf(text, map[string]RowLook{"knit": Knitted, "purl": Purled, "both": Both})
	case FromPeg:
		c.Peg, ok = count(strings.TrimPrefix(text, "peg "))
	case Colour:
		c.Count, ok = yarnNamed(o.Pattern, text)
	case Look:
		c.Seen, ok = looks(text)
	case Alike:
		if text == "e" { // nothing hangs from the peg yet
			c.Kind, c.Seen = Look, []Seen{Edge}
			break
		}
		c.Count, c.Seen, ok = alike(text)
	default:
		c.Count, ok = count(text)
	}
	switch {
	case q.Kind == Colour && !hasColours(o.Pattern):
		return c, fmt.Errorf("the loops' yarn tells nothing here: the piece has not several that can be told apart")
	case !ok:
		return c, fmt.Errorf("%s is no answer to that: write %s", safetext.Clean(strconv.Quote(text)), q.taken(o))
	}
	return c, Check(o, c)
}

// oneOf finds the one word that begins with what was typed.
func oneOf[T any](typed string, words map[string]T) (value T, ok bool) {
	n := 0
	for word, v := range words {
		if typed != "" && strings.HasPrefix(word, strings.TrimSuffix(typed, " end")) {
			value = v
			n++
		}
	}
	return value, n == 1
}

// count is a whole number, no larger than a piece can make it.
func count(text string) (int, bool) {
	n, err := strconv.Atoi(text)
	return n, err == nil && n >= 0 && n <= pattern.MaxRows
}

// looks are letters for what stitches show: v, b, e for the cast-on edge, and ? where it can't
// be told.
func looks(text string) (seen []Seen, ok bool) {
	for _, r := range text {
		switch r {
		case 'v':
			seen = append(seen, V)
		case 'b':
			seen = append(seen, Bump)
		case 'e':
			seen = append(seen, Edge)
		case '?':
			seen = append(seen, Unsure)
		case ' ', ',':
		default:
			return nil, false
		}
	}
	return seen, len(seen) > 0
}

// Letters are what stitches show as a person writes it: "vvb".
func Letters(seen []Seen) string {
	says := make([]byte, len(seen))
	for i, s := range seen {
		says[i] = "?vbe"[s]
	}
	return string(says)
}

// alike is so many stitches of one look: "5 v", "v5" or "vvvvv".
func alike(text string) (n int, seen []Seen, ok bool) {
	digits := strings.Trim(text, "vb's ")
	letters := strings.Trim(strings.TrimRight(text, "s"), "0123456789' ")
	if seen, ok = looks(letters); !ok || strings.Trim(letters, "v") != "" && strings.Trim(letters, "b") != "" {
		return 0, nil, false
	}
	if digits == "" {
		return len(seen), seen[:1], true
	}
	n, ok = count(digits)
	return n, seen[:1], ok && len(seen) == 1
}
