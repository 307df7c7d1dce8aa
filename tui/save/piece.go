package save

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// Env is what the package takes from outside.
type Env struct {
	FS     FS
	Now    func() time.Time
	NewID  func() string // a new id for each call: 1 to 64 of a-z, 0-9, '-', '_'
	Holder string        // who holds a lock, in words: "pid 4711, /dev/pts/3"
}

// System is the Env of the machine.
func System(holder string) Env {
	newID := func() string { return strings.ToLower(rand.Text())[:16] }
	return Env{FS: OS{}, Now: time.Now, NewID: newID, Holder: holder}
}

// New is what a piece is begun with.
type New struct {
	Title       string
	Source      string // the example's name or the file's path, as given
	PatternText []byte
	Hand        pattern.Hand
	Way         pattern.Way
	Of          int           // stitches of the place's row, or loops of the cast-on; 0 where not known
	At          pattern.Place // where the work stands already
	Pegs        int           // the count that the maker chose in place of the pattern's; 0 for none
}

// Piece is a piece on disk. Its methods may be called from any goroutine; one that
// saves may wait for the disk, and the others then wait with it.
type Piece struct {
	env Env
	dir string
	id  string

	mu        sync.Mutex
	lock      io.Closer // nil: open to look only
	journal   journal
	facts     facts
	text      []byte  // of the pattern
	saved     Record  // the last one that is saved
	opening   Opening // as last read
	copied    uint64  // up to which number place.toml vouches for the journal
	sinceCopy int     // steps saved since place.toml was written
	answered  uint64  // the number of the answer that was saved here last
	mine      *mine   // what was saved here before the file was changed; nil mostly
	stale     bool    // the file was changed, and what it is now could not be read yet
	seen      string  // the journal files as last read, for TryTakeOver
}

// nameLimit is how many bytes a title or source may have.
const nameLimit = 4 << 10

// firstWrite is more than the making of a piece leaves in its journal when it is cut
// short: a header and one record. Only names of many hundreds of letters make it more,
// and then what is left counts as damage, which errs on the safe side.
const firstWrite = 2 << 10

// validID tells whether an id can be a folder's name and nothing else.
func validID(id string) bool {
	const chars = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_"
	return id != "" && len(id) <= 64 && strings.Trim(id, chars) == ""
}

// Begin makes a piece under root. When it returns
// without an error the piece is on disk and locked; it must be closed. When it returns
// an error there is no piece.
func Begin(env Env, root string, n New) (*Piece, error) {
	if len(n.Title) > nameLimit || len(n.Source) > nameLimit {
		return nil, fmt.Errorf("a title or a source may have %d bytes: make it shorter", nameLimit)
	}
	p := &Piece{env: env, id: env.NewID()}
	if !validID(p.id) {
		return nil, fmt.Errorf("%q is no id for a piece", p.id)
	}
	p.dir = filepath.Join(root, p.id)
	if err := p.makeFolder(root); err != nil {
		return nil, &notBegunError{err}
	}
	if err := p.begin(root, n); err != nil {
		p.unmake(n, err)
		return nil, &notBegunError{err}
	}
	return p, nil
}

func (p *Piece) makeFolder(root string) error {
	if err := makeDirs(p.env.FS, root); err != nil {
		return err
	}
	return p.env.FS.Mkdir(p.dir)
}

func (p *Piece) begin(root string, n New) error {
	fsys := p.env.FS
	if err := fsys.SyncDir(root); err != nil {
		return err
	}
	if err := p.takeLock(); err != nil {
		return err
	}
	mark, err := keepPattern(fsys, p.dir, n.PatternText)
	if err != nil {
		return err
	}
	p.journal = journal{fs: fsys, dir: p.dir, seed: p.id, next: 1}
	f := facts{title: n.Title, source: n.Source, hand: n.Hand, way: n.Way, pattern: mark, pegs: n.Pegs}
	first := []Record{{Kind: Begun, Time: p.env.Now(), Place: n.At, Of: n.Of, facts: f}}
	if err := p.journal.append(first); err != nil {
		return err
	}
	p.facts, p.text, p.saved = f, n.PatternText, first[0]
	_ = p.bringCopy() // tried again when it is next due
	return nil
}

// unmake takes away what a Begin that failed has made, by name: nobody has been told
// that the piece is there. Where something else has been at the folder, or the journal
// cannot be taken away for good, all stays. The lock is held for as long as there is a
// journal, so that nobody opens the piece meanwhile.
func (p *Piece) unmake(n New, why error) {
	defer p.letGo()
	fsys := p.env.FS
	remove := func(name string) error {
		err := fsys.Remove(filepath.Join(p.dir, name))
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		return err
	}
	p.journal.leave()
	if errors.Is(why, ErrChangedUnderneath) || remove(segmentName(1)) != nil || fsys.SyncDir(p.dir) != nil {
		return
	}
	// What cannot be taken away now is a folder without a place: see ErrNeverBegun.
	_ = remove(patternTemp)
	_ = remove(patternName(patternMark(n.PatternText)))
	p.letGo()
	_ = remove(lockName)
	_ = fsys.Remove(p.dir) // it stays where it is not empty
}

// lockName is the name of the file that is held while the piece is worked.
const lockName = "lock"

// takeLock takes the lock. Where the file system has none to give, the check of the
// journal's size and identity on every step is what is left.
func (p *Piece) takeLock() error {
	path := filepath.Join(p.dir, lockName)
	if _, err := mustBeRegular(p.env.FS, path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	holder := fmt.Sprintf("%s, since %s", p.env.Holder, p.env.Now().Format(minuteFormat))
	lock, err := p.env.FS.Lock(path, holder)
	if errors.Is(err, errors.ErrUnsupported) {
		p.lock = noLock{}
		return nil
	}
	if err != nil {
		return err
	}
	p.lock = lock
	return nil
}

// noLock stands for the lock that a file system cannot give.
type noLock struct{}

func (noLock) Close() error { return nil }

// letGo closes the journal and gives the lock back. Nothing that is saved depends on
// either.
func (p *Piece) letGo() {
	p.journal.leave()
	if p.lock != nil {
		_ = p.lock.Close()
		p.lock = nil
	}
}

// ID is the name of the piece's folder.
func (p *Piece) ID() string { return p.id }

// Title is the name that the piece was given, or else the pattern's title when it was
// begun, safe to show.
func (p *Piece) Title() string { return safetext.Clean(p.fact().title) }

// Source is the example or file that the piece was begun from, safe to show.
func (p *Piece) Source() string { return safetext.Clean(p.fact().source) }

// Pegs is the count that the maker chose in place of the pattern's; 0 where they did not.
func (p *Piece) Pegs() int { return p.fact().pegs }

// Shelf is where the piece lies.
func (p *Piece) Shelf() Shelf { return p.fact().shelf }

// Hand is the hand the piece is worked with.
func (p *Piece) Hand() pattern.Hand { return p.fact().hand }

// Way is the side of peg 1 and the way row 1 runs, as fixed when the piece was begun.
func (p *Piece) Way() pattern.Way { return p.fact().way }

func (p *Piece) fact() facts {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.facts
}

// Pattern is the text that the piece is being made with. It must not be changed.
func (p *Piece) Pattern() []byte {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.text
}

// LookOnly tells whether the piece can be looked at and not worked.
func (p *Piece) LookOnly() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.lock == nil
}

// Saved is the last place that is on disk.
func (p *Piece) Saved() (at pattern.Place, of int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.saved.Place, p.saved.Of
}

// Close brings place.toml up to date and gives the lock back; the piece is open to
// look only from then on. ErrCopyBehind and ErrNotSure are notices: the journal has every
// saved step, but a power cut may take back what ErrNotSure speaks of. ErrBusy says that
// a write is still waiting for the disk; the program may end all the same, which frees
// the lock.
func (p *Piece) Close() error {
	if !p.mu.TryLock() {
		return ErrBusy
	}
	defer p.mu.Unlock()
	if p.lock == nil {
		return nil
	}
	var err error
	if p.opening.Question != nil || p.stale {
		err = p.keepMine()
	} else if err = p.bringCopy(); errors.Is(err, ErrChangedUnderneath) {
		err = p.keepPlace()
	}
	p.letGo()
	return err
}
