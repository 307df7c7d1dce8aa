package file

import (
	"slices"
	"strings"
)

// section is a part of the file and the keys it may have.
type section struct {
	where string // how messages call it
	keys  []string
}

var (
	topSection = section{"at the top of the file", []string{
		"pattern", "title", "about", "use", "form", "pegs", "cast_on", "cast_on_passes", "row_1", "peg_1", "written_for",
		"knit_as", "markers", "markers_every", "gauge", "gauges", "swatch", "loom", "yarn", "yarns", "legend", "motif", "zone",
	}}
	gaugeSection  = section{"in a gauge", []string{"stitches", "rows", "over", "garter_rows"}}
	swatchSection = section{"in [swatch]", []string{"stitches", "rows", "grams"}}
	loomSection   = section{"in [loom]", []string{"pegs", "spacing", "first_peg"}}
	yarnSection   = section{"in a yarn", []string{"weight", "fibre", "metres", "grams", "wpi", "tex", "colour"}}
	motifSection  = section{"in a motif", []string{"chart", "at"}}
	zoneSection   = section{"in a zone", []string{
		"name", "border", "rows", "chart", "motif", "strip", "times", "height", "sides", "side_rows", "edge", "like",
		"gauge", "yarn", "knit_as",
	}}
	stripSection = section{"in a strip", []string{"pegs", "rows", "chart", "gauge", "yarn"}}
)

// These headers have double brackets, since there may be several of each.
const (
	zoneHeader  = "[[zone]]"
	stripHeader = "[[zone.strip]]"
)

// listHeader is how a header is written whose names are those, where it takes
// double brackets.
func listHeader(names []string) (header string, ok bool) {
	header = "[[" + strings.Join(names, ".") + "]]"
	return header, header == zoneHeader || header == stripHeader
}

// homeOf says where a key belongs, for one that strayed: in TOML whatever follows a
// header belongs to it, which is easily forgotten.
func homeOf(key string) string {
	switch {
	case slices.Contains(topSection.keys, key):
		return "at the top of the file, before the first header"
	case slices.Contains(zoneSection.keys, key):
		return "in a [[zone]]: write that header above it"
	case slices.Contains(gaugeSection.keys, key):
		return "in [gauge]"
	case slices.Contains(yarnSection.keys, key):
		return "in [yarn]"
	case slices.Contains(loomSection.keys, key):
		return "in [loom]"
	}
	return ""
}
