package look

import (
	"github.com/charmbracelet/bubbles/key"

	"bypeg/tui/track"
)

// WorkKeys are the keys of the work screen. They are declared once, here; the screen,
// its help, and the README's table are made from them.
type WorkKeys struct {
	Peg, Run, Row       key.Binding
	PegBack, RunBack    key.Binding
	RowBack             key.Binding
	Left, Right         key.Binding
	Undo, Redo          key.Binding
	GoTo, Chart         key.Binding
	Retry               key.Binding
	Help, Leave, Freeze key.Binding
}

// NewWorkKeys are the keys as they come.
func NewWorkKeys() WorkKeys {
	return WorkKeys{
		Peg:     bind("space", "one peg", " "),
		Run:     bind("enter", "the run (page down too)", "enter", "pgdown"),
		Row:     bind("↑", "the row", "up"),
		PegBack: bind("backspace", "one peg back", "backspace"),
		RunBack: bind("page up", "one run back", "pgup"),
		RowBack: bind("↓", "to the row's start", "down"),
		Left:    bind("←", "along the row to the left", "left"),
		Right:   bind("→", "along the row to the right", "right"),
		Undo:    bind("u", "undo", "u"),
		Redo:    bind("U", "redo", "U"),
		GoTo:    bind("g", "go to a row", "g"),
		Chart:   bind("c", "chart", "c"),
		Retry:   bind("s", "try again to save", "s"),
		Help:    bind("?", "help", "?"),
		Leave:   bind("q", "leave", "q", "ctrl+c"),
		Freeze:  bind("ctrl+z", "to the shell and back", "ctrl+z"),
	}
}

func bind(shown, does string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(shown, does))
}

// All are the bindings in the order in which help lists them.
func (k WorkKeys) All() []key.Binding {
	return []key.Binding{
		k.Peg, k.Run, k.Row, k.PegBack, k.RunBack, k.RowBack, k.Left, k.Right,
		k.Undo, k.Redo, k.GoTo, k.Chart, k.Retry, k.Help, k.Leave, k.Freeze,
	}
}

// Hint is a key and one word for what it does.
type Hint struct {
	Key  key.Binding
	Word string
}

// Line are the keys that the work screen names on its last line, the most used first;
// help and leaving come last and always have room.
func (k WorkKeys) Line() (most, always []Hint) {
	most = []Hint{
		{k.Peg, "peg"}, {k.Run, "run"}, {k.Row, "row"}, {k.PegBack, "back"},
		{k.Undo, "undo"}, {k.GoTo, "go to"}, {k.Chart, "chart"},
	}
	return most, []Hint{{k.Help, "help"}, {k.Leave, "leave"}}
}

// Moves are the bindings that move along the work, each with what it does.
func (k WorkKeys) Moves() []Move {
	return []Move{
		{k.Peg, track.OnePeg},
		{k.Run, track.OneRun},
		{k.Row, track.OneRow},
		{k.PegBack, track.PegBack},
		{k.RunBack, track.RunBack},
		{k.RowBack, track.RowBack},
		{k.Left, track.GoLeft},
		{k.Right, track.GoRight},
		{k.Undo, track.Undo},
		{k.Redo, track.Redo},
	}
}

// Move is a key that moves along the work.
type Move struct {
	Key    key.Binding
	Action track.Action
}

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

// All are the bindings in the order in which help lists them.
func (k ListKeys) All() []key.Binding {
	return []key.Binding{k.Up, k.Down, k.PageUp, k.PageDown, k.First, k.Last, k.Left, k.Right, k.Choose, k.Leave, k.Freeze}
}
