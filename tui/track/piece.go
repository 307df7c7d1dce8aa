package track

import "bypeg/pattern"

// Saver takes every change to the disk, in order, and never makes the caller wait.
type Saver interface {
	Put(Event)                             // a change of place, of a safe row, or how far a repair is
	Note(at pattern.Place, text string)    // on the row of the place; empty takes the row's note away
	Purpose(at pattern.Place, text string) // a change made on purpose, of the whole piece
	Retry()                                // try again what could not be saved
	Next() (Saved, bool)                   // waits for the next word from the disk; false when there is none to come
}

// Saved is the disk's word: so many of the changes put are safe, and why no more are.
type Saved struct {
	Through int
	Err     error
	Notice  string // what went wrong and threatens no change; mostly ""
}

// Piece is a piece as it is opened for work, on a screen or in a talk.
type Piece struct {
	Title   string
	Text    []byte // of its pattern, on the pegs that the piece has; nil where that can't be told
	Tracker *Tracker
	Saver   Saver // nil opens the piece to look only
	Notes   []Note
	Purpose []string // changes made on purpose, told whenever the piece is opened
	Moments []Moment // of the last steps, for the maker's pace
	Notices []string // what is to be told on opening, a remark each
	Held    string   // why the piece can't be worked, where it is opened to look only
}
