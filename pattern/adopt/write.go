package adopt

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
)

// File is the pattern file: TOML that pattern/file loads to just these rows. An empty title
// is left out.
func (a *Adopted) File(title string) string {
	var b strings.Builder
	b.WriteString("pattern = 1\n")
	if title != "" {
		fmt.Fprintf(&b, "title   = %s\n", quoted(title))
	}
	fmt.Fprintf(&b, "about   = %s\n", quoted(a.FabricSaid()))
	fmt.Fprintf(&b, "form    = %q\n", a.Pattern.Form.String())
	fmt.Fprintf(&b, "pegs    = %d\n", a.Pattern.Pegs)
	fmt.Fprintf(&b, "row_1   = %q\n", a.Pattern.Way.Row1.String())
	if len(a.Parts) > 1 { // their pegs are numbered, and must not move with the maker's hand
		fmt.Fprintf(&b, "peg_1   = %q\n", a.Pattern.Way.Peg1.String())
	}
	signs := a.signs()
	if len(signs) > 0 {
		b.WriteString("\n[legend]\n")
		for i, st := range signs {
			fmt.Fprintf(&b, "\"%c\" = %q\n", sign(i), st.Short())
		}
	}
	for _, d := range a.Directives {
		if d.Unwritten {
			fmt.Fprintf(&b, "\n# left out, write them as rows: the text says %s\n", safetext.Clean(d.Msg))
		}
	}
	for i, z := range a.Zones {
		a.writeZone(&b, z, signs, a.remark(i))
	}
	return b.String()
}

// writeZone writes a zone. A remark stands behind its times, which are written for its sake and
// count repeats as the text does.
func (a *Adopted) writeZone(b *strings.Builder, z Zone, signs []pattern.Stitch, remark string) {
	fmt.Fprintf(b, "\n[[zone]]\nname   = %s\n", quoted(z.Name))
	if z.Border {
		b.WriteString("border = true\n")
	}
	if z.Sides > 0 {
		fmt.Fprintf(b, "sides  = %d\n", z.Sides)
	}
	if z.purlFirst(a) {
		b.WriteString("side_rows = [\"p\", \"k\"]\n")
	}
	if len(z.strips) > 0 {
		writeTimes(b, z.Times(), remark)
		a.writeStrips(b, z)
		return
	}
	if z.drawn {
		fmt.Fprintf(b, "chart  = \"\"\"\n%s\n\"\"\"\n", a.drawn(z.First, signs))
		writeTimes(b, 1, remark)
		return
	}
	var texts []string
	for row := z.First; row < z.First+z.Block; row++ {
		texts = append(texts, rowtext.Shortest(z.inner(a, row)))
	}
	times := z.Times()
	if alike := texts[0]; remark == "" && !slices.ContainsFunc(texts, func(s string) bool { return s != alike }) {
		texts, times = texts[:1], z.Last-z.First+1
	}
	writeRows(b, texts)
	writeTimes(b, times, remark)
}

func writeTimes(b *strings.Builder, times int, remark string) {
	if times > 1 || remark != "" {
		fmt.Fprintf(b, "times  = %d%s\n", times, remark)
	}
}

// writeStrips writes the parts of a zone that lie side by side.
func (a *Adopted) writeStrips(b *strings.Builder, z Zone) {
	for _, s := range z.strips {
		fmt.Fprintf(b, "\n[[zone.strip]]\npegs = %d\n", s.to-s.from)
		var texts []string
		for i := range s.rows {
			row := a.Rows[z.First-1+i]
			texts = append(texts, rowtext.Shortest(taken(lay(row.Runs, row.Direction)[s.from:s.to], row.Direction)))
		}
		writeRows(b, texts)
	}
}

// wide is how long a list of rows may be in one line.
const wide = 100

func writeRows(b *strings.Builder, texts []string) {
	var all []string
	for _, t := range texts {
		all = append(all, quoted(t))
	}
	line := "rows   = [" + strings.Join(all, ", ") + "]\n"
	if len(line) > wide {
		line = "rows   = [\n    " + strings.Join(all, ",\n    ") + ",\n]\n"
	}
	b.WriteString(line)
}

// signs are the stitches that drawn rows need a sign for, in the order of their ids.
func (a *Adopted) signs() []pattern.Stitch {
	var all []pattern.Stitch
	for _, z := range a.Zones {
		if !z.drawn {
			continue
		}
		for _, c := range a.Pattern.Grid.Row(z.First).Cells() {
			if c.Stitch != pattern.Knit && c.Stitch != pattern.Purl {
				all = append(all, c.Stitch)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// sign is the letter for the i-th stitch of a legend: those that charts know are left out.
func sign(i int) byte { return "abcdefghijlmnoqrstuvwxyz"[i] }

// drawn is a row as a chart draws it.
func (a *Adopted) drawn(row int, signs []pattern.Stitch) string {
	var line []byte
	for _, c := range a.Pattern.Grid.Row(row).Cells() {
		switch c.Stitch {
		case pattern.Knit:
			line = append(line, '|')
		case pattern.Purl:
			line = append(line, '-')
		default:
			line = append(line, sign(slices.Index(signs, c.Stitch)))
		}
	}
	return string(line)
}

// quoted is a text as a string of TOML. It comes from a person: what TOML would take for an
// escape or an end is left out.
func quoted(s string) string {
	return `"` + strings.NewReplacer(`"`, `'`, `\`, `/`).Replace(safetext.Clean(s)) + `"`
}
