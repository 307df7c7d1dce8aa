package fit

import (
	"slices"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
)

// changes are the keys that make the file a candidate's. Keys that say it already are
// not among them.
func (r *resizer) changes(pl plan) []file.Change {
	var all []file.Change
	set := func(in file.Header, key string, value any) {
		all = append(all, file.Change{In: in, Key: key, Value: value})
	}
	if pl.pegs != r.old.Pegs {
		set(file.Header{}, "pegs", pl.pegs)
	}
	if marks := r.marks(pl.pegs); !slices.Equal(marks, r.layout.Markers) {
		set(file.Header{}, "markers", marks)
	}
	all = append(all, r.gaugeChanges()...)
	if w := r.wish.Loom; w.Pegs > 0 && w.Pegs != r.old.Loom.Pegs {
		set(file.Under("loom"), "pegs", w.Pegs)
	}
	if w := r.wish.Loom; w.SpacingMM > 0 && w.SpacingMM != r.old.Loom.SpacingMM {
		set(file.Under("loom"), "spacing", r.wish.spacingText())
	}
	if first := r.firstPeg(pl.pegs); first != r.old.Loom.FirstPeg {
		set(file.Under("loom"), "first_peg", first)
	}
	if w := r.wish.Weight; w != pattern.UnknownWeight && w != r.old.Yarns[0].Weight {
		set(file.Under("yarn"), "weight", w)
	}
	for i, m := range r.layout.Motifs {
		if col := r.motifColumn(i, pl.pegs); m.Col > 0 && col != m.Col {
			set(file.Under("motif", m.Name), "at", []int{col, m.Row})
		}
	}
	return append(all, r.zoneChanges(pl)...)
}

// gaugeChanges are those of the gauges. All figures are told over 10 cm then.
func (r *resizer) gaugeChanges() []file.Change {
	var all []file.Change
	gauge := func(in file.Header, was, is pattern.Gauge) {
		if was == is {
			return
		}
		all = append(all, file.Change{In: in, Key: "over", Value: "10 cm"})
		for _, f := range []struct {
			key   string
			value float64
		}{{"stitches", is.Stitches}, {"rows", is.Rows}, {"garter_rows", is.GarterRows}} {
			if f.value > 0 {
				all = append(all, file.Change{In: in, Key: f.key, Value: f.value})
			}
		}
	}
	gauge(file.Under("gauge"), r.old.Gauge, r.design.Gauge)
	for i, g := range r.design.Gauges {
		gauge(file.Under("gauges", g.Name), r.old.Gauges[i], g)
	}
	return all
}

// said is what a zone says, itself or by copying, once the changes above it are made.
type said struct {
	sides, times int
	height       measure.Length
}

// zoneChanges are those of the zones. A zone that copies another is left alone where
// what it copies is right.
func (r *resizer) zoneChanges(pl plan) []file.Change {
	var all []file.Change
	now := make([]said, len(r.layout.Zones))
	for i := range r.layout.Zones {
		l := &r.layout.Zones[i]
		now[i] = said{l.Sides, l.Times, l.Height}
		if l.Like >= 0 && !l.OwnSides {
			now[i].sides = now[l.Like].sides
		}
		if l.Like >= 0 && !l.OwnTimes && !l.OwnHeight {
			now[i].times, now[i].height = now[l.Like].times, now[l.Like].height
		}
		if sides := r.sides[l.Sides]; sides != now[i].sides {
			now[i].sides = sides
			all = append(all, file.Change{In: file.InZone(i), Key: "sides", Value: sides})
		}
		all = append(all, r.rowsChange(i, pl.rows[i], &now[i])...)
		if len(l.Strips) > 1 && l.OwnStrips {
			for j, s := range l.Strips {
				if pl.strip[i][j] != s.Pegs {
					all = append(all, file.Change{In: file.InStrip(i, j), Key: "pegs", Value: pl.strip[i][j]})
				}
			}
		}
	}
	return all
}

// rowsChange gives a zone so many rows, by a height where it has one.
func (r *resizer) rowsChange(i, rows int, now *said) []file.Change {
	l, repeat, gauge := &r.layout.Zones[i], r.repeat(i), r.gaugeOf(i)
	have := repeat
	switch {
	case now.times > 0:
		have = now.times * repeat
	case now.height > 0:
		have = l.RowsFor(now.height, repeat, gauge)
	}
	if have == rows {
		return nil
	}
	if now.height > 0 && now.times == 0 {
		text, ok := l.HeightFor(rows, repeat, gauge)
		if !ok {
			return nil // the candidate won't come out, and is not offered
		}
		now.height, _ = measure.ParseLength(text)
		return []file.Change{{In: file.InZone(i), Key: "height", Value: text}}
	}
	now.times = rows / repeat
	return []file.Change{{In: file.InZone(i), Key: "times", Value: now.times}}
}

// gaugeOf is the new gauge that a zone's height goes by.
func (r *resizer) gaugeOf(i int) pattern.Gauge {
	for _, g := range r.design.Gauges {
		if g.Name == r.old.Zones[i].Gauge {
			return g
		}
	}
	return r.design.Gauge
}

// motifColumn is where a placed motif begins on so many pegs.
func (r *resizer) motifColumn(motif, pegs int) int {
	for i := range r.layout.Zones {
		if z := &r.layout.Zones[i]; z.Motif == motif {
			return movedTo(r.layout.Motifs[motif], r.old.Pegs-2*z.Sides, pegs-2*r.sides[z.Sides]) + 1
		}
	}
	return r.layout.Motifs[motif].Col
}

// firstPeg is the loom's own number of the work's peg 1. It stays where the work still
// fits behind it; else the work lies in the middle of the loom.
func (r *resizer) firstPeg(pegs int) int {
	first, loom := r.old.Loom.FirstPeg, r.design.Loom.Pegs
	if first == 0 || loom == 0 || first+pegs-1 <= loom {
		return first
	}
	return max(1, (loom-pegs)/2+1)
}

// marks are the maker's own markers on so many pegs: as far from the nearer edge as they
// were, and farther where the border beside them grows.
func (r *resizer) marks(pegs int) []int {
	widest := 0
	for _, z := range r.layout.Zones {
		widest = max(widest, z.Sides)
	}
	wider := r.sides[widest] - widest
	if pegs == r.old.Pegs && wider == 0 {
		return r.layout.Markers
	}
	var marks []int
	for _, m := range r.layout.Markers {
		fromEnd := r.old.Pegs + 1 - m
		at := m + wider
		switch {
		case m == fromEnd:
			at = (pegs + 1) / 2
		case m > fromEnd:
			at = pegs + 1 - (fromEnd + wider)
		}
		if at = min(max(at, 1), pegs); !slices.Contains(marks, at) {
			marks = append(marks, at)
		}
	}
	return marks
}
