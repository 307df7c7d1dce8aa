package save

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"
)

// # How a piece is opened
//
// The lock comes first, and everything is read after it: what was read before could
// be old already. Then the place is found, and before anybody is shown it, it is made
// sure of: a program that was killed between a write and its sync leaves a place that
// can be read and is not on disk, and a cut of the power would take back what had
// been shown. So the last segment and the folder are synced. That may be too late: a sync
// that failed before the program was killed may have left lines that can be read, never
// reach the disk, and are not brought there by another sync. Such lines are among the last
// ones, as many as a batch has at most, answers not counted: a write of more lines, these
// among them, follows only when they are on disk. Unless the second copy vouches for
// them, the last lines are therefore written once more, letter by letter. A line that is
// there twice counts once. Where they cannot be written, for the disk is full, they go
// with the next step that can, or when the piece is closed.
//
// A piece that cannot be written opens to look only, and so does one whose second copy
// is there and cannot be read: it may have a place that nothing else has. One whose place is in doubt is
// left as it is until somebody has said which place is right.

// Open opens a piece under root. A piece that is open elsewhere, that cannot be
// written, or that a newer program has worked on opens to look only, which is no
// error: the Opening says so. When the error is nil the piece must be closed.
func Open(env Env, root, id string) (*Piece, Opening, error) {
	return openWith(env, root, id, (*Piece).lockToWork)
}

// Look opens a piece to look only, whoever works it. It takes no lock and changes nothing
// on disk, and so it does not make the place sure either.
func Look(env Env, root, id string) (*Piece, Opening, error) {
	return openWith(env, root, id, func(p *Piece) { p.opening.LookOnly = "as it was asked for" })
}

func openWith(env Env, root, id string, lock func(*Piece)) (*Piece, Opening, error) {
	if !validID(id) {
		return nil, Opening{}, fmt.Errorf("%w: %q is no id", ErrNoPiece, id)
	}
	p := &Piece{env: env, id: id, dir: filepath.Join(root, id)}
	info, err := env.FS.Stat(p.dir)
	switch {
	case errors.Is(err, fs.ErrNotExist) || err == nil && !info.IsDir():
		return nil, Opening{}, fmt.Errorf("%w: %s", ErrNoPiece, id)
	case err != nil:
		return nil, Opening{}, fmt.Errorf("open the piece %s: %w", id, err)
	}
	lock(p)
	o, err := p.load()
	if err != nil {
		p.letGo()
		return nil, Opening{}, fmt.Errorf("open the piece %s: %w", id, err)
	}
	return p, o, nil
}

// TryTakeOver tries to get a piece to work that was opened to look only because it
// was open elsewhere. It returns the piece as it now is, and whether it can now be
// worked. It is cheap while nothing has changed. What fails may be tried again.
func (p *Piece) TryTakeOver() (Opening, bool, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.lock != nil || !p.opening.Held {
		return p.opening, p.lock != nil, nil
	}
	before := p.opening
	p.lockToWork()
	if p.lock == nil {
		p.opening.Held = true
		if seen, err := p.look(); err == nil && seen == p.seen {
			return p.opening, false, nil
		}
	}
	o, err := p.readAnew()
	if err != nil {
		p.letGo()
		p.opening = before
		return p.opening, false, err
	}
	if p.lock == nil && o.LookOnly != newerWords {
		p.opening.Held = true
	}
	return p.opening, p.lock != nil, nil
}

// look describes the journal files shortly, so that a change is seen.
func (p *Piece) look() (string, error) {
	names, err := p.env.FS.ReadDir(p.dir)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	for _, name := range journalNames(names) {
		info, err := p.env.FS.Stat(filepath.Join(p.dir, name))
		if err != nil {
			return "", err
		}
		fmt.Fprintf(&b, "%s %d %d\n", name, info.Size(), info.ModTime().UnixNano())
	}
	return b.String(), nil
}

// load reads the piece and makes its place sure.
func (p *Piece) load() (Opening, error) {
	p.journal.leave()
	seen, err := p.look()
	if err != nil {
		return Opening{}, err
	}
	a, err := readAccount(p.env.FS, p.dir, p.id)
	if err != nil {
		return Opening{}, err
	}
	text, same, err := a.readPattern(p.env.FS, p.dir)
	if err != nil {
		top := a.chain.top
		return Opening{}, &PatternError{Source: a.facts.source, Place: top.Place, Of: top.Of, Err: err}
	}
	o := a.opening()
	o.LookOnly, o.Held = p.opening.LookOnly, p.opening.Held
	if o.Held {
		o.Question = nil // whoever works the piece answers; to a reader it may be half a write
	}
	if !same {
		o.Notices = append(o.Notices, patternNotice)
	}
	if _, none := p.lock.(noLock); none {
		o.Notices = append(o.Notices, noLocksNotice)
	}
	p.seen, p.facts, p.text, p.saved = seen, a.facts, text, a.chain.top
	p.copied, p.stale = a.copy.vouched(), false
	p.prepare(a, &o)
	p.markOthers(o.Question)
	p.opening = o
	return o, nil
}

// prepare makes the piece ready to be worked, or open to look only.
func (p *Piece) prepare(a *account, o *Opening) {
	if p.lock == nil {
		return
	}
	switch {
	case a.scan.version > version || a.scan.foreign:
		o.LookOnly = newerWords
	case a.unread():
		o.LookOnly = copyUnreadWords + reason(a.copied)
	default:
		if err := p.makeSure(a, o); err != nil {
			o.LookOnly = reason(err)
		}
	}
	if o.LookOnly != "" {
		p.letGo()
	}
}

// makeSure brings the place to disk: see the note above.
func (p *Piece) makeSure(a *account, o *Opening) error {
	t, top := a.scan.target, a.chain.top
	next := max(p.journal.next, a.scan.highest+1, a.number()+1)
	if next > maxNumber {
		return errNoNumbers
	}
	p.journal = journal{fs: p.env.FS, dir: p.dir, seed: a.scan.seed, segment: t.number, next: next, top: top.Number}
	if t.headed {
		f, err := p.env.FS.Append(filepath.Join(p.dir, segmentName(t.number)))
		if err != nil {
			return err
		}
		j := &p.journal
		j.file, j.name, j.size, j.guard, j.headed = f, segmentName(t.number), t.size, !t.newline, true
		if err := f.Sync(); err != nil {
			j.leave()
		}
	}
	if err := p.env.FS.SyncDir(p.dir); err != nil {
		return err
	}
	if o.Question != nil {
		return nil
	}
	p.journal.owed, p.journal.adrift = a.unvouched(p.answered)
	err := p.journal.pay()
	if err != nil && !errors.Is(err, ErrChangedUnderneath) {
		// They go before the next step. The person may have to make room for both.
		o.Notices = append(o.Notices, (&notSureError{err}).Error())
		return nil
	}
	return err
}
