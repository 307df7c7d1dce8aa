package config

import (
	"time"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// Settings are what a maker has chosen.
type Settings struct {
	Hand        pattern.Hand
	Peg1        *pattern.Side      // nil leaves it to the pattern
	Row1        *pattern.Direction // likewise
	Symbols     chart.Set
	ASCII       bool
	Theme       look.Theme
	Lead        int // pegs ahead of a border at which it is told
	Bell, Mouse bool
	WrapAhead   bool          // tells which pegs may be wrapped ahead
	DoublePress time.Duration // within which a second whole row asks first; 0 never asks
	Pause       time.Duration // of work, after which a rest is suggested; 0 never
	Keys        look.WorkKeys // of the work screen
	Shelf       look.ShelfKeys
	Chart       look.ChartKeys
	Ways        look.WayKeys
	Lists       look.ListKeys // of questions
}

// Default are the settings of somebody who chose nothing.
func Default() Settings {
	return Settings{
		Lead: track.DefaultLead, DoublePress: time.Second, Pause: 45 * time.Minute,
		Keys: look.NewWorkKeys(), Lists: look.NewListKeys(), Shelf: look.NewShelfKeys(), Chart: look.NewChartKeys(), Ways: look.NewWayKeys(),
	}
}

// Way is the hand that works a design, and how: the design's own way for that hand,
// unless the maker has another.
func (s Settings) Way(d *pattern.Design) (pattern.Hand, pattern.Way) {
	w := d.WayFor(s.Hand)
	if s.Peg1 != nil {
		w.Peg1 = *s.Peg1
	}
	if s.Row1 != nil {
		w.Row1 = *s.Row1
	}
	return s.Hand, w
}

// screen is the keys of one screen, under the name of their table.
type screen struct {
	table string
	named []look.NamedKey
}

// screens are the screens that have keys of their own.
func (s *Settings) screens() []screen {
	return []screen{
		{"keys", s.Keys.Named()}, {"shelf_keys", s.Shelf.Named()}, {"chart_keys", s.Chart.Named()}, {"way_keys", s.Ways.Named()}, {"list_keys", s.Lists.Named()},
	}
}
