package tui

import (
	"fmt"
	"path/filepath"
	"strings"

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
	for i, sum := range all {
		piece := d.shelved(sum)
		if i < toldInFull && piece.Order.Pattern != nil {
			piece.Details = append(d.written(sum.ID, piece.Order), piece.Details...)
		}
		s.Pieces = append(s.Pieces, piece)
	}
	for _, name := range d.Examples {
		text, _ := d.Example(name)
		p, diags := file.Load(name, text)
		if p == nil {
			return s, fmt.Errorf("the example %s: %w", name, diags)
		}
		o := pattern.Order{Pattern: p, Way: d.way(p)}
		s.Examples = append(s.Examples, shelf.Example{Name: name, Title: p.Title, Size: size(p), Details: details(o), Order: o})
	}
	return s, nil
}

// toldInFull is of how many pieces the whole journal is read for the shelf, those worked
// last first.
const toldInFull = 20

// written is what its maker wrote down of a piece: the repair under way, the last safe row,
// the changes made on purpose, and the last note.
func (d *Desk) written(id string, order pattern.Order) []string {
	_, o, err := save.Look(d.Env, d.Root, id)
	if err != nil {
		return nil
	}
	p := order.Pattern
	h := retell(o.History, p)
	says := track.Resume(order, h.first, h.events, o.Place, d.Lead).SayKept()
	for _, text := range h.purpose {
		says = append(says, "on purpose: "+text)
	}
	if n := len(h.notes); n > 0 {
		says = append(says, sayNote(p, h.notes[n-1]))
	}
	return says
}

// sayNote says a note away from its row.
func sayNote(p *pattern.Pattern, n track.Note) string {
	switch {
	case n.Row == 0:
		return "note on the cast-on: " + n.Text
	case n.Row > p.Grid.Rows():
		return "note on the bind-off: " + n.Text
	}
	return fmt.Sprintf("note on %s %d: %s", p.Form.RowWord(), max(n.Row, -n.Row), n.Text)
}

func size(p *pattern.Pattern) string {
	return fmt.Sprintf("%s, %s", track.Plural(p.Pegs, "peg"), track.Plural(p.Grid.Rows(), p.Form.RowWord()))
}

// shelved is one piece as the shelf shows it.
func (d *Desk) shelved(sum save.Summary) shelf.Piece {
	s := shelf.Piece{ID: sum.ID, Title: sum.Title, Worked: sum.Time, Trouble: sum.Err, Lies: lies(sum), At: sum.Place}
	if s.Title == "" {
		s.Title = sum.ID
	}
	if s.Trouble != "" {
		return s
	}
	text, err := sum.Pattern(d.Env, d.Root)
	p, _ := file.LoadFor(sum.Source, text, sum.Pegs)
	if err != nil || p == nil || !p.Holds(sum.Place) {
		s.Where = sum.Place.Phase.String()
		return s
	}
	s.Order = pattern.Order{Pattern: p, Way: d.way(p)}
	s.Details = append(s.Details, "last worked "+sum.Time.Format(dayAndTime)+"; begun from "+filepath.Base(sum.Source))
	if says := otherCount(p); says != "" {
		s.Details = append(s.Details, says)
	}
	if sum.Place.Phase == pattern.Finishing {
		made := ""
		if s.Finished, made = saysMade(p, sum.Made); made != "" {
			s.Details = append([]string{made}, s.Details...)
		}
	}
	s.Details = append(s.Details, details(s.Order)...)
	t := track.New(s.Order, sum.Place, d.Lead)
	s.Progress = t.Progress()
	switch z, _, ok := t.InZone(); {
	case ok:
		s.Where = fmt.Sprintf("%s, %s %d of %d", z.Name, p.Form.RowWord(), sum.Place.Row, p.Grid.Rows())
	case sum.Place.Phase == pattern.Finishing:
		s.Where = "finished, " + track.Plural(p.Grid.Rows(), p.Form.RowWord())
	default:
		s.Where = sum.Place.Phase.String()
	}
	return s
}

// way is how this maker works a design.
func (d *Desk) way(p *pattern.Pattern) pattern.Way {
	_, way := d.Way(&p.Design)
	return way
}

// lies is where a piece lies on the shelf.
func lies(sum save.Summary) shelf.Lies {
	switch {
	case sum.Err != "":
		return shelf.Unopened
	case sum.Shelf == save.PutAway:
		return shelf.Away
	case sum.Shelf == save.Deleted:
		return shelf.Deleted
	case sum.Place.Phase == pattern.Finishing:
		return shelf.OffLoom
	}
	return shelf.OnLoom
}

// details are what somebody needs to know who finds a piece in a bag after months: what it
// is, the pegs to mark, the loom, the yarn, the wrap and the gauge, as far as the pattern
// tells.
func details(o pattern.Order) []string {
	p := o.Pattern
	says := []string{p.Form.String() + ", " + size(p)}
	if p.About != "" {
		says = append([]string{strings.Join(strings.Fields(p.About), " ")}, says...)
	}
	made := []string{"knit as " + p.KnitAs.String()}
	if p.CastOn.Name != "" {
		made = append(made, p.CastOn.Name+" cast-on")
	}
	if l := p.Loom; l.Pegs > 0 {
		made = append(made, fmt.Sprintf("loom of %s", track.Plural(l.Pegs, "peg")))
	}
	if l := p.Loom; l.SpacingMM > 0 {
		made = append(made, fmt.Sprintf("%.3g mm from peg to peg", l.SpacingMM))
	}
	says = append(says, strings.Join(made, ", "))
	for i, y := range p.Yarns {
		if words := sayYarn(y); words != "" && i < 3 {
			says = append(says, words)
		}
	}
	says = append(says, zones(o))
	if g := p.Gauge; g.Stitches > 0 && g.Rows > 0 {
		says = append(says, fmt.Sprintf("%.4g stitches and %.4g %ss in 10 cm", g.Stitches, g.Rows, p.Form.RowWord()))
	}
	return says
}

// sayYarn says what is known of a yarn, or nothing.
func sayYarn(y pattern.YarnInfo) string {
	var words []string
	for _, w := range []string{y.Colour, y.Fibre} {
		if w != "" {
			words = append(words, w)
		}
	}
	if y.Weight != pattern.UnknownWeight {
		words = append(words, fmt.Sprintf("weight class %d", y.Weight))
	}
	if y.Metres > 0 && y.Grams > 0 {
		words = append(words, fmt.Sprintf("%.4g m in %.4g g", y.Metres, y.Grams))
	}
	if len(words) == 0 {
		return ""
	}
	return "yarn: " + strings.Join(words, ", ")
}

// zones says what a piece is made of, from the bottom, and which pegs are marked: "6 rows
// bottom border; 36 rows field, sides of 3, repeat of 6; marks at pegs 3 and 28".
func zones(o pattern.Order) string {
	p := o.Pattern
	var says []string
	for i := range p.Zones {
		z := &p.Zones[i]
		words := track.Plural(z.Rows(), p.Form.RowWord()) + " " + z.Name
		if z.Sides > 0 && !z.Border {
			words += fmt.Sprintf(", sides of %d", z.Sides)
		}
		if n := track.Repeat(z); n > 2 && n < z.Rows() {
			words += fmt.Sprintf(", repeat of %d", n)
		}
		says = append(says, words)
	}
	var marks []string
	for _, peg := range track.New(o, pattern.Start(), 0).MarkedPegs() {
		marks = append(marks, fmt.Sprint(peg))
	}
	if n := len(marks); n > 0 && n <= 8 {
		says = append(says, "marked pegs "+strings.Join(marks, ", "))
	}
	return strings.Join(says, "; ")
}
