package save

import (
	"errors"
	"fmt"
	"time"

	"bypeg/pattern"
)

// Step is a change of the work that is to be saved.
type Step struct {
	Kind  Kind // any but Begun, PatternChanged and Here
	Place pattern.Place
	Of    int
	Text  string    // see Record
	Time  time.Time // when it was made; zero is now
}

// MaxBatch is how many steps go into one write.
const MaxBatch = 16

// copyEvery is how many steps there are at most between two writes of place.toml.
const copyEvery = 50

// Append saves up to MaxBatch steps with one write and one sync. When it returns nil
// all of them are on disk. Otherwise none counts as saved, the error is a
// *NotSavedError, and the same steps must be given again before any other.
func (p *Piece) Append(steps []Step) error {
	if err := p.save(steps); err != nil {
		return err
	}
	_ = p.copyDue() // a notice at most: see Writer
	return nil
}

func (p *Piece) save(steps []Step) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	if len(steps) == 0 || len(steps) > MaxBatch {
		return fmt.Errorf("%d steps in a batch: give 1 to %d", len(steps), MaxBatch)
	}
	records := make([]Record, len(steps))
	for i, m := range steps {
		if m.Kind == Begun || m.Kind == PatternChanged || m.Kind == Here {
			return fmt.Errorf("a record %q is no step", m.Kind)
		}
		if m.Time.IsZero() {
			m.Time = p.env.Now()
		}
		records[i] = Record{Kind: m.Kind, Time: m.Time, Place: m.Place, Of: m.Of, Text: m.Text}
	}
	return p.write(records)
}

// write appends records and makes the last one the saved one.
func (p *Piece) write(records []Record) error {
	err := p.writable()
	if err == nil {
		err = p.journal.append(records)
	}
	if err != nil {
		if errors.Is(err, ErrChangedUnderneath) && !p.stale {
			_ = p.keepPlace() // the journal may not have the place any more, nor may place.toml; see Reread
		}
		return &NotSavedError{Saved: p.saved.Place, Of: p.saved.Of, Err: err}
	}
	p.saved = records[len(records)-1]
	p.sinceCopy += len(records)
	for _, r := range records {
		p.facts.amend(r)
	}
	return nil
}

func (p *Piece) writable() error {
	switch {
	case p.lock == nil:
		return ErrLookOnly
	case p.stale:
		return ErrChangedUnderneath
	case p.opening.Question != nil:
		return ErrUnanswered
	}
	return nil
}

// copyDue brings place.toml up to date when it is time. After a failure it is time
// again fifty steps later.
func (p *Piece) copyDue() error {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.sinceCopy < copyEvery {
		return nil
	}
	p.sinceCopy = 0
	return p.bringCopy()
}

// bringCopy brings place.toml up to date. It then vouches for all lines up to its number,
// so that lines which are owed are written first.
func (p *Piece) bringCopy() error {
	if p.copied == p.saved.Number {
		return nil
	}
	if err := p.journal.pay(); err != nil {
		return &notSureError{err}
	}
	return p.keepPlace()
}

// keepPlace writes place.toml whatever is there. Lines that are owed it does not vouch for.
func (p *Piece) keepPlace() error {
	c := p.second()
	if err := writeCopy(p.env.FS, p.dir, p.journal.seed, c); err != nil {
		return err
	}
	p.copied, p.sinceCopy = c.vouched(), 0
	return nil
}

// second is what place.toml should have.
func (p *Piece) second() *secondCopy {
	c := &secondCopy{number: p.saved.Number, time: p.saved.Time, at: p.saved.Place, of: p.saved.Of, facts: p.facts}
	if len(p.journal.owed) > 0 {
		c.adrift = p.journal.adrift
	}
	return c
}

// ChangePattern goes on with another pattern text, at a place in it. The new text is
// on disk before the journal names it, and the old one stays. It must not be called
// while steps wait to be saved; whether the person wants the change is for the
// caller to ask. A change made on purpose, for this piece alone, is told in words;
// without words the text is what the piece's source has now.
func (p *Piece) ChangePattern(text []byte, at pattern.Place, of int, words string) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	notSaved := func(err error) error {
		return &NotSavedError{Saved: p.saved.Place, Of: p.saved.Of, Err: err}
	}
	if err := p.writable(); err != nil {
		return notSaved(err)
	}
	_ = p.bringCopy() // a notice at most; the journal has the place
	mark, err := keepPattern(p.env.FS, p.dir, text)
	if err != nil {
		return notSaved(err)
	}
	change := Record{Kind: PatternChanged, Time: p.env.Now(), Place: at, Of: of, Text: words, facts: facts{pattern: mark}}
	if err := p.write([]Record{change}); err != nil {
		return err
	}
	p.facts.turnTo(change)
	p.text = text
	_ = p.bringCopy()
	return nil
}
