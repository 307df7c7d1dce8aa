package look

import "strings"

// shownKeys are what keys are called on the screen, where that is not their name.
var shownKeys = map[string]string{
	" ": "space", "ctrl+@": "ctrl+space", "up": "↑", "down": "↓", "left": "←", "right": "→",
	"pgup": "page up", "pgdown": "page down",
}

// Give gives an action other keys, the first being the one that screens name. At least one
// is needed.
func (n NamedKey) Give(keys ...string) {
	shown := make([]string, len(keys))
	for i, k := range keys {
		if shown[i] = k; shownKeys[k] != "" {
			shown[i] = shownKeys[k]
		}
	}
	does, _, _ := strings.Cut(n.Key.Help().Desc, " (") // that named its former keys
	if len(shown) > 1 {
		does += " (" + strings.Join(shown[1:], ", ") + " too)"
	}
	n.Key.SetKeys(keys...)
	n.Key.SetHelp(shown[0], does)
}
