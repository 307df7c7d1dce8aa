package file

import (
	"maps"
	"slices"

	"bypeg/pattern/safetext"
)

// alternatives are keys of which a zone has one: writing one of them beside "like"
// puts the copied one aside.
var alternatives = [][]string{
	{"rows", "chart", "motif", "strip"},
	{"times", "height"},
}

// copyLike takes over the keys of the zone that zone i says it is like, and returns
// that zone's name, or nothing.
func (z *zoneReader) copyLike(t *table, i int) string {
	name, ok := t.line("like", "bottom border")
	if !ok {
		return ""
	}
	origin := z.known[name]
	switch {
	case name == z.names[i]:
		t.failKey("like", "name another zone", "a zone cannot be like itself")
	case origin != nil:
		t.copyFrom(origin, name)
		return name
	case slices.Contains(z.names[i:], name):
		t.failKey("like", "a zone can be like one that stands above it", "the zone %s comes only later", shown(name))
	default:
		t.failKey("like", didYouMean(name, z.known, "a zone can be like one that stands above it"), "there is no zone %s above", shown(name))
	}
	return ""
}

func (t *table) copyFrom(origin *table, name string) {
	t.like = &likeness{at: t.entries["like"].at.value, name: name, origin: origin}
	own := maps.Clone(t.entries)
	for key, e := range origin.entries {
		if key == "name" || key == "like" || isPutAside(key, own) {
			continue
		}
		e.copied = true
		t.entries[key] = e
	}
}

// isPutAside tells whether a zone writes the key itself, or another of the keys of
// which it can have one.
func isPutAside(key string, own map[string]entry) bool {
	if _, ok := own[key]; ok {
		return true
	}
	for _, group := range alternatives {
		if slices.Contains(group, key) {
			return slices.ContainsFunc(group, func(k string) bool { _, ok := own[k]; return ok })
		}
	}
	return false
}

// didYouMean is a hint that names the nearest known name, or else another.
func didYouMean[V any](name string, known map[string]V, otherwise string) string {
	if near := safetext.Nearest(name, slices.Sorted(maps.Keys(known))); near != "" {
		return "did you mean " + shown(near) + "?"
	}
	return otherwise
}
