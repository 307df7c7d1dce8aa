package safetext

import (
	"strings"

	"github.com/clipperhouse/displaywidth"
)

// Width is how many cells a terminal takes for s, which has been cleaned. It does not
// depend on the locale.
func Width(s string) int { return displaywidth.String(s) }

// Cut is the longest beginning of s that fits into width cells. It never cuts a
// character in two, so it may come out one cell short.
func Cut(s string, width int) string {
	if width <= 0 {
		return ""
	}
	if len(s) <= width && isPlain(s) {
		return s
	}
	return displaywidth.TruncateString(s, width, "")
}

// Pad is s in exactly width cells: cut where it is too long, blanks added where it is
// too short.
func Pad(s string, width int) string {
	s = Cut(s, width)
	return s + strings.Repeat(" ", max(0, width-Width(s)))
}

// First is the first whole character of s with the marks that belong to it.
func First(s string) string {
	g := displaywidth.StringGraphemes(s)
	if !g.Next() {
		return ""
	}
	return g.Value()
}

// IsSymbol tells whether s is exactly one visible character of one cell: what a
// chart can hold in a cell. Blanks, controls, marks alone and wide characters are not.
func IsSymbol(s string) bool {
	if s == "" || Clean(s) != s || strings.TrimSpace(s) == "" {
		return false
	}
	g := displaywidth.StringGraphemes(s)
	return g.Next() && g.Width() == 1 && !g.Next()
}
