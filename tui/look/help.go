package look

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"bypeg/pattern/safetext"
)

// KeyLine is a key in the help, with the reason why it does nothing now; mostly "".
type KeyLine struct {
	Key key.Binding
	Why string
}

// twoColumns is the width from which the keys stand in two columns.
const twoColumns = 76

// keyColumn is how wide the names of keys are, and the space behind them.
const keyColumn = 10

// KeysView is a screenful that lists keys and what they do, then the legend, whose
// lines fit already. It tells whether there is more than one screen holds: page counts
// from 0.
func KeysView(s *Style, title string, keys []KeyLine, legend []string, page, width, height int) (view string, more bool) {
	all := keyLines(s, keys, width)
	all = append(append(all, ""), legend...)
	rows := max(1, height-3)
	all = all[min(len(all), page*rows):]
	more = len(all) > rows
	lines := []string{s.Strong(safetext.Cut(title+" "+s.Dot+" keys", width))}
	if height > 3 {
		lines = append(lines, "")
	}
	lines = append(lines, all[:min(rows, len(all))]...)
	foot := "any key goes back"
	if more {
		foot = "any key shows more"
	}
	lines = append(lines, s.Faint(safetext.Cut(foot, width)))
	return strings.Join(lines[:min(len(lines), height)], "\n"), more
}

// keyLines are the keys in one column, or in two that are read downwards.
func keyLines(s *Style, keys []KeyLine, width int) []string {
	columns := 1
	if width >= twoColumns && !slices.ContainsFunc(keys, func(k KeyLine) bool { return 2+keyColumn+safetext.Width(k.does()) >= width/2 }) {
		columns = 2
	}
	wide := width/columns - 1
	rows := (len(keys) + columns - 1) / columns
	lines := make([]string, rows)
	for i, k := range keys {
		does := k.does()
		if k.Why != "" && 2+keyColumn+safetext.Width(does) > wide {
			does = k.Why
		}
		text := "  " + safetext.Pad(s.KeyName(k.Key), keyColumn) + does
		text = safetext.Cut(text, min(wide, width))
		if i+rows < len(keys) {
			text = safetext.Pad(text, wide+1)
		}
		if k.Why != "" {
			text = s.Faint(text)
		}
		lines[i%rows] += text
	}
	return lines
}

// does says what a key does, and why not now.
func (k KeyLine) does() string {
	if k.Why == "" {
		return k.Key.Help().Desc
	}
	return k.Key.Help().Desc + ": " + k.Why
}

// Reasons gives each key the reason why it does nothing now.
func Reasons(keys []key.Binding, why func(key.Binding) string) []KeyLine {
	lines := make([]KeyLine, len(keys))
	for i, k := range keys {
		lines[i] = KeyLine{k, why(k)}
	}
	return lines
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
