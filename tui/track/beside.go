package track

import (
	"fmt"

	"bypeg/pattern"
)

// SayBeside says how a place that the fabric shows differs from the one that was counted:
// "that is where you left off". Of a piece that was not begun it says nothing.
func SayBeside(o pattern.Order, at, counted pattern.Place) string {
	switch {
	case counted == pattern.Start():
		return ""
	case at == counted:
		return "that is where you left off"
	case at.Before(counted):
		return fmt.Sprintf("what was counted after that, up to %s, is not in the fabric", SayPlace(o, counted))
	}
	further := ""
	switch rows := o.RowsDone(at) - o.RowsDone(counted); {
	case rows > 0:
		further = ": " + Plural(rows, o.Pattern.Form.RowWord()) + " more"
	case at.Phase == counted.Phase:
		further = ": " + Plural(at.Done-counted.Done, "peg") + " more"
	}
	return "you are further than the program thought" + further
}
