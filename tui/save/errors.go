package save

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"syscall"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// What can keep a step from being saved.
var (
	// ErrNotSaved is in every error of Append: the steps are not on disk. They are
	// to be given again, first and in the same order.
	ErrNotSaved = errors.New("not saved")
	// ErrChangedUnderneath says that the journal is no longer the file that was
	// read: replaced, shortened, grown or gone. No step is written until Reread.
	ErrChangedUnderneath = errors.New("the saved file was changed by something else")
	// ErrLookOnly says that the piece is open to look at only.
	ErrLookOnly = errors.New("the piece is open to look only")
	// ErrUnanswered says that it is not settled yet which place is the right one.
	ErrUnanswered = errors.New("which place is the right one must be answered first")
	// ErrBusy says that a write has not come back from the disk yet.
	ErrBusy = errors.New("the disk has not answered yet")
	// ErrNotSure says that lines which a program that was killed had left in doubt could
	// not be written once more.
	ErrNotSure = errors.New("what was saved last may not outlive a power cut")
	// ErrCopyBehind says that place.toml could not be brought up to date. The journal
	// has the place all the same.
	ErrCopyBehind = errors.New("the second copy of the place is behind")
)

// What can keep a piece from being opened.
var (
	// ErrNoPiece says that there is no piece of that id.
	ErrNoPiece = errors.New("there is no such piece")
	// ErrNeverBegun says that the making of the piece was cut short: nothing has
	// been worked, nothing is lost.
	ErrNeverBegun = errors.New("the piece was never begun: its making was cut short before anything was worked")
	// ErrUnreadable says that something is there and no place can be read from it.
	// The work is not taken to be at row 1.
	ErrUnreadable = errors.New("no place can be read from the piece")
)

// PatternError says that the pattern kept with a piece is of no use. RestorePattern may
// put the right one back.
type PatternError struct {
	Source string // what the piece was begun from, as given: not yet safe to show
	Place  pattern.Place
	Of     int
	Err    error
}

// Error implements error.
func (e *PatternError) Error() string {
	why := reason(e.Err)
	if errors.Is(e.Err, fs.ErrNotExist) {
		why = "it is gone"
	}
	return fmt.Sprintf("the pattern kept with it is of no use: %s. The place is %s. Put %s back as it was when you last worked, and start again",
		why, placeWords(e.Place, e.Of), safetext.Clean(e.Source))
}

// Unwrap gives the cause.
func (e *PatternError) Unwrap() error { return e.Err }

// NotSavedError says why steps are not on disk, and which place is.
type NotSavedError struct {
	Saved pattern.Place
	Of    int
	Err   error
}

// Error is the words for the screen.
func (e *NotSavedError) Error() string {
	return "NOT SAVED: " + e.Reason() + ". Saved: " + placeWords(e.Saved, e.Of)
}

// Unwrap gives ErrNotSaved and the cause.
func (e *NotSavedError) Unwrap() []error { return []error{ErrNotSaved, e.Err} }

// Reason is the cause in a few words, safe to show.
func (e *NotSavedError) Reason() string { return reason(e.Err) }

// SayNotSaved says why changes are not on disk, and which place is, where that is known:
// gone is that the folder with all of it is no longer there.
func SayNotSaved(err error, o pattern.Order, gone bool) (why, saved string) {
	const not = "NOT SAVED: "
	var e *NotSavedError
	if !errors.As(err, &e) {
		return not + safetext.Clean(err.Error()) + ".", ""
	}
	place := track.SayPlace(o, e.Saved)
	if gone {
		return not + "the piece's folder is gone.", "It was at " + place + "."
	}
	return not + e.Reason() + ".", "Saved: " + place + "."
}

// notSureError says in a few words, safe to show, why lines in doubt could not be written
// once more.
type notSureError struct{ err error }

func (e *notSureError) Error() string { return reason(e.err) + ": " + ErrNotSure.Error() }

// Unwrap gives ErrNotSure and the cause.
func (e *notSureError) Unwrap() []error { return []error{ErrNotSure, e.err} }

// notBegunError says in a few words, safe to show, why there is no new piece.
type notBegunError struct{ err error }

func (e *notBegunError) Error() string {
	return ErrNotSaved.Error() + ": the piece could not be begun: " + reason(e.err)
}

// Unwrap gives ErrNotSaved and the cause.
func (e *notBegunError) Unwrap() []error { return []error{ErrNotSaved, e.err} }

// reasons are tried in this order.
var reasons = []struct {
	err   error
	words string
}{
	{ErrChangedUnderneath, ErrChangedUnderneath.Error()},
	{ErrLookOnly, ErrLookOnly.Error()},
	{ErrUnanswered, ErrUnanswered.Error()},
	{syscall.ENOSPC, "disk full"},
	{syscall.EDQUOT, "disk quota used up"},
	{syscall.EFBIG, "the file may not grow further"},
	{syscall.EROFS, "the disk can only be read"},
	{syscall.EMFILE, "too many files are open"},
	{syscall.EIO, "the disk reports an error"},
	{fs.ErrPermission, "no permission to write"},
	{fs.ErrNotExist, "its folder is gone"},
	{fs.ErrExist, "its name is taken"},
	{io.ErrShortWrite, "the disk took only a part"},
}

func reason(err error) string {
	if diskFull(err) {
		return "disk full"
	}
	for _, r := range reasons {
		if errors.Is(err, r.err) {
			return r.words
		}
	}
	return safetext.Clean(err.Error())
}
