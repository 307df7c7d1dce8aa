package save

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
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

// account is all that is read of a piece.
type account struct {
	scan   *scan
	chain  chain
	copy   *secondCopy
	copied error // why there is no copy to read
	facts  facts
	doubt  bool // about the pattern: see patternInDoubt
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

// unvouched are the lines of the last records that may not be on disk, and the number of
// the first of them: see the note above. An answer that was saved just now is not among
// them.
func (a *account) unvouched(answer uint64) (lines []byte, first uint64) {
	from, steps := len(a.chain.kept), 0
	for from > 0 && steps < MaxBatch && a.chain.kept[from-1].number > a.copy.vouched() {
		from--
		if !a.scan.isHere(a.chain.kept[from]) {
			steps++
		}
	}
	for _, k := range a.since(from) {
		if k.number == answer {
			continue
		}
		lines = append(append(lines, a.scan.lineOf(k)...), '\n')
		if first == 0 || k.number < first {
			first = k.number
		}
	}
	return lines, first
}

// since are the records of the chain from the given one on, and those of the tries before
// them that failed: of a try of which only the end were left nobody could tell any more
// what it is.
func (a *account) since(from int) []link {
	last := a.chain.kept[from:]
	if len(last) == 0 || len(a.chain.kept) == len(a.scan.links) {
		return last
	}
	on := make(map[link]bool, len(last))
	for _, k := range last {
		on[k] = true
	}
	low := a.chain.settled
	if from > 0 {
		low = max(low, a.chain.kept[from-1].number)
	}
	var all []link
	for _, k := range a.scan.links {
		if on[k] || k.number > low {
			all = append(all, k)
		}
	}
	return all
}

// unread tells whether the second copy is there and its bytes could not be had, so that
// nobody knows what it has.
func (a *account) unread() bool { return a.copied != nil && !errors.Is(a.copied, errCopyDamaged) }

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
	a.chain = follow(a.scan.ledger)
	a.copy, a.copied = readCopy(fsys, dir, a.scan.seed)
	if len(a.scan.links) == 0 && a.copy == nil {
		return nil, a.nothing()
	}
	var ok bool
	if a.facts, ok = a.findFacts(); !ok {
		top := a.chain.top
		return nil, fmt.Errorf("%w: its place is %s, but what was begun can't be read: mend the first lines of the journal",
			ErrUnreadable, placeWords(top.Place, top.Of))
	}
	a.doubt = a.patternInDoubt(names)
	return a, nil
}

// nothing says why there is no place at all.
func (a *account) nothing() error {
	s := a.scan
	switch {
	case a.unread():
		return a.copied
	case s.foreign || s.version > version:
		return fmt.Errorf("%w: it was worked with a newer version of the program", ErrUnreadable)
	case a.copied == nil && len(s.atEnd) == 0 && s.tail <= firstWrite:
		return ErrNeverBegun
	}
	return fmt.Errorf("%w: the bytes are kept as they are, and the work is not taken to be at row 1", ErrUnreadable)
}

// findFacts finds what the piece is: the first record says it, or the second copy. The
// pattern, the name and the place on the shelf are those told last, be it by a record or
// by the copy: the record that told them may be lost.
func (a *account) findFacts() (f facts, ok bool) {
	mark, from := "", uint64(0)
	if a.copy != nil {
		f, ok = a.copy.facts, true
		mark, from = f.pattern, a.copy.number
	}
	for _, k := range a.chain.told {
		r := a.scan.record(k)
		if r.Kind == Begun {
			f, ok = r.facts, true
			if a.copy != nil {
				f.title, f.shelf = a.copy.facts.title, a.copy.facts.shelf
			}
		}
		if r.Number > from {
			f.amend(r)
		}
		if r.facts.pattern != "" && r.Number > from {
			mark = r.facts.pattern
		}
	}
	if !ok { // the first record may be off the chain, which an answer began anew
		i := slices.IndexFunc(a.scan.whole, func(r Record) bool { return r.Kind == Begun })
		if i < 0 {
			return f, false
		}
		f = a.scan.whole[i].facts
	}
	f.pattern = cmp.Or(mark, f.pattern)
	return f, true
}

// readPattern reads the pattern text, and tells whether it is as it was kept. Where the
// one named last is gone, the one named before it is better than no work at all; the piece
// still goes by the name of the last one, which may be put back.
func (a *account) readPattern(fsys FS, dir string) (text []byte, same bool, err error) {
	text, same, err = readPattern(fsys, dir, a.facts.pattern)
	for _, k := range slices.Backward(a.chain.told) {
		if !errors.Is(err, fs.ErrNotExist) {
			break
		}
		if mark := a.scan.pattern(k); mark != "" && mark != a.facts.pattern {
			text, _, err = readPattern(fsys, dir, mark)
		}
	}
	return text, same, err
}

// patternInDoubt tells whether the pattern may have been changed by a record that
// cannot be read: there is a hole, and a kept pattern that nothing names.
func (a *account) patternInDoubt(names []string) bool {
	if a.chain.holes == 0 || a.number() >= a.chain.top.Number {
		return false
	}
	known := map[string]bool{patternName(a.facts.pattern): true}
	for _, r := range a.scan.whole {
		known[patternName(r.facts.pattern)] = true
	}
	return slices.ContainsFunc(names, func(name string) bool {
		mark := strings.TrimSuffix(strings.TrimPrefix(name, "pattern-"), ".toml")
		return isMark(mark) && patternName(mark) == name && !known[name]
	})
}

// opening tells the account to a person.
func (a *account) opening() Opening {
	top := a.chain.top
	o := Opening{Place: top.Place, Of: top.Of, Time: top.Time, History: History{a.scan.ledger, a.chain.kept}}
	if a.scan.torn {
		o.Notices = append(o.Notices, tornNotice)
	}
	if words := unreadNotice(a.chain.holes+a.scan.mangled, a.scan.lines); words != "" {
		o.Notices = append(o.Notices, words)
	}
	if a.doubt {
		o.Notices = append(o.Notices, patternDoubtNotice)
	}
	switch {
	case a.unread():
		o.Notices = append(o.Notices, copyUnreadNotice)
	case a.copied != nil:
		o.Notices = append(o.Notices, copyDamagedNotice)
	}
	o.Question = ask(a.scan, a.chain, a.copy, a.facts.pattern)
	return o
}
