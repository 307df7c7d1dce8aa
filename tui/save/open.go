package save

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"bypeg/pattern/safetext"
)

// # How a piece is opened
//
// The lock comes first, and everything is read after it: what was read before could
// be old already. Then the place is found, and before anybody is shown it, it is made
// sure of: a program that was killed between a write and its sync leaves a place that
// can be read and is not on disk, and a cut of the power would take back what had
// been shown. So the journal and its folder are synced. Where the last record does
// not lie in the last segment, a sync has failed before; that file cannot be made
// sure of any more, and the record is written again into the last segment.
//
// A piece that cannot be written opens to look only. One whose place is in doubt is
// left as it is until somebody has said which place is right.

// Open opens a piece under root. A piece that is open elsewhere, that cannot be
// written, or that a newer program has worked on opens to look only, which is no
// error: the Opening says so. When the error is nil the piece must be closed.
func Open(env Env, root, id string) (*Piece, Opening, error) {
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
	p.lockToWork()
	o, err := p.load()
	if err != nil {
		p.letGo()
		return nil, Opening{}, fmt.Errorf("open the piece %s: %w", id, err)
	}
	return p, o, nil
}

// TryTakeOver tries to get a piece to work that was opened to look only because it
// was open elsewhere. It returns the piece as it now is, and whether it can now be
// worked. It is cheap while nothing has changed.
func (p *Piece) TryTakeOver() (Opening, bool, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.lock != nil || !p.opening.Held {
		return p.opening, p.lock != nil, nil
	}
	p.lockToWork()
	if p.lock == nil {
		if seen, err := p.look(); err == nil && seen == p.seen {
			return p.opening, false, nil
		}
	}
	o, err := p.load()
	if err != nil {
		p.letGo()
		return p.opening, false, err
	}
	return o, p.lock != nil, nil
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

// account is all that is read of a piece.
type account struct {
	scan   *scan
	chain  chain
	copy   *secondCopy
	copied error // why there is no copy to read
	facts  facts
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
	text, same, err := readPattern(p.env.FS, p.dir, a.facts.pattern)
	if err != nil {
		top := a.chain.top()
		return Opening{}, fmt.Errorf("the kept pattern is needed to go on; the place is %s: %w",
			placeWords(top.Place, top.Of), err)
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
	p.seen, p.facts, p.text, p.saved = seen, a.facts, text, a.chain.top()
	p.copied = 0
	if a.copy != nil {
		p.copied = a.copy.number
	}
	p.prepare(a, &o)
	p.opening = o
	return o, nil
}

// prepare makes the piece ready to be worked, or open to look only.
func (p *Piece) prepare(a *account, o *Opening) {
	if p.lock == nil {
		return
	}
	if a.scan.version > version || a.scan.foreign {
		o.LookOnly = "last worked with a newer version of the program"
	} else if err := p.makeSure(a, o.Question != nil); err != nil {
		o.LookOnly = reason(err)
	}
	if o.LookOnly != "" {
		p.letGo()
	}
}

// makeSure brings the place to disk: see the note above.
func (p *Piece) makeSure(a *account, asked bool) error {
	t, top := a.scan.target, a.chain.top()
	next := max(p.journal.next, a.scan.highest+1, a.number()+1)
	p.journal = journal{fs: p.env.FS, dir: p.dir, seed: a.scan.seed, segment: t.number, next: next, top: top.Number}
	sure := false
	if t.headed {
		f, err := p.env.FS.Append(filepath.Join(p.dir, segmentName(t.number)))
		if err != nil {
			return err
		}
		j := &p.journal
		j.file, j.name, j.size, j.guard, j.headed = f, segmentName(t.number), t.size, !t.newline, true
		if err := f.Sync(); err != nil {
			j.leave()
		} else {
			sure = t.top
		}
	}
	if err := p.env.FS.SyncDir(p.dir); err != nil {
		return err
	}
	if sure || asked {
		return nil
	}
	p.journal.top = top.Prev
	again := []Record{top}
	if err := p.journal.append(again); err != nil {
		return err
	}
	p.saved = again[0]
	return nil
}

// number is that of the second copy, 0 where there is none.
func (a *account) number() uint64 {
	if a.copy == nil {
		return 0
	}
	return a.copy.number
}

// readAccount reads all that a piece has of its place. That a file is there and
// cannot be read is an error; that it is damaged is not, as long as a place is found.
func readAccount(fsys FS, dir, id string) (*account, error) {
	names, err := fsys.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	a := &account{}
	if a.scan, err = scanJournal(fsys, dir, id, names); err != nil {
		return nil, err
	}
	a.chain = follow(a.scan.records)
	a.copy, a.copied = readCopy(fsys, dir, a.scan.seed)
	if len(a.scan.records) == 0 && a.copy == nil {
		return nil, a.nothing()
	}
	var ok bool
	if a.facts, ok = a.findFacts(); !ok {
		top := a.chain.top()
		return nil, fmt.Errorf("%w: its place is %s, but what was begun can't be read: mend the first lines of the journal",
			ErrUnreadable, placeWords(top.Place, top.Of))
	}
	return a, nil
}

// nothing says why there is no place at all.
func (a *account) nothing() error {
	s := a.scan
	switch {
	case a.copied != nil && !errors.Is(a.copied, errCopyDamaged):
		return a.copied
	case s.foreign || s.version > version:
		return fmt.Errorf("%w: it was worked with a newer version of the program", ErrUnreadable)
	case a.copied == nil && len(s.atEnd) == 0 && s.tail <= firstWrite:
		return ErrNeverBegun
	}
	return fmt.Errorf("%w: the bytes are kept as they are, and the work is not taken to be at row 1", ErrUnreadable)
}

// findFacts finds what the piece is: the first record says it, or the second copy.
func (a *account) findFacts() (f facts, ok bool) {
	if a.copy != nil {
		f, ok = a.copy.facts, true
	}
	for _, r := range a.chain.kept {
		switch r.Kind {
		case Begun:
			f, ok = r.facts, true
		case PatternChanged:
			f.pattern = r.facts.pattern
		}
	}
	return f, ok
}

// opening tells the account to a person.
func (a *account) opening() Opening {
	top := a.chain.top()
	o := Opening{Place: top.Place, Of: top.Of, Time: top.Time, History: a.chain.kept}
	for i, r := range o.History {
		if r.Text != "" {
			o.History[i].Text = safetext.Clean(r.Text)
		}
	}
	if a.scan.torn {
		o.Notices = append(o.Notices, tornNotice)
	}
	if words := unreadNotice(a.chain.holes+a.scan.mangled, a.scan.lines); words != "" {
		o.Notices = append(o.Notices, words)
	}
	if a.copied != nil {
		o.Notices = append(o.Notices, copyDamagedNotice)
	}
	o.Question = ask(a.scan, a.chain, a.copy)
	return o
}
