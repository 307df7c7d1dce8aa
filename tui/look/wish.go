package look

import (
	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/tui/track"
)

// Wish is what a screen asks of the router: another screen, another piece. A screen
// returns it with its next model, so that the router acts before the next key: a key
// typed right after must find the new screen. nil is no wish.
type Wish interface{ wish() }

// The wishes.
type (
	// OpenPiece asks to go on with a piece.
	OpenPiece struct{ ID string }
	// BeginPattern asks to begin a new piece from an example.
	BeginPattern struct {
		Example string
		OnLoom  int // rows that are there already
	}
	// MakeAnother asks to begin a piece by the very rows of a finished one.
	MakeAnother struct{ ID string }
	// ShowFit asks what a pattern comes to: an example's, or that of a piece.
	ShowFit struct{ Example, ID string }
	// ShowChart asks for the chart of the piece in hand.
	ShowChart struct{}
	// ShowWays asks for the ways in which the piece in hand can be gone on with.
	ShowWays struct{}
	// ShowWhere asks to find the place in the piece in hand from its fabric.
	ShowWhere struct{}
	// GoTo asks to go to a place of the piece in hand.
	GoTo struct{ Place pattern.Place }
	// ShowMend asks how a mistake in the piece in hand is put right.
	ShowMend struct{}
	// Mended tells how far a repair is; Now is nil where there is none any more. Once it is
	// done, To is where the work stands then, or nil where that has not changed.
	Mended struct {
		Now  *track.Mending
		Done bool
		To   *pattern.Place
	}
	// GoOn asks to go on after another pattern, told in words.
	GoOn struct {
		Text  []byte
		Words string
	}
	// Reread asks to read the piece anew: its file is not what was written.
	Reread struct{}
	// Answer answers a question with the number of the answer, from 0.
	Answer struct{ N int }
	// Swap asks for the other piece, the one worked before this.
	Swap struct{}
	// Rename asks for another name of a piece.
	Rename struct{ ID, Title string }
	// PutAway asks to put a piece out of the way, or to bring it back.
	PutAway struct {
		ID   string
		Back bool
	}
	// Delete asks to show a piece no more.
	Delete struct{ ID string }
	// PutDown asks to put down what a finished piece measures and weighs.
	PutDown struct {
		ID       string
		Finished fit.Finished
	}
	// TakeBack asks to undo the last of those four.
	TakeBack struct{}
	// Leave asks to leave the screen in hand.
	Leave struct{}
	// Sleep asks to give the terminal to the shell for a while.
	Sleep struct{}
)

func (OpenPiece) wish()    {}
func (BeginPattern) wish() {}
func (MakeAnother) wish()  {}
func (ShowFit) wish()      {}
func (ShowChart) wish()    {}
func (ShowWays) wish()     {}
func (GoOn) wish()         {}
func (ShowWhere) wish()    {}
func (ShowMend) wish()     {}
func (Mended) wish()       {}
func (GoTo) wish()         {}
func (Reread) wish()       {}
func (Answer) wish()       {}
func (Swap) wish()         {}
func (Rename) wish()       {}
func (PutAway) wish()      {}
func (Delete) wish()       {}
func (PutDown) wish()      {}
func (TakeBack) wish()     {}
func (Leave) wish()        {}
func (Sleep) wish()        {}
