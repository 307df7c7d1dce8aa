package look

import (
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// FirstRune parts the first of several runes that came in one read from the others.
func FirstRune(k tea.KeyMsg) (first, others tea.KeyMsg, ok bool) {
	if k.Type != tea.KeyRunes || k.Paste || k.Alt || len(k.Runes) < 2 {
		return first, others, false
	}
	first = tea.KeyMsg{Type: tea.KeyRunes, Runes: k.Runes[:1]}
	return first, tea.KeyMsg{Type: tea.KeyRunes, Runes: k.Runes[1:]}, true
}

// Burst splits several runes that came in one read into single keys, so that fast
// typing is as many steps. Where any rune is no key of the screen the whole burst is
// dropped: it may be a terminal's late answer, not typing. A paste is no typing and
// comes back as nothing.
func Burst(k tea.KeyMsg, keys []key.Binding) []tea.KeyMsg {
	if k.Paste {
		return nil
	}
	if k.Type != tea.KeyRunes || k.Alt || len(k.Runes) < 2 {
		return []tea.KeyMsg{k}
	}
	all := make([]tea.KeyMsg, 0, len(k.Runes))
	for _, r := range k.Runes {
		one := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}
		if r == ' ' {
			one.Type = tea.KeySpace
		}
		if !slices.ContainsFunc(keys, func(b key.Binding) bool { return key.Matches(one, b) }) {
			return nil
		}
		all = append(all, one)
	}
	return all
}
