package look

import (
	"slices"

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
		k.Runes = []rune(safetext.Clean(string(k.Runes)))
		if digitsOnly {
			k.Runes = slices.DeleteFunc(k.Runes, NotDigit)
		}
	}
	in, _ = in.Update(k)
	return in, StillTyping
}

// NotDigit tells whether a rune is none of 0 to 9.
func NotDigit(r rune) bool { return r < '0' || r > '9' }
