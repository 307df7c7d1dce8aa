package file

import (
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// legend tells what the signs of a chart are.
type legend struct {
	plain [128]pattern.Stitch // of plain letters and signs; unknownSign where there is none
	signs map[string]pattern.Stitch
}

// unknownSign is no stitch of any kind.
const unknownSign = ^pattern.Stitch(0)

// Every chart knows these. The bars are those of JIS L 0201 (published).
const chartSigns = "| or k is knit, - or p is purl"

// signHint says what to do about a sign that a chart does not know.
func signHint(sign string) string {
	if strings.TrimSpace(sign) == "" {
		return "draw the signs side by side without blanks: " + chartSigns
	}
	example := "x"
	if safetext.IsSymbol(sign) && sign != `"` && sign != `\` {
		example = sign
	}
	return chartSigns + `; name others under a header [legend], as in "` + example + `" = "slip"`
}

func readLegend(t *table) *legend {
	l := &legend{signs: map[string]pattern.Stitch{}}
	for i := range l.plain {
		l.plain[i] = unknownSign
	}
	l.plain['|'], l.plain['k'], l.plain['-'], l.plain['p'] = pattern.Knit, pattern.Knit, pattern.Purl, pattern.Purl
	for _, sign := range t.sortedKeys() {
		e := t.entries[sign]
		switch {
		case !safetext.IsSymbol(sign):
			t.fail(e, e.at.name, "choose a letter or another narrow character",
				"the sign %s is not one visible character that takes one cell", shown(sign))
		case strings.Contains("|k-p", sign):
			t.fail(e, e.at.name, "choose another sign", "%s has its meaning in every chart: %s", shown(sign), chartSigns)
		default:
			name, ok := t.line(sign, "yo")
			if !ok {
				continue
			}
			stitch, ok := stitchNamed(name)
			if !ok {
				t.fail(e, e.at.value, stitchHint(name), "%s is no stitch that is known here", shown(name))
				continue
			}
			l.add(sign, stitch)
		}
	}
	return l
}

func (l *legend) add(sign string, stitch pattern.Stitch) {
	if len(sign) == 1 {
		l.plain[sign[0]] = stitch
		return
	}
	l.signs[sign] = stitch
}

// at is the stitch at the start of s, and how many bytes its sign takes.
func (l *legend) at(s string) (pattern.Stitch, int) {
	if s[0] < 128 && (len(s) == 1 || s[1] < 128) {
		return l.plain[s[0]], 1
	}
	sign := safetext.First(s)
	if len(sign) == 1 {
		return l.plain[sign[0]&127], 1
	}
	if stitch, ok := l.signs[sign]; ok {
		return stitch, len(sign)
	}
	return unknownSign, len(sign)
}

// stitchNamed finds a plain stitch by its name in full or as rows are written.
func stitchNamed(name string) (pattern.Stitch, bool) {
	for _, s := range pattern.PlainStitches() {
		if strings.EqualFold(name, s.Short()) || strings.EqualFold(name, s.String()) {
			return s, true
		}
	}
	return 0, false
}

func stitchHint(name string) string {
	var names []string
	for _, s := range pattern.PlainStitches() {
		names = append(names, s.Short(), s.String())
	}
	if near := safetext.Nearest(name, names); near != "" {
		return "did you mean " + near + "?"
	}
	return "known are " + strings.Join(names, ", ")
}
