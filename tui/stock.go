package tui

import (
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
	"bypeg/tui/save"
	"bypeg/tui/shelf"
	"bypeg/tui/track"
)

// Stock is what lies on the shelf. A piece that cannot be read is there too, with the
// reason.
func (d *Desk) Stock() (shelf.Stock, error) {
	var s shelf.Stock
	all, err := save.List(d.Env, d.Root)
	if err != nil {
		s.Notice = safetext.Clean(err.Error())
	}
	for _, sum := range all {
		s.Pieces = append(s.Pieces, d.shelved(sum))
	}
	for _, name := range d.Examples {
		text, _ := d.Example(name)
		p, diags := file.Load(name, text)
		if p == nil {
			return s, fmt.Errorf("the example %s: %w", name, diags)
		}
		s.Examples = append(s.Examples, shelf.Example{Name: name, Title: p.Title, Size: size(p)})
	}
	return s, nil
}

func size(p *pattern.Pattern) string {
	return fmt.Sprintf("%s, %s", track.Plural(p.Pegs, "peg"), track.Plural(p.Grid.Rows(), p.Form.RowWord()))
}

// shelved is one piece as the shelf shows it.
func (d *Desk) shelved(sum save.Summary) shelf.Piece {
	s := shelf.Piece{ID: sum.ID, Title: sum.Title, Worked: sum.Time, Trouble: sum.Err}
	if s.Title == "" {
		s.Title = sum.ID
	}
	if s.Trouble != "" {
		return s
	}
	text, err := sum.Pattern(d.Env, d.Root)
	p, _ := file.Load(sum.Source, text)
	if err != nil || p == nil || !p.Holds(sum.Place) {
		s.Where = sum.Place.Phase.String()
		return s
	}
	t := track.New(pattern.Order{Pattern: p, Way: p.Way}, sum.Place, d.Lead)
	s.Progress = t.Progress()
	switch z, _, ok := t.InZone(); {
	case ok:
		s.Where = fmt.Sprintf("%s, %s %d of %d", z.Name, p.Form.RowWord(), sum.Place.Row, p.Grid.Rows())
	case sum.Place.Phase == pattern.Finishing:
		s.Where = "finished"
	default:
		s.Where = sum.Place.Phase.String()
	}
	return s
}
