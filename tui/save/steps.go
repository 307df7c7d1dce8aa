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
		if errors.Is(err, ErrChangedUnderneath) {
			_ = p.bringCopy() // the journal may not have the place any more; see Reread
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

func (p *Piece) bringCopy() error {
	if p.copied == p.saved.Number || len(p.journal.owed) > 0 { // the copy vouches for what is on disk
		return nil
	}
	c := secondCopy{number: p.saved.Number, time: p.saved.Time, at: p.saved.Place, of: p.saved.Of, facts: p.facts}
	if err := writeCopy(p.env.FS, p.dir, p.journal.seed, c); err != nil {
		return err
	}
	p.copied, p.sinceCopy = p.saved.Number, 0
	return nil
}

// ChangePattern goes on with another pattern text, at a place in it. The new text is
// on disk before the journal names it, and the old one stays. It must not be called
// while steps wait to be saved; whether the person wants the change is for the
// caller to ask.
func (p *Piece) ChangePattern(text []byte, at pattern.Place, of int) error {
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
	change := Record{Kind: PatternChanged, Time: p.env.Now(), Place: at, Of: of, facts: facts{pattern: mark}}
	if err := p.write([]Record{change}); err != nil {
		return err
	}
	p.facts.pattern, p.text = mark, text
	_ = p.bringCopy()
	return nil
}

// Settle answers the question of the opening with a place, one of the choices or any
// other, and returns the piece as it then is. Without a question it changes nothing.
func (p *Piece) Settle(at pattern.Place, of int) (Opening, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	question := p.opening.Question
	if question == nil {
		return p.opening, nil
	}
	if p.lock == nil {
		return p.opening, &NotSavedError{Saved: p.saved.Place, Of: p.saved.Of, Err: ErrLookOnly}
	}
	before := p.journal.top
	here := []Record{{Kind: Here, Time: p.env.Now(), Place: at, Of: of, facts: facts{pattern: p.facts.pattern}}}
	for _, c := range question.Choices {
		if c.Place != at {
			continue
		}
		if _, _, err := readPattern(p.env.FS, p.dir, c.pattern); err == nil {
			here[0].facts.pattern = c.pattern
		}
		if c.record.Number > 0 {
			p.journal.top, here[0].follows = c.record.Number, c.record.sum
		}
	}
	here[0].Instead = question.putAside(at, here[0].facts.pattern)
	if err := p.journal.append(here); err != nil {
		p.journal.top = before
		return p.opening, &NotSavedError{Saved: p.saved.Place, Of: p.saved.Of, Err: err}
	}
	p.saved, p.facts.pattern = here[0], here[0].facts.pattern
	_ = p.bringCopy() // what it says against the answer is out of date; tried again when it is next due
	return p.load()
}

// putAside is a place that had been saved and is on no line of the journal, where the
// answer is another one: place.toml will not have it any more. The answer then keeps it.
// A place in another pattern than the answer's means nothing in this one.
func (q *Question) putAside(answer pattern.Place, mark string) *pattern.Place {
	for _, c := range q.Choices {
		saved := c.Origin == FromMemory || c.Origin == FromCopy
		if saved && c.record.Number == 0 && c.Place != answer && (c.pattern == mark || c.pattern == "") {
			return &c.Place
		}
	}
	return nil
}

// Reread reads the piece anew after ErrChangedUnderneath. Where the file now tells
// another place than was saved here, the opening asks which is right, and the place
// saved here is the first choice: this program has seen it worked.
//
// That place may now be in memory only, and the person may leave without an answer.
// So before all else it goes into place.toml, unless the one there is newer, and the
// next Open asks with both places. Where it cannot be written a notice says so.
func (p *Piece) Reread() (Opening, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.lock == nil {
		return p.load()
	}
	mine := p.inMemory()
	var behind error
	if p.opening.Question == nil {
		p.copied = 0 // what is there now need not be what was written
		behind = p.bringCopy()
	}
	p.letGo()
	p.lockToWork()
	o, err := p.load()
	if err != nil || o.Place == mine.Place && o.Question == nil {
		return o, err
	}
	p.opening.Question = p.against(mine, o)
	if behind != nil {
		p.opening.Notices = append(p.opening.Notices, copyNotice(behind))
	}
	return p.opening, nil
}

// inMemory is the place saved here, also where a question about it is still open.
func (p *Piece) inMemory() Choice {
	if q := p.opening.Question; q != nil && q.Choices[0].Origin == FromMemory {
		return q.Choices[0]
	}
	return Choice{Origin: FromMemory, Place: p.saved.Place, Of: p.saved.Of, Time: p.saved.Time, pattern: p.facts.pattern}
}

// against asks whether the place saved here is right or what was read anew.
func (p *Piece) against(mine Choice, o Opening) *Question {
	q := &Question{Kind: TwoPlaces, Choices: []Choice{mine}}
	if o.Question == nil {
		if p.saved.Number > 0 {
			q.offer(Choice{Origin: FromJournal, Place: o.Place, Of: o.Of, Time: o.Time, record: p.saved, pattern: p.facts.pattern})
		}
		return q
	}
	for _, c := range o.Question.Choices {
		if c.Place == mine.Place && q.Choices[0].record.Number == 0 {
			q.Choices[0].record = c.record // the answer then follows that record
		}
		q.offer(c)
	}
	return q
}

// lockToWork takes the lock, or finds out why the piece can only be looked at, which
// is no error.
func (p *Piece) lockToWork() {
	p.opening.LookOnly, p.opening.Held = "", false
	err := p.takeLock()
	if held := (*HeldError)(nil); errors.As(err, &held) {
		p.opening.LookOnly, p.opening.Held = "open in another terminal", true
		if who := shown(held.Holder); who != "" {
			p.opening.LookOnly += " (" + who + ")"
		}
	} else if err != nil {
		p.opening.LookOnly = reason(err)
	}
}
