package look

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"bypeg/pattern/safetext"
)

// KeysView is a screenful that lists keys and what they do, in as many columns as the
// height asks for.
func KeysView(s *Style, title string, keys []key.Binding, width, height int) string {
	const column = 40
	rows := max(1, height-3)
	lines := make([]string, 0, height)
	lines = append(lines, s.Strong(safetext.Cut(title+" "+s.Dot+" keys", width)), "")
	for i := range min(rows, len(keys)) {
		line := ""
		for k := i; k < len(keys) && safetext.Width(line)+column <= max(width, column); k += rows {
			h := keys[k].Help()
			line += safetext.Pad("  "+safetext.Pad(h.Key, 11)+" "+h.Desc, column)
		}
		lines = append(lines, safetext.Cut(strings.TrimRight(line, " "), width))
	}
	lines = append(lines, s.Faint(safetext.Cut("any key goes back", width)))
	return strings.Join(lines[:min(len(lines), height)], "\n")
}
