package adopt

import (
	"fmt"
	"strings"
)

// What lies flat is published for garter, seed and the ribs of 1 and of 2; that ribs draw in
// and plain edges roll, too. Nothing is said of others.

// String is what a person would call the fabric, and how it behaves where that is known.
func (f Fabric) String() string {
	s := f.name()
	if frame := f.Frame.String(); frame != "" {
		s += "; " + frame
	}
	return s
}

func (f Fabric) name() string {
	switch f.Kind {
	case Plain:
		return "plain fabric (stockinette): knit everywhere; its edges roll"
	case ReversePlain:
		return "reverse plain fabric: purl everywhere; its edges roll"
	case Garter:
		return "garter: a knit row and a purl row in turn; lies flat"
	case Welt:
		return fmt.Sprintf("welt: bands of %s and %s", rows(f.Knit, "knit"), rows(f.Purl, "purl"))
	case Rib:
		flat := "draws in"
		if f.Knit == f.Purl && f.Knit <= 2 {
			flat = "lies flat, draws in"
		}
		return fmt.Sprintf("%dx%d rib: columns of %d knit and %d purl; %s", f.Knit, f.Purl, f.Knit, f.Purl, flat)
	case Seed:
		return "seed: knit and purl change every stitch and every row; lies flat"
	case DoubleSeed:
		return "double seed, which some call moss: knit and purl change every stitch and every 2 rows"
	case Basket:
		return fmt.Sprintf("basket: blocks of %s by %s, knit and purl in turn", both(f.Wide, "stitch", "stitches"), both(f.High, "row", "rows"))
	case Texture:
		return f.texture()
	case Shaped:
		return "a shaped piece: not all of its rows use all pegs"
	case Unknown:
	}
	if f.High[0] < 2 {
		return "a fabric that does not repeat"
	}
	return many(f.High[0], "row", "rows") + ", with no repeat shorter than that"
}

// texture tells a repeat that has no name.
func (f Fabric) texture() string {
	of := "a texture of knit and purl that repeats"
	if f.Moves {
		of = "a texture in which some stitches move loops; it repeats"
	}
	switch {
	case f.High[0] != 1 || f.Moves:
	case f.Wide[0] == 0:
		return "columns that are the same on every row"
	default:
		return "a rib of unlike columns, the same on every row, that repeats over " + many(f.Wide[0], "stitch", "stitches")
	}
	var over []string
	if f.Wide[0] > 0 {
		over = append(over, many(f.Wide[0], "stitch", "stitches"))
	}
	if f.High[0] > 0 {
		over = append(over, many(f.High[0], "row", "rows"))
	}
	return of + " over " + strings.Join(over, " and ")
}

// String tells the frame; it is empty where there is none.
func (f Frame) String() string {
	var parts []string
	if f.Sides > 0 {
		parts = append(parts, many(f.Sides, "stitch", "stitches")+" at both edges")
	}
	if f.Bottom > 0 {
		parts = append(parts, many(f.Bottom, "row", "rows")+" below")
	}
	if f.Top > 0 {
		parts = append(parts, many(f.Top, "row", "rows")+" above")
	}
	if len(parts) == 0 {
		return ""
	}
	return "garter around it: " + strings.Join(parts, ", ")
}

func rows(n int, face string) string {
	if n == 1 {
		return "1 " + face + " row"
	}
	return fmt.Sprintf("%d %s rows", n, face)
}

// both is two sizes that take turns: one where they are alike.
func both(n [2]int, one, more string) string {
	if n[0] == n[1] {
		return many(n[0], one, more)
	}
	return fmt.Sprintf("%d and %s", n[0], many(n[1], one, more))
}

func many(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}
