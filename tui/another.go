package tui

import (
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// BeginAnother begins a piece by the very rows of one that was made: rows are counted, not
// measured, so that the two match. Where those are not the rows of the pattern's file any
// more, that is a change on purpose, told whenever the new piece is opened.
func (d *Desk) BeginAnother(id string) (*Opened, error) {
	o, made, _, err := d.lookAt(id)
	if err != nil {
		return nil, err
	}
	text := made.Pattern()
	src := Source{Name: made.Source(), Shown: made.Source(), Text: text, Pegs: made.Pegs()}
	words := fmt.Sprintf("made like %s: %s", made.Title(), track.Plural(o.Pattern.Grid.Rows(), o.Pattern.Form.RowWord()))
	now, err := d.sourceText(made.Source())
	filed, _ := file.LoadFor(src.Shown, now, src.Pegs)
	if err != nil || filed == nil || filed.Form != o.Pattern.Form || filed.Pegs != o.Pattern.Pegs { // it is gone, or another pattern by now
		return d.Begin(src)
	}
	src.Text = now
	begun, err := d.Begin(src)
	if err != nil || compare(filed, o.Pattern, text, pattern.Start()).Same() {
		return begun, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	why := d.changePlan(text, begun.Opening.Place, words)
	id = d.piece.ID()
	if err := d.layAway(); err != nil {
		return nil, err
	}
	begun, err = d.take(id, save.Open)
	if err == nil && why != nil {
		begun.Opening.Notices = append([]string{"it goes by the pattern, not by " + made.Title() + ": " + whyRefused(why)}, begun.Opening.Notices...)
	}
	return begun, err
}
