package look

import "github.com/charmbracelet/bubbles/key"

// WhereKeys are the keys of the talk about the place, beside those that type an answer.
type WhereKeys struct {
	Answer, Back key.Binding
	Up, Down     key.Binding
	Leave        key.Binding
	Freeze       key.Binding
}

// NewWhereKeys are the keys as they come.
func NewWhereKeys() WhereKeys {
	return WhereKeys{
		Answer: bind("enter", "answer; go there", "enter"),
		Back:   bind("backspace", "take the last answer back", "backspace"),
		Up:     bind("↑", "a place above", "up"),
		Down:   bind("↓", "a place below", "down"),
		Leave:  bind("esc", "stay where you were", "esc", "ctrl+c"),
		Freeze: bind("ctrl+z", "to the shell and back", "ctrl+z"),
	}
}

// All are the bindings.
func (k WhereKeys) All() []key.Binding {
	return []key.Binding{k.Answer, k.Back, k.Up, k.Down, k.Leave, k.Freeze}
}
