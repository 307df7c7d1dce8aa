package tui

import (
	"fmt"
	"sync"
	"time"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
	"bypeg/tui/save"
	"bypeg/tui/track"
	"bypeg/tui/work"
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
	Lead     int                                               // pegs ahead of a border at which a warning comes

	mu     sync.Mutex // screens call from commands, which run side by side
	piece  *save.Piece
	writer *save.Writer
	order  pattern.Order
	text   string // of the pattern in order
}

// Opened is a piece taken to the desk. Where Place or Change is set, a person must be
// asked before it is worked.
type Opened struct {
	Opening save.Opening
	Order   pattern.Order
	Change  *Change // the pattern's file is no longer what the piece was begun with
}

// Source is a pattern as somebody names it: an example or a file.
type Source struct {
	Name  string // the example's name, or the file's absolute path
	Shown string // what diagnostics call it
	Text  []byte
}

// Work goes on with the piece that was begun from a source and is not finished, the
// last worked of several, or begins one.
func (d *Desk) Work(src Source) (*Opened, error) {
	all, err := save.List(d.Env, d.Root)
	if err != nil {
		return nil, err
	}
	for _, s := range all {
		if s.Err == "" && s.Source == safetext.Clean(src.Name) && s.Place.Phase != pattern.Finishing {
			return d.Open(s.ID)
		}
	}
	return d.Begin(src)
}

// Last is the id of the piece that was worked last and is not finished; false where
// there is none.
func (d *Desk) Last() (string, bool, error) {
	all, err := save.List(d.Env, d.Root)
	for _, s := range all {
		if s.Err == "" && s.Place.Phase != pattern.Finishing {
			return s.ID, true, nil
		}
	}
	return "", false, err
}

// Begin makes a new piece of a pattern. A pattern that is wrong comes back as
// safetext.Diagnostics.
func (d *Desk) Begin(src Source) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if err := d.layAway(); err != nil {
		return nil, err
	}
	p, diags := file.Load(src.Shown, src.Text)
	if p == nil {
		return nil, diags
	}
	hand, way := d.Way(&p.Design)
	piece, err := save.Begin(d.Env, d.Root, save.New{
		Title: p.Title, Source: src.Name, PatternText: src.Text, Hand: hand, Way: way, Of: p.CastOnLoops(),
	})
	if err != nil {
		return nil, err
	}
	d.piece, d.order, d.text = piece, pattern.Order{Pattern: p, Way: way}, string(src.Text)
	return &Opened{Order: d.order, Opening: save.Opening{Place: pattern.Start()}}, nil
}

// BeginExample makes a new piece of a pattern that ships.
func (d *Desk) BeginExample(name string) (*Opened, error) {
	text, ok := d.Example(name)
	if !ok {
		return nil, fmt.Errorf("there is no example %q", name)
	}
	return d.Begin(Source{name, name, text})
}

// Open takes a piece to the desk. The one that lay there is laid away first.
func (d *Desk) Open(id string) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if err := d.layAway(); err != nil {
		return nil, err
	}
	piece, opening, err := save.Open(d.Env, d.Root, id)
	if err != nil {
		return nil, err
	}
	d.piece = piece
	o, err := d.laid(opening)
	if err != nil {
		d.leavePiece()
		return nil, err
	}
	o.Change = d.change(opening)
	return o, nil
}

// laid is the piece on the desk with the pattern it is made with, which somebody else
// may have changed since it was last looked at.
func (d *Desk) laid(opening save.Opening) (*Opened, error) {
	title := d.piece.Title()
	if text := d.piece.Pattern(); d.order.Pattern == nil || string(text) != d.text {
		p, diags := file.Load(d.piece.Source(), text)
		if p == nil {
			return nil, fmt.Errorf("the kept pattern of %s can't be read: %w", title, diags)
		}
		d.order, d.text = pattern.Order{Pattern: p, Way: d.piece.Way()}, string(text)
	}
	if opening.Question == nil && !d.order.Pattern.Holds(opening.Place) {
		return nil, fmt.Errorf("the saved place of %s is not in its pattern: %s", title, opening.Place.Phase)
	}
	return &Opened{Opening: opening, Order: d.order}, nil
}

// change compares the pattern that the piece is made with and the one its source is
// now. It is nil where nothing is to be asked; a source that is gone or wrong is no
// reason to stop.
func (d *Desk) change(opening save.Opening) *Change {
	if opening.LookOnly != "" {
		return nil
	}
	src := Source{Name: d.piece.Source()}
	var ok bool
	if src.Text, ok = d.Example(src.Name); !ok {
		text, err := d.ReadFile(src.Name)
		if err != nil {
			return nil
		}
		src.Text = text
	}
	if string(src.Text) == string(d.piece.Pattern()) {
		return nil
	}
	now, _ := file.Load(src.Name, src.Text)
	if now == nil {
		return nil
	}
	return compare(d.order.Pattern, now, src.Text, opening.Place)
}

// Settle answers which place is the right one.
func (d *Desk) Settle(o *Opened, c save.Choice) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if !d.order.Pattern.Holds(c.Place) {
		return nil, fmt.Errorf("%s is not in the pattern", c)
	}
	opening, err := d.piece.Settle(c.Place, d.order.Pattern.Of(c.Place))
	if err != nil {
		return nil, err
	}
	return &Opened{Opening: opening, Order: o.Order, Change: d.change(opening)}, nil
}

// Adopt goes on with the changed pattern, at the same place.
func (d *Desk) Adopt(o *Opened) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	p := o.Change.Pattern
	at := o.Opening.Place
	if err := d.piece.ChangePattern(o.Change.Text, at, p.Of(at)); err != nil {
		return nil, err
	}
	d.order.Pattern, d.text = p, string(o.Change.Text)
	return &Opened{Opening: o.Opening, Order: d.order}, nil
}

// Start begins the work on what was opened: from now on every change is saved.
func (d *Desk) Start(o *Opened) work.Piece {
	d.mu.Lock()
	defer d.mu.Unlock()
	w := work.Piece{Title: o.Order.Pattern.Title, Tracker: d.tracker(o), Held: o.Opening.LookOnly}
	if len(o.Opening.Notices) > 0 {
		w.Notice = o.Opening.Notices[0]
	}
	if o.Opening.LookOnly == "" {
		d.writer = save.NewWriter(d.piece)
		w.Saver = saver{d.writer, o.Order}
	}
	return w
}

// TakeOver tries to work a piece that is open elsewhere. It returns the piece as it is
// now and whether it can be worked; nil where no such piece is on the desk.
func (d *Desk) TakeOver() (*Opened, bool, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.piece == nil || d.writer != nil {
		return nil, false, nil
	}
	opening, ok, err := d.piece.TryTakeOver()
	if err != nil {
		return nil, false, err
	}
	o, err := d.laid(opening)
	if err == nil && ok {
		o.Change = d.change(opening)
	}
	return o, ok, err
}

// changedNotice is told when the piece's file was not what was written last.
const changedNotice = "the saved file was changed by something else: compare with the fabric"

// Reread reads a piece anew whose file was changed by something else. Where it tells
// another place than was saved here, both are offered.
func (d *Desk) Reread() (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.piece == nil {
		return nil, save.ErrNoPiece
	}
	if d.writer != nil {
		d.writer.Drain(drainFor) // what it still holds cannot be written there
		d.writer = nil
	}
	opening, err := d.piece.Reread()
	if err != nil {
		return nil, err
	}
	opening.Notices = append([]string{changedNotice}, opening.Notices...)
	return d.laid(opening)
}

func (d *Desk) tracker(o *Opened) *track.Tracker {
	t := track.New(o.Order, firstPlace(o.Opening.History), d.Lead)
	t.Replay(events(o.Opening.History))
	if t.Place() != o.Opening.Place {
		return track.New(o.Order, o.Opening.Place, d.Lead)
	}
	return t
}

// drainFor is how long the desk waits for the disk when a piece is laid away.
const drainFor = 10 * time.Second

// Farewell is how a piece was left.
type Farewell struct {
	Title   string
	Place   string // "row 12 peg 7"
	Unsaved int    // changes that never reached the disk
	Err     error  // why
}

// Close lays away the piece on the desk, if there is one, and tells how. It may be
// called again.
func (d *Desk) Close() (Farewell, bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.close()
}

func (d *Desk) close() (Farewell, bool) {
	if d.piece == nil {
		return Farewell{}, false
	}
	f := Farewell{Title: d.order.Pattern.Title}
	at, _ := d.piece.Saved()
	if d.writer != nil {
		at, f.Unsaved, f.Err = d.writer.Drain(drainFor)
		d.writer = nil
	}
	f.Place = track.SayPlace(d.order, at)
	looking := d.piece.LookOnly()
	d.leavePiece()
	return f, !looking
}

// layAway closes the piece on the desk. It is an error when something of it could
// not be saved: the piece then stays.
func (d *Desk) layAway() error {
	f, ok := d.close()
	if ok && f.Unsaved > 0 {
		return fmt.Errorf("%s: %w", f.Title, f.Err)
	}
	return nil
}

func (d *Desk) leavePiece() {
	_ = d.piece.Close() // the second copy at most is behind; the journal has every step
	d.piece, d.order.Pattern = nil, nil
}
