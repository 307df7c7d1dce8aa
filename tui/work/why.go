package work

import (
	"slices"

	"github.com/charmbracelet/bubbles/key"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// helpView lists every key, with the reason where it does nothing now, and explains the
// signs of the rows in view, on several screens where one is too small.
func (m Model) helpView() (view string, more bool) {
	row, l, w := max(1, m.piece.Tracker.RowInHand()), layoutFor(m.height), m.window()
	legend := []string{
		safetext.Cut("[ ] the peg in hand, saved   ( ) not yet saved   "+m.style.Alert+" now", m.width),
	}
	legend = append(legend, m.chart.Legend(chart.View{First: row - l.done, Last: row + l.coming, From: w.From, To: w.To, Width: m.width})...)
	return look.KeysView(m.style, m.piece.Title, look.Reasons(m.keys.All(), m.why), legend, m.page, m.width, m.height)
}

// why is the reason why a key does nothing now; "" where it does something.
func (m Model) why(k key.Binding) string {
	is := func(others ...key.Binding) bool {
		return slices.ContainsFunc(others, func(o key.Binding) bool { return slices.Equal(o.Keys(), k.Keys()) })
	}
	switch {
	case is(m.keys.Retry):
		if !m.Unsaved() {
			return "all is saved"
		}
		return ""
	case is(m.keys.GoTo, m.keys.Note, m.keys.Purpose) && m.piece.Saver == nil:
		return "looking only"
	}
	for _, move := range m.keys.Moves() {
		if !is(move.Key) {
			continue
		}
		if m.piece.Saver == nil {
			return "looking only"
		}
		if !m.piece.Tracker.Can(move.Action) {
			return m.whyNotShort(move.Action)
		}
	}
	return ""
}

// whyNotShort is SayWhyNot in a few words.
func (m Model) whyNotShort(a track.Action) string {
	switch {
	case a == track.Undo, a == track.Redo:
		return "nothing to " + map[track.Action]string{track.Undo: "undo", track.Redo: "redo"}[a]
	case m.piece.Tracker.Place().Phase == pattern.Finishing:
		return "it is finished"
	case a == track.GoLeft || a == track.GoRight:
		return "not at its start"
	}
	return "nothing before"
}
