package adopt

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// Told is a zone in words, with the row it ends at. Word is what a row of the piece is
// called.
func (z Zone) Told(word string) string {
	n := z.Last - z.First + 1
	switch {
	case z.unnamed:
		return z.Name
	case n == 1:
		return fmt.Sprintf("%s: %s %d", z.Name, word, z.First)
	case z.Times() > 1:
		return fmt.Sprintf("%s: %s, %d times; it ends at %s %d", z.Name, many(z.Block, word, word+"s"), z.Times(), word, z.Last)
	}
	return fmt.Sprintf("%s: %ss %d to %d", z.Name, word, z.First, z.Last)
}

// WordForWordNote begins what is said of rows that are taken for a loom although some are called
// wrong-side rows; what to do follows it.
const WordForWordNote = "the rows are taken word for word, as for a loom; if they were written for needles, "

// Notes are what is to be said of the pattern as a whole, a line each.
func (a *Adopted) Notes() []string {
	notes := []string{"fabric: " + a.FabricSaid()}
	if w := a.WordForWord; w.Kind > Texture && w != a.Fabric {
		notes = append(notes, "note: worked word for word, as if they were for a loom, these rows would make "+w.Kind.String()+" instead")
	}
	switch {
	case a.marksWrong:
		notes = append(notes, "note: "+WordForWordNote+"add --from needles, which turns the wrong-side rows round")
	case a.ifForNeedles:
		notes = append(notes, "note: if these rows were written for needles, add --from needles: there they are plain fabric")
	}
	for _, c := range a.Changes {
		notes = append(notes, "note: "+c)
	}
	if t := a.Together(); t != "" {
		notes = append(notes, "note: "+t)
	}
	return notes
}

// seemsForNeedles tells whether rows for a loom are what needles call plain: knit and purl
// in turn from edge to edge.
func seemsForNeedles(f Fabric, o Options, form pattern.Form) bool {
	return o.From == Loom && form == pattern.Panel && f.Kind == Garter
}

// String is the kind as a noun.
func (k Kind) String() string {
	return [...]string{
		Unknown: "a fabric that does not repeat", Shaped: "a shaped piece", Texture: "a texture", Plain: "plain fabric", ReversePlain: "reverse plain fabric",
		Garter: "garter", Welt: "a welt", Rib: "a rib", Seed: "seed", DoubleSeed: "double seed", Basket: "a basket",
	}[k]
}

// Sheet is the rows of a zone, to be written as a text.
func (a *Adopted) Sheet(z Zone) rowtext.Sheet {
	s := rowtext.Sheet{Form: a.Pattern.Form, Row1: a.Pattern.Way.Row1, First: z.First, Yarns: 1, Part: z.First > 1 || z.Last < len(a.Rows)}
	for _, r := range a.Rows[z.First-1 : z.Last] {
		s.Lines = append(s.Lines, rowtext.Line{Runs: r.Runs})
	}
	return s
}

// WorkedIn is the same fabric with its rows as a maker works them who goes another way, on
// whichever side row 1 starts. What the text says of itself, and File, stay with a.
func (a *Adopted) WorkedIn(w pattern.Way) *Adopted {
	told, p := *a, *a.Pattern
	p.Way = w
	told.Pattern = &p
	o := pattern.Order{Pattern: &p, Way: w}
	told.Rows = slices.Clone(a.Rows)
	for i := range told.Rows {
		r := &told.Rows[i]
		r.Direction, r.Runs = o.Direction(r.Number), rowtext.LineOf(o, r.Number)
	}
	return &told
}

// SeenFromBehind is the way of the rows that the text has as seen from behind; ok is
// false where there are none.
func (a *Adopted) SeenFromBehind() (way pattern.Direction, ok bool) {
	for _, r := range a.Rows {
		if r.Behind {
			return r.Direction, true
		}
	}
	return 0, false
}

// mostBands is how many bands of fabric are told; leastBand how many rows make one.
const (
	mostBands = 5
	leastBand = 2
)

// FabricSaid is what a person would call the fabric: where it does not repeat as a whole
// and its zones do, the bands that they are.
func (a *Adopted) FabricSaid() string {
	whole := a.Fabric.String()
	once := a.Fabric.Kind == Unknown || a.Fabric.Kind == Texture && a.Fabric.High[0] == 0 // no repeat of rows
	if !once || a.Fabric.Frame != (Frame{}) || len(a.Zones) < 2 || len(a.Zones) > mostBands {
		return whole
	}
	g, form := a.Pattern.Grid, a.Pattern.Form
	var bands []string
	for _, z := range a.Zones {
		f := FabricOf(g, form, Part{First: z.First, Last: z.Last, To: g.Pegs()})
		if f.Kind <= Texture || f.Frame != (Frame{}) || z.Last-z.First+1 < leastBand {
			return whole
		}
		bands = append(bands, fmt.Sprintf("%s (%ss %d to %d)", f.short(), form.RowWord(), z.First, z.Last))
	}
	return "bands from the bottom: " + strings.Join(bands, ", ")
}

// short is a fabric in a word or two.
func (f Fabric) short() string {
	if f.Kind == Rib {
		return fmt.Sprintf("%dx%d rib", f.Knit, f.Purl)
	}
	return f.Kind.String()
}
