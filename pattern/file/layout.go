package file

import (
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// Layout is how a file says its widths and heights, key by key, for those who change
// them (Rewrite). It holds what a pattern no longer tells: the rows as written, and
// which keys stand in a zone and which are copied.
type Layout struct {
	Markers []int // as written
	Zones   []ZoneLayout
	Motifs  []MotifLayout // those that zones use
}

// ZoneLayout is one zone as it is written.
type ZoneLayout struct {
	Like     int            // the zone it copies from, counted from 0; -1 for none
	Sides    int            // border pegs at both edges
	SideRows []string       // as written; none for garter
	Strips   []StripLayout  // what lies between the sides, left to right; one for rows or a chart, none for a motif
	Motif    int            // its place in Layout.Motifs, or -1
	Times    int            // as written, or 0
	Height   measure.Length // as written, or 0
	Even     bool           // garter lies beside its rows: a height is rounded to an even number of them
	Garter   bool           // its rows are garter: a height goes by the garter rows of its gauge
	OwnSides, OwnStrips,
	OwnTimes, OwnHeight bool // written in the zone, not copied
}

// StripLayout is one strip as it is written.
type StripLayout struct {
	Pegs  int      // as written, or 0 where it is all there are
	Rows  []string // as written; none for a chart
	Chart int      // how many stitches wide its chart is drawn, or 0
}

// MotifLayout is a motif as it is drawn.
type MotifLayout struct {
	Name       string
	Pegs, Rows int
	Col, Row   int // where at places its lower left corner, from 1; 0 where it is in the middle
}

// LayoutOf is the layout of a file that loads; of one that doesn't it is empty.
func LayoutOf(text []byte) Layout {
	s := strings.TrimPrefix(string(text), "\ufeff")
	root, fault := scan(s, patterns)
	if fault != nil {
		return Layout{}
	}
	values, fault := decode(s)
	if fault != nil {
		return Layout{}
	}
	r := newReport("", s)
	h := readHead(r, &table{rep: r, entries: entriesOf(values, root)}, 0)
	zones := readZones(r, h)
	if r.failed {
		return Layout{}
	}
	l := Layout{Markers: h.plan.Mark}
	for i, t := range h.zones {
		l.Zones = append(l.Zones, h.layoutOf(&l, zones[i], t))
	}
	return l
}

// layoutOf is the layout of a zone that has been read.
func (h *head) layoutOf(l *Layout, zn *zone, t *table) ZoneLayout {
	z := ZoneLayout{Like: -1, Motif: -1, Sides: zn.plan.Sides, SideRows: t.texts("side_rows"), Even: zn.garter && !zn.plan.Border}
	for i := range l.Zones { // those above it
		if zn.plan.Like != "" && safetext.Clean(h.zoneName(i)) == zn.plan.Like {
			z.Like = i
		}
	}
	z.OwnSides, z.OwnTimes, z.OwnHeight = t.own("sides"), t.own("times"), t.own("height")
	z.Times, _ = t.whole("times", 1, maxTimes)
	z.Height, _ = t.length("height", "24 cm")
	switch {
	case t.has("motif"):
		z.OwnStrips = t.own("motif")
		z.Motif = h.motifLayout(l, t)
	case t.has("strip"):
		z.OwnStrips = t.own("strip")
		for _, s := range t.tables("strip", stripHeader) {
			pegs, _ := s.whole("pegs", 1, maxTimes)
			z.Strips = append(z.Strips, StripLayout{Pegs: pegs, Rows: s.texts("rows")})
		}
	default:
		z.OwnStrips = t.own("rows") || t.own("chart")
		z.Strips = []StripLayout{{Rows: t.texts("rows")}}
	}
	z.Garter = z.Motif < 0
	for i := range z.Strips {
		if z.Strips[i].Rows == nil {
			z.Strips[i].Chart = zn.plan.Strips[i].Pegs
		}
		z.Garter = z.Garter && isGarter(zn.plan.Strips[i].Lines)
	}
	return z
}

// RowsFor is how many rows the zone has at a height, where one repeat has so many and
// the gauge that goes for it is g. It is 0 rows where the gauge has none.
func (z *ZoneLayout) RowsFor(height measure.Length, repeat int, g pattern.Gauge) int {
	d, _ := rowDensity(g, z.Garter)
	if d <= 0 {
		return 0
	}
	return measure.RowsFor(height, d, repeat, z.Even, pattern.MaxRows).Rows
}

// HeightFor is the height at which the zone has so many rows by RowsFor, to as few
// decimals of a centimetre as that takes, and whether there is one.
func (z *ZoneLayout) HeightFor(rows, repeat int, g pattern.Gauge) (text string, ok bool) {
	d, _ := rowDensity(g, z.Garter)
	if d <= 0 {
		return "", false
	}
	for decimals := 1; decimals <= 4; decimals++ {
		text = measure.Number(d.Length(float64(rows)).In(measure.Centimetre), decimals) + " cm"
		if l, err := measure.ParseLength(text); err == nil && z.RowsFor(l, repeat, g) == rows {
			return text, true
		}
	}
	return "", false
}

// maxTimes is above all that could have been read.
const maxTimes = 1 << 30

func (h *head) zoneName(i int) string {
	name, _ := h.zones[i].entries["name"].value.(string)
	return name
}

// motifLayout finds or adds the motif of a zone.
func (h *head) motifLayout(l *Layout, t *table) int {
	name, _ := t.line("motif", "leaf")
	for i, m := range l.Motifs {
		if m.Name == name {
			return i
		}
	}
	m := h.motifs[name]
	w := weaver{legend: h.legend, made: map[loomed]*fabric{}}
	f := w.chart(m, "chart", room{}, 0)
	motif := MotifLayout{Name: name, Pegs: len(f.lines[0].Cells), Rows: len(f.lines)}
	if at, placed, _ := m.corner(); placed {
		motif.Col, motif.Row = at.col+1, at.row+1
	}
	l.Motifs = append(l.Motifs, motif)
	return len(l.Motifs) - 1
}

// own tells whether a table has a key itself and not by "like".
func (t *table) own(key string) bool {
	e, ok := t.entries[key]
	return ok && !e.copied
}

// texts are the texts of a list that has been read; nil where there is none.
func (t *table) texts(key string) []string {
	list, _ := t.entries[key].value.([]any)
	var texts []string
	for _, v := range list {
		s, _ := v.(string)
		texts = append(texts, s)
	}
	return texts
}
