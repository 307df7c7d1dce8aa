package report

import (
	"fmt"
	"math"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/tui/track"
)

// loomLines tell whether the loom has pegs enough, where to begin on it, and which yarn
// suits it.
func (r *Report) loomLines() []string {
	l, p := r.Loom, r.Order.Pattern
	var lines []string
	apart := ""
	if l.Loom.SpacingMM > 0 {
		apart = fmt.Sprintf("pegs %s mm (%s) apart, often called %s", measure.Number(l.Loom.SpacingMM, 1), spacingInches(l.Loom.SpacingMM), l.Name)
	}
	switch {
	case l.Fits == fit.Unknown && apart == "":
		return []string{fmt.Sprintf("the pattern names none; it takes %s", track.Plural(p.Pegs, "peg"))}
	case l.Fits == fit.Unknown:
		lines = append(lines, fmt.Sprintf("takes %s; %s", track.Plural(p.Pegs, "peg"), apart))
	case l.Fits == fit.No:
		lines = append(lines, r.tooShort()...)
	default:
		lines = append(lines, strings.TrimSuffix(fmt.Sprintf("fits: %d of %s; %s", p.Pegs, track.Plural(l.Loom.Pegs, "peg"), apart), "; "))
	}
	if l.Fits == fit.Yes && l.Unused > 0 {
		lines = append(lines, r.unusedLine())
	}
	if len(r.Classes) > 0 {
		line := fmt.Sprintf("yarn of class %s (%s)", fit.ClassWords(r.Classes), fit.Classes[r.Classes[0]].Name)
		if l.Suits != nil && l.Off == 0 {
			line += " usually suits such pegs"
		}
		lines = append(lines, line)
	}
	if given := p.Gauge.Stitches; r.OwnLoom && given > 0 && l.Loom.SpacingMM > 0 {
		e := fit.ExpectedOn(measure.Length(l.Loom.SpacingMM))
		lines = append(lines, fmt.Sprintf("one expects %.0f to %.0f stitches in 10 cm on such pegs; the size goes by the pattern's %s: work a swatch",
			float64(e.Low), float64(e.High), measure.Number(given, 1)))
	}
	return lines
}

func (r *Report) tooShort() []string {
	l, p := r.Loom, r.Order.Pattern
	if l.Unused >= 0 {
		return []string{fmt.Sprintf("does not fit: begun at the loom's peg %d, the last of %d pegs would be number %d of %d",
			l.First, p.Pegs, l.First+p.Pegs-1, l.Loom.Pegs)}
	}
	lines := []string{fmt.Sprintf("too short: the pattern takes %s, the loom has %d", track.Plural(p.Pegs, "peg"), l.Loom.Pegs)}
	if p.Form == pattern.Panel {
		asked := "bypeg resize"
		if r.Typed {
			asked += fmt.Sprintf(" FILE --loom %d", l.Loom.Pegs)
		}
		lines = append(lines, "sew it together of panels, or make it narrower: "+asked+" says how")
	}
	return lines
}

func (r *Report) unusedLine() string {
	l, p := r.Loom, r.Order.Pattern
	stay := "stay"
	if l.Unused == 1 {
		stay = "stays"
	}
	line := fmt.Sprintf("%s %s empty: peg 1 of the work is the loom's peg %d", track.Plural(l.Unused, "peg"), stay, l.First)
	if l.Centred && l.First > 1 {
		line = fmt.Sprintf("%s %s empty: begin at the loom's peg %d to lie in the middle", track.Plural(l.Unused, "peg"), stay, l.First)
	}
	if p.Form == pattern.Tube {
		line = fmt.Sprintf("%s %s empty: a round closes only where the loom can be made so short", track.Plural(l.Unused, "peg"), stay)
	}
	return line
}

// spacingInches is a spacing as makers of looms say it.
func spacingInches(mm float64) string {
	sixteenths := int(math.Round(mm / 25.4 * 16))
	if off := math.Abs(float64(sixteenths)*25.4/16 - mm); off > 0.2 || sixteenths == 0 {
		return measure.Number(mm/25.4, 2) + " in"
	}
	n, of := sixteenths, 16
	for n%2 == 0 && of > 1 {
		n, of = n/2, of/2
	}
	if of == 1 {
		return fmt.Sprintf("%d in", n)
	}
	return fmt.Sprintf("%d/%d in", n, of)
}
