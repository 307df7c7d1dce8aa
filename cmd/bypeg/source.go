package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
	"bypeg/tui"
)

// source finds a pattern by what a person calls it: a file where there is one of that
// path, else an example.
func source(name string) (tui.Source, error) {
	text, err := file.Read(name)
	if err == nil {
		path, err := filepath.Abs(name)
		if err != nil {
			return tui.Source{}, &failure{exitIO, err, ""}
		}
		return tui.Source{Name: path, Shown: name, Text: text}, nil
	}
	if text, ok := exampleNamed(name); ok && errors.Is(err, fs.ErrNotExist) {
		return tui.Source{Name: name, Shown: name, Text: text}, nil
	}
	f := &failure{code: exitIO, err: err}
	if errors.Is(err, fs.ErrNotExist) {
		f.hint = "the examples are " + strings.Join(examples.Names(), ", ")
		if near := safetext.Nearest(name, examples.Names()); near != "" {
			f.hint = "did you mean the example " + near + "?"
		}
	}
	return tui.Source{}, f
}

// load reads a pattern for a command, as this maker works it. What is wrong with it
// has been told when it comes back as an error.
func (p *program) load(name string) (pattern.Order, error) {
	src, err := source(name)
	if err != nil {
		return pattern.Order{}, err
	}
	p.tellTrouble()
	return p.loadSource(src)
}

// loadSource is load for a source that was found.
func (p *program) loadSource(src tui.Source) (pattern.Order, error) {
	if err := notWritten(src); err != nil {
		return pattern.Order{}, err
	}
	pat, diags := file.Load(src.Shown, src.Text)
	if pat == nil {
		p.tell(diags)
		return pattern.Order{}, &failure{code: exitWrong}
	}
	_, w := p.chosen.settings.Way(&pat.Design)
	return pattern.Order{Pattern: pat, Way: w}, nil
}

// notWritten is the error of a text that holds written rows where a pattern is wanted.
func notWritten(src tui.Source) error {
	if file.IsPattern(src.Shown, src.Text) || !saysRows(string(src.Text)) {
		return nil
	}
	name := safetext.Clean(src.Shown)
	made := strings.TrimSuffix(filepath.Base(name), filepath.Ext(name)) + ".toml"
	return &failure{exitWrong, fmt.Errorf("%s looks like written rows, and a pattern is wanted here", name),
		"make one of them: bypeg adopt " + name + " -o " + made}
}

// rowHead begins a written row: "Row 1", "Rnds 2-4", "Cast on 12".
var rowHead = regexp.MustCompile(`(?im)^\W*(?:(?:rows?|rounds?|rnds?)\s*\d|cast[ -]on\s+\d)`)

// saysRows tells whether a text has written rows, be they right or wrong.
func saysRows(text string) bool {
	if rowHead.MatchString(text) {
		return true
	}
	read, err := rowtext.Read(text, rowtext.Options{})
	return err == nil && len(read.Rows) > 0
}
