package file

import (
	"fmt"

	"bypeg/pattern/safetext"
)

// maxFindings is how many errors of one file are told. A file with more is no pattern
// file, or has one fault that is the mother of all. With warnings and notes it may be
// twice as many.
const maxFindings = 100

// report collects what is found in a file.
type report struct {
	src    *safetext.Source
	text   string
	list   safetext.Diagnostics
	seen   map[finding]bool
	failed bool // an error is among them
	errors int
}

// finding is what makes two diagnostics the same.
type finding struct {
	at  span
	msg string
}

func newReport(name, text string) *report {
	return &report{src: safetext.NewSource(name, text), text: text, seen: map[finding]bool{}}
}

func (r *report) add(severity safetext.Severity, at span, hint, msg string) {
	if severity == safetext.Error {
		r.failed = true
	}
	f := finding{at, msg}
	if r.seen[f] || len(r.list) >= 2*maxFindings || severity == safetext.Error && r.full() {
		return
	}
	if severity == safetext.Error {
		r.errors++
	}
	r.seen[f] = true
	r.list = append(r.list, r.src.At(at.start, at.end, severity, msg, hint))
}

// full tells whether there are so many errors that no more will be told.
func (r *report) full() bool { return r.errors >= maxFindings }

func (r *report) errorf(at span, hint, format string, args ...any) {
	r.add(safetext.Error, at, hint, fmt.Sprintf(format, args...))
}

func (r *report) warnf(at span, hint, format string, args ...any) {
	r.add(safetext.Warning, at, hint, fmt.Sprintf(format, args...))
}

func (r *report) notef(at span, hint, format string, args ...any) {
	r.add(safetext.Note, at, hint, fmt.Sprintf(format, args...))
}

// sorted is all that was found, in the order of the file.
func (r *report) sorted() safetext.Diagnostics {
	r.list.Sort()
	return r.list
}
