package fit

import (
	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// Size is how large a piece comes out. What nothing is known of is 0.
type Size struct {
	Width  Range[measure.Length] // of a tube, all round
	Height Range[measure.Length]
	Zones  []ZoneSize // as the pattern has them
	Gauge  Gauge      // what it was reckoned by

	ByGarter, ByRows bool // part of the height goes by the garter rows, by the plain rows
	ByOwn            bool // part of it goes by a gauge measured on the texture
	WidthEstimated   bool // the width goes by stitches that nobody measured
}

// ZoneSize is how large a zone comes out.
type ZoneSize struct {
	Width, Height Range[measure.Length]
	Sides         Range[measure.Length] // how high its sides would be by themselves; 0 without sides
	Garter        float64               // how much of it is garter, by its texture: 0 plain, 1 garter
}

// SizeOf is how large a pattern comes out.
//
// Its width is that of the widest zone that is not border: stitches by the stitch gauge. Its
// height is summed row by row: plain rows by the row gauge, garter by the garter rows, and
// other textures between the two, by how many columns change between knit and purl to the
// rows beside in the zone. A gauge measured on the very texture goes before that.
func SizeOf(p *pattern.Pattern) Size {
	s := Size{Gauge: GaugeOf(&p.Design)}
	m := meter{p: p, gauge: s.Gauge, changes: map[changeKey]int{}}
	var border Range[measure.Length]
	for i := range p.Zones {
		z := m.zone(&p.Zones[i])
		s.Zones = append(s.Zones, z)
		s.Height = s.Height.plus(z.Height)
		switch {
		case p.Zones[i].Border:
			border = widest(border, z.Width)
		default:
			s.Width = widest(s.Width, z.Width)
		}
	}
	if !s.Width.Known() {
		s.Width = border
	}
	s.ByGarter, s.ByRows, s.ByOwn, s.WidthEstimated = m.byGarter, m.byRows, m.byOwn, m.guessed
	return s
}

// HeightEstimated tells whether the height goes by an estimate.
func (s *Size) HeightEstimated() bool {
	return s.ByRows && s.Gauge.Rows.From.Estimated() || s.ByGarter && s.Gauge.Garter.From.Estimated()
}

// GarterDerived tells whether part of the height goes by garter rows that nobody measured
// but that follow from the stitches.
func (s *Size) GarterDerived() bool { return s.ByGarter && s.Gauge.Garter.From == Derived }

func widest(a, b Range[measure.Length]) Range[measure.Length] {
	if b.Likely > a.Likely {
		return b
	}
	return a
}

// meter measures zones.
type meter struct {
	p       *pattern.Pattern
	gauge   Gauge
	changes map[changeKey]int

	byGarter, byRows, byOwn, guessed bool
}

// changeKey is two rows, one above the other, in columns from to.
type changeKey struct {
	below, above *pattern.Row
	from, to     int
}

func (m *meter) zone(z *pattern.Zone) ZoneSize {
	widestRow := m.widestRow(z)
	var size ZoneSize
	pegs, n := 0, float64(z.Rows())
	for _, s := range z.Strips {
		g := m.gaugeOf(z, s)
		used := 0
		for _, c := range widestRow.Cells()[s.From:s.To] {
			used += c.Stitch.LoopsOut()
		}
		m.guessed = m.guessed || g.Stitches.From.Estimated()
		size.Width = size.Width.plus(g.Stitches.length(float64(used)))
		garter := m.garterRows(z, s)
		height := g.Rows.length(n - garter).plus(g.Garter.length(garter))
		if s.Side {
			size.Sides = height
			continue
		}
		m.note(g, garter, n)
		wide := s.To - s.From
		pegs += wide
		size.Height = size.Height.plus(height.by(float64(wide)))
		size.Garter += garter / n * float64(wide)
	}
	size.Height = size.Height.by(1 / float64(pegs))
	size.Garter /= float64(pegs)
	return size
}

// note notes which figures a height goes by.
func (m *meter) note(g Gauge, garter, n float64) {
	if g.Rows == g.Garter {
		m.byOwn = true
		return
	}
	m.byGarter = m.byGarter || garter > 0
	m.byRows = m.byRows || garter < n
}

func (m *meter) gaugeOf(z *pattern.Zone, s pattern.Strip) Gauge {
	name := s.Gauge
	if name == "" && !s.Side {
		name = z.Gauge
	}
	return m.gauge.named(&m.p.Design, name)
}

func (m *meter) widestRow(z *pattern.Zone) *pattern.Row {
	widest := m.p.Grid.Row(z.First)
	for row := z.First + 1; row <= z.Last; row++ {
		if r := m.p.Grid.Row(row); r.Stitches() > widest.Stitches() {
			widest = r
		}
	}
	return widest
}

// garterRows is how many rows of a strip count as garter: for each row the mean of the
// columns that change to the rows beside it in the zone. A zone of a single row goes by
// the row below it, such as the knit row before the bind-off.
func (m *meter) garterRows(z *pattern.Zone, s pattern.Strip) float64 {
	wide := float64(s.To - s.From)
	if z.First == z.Last {
		switch {
		case z.First > 1:
			return float64(m.changing(z.First-1, s)) / wide
		case z.Last < m.p.Grid.Rows():
			return float64(m.changing(z.Last, s)) / wide
		}
		return 0
	}
	changed := 0.0
	for row := z.First; row < z.Last; row++ {
		n := float64(m.changing(row, s)) / wide
		changed += n
		if row == z.First { // the rows at the ends have one neighbour: it counts for both
			changed += n / 2
		}
		if row+1 == z.Last {
			changed += n / 2
		}
	}
	return changed
}

// changing is how many columns of a strip change between knit and purl from a row to the
// one above.
func (m *meter) changing(row int, s pattern.Strip) int {
	key := changeKey{m.p.Grid.Row(row), m.p.Grid.Row(row + 1), s.From, s.To}
	n, known := m.changes[key]
	if known || key.below == key.above {
		return n
	}
	below, above := key.below.Cells(), key.above.Cells()
	for col := s.From; col < s.To; col++ {
		if a, b := below[col].Stitch.Face(), above[col].Stitch.Face(); a != b && knitOrPurl(a) && knitOrPurl(b) {
			n++
		}
	}
	m.changes[key] = n
	return n
}

func knitOrPurl(f pattern.Face) bool { return f == pattern.FaceKnit || f == pattern.FacePurl }
