package save

import (
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
)

// Settle answers the question of the opening with one of its choices, or with a place of
// the person's own, a Choice of which Place and Of are set. It returns the piece as it
// then is. Without a question it changes nothing.
func (p *Piece) Settle(c Choice) (Opening, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	question := p.opening.Question
	if question == nil {
		return p.opening, nil
	}
	refused := func(err error) (Opening, error) {
		return p.opening, &NotSavedError{Saved: p.saved.Place, Of: p.saved.Of, Err: err}
	}
	switch {
	case p.lock == nil:
		return refused(ErrLookOnly)
	case p.stale:
		return refused(ErrChangedUnderneath)
	}
	here, err := p.answer(question, question.meant(c))
	if err != nil {
		return refused(err)
	}
	before := p.journal.top
	if here.Prev > 0 {
		p.journal.top = here.Prev
	}
	answer := []Record{here}
	if err := p.journal.append(answer); err != nil {
		p.journal.top = before
		return refused(err)
	}
	p.saved, p.mine = answer[0], nil
	p.facts.turnTo(here)
	p.answered = p.saved.Number
	o, err := p.load()
	if err != nil {
		return o, err
	}
	_ = p.bringCopy() // what it says against the answer is out of date; tried again when it is next due
	return o, nil
}

// answer is the record that says which place is the right one.
func (p *Piece) answer(q *Question, c Choice) (Record, error) {
	here := Record{Kind: Here, Time: p.env.Now(), Place: c.Place, Of: c.Of, facts: facts{pattern: p.facts.pattern}}
	if c.pattern != "" {
		switch _, _, err := readPattern(p.env.FS, p.dir, c.pattern); {
		case err == nil:
			here.facts.pattern = c.pattern
		case !errors.Is(err, fs.ErrNotExist):
			return here, err
		}
	}
	if c.record.Number > 0 {
		here.Prev, here.follows = c.record.Number, c.record.sum
	}
	for _, other := range q.Choices {
		saved := other.Origin == FromMemory || other.Origin == FromCopy
		switch {
		case !saved || other.record.Number > 0 || other.same(c):
		case other.pattern == here.facts.pattern || other.pattern == "":
			here.Instead = append(here.Instead, other.Place)
		default:
			here.aside = append(here.aside, other)
		}
	}
	return here, nil
}

// meant is the choice of the question that somebody means, or a place of their own.
func (q *Question) meant(c Choice) Choice {
	i := slices.IndexFunc(q.Choices, c.same)
	if i < 0 {
		return Choice{Place: c.Place, Of: c.Of}
	}
	meant := q.Choices[i]
	meant.Of = c.Of
	return meant
}

// PatternOf is the text of the pattern that a choice is a place in.
func (p *Piece) PatternOf(c Choice) ([]byte, error) {
	if !c.Another {
		return p.Pattern(), nil
	}
	text, _, err := readPattern(p.env.FS, p.dir, c.pattern)
	return text, err
}

// markOthers finds out which choices are places in another pattern that is kept.
func (p *Piece) markOthers(q *Question) {
	if q == nil {
		return
	}
	for i := range q.Choices {
		c := &q.Choices[i]
		if c.Another = c.pattern != "" && c.pattern != p.facts.pattern; c.Another {
			_, err := p.env.FS.Stat(filepath.Join(p.dir, patternName(c.pattern)))
			c.Another = err == nil
		}
	}
}
