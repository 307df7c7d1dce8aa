package config

import (
	"fmt"
	"testing"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

func TestEveryKeyWithANameCanBeWrittenAndIsMatched(t *testing.T) {
	tested := 0
	for typ := tea.KeyF20; typ <= tea.KeyCtrlQuestionMark; typ++ {
		name := typ.String()
		if name == "" || typ == tea.KeyRunes {
			continue
		}
		tested++
		got, why, _ := parseKey(keyWord(name))
		require.Empty(t, why, name)
		assert.True(t, key.Matches(tea.KeyMsg{Type: typ}, key.NewBinding(key.WithKeys(got))), name)
	}
	assert.Greater(t, tested, 80)
}

func TestLettersAreThemselves(t *testing.T) {
	for _, word := range []string{"a", "A", "?", ",", "[", "é", "ß", "я", "9", "/"} {
		got, why, _ := parseKey(word)
		require.Empty(t, why, word)
		assert.True(t, key.Matches(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(word)}, key.NewBinding(key.WithKeys(got))), word)
	}
}

// sent is a key as a person writes it, and what a terminal sends for it: xterm's control
// sequences, as its manual has them.
var sent = []struct {
	word  string
	bytes term.Key
}{
	{"space", term.Space}, {"Space", term.Space}, {" ", term.Space}, {"enter", term.Enter}, {"return", term.Enter},
	{"tab", term.Tab}, {"esc", term.Esc}, {"escape", term.Esc}, {"backspace", term.Backspace},
	{"up", term.Up}, {"down", term.Down}, {"left", term.Left}, {"right", term.Right}, {"home", term.Home}, {"end", term.End},
	{"pgup", term.PageUp}, {"page up", term.PageUp}, {"pgdown", term.PageDown}, {"Page Down", term.PageDown},
	{"ctrl+n", "\x0e"}, {"Ctrl+N", "\x0e"}, {"ctrl+space", "\x00"}, {"ctrl+z", term.CtrlZ}, {"ctrl+up", "\x1b[1;5A"},
	{"shift+up", "\x1b[1;2A"}, {"shift+tab", "\x1b[Z"}, {"delete", "\x1b[3~"}, {"insert", "\x1b[2~"},
	{"f1", "\x1bOP"}, {"f5", "\x1b[15~"}, {"F12", "\x1b[24~"}, {"alt+x", "\x1bx"}, {"alt+X", "\x1bX"}, {"alt+up", "\x1b[1;3A"},
	{"a", "a"}, {"U", "U"}, {"é", "é"}, {"?", "?"},
}

func TestWhatATerminalSendsIsTheKeyThatWasWritten(t *testing.T) {
	p := term.InProcess(t, echo{}, 40, 3)
	for _, s := range sent {
		name, why, _ := parseKey(s.word)
		require.Empty(t, why, s.word)
		p.Keys(t, "\x1b[25~")
		p.WaitText(t, `"f13"`)
		p.Keys(t, s.bytes)
		p.WaitText(t, fmt.Sprintf("%q", name))
	}
}

// echo shows the last key.
type echo struct{ last string }

func (e echo) Init() tea.Cmd { return nil }

func (e echo) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if k, ok := msg.(tea.KeyMsg); ok {
		e.last = k.String()
	}
	return e, nil
}

func (e echo) View() string { return fmt.Sprintf("%q", e.last) }

func TestKeysThatNoTerminalSendsAreRefused(t *testing.T) {
	for word, instead := range map[string]string{
		"": "write " + exampleKeys, "\x1b": "write " + exampleKeys, "\u0301": "write " + exampleKeys, "\u200b": "write " + exampleKeys,
		"ctrl+1": "write " + exampleKeys, "cmd+x": "write " + exampleKeys, "ctrl+shift+a": "write " + exampleKeys, "alt+O": "write " + exampleKeys,
		"alt+[": "write " + exampleKeys, "runes": "write " + exampleKeys, "qqqqqqqqqq": "write " + exampleKeys,
		"ctrl+i": `write "tab"`, "ctrl+m": `write "enter"`, "ctrl+[": `write "esc"`, "shift+g": `write "G"`, "shift+enter": `write "enter"`,
		"entr": `did you mean "enter"?`, "pgdwn": `did you mean "pgdown"?`,
	} {
		name, why, hint := parseKey(word)
		assert.Empty(t, name, word)
		assert.NotEmpty(t, why, word)
		assert.Equal(t, instead, hint, word)
	}
}
