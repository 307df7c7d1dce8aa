package look

import "github.com/charmbracelet/bubbles/key"

// ShelfKeys are the keys of the shelf.
type ShelfKeys struct {
	ListKeys
	Swap, Middle    key.Binding
	Fit             key.Binding
	Rename, PutAway key.Binding
	Size            key.Binding
	Delete, Undo    key.Binding
	Away, Help      key.Binding
}

// NewShelfKeys are the keys as they come.
func NewShelfKeys() ShelfKeys {
	return ShelfKeys{
		ListKeys: NewListKeys(),
		Swap:     bind("tab", "the piece before the last", "tab"),
		Middle:   bind("m", "begin mid-way", "m"),
		Fit:      bind("f", "will it fit", "f"),
		Rename:   bind("r", "rename", "r"),
		Size:     bind("i", "put down its size", "i"),
		PutAway:  bind("a", "put away", "a"),
		Delete:   bind("d", "delete", "d", "delete"),
		Undo:     bind("u", "undo that", "u"),
		Away:     bind("v", "what is put away", "v"),
		Help:     bind("?", "help", "?"),
	}
}

// Named are the keys by the names that a config file has for them, in the order in which
// help lists them.
func (k *ShelfKeys) Named() []NamedKey {
	return []NamedKey{
		{"choose", &k.Choose}, {"up", &k.Up}, {"down", &k.Down}, {"page-up", &k.PageUp}, {"page-down", &k.PageDown},
		{"first", &k.First}, {"last", &k.Last},
		{"swap", &k.Swap}, {"middle", &k.Middle}, {"fit", &k.Fit}, {"rename", &k.Rename}, {"size", &k.Size}, {"put-away", &k.PutAway},
		{"delete", &k.Delete}, {"undo", &k.Undo}, {"away", &k.Away},
		{"help", &k.Help}, {"leave", &k.Leave}, {"freeze", &k.Freeze},
	}
}

// Over are the keys of what lies over the shelf, that may be longer than the screen: the key
// that led there leaves it too, and so does esc.
func (k ShelfKeys) Over() ListKeys {
	over := k.ListKeys
	over.Leave.SetKeys(append(append([]string{"esc"}, k.Leave.Keys()...), k.Fit.Keys()...)...)
	return over
}

// All are the bindings in the order in which help lists them.
func (k ShelfKeys) All() []key.Binding { return bindings(k.Named()) }
