package save

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
)

// account is all that is read of a piece.
type account struct {
	scan   *scan
	chain  chain
	copy   *secondCopy
	copied error // why there is no copy to read
	facts  facts
	doubt  bool // about the pattern: see patternInDoubt
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
// pattern, the name, the place on the shelf and the size are those told last, be it by a record or
// by the copy: the record that told them may be lost.
func (a *account) findFacts() (f facts, ok bool) {
	now, from := facts{}, uint64(0) // of which only the pattern counts
	if a.copy != nil {
		f, ok = a.copy.facts, true
		now, from = f, a.copy.number
	}
	for _, k := range a.chain.told {
		r := a.scan.record(k)
		if r.Kind == Begun {
			f, ok = r.facts, true
			if a.copy != nil {
				f.title, f.shelf, f.made = a.copy.facts.title, a.copy.facts.shelf, a.copy.facts.made
			}
		}
		if r.Number > from {
			f.amend(r)
			now.turnTo(r)
		}
	}
	if !ok { // the first record may be off the chain, which an answer began anew
		i := slices.IndexFunc(a.scan.whole, func(r Record) bool { return r.Kind == Begun })
		if i < 0 {
			return f, false
		}
		f = a.scan.whole[i].facts
	}
	if now.pattern != "" {
		f.pattern, f.base = now.pattern, now.base
	}
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
