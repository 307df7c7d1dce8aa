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
	Note, Purpose       key.Binding
	Large, Swap, Fit    key.Binding
	Where, Mend         key.Binding
	Lifeline, Ball      key.Binding
	Retry               key.Binding
	Help, Leave, Freeze key.Binding
}

// NamedKey is a key by the name that a config file has for it.
type NamedKey struct {
	Name string
	Key  *key.Binding
}

// bindings are the keys alone.
func bindings(named []NamedKey) []key.Binding {
	all := make([]key.Binding, len(named))
	for i, n := range named {
		all[i] = *n.Key
	}
	return all
}

// NewWorkKeys are the keys as they come.
func NewWorkKeys() WorkKeys {
	return WorkKeys{
		Peg:      bind("space", "one peg", " "),
		Run:      bind("enter", "the run (page down too)", "enter", "pgdown"),
		Row:      bind("↑", "the row", "up"),
		PegBack:  bind("backspace", "one peg back", "backspace"),
		RunBack:  bind("page up", "one run back", "pgup"),
		RowBack:  bind("↓", "to the row's start", "down"),
		Left:     bind("←", "along the row to the left", "left"),
		Right:    bind("→", "along the row to the right", "right"),
		Undo:     bind("u", "undo", "u"),
		Redo:     bind("U", "redo", "U"),
		GoTo:     bind("g", "go to a row", "g"),
		Chart:    bind("c", "chart", "c"),
		Note:     bind("n", "a note on this row", "n"),
		Purpose:  bind("N", "a change made on purpose", "N"),
		Fit:      bind("f", "will it fit? ways to go on", "f"),
		Where:    bind("w", "where am I", "w"),
		Mend:     bind("m", "mend, or take rows back", "m"),
		Lifeline: bind("t", "a lifeline, in or out", "t"),
		Ball:     bind("b", "a new ball joined", "b"),
		Large:    bind("l", "large print", "l"),
		Swap:     bind("tab", "the other piece", "tab"),
		Retry:    bind("s", "save again", "s"),
		Help:     bind("?", "help", "?"),
		Leave:    bind("q", "leave", "q", "ctrl+c"),
		Freeze:   bind("ctrl+z", "to the shell and back", "ctrl+z"),
	}
}

func bind(shown, does string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(shown, does))
}

// Named are the keys by the names that a config file has for them, in the order in which
// help lists them.
func (k *WorkKeys) Named() []NamedKey {
	return []NamedKey{
		{"peg", &k.Peg}, {"run", &k.Run}, {"row", &k.Row},
		{"peg-back", &k.PegBack}, {"run-back", &k.RunBack}, {"row-back", &k.RowBack},
		{"left", &k.Left}, {"right", &k.Right}, {"undo", &k.Undo}, {"redo", &k.Redo},
		{"go-to", &k.GoTo}, {"chart", &k.Chart}, {"note", &k.Note}, {"purpose", &k.Purpose},
		{"where", &k.Where}, {"mend", &k.Mend}, {"lifeline", &k.Lifeline}, {"ball", &k.Ball}, {"fit", &k.Fit}, {"large", &k.Large}, {"swap", &k.Swap}, {"retry", &k.Retry},
		{"help", &k.Help}, {"leave", &k.Leave}, {"freeze", &k.Freeze},
	}
}

// All are the bindings in the order in which help lists them.
func (k WorkKeys) All() []key.Binding { return bindings(k.Named()) }

// Hint is a key and one word for what it does.
type Hint struct {
	Key  key.Binding
	Word string
}

// Line are the keys that the work screen names on its last line, the most used first;
// help and leaving come last and always have room.
func (k WorkKeys) Line() (most, always []Hint) {
	most = []Hint{
		{k.Peg, "peg"}, {k.Run, "run"}, {k.Row, "row"}, {k.Undo, "undo"},
		{k.Note, "note"}, {k.Chart, "chart"}, {k.Large, "large"}, {k.Where, "where am I"}, {k.Mend, "mend"}, {k.Fit, "fit"}, {k.GoTo, "go to"}, {k.PegBack, "back"},
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
