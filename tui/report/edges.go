package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/tui/track"
)

// edgeLines tell which edges are likely to roll. Edges of which the same is to be said
// share a line.
func (r *Report) edgeLines() []string {
	var lines []string
	said := map[string][]string{}
	var order []string
	for _, e := range r.Edges {
		text := edgeText(e, r.Order.Pattern)
		if said[text] == nil {
			order = append(order, text)
		}
		said[text] = append(said[text], e.Of.String())
	}
	for _, text := range order {
		names := Listed(said[text])
		if len(said[text]) == len(r.Edges) && len(r.Edges) == 4 {
			names = "all four"
		}
		if len(said[text]) > 1 {
			text = plural(text)
		}
		lines = append(lines, names+" "+text)
	}
	return append(lines, r.pullLines()...)
}

// plural is said of several edges.
func plural(text string) string {
	for one, many := range map[string]string{"lies flat": "lie flat", "rolls": "roll"} {
		if after, ok := strings.CutPrefix(text, one); ok {
			return many + after
		}
	}
	return text
}

func edgeText(e fit.Edge, p *pattern.Pattern) string {
	if e.Roll == fit.LiesFlat {
		return e.Roll.String()
	}
	way := "back"
	if e.ToFront {
		way = "front"
	}
	text := fmt.Sprintf("%s to the %s", e.Roll, way)
	switch {
	case e.Border == 0:
	case e.Of.Side():
		text += fmt.Sprintf(": less likely with %s of garter there", track.Plural(e.Border, "peg")) + insteadOf(e)
	default:
		text += fmt.Sprintf(": less likely with %s of garter there%s, %s", track.Plural(e.Border, p.Form.RowWord()), insteadOf(e), track.Plural(e.Border/2, "ridge"))
	}
	return text
}

// insteadOf tells of a border that is there and too narrow.
func insteadOf(e fit.Edge) string {
	if e.Has == 0 || e.Has >= e.Border {
		return ""
	}
	return fmt.Sprintf(" instead of %d", e.Has)
}

// mostNamed is how many zones are named in a line.
const mostNamed = 4

// pullLines tell of garter sides that come out shorter than what is between them. Those that
// stretch ask nothing of the maker and share a line.
func (r *Report) pullLines() []string {
	var lines, names []string
	low, high := 1.0, 0.0
	for _, in := range r.Pulls {
		if !in.Narrow() {
			lines = append(lines, r.pullLine(in))
			continue
		}
		names = append(names, r.Order.Pattern.Zones[in.Zone].Name)
		low, high = min(low, in.Short), max(high, in.Short)
	}
	if names == nil {
		return lines
	}
	where := Listed(names)
	if len(names) > mostNamed {
		where = track.Plural(len(names), "zone")
	}
	by := fmt.Sprintf("%.0f", 100*low)
	if most := fmt.Sprintf("%.0f", 100*high); most != by {
		by += " to " + most
	}
	return append([]string{fmt.Sprintf("%s: garter sides are %s %% shorter, but narrow enough to stretch", where, by)}, lines...)
}

func (r *Report) pullLine(in fit.PullIn) string {
	zone := &r.Order.Pattern.Zones[in.Zone]
	text := fmt.Sprintf("%s: garter sides are %.0f %% shorter than it by themselves", zone.Name, math.Round(100*in.Short))
	if !slices.ContainsFunc(zone.Strips, func(s pattern.Strip) bool { return s.Side }) || in.Pairs == 0 {
		return text
	}
	return text + fmt.Sprintf(": turn and go back in the side alone, %[2]d times, every %[1]d rows, if it does not stretch; every 10 to 20 rows is usual", in.Every, in.Pairs)
}
