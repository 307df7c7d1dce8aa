package look

import (
	"github.com/charmbracelet/bubbles/cursor"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern/safetext"
)

// Typed is what became of a field of text with a key.
type Typed uint8

// What may become of it.
const (
	StillTyping Typed = iota
	Kept              // what was typed is to be taken
	Dropped           // it is not
)

// NewField is a field of text. Nothing in it blinks.
func NewField() textinput.Model {
	in := textinput.New()
	in.Prompt = ""
	in.Cursor.SetMode(cursor.CursorStatic)
	return in
}

// TypeInto gives a key to a field. Text is cleaned, be it typed or pasted; where only
// digits are wanted, nothing else is taken.
func TypeInto(in textinput.Model, k tea.KeyMsg, digitsOnly bool) (textinput.Model, Typed) {
	switch k.Type {
	case tea.KeyEsc, tea.KeyCtrlC:
		return in, Dropped
	case tea.KeyEnter:
		return in, Kept
	case tea.KeyRunes, tea.KeySpace:
		return typed(in, k.Runes, digitsOnly), StillTyping
	case tea.KeyCtrlV:
		return in, StillTyping // terminals paste by themselves
	}
	in, _ = in.Update(k)
	return in, StillTyping
}

// typed puts text into a field. The whole of it is cleaned: a mark alone has no letter to
// stand on. The runes go in one by one, for several in one read may spell the name of a key.
func typed(in textinput.Model, text []rune, digitsOnly bool) textinput.Model {
	before, at := in.Value(), in.Position()
	for _, r := range text {
		if r >= ' ' && (!digitsOnly || !NotDigit(r)) {
			in, _ = in.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
		}
	}
	if clean := safetext.Clean(in.Value()); clean != in.Value() {
		kept := len([]rune(clean)) - len([]rune(before))
		in.SetValue(clean)
		in.SetCursor(max(0, at+kept))
	}
	return in
}

// NotDigit tells whether a rune is none of 0 to 9.
func NotDigit(r rune) bool { return r < '0' || r > '9' }
