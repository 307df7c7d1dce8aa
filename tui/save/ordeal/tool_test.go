package ordeal_test

import (
	"errors"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/tui/save"
)

// sharedLife is the life of a piece in a folder that a tool puts older files back into.
type sharedLife struct {
	*life
	shown pattern.Place       // the last place that was shown as saved, or was answered
	last  pattern.Place       // the last one worked
	older []map[string][]byte // the files that the tool has, by name
}

func (l *sharedLife) path(name string) string { return filepath.Join(root, l.w.id, name) }

// keep lets the tool have the files as they are.
func (l *sharedLife) keep() {
	files := make(map[string][]byte)
	names, err := l.w.disk.Clone().ReadDir(l.path(""))
	must(err)
	for _, name := range names {
		if strings.HasPrefix(name, "journal") {
			text, err := l.w.disk.ReadFile(l.path(name))
			must(err)
			files[name] = text
		}
	}
	l.older = append(l.older, files)
}

// putBack lets the tool put older files back, and the next step find it out.
func (l *sharedLife) putBack() error {
	files := l.older[l.upTo(len(l.older), "older files")]
	for _, name := range slices.Sorted(maps.Keys(files)) {
		l.w.disk.WriteFile(l.path(name), files[name])
	}
	return l.step()
}

// there tells whether the place that was shown can be found by a person: it is the place,
// a choice, in the history, or they are told that it is in memory only.
func (l *sharedLife) there(o save.Opening) bool {
	found := o.Place == l.shown ||
		o.Question != nil && slices.ContainsFunc(o.Question.Choices, func(c save.Choice) bool { return c.Place == l.shown }) ||
		slices.ContainsFunc(o.Notices, func(s string) bool { return strings.Contains(s, save.ErrCopyBehind.Error()) })
	for r := range o.History.All() {
		found = found || r.Place == l.shown || slices.Contains(r.Instead, l.shown)
	}
	return found
}

// see is what a person sees of the piece, and how they answer: not at all, now and then.
func (l *sharedLife) see(p *save.Piece, o save.Opening) error {
	l.w.piece = p
	if !l.there(o) {
		return brokenf("LOST: %v is nowhere; the place is %v, asked %v, told %q", l.shown, o.Place, o.Question, o.Notices)
	}
	if o.Question == nil {
		l.shown = o.Place
		return nil
	}
	switch l.upTo(6, "no answer") {
	case 0:
		_ = p.Close()
		return l.open()
	case 1:
		return l.kill()
	}
	return l.answer(p, o.Question.Choices[l.upTo(len(o.Question.Choices), "choice")])
}

func (l *sharedLife) answer(p *save.Piece, c save.Choice) error {
	for range 3 {
		o, err := p.Settle(c)
		if err != nil {
			continue
		}
		if o.Question != nil || o.Place != c.Place {
			return brokenf("ANSWER: %v became %v, asked %v", c, o.Place, o.Question)
		}
		if !l.there(o) {
			return brokenf("NOT CHOSEN: %v is nowhere", l.shown)
		}
		l.shown = c.Place
		return nil
	}
	return l.kill()
}

// open opens the piece, and tries until it can be worked.
func (l *sharedLife) open() error {
	try := func() error {
		p, o, err := save.Open(l.w.env, root, l.w.id)
		switch {
		case err != nil:
			return err
		case o.LookOnly != "":
			return errors.Join(errors.New(o.LookOnly), p.Close())
		}
		return l.see(p, o)
	}
	for range 3 {
		if err := try(); err == nil || errors.As(err, new(broken)) {
			return err
		}
	}
	return l.calmly(func() error { return asBroken("open", try()) })
}

func (l *sharedLife) kill() error {
	l.goOnAs(l.w.killed())
	return l.open()
}

// step works a place that was never worked before.
func (l *sharedLife) step() error {
	l.last = pattern.Place{Phase: pattern.Working, Row: l.last.Row + 1, Done: 1}
	for range 3 {
		err := l.w.piece.Append([]save.Step{{Kind: save.Forward, Place: l.last, Of: 26}})
		switch {
		case err == nil:
			l.shown = l.last
			return nil
		case errors.Is(err, save.ErrChangedUnderneath), errors.Is(err, save.ErrLookOnly), errors.Is(err, save.ErrUnanswered):
			return l.reread()
		}
	}
	return l.kill()
}

// reread reads the piece anew, as the program does; where it cannot it tries again.
func (l *sharedLife) reread() error {
	for range 3 {
		o, err := l.w.piece.Reread()
		if err == nil && o.LookOnly == "" {
			return l.see(l.w.piece, o)
		}
	}
	return l.calmly(func() error {
		o, err := l.w.piece.Reread()
		if err != nil || o.LookOnly != "" {
			return brokenf("READ ANEW: %v %s", err, o.LookOnly)
		}
		return l.see(l.w.piece, o)
	})
}

func (l *sharedLife) work() error {
	switch l.upTo(13, "what happens") {
	case 0, 1, 2, 3, 4, 5:
		return l.step()
	case 6:
		l.keep()
		return nil
	case 7, 8:
		return l.putBack()
	case 9:
		return l.kill()
	case 10:
		_ = l.w.piece.Close()
		return l.open()
	}
	return l.reread()
}

// Whatever older journals a tool puts back while the piece is worked, and whatever calls
// fail then: a place that was shown as saved is there, or is offered, or was put aside by an
// answer; or else it is told that it is in memory only.
func TestWhateverIsPutBackAPlaceThatWasShownIsFound(t *testing.T) {
	for range lives() {
		rapid.Check(t, func(t *rapid.T) {
			l := &sharedLife{life: newLife(t), shown: pattern.Start(), last: pattern.Start()}
			l.faults = min(l.faults, 2)
			l.keep()
			for range rapid.IntRange(4, 18).Draw(t, "how much happens") {
				if err := l.work(); err != nil {
					t.Fatal(err)
				}
			}
		})
	}
}
