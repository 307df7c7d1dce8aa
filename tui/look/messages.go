package look

import tea "github.com/charmbracelet/bubbletea"

// The messages by which screens ask for another one. The router acts on them.

// OpenPiece asks to go on with a piece.
type OpenPiece struct{ ID string }

// BeginPattern asks to begin a new piece from an example.
type BeginPattern struct{ Example string }

// ShowChart asks for the chart of the piece in hand.
type ShowChart struct{}

// Reread asks to read the piece anew: its file is not what was written.
type Reread struct{}

// Leave asks to leave the screen in hand.
type Leave struct{}

// Failed tells of something that did not work, in words for a person.
type Failed struct{ Err error }

// Send is the command that only brings a message.
func Send(msg tea.Msg) tea.Cmd { return func() tea.Msg { return msg } }
