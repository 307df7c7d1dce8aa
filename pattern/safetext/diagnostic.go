package safetext

import (
	"fmt"
	"slices"
	"strings"
)

// Severity is how bad a diagnostic is.
type Severity uint8

// The severities.
const (
	Error   Severity = iota // the text cannot be used as it is
	Warning                 // it can be used, and is doubtful
	Note                    // nothing is wrong; something was rounded or derived
)

// String is "error", "warning" or "note".
func (s Severity) String() string {
	switch s {
	case Warning:
		return "warning"
	case Note:
		return "note"
	}
	return "error"
}

// Diagnostic says what is wrong at one place of a foreign text. All its strings have
// been cleaned. Lines and columns count from 1, columns in cells; EndCol is the
// column after the last one meant and more than Col.
type Diagnostic struct {
	File     string
	Line     int
	Col      int
	EndCol   int
	Severity Severity
	Message  string // what is wrong, and what was expected
	Hint     string // what to write instead, where that is known
	Text     string // the line pointed at
}

// Error is "file:line:col: message", with "warning: " or "note: " before the message
// of what is no error.
func (d Diagnostic) Error() string {
	kind := ""
	if d.Severity != Error {
		kind = d.Severity.String() + ": "
	}
	return fmt.Sprintf("%s:%d:%d: %s%s", d.File, d.Line, d.Col, kind, d.Message)
}

// pictureWidth is how many cells of a long line a picture shows.
const pictureWidth = 76

// Picture is two lines: the line pointed at and carets under what is meant. Of a long
// line it shows the part around the place, with dots where it was cut.
func (d Diagnostic) Picture() string {
	text, from := d.window()
	col := d.Col - from
	carets := max(1, min(d.EndCol-d.Col, Width(text)-col+1))
	return text + "\n" + strings.Repeat(" ", max(0, col-1)) + strings.Repeat("^", carets)
}

// window is the shown part of the line, and how many cells were left out before it.
func (d Diagnostic) window() (text string, from int) {
	const dots = "..."
	width := Width(d.Text)
	if width <= pictureWidth {
		return d.Text, 0
	}
	from = max(0, min(d.Col-1-pictureWidth/2, width-pictureWidth))
	text = d.Text
	if from > 0 {
		head := Cut(text, from+len(dots))
		text = dots + strings.Repeat(" ", from+len(dots)-Width(head)) + text[len(head):]
	}
	if from+pictureWidth < width {
		text = Pad(text, pictureWidth-len(dots)) + dots
	}
	return text, from
}

// Diagnostics are all that was found in a text.
type Diagnostics []Diagnostic

// Sort puts the diagnostics in the order of their places; at one place errors come
// first.
func (ds Diagnostics) Sort() {
	slices.SortStableFunc(ds, func(a, b Diagnostic) int {
		switch {
		case a.Line != b.Line:
			return a.Line - b.Line
		case a.Col != b.Col:
			return a.Col - b.Col
		}
		return int(a.Severity) - int(b.Severity)
	})
}

// Of is the diagnostics of one severity.
func (ds Diagnostics) Of(severity Severity) Diagnostics {
	return slices.DeleteFunc(slices.Clone(ds), func(d Diagnostic) bool { return d.Severity != severity })
}

// Err is nil where no diagnostic is an error, and otherwise all those that are.
func (ds Diagnostics) Err() error {
	if errs := ds.Of(Error); len(errs) > 0 {
		return errs
	}
	return nil
}

// Error is the first diagnostic, and how many more there are.
func (ds Diagnostics) Error() string {
	switch len(ds) {
	case 0:
		return "nothing is wrong"
	case 1:
		return ds[0].Error()
	}
	return fmt.Sprintf("%s (and %d more)", ds[0].Error(), len(ds)-1)
}
