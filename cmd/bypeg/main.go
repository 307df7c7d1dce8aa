// Command bypeg keeps the place in a piece on a peg loom, row by row and peg by peg,
// and draws, checks and writes out its pattern. One file a command; the rest is
// directories, signals and the terminal. All logic lives in the packages it calls.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"

	"bypeg/pattern/safetext"
	_ "bypeg/tui/darkbg" // keeps the terminal from being questioned at start-up
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

// run is the whole program: its result is the exit code.
func run(args []string, stdin, stdout, stderr *os.File) int {
	p := &program{in: stdin, out: stdout, err: stderr, getenv: os.Getenv}
	root := newRoot(p)
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	if err := root.Execute(); err != nil {
		return p.fail(err)
	}
	return exitDone
}

// program is what every command has: the streams, the environment, and the flags
// that all share.
type program struct {
	in, out, err *os.File
	getenv       func(string) string
	flags        flags
	chosen       chosen
	begin        begin
}

// Exit codes.
const (
	exitDone  = 0   // done
	exitWrong = 1   // the input is wrong, or the answer is no
	exitUsage = 2   // used wrongly, or no terminal where one is needed
	exitIO    = 3   // could not read or write
	exitBug   = 70  // a bug in this program
	exitBreak = 128 // plus the signal's number: ended by a signal
)

// failure is an error with its exit code and what to do about it.
type failure struct {
	code int
	err  error // nil where all has been said
	hint string
}

func (f *failure) Error() string {
	if f.err == nil {
		return ""
	}
	return f.err.Error()
}

func (f *failure) Unwrap() error { return f.err }

func usage(hint, format string, args ...any) error {
	return &failure{exitUsage, fmt.Errorf(format, args...), hint}
}

// fail tells an error and gives its exit code. What comes from cobra is wrong usage.
func (p *program) fail(err error) int {
	f := &failure{}
	if !errors.As(err, &f) {
		if m := noNumber.FindStringSubmatch(err.Error()); m != nil {
			err = fmt.Errorf(`%s takes a number, and "%s" is none`, m[2], m[1])
		}
		f = &failure{exitUsage, err, "bypeg --help lists the commands and flags"}
	}
	if f.err != nil {
		say(p.err, "error", f.Error())
	}
	if f.hint != "" {
		say(p.err, "hint", f.hint)
	}
	return f.code
}

// noNumber is how cobra says that a flag's value is no number.
var noNumber = regexp.MustCompile(`^invalid argument "(.*)" for "(?:-\w, )?(--[\w-]+)" flag: strconv\.Parse(?:Int|Float)`)

// say writes a message that may have several lines. It is cleaned: it may quote what
// was typed, or a path.
func say(w io.Writer, kind, text string) {
	for line := range strings.Lines(text) {
		fmt.Fprintf(w, "bypeg: %s: %s\n", kind, safetext.Clean(strings.TrimRight(line, "\n")))
	}
}
