package main

import (
	"fmt"

	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// underWay is the maker's piece of a pattern, by the name of its source: what it is made
// after by now, in which order, and where it stands. It looks only: no lock is taken and
// nothing is written. found is false where no such piece is on the loom.
func (p *program) underWay(source string) (piece track.Piece, found bool, err error) {
	desk := p.desk()
	id, found, err := desk.Find(source)
	if err == nil && found {
		o, looked := desk.Look(id)
		if err = looked; err == nil {
			defer desk.Close()
			return desk.Start(o), true, nil
		}
	}
	if err != nil {
		return piece, false, &failure{exitIO, fmt.Errorf("the piece can't be looked at: %s", safetext.Clean(err.Error())), ""}
	}
	return piece, false, nil
}
