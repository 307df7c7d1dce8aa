package look

import "github.com/charmbracelet/bubbles/key"

// ListKeys are the keys of a list: the shelf, the chart, and questions.
type ListKeys struct {
	Up, Down         key.Binding
	PageUp, PageDown key.Binding
	First, Last      key.Binding
	Left, Right      key.Binding
	Choose, Leave    key.Binding
	Freeze           key.Binding
}

// NewListKeys are the keys as they come.
func NewListKeys() ListKeys {
	return ListKeys{
		Up:       bind("↑", "up", "up", "k"),
		Down:     bind("↓", "down", "down", "j"),
		PageUp:   bind("page up", "a screen up", "pgup"),
		PageDown: bind("page down", "a screen down", "pgdown"),
		First:    bind("home", "the first", "home"),
		Last:     bind("end", "the last", "end"),
		Left:     bind("←", "left", "left", "h"),
		Right:    bind("→", "right", "right", "l"),
		Choose:   bind("enter", "choose", "enter"),
		Leave:    bind("q", "leave", "q", "ctrl+c"),
		Freeze:   bind("ctrl+z", "to the shell and back", "ctrl+z"),
	}
}

// Named are the keys by the names that a config file has for them, in the order in which
// help lists them.
func (k *ListKeys) Named() []NamedKey {
	return []NamedKey{
		{"up", &k.Up}, {"down", &k.Down}, {"page-up", &k.PageUp}, {"page-down", &k.PageDown},
		{"first", &k.First}, {"last", &k.Last}, {"left", &k.Left}, {"right", &k.Right},
		{"choose", &k.Choose}, {"leave", &k.Leave}, {"freeze", &k.Freeze},
	}
}

// All are the bindings in the order in which help lists them.
func (k ListKeys) All() []key.Binding { return bindings(k.Named()) }
