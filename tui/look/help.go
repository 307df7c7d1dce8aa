package look

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"bypeg/pattern/safetext"
)

// KeysView is a screenful that lists keys and what they do, and whether there are more
// of them than one screen holds: page counts from 0.
func KeysView(s *Style, title string, keys []key.Binding, page, width, height int) (view string, more bool) {
	rows := max(1, height-3)
	keys = keys[min(len(keys), page*rows):]
	more = len(keys) > rows
	lines := []string{s.Strong(safetext.Cut(title+" "+s.Dot+" keys", width)), ""}
	for _, k := range keys[:min(rows, len(keys))] {
		line := "  " + safetext.Pad(s.KeyName(k), 10) + "  " + k.Help().Desc
		lines = append(lines, safetext.Cut(line, width))
	}
	foot := "any key goes back"
	if more {
		foot = "any key shows more"
	}
	lines = append(lines, s.Faint(safetext.Cut(foot, width)))
	return strings.Join(lines[:min(len(lines), height)], "\n"), more
}

// KeyName is what a key is called on the screen.
func (s *Style) KeyName(k key.Binding) string {
	name := k.Help().Key
	if word, ok := arrowWords[name]; ok && s.ASCII {
		return word
	}
	return name
}

var arrowWords = map[string]string{"↑": "up", "↓": "down", "←": "left", "→": "right"}
