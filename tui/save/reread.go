package save

import (
	"errors"
	"slices"
)

// mine is what this program had saved when it found the file changed. Nothing else may
// have it, so it is asked about until somebody has said which place is the right one.
type mine struct {
	choice Choice
	second *secondCopy // for place.toml; nil where that may have a place that is asked about
	kept   bool        // it is in place.toml
}

// Reread reads the piece anew after ErrChangedUnderneath. Where the file now tells
// another place than was saved here, the opening asks which is right, and the place
// saved here is the first choice: this program has seen it worked. Until a Reread has
// come to an end without an error nothing can be saved.
//
// That place may now be in memory only, and the person may leave without an answer.
// So before all else it goes into place.toml, unless the one there is newer, and the
// next Open asks with both places. Where it is in none of the files a notice says so.
func (p *Piece) Reread() (Opening, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.lock == nil && p.mine == nil {
		return p.load()
	}
	if p.mine == nil {
		p.mine = p.atHand()
	}
	p.mine.kept = false // what is there now need not be what was written
	p.stale = true
	_ = p.keepMine() // tried again under the new lock
	p.letGo()
	p.lockToWork()
	return p.readAnew()
}

// atHand is the place saved here. Where a question is open nobody has worked since the
// piece was read, and place.toml is not to be touched.
func (p *Piece) atHand() *mine {
	m := &mine{choice: Choice{
		Origin: FromMemory, Place: p.saved.Place, Of: p.saved.Of, Time: p.saved.Time, pattern: p.facts.pattern,
	}}
	if p.opening.Question == nil {
		m.second = p.second()
	}
	return m
}

// keepMine puts what was saved here into place.toml.
func (p *Piece) keepMine() error {
	m := p.mine
	switch {
	case m == nil || m.kept:
		return nil
	case p.lock == nil:
		return ErrLookOnly
	case m.second == nil:
		return ErrUnanswered
	}
	err := writeCopy(p.env.FS, p.dir, p.journal.seed, m.second)
	m.kept = err == nil
	return err
}

// readAnew reads the piece and asks about what was saved here, where the piece tells
// another place now.
func (p *Piece) readAnew() (Opening, error) {
	behind := p.keepMine()
	o, err := p.load()
	if err != nil || p.mine == nil {
		return o, err
	}
	mine, read := p.mine.choice, Choice{Place: o.Place, pattern: p.facts.pattern}
	if o.Question == nil && mine.same(read) {
		if p.lock != nil { // else it is read anew once more, or taken over
			p.mine = nil
		}
		return o, nil
	}
	p.opening.Question = p.against(mine, o)
	p.markOthers(p.opening.Question)
	onDisk := o.Question != nil && slices.ContainsFunc(o.Question.Choices, mine.same)
	if behind != nil && !onDisk {
		p.opening.Notices = append(p.opening.Notices, copyNotice(behind))
	}
	return p.opening, nil
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
		if c.same(mine) && q.Choices[0].record.Number == 0 {
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
