package look

import "github.com/charmbracelet/bubbles/key"

// ChartKeys are the keys of the chart.
type ChartKeys struct {
	Up, Down           key.Binding
	PageUp, PageDown   key.Binding
	NextZone, PrevZone key.Binding
	First, Last        key.Binding
	Left, Right        key.Binding
	Here               key.Binding
	Overview, Symbols  key.Binding
	Help, Leave        key.Binding
	Freeze             key.Binding
}

// NewChartKeys are the keys as they come.
func NewChartKeys() ChartKeys {
	return ChartKeys{
		Up:       bind("↑", "a row up", "up", "k"),
		Down:     bind("↓", "a row down", "down", "j"),
		PageUp:   bind("page up", "a screen up", "pgup"),
		PageDown: bind("page down", "a screen down", "pgdown"),
		NextZone: bind("z", "the next zone", "z"),
		PrevZone: bind("Z", "the zone before", "Z"),
		First:    bind("end", "the first row", "end"),
		Last:     bind("home", "the last row", "home"),
		Left:     bind("←", "pegs further left", "left", "h"),
		Right:    bind("→", "pegs further right", "right", "l"),
		Here:     bind("space", "the row in hand", " ", "."),
		Overview: bind("o", "the whole cloth, and back", "o"),
		Symbols:  bind("s", "other symbols", "s"),
		Help:     bind("?", "help", "?"),
		Leave:    bind("q", "back to the work", "q", "c", "esc", "ctrl+c"),
		Freeze:   bind("ctrl+z", "to the shell and back", "ctrl+z"),
	}
}

// Named are the keys by the names that a config file has for them, in the order in which
// help lists them.
func (k *ChartKeys) Named() []NamedKey {
	return []NamedKey{
		{"up", &k.Up}, {"down", &k.Down}, {"page-up", &k.PageUp}, {"page-down", &k.PageDown},
		{"next-zone", &k.NextZone}, {"previous-zone", &k.PrevZone}, {"first", &k.First}, {"last", &k.Last},
		{"left", &k.Left}, {"right", &k.Right}, {"here", &k.Here}, {"overview", &k.Overview},
		{"symbols", &k.Symbols}, {"help", &k.Help}, {"leave", &k.Leave}, {"freeze", &k.Freeze},
	}
}

// All are the bindings in the order in which help lists them.
func (k ChartKeys) All() []key.Binding { return bindings(k.Named()) }

// Line are the keys that the chart names on its last line, the most used first; help and
// leaving come last and always have room. The keys differ a little where the whole cloth
// is seen, and where the chart is wider than the screen.
func (k ChartKeys) Line(cloth, wide bool) (most, always []Hint) {
	most = []Hint{{k.Up, ""}, {k.Down, "rows"}}
	zoom, symbols := Hint{k.Overview, "chart"}, []Hint(nil)
	if !cloth {
		zoom.Word, symbols = "cloth", []Hint{{k.Symbols, "symbols"}}
	}
	if wide && !cloth {
		most = []Hint{{k.Up, ""}, {k.Down, ""}, {k.Left, ""}, {k.Right, "move"}}
	}
	most = append(most, zoom, Hint{k.Here, "row in hand"}, Hint{k.NextZone, "zone"})
	return append(most, symbols...), []Hint{{k.Help, "help"}, {k.Leave, "back"}}
}
