package tui

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
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

// Work goes on with the piece that was begun from a source and is not finished, the
// last worked of several, or begins one.
func (d *Desk) Work(src Source) (*Opened, error) {
	id, found, err := d.Find(src.Name)
	switch {
	case err != nil:
		return nil, err
	case found && !src.Anew:
		o, err := d.Open(id)
		if err == nil && (src.OnLoom > 0 || src.Pegs > 0) {
			o.Opening.Notices = append(o.Opening.Notices, "this piece goes on as it was begun: --new begins another")
		}
		return o, err
	}
	before := d.before(src.Name)
	o, err := d.Begin(src)
	if err == nil && before != "" && !src.Anew {
		o.Opening.Notices = append(o.Opening.Notices, before)
	}
	return o, err
}

// before is what to say of earlier pieces where a new one is begun: that they are finished
// or put away, or that there is one of which nothing can be read.
func (d *Desk) before(source string) string {
	if d.hasNameless() {
		return "begun anew; a piece that can't be read lies on the shelf: bypeg alone shows it"
	}
	all, _ := save.List(d.Env, d.Root)
	for _, s := range all {
		switch {
		case s.Source != safetext.Clean(source) || s.Err != "":
		case s.Shelf != save.OnLoom:
			return "begun anew: the one before is put away, and v on the shelf shows it"
		default:
			return "begun anew: the one before is finished"
		}
	}
	return ""
}

// hasNameless tells whether there is a piece of which nothing can be read, not even
// what it was begun from.
func (d *Desk) hasNameless() bool {
	all, _ := save.List(d.Env, d.Root)
	return slices.ContainsFunc(all, func(s save.Summary) bool { return s.Err != "" && s.Source == "" })
}

// Find is the piece that was begun from a source and is not finished, the last worked
// of several. One that can't be read is an error: it must not be passed over as if
// nothing had been worked.
func (d *Desk) Find(source string) (id string, found bool, err error) {
	all, err := save.List(d.Env, d.Root)
	if err != nil {
		return "", false, err
	}
	for _, s := range all {
		switch {
		case s.Source != safetext.Clean(source), s.Shelf != save.OnLoom:
		case s.Err != "":
			return "", false, fmt.Errorf("the piece begun from %s can't be read: %s: mend its folder %s, or move it away to begin anew",
				s.Source, s.Err, filepath.Join(d.Root, s.ID))
		case s.Place.Phase != pattern.Finishing:
			return s.ID, true, nil
		}
	}
	return "", false, nil
}

// Last is the id of the piece that was worked last and is not finished; false where
// there is none. Where there is but one that can't be read, that is an error.
func (d *Desk) Last() (string, bool, error) {
	all, err := save.List(d.Env, d.Root)
	for _, s := range all {
		switch {
		case s.Err != "": // such come behind all others
			return "", false, errors.New("a piece can't be read, and no other is in progress: bypeg alone shows it and says why")
		case s.Place.Phase != pattern.Finishing && s.Shelf == save.OnLoom:
			return s.ID, true, nil
		}
	}
	return "", false, err
}

// errNoOther says that there is no second piece to work in turn.
var errNoOther = errors.New("no other piece is on the loom")

// Swap goes on with the piece that was worked before the one on the desk, or before the
// last one where none is on it.
func (d *Desk) Swap() (*Opened, error) {
	all, err := save.List(d.Env, d.Root)
	if err != nil {
		return nil, err
	}
	d.mu.Lock()
	hand := ""
	if d.piece != nil {
		hand = d.piece.ID()
	}
	d.mu.Unlock()
	for _, s := range all {
		switch {
		case s.Err != "" || s.Shelf != save.OnLoom || s.Place.Phase == pattern.Finishing:
		case hand == "":
			hand = s.ID // the last one
		case s.ID != hand:
			return d.Open(s.ID)
		}
	}
	return nil, errNoOther
}

// Begin makes a new piece of a pattern. A pattern that is wrong comes back as
// safetext.Diagnostics.
func (d *Desk) Begin(src Source) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if err := d.layAway(); err != nil {
		return nil, err
	}
	p, diags := file.LoadFor(src.Shown, src.Text, src.Pegs)
	if p == nil {
		return nil, fitting(src, diags)
	}
	at, err := onLoom(p, src.OnLoom)
	if err != nil {
		return nil, err
	}
	hand, way := d.Way(&p.Design)
	piece, err := save.Begin(d.Env, d.Root, save.New{
		Title: p.Title, Source: src.Name, PatternText: src.Text, Hand: hand, Way: way, At: at, Of: p.Of(at), Pegs: src.Pegs,
	})
	if err != nil {
		return nil, err
	}
	d.piece, d.order, d.text = piece, pattern.Order{Pattern: p, Way: way}, string(src.Text)
	return &Opened{Order: d.order, Opening: save.Opening{Place: at}}, nil
}

// ErrPegs says that a pattern can't be laid on a peg count.
var ErrPegs = errors.New("this pattern does not go with so many pegs")

// pegsAround is how far from a count others are tried.
const pegsAround = 60

// fitting is why a pattern can't be begun: what is wrong with it, or where only the peg
// count is, which ones near it would do.
func fitting(src Source, diags safetext.Diagnostics) error {
	if own, _ := file.Load(src.Shown, src.Text); src.Pegs == 0 || own == nil {
		return diags
	}
	fits := func(pegs int) bool {
		p, _ := file.LoadFor(src.Shown, src.Text, pegs)
		return p != nil
	}
	var near []string
	for n := src.Pegs - 1; n >= max(1, src.Pegs-pegsAround); n-- {
		if fits(n) {
			near = append(near, fmt.Sprint(n))
			break
		}
	}
	for n := src.Pegs + 1; n <= min(pattern.MaxPegs, src.Pegs+pegsAround); n++ {
		if fits(n) {
			near = append(near, fmt.Sprint(n))
			break
		}
	}
	if len(near) == 0 {
		return fmt.Errorf("%w: %d does not go, nor does any near it", ErrPegs, src.Pegs)
	}
	return fmt.Errorf("%w: %d does not go, but %s", ErrPegs, src.Pegs, strings.Join(near, " and "))
}

// ErrRows says that a pattern has not so many rows.
var ErrRows = errors.New("not so many rows")

// onLoom is the place of a piece that has so many rows already.
func onLoom(p *pattern.Pattern, rows int) (pattern.Place, error) {
	switch {
	case rows < 0 || rows > p.Grid.Rows():
		return pattern.Place{}, fmt.Errorf("%w: %s has %s, and 1 to %d of them can be on the loom already",
			ErrRows, p.Title, track.Plural(p.Grid.Rows(), p.Form.RowWord()), p.Grid.Rows())
	case rows == 0:
		return pattern.Start(), nil
	case rows == p.Grid.Rows():
		return pattern.Place{Phase: pattern.BindingOff}, nil
	}
	return pattern.Place{Phase: pattern.Working, Row: rows + 1}, nil
}

// BeginExample makes a new piece of a pattern that ships, of which so many rows are on the
// loom already.
func (d *Desk) BeginExample(name string, onLoom int) (*Opened, error) {
	text, ok := d.Example(name)
	if !ok {
		return nil, fmt.Errorf("there is no example %q", name)
	}
	return d.Begin(Source{Name: name, Shown: name, Text: text, OnLoom: onLoom})
}

// Open takes a piece to the desk. The one that lay there is laid away first.
func (d *Desk) Open(id string) (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if err := d.layAway(); err != nil {
		return nil, err
	}
	o, err := d.take(id)
	if err != nil && d.restorePattern(id, err) {
		o, err = d.take(id)
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
		o.Opening.Notices = append(o.Opening.Notices, "it had been put away, and is back on the loom")
	}
}

// take opens a piece and lays it on the desk.
func (d *Desk) take(id string) (*Opened, error) {
	piece, opening, err := save.Open(d.Env, d.Root, id)
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
	if err != nil || string(text) == d.text {
		return
	}
	now, _ := file.LoadFor(name, text, d.piece.Pegs())
	if now == nil {
		o.Opening.Notices = append(o.Opening.Notices, "the pattern's file is wrong now: bypeg check tells; the piece keeps its own copy")
		return
	}
	o.Change = compare(d.order.Pattern, now, text, o.Opening.Place)
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
	if err := d.piece.ChangePattern(o.Change.Text, at, p.Of(at)); err != nil {
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

// Start begins the work on what was opened: from now on every change is saved.
func (d *Desk) Start(o *Opened) track.Piece {
	d.mu.Lock()
	defer d.mu.Unlock()
	h := retell(o.Opening.History, o.Order.Pattern)
	if o.Fresh {
		h.first, h.events = o.Opening.Place, nil
	}
	d.inHand = d.tracker(o, h)
	w := track.Piece{
		Title: d.piece.Title(), Tracker: d.inHand, Held: o.Opening.LookOnly,
		Notes: h.notes, Purpose: h.purpose, Moments: h.moments, Notices: slices.Clone(o.Opening.Notices),
	}
	w.Notices = append(w.Notices, strays(h.notes)...)
	if says := otherCount(o.Order.Pattern); says != "" {
		w.Notices = append(w.Notices, says)
	}
	if _, asked := d.Way(&o.Order.Pattern.Design); d.WayAsked && asked != o.Order.Way {
		w.Notices = append(w.Notices, fmt.Sprintf("this piece keeps its way: peg 1 at the %s, row 1 %s", o.Order.Way.Peg1, o.Order.Way.Row1))
	}
	if at := o.Opening.Time; !at.IsZero() && d.Env.Now().Sub(at) > longAgo {
		w.Notices = append(w.Notices, "last worked "+at.Format(dayAndTime))
	}
	if o.Opening.LookOnly == "" {
		d.writer = save.NewWriter(d.piece)
		w.Saver = saver{d.writer, o.Order}
	}
	return w
}

// TakeOver tries to work a piece that is open elsewhere. It returns the piece as it is
// now and whether it can be worked; nil where that piece is not on the desk any more.
func (d *Desk) TakeOver(looked *Opened) (*Opened, bool, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.piece == nil || d.piece != looked.piece || d.writer != nil {
		return nil, false, nil
	}
	opening, ok, err := d.piece.TryTakeOver()
	if err != nil {
		return nil, false, err
	}
	o, err := d.laid(opening)
	if err == nil && ok {
		o.Opening.Notices = append([]string{"the other terminal left it: you work it now"}, o.Opening.Notices...)
		d.compareSource(o)
	}
	return o, ok, err
}

// changedNotice is told when the piece's file was not what was written last.
const changedNotice = "the saved file was changed by something else: compare with the fabric"

// errFolderGone says that there is nothing to read anew: the piece stays as it is on
// the screen, and what is put is tried again.
var errFolderGone = errors.New("the piece's folder is gone")

// Reread reads a piece anew whose file was changed by something else. Where it tells
// another place than was saved here, both are offered.
func (d *Desk) Reread() (*Opened, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.piece == nil {
		return nil, save.ErrNoPiece
	}
	if d.folderGone() {
		return nil, errFolderGone
	}
	if d.writer != nil {
		_, d.dropped, _ = d.writer.Drain(drainFor) // what it still holds cannot be written there
		d.writer = nil
	}
	dropped := d.dropped
	opening, err := d.piece.Reread()
	if err != nil {
		return nil, err
	}
	notice := changedNotice
	if dropped > 0 && opening.Question == nil {
		notice = fmt.Sprintf("not saved and to be worked again: %s. The saved file was changed by something else", track.Plural(dropped, "step"))
	}
	opening.Notices = append([]string{notice}, opening.Notices...)
	o, err := d.laid(opening)
	if err == nil {
		o.Dropped, d.dropped = dropped, 0 // from now on they are told
	}
	return o, err
}

// longAgo is after how long it is told when a piece was last worked.
const longAgo = 2 * time.Hour

// dayAndTime is how such a time is told.
const dayAndTime = "Mon 2 Jan 2006, 15:04"

// otherCount tells that a piece has another peg count than its pattern states.
func otherCount(p *pattern.Pattern) string {
	if p.StatedPegs == 0 {
		return ""
	}
	return fmt.Sprintf("%s, pattern %d: on purpose", track.Plural(p.Pegs, "peg"), p.StatedPegs)
}

func (d *Desk) tracker(o *Opened, h told) *track.Tracker {
	t := track.New(o.Order, h.first, d.Lead)
	t.Replay(h.events)
	if t.Place() != o.Opening.Place {
		return track.New(o.Order, o.Opening.Place, d.Lead)
	}
	return t
}
