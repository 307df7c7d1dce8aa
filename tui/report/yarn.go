package report

import (
	"fmt"
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
		line := needText(n, r.Margin)
		if len(r.Yarns) > 1 {
			line = safetext.Clean(n.Yarn.Called()) + ": " + line
		}
		lines = append(lines, line)
		if len(r.Yarns) <= mostYarns && len(r.Order.Pattern.Zones) > 1 && n.Metres.Known() {
			lines = append(lines, r.zonesLine(n))
		}
	}
	if r.Held != nil {
		lines = append(lines, fmt.Sprintf("%d strands held together take %s", r.Strands, needText(r.Held, r.Margin)))
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

// needText is a need in a line.
func needText(n *fit.YarnNeed, margin float64) string {
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
		text += ", by the swatch that was weighed"
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
		return measure.Number(n.Yarn.Grams, 1) + " g"
	}
	return measure.Number(n.Yarn.Metres, 1) + " m"
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
	var parts []string
	for i, z := range n.Zones {
		if z.Metres.Known() {
			parts = append(parts, fmt.Sprintf("%s %.0f", r.Order.Pattern.Zones[i].Name, z.Metres.Likely))
		}
	}
	if len(parts) > mostZones {
		parts = append(parts[:mostZones-1], "...")
	}
	if edges := n.CastOn.Plus(n.BindOff).Metres; edges.Known() {
		parts = append(parts, fmt.Sprintf("both ends %.0f", edges.Likely))
	}
	return "in m: " + strings.Join(parts, ", ")
}
