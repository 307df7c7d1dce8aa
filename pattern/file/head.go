package file

import (
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// version is the kind of pattern file this program reads.
const version = 1

// head is all of a file but its zones.
type head struct {
	rep    *report
	plan   pattern.Plan
	gauges map[string]pattern.Gauge // by name; the piece's own has none
	yarns  map[string]pattern.Yarn
	legend *legend
	motifs map[string]*table
	zones  []*table // not yet read
}

func readHead(r *report, top *table, pegs int) *head {
	h := &head{rep: r}
	readVersion(top)
	top.allow(topSection)
	d := &h.plan.Design
	if d.Title, _ = top.line("title", "Mossgate Mat"); d.Title == "" {
		d.Title = "Untitled"
	}
	d.About = readAbout(top)
	if i, ok := top.choice("use", pattern.UseNames()); ok {
		d.Use = pattern.Use(i)
	}
	if i, ok := top.choice("form", []string{pattern.Panel.String(), pattern.Tube.String()}); ok {
		d.Form = pattern.Form(i)
	}
	if !top.has("pegs") {
		top.failKey("pegs", "write pegs = 26, or how many it takes, above the first header", "the pattern does not say how many pegs it takes")
	}
	d.Pegs, _ = top.whole("pegs", 1, pattern.MaxPegs)
	if pegs > 0 && pegs <= pattern.MaxPegs && pegs != d.Pegs {
		d.StatedPegs, d.Pegs = d.Pegs, pegs
	}
	d.CastOn = readCastOn(top)
	d.WrittenFor, d.Way = readWay(top)
	if i, ok := top.choice("knit_as", pattern.WrapNames()); ok {
		d.KnitAs = pattern.Wrap(i)
	}
	h.readMarkers(top)
	h.readGauges(top)
	d.Swatch = readSwatch(top.table("swatch"))
	d.Loom = readLoom(top.table("loom"))
	h.readYarns(top)
	h.legend = readLegend(top.table("legend"))
	h.motifs = readMotifs(top.table("motif"))
	h.zones = top.tables("zone", zoneHeader)
	if !top.has("zone") {
		top.failKey("zone", `write [[zone]], and below it name = "field" and rows = ["k", "p"]`, "the pattern has no zone")
	}
	return h
}

func readVersion(top *table) {
	e, ok := top.entries["pattern"]
	if !ok {
		top.failKey("pattern", "write pattern = 1 as the first line", "this is no pattern file: it does not begin with pattern = 1")
		return
	}
	if e.value != int64(version) {
		top.fail(e, e.at.value, "write pattern = 1, or look for a newer version of this program",
			"this program reads pattern = %d and no other", version)
	}
}

// readAbout is the one text that may have several lines.
func readAbout(top *table) string {
	s, ok := top.raw("about", "A mat with a frame")
	if ok && safetext.TooLong(s, maxAbout) {
		top.failKey("about", "", "about has more than %d characters", maxAbout)
	}
	return strings.TrimSpace(safetext.CleanLines(s))
}

func readCastOn(top *table) pattern.CastOn {
	name, named := top.line("cast_on", "chain")
	passes, counted := top.whole("cast_on_passes", 1, 2)
	c, known := pattern.CastOnNamed(name)
	switch {
	case known:
	case named && !top.has("cast_on_passes"):
		hint := "known are " + strings.Join(pattern.CastOnNames(), ", ") +
			"; for another add cast_on_passes = 1 where it runs across once, 2 where it goes there and back"
		if near := safetext.Nearest(name, pattern.CastOnNames()); near != "" {
			hint = fmt.Sprintf("did you mean %q? For another cast-on add cast_on_passes = 1 or 2", near)
		}
		top.failKey("cast_on", hint, "the cast-on %s is not known here", shown(name))
	default:
		c = pattern.CastOn{Name: name, Passes: 1}
	}
	if counted {
		c.Passes = passes
	}
	return c
}

// readWay reads the directions the file states for the hand it is written for.
func readWay(top *table) (pattern.Hand, pattern.Way) {
	i, _ := top.choice("written_for", []string{pattern.RightHand.String(), pattern.LeftHand.String()})
	hand := pattern.Hand(i)
	way := pattern.DefaultWay(hand)
	if i, ok := top.choice("row_1", []string{pattern.ToLeft.String(), pattern.ToRight.String()}); ok {
		way.Row1 = pattern.Direction(i)
	}
	if i, ok := top.choice("peg_1", []string{pattern.Left.String(), pattern.Right.String()}); ok {
		way.Peg1 = pattern.Side(i)
	}
	return hand, way
}

func (h *head) readMarkers(top *table) {
	most := max(1, h.plan.Pegs)
	h.plan.MarkEvery, _ = top.whole("markers_every", 1, most)
	pegs, _ := top.list("markers", "[3, 24]")
	for _, e := range pegs {
		if peg, ok := top.wholeIn("markers", e, 1, most); ok {
			h.plan.Mark = append(h.plan.Mark, peg)
		}
	}
}

func (h *head) readGauges(top *table) {
	h.plan.Gauge = readGauge(top.table("gauge"), "")
	h.gauges = map[string]pattern.Gauge{"": h.plan.Gauge}
	for name, t := range top.table("gauges").named("gauges") {
		if _, twice := h.gauges[name]; twice {
			h.rep.errorf(t.at, "give each a name of its own", "there are two gauges called %s", shown(name))
			continue
		}
		h.gauges[name] = readGauge(t, name)
		h.plan.Gauges = append(h.plan.Gauges, h.gauges[name])
	}
}

func readGauge(t *table, name string) pattern.Gauge {
	t.allow(gaugeSection)
	stitches, rows, garter := t.figure("stitches"), t.figure("rows"), t.figure("garter_rows")
	over, ok := t.length("over", "10 cm")
	if !ok {
		if len(t.entries) > 0 && !t.has("over") {
			t.rep.errorf(t.at, `add over = "10 cm", or over = "4 in"`, "the gauge does not say over which length it was counted")
		}
		return pattern.Gauge{Name: name}
	}
	count := func(key string, n float64) float64 {
		d := float64(measure.DensityOf(n, over))
		if n > 0 && (d < fewestIn10cm || d > mostIn10cm) {
			t.failKey(key, "count over a relaxed swatch, and check over", "%s %s in 10 cm is no gauge of knitted fabric",
				measure.Number(min(d, 1e9), 1), strings.ReplaceAll(key, "_", " "))
			return 0
		}
		return d
	}
	return pattern.Gauge{
		Name: name, Stitches: count("stitches", stitches), Rows: count("rows", rows), GarterRows: count("garter_rows", garter),
	}
}

// A gauge outside these is a slip of the pen: the thickest yarn on the widest loom
// makes one stitch in 10 cm, the finest machine some 200. Common practice, no source.
const (
	fewestIn10cm = 0.5
	mostIn10cm   = 500
)

func readSwatch(t *table) pattern.Swatch {
	t.allow(swatchSection)
	stitches, _ := t.whole("stitches", 1, pattern.MaxPegs)
	rows, _ := t.whole("rows", 1, pattern.MaxRows)
	return pattern.Swatch{Stitches: stitches, Rows: rows, Grams: t.figure("grams")}
}

func readLoom(t *table) pattern.Loom {
	t.allow(loomSection)
	pegs, _ := t.whole("pegs", 1, pattern.MaxPegs)
	first, _ := t.whole("first_peg", 1, pattern.MaxPegs)
	spacing, _ := t.length("spacing", "1/2 in")
	return pattern.Loom{Pegs: pegs, SpacingMM: spacing.In(measure.Millimetre), FirstPeg: first}
}

// maxYarns is how many yarns a stitch can tell apart.
const maxYarns = 255

func (h *head) readYarns(top *table) {
	h.plan.Yarns = []pattern.YarnInfo{readYarn(top.table("yarn"), "")}
	h.yarns = map[string]pattern.Yarn{}
	for name, t := range top.table("yarns").named("yarns") {
		if _, twice := h.yarns[name]; twice {
			h.rep.errorf(t.at, "give each a name of its own", "there are two yarns called %s", shown(name))
			continue
		}
		if len(h.plan.Yarns) > maxYarns {
			h.rep.errorf(t.at, "", "a pattern has at most %d yarns", maxYarns)
			return
		}
		h.yarns[name] = pattern.Yarn(len(h.plan.Yarns))
		h.plan.Yarns = append(h.plan.Yarns, readYarn(t, name))
	}
}

func readYarn(t *table, name string) pattern.YarnInfo {
	t.allow(yarnSection)
	y := pattern.YarnInfo{Name: name, Weight: pattern.UnknownWeight}
	if weight, ok := t.whole("weight", 0, 7); ok {
		y.Weight = weight
	}
	y.Fibre, _ = t.line("fibre", "cotton")
	y.Colour, _ = t.line("colour", "slate")
	y.Metres, y.Grams, y.WPI, y.Tex = t.figure("metres"), t.figure("grams"), t.figure("wpi"), t.figure("tex")
	return y
}

func readMotifs(t *table) map[string]*table {
	motifs := map[string]*table{}
	for name, m := range t.named("motif") {
		if motifs[name] != nil {
			t.rep.errorf(m.at, "give each a name of its own", "there are two motifs called %s", shown(name))
			continue
		}
		m.allow(motifSection)
		if !m.has("chart") {
			m.failKey("chart", "add chart with the picture between three quotes", "the motif has no chart")
		}
		m.corner() // what is wrong with it is told even where no zone uses it
		motifs[name] = m
	}
	return motifs
}
