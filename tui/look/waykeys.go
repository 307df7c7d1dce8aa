package look

import "github.com/charmbracelet/bubbles/key"

// WayKeys are the keys of the ways to go on.
type WayKeys struct {
	Up, Down      key.Binding
	Width, Height key.Binding
	Yarn          key.Binding
	Choose, Leave key.Binding
	Freeze        key.Binding
}

// NewWayKeys are the keys as they come.
func NewWayKeys() WayKeys {
	return WayKeys{
		Up:     bind("↑", "the way above", "up", "k"),
		Down:   bind("↓", "the way below", "down", "j"),
		Width:  bind("w", "how wide it is by now", "w"),
		Height: bind("h", "how high it is by now", "h"),
		Yarn:   bind("y", "the yarn that is left", "y"),
		Choose: bind("enter", "go on that way", "enter"),
		Leave:  bind("q", "back to the work", "q", "f", "esc", "ctrl+c"),
		Freeze: bind("ctrl+z", "to the shell and back", "ctrl+z"),
	}
}

// Named are the keys by the names that a config file has for them.
func (k *WayKeys) Named() []NamedKey {
	return []NamedKey{
		{"up", &k.Up}, {"down", &k.Down}, {"width", &k.Width}, {"height", &k.Height}, {"yarn", &k.Yarn},
		{"choose", &k.Choose}, {"leave", &k.Leave}, {"freeze", &k.Freeze},
	}
}

// All are the bindings in that order.
func (k WayKeys) All() []key.Binding { return bindings(k.Named()) }

// Line are the keys that the screen names on its last line.
func (k WayKeys) Line() (most, always []Hint) {
	return []Hint{{k.Width, "width"}, {k.Height, "height"}, {k.Yarn, "yarn left"}}, []Hint{{k.Choose, "go on so"}, {k.Leave, "back"}}
}
