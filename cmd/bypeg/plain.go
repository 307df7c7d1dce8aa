package main

import (
	"errors"
	"fmt"
	"runtime/debug"
	"strings"
	"time"

	"bypeg/examples"
	"bypeg/pattern/safetext"
	"bypeg/tui"
	"bypeg/tui/plain"
)

// slowDisk is how long a disk may take before it is said that it has not answered.
const slowDisk = 2 * time.Second

// canWork is the error of a piece that is to be worked on a screen without a terminal. A
// talk needs none, and on a terminal that only prints there is a talk unasked.
func (p *program) canWork(hint string) error {
	if p.flags.plain {
		return nil
	}
	err := p.needTerminal(hint)
	p.flags.plain = err == nil && p.dumb()
	return err
}

// work works a piece on the screen, or in a talk.
func (p *program) work(first func(*tui.Desk) (*tui.Opened, error)) error {
	if !p.flags.plain {
		return p.screen(first)
	}
	p.tellTrouble()
	desk := p.desk()
	o, err := first(desk)
	if err != nil {
		return p.unopened(err)
	}
	end, err := p.talk(desk, o)
	return p.farewell(desk, end, err)
}

// talk works a piece line by line until its maker leaves or a signal comes.
func (p *program) talk(desk *tui.Desk, o *tui.Opened) (end ending, err error) {
	ctx, done := untilSignal()
	defer done()
	defer func() {
		if r := recover(); r != nil {
			end.crash = &tui.Crash{Reason: fmt.Sprint(r), Stack: debug.Stack()}
		}
	}()
	options := plain.Options{Slow: slowDisk, WrapAhead: p.chosen.settings.WrapAhead}
	if isTerminal(p.in) {
		options.Now = time.Now // what a script does is nobody's pace
	}
	err = tui.Talk(desk, o, plain.NewConsole(ctx, p.in, p.out, p.printer()), options)
	end.signal = signalOf(ctx)
	return end, err
}

// printer is what a talk needs to know of where its lines go.
func (p *program) printer() plain.Terminal {
	var to plain.Terminal
	if isTerminal(p.out) {
		to.Width = p.width
		if isTerminal(p.in) {
			to.Prompt = "> "
		}
	}
	return to
}

// sayOnce says what is to be done now on a piece in progress. It begins nothing and
// changes nothing.
func (p *program) sayOnce(args []string) error {
	p.tellTrouble()
	desk := p.desk()
	o, err := p.lookAt(desk, args)
	if err != nil {
		return p.unopened(err)
	}
	defer desk.Close()
	ctx, done := untilSignal()
	defer done()
	return written(tui.Look(desk, o, plain.NewConsole(ctx, strings.NewReader(""), p.out, p.printer()), plain.Options{WrapAhead: p.chosen.settings.WrapAhead}))
}

// lookAt opens the piece begun from a pattern, or the one worked last, to look only.
func (p *program) lookAt(desk *tui.Desk, args []string) (*tui.Opened, error) {
	if p.flags.finished {
		piece, err := p.offLoom(desk, args[0])
		if err != nil {
			return nil, err
		}
		return desk.Look(piece.ID)
	}
	if len(args) == 0 {
		id, ok, err := desk.Last()
		switch {
		case err != nil:
			return nil, err
		case !ok:
			return nil, &failure{exitWrong, errors.New("no piece is in progress"), "begin one: bypeg work " + examples.Names()[0]}
		}
		return desk.Look(id)
	}
	name := args[0]
	kept, missing, err := keptUnder(name)
	if err != nil {
		return nil, err
	}
	id, found, err := desk.Find(kept)
	switch {
	case err != nil:
		return nil, err
	case found:
		return desk.Look(id)
	case missing != nil:
		return nil, missing
	}
	name = safetext.Clean(name)
	return nil, &failure{exitWrong, fmt.Errorf("no piece of %s is in progress", name), "bypeg work " + name + " --plain begins one"}
}
