//go:build unix

package wild_test

import (
	"fmt"
	"slices"

	"bypeg/pattern"
	"bypeg/tui/save"
)

// pegs is how many stitches a row has. Steps are counted through all rows, so that a
// number says where the work stands.
const pegs = 26

// placeOf is the place after so many steps, 1 at least.
func placeOf(step int) pattern.Place {
	return pattern.Place{Phase: pattern.Working, Row: 1 + step/pegs, Done: step % pegs}
}

// stepOf is how many steps lead to a place.
func stepOf(at pattern.Place) int {
	if at.Phase != pattern.Working {
		return 0
	}
	return (at.Row-1)*pegs + at.Done
}

// audit reads a history: it begins once, each step is one on from the one before it
// or from what somebody answered, the numbers ascend, and it ends at the place. It
// returns the steps that are in it.
func audit(o save.Opening) (steps map[int]bool, err error) {
	steps = map[int]bool{0: true}
	at, number := 0, uint64(0)
	for i, r := range slices.Collect(o.History.All()) {
		n := stepOf(r.Place)
		switch {
		case r.Number <= number:
			return nil, fmt.Errorf("record %d comes after %d", r.Number, number)
		case (r.Kind == save.Begun) != (i == 0):
			return nil, fmt.Errorf("record %d of %d is %s", i, o.History.Len(), r.Kind)
		case r.Kind == save.Forward && n != at+1:
			return nil, fmt.Errorf("step %d follows step %d", n, at)
		}
		at, number = n, r.Number
		steps[n] = true
	}
	if at != stepOf(o.Place) {
		return nil, fmt.Errorf("the history ends with step %d, the place is %d", at, stepOf(o.Place))
	}
	return steps, nil
}

// bounds is what is known of a piece from what its writers said.
type bounds struct {
	acked int // the last step that was said to be saved
	put   int // the last step that was worked
}

// judge tells what speaks against a place.
func (b bounds) judge(at int) error {
	switch {
	case at < b.acked:
		return fmt.Errorf("%w: the place is step %d, and %d was said to be saved", errLost, at, b.acked)
	case at > b.put:
		return fmt.Errorf("%w: the place is step %d, and only %d was worked", errInvented, at, b.put)
	}
	return nil
}
