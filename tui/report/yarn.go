package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// yarnLines tell how much of each yarn is needed, and where it goes.
func (r *Report) yarnLines() []string {
	var lines []string
	for i := range r.Yarns {
		n := &r.Yarns[i]
		unknown := !n.Metres.Known() && !n.Grams.Known()
		if unknown && (i > 0 || r.Size.Gauge.Stitches.Known()) { // no stitch is worked in it, or it is said once
			continue
		}
		if len(lines) >= mostYarnLines {
			lines = append(lines, fmt.Sprintf("and %s more", track.Plural(len(r.Yarns)-i, "yarn")))
			break
		}
		line := NeedText(n, r.Margin, r.weighed())
		if len(r.Yarns) > 1 {
			line = safetext.Clean(n.Yarn.Called()) + ": " + line
		}
		lines = append(lines, line)
		if len(r.Yarns) <= mostYarns && len(r.Order.Pattern.Zones) > 1 && n.Metres.Known() {
			lines = append(lines, r.zonesLine(n))
		}
	}
	if r.Held != nil {
		lines = append(lines, fmt.Sprintf("%d strands held together take %s", r.Strands, NeedText(r.Held, r.Margin, r.weighed())))
	}
	if r.anyUnknown() {
		lines = append(lines, "write metres and grams of a ball under [yarn] to know how many to buy")
	}
	return lines
}

func (r *Report) anyUnknown() bool {
	for i := range r.Yarns {
		if n := &r.Yarns[i]; (n.Metres.Known() || n.Grams.Known()) && n.Balls(0) == 0 {
			return r.Held == nil
		}
	}
	return false
}

// weighed is what was weighed, if anything was.
func (r *Report) weighed() string {
	if r.By != nil && r.By.Figures.PerStitch > 0 {
		return "piece"
	}
	return Swatch
}

// Swatch is what was weighed as a rule.
const Swatch = "swatch"

// NeedText is a need in a line, and how many balls to buy with a margin such as 0.1; where it
// goes by something that was weighed, that is what it was.
func NeedText(n *fit.YarnNeed, margin float64, weighed string) string {
	var text string
	switch {
	case n.Metres.Known():
		text = bounds(n.Metres, "m")
		if n.Grams.Known() {
			text += fmt.Sprintf(" (%.0f g)", n.Grams.Likely)
		}
	case n.Grams.Known():
		text = bounds(n.Grams, "g")
	default:
		return "not known without a gauge"
	}
	if n.Weighed {
		text += ", by the " + weighed + " that was weighed"
	}
	if balls := n.Balls(margin); balls > 0 {
		text += fmt.Sprintf("; buy %s of %s", track.Plural(balls, "ball"), ballText(n))
		if margin > 0 {
			text += fmt.Sprintf(", %s %% to spare", measure.Number(100*margin, 1))
		}
	}
	return text
}

func ballText(n *fit.YarnNeed) string {
	if n.Yarn.Grams > 0 {
		return gramsText(n.Yarn.Grams)
	}
	return measure.Number(n.Yarn.Metres, 1) + " m"
}

// gramsText is the weight of a ball. One that is no whole grams and whole quarters of an
// ounce was told in ounces.
func gramsText(grams float64) string {
	text := measure.Number(grams, 1) + " g"
	quarters := 4 * grams / fit.GramsInOunce
	if whole := math.Round(quarters); whole > 0 && math.Abs(quarters-whole) < 0.001 && math.Abs(grams-math.Round(grams)) > 0.001 {
		return measure.Number(whole/4, 2) + " oz (" + text + ")"
	}
	return text
}

// bounds is an amount to the metre or gram.
func bounds(r fit.Range[float64], unit string) string {
	low, likely, high := fmt.Sprintf("%.0f", r.Low), fmt.Sprintf("%.0f", r.Likely), fmt.Sprintf("%.0f", r.High)
	if low == high {
		return fmt.Sprintf("about %s %s", likely, unit)
	}
	return fmt.Sprintf("%s to %s %s, likely %s %[3]s", low, high, unit, likely)
}

// mostZones is how many zones are told of in a line, and mostYarns with how many yarns.
const (
	mostZones = 8
	mostYarns = 3
)

// mostYarnLines is how many lines may tell of yarns.
const mostYarnLines = 12

// zonesLine tells where the yarn goes.
func (r *Report) zonesLine(n *fit.YarnNeed) string {
	var names []string
	var metres []float64
	for i, z := range n.Zones {
		names, metres = append(names, r.Order.Pattern.Zones[i].Name), append(metres, z.Metres.Likely)
	}
	names, metres = append(names, "both ends"), append(metres, n.CastOn.Plus(n.BindOff).Metres.Likely)
	var parts []string
	for i, whole := range shares(metres) {
		if whole > 0 {
			parts = append(parts, fmt.Sprintf("%s %d", names[i], whole))
		}
	}
	if len(parts) > mostZones+1 {
		parts = append(append(parts[:mostZones-1], "..."), parts[len(parts)-1])
	}
	return "in m: " + strings.Join(parts, ", ")
}

// shares are parts in whole numbers that make their whole as it is told. What rounding has
// taken or given is the largest part's that has no twin: borders that are alike take alike.
func shares(parts []float64) []int {
	all, sum, rest := make([]int, len(parts)), 0.0, 0
	for i, part := range parts {
		all[i] = int(math.Round(part))
		sum, rest = sum+part, rest-all[i]
	}
	rest += int(math.Round(sum))
	largest := len(parts) - 1
	for i, part := range parts {
		twin := func(x float64) bool { return math.Abs(x-part) < 0.01*part }
		if part > parts[largest] && !slices.ContainsFunc(slices.Delete(slices.Clone(parts), i, i+1), twin) {
			largest = i
		}
	}
	all[largest] += rest
	return all
}
