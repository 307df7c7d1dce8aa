package work

import (
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// header says what the piece is and where it stands: the zone at the left, the whole at
// the right, each in as many words as fit.
func (m Model) header() string {
	lefts, rights := []string{m.piece.Title}, []string{joinNonEmpty(m.dot(), phaseWords[m.piece.Tracker.Place().Phase], m.ridges())}
	if _, _, ok := m.piece.Tracker.InZone(); ok {
		lefts, rights = m.headerLefts(), m.headerRights()
	}
	left, right := look.Apart(m.piece.Title, rights[len(rights)-1], m.words())
	for i := range lefts {
		if l, r := lefts[i], rights[i]; safetext.Width(l)+2+safetext.Width(r) <= m.words() {
			left, right = look.Apart(l, r, m.words())
			break
		}
	}
	return m.style.Strong(left) + right
}

func (m Model) dot() string { return " " + m.style.Dot + " " }

// headerLefts are the left sides to be tried, each beside its right side: with the row of
// the repeat where there is one, and without.
func (m Model) headerLefts() []string {
	t := m.piece.Tracker
	z, in, _ := t.InZone()
	zone := fmt.Sprintf("%s%s%s, %s %d of %d", m.piece.Title, m.dot(), z.Name, m.rowWord(), in.Done, in.Of)
	repeat := zone
	if r, ok := t.InRepeat(); ok {
		repeat = fmt.Sprintf("%s, %s of repeat %d", zone, ordinal(r.Row), r.Number)
	}
	return []string{repeat, repeat, zone, zone, m.piece.Title}
}

// headerRights are the right sides to be tried: with the ridge under way, without, and
// short.
func (m Model) headerRights() []string {
	t := m.piece.Tracker
	row, rows := t.Place().Row, t.Order().Pattern.Grid.Rows()
	ridges := m.ridges()
	counted := joinNonEmpty(m.dot(), fmt.Sprintf("%s %d of %d", m.rowWord(), row, rows), ridges)
	full := counted
	if r := t.Ridges(); r.Of > r.Done && t.Order().Pattern.HasRidges(t.Order().Pattern.ZoneIndex(row)) {
		full += ", on the " + ordinal(r.Done+1)
	}
	short := joinNonEmpty("  ", fmt.Sprintf("%s %d/%d", m.rowWord(), row, rows), ridges)
	return []string{full, counted, full, counted, short}
}

// ridges counts those that are done; "" where none can be counted, or none yet.
func (m Model) ridges() string {
	r := m.piece.Tracker.Ridges()
	if r.Of == 0 || m.piece.Tracker.Place().Phase == pattern.CastingOn {
		return ""
	}
	return track.Plural(r.Done, "ridge")
}

var phaseWords = map[pattern.Phase]string{
	pattern.CastingOn: "casting on", pattern.BindingOff: "binding off", pattern.Finishing: "finished",
}

func joinNonEmpty(sep string, parts ...string) string {
	var kept []string
	for _, p := range parts {
		if p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, sep)
}

func ordinal(n int) string {
	suffix := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return fmt.Sprintf("%d%s", n, suffix)
}
