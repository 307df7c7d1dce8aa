package look

import "github.com/charmbracelet/bubbles/key"

// TalkKeys are the keys of the talks that ask one thing after another, beside those that type
// an answer.
type TalkKeys struct {
	Answer, Back key.Binding
	Up, Down     key.Binding
	Leave        key.Binding
	Freeze       key.Binding
}

// NewTalkKeys are the keys as they come.
func NewTalkKeys() TalkKeys {
	return TalkKeys{
		Answer: bind("enter", "answer; go there", "enter"),
		Back:   bind("backspace", "take the last answer back", "backspace"),
		Up:     bind("↑", "a place above", "up"),
		Down:   bind("↓", "a place below", "down"),
		Leave:  bind("esc", "stay where you were", "esc", "ctrl+c"),
		Freeze: bind("ctrl+z", "to the shell and back", "ctrl+z"),
	}
}

// All are the bindings.
func (k TalkKeys) All() []key.Binding {
	return []key.Binding{k.Answer, k.Back, k.Up, k.Down, k.Leave, k.Freeze}
}
