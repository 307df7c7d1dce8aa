package file

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
)

// fill lays the fabric between the sides of a zone and counts its rows.
func (z *zoneReader) fill(t *table, zn *zone, yarn pattern.Yarn) {
	p := &zn.plan
	p.Rows = 1
	in := room{pegs: z.plan.Pegs - 2*p.Sides, sides: p.Sides}
	ways := slices.DeleteFunc(slices.Clone(alternatives[0]), func(key string) bool { return !t.has(key) })
	switch {
	case len(ways) == 0:
		t.failKey("rows", `write rows = ["k", "p"], a chart, a motif or strips`, "the zone has no rows")
		return
	case len(ways) > 1:
		t.failKey(ways[1], "keep one of them", "a zone has either %s", strings.Join(ways, " or "))
		return
	}
	switch ways[0] {
	case "rows", "chart":
		z.addStrip(t, zn, in, "", yarn)
	case "strip":
		z.strips(t, zn, in, yarn)
	case "motif":
		z.motif(t, zn, in.pegs, yarn)
		return
	}
	repeat, garter := 1, true
	for _, s := range p.Strips {
		repeat = max(repeat, len(s.Lines))
		garter = garter && isGarter(s.Lines)
	}
	p.Rows = z.rowsOf(t, zn, repeat, garter)
}

// strips reads strips that lie side by side, left to right as seen.
func (z *zoneReader) strips(t *table, zn *zone, in room, yarn pattern.Yarn) {
	width, last := 0, 0
	for _, s := range t.tables("strip", stripHeader) {
		s.allow(stripSection)
		gauge := z.gaugeName(s)
		pegs, ok := s.whole("pegs", 1, pattern.MaxPegs)
		switch {
		case !s.has("pegs"):
			s.failKey("pegs", "write pegs = 6, or how many it takes", "the strip does not say how many pegs it takes")
		case !ok:
		case s.has("rows") == s.has("chart"):
			s.failKey("rows", "", "a strip has either rows or a chart")
		default:
			z.addStrip(s, zn, room{pegs: pegs}, gauge, z.yarn(s, yarn))
		}
		width, last = width+pegs, pegs
		t.failed = t.failed || s.failed
	}
	if width != in.pegs && !t.failed && z.plan.Pegs > 0 {
		t.failKey("strip", stripHint(in, width, last), "the strips take %d pegs; there are %d for them: %s", width, in.pegs, missBy(width, in.pegs))
	}
}

// stripHint says what would make the strips fit.
func stripHint(in room, width, last int) string {
	fit := last + in.pegs - width
	switch {
	case in.sides > 0 && width == in.whole():
		return in.between("the strips", "write")
	case fit > 0:
		return fmt.Sprintf("pegs = %d in the last strip would fit", fit)
	}
	return "leave a strip out, or make several narrower"
}

// addStrip makes one strip of the rows or the chart of a table.
func (z *zoneReader) addStrip(t *table, zn *zone, in room, gauge string, yarn pattern.Yarn) {
	if in.pegs < 1 { // how many there are was not said
		return
	}
	key, weave := "rows", z.weaver.rows
	if t.has("chart") {
		key, weave = "chart", z.weaver.chart
	}
	f := weave(t, key, in, yarn)
	if !t.told(key, f) {
		return
	}
	zn.plan.Strips = append(zn.plan.Strips, pattern.StripPlan{Pegs: in.pegs, Gauge: gauge, Lines: f.lines})
	zn.lines = append(zn.lines, f.places)
}

// told tells the faults and doubts of the fabric under a key, and whether it can be used.
func (t *table) told(key string, f *fabric) bool {
	if f == nil {
		return false // told already
	}
	for _, one := range f.faults {
		t.fail(t.entries[key], one.at, one.hint, "%s", one.msg)
	}
	for _, one := range f.doubts {
		t.rep.warnf(one.at, one.hint, "%s", one.msg)
	}
	return len(f.faults) == 0
}

// countKey is the key that says how many rows a zone has.
func (t *table) countKey() string {
	for _, key := range append(slices.Clone(alternatives[1]), alternatives[0]...) {
		if t.has(key) {
			return key
		}
	}
	return "name"
}
