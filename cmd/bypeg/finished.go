package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"bypeg/pattern/safetext"
	"bypeg/tui"
)

// keptUnder is the name that the pieces of a pattern are kept under. Where its file is gone
// they have copies of their own, and missing says why it can't be read.
func keptUnder(name string) (kept string, missing, err error) {
	src, missing := source(name)
	switch {
	case missing == nil:
		return src.Name, nil, nil
	case !errors.Is(missing, fs.ErrNotExist):
		return "", nil, missing
	}
	path, err := filepath.Abs(name)
	if err != nil {
		return "", nil, missing
	}
	return path, missing, nil
}

// offLoom is the last finished piece of a pattern.
func (p *program) offLoom(desk *tui.Desk, name string) (*tui.OffLoom, error) {
	source, missing, err := keptUnder(name)
	if err != nil {
		return nil, err
	}
	piece, err := desk.Finished(source)
	switch {
	case err != nil:
		return nil, &failure{exitIO, errors.New(safetext.Clean(err.Error())), "bypeg alone lists your pieces"}
	case piece != nil:
		return piece, nil
	case missing != nil:
		return nil, missing
	}
	name = safetext.Clean(name)
	return nil, &failure{exitWrong, fmt.Errorf("no piece of %s is off the loom", name), "bind it off first: bypeg work " + name}
}

// checkFinished refuses what does not go with --finished.
func (p *program) checkFinished(args []string) error {
	switch {
	case !p.flags.finished:
	case len(args) == 0:
		return usage("bypeg work quay-mat --finished", "--finished takes the FILE that the piece was begun from")
	case p.begin != begin{}:
		return usage("leave --finished out to begin a piece", "--finished opens a piece again: --on-loom, --pegs and --new are for a new one")
	}
	return nil
}

// workFinished opens the last finished piece of a pattern again.
func (p *program) workFinished(name string) error {
	if err := p.canWork("bypeg work " + safetext.Clean(name) + " --finished --plain leads through its finishing line by line"); err != nil {
		return err
	}
	return p.work(func(d *tui.Desk) (*tui.Opened, error) {
		piece, err := p.offLoom(d, name)
		if err != nil {
			return nil, err
		}
		return d.Open(piece.ID)
	})
}
