package file

import (
	"bypeg/pattern"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// zone is one zone as read, and where its parts stand in the file.
type zone struct {
	plan   pattern.ZonePlan
	at     span      // its name, or its header
	count  span      // what says how many rows it has
	lines  [][]place // of each strip
	garter bool      // its sides are garter
}

// zoneReader reads the zones of a file in turn.
type zoneReader struct {
	*head
	weaver weaver
	known  map[string]*table // the zones read so far
	names  []string          // of all zones
	rows   int               // of all zones read so far
}

func readZones(r *report, h *head) []*zone {
	z := &zoneReader{head: h, known: map[string]*table{}}
	z.weaver = weaver{text: r.text, legend: h.legend, made: map[loomed]*fabric{}}
	for _, t := range h.zones {
		name, _ := t.entries["name"].value.(string)
		z.names = append(z.names, safetext.Clean(name))
	}
	for _, m := range h.motifs {
		z.drawn(m, 0) // its faults are told even where no zone uses it
	}
	var zones []*zone
	for i, t := range h.zones {
		if r.full() {
			break
		}
		zones = append(zones, z.read(t, i))
	}
	return zones
}

// read reads one zone. What it says wrong has been told when read returns, and the
// rest of the zone is read all the same.
func (z *zoneReader) read(t *table, i int) *zone {
	t.allow(zoneSection)
	zn := &zone{at: t.place("name")}
	p := &zn.plan
	p.Name = z.name(t, i)
	p.Like = z.copyLike(t, i)
	zn.count = t.place(t.countKey())
	p.Border = t.flag("border")
	p.KnitAs = z.plan.KnitAs
	if i, ok := t.choice("knit_as", pattern.WrapNames()); ok {
		p.KnitAs = pattern.Wrap(i)
	}
	p.Gauge = z.gaugeName(t)
	_, p.SlipEdge = t.choice("edge", []string{"slip"})
	if p.SlipEdge && z.plan.Form == pattern.Tube {
		t.failKey("edge", "leave edge out", "a tube has no edge whose stitch could be slipped")
	}
	yarn := z.yarn(t, 0)
	p.Sides = z.sides(t)
	z.sideRows(t, zn, yarn)
	if t.has("like") && t.like == nil {
		return zn // what it would have copied is not missing
	}
	z.fill(t, zn, yarn)
	z.total(t, zn)
	return zn
}

func (z *zoneReader) name(t *table, i int) string {
	name, ok := t.line("name", "field")
	switch {
	case !t.has("name"):
		t.failKey("name", `write name = "field"`, "the zone has no name")
	case ok && name == "":
		t.failKey("name", `write name = "field"`, "the zone's name is empty")
	case ok && z.known[name] != nil:
		t.failKey("name", "give each zone a name of its own", "there is another zone %s above", shown(name))
	case ok:
		z.known[name] = t
	}
	return name
}

func (z *zoneReader) gaugeName(t *table) string {
	name, ok := t.line("gauge", "seed")
	if !ok {
		return ""
	}
	if _, known := z.gauges[name]; known && name != "" {
		return name
	}
	t.failKey("gauge", didYouMean(name, z.gauges, "write its figures under [gauges."+name+"]"), "there is no gauge %s", shown(name))
	return ""
}

func (z *zoneReader) yarn(t *table, otherwise pattern.Yarn) pattern.Yarn {
	name, ok := t.line("yarn", "slate")
	if !ok {
		return otherwise
	}
	y, known := z.yarns[name]
	if !known {
		t.failKey("yarn", didYouMean(name, z.yarns, "name it under [yarns."+name+"]"), "there is no yarn %s", shown(name))
	}
	return y
}

func (z *zoneReader) sides(t *table) int {
	sides, ok := t.whole("sides", 0, pattern.MaxPegs)
	switch {
	case !ok || sides == 0:
		return 0
	case z.plan.Form == pattern.Tube:
		t.failKey("sides", "leave sides out", "a tube has no sides: its rounds close")
	case z.plan.Pegs > 0 && 2*sides >= z.plan.Pegs:
		t.failKey("sides", "", "sides of %d pegs leave nothing between them on %d pegs", sides, z.plan.Pegs)
	default:
		return sides
	}
	return 0
}

// sideRows reads the repeat of a side. Garter sides need no rows.
func (z *zoneReader) sideRows(t *table, zn *zone, yarn pattern.Yarn) {
	p := &zn.plan
	switch {
	case t.has("side_rows") && p.Sides == 0:
		if !t.has("sides") {
			t.failKey("side_rows", "add sides = 3", "there are side rows, but no sides")
		}
	case t.has("side_rows"):
		f := z.weaver.rows(t, "side_rows", room{pegs: p.Sides}, yarn)
		if t.told("side_rows", f) {
			p.SideRows = f.cells()
			zn.garter = isGarter(f.lines)
		}
	case p.Sides > 0:
		p.SideRows = pattern.GarterSide(p.Sides, yarn)
		zn.garter = true
	}
}

// total holds the zones read so far against the limits of a pattern.
func (z *zoneReader) total(t *table, zn *zone) {
	before := z.rows
	z.rows += zn.plan.Rows
	switch {
	case before > pattern.MaxRows || before*z.plan.Pegs > pattern.MaxCells: // told already
	case z.rows > pattern.MaxRows:
		t.failKey(t.countKey(), "", "with this zone the pattern has more than the %d rows it may have", pattern.MaxRows)
	case z.rows*z.plan.Pegs > pattern.MaxCells:
		t.failKey(t.countKey(), "", "with this zone the pattern has %d stitches; it may have %d", z.rows*z.plan.Pegs, pattern.MaxCells)
	}
}

// rowsOf is how many rows a zone has whose repeat has so many.
func (z *zoneReader) rowsOf(t *table, zn *zone, repeat int, garter bool) int {
	if t.has("times") && t.has("height") {
		t.failKey("height", "keep one of the two", "a zone is so many times its repeat, or so high, but not both")
	}
	if times, ok := t.whole("times", 1, pattern.MaxRows); ok {
		return min(times, pattern.MaxCells/repeat) * repeat
	}
	wanted, ok := t.length("height", "24 cm")
	if !ok {
		return repeat
	}
	density, derived := z.density(t, garter)
	if density <= 0 {
		return repeat
	}
	even := zn.garter && !zn.plan.Border
	h := measure.RowsFor(wanted, density, repeat, even, pattern.MaxRows)
	if e := t.entries["height"]; !e.copied && (h.Rounded() || derived) {
		hint := ""
		if derived {
			hint = "garter_rows is not in the gauge and was derived: twice the stitches"
		}
		z.rep.notef(e.at.value, hint, "%s", h)
	}
	return h.Rows
}

// density is the rows in 10 cm of a zone's fabric, and whether they were derived.
func (z *zoneReader) density(t *table, garter bool) (d measure.Density, derived bool) {
	name, _ := t.entries["gauge"].value.(string)
	d, derived = rowDensity(z.gauges[safetext.Clean(name)], garter)
	if d <= 0 {
		t.failKey("height", "write rows, stitches and over under [gauge], or times instead of height",
			"a height needs a gauge with its rows")
	}
	return d, derived
}

// rowDensity is the rows in 10 cm that a gauge gives, 0 where it has none, and whether
// they were derived from its stitches.
func rowDensity(g pattern.Gauge, garter bool) (d measure.Density, derived bool) {
	switch {
	case garter && g.GarterRows > 0:
		return measure.Density(g.GarterRows), false
	case g.Name != "" && g.Rows > 0: // measured on that very texture
		return measure.Density(g.Rows), false
	case garter && g.Stitches > 0:
		return measure.GarterRows(measure.Density(g.Stitches)), true
	}
	return measure.Density(g.Rows), false
}

// isGarter tells whether lines are knit and purl in turn, each from end to end.
func isGarter(lines []pattern.Line) bool {
	last := pattern.FaceNone
	for _, l := range lines {
		face := wholeFace(l.Cells)
		if face == pattern.FaceNone || face == last {
			return false
		}
		last = face
	}
	return len(lines)%2 == 0
}

// wholeFace is knit or purl where all worked cells show it, and none otherwise.
func wholeFace(parts ...[]pattern.Cell) pattern.Face {
	face := pattern.FaceNone
	for _, cells := range parts {
		for _, c := range cells {
			if c.Stitch == pattern.NoStitch || c.Stitch == pattern.Slip || c.Stitch == pattern.SlipFront {
				continue
			}
			f := c.Stitch.Face()
			if f != pattern.FaceKnit && f != pattern.FacePurl || face != pattern.FaceNone && f != face {
				return pattern.FaceNone
			}
			face = f
		}
	}
	return face
}
