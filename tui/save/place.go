package save

import (
	"fmt"
	"strconv"
	"strings"

	"bypeg/pattern"
)

// The largest row and row length that a line without a sum can name: those that a
// pattern can have.
const (
	maxRow  = 100_000
	maxDone = 4_000
)

// place is a pattern.Place while its fields are being read.
type place struct {
	pattern.Place
	of   int
	seen uint8
}

// Bits of place.seen.
const (
	seenPhase = 1 << iota
	seenRow
	seenDone
	seenOf
)

// set takes one field of a place; other keys are passed over. It returns false where
// the value cannot be.
func (p *place) set(key, value string) (ok bool) {
	switch key {
	case "phase":
		p.seen |= seenPhase
		p.Phase, ok = pattern.ParsePhase(value)
		return ok
	case "row":
		p.seen |= seenRow
		return setCount(&p.Row, value)
	case "done":
		p.seen |= seenDone
		return setCount(&p.Done, value)
	case "of":
		p.seen |= seenOf
		return setCount(&p.of, value)
	}
	return true
}

func setCount(n *int, value string) bool {
	v, err := strconv.Atoi(value)
	*n = v
	return err == nil && v >= 0
}

func (p *place) complete() bool { return p.seen == seenPhase|seenRow|seenDone|seenOf }

// guessPlace reads a place from a line that has no sum or does not check: what a
// person wrote by hand, or what is left of a record. It is to be asked about, never
// to be believed.
func guessPlace(line string) (at pattern.Place, of int, ok bool) {
	p := place{Place: pattern.Place{Phase: pattern.Working}}
	for word := range strings.FieldsSeq(line) {
		key, value, _ := strings.Cut(word, "=")
		if !p.set(key, value) {
			return pattern.Place{}, 0, false
		}
	}
	const needed = seenRow | seenDone
	fits := p.Row <= maxRow && p.Done <= maxDone && p.of <= maxDone && (p.Row > 0) == (p.Phase == pattern.Working)
	return p.Place, p.of, p.seen&needed == needed && fits
}

// placeWords tells a place to a person. Which pegs these are, only the pattern can say.
func placeWords(p pattern.Place, of int) string {
	where := p.Phase.String()
	if p.Phase == pattern.Working {
		where = fmt.Sprintf("row %d", p.Row)
	}
	if of == 0 {
		return fmt.Sprintf("%s, %d worked", where, p.Done)
	}
	return fmt.Sprintf("%s, %d of %d worked", where, p.Done, of)
}
