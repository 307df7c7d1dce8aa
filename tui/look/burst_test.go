package look_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"

	"bypeg/tui/look"
)

func TestFastTypingIsAsManyKeys(t *testing.T) {
	keys := look.NewWorkKeys().All()
	runes := func(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s)} }
	cases := []struct {
		name string
		msg  tea.KeyMsg
		want string
	}{
		{"three undos in one read", runes("uuu"), "u u u"},
		{"undo and redo", runes("uU"), "u U"},
		{"a single key", runes("u"), "u"},
		{"a terminal's late answer is dropped whole", runes("11;rgb:0000/0000/0000"), ""},
		{"one unknown rune drops the burst", runes("uxu"), ""},
		{"a paste is no typing", tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("uuu"), Paste: true}, ""},
		{"keys with alt pass as one", tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("uu"), Alt: true}, "alt+uu"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, m := range look.Burst(c.msg, keys) {
				got = append(got, m.String())
			}
			assert.Equal(t, c.want, strings.Join(got, " "))
		})
	}
}
