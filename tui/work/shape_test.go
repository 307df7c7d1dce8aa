package work_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/tui/track"
)

// TestEveryStateHasAShape looks at frames without colours, bold or reverse: what differs
// in state must differ there too, in both sets of signs and at both widths.
func TestEveryStateHasAShape(t *testing.T) {
	unsaved := func(d *desk) { d.press(space) }
	failed := func(d *desk) { d.press(space); d.says(track.Saved{Err: full(at(18, 9))}) }
	saved := func(d *desk) { d.press(space); d.says(track.Saved{Through: 1}) }
	states := []struct {
		name string
		at   pattern.Place
		then func(*desk)
		line string // begins the line, or is in it, that tells this state alone
	}{
		{"a step is saved", at(18, 9), saved, ""},
		{"a step is on its way", at(18, 9), unsaved, ""},
		{"a step could not be saved", at(18, 9), failed, "NOT SAVED"},
		{"the peg before it", at(18, 9), nil, ""},
		{"the peg after it", at(18, 11), nil, ""},
		{"the row above", at(19, 9), nil, ""},
		{"two pegs before the border", at(18, 21), nil, "border in 2 pegs"},
		{"at the border", at(18, 23), nil, "then turn"},
		{"a zone comes after this row", at(42, 9), nil, "after this row"},
		{"a row's start", at(18, 0), nil, ""},
		{"casting on", pattern.Place{Phase: pattern.CastingOn, Done: 9}, nil, ""},
		{"binding off", pattern.Place{Phase: pattern.BindingOff, Done: 9}, nil, ""},
		{"off the loom", pattern.Place{Phase: pattern.Finishing}, nil, "weave in"},
	}
	for _, ascii := range []bool{false, true} {
		for _, size := range [][2]int{{80, 24}, {40, 12}} {
			for _, large := range []bool{false, true} {
				seen := map[string]string{}
				for _, s := range states {
					d := open(t, s.at, style(termenv.Ascii, ascii), size[0], size[1])
					if large {
						d.press(rune_('l'))
					}
					if s.then != nil {
						s.then(d)
					}
					view := d.model.View()
					assert.NotContains(t, view, "\x1b", "no attributes at all")
					if s.line != "" && size[0] == 80 {
						assert.Contains(t, view, s.line, s.name)
					}
					assert.Empty(t, seen[view], "%s looks like %s", s.name, seen[view])
					seen[view] = s.name
				}
			}
		}
	}
	// Within the fabric: border and field, knit and purl, marker, the row in hand.
	view := open(t, at(18, 9), style(termenv.Ascii, false), 80, 24).model.View()
	for _, sign := range []string{"┃", "━", "│", "─", "▾", "▸", "[", "┆"} {
		assert.Contains(t, view, sign)
	}
}

// TestEveryViewFitsEverySize goes through all sizes a terminal may have.
func TestEveryViewFitsEverySize(t *testing.T) {
	views := map[string]func(*desk){
		"in the field": func(d *desk) {},
		"large print":  func(d *desk) { d.press(rune_('l')) },
		"help":         func(d *desk) { d.press(rune_('?')) },
		"a note": func(d *desk) {
			d.press(rune_('n'))
			d.types("a note that is longer than many a line of a terminal has room for")
		},
		"trouble": func(d *desk) { d.press(space); d.says(track.Saved{Err: full(at(18, 9))}) },
		"notices": func(d *desk) {
			d.says(track.Saved{Notice: "1 of 4,711 lines can't be read. Your place is not affected."})
			d.says(track.Saved{Notice: "an interrupted line was skipped; nothing saved was lost"})
		},
	}
	step := 1
	if testing.Short() {
		step = 7
	}
	for name, then := range views {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := open(t, at(18, 9), style(termenv.ANSI256, false), 80, 24)
			then(d)
			for w := 0; w <= 200; w += step {
				for h := 0; h <= 60; h += step {
					lines := strings.Split(d.model.SetSize(w, h).View(), "\n")
					require.LessOrEqual(t, len(lines), max(1, h), "%d x %d", w, h)
					for _, line := range lines {
						require.LessOrEqual(t, ansi.StringWidth(line), w, "%d x %d: %q", w, h, line)
					}
					if h > 1 && len(lines) == h {
						last := lines[h-1]
						require.NotEmpty(t, strings.TrimSpace(last), "%d x %d: no line is left over", w, h)
					}
				}
			}
		})
	}
	d := open(t, at(18, 9), style(termenv.Ascii, false), 39, 11)
	assert.Equal(t, "too small: needs 40 x 12", d.model.View())
	d.press(tea.KeyMsg{Type: tea.KeySpace})
	assert.Equal(t, at(18, 9), d.model.Tracker().Place())
}
