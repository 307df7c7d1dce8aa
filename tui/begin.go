package tui

import (
	"errors"
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

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
