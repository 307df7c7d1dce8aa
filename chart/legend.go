package chart

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// key collects what is drawn, so that it can be explained.
type key struct {
	stitches map[drawn]bool
	edge     bool // the edge of a border
	mark     bool // a marked peg
}

// drawn is what fixes the symbol of a cell.
type drawn struct {
	cell pattern.Cell
	look look
}

func newKey() *key { return &key{stitches: map[drawn]bool{}} }

// note adds a stitch. A nil key takes no notes.
func (k *key) note(c pattern.Cell, l look) {
	if k != nil {
		k.stitches[drawn{c, l}] = true
	}
}

// noteWindow adds what stands around the stitches of a view in one of its windows.
func (k *key) noteWindow(p *pattern.Pattern, v View, w Window) {
	for col := w.From; col < w.To; col++ {
		k.mark = k.mark || p.Marked(col)
	}
	for i := p.ZoneIndex(v.First); w.Pitch == 2 && i <= p.ZoneIndex(v.Last); i++ {
		z := &p.Zones[i]
		for _, col := range []int{z.Sides, p.Pegs - z.Sides} {
			k.edge = k.edge || isEdge(z, col, p.Pegs) && col >= w.From && col <= w.To
		}
	}
}

// sorted is what was drawn in the order in which it is explained: the field's
// stitches before the border's, pegs not in use last.
func (k *key) sorted() []drawn {
	var all []drawn
	for d := range k.stitches {
		all = append(all, d)
	}
	slices.SortFunc(all, func(a, b drawn) int {
		// Subtracting 1 turns NoStitch, which is 0, into the largest of all.
		return cmp.Or(cmp.Compare(a.look, b.look), cmp.Compare(a.cell.Stitch-1, b.cell.Stitch-1), cmp.Compare(a.cell.Yarn, b.cell.Yarn))
	})
	return all
}

// entry is one symbol of the key.
type entry struct {
	symbol  string // a cross is drawn whole
	painted string
	name    string
	worked  bool // the stitch takes yarn
	yarns   []pattern.Yarn
}

// Legend explains the symbols that occur in a view, and no others, in lines of at
// most v.Width cells.
func (c *Chart) Legend(v View) []string {
	v = c.clamped(v)
	k := newKey()
	for row := v.First; row <= v.Last; row++ {
		z := c.pattern.ZoneAt(row)
		for i, cell := range c.cells(row, v.From, v.To) {
			k.note(cell, lookAt(z, v.From+i, c.pattern.Pegs))
		}
	}
	for _, w := range c.Parts(v) {
		k.noteWindow(c.pattern, v, w)
	}
	return c.legend(k, v.Width)
}

func (c *Chart) legend(k *key, width int) []string {
	entries := c.entries(k)
	yarns := len(c.pattern.Yarns) > 1 || slices.ContainsFunc(entries, func(e entry) bool { return slices.Max(e.yarns) > 0 })
	items := []word{{Faint, "key", ""}}
	for _, e := range entries {
		text := " " + e.name
		if yarns && e.worked {
			text += c.yarnText(e.yarns)
		}
		if strings.TrimSpace(e.symbol) == "" {
			e.symbol, e.painted = "blank", "blank"
		}
		items = append(items, word{Text, e.symbol + text, e.painted + c.paint(Text, text)})
	}
	if k.edge {
		items = append(items, c.sign(Faint, c.symbols.edge, "edge of the border"))
	}
	if k.mark {
		items = append(items, c.sign(Marker, c.symbols.over, "marked peg"))
	}
	return c.flow(items, "   ", width)
}

func (c *Chart) entries(k *key) []entry {
	var entries []entry
	at := map[string]int{} // where each symbol's entry is
	for _, d := range k.sorted() {
		e := c.entryOf(d)
		i, ok := at[e.symbol]
		if !ok {
			i = len(entries)
			at[e.symbol] = i
			entries = append(entries, e)
		}
		if yarns := &entries[i].yarns; !slices.Contains(*yarns, d.cell.Yarn) {
			*yarns = append(*yarns, d.cell.Yarn)
			slices.Sort(*yarns)
		}
	}
	return entries
}

func (c *Chart) entryOf(d drawn) entry {
	s := d.cell.Stitch
	e := entry{name: s.String(), worked: s != pattern.NoStitch && s != pattern.Slip && s != pattern.SlipFront}
	parts := []pattern.Stitch{s}
	if cross, _, ok := s.Cross(); ok {
		parts = cross.Parts()
	}
	for _, part := range parts {
		p := painted{pattern.Cell{Stitch: part, Yarn: d.cell.Yarn}, d.look, worked}
		e.symbol += c.symbols.of(p.cell, p.look)
		e.painted += c.symbol(p)
	}
	if d.look == inBorder && e.symbol != c.symbols.of(d.cell, inField) && len(parts) == 1 {
		e.name += ", border"
	}
	return e
}

// yarnText names the yarns of a symbol: ", yarn 2: rust".
func (c *Chart) yarnText(yarns []pattern.Yarn) string {
	var names []string
	for _, y := range yarns {
		name := fmt.Sprint(int(y) + 1)
		if int(y) < len(c.pattern.Yarns) {
			info := c.pattern.Yarns[y]
			if told := safetext.Clean(cmp.Or(info.Colour, info.Name)); told != "" {
				name += ": " + told
			}
		}
		names = append(names, name)
	}
	if len(names) == 1 {
		return ", yarn " + names[0]
	}
	return ", yarns " + strings.Join(names, ", ")
}

// sign is a key entry for what is no stitch.
func (c *Chart) sign(t Tone, symbol, name string) word {
	return word{Text, symbol + " " + name, c.paint(t, symbol) + c.paint(Text, " "+name)}
}

// word is a piece of running text that is not broken.
type word struct {
	tone    Tone
	text    string
	painted string // if it takes more than one tone
}

// flow sets words into lines of at most width cells. A word that is longer than a
// line is cut.
func (c *Chart) flow(words []word, between string, width int) []string {
	var lines []string
	var line strings.Builder
	used := 0
	for _, w := range words {
		n := safetext.Width(w.text)
		if used > 0 && used+len(between)+n > width {
			lines = append(lines, line.String())
			line.Reset()
			used = 0
		}
		if used > 0 {
			line.WriteString(between)
			used += len(between)
		}
		switch {
		case n > width:
			w.text = safetext.Cut(w.text, width)
			n = safetext.Width(w.text)
			line.WriteString(c.paint(w.tone, w.text))
		case w.painted != "":
			line.WriteString(w.painted)
		default:
			line.WriteString(c.paint(w.tone, w.text))
		}
		used += n
	}
	if used > 0 {
		lines = append(lines, line.String())
	}
	return lines
}
