package tui

import (
	"errors"
	"sync"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// Desk is where pieces are opened and laid away. One piece is open at a time, and the
// desk owns the writer that saves it: whoever made the desk must Close it, on every
// way out of the program.
type Desk struct {
	Env      save.Env
	Root     string                                            // the folder of all pieces
	Examples []string                                          // names of the patterns that ship
	Example  func(name string) ([]byte, bool)                  // their texts
	ReadFile func(path string) ([]byte, error)                 // reads a pattern file
	Way      func(*pattern.Design) (pattern.Hand, pattern.Way) // how this maker works
	WayAsked bool                                              // they said so for this run
	Lead     int                                               // pegs ahead of a border at which a warning comes

	mu      sync.Mutex // screens call from commands, which run side by side
	piece   *save.Piece
	writer  *save.Writer
	order   pattern.Order
	inHand  *track.Tracker // of the piece being worked, nil before Start
	text    string         // of the pattern in order
	asked   *save.Question // which place is the right one, while that is still to be answered
	dropped int            // changes of this piece that a failed reading anew left unsaved
	done    []shelved      // to pieces on the shelf, the last one last
	left    *left          // the piece laid away last
	lost    int            // changes of all pieces that never reached the disk
}

// Opened is a piece taken to the desk. Where Place or Change is set, a person must be
// asked before it is worked.
type Opened struct {
	Opening save.Opening
	Order   pattern.Order
	Change  *Change // the pattern's file is no longer what the piece was begun with
	Dropped int     // changes that were shown as not saved and are gone
	Fresh   bool    // it goes on with another pattern: rows of the former one can't be undone

	orders []pattern.Order // in which the choices of the question are places
	piece  *save.Piece
}

// Source is a pattern as somebody names it: an example or a file.
type Source struct {
	Name  string // the example's name, or the file's absolute path
	Shown string // what diagnostics call it
	Text  []byte

	// Of a new piece:
	Pegs   int  // the count that the maker takes in place of the pattern's; 0 is the pattern's
	OnLoom int  // rows that are on the loom already
	Anew   bool // begin one although another is in progress
}

// Open takes a piece to the desk. The one that lay there is laid away first.
func (d *Desk) Open(id string) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if err := d.layAway(); err != nil {
		return nil, err
	}
	o, err := d.take(id, save.Open)
	if err != nil && d.restorePattern(id, err) {
		o, err = d.take(id, save.Open)
	}
	if err != nil {
		return nil, err
	}
	d.backOnLoom(o)
	d.compareSource(o)
	return o, nil
}

// backOnLoom brings a piece that was put away back: somebody goes on with it. Where that
// can't be saved it stays where it was, which is no reason to stop.
func (d *Desk) backOnLoom(o *Opened) {
	if d.piece.Shelf() == save.OnLoom || o.Opening.LookOnly != "" || o.Opening.Question != nil {
		return
	}
	step := save.Step{Kind: save.Shelved, Place: o.Opening.Place, Of: o.Opening.Of, Text: save.OnLoom.String()}
	if err := d.piece.Append([]save.Step{step}); err == nil {
		o.Opening.Notices = append(o.Opening.Notices, "it had been put away, and "+broughtBack(o.Opening.Place))
	}
}

// take opens a piece, to work or to look only, and lays it on the desk.
func (d *Desk) take(id string, open func(env save.Env, root, id string) (*save.Piece, save.Opening, error)) (*Opened, error) {
	piece, opening, err := open(d.Env, d.Root, id)
	if err != nil {
		return nil, err
	}
	d.piece = piece
	o, err := d.laid(opening)
	if err != nil {
		d.leavePiece()
	}
	return o, err
}

// restorePattern puts the pattern kept with a piece back, if that is what is the matter
// and what it was begun from is still the same.
func (d *Desk) restorePattern(id string, why error) bool {
	var bad *save.PatternError
	if !errors.As(why, &bad) {
		return false
	}
	text, err := d.sourceText(bad.Source)
	if err != nil {
		return false
	}
	restored, err := save.RestorePattern(d.Env, d.Root, id, text)
	return restored && err == nil
}

// sourceText is what a piece was begun from, as it is now.
func (d *Desk) sourceText(name string) ([]byte, error) {
	if text, ok := d.Example(name); ok {
		return text, nil
	}
	return d.ReadFile(name)
}

// laid is the piece on the desk with the pattern it is made with, which somebody else
// may have changed since it was last looked at.
func (d *Desk) laid(opening save.Opening) (*Opened, error) {
	if text := d.piece.Pattern(); d.order.Pattern == nil || string(text) != d.text {
		p, diags := file.LoadFor(d.piece.Source(), text, d.piece.Pegs())
		if p == nil {
			return nil, &save.PatternError{Source: d.piece.Source(), Place: opening.Place, Of: opening.Of, Err: diags.Err()}
		}
		d.order, d.text = pattern.Order{Pattern: p, Way: d.piece.Way()}, string(text)
	}
	d.asked = opening.Question
	if d.asked != nil && opening.LookOnly != "" { // it can't be answered here
		opening.Place, opening.History = d.asked.Choices[0].Place, save.History{}
		opening.Notices = append(opening.Notices, "the place is in doubt: you are asked when the piece can be worked")
		d.asked = nil
	}
	if d.asked == nil && !d.order.Pattern.Holds(opening.Place) {
		return nil, &save.PatternError{Source: d.piece.Source(), Place: opening.Place, Of: opening.Of, Err: errors.New("it has no such place")}
	}
	return &Opened{Opening: opening, Order: d.order, orders: d.ordersOf(opening.Question), piece: d.piece}, nil
}

// ordersOf are the orders in which the choices of a question are places. One whose pattern
// is of no use is taken for a place in the piece's own.
func (d *Desk) ordersOf(q *save.Question) []pattern.Order {
	if q == nil {
		return nil
	}
	orders := make([]pattern.Order, len(q.Choices))
	for i, c := range q.Choices {
		orders[i] = d.order
		if p, err := d.patternOf(c); err == nil {
			orders[i].Pattern = p
		}
	}
	return orders
}

// compareSource finds out whether the pattern's file is still what the piece is made
// with. A file that is gone is no reason to speak; one that is wrong now is no reason
// to stop.
func (d *Desk) compareSource(o *Opened) {
	if o.Opening.LookOnly != "" {
		return
	}
	name := d.piece.Source()
	text, err := d.sourceText(name)
	if err != nil || string(text) == d.text || d.piece.FromSource(text) {
		return
	}
	now, _ := file.LoadFor(name, text, d.piece.Pegs())
	if now == nil {
		o.Opening.Notices = append(o.Opening.Notices, "the pattern's file is wrong now: bypeg check tells; the piece keeps its own copy")
		return
	}
	o.Change = compare(d.order.Pattern, now, text, o.Opening.Place)
	o.Change.Planned = !d.piece.FromSource([]byte(d.text))
}

// Settle answers which place is the right one, which may be a place in another pattern.
func (d *Desk) Settle(c save.Choice) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	p, err := d.patternOf(c)
	if err != nil {
		return nil, err
	}
	if !p.Holds(c.Place) {
		return nil, errors.New("that place is not in the pattern")
	}
	c.Of = p.Of(c.Place)
	opening, err := d.piece.Settle(c)
	if err != nil {
		return nil, err
	}
	settled, err := d.laid(opening) // the place may be one of another pattern
	if err != nil {
		return nil, err
	}
	d.compareSource(settled)
	return settled, nil
}

// patternOf is the pattern that a choice is a place in.
func (d *Desk) patternOf(c save.Choice) (*pattern.Pattern, error) {
	if !c.Another {
		return d.order.Pattern, nil
	}
	text, err := d.piece.PatternOf(c)
	if err != nil {
		return nil, err
	}
	p, diags := file.LoadFor(d.piece.Source(), text, d.piece.Pegs())
	if p == nil {
		return nil, diags.Err()
	}
	return p, nil
}

// Adopt goes on with the changed pattern, at the same place.
func (d *Desk) Adopt(o *Opened) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	p := o.Change.Pattern
	at := o.Opening.Place
	if err := d.piece.ChangePattern(o.Change.Text, at, p.Of(at), ""); err != nil {
		return nil, err
	}
	if d.piece.Title() == d.order.Pattern.Title && p.Title != d.order.Pattern.Title {
		// The piece was never given a name of its own. Where this can't be saved it keeps
		// the old one, which is no reason to stop.
		_ = d.piece.Append([]save.Step{{Kind: save.Named, Place: at, Of: p.Of(at), Text: p.Title}})
	}
	d.order.Pattern, d.text = p, string(o.Change.Text)
	return &Opened{Opening: o.Opening, Order: d.order, Fresh: true}, nil
}
