package look

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"bypeg/pattern/safetext"
)

// KeysView is a screenful that lists keys and what they do, then the legend, whose
// lines fit already. It tells whether there is more than one screen holds: page counts
// from 0.
func KeysView(s *Style, title string, keys []key.Binding, legend []string, page, width, height int) (view string, more bool) {
	var all []string
	for _, k := range keys {
		line := "  " + safetext.Pad(s.KeyName(k), 10) + "  " + k.Help().Desc
		all = append(all, safetext.Cut(line, width))
	}
	all = append(append(all, ""), legend...)
	rows := max(1, height-3)
	all = all[min(len(all), page*rows):]
	more = len(all) > rows
	lines := []string{s.Strong(safetext.Cut(title+" "+s.Dot+" keys", width)), ""}
	lines = append(lines, all[:min(rows, len(all))]...)
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
