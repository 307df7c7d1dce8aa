package mend

import (
	"slices"
	"strconv"
	"strings"

	"bypeg/pattern"
)

// Safe is a row to which work can be taken back without losing a loop or yarn: a line lies
// in its loops, or a new ball was joined at its end.
type Safe struct {
	Row  int
	Kind SafeKind
}

// SafeKind is why a row is safe.
type SafeKind uint8

// The kinds.
const (
	Lifeline SafeKind = iota
	Join
)

// String is the kind in words: "the lifeline", "the new ball".
func (k SafeKind) String() string {
	if k == Join {
		return "the new ball"
	}
	return "the lifeline"
}

// ParseSafe reads a safe row as a maker notes it: "line at row 40", "lifeline after round 12",
// "new ball at row 22", "joined a ball at row 22", or the number alone for a line.
func ParseSafe(text string) (Safe, bool) {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
	if len(words) == 0 {
		return Safe{}, false
	}
	row, err := strconv.Atoi(words[len(words)-1])
	if err != nil || row < 0 || row > pattern.MaxRows {
		return Safe{}, false
	}
	s := Safe{Row: row}
	switch kind, said := NotedSafe(strings.Join(words[:len(words)-1], " ")); {
	case said:
		s.Kind = kind
	case len(words) > 1:
		return Safe{}, false
	}
	return s, true
}

// NotedSafe tells whether a note on a row says that it is a safe one: "lifeline", "new ball".
func NotedSafe(note string) (SafeKind, bool) {
	words := strings.FieldsFunc(strings.ToLower(note), func(r rune) bool { return r < 'a' || r > 'z' })
	for _, w := range words {
		switch w {
		case "no", "not", "without":
			return Lifeline, false
		}
	}
	switch {
	case slices.Contains(words, "lifeline") || slices.Contains(words, "line"):
		return Lifeline, true
	case slices.Contains(words, "ball"):
		return Join, true
	}
	return Lifeline, false
}

// lastSafe is the safe row nearest below a fault: up to the given row.
func lastSafe(safe []Safe, row int) (Safe, bool) {
	best, found := Safe{}, false
	for _, s := range safe {
		if s.Row <= row && s.Row >= 0 && (!found || s.Row > best.Row) {
			best, found = s, true
		}
	}
	return best, found
}
