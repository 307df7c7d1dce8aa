package rowtext

import (
	"fmt"
	"slices"
	"strconv"
)

// Error is one fault of a written row.
type Error struct {
	Start, End int    // byte offsets in the text; End is behind the last byte
	Msg        string // what is wrong, and by how many pegs the row misses
	Hint       string // what would fit or could be written instead; may be empty
}

// Error is the message, with the hint in brackets.
func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Msg
	}
	return e.Msg + " (" + e.Hint + ")"
}

// Errors are the faults of one row in the order of the text. It is never empty
// where it is returned as an error.
type Errors []*Error

// Error is the first fault and how many more there are.
func (es Errors) Error() string {
	switch len(es) {
	case 0:
		return "no errors"
	case 1:
		return es[0].Error()
	}
	return fmt.Sprintf("%s (and %d more)", es[0].Error(), len(es)-1)
}

// Unwrap gives the single faults to errors.Is and errors.As.
func (es Errors) Unwrap() []error {
	all := make([]error, len(es))
	for i, e := range es {
		all[i] = e
	}
	return all
}

// maxErrors is how many faults of one row are kept: more help nobody.
const maxErrors = 10

// faults collects the errors of one row. Closed ones take no more.
type faults struct {
	list   Errors
	closed bool
}

func (f *faults) add(at span, hint, format string, args ...any) {
	if !f.closed && len(f.list) < maxErrors {
		f.list = append(f.list, &Error{Start: at.start, End: at.end, Msg: fmt.Sprintf(format, args...), Hint: hint})
	}
}

// sort puts the faults in the order of the text.
func (f *faults) sort() {
	slices.SortStableFunc(f.list, func(a, b *Error) int { return a.Start - b.Start })
}

// quote shows a piece of the row in a message. Messages reach terminals, so the
// piece is cut short and whatever cannot be printed is escaped.
func quote(piece string) string {
	const most = 16
	if r := []rune(piece[:min(len(piece), 4*most+4)]); len(r) > most {
		piece = string(r[:most]) + "..."
	}
	return strconv.Quote(piece)
}

// many is a number with its noun: "1 peg", "2 pegs".
func many(n int, noun string) string {
	switch {
	case n >= tooWide:
		return "a million " + noun + "s or more"
	case n == 1:
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
